"""What a farmer asks that the rules of the trade answer whatever the flock does: "how long do they
need the fire?", "may the class come in?", "no water at night, is it true?".
In: an annotated text and the hearing. Out: codes of what is asked, in the order said. Pure; called
by `read`. The words stand in replies.yaml under `ruled`.
"""

from __future__ import annotations

from bot.facts.talk import Hearing
from bot.understand.annotate import Text
from bot.understand.leave import ASKED
from bot.understand.spoken import Forms, told_aside

RULED = "ruled"
SELLER, AGES, SLEEPS = "seller", "ages", "sleeps"
UNASKED = (SELLER, AGES, SLEEPS, "handled", "pond")  # answered where it is only told as well
BARE, NORMAL = "bare", "normal"


def ruled(text: Text, hearing: Hearing, forms: Forms) -> tuple[str, ...]:
    """What is asked; what does harm at any time also where it is told."""
    found = told_aside(text, RULED, hearing, forms)
    if not found:
        return ()
    options = dict.fromkeys(one.option for one in found)
    normal = NORMAL in options
    options.pop(NORMAL, None)
    if not normal:
        options.pop(BARE, None)  # "no feathers yet, do i take them back in?" is another matter
    asks = normal or text.has("@question", "what_to_do") or any(one.asked for one in text.clauses)
    asks = asks or bool(told_aside(text, ASKED, hearing, forms))
    said = {one.option for one in found if not one.denied}
    return tuple(one for one in options if asks or (one in UNASKED and one in said))

"""What a farmer asks that the rules of the trade answer whatever the flock does: "how long do they
need the fire?", "may the class come in?", "no water at night, is it true?".
In: an annotated text and the hearing. Out: codes of what is asked, in the order said. Pure; called
by `read`. The words stand in replies.yaml under `ruled`.
"""

from __future__ import annotations

from dataclasses import replace

from bot.facts.talk import Hearing, Intent, Meaning
from bot.understand.annotate import Text
from bot.understand.leave import ASKED
from bot.understand.spoken import Forms, told_aside

RULED = "ruled"
SELLER, AGES, SLEEPS = "seller", "ages", "sleeps"
UNASKED = (
    SELLER,
    AGES,
    SLEEPS,
    "handled",
    "pond",
    "layer",
)  # answered where it is only told as well
BARE, NORMAL, SMELL, FRESH = "bare", "normal", "smell", "fresh"
LAYER, WRONG_FEED, UNFED = "layer", "wrong_feed", "unfed"
# What healthy birds do: answered only where it is asked whether that is as it should be.
MOULT, SOFT, STRETCHED, SCATTERED, BROWN = "moult", "soft", "stretched", "scattered", "brown"
OF_HEALTHY = (BARE, MOULT, SOFT, STRETCHED, SCATTERED, BROWN)
OF_OTHER_SMELLS = ("smoke", "feed", "navel")
SMELLS, SEEN = "ammonia_smell", Intent.OBSERVE


def ruled(text: Text, hearing: Hearing, forms: Forms, *, asking: bool) -> tuple[str, ...]:
    """What is asked; what does harm at any time also where it is told. asking: by its intent."""
    found = told_aside(text, RULED, hearing, forms)
    if not found:
        return ()
    options = dict.fromkeys(one.option for one in found)
    normal = NORMAL in options
    options.pop(NORMAL, None)
    if not normal:  # "no feathers yet, do i take them back in?" is another matter
        for one in OF_HEALTHY:
            options.pop(one, None)
    if WRONG_FEED in options:
        options.pop(LAYER, None)
    if options.pop(FRESH, 0) is None or text.has(*OF_OTHER_SMELLS):
        options.pop(SMELL, None)
    asks = (
        asking
        or normal
        or text.has("@question", "what_to_do")
        or any(one.asked for one in text.clauses)
    )
    asks = asks or bool(told_aside(text, ASKED, hearing, forms))
    said = {one.option for one in found if not one.denied}
    return tuple(one for one in options if asks or (one in UNASKED and one in said))


def smelt(meaning: Meaning, asked: tuple[str, ...]) -> Meaning:
    """ "Is a smell like a toilet normal?": what a question names is smelt in the house."""
    told = meaning.signals or meaning.parts or meaning.slots.answer
    if SMELL not in asked or told or meaning.intent not in (Intent.ASK, Intent.OTHER, SEEN):
        return meaning
    smell = Meaning(SEEN, signals=(SMELLS,), language=meaning.language)
    return replace(smell, means=meaning.means, leave=meaning.leave)

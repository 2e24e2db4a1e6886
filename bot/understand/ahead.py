"""Weather that is to come, and a wish to be ready for it. In: an annotated text and the hearing.
Out: codes of what is coming. Pure; called by `read`, answered by `decide.intended`.
"""

from __future__ import annotations

from bot.facts.talk import Hearing
from bot.understand.annotate import Text

COMING = {"hot_weather": "heat_ahead", "cold_weather": "cold_ahead"}


def weather_ahead(text: Text, hearing: Hearing) -> tuple[str, ...]:
    """ "radio says very hot tomorrow, how do i prepare": said anywhere in the text. Who asks what
    to do before it comes means the same as who asks how to get ready."""
    ready = text.has("get_ready") or (text.has("what_to_do") and text.has("foretold"))
    if not (hearing.has_batch and ready):
        return ()
    return tuple(code for name, code in COMING.items() if text.has(name))[:1]

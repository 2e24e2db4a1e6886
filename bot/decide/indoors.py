"""People before birds where nobody is ill yet: who sleeps beside the chicks, an engine in a room,
somebody still inside after bad air.

In: what was heard. Out: the one text of it, or a text behind the answer to something else. No
weighing: carbon monoxide has no smell, so a plan is answered like a deed (CPSC 5012). Called by
`decide.danger` and `turn.choose`.
"""

from __future__ import annotations

from dataclasses import replace

from bot.decide.common import say
from bot.diagnosis.story import POISONED, Heard, Story
from bot.facts.talk import Decision, Intent, Line, Meaning, Why
from bot.facts.writes import Write

SLEEPS, ENGINE = "sleeps_inside", "generator_inside"
INDOORS = {ENGINE: "generator_out", SLEEPS: "sleep_out"}  # the graver first
INSIDE = "fumes_inside"
GUESSED = 0.5  # so sure of a meaning is who only guesses


def indoors(
    meaning: Meaning, heard: Heard, story: Story, noted: tuple[Write, ...]
) -> Decision | None:
    """The text where nothing else was told. noted: the deaths of the text, taken down."""
    key = _told(heard)
    if key is not None and _nothing_else(heard) and not noted:
        return Decision((say(key),), (), None, Why(cause="fumes"), referred=story.cause == "fumes")
    if not _fresh(story) or not (noted or _not_understood(meaning, heard)):
        return None
    more = ((say(key),),) if key else ()
    return Decision((say(INSIDE),), noted, None, Why(cause="fumes"), referred=True, more=more)


def beside(decision: Decision, heard: Heard) -> Decision:
    """The same answer, with the word on people behind it where they were told of beside birds."""
    key = _told(heard)
    said = {line.key for part in (decision.lines, *decision.more) for line in part}
    if key is None or said.intersection((key, "danger_fumes")):
        return decision
    further: tuple[Line, ...] = (say(key),)
    return replace(decision, more=(further, *decision.more))


def _told(heard: Heard) -> str | None:
    return next((key for sign, key in INDOORS.items() if sign in heard.signals), None)


def _nothing_else(heard: Heard) -> bool:
    return set(heard.signals) <= set(INDOORS) and not heard.not_signals and heard.taken is None


def _fresh(story: Story) -> bool:
    """Bad air was told, and nobody has asked yet whether it is better."""
    return story.cause == "fumes" and POISONED in story.asked and not story.checks


def _not_understood(meaning: Meaning, heard: Heard) -> bool:
    """No fact of ours: it may be of a person who is still in there."""
    told = heard.signals or heard.not_signals or heard.taken
    guessed = meaning.intent is Intent.OBSERVE and meaning.confidence <= GUESSED
    asked = meaning.intent is Intent.ASK and meaning.confidence <= GUESSED
    return not told and (meaning.intent is Intent.OTHER or guessed or asked)

"""What a text tells of people, and what the farmer means to do, where either goes before the birds.
In: an annotated text and the hearing. Out: the codes told, and the text without the clauses that
are of people. Pure; called by `read`.

After an alarm of bad air "he coughs" is a person: a clause is the birds' where it names them, or
tells of many, of the dead or of the heat without naming a person. In another trouble only a clause
that names a person and tells nothing else is. The words stand in replies.yaml: `people`, with the
words for a person under `about`, `means`, and `plans`: what is meant well and always does harm.
"""

from __future__ import annotations

from typing import NamedTuple

from bot.facts.talk import Hearing
from bot.understand.annotate import Clause, Text
from bot.understand.spoken import ABOUT, Aside, Forms, told_aside

PEOPLE, MEANS, PLANS = "people", "means", "plans"
INSIDE, DOWN, ILL, WELL, OUT = "inside", "down", "ill", "well", "out"
GRAVEST_FIRST = (INSIDE, DOWN, ILL, WELL, OUT)
GRAVE = (INSIDE, DOWN, ILL)
DENIED = {INSIDE: OUT, DOWN: WELL, ILL: WELL, WELL: ILL, OUT: INSIDE}
DROPPINGS = ("droppings", "diarrhoea", "blood", "red", "vent")
THE_BIRDS = (
    "@plural",
    "dead",
    "die_many",
    "heat",
    *DROPPINGS,
)  # of them unless a person is named beside it
DEAD, DOGS = "dead", "dogs"
MOULDY, USED, BAD_FEED = "mouldy", "used", "feed"
WET, COOLING, COOL = "wet", "cooling", "cool"
ASKED = (PEOPLE, "check_back")


class OfPeople(NamedTuple):
    """told: codes, the gravest first. rest: the words of all other clauses."""

    told: tuple[str, ...]
    rest: str


def of_people(text: Text, hearing: Hearing, forms: Forms) -> OfPeople | None:
    """What is told of people; None where nothing is."""
    found = told_aside(text, PEOPLE, hearing, forms)
    named = [one.clause for one in found if one.option == ABOUT]
    mine = [
        one
        for one in found
        if one.option != ABOUT
        and not (one.clause.asked or one.clause.has("@if"))
        and _is_of_people(one.clause, named, hearing)
    ]
    codes = {DENIED[one.option] if one.denied else one.option for one in mine}
    if not codes:
        return None
    told = tuple(one for one in GRAVEST_FIRST if one in codes)
    return OfPeople(told, _without(text, mine))


def _is_of_people(clause: Clause, named: list[Clause], hearing: Hearing) -> bool:
    person = any(one is clause for one in named)
    if clause.has("bird"):
        return False
    asked = hearing.asked in ASKED  # "all well" answers what was asked of the people
    return person or (hearing.air and (asked or not clause.has(*THE_BIRDS)))


def _without(text: Text, mine: list[Aside]) -> str:
    """The other clauses, each behind a break."""
    left = [one for one in text.clauses if all(one is not other.clause for other in mine)]
    return " , ".join(
        " ".join(token.text for token in text.tokens[one.start : one.end]) for one in left
    )


def means(text: Text, hearing: Hearing, forms: Forms) -> tuple[str, ...]:
    """What the farmer means to do with ill or dead birds. Dogs are a danger by the dead that they
    eat: they count beside those, or where a disease is suspected."""
    found = told_aside(text, MEANS, hearing, forms)
    told = dict.fromkeys(one.option for one in found if not one.denied and one.option != ABOUT)
    if DOGS in told and (DEAD in told or hearing.held):
        told[DEAD] = None
    told.pop(DOGS, None)
    if text.has("vet"):
        told.pop("medicine", None)  # what the vet gave or said is no cure of one's own
    return tuple(told)


def plans(text: Text, hearing: Hearing, forms: Forms) -> tuple[str, ...]:
    """What the farmer means to do that does harm at any time, though meant well. "used": feed that
    is to be used after all; where it is called mouldy, "feed". "cool": water on birds or floor, for
    the heat."""
    found = told_aside(text, PLANS, hearing, forms)
    told = dict.fromkeys(one.option for one in found if not one.denied and one.option != ABOUT)
    if MOULDY in told:
        del told[MOULDY]
        if told.pop(USED, 0) is None:
            told[BAD_FEED] = None
    cools = told.pop(COOLING, 0) is None
    if WET in told and cools:
        del told[WET]
        told[COOL] = None  # told with what for
    return tuple(told)

"""Texts with danger in them, and texts without, in every state that a phone can be in.

Half of the danger texts are the examples' own, half are worded by someone who wrote them without
looking at the words and patterns of the languages (`apart.yaml`). Some are answers: danger that is
admitted to a question of ours. In: how many, a seed. Out: what was texted, whether it was referred.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from functools import cache
from pathlib import Path
from random import Random

from bot.decide.common import menu
from bot.diagnosis.question import LITTER, YES_NO
from bot.diagnosis.story import ASKED_OF_MANY
from bot.facts.farm import Phone
from bot.facts.talk import Question
from bot.handbook.shape_words import Example
from bot.handbook.strict import read_yaml
from bot.handbook.words import EXAMPLE_CONTEXT, load_examples
from bot.wiring import Thinking
from tests.diagnosis.talking import CONTENT, Farm

ADMITTED = 0.3  # share of the danger complaints that are answers to a question of ours
LANGUAGES = ("en", "fr", "sw")
APART = Path(__file__).with_name("apart.yaml")
BEFORE = {
    "en": ("", "", "hello, ", "help! ", "good morning. ", "sir ", "STOP. "),
    "fr": ("", "", "bonjour, ", "aidez moi! ", "svp ", "docteur, ", "STOP. "),
    "sw": ("", "", "habari, ", "saidia! ", "tafadhali, ", "bwana, ", "STOP. "),
}


@dataclass(frozen=True)
class Dress:
    """after: what follows the danger in a text. yes: how a question of ours is said yes to."""

    after: Mapping[str, Sequence[str]]
    yes: Mapping[str, Sequence[str]]


PLAIN = Dress(
    dict.fromkeys(LANGUAGES, ("", ".", "!!", "?")),
    {"en": ("1", "yes", "Yes."), "fr": ("1", "oui", "Oui."), "sw": ("1", "ndiyo", "Ndio.")},
)
TALKING = Dress(
    {
        "en": ("", "", ".", " pls help", " what do i do?", "!!"),
        "fr": ("", "", ".", " que faire?", " aidez moi", "!!"),
        "sw": ("", "", ".", " nifanye nini?", " naomba msaada", "!!"),
    },
    {
        "en": ("1", "yes", "yes many", "Yes.", "1."),
        "fr": ("1", "oui", "oui beaucoup", "Oui.", "1."),
        "sw": ("1", "ndiyo", "ndio wengi", "Ndiyo.", "1."),
    },
)
ADMITS = ("bloody_droppings", *ASKED_OF_MANY)


@dataclass(frozen=True)
class Told:
    """One text. admitted: as the answer to a question of ours."""

    language: str
    text: str
    admitted: bool
    referred: bool


def season(number: int, seed: int, thinking: Thinking, dress: Dress) -> list[Told]:
    """Many complaints with danger in them, each with a chance of its own."""
    return [_alarm(Random(f"{seed}:{at}"), thinking, dress) for at in range(number)]


def calm_season(number: int, seed: int, thinking: Thinking) -> list[Told]:
    """Many complaints without danger."""
    return [_calm(Random(f"{seed}:{at}"), thinking) for at in range(number)]


def _alarm(chance: Random, thinking: Thinking, dress: Dress) -> Told:
    language = chance.choice(LANGUAGES)
    if chance.random() < ADMITTED:
        return _admitted(language, chance, thinking, dress)
    pool = (apart("danger") if chance.random() < 0.5 else dangerous())[language]
    text = (
        chance.choice(BEFORE[language]) + chance.choice(pool) + chance.choice(dress.after[language])
    )
    farm = _farm(language, chance, thinking)
    if chance.random() < 0.3:
        farm.put(chance.choice(CALM_QUESTIONS))
    if chance.random() < 0.15:
        text = text.upper()
    return Told(language, text, False, farm.text(text, thinking.reader).referred)


def _admitted(language: str, chance: Random, thinking: Thinking, dress: Dress) -> Told:
    """A danger sign that is said yes to, or so many deaths as the day's number."""
    farm = _farm(language, chance, thinking, talking=True)
    if farm.case.batches and chance.random() < 0.25:
        farm.put(
            Question(
                "deaths", "number", "deaths", menu("x", "ask_panting", ()).line, low=0, high=9999
            )
        )
        text = str(chance.randint(6, 60))  # of 300: 2 % and more
    elif chance.random() < 0.15:
        farm.put(
            menu("deaths_look", "ask_deaths_look", ("lively", "heap", "few_dull", "many_dull"))
        )
        text = "4"
    else:
        sign = chance.choice(ADMITS)
        farm.put(menu(f"sign:{sign}", f"ask_{sign}", YES_NO))
        text = chance.choice(dress.yes[language])
    return Told(language, text, True, farm.text(text, thinking.reader).referred)


def _calm(chance: Random, thinking: Thinking) -> Told:
    language = chance.choice(LANGUAGES)
    farm = _farm(language, chance, thinking, age=5)
    if chance.random() < 0.3:
        farm.put(chance.choice(CALM_QUESTIONS))
    text = chance.choice((apart("calm") if chance.random() < 0.5 else harmless())[language])
    return Told(language, text, False, farm.text(text, thinking.reader).referred)


CALM_QUESTIONS = (
    menu("litter", "ask_litter", LITTER, "litter"),
    menu("sign:panting", "ask_panting", YES_NO),
    menu("sign:rain_or_wind_in", "ask_rain_or_wind_in", YES_NO),
)


def _farm(
    language: str,
    chance: Random,
    thinking: Thinking,
    *,
    talking: bool = False,
    age: int | None = None,
) -> Farm:
    """A phone in any state: muted, over its budget, stopped, invited, unknown, without a batch, in
    the middle of a complaint, warned before. talking: one that may have been asked something."""
    consents = (
        ("active", "active", "invited") if talking else ("active", "stopped", "invited", "unknown")
    )
    farm = Farm(
        chance.randint(0, 40) if age is None else age,
        heat=(chance.choice(("charcoal", "gas", "bulb", "kerosene", "wood", "none")),),
        house=chance.choice(("brooder", "open")),
        hour=chance.randrange(24),
        batch=chance.random() < 0.8,
        consent=chance.choice(consents),
        language=language,
        book=thinking.handbook,
    )
    case = farm.case
    muted = case.now + timedelta(hours=3) if chance.random() < 0.2 else None
    busy = chance.random() < 0.2
    recent = replace(
        case.recent,
        answers_hour=25 if busy else 0,
        answers_day=60 if busy else 0,
        misses=chance.choice((0, 0, 2)),
        same=chance.choice((0, 0, 0, 3)),
        danger_today=dict.fromkeys(
            ("fumes", "notifiable", "blood", "ill"), chance.choice((0, 0, 5))
        ),
    )
    phone: Phone = replace(case.phone, muted_until=muted)
    known = talking or case.phone.consent != "unknown"
    farm.case = replace(case, phone=phone, recent=recent, person=case.person if known else None)
    return farm


def _usual(one: Example) -> bool:
    return dict(one.context) == dict(EXAMPLE_CONTEXT)


@cache
def _examples() -> Mapping[str, Sequence[Example]]:
    return {one: load_examples(CONTENT / "languages" / one) for one in LANGUAGES}


@cache
def dangerous() -> Mapping[str, Sequence[str]]:
    """Example texts that are danger whatever is known of the farm."""
    return {
        language: [one.text for one in found if one.red_flag and _usual(one) and _told(one)]
        for language, found in _examples().items()
    }


def _told(one: Example) -> bool:
    """Danger by its signs, not by a number against the count."""
    return bool(one.signals) and "deaths" not in one.slots


@cache
def harmless() -> Mapping[str, Sequence[str]]:
    """Example texts with no danger in them."""
    return {
        language: [one.text for one in found if not one.red_flag and _usual(one)]
        for language, found in _examples().items()
    }


@cache
def apart(kind: str) -> Mapping[str, Sequence[str]]:
    """Texts in words of another writer: "danger" or "calm"."""
    found = read_yaml(APART)
    assert isinstance(found, dict)
    return {language: [str(text) for text in found[kind][language]] for language in LANGUAGES}

"""Whole days, read as the farmer gets them, in every language: no text tells the opposite of
another of the same day, nor of what was advised on a trouble that is still open. The texts are read
by their words (tests.day.spoken), not by what the calendar's rows say of themselves.

Silent farms of every kind, chosen by Hypothesis: heat, count, house, thermometer, nights, weather,
hour of arrival, a second batch, a disease, a treatment. Then conversations: a trouble is told at an
hour of an age, and is better, the same, or never answered.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from itertools import product
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.day.after import after
from bot.day.due import Due, due, next_moment
from bot.doors.context import read_context
from bot.doors.rehearsal import Rehearsal
from bot.doors.scene import set_the_scene
from bot.facts.farm import Batch, Cooperative
from bot.handbook.shapes import Handbook
from bot.say.render import Voice, compose
from bot.say.segments import measure
from bot.wiring import Thinking
from tests.day.farms import NAIROBI, PLACED, case, event, local
from tests.day.spoken import Told, against, told_by

LANGUAGES = ("en", "fr", "sw")
ZONE = ZoneInfo("Africa/Nairobi")


@pytest.fixture(scope="session")
def handbook(thinking: Thinking) -> Handbook:
    return thinking.handbook


# Farms that never answer

AIR = (
    NAIROBI,
    replace(NAIROBI, normals=((18.0, 7.0),) * 12),
    replace(NAIROBI, normals=((31.0, 23.0),) * 12),
    replace(NAIROBI, forecast={PLACED + timedelta(days=age): (36.0, 22.0) for age in range(60)}),
)
RECORDS = (
    (),
    (event("treated", PLACED + timedelta(days=24), days=12),),
    (event("treated", PLACED + timedelta(days=26)),),
    tuple(event("temperature", PLACED + timedelta(days=age), value_c=24) for age in (2, 3, 4)),
    tuple(event("temperature", PLACED + timedelta(days=age), value_c=39) for age in (4, 5, 6, 30)),
    (event("feed_in", PLACED, kg=50), event("fuel_in", PLACED, kg=25), event("fuel", PLACED, kg=5)),
)
HEATS: tuple[tuple[str, ...], ...] = (
    ("charcoal",), ("gas",), ("bulb",), ("kerosene",), ("wood",), ("none",), (),
    ("charcoal", "bulb"),
)  # fmt: skip


@dataclass(frozen=True)
class Farm:
    """A farm and the phone that gets its texts."""

    batch: Batch
    coop: Cooperative
    older: bool  # a second batch is on the phone
    language: str


@st.composite
def farms(draw: st.DrawFn) -> Farm:
    moved = draw(st.booleans()) and draw(
        st.booleans()
    )  # a quarter lives in the open house throughout
    mine = Batch(
        1,
        "running",
        count=draw(st.sampled_from((50, 100, 200, 300, 500, 1000, 2000))),
        placed_on=PLACED,
        arrived_at=local(PLACED, draw(st.integers(0, 23)), draw(st.sampled_from((0, 30)))),
        heat=draw(st.sampled_from(HEATS)),
        heat_count=draw(st.sampled_from((None, 1, 2, 5))),
        thermometer=draw(st.sampled_from((None, True, False))),
        house="open" if moved else "brooder",
        nights=draw(st.sampled_from((None, "warm", "cool", "cold"))),
        feathered=draw(st.sampled_from((None, True, False))),
        held=draw(st.booleans()) and draw(st.booleans()),
        events=draw(st.sampled_from(RECORDS)),
    )
    return Farm(
        mine, draw(st.sampled_from(AIR)), draw(st.booleans()), draw(st.sampled_from(LANGUAGES))
    )


@dataclass(frozen=True)
class Sent:
    """One text that we sent by ourselves: its age, its slot and what it says."""

    age: int
    due: Due
    text: str


def lived(farm: Farm, handbook: Handbook) -> list[Sent]:
    """All that a silent farm is sent in 42 days."""
    mine = farm.batch
    older = replace(mine, id=2, placed_on=PLACED - timedelta(days=30), arrived_at=None)
    known = case(mine, *((older,) if farm.older else ()), coop=farm.coop)
    at: datetime | None = mine.arrived_at
    end = local(PLACED + timedelta(days=42), 0)
    sent: list[Sent] = []
    while at is not None and at < end:
        known = replace(known, now=at, batches=(mine, *known.batches[1:]))
        found = due(known, mine, handbook.calendar, at)
        sent += [
            Sent((one.on_date - PLACED).days, one, worded(one, farm, handbook)) for one in found
        ]
        known, mine = after(known, mine, found)
        at = next_moment(known, mine, handbook.calendar, at)
    return sent


def worded(one: Due, farm: Farm, handbook: Handbook) -> str:
    return compose(
        one.lines, one.question, Voice(farm.language, "Mkulima"), handbook.texts, pushed=True
    )


def contradictions(texts: Iterable[tuple[str, Told]]) -> Iterator[str]:
    """Pairs of texts of one day of which one tells the opposite of the other."""
    listed = list(texts)
    for (one, first), (other, second) in product(listed, listed):
        for part in ("now", "night"):
            for a, b in against(getattr(first, part), getattr(second, part)):
                yield f"{a}, {b} ({part}): {one!r} / {other!r}"


@settings(max_examples=40, deadline=None, derandomize=True)
@given(farm=farms())
def test_no_day_of_a_silent_farm_contradicts_itself_nor_costs_more_than_it_may(
    farm: Farm, handbook: Handbook
) -> None:
    sent = lived(farm, handbook)
    assert len(sent) <= 75
    assert all(measure(one.text).parts == 1 for one in sent)
    for age in range(42):
        day = [one for one in sent if one.age == age]
        assert [one.due.slot for one in day].count("morning") <= 1
        assert [one.due.slot for one in day].count("night") <= (1 if age <= 20 else 0)
        assert not list(contradictions((one.text, told_by(one.text, farm.language)) for one in day))


@pytest.mark.parametrize(
    ("language", "one", "other"),
    [
        ("en", "By day less heat now, as long as they stay spread.", "Too cold. One more stove."),
        ("en", "Night: 2 stoves lit, fuel near.", "Night: no more heat. Bulbs off."),
        ("en", "By day all curtains wide open.", "Close the windward curtain."),
        ("en", "Move today.", "No sale, slaughter, moving."),
        ("en", "Find your buyer now.", "Treated birds: no sale or eating."),
        ("en", "Widen to 7.5 m2 today.", "Tighter ring, dry litter."),
        ("fr", "Le jour, moins de chaleur.", "Cercle serre ou 1 feu de plus."),
        ("fr", "Nuit: 2 feux allumes.", "Des ce soir sans chauffage."),
        ("fr", "Le jour: rideaux ouverts.", "Fermez le rideau du vent."),
        ("fr", "Cherchez l'acheteur: demandez le prix.", "Traites: ni vente ni repas."),
        ("sw", "Mchana punguza joto sasa.", "Labda ni baridi. Washa jiko jingine nje."),
        ("sw", "Usiku: majiko 2 yawake.", "Kuanzia usiku huu bila joto."),
        ("sw", "Mchana mapazia wazi kabisa.", "Funga pazia la upepo."),
        ("sw", "Tafuta mnunuzi sasa.", "Usiuze wala kula kuku."),
    ],
)  # fmt: skip
def test_a_planted_pair_is_caught_by_its_words(language: str, one: str, other: str) -> None:
    assert list(contradictions((text, told_by(text, language)) for text in (one, other)))


# Farmers who tell of a trouble

TROUBLES = {
    "cold": {
        "en": "they all pile by the stove crying",
        "fr": "ils sont en tas pres du feu et crient",
        "sw": "wamerundikana kwenye joto wanalia sana",
    },
    "hot": {
        "en": "all have open beaks and wings out",
        "fr": "ils halètent le bec ouvert ailes ecartees",
        "sw": "wanahema midomo wazi mabawa wazi",
    },
    "fumes": {
        "en": "there is smoke in the brooder",
        "fr": "il y a de la fumee dedans",
        "sw": "kuna moshi ndani",
    },
    "draught": {
        "en": "wind blows in on them",
        "fr": "le vent souffle sur eux",
        "sw": "upepo unawapiga",
    },
    "danger": {
        "en": "many are dull with green droppings",
        "fr": "beaucoup sont abattus avec diarrhee verte",
        "sw": "wengi wamezubaa na wanahara kijani",
    },
    "treated": {
        "en": "the vet treated them today, withdrawal 7 days",
        "fr": "le veto les a traites aujourd'hui, attente 7 jours",
        "sw": "daktari amewapa dawa leo, ngoja siku 7",
    },
}
AGES = {
    "cold": (1, 3, 5, 7, 10, 12, 13, 14, 20),
    "hot": (1, 4, 6, 9, 13, 15, 20, 29),
    "fumes": (0, 4, 13, 15),
    "draught": (10, 20, 25),
    "danger": (12, 13, 15, 24, 30, 32),
    "treated": (24, 29, 32, 34),
}
HOURS = {"early": 5, "noon": 13, "before the night text": 17}
SAME = {"en": "same", "fr": "pareil", "sw": "vile vile"}


@dataclass(frozen=True)
class Talk:
    """A trouble told once; the check-back is answered "same" or never."""

    trouble: str
    age: int
    hour: int
    heat: str
    answers: str | None
    language: str

    @property
    def words(self) -> str:
        return TROUBLES[self.trouble][self.language]


TALKS = [
    Talk(trouble, age, hour, heat, answers, LANGUAGES[(age + place + hour) % 3])
    for trouble, ages in AGES.items()
    for age in ages
    for place, (hour, (heat, answers)) in enumerate(
        zip(HOURS.values(), (("charcoal", None), ("gas", "same"), ("bulb", None)), strict=True)
    )
]


def spoken(talk: Talk, rehearsal: Rehearsal) -> tuple[list[str], list[tuple[datetime, str]]]:
    """(our advice, what we then sent by ourselves until it is a day and a half old)."""
    today = date(2026, 3, 4)
    now = datetime(today.year, today.month, today.day, talk.hour, 5, tzinfo=ZONE)
    context = {"has_batch": True, "age_days": talk.age, "count": 300, "today": today.isoformat(),
               "heat": talk.heat, "heat_count": 2, "now": now.isoformat()}  # fmt: skip
    set_the_scene(rehearsal, read_context(talk.language, context))
    taken, _ = rehearsal.say(talk.words)
    advice = list(taken.texts)
    rehearsal.wait(timedelta(minutes=35))
    pushed = [(one.at, one.text) for one in rehearsal.heard()]
    if talk.answers == "same":
        taken, _ = rehearsal.say(SAME[talk.language])
        advice += taken.texts
    rehearsal.wait(timedelta(hours=30))
    return advice, pushed + [(one.at, one.text) for one in rehearsal.heard()]


@pytest.mark.parametrize(
    "talk", TALKS, ids=lambda one: f"{one.trouble}-{one.age}-{one.hour}-{one.heat}"
)
def test_what_we_send_agrees_with_what_we_advised_while_the_trouble_is_open(
    talk: Talk, rehearsal: Rehearsal
) -> None:
    advice, pushed = spoken(talk, rehearsal)
    told = [told_by(one, talk.language) for one in advice]
    advised = frozenset[str]().union(*(one.now for one in told))
    assert advised, f"nothing was advised: {advice}"
    if talk.trouble == "fumes":
        advised = advised - {"heat_more"} | {"heat_less"}  # lit anew only outside, till it is clean
    for at, text in pushed:
        mine = told_by(text, talk.language)
        evening = (
            at.astimezone(ZONE).hour >= 16
        )  # what a morning text says of the night comes later
        acts = mine.now | mine.night if evening else mine.now
        assert not against(acts, advised), (advice, text)

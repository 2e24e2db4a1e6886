"""A reading told after we asked to hang the thermometer lower, in the farmer's own words: it is
judged beside what the chicks still show."""

from __future__ import annotations

from datetime import date

import pytest

from bot.facts.talk import Hearing, Intent
from bot.wiring import Thinking
from tests.diagnosis.talking import Farm, keys

PILED = {
    "en": "thermometer says 35 but the chicks are piled at the stove and cry",
    "fr": "le thermometre dit 35 mais les poussins sont en tas pres du feu et crient",
    "sw": "kipimajoto kinasema 35 lakini vifaranga wamerundikana kwenye jiko wanalia",
}
READ = [
    ("en", "I put it on the floor where the chicks are, now it says 27 after 10 min"),
    ("en", "now it says 27 where the chicks are"),
    ("en", "27 after ten min"),
    ("en", "hung it low, shows 27"),
    ("en", "27 after ten min, this thing is spoilt?"),
    ("fr", "je l'ai mis par terre avec les poussins, 27 apres 10 min"),
    ("fr", "maintenant ca dit 27"),
    ("sw", "nimekiweka chini walipo vifaranga, sasa kinasema 27 baada ya dakika 10"),
    ("sw", "27 baada ya dakika kumi"),
    ("sw", "sasa inaonyesha 27"),
]


@pytest.mark.parametrize(("language", "text"), READ)
def test_a_reading_at_chick_height_does_not_call_piled_chicks_comfortable(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(1, language=language, hour=19, book=thinking.handbook)
    farm.text(PILED[language], thinking.reader)
    farm.text("2", thinking.reader)
    found = farm.text(text, thinking.reader)
    assert found.why is not None
    assert found.why.cause == "cold"
    assert not {"comfortable", "sorry", "not_understood"}.intersection(keys(found))
    assert [one.values["value_c"] for one in farm.batch.live_events("temperature")][-1] == 27
    assert farm.complaint is not None
    assert farm.complaint.check_at is not None


@pytest.mark.parametrize(("language", "text"), READ)
def test_a_figure_is_no_reading_where_nobody_spoke_of_the_thermometer(
    language: str, text: str, thinking: Thinking
) -> None:
    free = Hearing(date(2026, 3, 4), language, has_batch=True, age_days=1, count=300)
    assert all(one.slots.value_c is None for one in thinking.reader.read(text, free).facts())


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "27 are dead"),
        ("en", "i have 25 left"),
        ("en", "i bought 30 kg of feed"),
        ("fr", "27 sont morts"),
        ("fr", "il reste 30 poussins dehors"),
        ("sw", "27 wamekufa"),
        ("sw", "nina wengine 30"),
    ],
)
def test_what_is_counted_or_weighed_is_no_reading_of_the_hung_thermometer(
    language: str, text: str, thinking: Thinking
) -> None:
    hung = Hearing(
        date(2026, 3, 4), language, has_batch=True, age_days=1, count=300, trouble=True, hung=True
    )
    meaning = thinking.reader.read(text, hung)
    assert all(one.intent is not Intent.TEMPERATURE for one in meaning.facts())


@pytest.mark.parametrize(
    ("language", "text"), [("en", "in the brooder"), ("fr", "dans la poussiniere"), ("sw", "ndani")]
)
def test_some_other_place_of_the_thermometer_asks_nobody_where_piled_chicks_are(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(1, language=language, hour=19, book=thinking.handbook)
    farm.text(PILED[language], thinking.reader)
    found = farm.text(text, thinking.reader)
    assert keys(found)[0] == "hang_there"
    assert (found.question, farm.complaint is not None) == (None, True)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "I put it on the floor where the chicks are, now it says 27 after 10 min"),
    ],
)
def test_a_calm_that_is_only_guessed_takes_back_no_heap(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(1, language=language, hour=19, book=thinking.handbook)
    farm.text("chicks bunching at the stove and making noise", thinking.reader)
    found = farm.text(text, thinking.reader)
    assert "comfortable" not in keys(found)
    assert farm.complaint is not None

"""Half of them cold, half too hot: the heat stands unevenly, and is neither raised nor lowered for
all. What our look at it finds is told in words."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.diagnosis.talking import Farm, keys

HALVES = [
    ("en", "half of them are cold half are hot what breed is this"),
    ("en", "one half piled up under one lamp, the other half panting under the other"),
    ("en", "those at the left lamp are in a heap, those at the right pant"),
    ("en", "half the chicks crowd the stove and cry, half pant by the other"),
    ("fr", "la moitie a froid la moitie a chaud c'est quoi cette race de poussins"),
    ("fr", "la moitie en tas sous une lampe, l'autre moitie halete sous l'autre"),
    ("sw", "nusu wana baridi nusu wana joto, ni aina gani hii"),
    ("sw", "nusu wamerundikana chini ya taa moja, nusu wanahema chini ya nyingine"),
]
ONE_SIDE = {
    "en": "half are cold, half are hot",
    "fr": "la moitie a froid, la moitie a chaud",
    "sw": "nusu wana baridi, nusu wana joto",
}
WARMER = ("cold_bulb", "cold_charcoal", "cold_gas", "hot_bulb", "hot_stove_first", "hot_one")


@pytest.mark.parametrize(("language", "text"), HALVES)
@pytest.mark.parametrize("heat", ["bulb", "charcoal", "gas"])
def test_half_cold_and_half_hot_is_uneven_and_not_cold(
    language: str, text: str, heat: str, thinking: Thinking
) -> None:
    farm = Farm(4, language=language, heat=(heat,), hour=20, book=thinking.handbook)
    found = farm.text(text, thinking.reader)
    assert found.why is not None
    assert found.why.cause == "uneven_heat"
    assert any(one.startswith("uneven") for one in keys(found))
    assert not set(WARMER).intersection(keys(found))


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "no, one went out in the night"),
        ("en", "two of three, the middle one is dead since yesterday"),
        ("fr", "non, une s'est eteinte cette nuit"),
        ("fr", "deux sur trois, celle du milieu est morte hier. gauche 50 cm, droite 30 peut etre"),
        ("sw", "hapana, moja imezimika usiku"),
        ("sw", "mbili, moja kila upande; moja imezimika usiku"),
        ("en", "no"),
        ("fr", "non"),
        ("sw", "hapana"),
    ],
)
def test_what_our_look_at_the_lamps_finds_is_heard_in_words(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(4, language=language, heat=("bulb",), hour=20, book=thinking.handbook)
    farm.text(ONE_SIDE[language], thinking.reader)
    found = farm.text(text, thinking.reader)
    assert "relight_bulb" in keys(found)
    assert farm.batch.total("deaths", farm.case.today) == 0


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "left is 50 cm high, right 30"),
        ("fr", "a gauche 50 cm, a droite 30"),
        ("sw", "kushoto sm 50, kulia 30"),
        ("en", "left 26, right 34"),
    ],
)
def test_two_heights_or_readings_are_compared(language: str, text: str, thinking: Thinking) -> None:
    farm = Farm(4, language=language, heat=("bulb",), hour=20, book=thinking.handbook)
    farm.text(ONE_SIDE[language], thinking.reader)
    found = farm.text(text, thinking.reader)
    assert "heat_unlike" in farm.complaint.signals if farm.complaint else False
    assert not {"not_understood", "sorry"}.intersection(keys(found))
    assert not set(WARMER).intersection(keys(found))


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "two stoves, one is weak the other strong"),
        ("fr", "deux fourneaux, un est faible et l'autre fort"),
        ("sw", "majiko mawili, moja hafifu lingine kali"),
    ],
)
def test_a_weak_and_a_strong_stove_are_made_alike(
    language: str, text: str, thinking: Thinking
) -> None:
    farm = Farm(4, language=language, hour=20, book=thinking.handbook)
    farm.text(ONE_SIDE[language], thinking.reader)
    found = farm.text(text, thinking.reader)
    assert "uneven_two" in keys(found)


@pytest.mark.parametrize(
    ("language", "text"),
    [("en", "two chicks died"), ("fr", "2 poussins sont morts"), ("sw", "mmoja amekufa")],
)
def test_dead_chicks_are_no_dead_lamps(language: str, text: str, thinking: Thinking) -> None:
    farm = Farm(4, language=language, heat=("bulb",), hour=20, book=thinking.handbook)
    farm.text(ONE_SIDE[language], thinking.reader)
    farm.text(text, thinking.reader)
    assert farm.batch.total("deaths", farm.case.today) > 0

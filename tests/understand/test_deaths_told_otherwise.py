"""Deaths in words of faith and of grief, noughts that are told with a figure, and figures beside
dying that count no bird of today."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "not even two died this week"),
        ("en", "we lost not even three of them"),
        ("en", "nothing died, not even a single 1"),
        ("fr", "pas meme deux morts"),
        ("fr", "meme pas trois morts depuis lundi"),
        ("fr", "on n'a pas perdu meme deux"),
        ("sw", "hawakufa hata wawili"),
        ("sw", "hatujapoteza hata watatu"),
        ("sw", "hakufa hata mmoja jana"),
    ],
)
def test_not_even_so_many_is_none(thinking: Thinking, lang: str, text: str) -> None:
    got = read(thinking, text, lang)
    assert (got["intent"], got["slots"]) == ("deaths", {"deaths": 0})


@pytest.mark.parametrize(
    ("lang", "text", "dead"),
    [
        ("en", "two died, not even sick before", 2),
        ("en", "3 dead and i dont even know why", 3),
        ("fr", "2 morts et meme pas malades", 2),
        ("sw", "wamekufa watatu hata hawakuugua", 3),
        ("en", "even two died in the good corner", 2),
        ("sw", "hata wawili wamekufa pembeni", 2),
    ],
)
def test_even_beside_the_dead_denies_none(
    thinking: Thinking, lang: str, text: str, dead: int
) -> None:
    assert read(thinking, text, lang)["slots"].get("deaths") == dead


@pytest.mark.parametrize(
    ("lang", "text", "dead"),
    [
        ("en", "God has taken forty of them since last night", 40),
        ("en", "the lord took 25 of my chicks overnight", 25),
        ("en", "Allah has called 18 of the birds home today", 18),
        ("en", "we woke up and the good lord has taken twenty", 20),
        ("fr", "Dieu a repris trente poussins cette nuit", 30),
        ("fr", "le Seigneur a rappele 20 de mes poussins", 20),
        ("sw", "Mungu amechukua 30 usiku huu", 30),
        ("sw", "Mola amewachukua vifaranga ishirini leo", 20),
    ],
)
def test_those_whom_god_took_are_dead(thinking: Thinking, lang: str, text: str, dead: int) -> None:
    got = read(thinking, text, lang)
    assert (got["intent"], got["slots"].get("deaths")) == ("deaths", dead)
    assert got["signals"] == ["sudden_many_deaths"]
    assert got["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "god took good care of all of them"),
        ("en", "the lord has taken my mother, i go home for the burial"),
        ("en", "god has taken away my worries, birds are fine"),
        ("fr", "Dieu a pris soin de nous tous"),
        ("sw", "Mungu ametuchukulia vizuri sote"),
    ],
)
def test_what_god_does_otherwise_kills_no_bird(thinking: Thinking, lang: str, text: str) -> None:
    got = read(thinking, text, lang)
    assert not got["red_flag"]
    assert got["slots"].get("deaths") is None


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("4 dead in all so far in 10 days, none since monday", 0),
        ("start 300, so far 5 died in 12 days, none since sunday", 0),
        ("3 dead in 2 days", 3),
        ("eight small bodies at dawn then ten more at noon, eighteen altogether today", 18),
        ("nine bodies at 6 then four more by noon, thirteen altogether today", 13),
        ("five bodies before breakfast then 7 more by evening, twelve in all today", 12),
    ],
)
def test_the_dead_of_today_out_of_several_figures(thinking: Thinking, text: str, dead: int) -> None:
    got = read(thinking, text, "en")
    assert (got["intent"], got["slots"].get("deaths")) == ("deaths", dead)


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("i didnt say many are dead, it is one", 1),
        ("me i no talk say plenty die, na two", 2),
        ("never said many died, only 1", 1),
        ("one don go, average weight 170g", 1),
        ("two don go, feed 12kg", 2),
        ("three gone this morning, water 20 litres", 3),
    ],
)
def test_a_figure_behind_a_denied_many_and_one_that_is_gone(
    thinking: Thinking, text: str, dead: int
) -> None:
    got = read(thinking, text, "en", age_days=7)
    facts = [got["slots"], *(one["slots"] for one in got["slots"].get("parts", []))]
    assert dead in [one.get("deaths") for one in facts]
    assert not got["red_flag"] or dead >= 6


@pytest.mark.parametrize(
    "text",
    [
        "lost 4000 kwacha on that trader",
        "lost 900 shillings on bad medicine",
        "i lost 2000 naira to that boy",
        "the feed don go",
        "the smell is gone, 2 bags of lime did it",
        "light don go since 5",
    ],
)
def test_money_and_things_that_are_gone_are_no_deaths(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "en", age_days=7)
    parts = [got["intent"], *(one["intent"] for one in got["slots"].get("parts", []))]
    assert "deaths" not in parts

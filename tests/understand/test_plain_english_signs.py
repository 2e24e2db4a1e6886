"""Signs as farmers see, hear and smell them, in plain English words, and what only sounds so."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

BATCH = {"has_batch": True, "age_days": 9, "count": 400}


@pytest.mark.parametrize(
    ("text", "signs"),
    [
        ("eyes are glued in some", ["eyes_swollen_or_closed"]),
        ("two have gummed eyes", ["eyes_swollen_or_closed"]),
        ("streaming eyes on a few", ["eyes_swollen_or_closed"]),
        ("one with a runy nose", ["sneezing_or_rattle"]),
        ("a few go chi chi", ["sneezing_or_rattle"]),
        ("some blow through the nose", ["sneezing_or_rattle"]),
        ("they squeeze along the tin sheets", ["at_edges_or_walls"]),
        ("all circle the wall", ["at_edges_or_walls"]),
        ("a few are drinking, others sleeping, spread out", ["spread_evenly"]),
        ("mash is untouched", ["not_eating"]),
        ("feeding has stopped", ["not_eating"]),
        ("they dont bother about the mash", ["not_eating"]),
        ("not one drop drunk today", ["not_drinking"]),
        ("constantly at the drinkers", ["drinking_more"]),
        ("i refill twice since noon", ["drinking_more"]),
        ("water goes down too fast", ["drinking_more"]),
        ("three lack energy", ["lethargic"]),
        ("one stays hunched in the corner", ["lethargic"]),
        ("all the sacks are empty", ["feed_finished"]),
    ],
)
def test_a_sign_is_seen_in_plain_words(thinking: Thinking, text: str, signs: list[str]) -> None:
    assert read(thinking, text, "en", **BATCH)["signals"] == signs


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("eyes glued to the feeder", "eyes_swollen_or_closed"),
        ("the sacks of charcoal are empty", "feed_finished"),
        ("the rain is on the iron sheets", "at_edges_or_walls"),
        ("three eat, one sleeps, others drink", "sleepy_all_birds"),
        ("chicks fall over each other near the heater", "drowsy_people_or_birds_near_stove"),
        ("my nose is in the feed bag", "drowsy_people_or_birds_near_stove"),
        ("their nose is clean", "drowsy_people_or_birds_near_stove"),
    ],
)
def test_what_only_sounds_so_is_none(thinking: Thinking, text: str, sign: str) -> None:
    assert sign not in read(thinking, text, "en", **BATCH)["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "chicks by the charcoal stagger and fall",
        "birds near the jiko are swaying like drunk",
        "they tumble over beside the burner",
        "some around the stove are drunken",
    ],
)
def test_birds_that_reel_by_a_fire_are_in_danger(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "en", **BATCH)
    assert "drowsy_people_or_birds_near_stove" in found["signals"]
    assert found["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "the house is quiet, all birds are dull",
        "everywhere is silent, every chick weak",
        "calm but the whole flock is drowsy",
    ],
)
def test_a_flock_that_is_down_is_not_calm(thinking: Thinking, text: str) -> None:
    signs = read(thinking, text, "en", **BATCH)["signals"]
    assert "sleepy_all_birds" in signs
    assert not {"quiet_content", "spread_evenly"} & set(signs)


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("3 died on the first night", 3),
        ("5 dead in the first night, 300 left", 5),
        ("one small chick gave up this morning", 1),
        ("two birds gave up and died", 2),
    ],
)
def test_the_dead_of_a_first_night_and_those_that_gave_up(
    thinking: Thinking, text: str, dead: int
) -> None:
    found = read(thinking, text, "en", **{**BATCH, "age_days": 3})
    facts = found["slots"].get("parts", [found])
    assert [one["slots"]["deaths"] for one in facts if one["intent"] == "deaths"] == [dead]


def test_a_figure_with_tenths_is_a_reading_where_nothing_else_is_told(thinking: Thinking) -> None:
    told = read(thinking, "we get 32.5 before they arrive", "en", **{**BATCH, "age_days": 0})
    assert (told["intent"], told["slots"]) == ("temperature", {"value_c": 32.5})
    for text in ("feed was 32.5", "ate: 32.5", "32.5 litres", "they weigh 32.5", "paid 32.5"):
        assert "value_c" not in read(thinking, text, "en", **BATCH)["slots"]


def test_the_weight_that_is_asked_about_is_no_flock(thinking: Thinking) -> None:
    found = read(thinking, "must they weigh 700 at three weeks?", "en", **BATCH)
    assert (found["intent"], found["slots"].get("count")) == ("ask", None)

"""Actions: one for every cause, heat and house; what they say; when we look again."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from itertools import product
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from bot.diagnosis.action import Advice, actions, advise, look_again
from bot.diagnosis.weigh import Circumstances
from bot.handbook.shape_causes import HEATS, HOUSES
from bot.handbook.strict import read_yaml
from tests.diagnosis.talking import CONTENT, causes

MODEL = causes()


def table(*parts: str) -> dict[str, Any]:
    found = read_yaml(CONTENT.joinpath(*parts))
    assert isinstance(found, dict)
    return found


SHAPES = table("texts", "actions.yaml")
ENGLISH = table("languages", "en", "actions.yaml")
NAIROBI = ZoneInfo("Africa/Nairobi")
FIRES = ("charcoal", "kerosene", "wood")


def every_action() -> set[str]:
    found = {"smother", "believe_cold", "believe_hot"}
    for cause in MODEL.causes.values():
        found |= {key for keys in cause.actions.values() for key in keys}
        found |= {one.action for one in cause.instead}
    return found


@pytest.mark.parametrize("cause", sorted(MODEL.causes))
def test_every_cause_has_an_action_for_each_heat_and_house_at_every_age(cause: str) -> None:
    for heat, house, age, hour in product(HEATS, HOUSES, (0, 7, 14, 20, 21, 40), (3, 12)):
        here = Circumstances(age, hour, house, (heat,))
        found = advise(cause, (), here, (), MODEL)
        assert found is not None
        assert found.key in SHAPES
        assert found.key in ENGLISH


def test_every_action_is_listed_and_worded() -> None:
    assert every_action() <= set(SHAPES)
    assert set(SHAPES) == set(ENGLISH)


def test_every_question_that_may_be_asked_is_worded() -> None:
    for code, sign in MODEL.signs.items():
        assert not sign.ask or f"ask_{code}" in ENGLISH


@pytest.mark.parametrize("key", sorted(every_action()))
def test_adding_heat_or_closing_curtains_keeps_the_top_open_on_two_sides(key: str) -> None:
    text = str(ENGLISH[key])
    adds = re.search(r"light (it|a |one more|the )|close .*curtain|add one|more heat|tighter ring"
                     r"|carry them in|sack", text, re.IGNORECASE)  # fmt: skip
    assert bool(adds) <= ("open on two sides" in text), text
    assert ("open on two sides" in text) == bool(SHAPES[key].get("fire"))


@pytest.mark.parametrize("key", sorted(ENGLISH))
def test_texts_say_open_and_close_and_never_close_everything(key: str) -> None:
    text = str(ENGLISH[key]).lower()
    assert not re.search(r"close (all|every)|curtains? (up|down)|seal", text)
    assert "safe" not in text or key == "to_be_safe"


def test_a_stove_is_carried_out_with_handle_and_gloves_and_not_to_where_people_sleep() -> None:
    for key in ("hot_stove_out", "hot_open_fire"):
        text = str(ENGLISH[key])
        assert "gloves" in text
        assert "litter" in text
        assert "people sleep" in text


def test_no_text_names_a_medicine_a_dose_or_a_disinfectant() -> None:
    said = " ".join(str(one) for one in ENGLISH.values()).lower()
    for word in ("antibiotic", "vitamin", "tablet", "dose", "ml ", "drug", "chlorine", "bleach"):
        assert word not in said


def test_actions_fit_the_heat_of_this_farm() -> None:
    def first(cause: str, heat: str, *signals: str, age: int = 5, house: str = "brooder") -> str:
        here = Circumstances(age, 9, house, (heat,))
        return actions(MODEL.causes[cause], signals, here)[0]

    assert first("cold", "charcoal") == "cold_charcoal"
    assert first("cold", "bulb", "no_power") == "power_bulb"
    assert first("cold", "kerosene", "stove_out") == "relight_fire"
    assert first("hot", "gas") == "hot_gas"
    assert first("hot", "charcoal", age=16, house="open") == "hot_open_fire"
    assert first("hot", "charcoal", age=30, house="open") == "hot_open"
    assert first("sick", "charcoal", "pasty_vent") == "sick_vent"


def test_from_three_weeks_birds_live_in_the_open_house_whatever_was_registered() -> None:
    grown = Circumstances(28, 13, "brooder", ("charcoal",))
    assert actions(MODEL.causes["hot"], (), grown)[0] == "hot_open"


def test_with_several_heats_the_one_that_works_is_spoken_of() -> None:
    both = Circumstances(5, 20, "brooder", ("charcoal", "bulb"))
    assert actions(MODEL.causes["cold"], ("no_power",), both)[0] == "cold_charcoal"
    assert actions(MODEL.causes["fumes"], (), both)[0] == "fumes_fire"


@pytest.mark.parametrize("heat", ["charcoal", "kerosene"])
def test_too_warm_opens_first_and_then_takes_one_stove_out(heat: str) -> None:
    here = Circumstances(5, 9, "brooder", (heat,))
    assert actions(MODEL.causes["hot"], (), here) == ("hot_one", "hot_stove_out")


@pytest.mark.parametrize("heat", ["charcoal", "kerosene"])
def test_from_the_second_week_the_fire_goes_out_of_a_brooder_that_is_hot_by_day(heat: str) -> None:
    noon = Circumstances(10, 13, "brooder", (heat,), "one")
    night = replace(noon, hour=22)
    assert actions(MODEL.causes["hot"], (), noon)[0] == "hot_by_day"
    assert actions(MODEL.causes["hot"], (), noon, "crowding")[0] == "hot_crowded_fire"
    assert actions(MODEL.causes["hot"], (), night)[0] == "hot_one"


@pytest.mark.parametrize(("house", "key"), [("brooder", "hot_wood"), ("open", "hot_open_wood")])
def test_a_wood_fire_is_let_die_down_and_never_carried(house: str, key: str) -> None:
    found = actions(MODEL.causes["hot"], (), Circumstances(10, 13, house, ("wood",), "one"))
    assert found == (key, "hot_more")


@pytest.mark.parametrize("heat", ["none", "charcoal", "gas", "bulb", "wood"])
def test_feed_is_not_taken_from_chicks_in_the_heat(heat: str) -> None:
    here = Circumstances(9, 13, "open", (heat,))
    assert "hot_open_more" not in actions(MODEL.causes["hot"], (), here)


def test_when_all_was_tried_there_is_no_further_action() -> None:
    here = Circumstances(5, 9)
    assert advise("cold", (), here, ("cold_charcoal", "cold_more"), MODEL) is None


def test_piling_at_night_in_the_new_house_is_smothering_and_nowhere_else() -> None:
    def key(age: int, hour: int, house: str) -> str:
        found = advise("cold", ("piled_near_heat",), Circumstances(age, hour, house), (), MODEL)
        assert found is not None
        return found.key

    assert key(15, 23, "open") == "smother"
    assert key(15, 3, "open") == "smother"
    assert key(15, 12, "open") == "cold_open_charcoal"
    assert key(9, 23, "brooder") == "cold_charcoal"


@pytest.mark.parametrize(
    ("now", "urgent", "expected", "waits"),
    [
        ("09:00", False, "2026-03-04 09:45", False),
        ("21:10", False, "2026-03-04 21:55", False),
        ("21:40", False, "2026-03-05 06:30", True),
        ("23:50", False, "2026-03-05 06:30", True),
        ("02:00", False, "2026-03-04 06:30", True),
        ("04:30", False, "2026-03-04 05:15", False),
        ("23:50", True, "2026-03-05 00:35", False),
    ],
)
def test_check_backs_go_by_day_and_by_night_only_for_smothering(
    now: str, urgent: bool, expected: str, waits: bool
) -> None:
    local = datetime.combine(date(2026, 3, 4), time.fromisoformat(now), NAIROBI)
    at, waited = look_again(local, Advice("x", timedelta(minutes=45), urgent), time(6, 30))
    assert at.strftime("%Y-%m-%d %H:%M") == expected
    assert waited is waits

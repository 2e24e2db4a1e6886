"""An action that may do harm waits for the one question that would save it; a plain picture is
acted on at once; "I don't know" leads on; what follows a first try looks again."""

from __future__ import annotations

import pytest

from bot.decide.deaths import deaths
from bot.facts.talk import Decision, Intent, Meaning, Slots
from tests.diagnosis.talking import Farm, answers, denied, seen


def keys(found: Decision) -> list[str]:
    return [line.key for line in found.lines]


def asked(found: Decision) -> str | None:
    return found.question.name if found.question else None


@pytest.mark.parametrize(
    ("signs", "question"),
    [
        (("wings_spread",), "sign:panting"),  # asleep with a wing stretched out, or hot?
        (("away_from_heat",), "sign:panting"),
        (("uneven_size", "piled_near_heat"), "sign:feed_out_of_reach"),  # a crowd at the feeders?
    ],
)
def test_thin_evidence_for_heat_or_cold_is_looked_at_before_the_heat_is_changed(
    signs: tuple[str, ...], question: str
) -> None:
    found = Farm(10).tell(seen(*signs))
    assert (asked(found), [key for key in keys(found) if key.startswith(("cold", "hot"))]) == (
        question,
        [],
    )


@pytest.mark.parametrize(
    ("signs", "cause"),
    [
        (("panting",), "hot"),
        (("panting", "away_from_heat"), "hot"),
        (("piled_near_heat", "noisy_distress"), "cold"),
        (("rain_or_wind_in", "crowded_one_side"), "draught"),
        (("litter_wet",), "damp_litter"),
    ],
)
def test_a_plain_picture_is_acted_on_without_a_question(signs: tuple[str, ...], cause: str) -> None:
    found = Farm(5).tell(seen(*signs))
    assert found.why is not None
    assert (found.why.cause, found.question) == (cause, None)


def test_chicks_stretched_out_with_shut_beaks_that_get_up_are_left_in_peace() -> None:
    farm = Farm(2, hour=13, heat=("bulb",))
    farm.tell(seen("wings_spread"))
    assert asked(farm.tell(answers("no"))) == "wake"
    assert keys(farm.tell(answers("up"))) == ["wake_ok"]


def test_a_heap_beside_others_that_flee_the_fire_is_uneven_heat_and_spread_by_hand() -> None:
    found = Farm(5, hour=5).tell(seen("noisy_distress", "piled_near_heat", "away_from_heat"))
    assert found.why is not None
    assert (found.why.cause, "uneven_relight" in keys(found)) == ("uneven_heat", True)


def unsure() -> Meaning:
    return Meaning(Intent.OTHER, Slots(answer="unsure"))


def test_not_knowing_where_they_are_leads_to_another_question_and_not_to_the_same() -> None:
    farm = Farm(9, heat=("bulb",), hour=11)
    assert asked(farm.tell(seen("noisy_distress"))) == "behaviour"
    found = farm.tell(unsure())
    assert asked(found) not in (None, "behaviour")


def test_not_knowing_the_feed_is_told_how_to_look_and_the_answer_reaches_it() -> None:
    farm = Farm(20, house="open", heat=("none",))
    farm.tell(seen("feed_new"))
    again = farm.tell(unsure())
    assert again.question is not None
    assert again.question.line.key == "how_feed_mouldy"
    assert keys(farm.tell(answers("yes")))[-2:] == ["feed_problem", "after_at"]


def test_who_can_tell_nothing_three_times_is_asked_no_more() -> None:
    farm = Farm(9)
    farm.tell(Meaning(Intent.OBSERVE))
    found = [farm.tell(unsure()) for _ in range(3)]
    assert [asked(found[0]) is None, asked(found[2])] == [False, None]
    assert keys(found[2]) == ["wait_look"]


def test_blood_that_is_not_in_the_droppings_asks_for_bites_and_changes_no_heat() -> None:
    farm = Farm(16, house="open", heat=("none",), hour=6)
    farm.tell(seen("bloody_droppings"))
    found = farm.tell(
        Meaning(Intent.OBSERVE, signals=("at_edges_or_walls",), not_signals=("bloody_droppings",))
    )
    assert asked(found) == "sign:rats_or_predator"
    assert "predator" in keys(farm.tell(answers("yes")))


def test_blood_that_is_neither_in_droppings_nor_of_a_beast_asks_for_pecking() -> None:
    farm = Farm(16, house="open", heat=("none",))
    farm.tell(seen("bloody_droppings"))
    farm.tell(denied("bloody_droppings"))
    assert asked(farm.tell(answers("no"))) == "sign:cannibalism_or_pecking"


@pytest.mark.parametrize(
    ("look", "key"),
    [("look_vent", "sick_vent"), ("look_navel", "sick_navel"), ("look_none", "sick")],
)
def test_a_weak_bird_is_taken_in_the_hand_before_illness_is_named(look: str, key: str) -> None:
    farm = Farm(3, heat=("gas",))
    farm.tell(seen("lethargic"))
    assert asked(farm.tell(answers("few"))) == "one_look"
    assert key in keys(farm.tell(answers(look)))


def test_better_says_that_place_and_voice_are_past_and_brings_no_other_heat() -> None:
    farm = Farm(3, heat=("bulb",), hour=20)
    farm.tell(seen("crowded_one_side", "noisy_distress", "stove_out"))
    farm.checked_back()
    assert keys(farm.tell(answers("better"))) == ["taken_better", "better_night"]


def test_crowding_that_is_no_better_asks_before_heat_is_added() -> None:
    farm = Farm(10, hour=16)
    farm.tell(seen("uneven_size", "piled_near_heat", "feed_out_of_reach"))
    farm.checked_back()
    assert asked(farm.tell(answers("same"))) is not None


def test_dull_grown_birds_are_asked_for_blood_in_the_droppings_and_blood_is_referred() -> None:
    farm = Farm(24, house="open", heat=("none",))
    found = farm.tell(seen("lethargic", "feathers_ruffled", "litter_wet"))
    assert found.question is not None
    assert found.question.options[0] == "look_blood"
    assert farm.tell(answers("look_blood")).referred


def test_limping_is_boxed_at_once_and_the_litter_asked_for_behind_it() -> None:
    farm = Farm(17, house="open", heat=("none",))
    found = farm.tell(seen("limping_or_down"))
    assert ("sick_lame" in keys(found), asked(found)) == (True, "litter")
    assert "damp" in keys(farm.tell(answers("caked")))


def test_where_nothing_could_be_read_spread_out_is_not_all_well() -> None:
    farm = Farm(18, house="open", heat=("none",))
    assert asked(farm.tell(Meaning(Intent.OBSERVE, worried=True))) == "behaviour"
    assert asked(farm.tell(seen("spread_evenly"))) == "what"


def test_behind_an_alarm_on_sore_eyes_alone_the_air_is_asked_for() -> None:
    farm = Farm(22, house="open", heat=("none",))
    found = farm.tell(seen("eyes_swollen_or_closed", many=True))
    assert (found.referred, asked(found)) == (True, "sign:ammonia_smell")
    assert "ammonia_open" in keys(farm.tell(answers("yes")))


def test_the_dead_of_a_heap_are_noted_with_the_word_to_part_it() -> None:
    farm = Farm(18, house="open", heat=("none",), hour=22)
    farm.tell(seen("crowded_one_side"))
    noted = deaths(Meaning(Intent.DEATHS, Slots(deaths=2)), farm.case, farm.book)
    assert "heap_apart" in keys(noted)

"""Plain sentences that ask for one thing, each in words of its own."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import heard, read

BATCH = {"has_batch": True, "age_days": 8, "count": 300, "today": "2026-03-04"}


@pytest.mark.parametrize(
    "text",
    [
        "dont write me again",
        "please do not write to me any more, ever",
        "no text this number again",
        "never contact us again",
        "i want out of this service",
        "take me off your list",
    ],
)
def test_who_wishes_to_be_left_alone_is_let_go(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", **BATCH)["intent"] == "stop"


@pytest.mark.parametrize(
    "text",
    [
        "never leave the stove again",
        "dont write the deaths again, i sent them",
        "get them out of the brooder",
        "i want to get out of debt",
    ],
)
def test_what_only_sounds_so_is_no_farewell(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", **BATCH)["intent"] != "stop"


@pytest.mark.parametrize(
    ("text", "lang", "dead"),
    [
        ("3 not 30 died", "en", 3),
        ("oops 2 not 20 is what we lost", "en", 2),
        ("4 dead birds not 14", "en", 4),
        ("3 pas 30 sont morts", "fr", 3),
        ("wamekufa 3 sio 30", "sw", 3),
        ("not 30 but 3 died", "en", 3),
    ],
)
def test_of_a_slip_put_right_the_right_figure_is_taken(
    thinking: Thinking, text: str, lang: str, dead: int
) -> None:
    found = read(thinking, text, lang, **BATCH)
    assert (found["intent"], found["slots"].get("deaths")) == ("deaths", dead)


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("five chicks drowned in the drinker", 5),
        ("7 were squashed last night", 7),
        ("stove fell and 5 were burnt", 5),
        ("1 was electrocuted", 1),
        ("2 starved", 2),
        ("six corpses", 6),
        ("5 poussins noyes dans l'abreuvoir", 5),
        ("watano wamezama kwenye maji", 5),
        ("sita wamekanyagwa usiku", 6),
        ("counted 9 stiff ones this morning", 9),
    ],
)
def test_however_they_died_they_are_dead(thinking: Thinking, text: str, dead: int) -> None:
    found = read(thinking, text, None, **BATCH)
    assert (found["intent"], found["slots"].get("deaths")) == ("deaths", dead)


def test_who_is_ill_by_the_fire_is_told_beside_the_dead(thinking: Thinking) -> None:
    found = read(thinking, "2 birds dead near the stove and we feel dizzy", "en", **BATCH)
    assert found["red_flag"]


@pytest.mark.parametrize(
    "text", ["not even 2 died", "300 birds not one died", "fed 20 kg, not 1 dead"]
)
def test_none_dead_is_no_slip(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "en", **BATCH)
    assert "'deaths': 0" in str(found["slots"])


@pytest.mark.parametrize(
    "text",
    [
        "2 were lying dead by the wall",
        "found 3 dead along the wall",
        "1 dead in the corner this morning",
        "found one lifeless under the feeder",
        "two have died, the rest are ok",
        "3 died but the others are fine",
        "2 dead under the stove",
        "i counted 2 dead under the stove",
    ],
)
def test_where_the_dead_lay_is_no_sign_of_the_living(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "en", **BATCH)
    assert (found["intent"], found["signals"]) == ("deaths", [])


def test_where_the_living_stand_is_told_beside_the_dead(thinking: Thinking) -> None:
    found = read(thinking, "they are all along the wall and 2 died", "en", **BATCH)
    assert found["signals"] == ["at_edges_or_walls"]


@pytest.mark.parametrize(
    "text",
    [
        "the gadget on the wall says humidity 72",
        "the meter on the wall shows humidity 72",
        "on the wall it reads humidity 72",
    ],
)
def test_where_it_is_read_off_is_no_place_of_the_birds(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "en", **BATCH)
    assert (found["intent"], found["slots"]) == ("humidity", {"rh_pct": 72.0})


@pytest.mark.parametrize(
    "text",
    [
        "fetched 4 bags of 50 from town",
        "picked up 4 bags 50kg each",
        "collected 4 bags of feed 50kg each",
        "carried home 4 bags of 50kg feed",
        "got 4 bags of 50 from the dealer",
        "4 new bags of 50kg starter arrived",
        "bought 4 more full bags of 50kg",
    ],
)
def test_feed_that_was_fetched_is_in_the_store(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "en", **BATCH)
    assert (found["intent"], found["slots"].get("feed_move")) == ("feed", "in")
    assert found["slots"]["kg"] == 200


@pytest.mark.parametrize(
    ("text", "bags"),
    [
        ("2 full bags eaten", 2),
        ("they finished 3 small bags today", 3),
        ("ils ont mange 2 gros sacs", 2),
        ("wamekula magunia makubwa 2", 2),
    ],
)
def test_how_big_a_bag_was_is_no_word_too_many(thinking: Thinking, text: str, bags: int) -> None:
    found = heard(thinking, text, **BATCH)
    assert found.slots.bags == bags


@pytest.mark.parametrize("text", ["unloaded 250 chicks", "just placed 250 in the brooder"])
def test_chicks_waited_for_and_put_in_have_arrived(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "en", **{**BATCH, "age_days": 0})
    assert (found["intent"], found["slots"]["count"]) == ("arrived", 250)


@pytest.mark.parametrize(
    ("text", "lang"),
    [
        ("i want to register 300 chicks coming monday", "en"),
        ("please enrol my 300 chicks", "en"),
        ("je veux inscrire 300 poussins", "fr"),
        ("nataka kusajili vifaranga 300", "sw"),
    ],
)
def test_who_wants_to_register_is_not_planning(thinking: Thinking, text: str, lang: str) -> None:
    found = read(thinking, text, lang, has_batch=False, today="2026-03-04")
    assert (found["intent"], found["slots"]["count"]) == ("register", 300)


@pytest.mark.parametrize("text", ["requirements for 600 chicks", "i want to keep 600 broilers"])
def test_who_asks_what_is_needed_plans(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "en", has_batch=False, today="2026-03-04")
    assert (found["intent"], found["slots"]["count"]) == ("plan", 600)


def test_weights_whose_unit_is_told_behind(thinking: Thinking) -> None:
    found = read(thinking, "412 398 440 451 387 405 thats grams", "en", **{**BATCH, "age_days": 13})
    assert found["slots"] == {"weights_g": [412, 398, 440, 451, 387, 405]}


@pytest.mark.parametrize(
    "text",
    [
        "my father passed on. burial is saturday",
        "fell asleep in front of the tv and forgot the look",
        "come and collect your gas, i have parked outside",
    ],
)
def test_what_happens_in_life_is_no_sign(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "en", **BATCH)
    assert (found["intent"], found["signals"], found["not_signals"]) == ("other", [], [])


@pytest.mark.parametrize(
    "text",
    ["i was smiling at them", "parenting is hard", "the oven cooled down", "a silver bucket"],
)
def test_a_word_of_its_own_is_no_slip_of_a_sign(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "en", **BATCH)
    assert (found["signals"], found["not_signals"]) == ([], [])


def test_bags_bought_are_told_beside_a_sale(thinking: Thinking) -> None:
    found = read(thinking, "sold 20 at 850 n bought 2bags of 50", "en", **{**BATCH, "age_days": 36})
    told = {one["intent"]: one["slots"] for one in found["slots"]["parts"]}
    assert told["sold"]["count"] == 20
    assert (told["feed"]["kg"], told["feed"]["feed_move"]) == (100, "in")


@pytest.mark.parametrize(
    "text",
    [
        "Confirmed. ksh 1500 received from agent balance 1,712",
        "Transaction confirmed. Your balance is 1,200",
        "Dear customer your bundle of 1500 is active",
    ],
)
def test_what_a_machine_wrote_is_no_batch(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", **BATCH)["intent"] == "other"


@pytest.mark.parametrize(
    ("text", "lang", "degrees"),
    [
        ("fell to 27 in the night", "en", 27),
        ("it has gone up to 35", "en", 35),
        ("dropped to 24 last night", "en", 24),
        ("tombe a 27 cette nuit", "fr", 27),
        ("c'est descendu a 26", "fr", 26),
        ("imeshuka hadi 25 usiku", "sw", 25),
    ],
)
def test_what_fell_or_rose_to_so_many_degrees_is_the_warmth(
    thinking: Thinking, text: str, lang: str, degrees: float
) -> None:
    found = read(thinking, text, lang, **BATCH)
    assert (found["intent"], found["slots"].get("value_c")) == ("temperature", degrees)


@pytest.mark.parametrize(
    ("text", "lang", "dead"),
    [("27 sont tombes cette nuit", "fr", 27), ("3 dead, numbers fell to 297", "en", 3)],
)
def test_birds_that_fell_are_dead(thinking: Thinking, text: str, lang: str, dead: int) -> None:
    found = read(thinking, text, lang, **BATCH)
    assert (found["intent"], found["slots"].get("deaths")) == ("deaths", dead)


@pytest.mark.parametrize(
    "text",
    [
        "kuku wanalala ubavu wanapiga miguu kama wamekufa",
        "kuku wanalala ubavu wanapiga miguu kama wamekufa, manyoya yao yametimka",
    ],
)
def test_who_lies_and_kicks_does_not_sleep(thinking: Thinking, text: str) -> None:
    found = read(thinking, text, "sw", **BATCH)
    assert found["red_flag"]
    assert found["cause"] == "sick"


@pytest.mark.parametrize(
    "text",
    [
        "300 chicks hatched monday",
        "my 300 chicks hatched yesterday",
        "300 poussins eclos lundi",
    ],
)
def test_a_day_of_hatching_is_not_that_of_coming(thinking: Thinking, text: str) -> None:
    assert heard(thinking, text, has_batch=False, today="2026-03-04").slots.hatched

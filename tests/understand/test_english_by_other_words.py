"""English: what birds do told round about, "the spot under the bulb is bare", and its opposites."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

BATCH = {"has_batch": True, "age_days": 9, "count": 400}


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("the spot under the bulb is bare", "away_from_heat"),
        ("they hate the stove since noon", "away_from_heat"),
        ("nobody wants the heater now", "away_from_heat"),
        ("beaks wont shut", "panting"),
        ("their mouths cannot close", "panting"),
        ("tongues are showing today", "panting"),
        ("chests go up and down fast", "panting"),
        ("they stand with arms open", "wings_spread"),
        ("left half is full, right half is empty", "crowded_one_side"),
        ("the tank that lasted a day is finished by noon", "drinking_more"),
        ("drinkers are dry by 10 these days", "drinking_more"),
        ("they wet the beak and leave", "drinking_less"),
        ("no chick has dipped its beak yet", "not_drinking"),
        ("yesterdays mash is still lying in the trays", "not_eating"),
        ("the food bag of many is flat", "crop_empty"),
        ("my boots sink in the bedding", "litter_wet"),
        ("the husks are not warm yet", "litter_cold"),
        ("a sharp gas bites the nose", "ammonia_smell"),
        ("the belly cord of some is wet", "navel_wet"),
        ("poo dried on their bottoms", "pasty_vent"),
        ("tails are being picked", "cannibalism_or_pecking"),
        ("chicks are all bristled", "feathers_ruffled"),
        ("half the flock has remained tiny", "uneven_size"),
        ("rain drops reach them", "rain_or_wind_in"),
        ("the pot had only ash in the morning", "stove_out"),
        ("an animal is dragging chicks at night", "rats_or_predator"),
        ("the mash has white threads in it", "feed_mouldy"),
        ("the sack smells like beer", "feed_mouldy"),
        ("no feed left and no money", "feed_finished"),
        ("the transformer blew up", "no_power"),
        ("a blackout in our village", "no_power"),
        ("they press on the stove", "piled_near_heat"),
        ("they ran from the hot spot by the heater", "away_from_heat"),
        ("they dont use the right half of the ring", "crowded_one_side"),
        ("elbows are open on most", "wings_spread"),
        ("every time they are at the bell", "drinking_more"),
        ("the water is over by 9 now", "drinking_more"),
        ("i pour away most of the water at night", "drinking_less"),
        ("not much water gone from the founts", "drinking_less"),
        ("the nipple line is dry since dawn", "not_drinking"),
        ("they lost interest in mash", "not_eating"),
        ("trays are full as when i filled them", "not_eating"),
        ("the floor squelches under me", "litter_wet"),
        ("a third have failed to grow", "uneven_size"),
        ("we scraped the bottom of the sack", "feed_finished"),
        ("they look like balls of cotton", "feathers_ruffled"),
    ],
)
def test_a_sign_is_seen_round_about(thinking: Thinking, text: str, sign: str) -> None:
    assert read(thinking, text, "en", **BATCH)["signals"] == [sign]


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("mouths are closed now", "panting"),
        ("i moved away one stove", "away_from_heat"),
        ("the food bags are full", "crop_empty"),
        ("it is not true that they refuse feed", "not_eating"),
        ("no blackout in our village", "no_power"),
        ("poo dried on their bottoms", "bloody_droppings"),
        ("the sack smells like beer", "ammonia_smell"),
        ("no bird gets a drop from the nipples", "sleepy_all_birds"),
        ("chicks sleep by the stove, all in one heap", "drowsy_people_or_birds_near_stove"),
        ("we twisted two necks for supper", "twisted_neck_or_paralysis"),
        ("the air chokes like old urine", "gasping"),
        ("green like leaves, the poo of a few", "bloody_droppings"),
        ("the price of charcoal is choking us", "smoke_or_fumes"),
        ("strong ones bite the weak", "lethargic"),
        ("a few drop green water", "drinking_less"),
    ],
)
def test_what_only_sounds_so_is_none(thinking: Thinking, text: str, sign: str) -> None:
    assert sign not in read(thinking, text, "en", **BATCH)["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "they nap after eating then get up and run",
        "the chief has 300 birds that gasp",
        "at my in laws all the hens died",
        "a video of birds spinning, is it a real disease",
        "people say a vaccine makes the head swell, is it true",
        "at 3 weeks blood may come, which drug do i keep",
    ],
)
def test_no_danger_of_naps_or_of_others(thinking: Thinking, text: str) -> None:
    assert not read(thinking, text, "en", **BATCH)["red_flag"]


@pytest.mark.parametrize(
    ("text", "intent"),
    [
        ("we keep eighty birds of 12 days", "register"),
        ("maybe i keep 150", "plan"),
    ],
)
def test_birds_with_an_age_are_there(thinking: Thinking, text: str, intent: str) -> None:
    none = {"has_batch": False, "age_days": None, "count": None}
    assert read(thinking, text, "en", **none)["intent"] == intent


@pytest.mark.parametrize(
    ("text", "grave"),
    [
        ("3 of them sneeze and they snore at night", False),
        ("3 sneeze, all of them snore at night", True),
    ],
)
def test_they_are_the_few_just_counted(thinking: Thinking, text: str, grave: bool) -> None:
    assert read(thinking, text, "en", **BATCH)["red_flag"] is grave


def test_day_olds_are_none_days_old_in_a_question(thinking: Thinking) -> None:
    asked = read(thinking, "what heat do day olds need", "en", **BATCH)
    assert asked["slots"]["age_days"] == 0

"""Not told of these birds now: what a paper or a boss of former days tells, crops that wither,
birds that are up again, a wish to see the figures, a question with what it asks about put first.
Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    "text",
    [
        "i read in the paper that a bird disease makes heads swell. we are far from there",
        "saw in one newspaper that newcastle twists the neck of birds",
        "we heard on the news that flu kills many chickens",
        "his former boss had birds all dull and sleepy from bad air",
        "the birds of my former boss were all sleeping from gas",
        "where i worked before all the birds were gasping",
        "they told me plenty die when it is cold, is it true",
        "people tell me most die in the rainy season",
    ],
)
def test_hearsay_is_no_danger(thinking: Thinking, text: str) -> None:
    assert not read(thinking, text, "en", age_days=9)["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "i read your paper and the heads of my birds are swollen",
        "my boss says all our birds are sleeping and dont move",
        "they told me many died this morning",
        "my worker told me plenty died today",
        "heads are swollen like i read in the paper",
    ],
)
def test_what_is_so_here_stays_danger(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", age_days=9)["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "all my cabbages are wilting and dying. can you help with crops",
        "our maize is drying and dying, no rain",
        "the beans are yellow and all dying",
        "all the tomato plants are sick and dead",
        "my banana trees are rotting and dying do you know why",
        "most of my kale withered and died",
    ],
)
def test_crops_that_die_are_no_birds(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "en", age_days=16)
    assert not got["red_flag"]
    assert got["signals"] == []


@pytest.mark.parametrize(
    "text",
    [
        "i gave tomatoes and now many are dying",
        "chicks ate maize and they are dying",
        "my chicks are weak and dying, the maize is fine",
        "they ate spoilt maize and most died",
    ],
)
def test_birds_that_die_of_crops_are_danger(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", age_days=16)["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "the dull ones i texted about are running about again",
        "those weak chicks from yesterday are up and eating again",
        "the droopy one is back on its feet",
        "the dull pair is walking again",
        "weak ones i reported are lively again",
        "the sleepy chicks are back to normal",
    ],
)
def test_birds_that_are_up_again_are_no_danger(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "en", age_days=12)
    assert not got["red_flag"]
    assert "lethargic" not in got["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "the chicks are dull again",
        "many are weak and not walking again",
        "all of them lie down again and do not move",
        "they are gasping again, most of them",
    ],
)
def test_birds_that_are_ill_again_are(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", age_days=12)["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "remind me of the figures for my batch, deaths feed all",
        "send me the numbers so far, deaths weight everything",
        "show my totals, feed, deaths and all",
        "give me the figures of this flock, deaths and everything",
        "i want to see the numbers of my birds, deaths and everything",
        "remind me what we recorded, deaths feed everything",
    ],
)
def test_figures_that_are_wished_are_no_report(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "en", age_days=33)
    assert got["intent"] == "status"
    assert not got["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "deaths everywhere, everything is finished",
        "everything dead, show me what to do",
        "remind me what to do, many are dying",
    ],
)
def test_deaths_that_are_reported_stand(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", age_days=33)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "a little charcoal smoke does it really hurt the chicks"),
        ("en", "smoke of charcoal does it harm them or is it just talk"),
        ("en", "charcoal fumes can they kill a chick"),
        ("en", "smoke from wet wood is it bad for chicks"),
        ("sw", "moshi wa mkaa je unadhuru vifaranga kweli"),
        ("sw", "moshi kidogo wa jiko unaweza kudhuru vifaranga"),
        ("fr", "la fumee du charbon est ce que ca fait vraiment mal aux poussins"),
    ],
)
def test_smoke_that_is_asked_about_is_not_heavy(thinking: Thinking, lang: str, text: str) -> None:
    assert not read(thinking, text, lang, age_days=3)["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "heavy smoke in the brooder does it kill them",
        "my chicks pass blood is it cocci",
        "the house is full of smoke can they die",
        "there is blood in their droppings is it serious",
    ],
)
def test_danger_before_a_question_stands(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", age_days=3)["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "the chicks just stand along the wall all round",
        "they only sit all around the edge",
        "chicks just stand all along the boards",
        "all round the wall they just lie",
        "the birds just stand all around the edge",
        "they just sit all along the curtain",
    ],
)
def test_birds_all_along_the_wall_are_no_dull_flock(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "en", age_days=9)
    assert not got["red_flag"]
    assert "at_edges_or_walls" in got["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "all the chicks just stand with eyes closed",
        "they all just lie and dont move",
        "all around they lie and nobody moves",
        "the whole flock just stands dull at the wall",
    ],
)
def test_a_dull_flock_by_the_wall_is_danger(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", age_days=9)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "nobody drowsy in the family, all of us are strong"),
        ("en", "no one sleepy in the house, we are all strong"),
        ("en", "no person dizzy at home, brooder smells fresh"),
        ("en", "none of us drowsy here and the air is good"),
        ("en", "no one is drowsy at home, everybody is okay"),
        ("en", "nobody dizzy inside, stove burns well"),
        ("fr", "personne n'est somnolent a la maison, tout le monde va bien"),
        ("sw", "hakuna mtu anayesinzia nyumbani, wote wako na nguvu"),
    ],
)
def test_nobody_drowsy_is_no_danger(thinking: Thinking, lang: str, text: str) -> None:
    assert not read(thinking, text, lang, age_days=4)["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "nobody moves, they are drowsy in the house",
        "no one is awake here, all drowsy",
        "no one is dizzy but my wife is dizzy",
        "none of the birds is awake, all sleepy",
    ],
)
def test_somebody_drowsy_is(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", age_days=4)["red_flag"]

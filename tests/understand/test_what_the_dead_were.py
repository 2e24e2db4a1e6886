"""What is told of a bird that died, as it was before: no illness of those that live. Worded for
this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text", "dead"),
    [
        ("fr", "1 poule morte ce matin elle etait la plus faible", 1),
        ("fr", "un seul mort, il etait malade depuis le debut", 1),
        ("fr", "1 mort il etait deja fatigue depuis hier", 1),
        ("fr", "2 morts ce matin ils etaient deja faibles", 2),
        ("en", "2 dead they were weak already", 2),
        ("en", "1 died it was the weakest", 1),
        ("sw", "amekufa mmoja alikuwa dhaifu", 1),
    ],
)
def test_the_weak_one_that_died_is_one_death(
    thinking: Thinking, lang: str, text: str, dead: int
) -> None:
    found = read(thinking, text, lang=lang)
    assert (found["intent"], found["slots"]) == ("deaths", {"deaths": dead})
    assert not found["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "1 mort et les autres sont tres faibles"),
        ("fr", "1 morte, toutes les autres sont fatiguees"),
        ("en", "1 dead and the others are weak"),
        ("en", "1 died all of them were dull since morning"),
        ("sw", "amekufa mmoja na wengine wote wamezubaa"),
    ],
)
def test_the_weak_that_live_are_danger(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang=lang)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text", "dead"),
    [
        ("fr", "hier soir 25 poussins morts ecrases dans le coin", 25),
        ("fr", "30 poulets morts dans le coin du batiment", 30),
        ("fr", "18 morts aplatis sous le radiant", 18),
        ("fr", "4 morts couches a plat", 4),
        ("en", "26 chicks dead flat in the corner", 26),
        ("en", "4 found dead lying flat", 4),
        ("sw", "4 wamekufa wamelala chali", 4),
    ],
)
def test_how_the_dead_lay_is_no_sign_of_the_living(
    thinking: Thinking, lang: str, text: str, dead: int
) -> None:
    got = read(thinking, text, lang)
    assert (got["intent"], got["slots"]["deaths"]) == ("deaths", dead)
    assert set(got["signals"]) <= {"sudden_many_deaths"}


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "2 dead and 8 more limping"),
        ("en", "2 dead, six lie down and cannot stand"),
        ("fr", "2 morts et 9 couches qui ne se levent plus"),
    ],
)
def test_those_that_lie_beside_the_dead_are_told_of(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert set(read(thinking, text, lang)["signals"]) & {"limping_or_down", "lethargic"}


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "les poulets du coin toussent"),
        ("fr", "les poussins du coin sont morts"),
    ],
)
def test_birds_of_the_neighbourhood_are_not_the_own(
    thinking: Thinking, lang: str, text: str
) -> None:
    got = read(thinking, text, lang)
    assert not got["signals"]
    assert "deaths" not in got["slots"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "found 3 chicks with feet bitten off and dead"),
        ("en", "two dead with the legs chewed"),
        ("en", "one dead, the belly is eaten"),
        ("en", "toes gnawed on five of them"),
        ("en", "small black pellets like rice beside the feed"),
    ],
)
def test_bitten_limbs_and_the_droppings_of_rats_are_a_predator(
    thinking: Thinking, lang: str, text: str
) -> None:
    got = read(thinking, text, lang)
    assert (got["signals"], got["red_flag"]) == (["rats_or_predator"], False)


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "a mosquito bit my leg"),
        ("en", "droppings like rice water"),
        ("en", "can my dog sleep in the brooder"),
        ("fr", "mon chat peut dormir dans la poussiniere?"),
        ("sw", "paka wangu alale ndani ya banda awalinde?"),
    ],
)
def test_insects_and_a_cat_that_sleeps_there_are_none(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert not {"rats_or_predator", "lethargic"} & set(read(thinking, text, lang)["signals"])


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        (
            "fr",
            "24 donc 3e foyer mais ils sont aux murs ailes ouvertes, je comprend plus",
        ),
        ("fr", "poussins contre les murs bec ouvert. ont ils froid ou chaud je ne sais pas"),
        (
            "en",
            "reads 25, i lit more, but they are at walls with wings open. cold or hot i dont know",
        ),
        ("sw", "inasoma 24 nikaongeza jiko lakini wako ukutani mabawa wazi. baridi au joto sijui"),
    ],
)
def test_who_does_not_know_whether_it_is_cold_or_hot_is_told_what_the_chicks_say(
    thinking: Thinking, lang: str, text: str
) -> None:
    got = read(thinking, text, lang)
    assert "piled_near_heat" not in got["signals"]
    assert got["cause"] == "hot"

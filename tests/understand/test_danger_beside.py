"""Danger that stands beside something else: a bird that will not wake beside a fire, a knife that
opened what they passed, a figure of yesterday, the answer to another question. And what only looks
like it. Worded for this test."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from bot.diagnosis.question import LITTER, YES_NO
from bot.facts.talk import Hearing
from bot.wiring import Thinking
from tests.understand.reading import read

NOT_WAKING = (
    ("en", "the chicks refuse to wake and the stove burned till dawn"),
    ("en", "all lying still, refusing to wake. charcoal on since evening"),
    ("fr", "les poussins refusent de se reveiller, fourneau allume depuis hier soir"),
    ("sw", "vifaranga wote wanakataa kuamka, jiko lilikuwa linawaka"),
    ("sw", "kijana kalala kando ya jiko anakataa kuamka"),
)
BLOOD = (
    "i cut open the mess of a chick and there is a blood clot",
    "with a knife i opened what they pass, blood inside",
)
DOWN = (
    ("en", "50 cannot stand, yesterday 9"),
    ("sw", "50 hawawezi simama, jana 9"),
    ("fr", "50 ne tiennent plus debout, hier 9"),
)
NONE = (
    ("sw", "kuku wote wamelala tumezima taa"),
    ("en", "all asleep, i switched off the light"),
    ("fr", "leurs cretes deviennent bien rouges"),
    ("sw", "leo nimetoa damu hospitali"),
    ("en", "i cut my hand with the knife, blood everywhere"),
)


@pytest.mark.parametrize(("lang", "text"), NOT_WAKING)
def test_whoever_does_not_wake_beside_a_fire_is_danger(
    thinking: Thinking, lang: str, text: str
) -> None:
    found = read(thinking, text, lang=lang)
    assert found["red_flag"]
    assert {"sleepy_all_birds", "drowsy_people_or_birds_near_stove"} & {*found["signals"]}
    assert "gets_up" not in found["signals"]


@pytest.mark.parametrize("text", BLOOD)
def test_a_knife_that_opens_what_they_passed_is_no_wound(thinking: Thinking, text: str) -> None:
    assert "bloody_droppings" in read(thinking, text, lang="en")["signals"]


@pytest.mark.parametrize(("lang", "text"), DOWN)
def test_fewer_yesterday_is_no_sign_that_is_over(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang=lang)
    assert "limping_or_down" in found["signals"]
    assert found["red_flag"]


@pytest.mark.parametrize(("lang", "text"), NONE)
def test_sleep_in_the_dark_and_blood_of_people_are_no_danger(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert not read(thinking, text, lang=lang)["red_flag"]


@pytest.mark.parametrize(
    ("asked", "options", "text", "sign"),
    [
        ("sign:panting", YES_NO, "hawaoni, macho yamefunga kwa wengi", "eyes_swollen_or_closed"),
        ("litter", LITTER, "wengi wamelala hawawezi kuinuka", "limping_or_down"),
    ],
)
def test_illness_of_many_is_heard_beside_an_answer_to_something_else(
    thinking: Thinking, asked: str, options: tuple[str, ...], text: str, sign: str
) -> None:
    hearing = Hearing(date(2026, 3, 4), "sw", has_batch=True, age_days=9, count=300)
    asks = replace(hearing, prompt="yes_no", asked=asked, options=options)
    assert sign in thinking.reader.read(text, asks).many


def test_nobody_walks_backwards_is_no_answer_and_no_illness(thinking: Thinking) -> None:
    hearing = Hearing(date(2026, 3, 4), "sw", has_batch=True, age_days=9, count=300)
    asks = replace(hearing, prompt="yes_no", asked="sign:rain_or_wind_in", options=YES_NO)
    told = thinking.reader.read("hakuna anayetembea kinyumenyume", asks)
    assert "twisted_neck_or_paralysis" not in told.signals

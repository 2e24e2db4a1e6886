"""Plain ways of leaving the service, of asking to be taught, of telling what a sample weighs, and
questions about things that are no birds."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

YOUNG = {"has_batch": True, "age_days": 8, "count": 300, "today": "2026-03-04"}
GROWN = {**YOUNG, "age_days": 32}


@pytest.mark.parametrize(
    "text",
    [
        "i am quitting this service",
        "we are leaving your programme",
        "please deactivate my line",
        "release me from this",
        "i have decided to opt out",
        "finished with your messages",
    ],
)
def test_who_leaves_the_service_is_let_go(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", **YOUNG)["intent"] == "stop"


@pytest.mark.parametrize(
    "text",
    [
        "i want to leave the chicks with my wife",
        "clear my number of dead to 0",
        "we decided to leave the birds inside",
        "done with the litter",
        "let me go and check them",
        "should i leave the light on",
    ],
)
def test_who_leaves_something_else_stays(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", **YOUNG)["intent"] != "stop"


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("teach me how to mix feed", "feed_type"),
        ("please guide us on lighting", "light"),
        ("educate me about biosecurity", "biosecurity"),
        ("i want to learn about vaccination", "vaccination"),
        ("give me some tips on litter", "litter"),
    ],
)
def test_who_wants_to_learn_asks(thinking: Thinking, text: str, topic: str) -> None:
    read_as = read(thinking, text, "en", **YOUNG)
    assert (read_as["intent"], read_as["slots"].get("topic")) == ("ask", topic)


def test_who_wants_to_learn_the_service_wants_help(thinking: Thinking) -> None:
    assert read(thinking, "teach me how to report", "en", **YOUNG)["intent"] == "help"


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("a sample of 10 came to 16 kg", 1600),
        ("picked 8 at random, 14 kg", 1750),
        ("sampled 20, 30 kg on the scale", 1500),
        ("they are 1.9kg", 1900),
        ("the heaviest is 2.1 kg", 2100),
    ],
)
def test_what_a_sample_weighs_is_no_feed(thinking: Thinking, text: str, grams: float) -> None:
    read_as = read(thinking, text, "en", **GROWN)
    assert (read_as["intent"], read_as["slots"].get("avg_g")) == ("weight", grams)


@pytest.mark.parametrize("text", ["we gave them 12 kg", "today 12 kg", "it was 12 kg today"])
def test_what_they_are_given_is_feed(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en", **GROWN)["intent"] == "feed"


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("the last 14 went today", 14),
        ("the remaining 25 went this morning", 25),
        ("we cleared the last 60 birds", 60),
        ("20 more went to the hotel", 20),
    ],
)
def test_the_last_that_went_are_sold(thinking: Thinking, text: str, count: int) -> None:
    read_as = read(thinking, text, "en", **GROWN)
    assert (read_as["intent"], read_as["slots"].get("count")) == ("sold", count)


@pytest.mark.parametrize(
    ("text", "lang"),
    [
        ("how much is cement these days", "en"),
        ("are tomatoes selling there", "en"),
        ("combien coute le ciment", "fr"),
        ("saruji ni bei gani", "sw"),
    ],
)
def test_the_price_of_other_goods_is_not_answered(thinking: Thinking, text: str, lang: str) -> None:
    assert read(thinking, text, lang, **GROWN)["intent"] == "other"


@pytest.mark.parametrize(
    ("text", "lang"),
    [
        ("can they eat cabbage", "en"),
        ("can i mix beans into the feed", "en"),
        ("je peux donner du manioc aux poussins", "fr"),
        ("naweza kuwapa kabichi", "sw"),
    ],
)
def test_whether_birds_may_eat_it_is_asked(thinking: Thinking, text: str, lang: str) -> None:
    assert read(thinking, text, lang, **GROWN)["intent"] == "ask"


@pytest.mark.parametrize(
    ("text", "lang"),
    [
        ("does onion work against cough", "en"),
        ("is garlic good for coughing", "en"),
        ("le miel soigne la toux", "fr"),
        ("l oignon est bon contre le rhume", "fr"),
        ("kitunguu kinasaidia mafua", "sw"),
        ("asali hutibu kikohozi", "sw"),
    ],
)
def test_what_a_thing_is_good_for_is_no_illness(thinking: Thinking, text: str, lang: str) -> None:
    read_as = read(thinking, text, lang, **YOUNG)
    assert not read_as["signals"]
    assert not read_as["red_flag"]


@pytest.mark.parametrize(
    ("text", "lang"),
    [
        ("please help gasping birds", "en"),
        ("onion was no help they are all coughing", "en"),
        ("aidez moi ils toussent tous", "fr"),
        ("nisaidie wote wanakohoa", "sw"),
    ],
)
def test_a_cry_for_help_is_an_illness(thinking: Thinking, text: str, lang: str) -> None:
    assert read(thinking, text, lang, **YOUNG)["signals"]


@pytest.mark.parametrize(
    ("text", "lang", "sign"),
    [
        ("no improvement they are all coughing", "en", "sneezing_or_rattle"),
        ("no rain today they are panting", "en", "panting"),
        ("i gave no medicine they all cough", "en", "sneezing_or_rattle"),
        ("no change all are coughing", "en", "sneezing_or_rattle"),
        ("pas de changement ils toussent tous", "fr", "sneezing_or_rattle"),
        ("hakuna mabadiliko wote wanakohoa", "sw", "sneezing_or_rattle"),
    ],
)
def test_a_no_ends_where_a_new_statement_begins(
    thinking: Thinking, text: str, lang: str, sign: str
) -> None:
    assert sign in read(thinking, text, lang, **YOUNG)["signals"]


@pytest.mark.parametrize(
    ("text", "lang", "sign"),
    [
        ("no sign they cough", "en", "sneezing_or_rattle"),
        ("i dont think all are panting", "en", "panting"),
        ("it is not that they cough", "en", "sneezing_or_rattle"),
        ("je ne dis pas qu ils toussent", "fr", "sneezing_or_rattle"),
        ("no problem they eat well no cough", "en", "sneezing_or_rattle"),
    ],
)
def test_a_no_that_goes_on_still_denies(
    thinking: Thinking, text: str, lang: str, sign: str
) -> None:
    assert sign not in read(thinking, text, lang, **YOUNG)["signals"]

"""Questions by text whose answer is a number, through the rehearsal, in the three languages.

The figures looked for are worked by hand from the trade's rules beside each (practice of the trade
unless a source is named); the wording around them is the content's own.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

import pytest

from bot.doors.cli.rehearse import rehearse_one
from bot.doors.rehearsal import Rehearsal
from bot.settings import Settings

LANGUAGES = ("en", "sw", "fr")
# What a text says of a fire inside in each language (practice: the top stays open on two sides).
TOP_OPEN = {"en": "top open on two sides", "sw": "wazi juu pande mbili", "fr": "ouvert sur 2 cotes"}
NOBODY_SLEEPS = {"en": "nobody sleeps", "sw": "usilale", "fr": "n'y dormez pas"}


def played(
    rehearsal: Rehearsal, language: str, *texts: str, **context: Any
) -> list[Mapping[str, Any]]:
    """The turns of a conversation; without `age_days` the farmer has no batch."""
    known = {"has_batch": "age_days" in context, "count": 300, "today": "2026-03-04", **context}
    given = {"id": 1, "lang": language, "context": known, "turns": [{"in": one} for one in texts]}
    turns: list[Mapping[str, Any]] = list(rehearse_one(rehearsal, given)["turns"])
    return turns


def answer(rehearsal: Rehearsal, language: str, *texts: str, **context: Any) -> str:
    """What the last text was answered: one text of one part."""
    out = played(rehearsal, language, *texts, **context)[-1]["out"]
    assert [one["parts"] for one in out] == [1]
    return str(out[0]["text"])


def numbers(text: str) -> list[float]:
    return [float(one) for one in re.findall(r"\d+(?:\.\d+)?", text)]


def spread(text: str) -> tuple[int, int]:
    """The range that is told: "3 to 11"."""
    found = re.search(r"(\d+) (?:to|hadi|a) (\d+)", text)
    assert found is not None
    return int(found[1]), int(found[2])


# (what is asked in English, Swahili and French; the figures that the answer holds)
ASKED: dict[str, tuple[tuple[str, str, str], tuple[float, ...]]] = {
    # 5 x 4 = 20 m2; 191 grown birds: 19.1 m2, 3 tubes of 0.11, 2 bells of 0.13 and a stove of 0.3
    # fill 19.99 of it
    "birds in a house": (
        ("how many can I keep 5x4m", "naweza kufuga wangapi 5x4m", "combien de poulets dans 5x4m"),
        (20, 191),
    ),
    # one of 2 litres for 50 (CPDO): 300 / 50
    "drinkers": (
        ("drinkers for 300", "vinyweshea vya kuku 300", "abreuvoirs pour 300"),
        (300, 1, 2, 50, 6),
    ),
    # one tray for 100 (Aviagen brooding tip)
    "feeders": (
        ("feeders for 300", "vilishio vya kuku 300", "mangeoires pour 300"),
        (300, 1, 100, 3),
    ),
    # 500 / 40 = 12.5, 5 trays 0.6, 10 founts 0.5, 2 stoves 0.6: 14.2 m2; 2 sqrt(14.2 / pi) = 4.25
    "ring": (
        ("brooder size 500", "ukubwa wa bruda kuku 500", "taille poussiniere 500"),
        (500, 1, 14.2, 4.3, 2, 7.1),
    ),
    # 20 m2 x 8 cm = 1.6 m3, a sack holds 0.1
    "litter": (
        ("litter for 20 m2", "maranda ya 20 m2", "litiere pour 20 m2"),
        (20, 8, 16, 5, 10),
    ),
    # a bird eats 4702 g by age 42 (Ross 308 2019): 300 x 4.702 = 1411 kg; starter 358 g to day 11 =
    # 107 kg, grower 1673 - 358 = 395 kg, finisher the rest, 909 kg; bags of 50
    "feed": (
        (
            "how much feed for 300 until 6 weeks",
            "chakula kiasi gani kuku 300 hadi wiki 6",
            "combien d'aliment pour 300 jusqu'a 6 semaines",
        ),
        (300, 42, 50, 3, 11, 8, 25, 19, 1411),
    ),
    # 45 g feed on day 10 x 1.77 (Pesti 1985) x 300 = 23.9 litres; 11 C more: 1 + 11 x 0.065
    "water": (
        (
            "how much water for 300 day 10",
            "maji kiasi gani kuku 300 siku ya 10",
            "combien d'eau pour 300 jour 10",
        ),
        (300, 10, 24, 21, 41, 32),
    ),
    # 2 % of 500 are 10
    "deaths": (
        (
            "how many deaths are too many 500",
            "vifo vingapi ni vingi kuku 500",
            "combien de morts c'est trop 500",
        ),
        (500, 10),
    ),
    # 2 kg x 160 cm2 a kg (EU 1/2005) = 320 of 4100 cm2: 12 a crate, 200 / 12
    "crates": (
        ("crates for 200 birds", "makreti ya kuku 200", "caisses pour 200 poulets"),
        (200, 2000, 17, 12),
    ),
    # 1.96 x 12 % / sqrt(10) = 7.4 %; (1.96 x 12 / 5)^2 = 22.1
    "birds to weigh": (
        ("how many to weigh", "nipime wangapi", "combien en peser"),
        (10, 7, 5, 23),
    ),
    "light": (
        ("how much light day 5", "mwanga kiasi gani siku ya 5", "combien de lumiere jour 5"),
        (5, 23, 1),
    ),
    "temperature": (
        ("temperature day 3", "joto siku ya 3", "temperature jour 3"),
        (3, 32),
    ),
}


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("about", ASKED)
def test_a_question_is_answered_by_its_figure(
    rehearsal: Rehearsal, language: str, about: str
) -> None:
    texts, figures = ASKED[about]
    said = numbers(answer(rehearsal, language, texts[LANGUAGES.index(language)]))
    assert set(figures) <= set(said)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "charcoal tonight 14C"),
        ("sw", "mkaa usiku huu 14C"),
        ("fr", "charbon cette nuit 14C"),
    ],
)
def test_fuel_for_the_night_is_a_wide_range_with_the_cautions_of_a_fire(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    said = answer(rehearsal, language, text, age_days=3)
    assert {300, 14, 2} <= set(numbers(said))  # one stove for 250 chicks
    low, high = spread(said)
    assert high >= 2 * low
    assert TOP_OPEN[language] in said.lower()
    assert NOBODY_SLEEPS[language] in said


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "fuel until day 14"),
        ("sw", "mkaa hadi siku ya 14"),
        ("fr", "charbon jusqu'au jour 14"),
    ],
)
def test_fuel_until_a_day_comes_in_whole_sacks(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    said = answer(rehearsal, language, text, age_days=0)
    assert {300, 14, 25} <= set(numbers(said))
    low, high = spread(said)
    assert high >= 2 * low
    assert TOP_OPEN[language] in said.lower()


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "what does a second curtain save"),
        ("sw", "pazia la pili litaokoa nini"),
        ("fr", "que gagne un deuxieme rideau"),
    ],
)
def test_a_second_curtain_saves_a_share_and_makes_no_fire_safe(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    said = answer(rehearsal, language, text)
    assert numbers(said)[:3] == [30, 10, 45]
    assert TOP_OPEN[language] in said.lower()


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "how many stoves tonight"),
        ("sw", "majiko mangapi usiku huu"),
        ("fr", "combien de fourneaux cette nuit"),
    ],
)
def test_what_hangs_on_the_number_of_birds_asks_for_it_and_is_then_counted(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    asked, told = played(rehearsal, language, text, "300")
    assert asked["asked"]
    said = told["out"][0]["text"]
    assert numbers(said)[0] == 300
    assert TOP_OPEN[language] in said.lower()


WHEN = {"en": "when sell", "sw": "niuze lini", "fr": "quand vendre"}
PRICED = {
    "en": "sell 250 a kg feed 3200",
    "sw": "uza 250 kwa kilo chakula 3200",
    "fr": "vendre 250 le kilo aliment 3200",
}


@pytest.mark.parametrize("language", LANGUAGES)
def test_without_a_price_the_day_to_sell_is_told_by_weight_and_how_to_tell_prices(
    rehearsal: Rehearsal, language: str
) -> None:
    said = answer(rehearsal, language, WHEN[language], age_days=28)
    assert 2000 in numbers(said)
    assert 37 in numbers(said)  # Vencobb 400: 2 kg between days 35 and 42
    assert said.endswith(("FEED 3200", "CHAKULA 3200", "ALIMENT 16000"))


@pytest.mark.parametrize("language", LANGUAGES)
def test_with_prices_the_day_to_sell_is_counted_by_them(
    rehearsal: Rehearsal, language: str
) -> None:
    said = answer(rehearsal, language, PRICED[language], age_days=28)
    assert "250" not in said or "3200" in said
    assert 28 < numbers(said)[0] <= 50


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_day_to_sell_is_named_before_the_waiting_days_are_over(
    rehearsal: Rehearsal, language: str
) -> None:
    asking = {
        "en": "gave medicine today",
        "sw": "nimewapa dawa leo",
        "fr": "donne antibiotique ce matin",
    }
    turns = played(rehearsal, language, asking[language], "10", WHEN[language], age_days=30)
    said = turns[-1]["out"][0]["text"]
    assert "15" in said  # 4 March and ten days: from the 15th
    assert "2000" not in said


def test_a_held_batch_has_no_day_to_sell(rehearsal: Rehearsal) -> None:
    danger = "many have twisted necks and green droppings and 20 died today"
    turns = played(rehearsal, "en", danger, "when sell", age_days=30)
    said = turns[-1]["out"][0]["text"]
    assert "2000" not in said
    assert "vet" in said


FED = {
    "en": "bought 200 kg feed",
    "sw": "nimenunua chakula kilo 200",
    "fr": "achete 200 kg aliment",
}
RUN_OUT = {
    "en": "when does my feed run out",
    "sw": "chakula changu kitaisha lini",
    "fr": "quand finira mon aliment",
}


@pytest.mark.parametrize("language", LANGUAGES)
def test_feed_runs_out_by_what_was_reported(rehearsal: Rehearsal, language: str) -> None:
    said = answer(rehearsal, language, FED[language], RUN_OUT[language], age_days=9)
    # Ross 308 2019: 300 birds eat 45, 49, 54, ... g from age 9 on: 13.5, 14.7, 16.2, 17.4, 18.9,
    # 20.7, 22.2, 23.7, 25.5 kg; 200 kg holds 10 days, 9 where they eat 15 % more, 11 where less
    kg, low, high = numbers(said)[:3]
    assert kg == 200
    assert low <= 10 <= high
    assert high - low <= 4


@pytest.mark.parametrize("language", LANGUAGES)
def test_feed_that_nobody_reported_is_asked_for(rehearsal: Rehearsal, language: str) -> None:
    asked, told = played(rehearsal, language, RUN_OUT[language], "100", age_days=9)
    assert asked["asked"]
    assert {10, 100, 300} <= set(numbers(told["out"][0]["text"]))


BUDGET = {"en": "budget 300", "sw": "bajeti ya kuku 300", "fr": "budget 300"}


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("known", [{}, {"age_days": 9}])
def test_a_budget_asks_for_one_price_and_is_then_told_in_money(
    rehearsal: Rehearsal, language: str, known: dict[str, int]
) -> None:
    asked, told = played(rehearsal, language, BUDGET[language], "3200", **known)
    assert asked["asked"]
    assert 30 in numbers(asked["out"][0]["text"])  # bags: 3 + 8 + 19
    said = numbers(told["out"][0]["text"])
    # 30 bags x 3200 = 96,000; at 75 and 60 % of all: 128,000 and 160,000
    assert {96000, 128000, 160000} <= set(said)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "budget 300 chick 100 feed 3200"),
        ("sw", "bajeti kuku 300 kifaranga 100 chakula 3200"),
        ("fr", "budget 300 poussin 100 aliment 3200"),
    ],
)
def test_a_budget_with_two_prices_comes_by_item(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    out = played(rehearsal, language, text)[-1]["out"]
    assert [one["parts"] for one in out] == [1, 1]
    # chicks 30,000, feed 96,000, the rest 10 to 20 % of all: 14,000 to 31,500
    assert {30000, 96000, 14000, 31500} <= set(numbers(out[0]["text"]))
    # by two weeks: what is paid sums to the middle of the whole, 140,000 to 157,500
    before, *weeks = [one for one in numbers(out[1]["text"]) if 1000 < one < 140000]
    assert before + sum(weeks) == pytest.approx((140000 + 157500) / 2, rel=0.01)


def test_the_cooperatives_prices_stand_where_the_farmer_told_none(rehearsal: Rehearsal) -> None:
    settings = Settings(name="Mkulima", prices="feed_bag=3200,chick=100")
    rehearsal.begin(datetime(2026, 3, 4, 6, tzinfo=UTC), settings)
    rehearsal.join("en")
    said = numbers(rehearsal.say("budget 300")[1][0].text)
    assert {30000, 96000} <= set(said)
    told = numbers(rehearsal.say("budget 300 feed 4000")[1][0].text)
    assert 120000 in told  # 30 bags by the farmer's own price


SPENT = {
    "en": "spent 45000 on feed",
    "sw": "nimetumia 45000 kwa chakula",
    "fr": "depense 45000 pour aliment",
}
COST = {
    "en": "cost per bird so far",
    "sw": "gharama ya kuku mmoja mpaka sasa",
    "fr": "cout par poulet jusqu'ici",
}
PROFIT = {"en": "profit so far", "sw": "faida mpaka sasa", "fr": "benefice jusqu'ici"}
SOLD = {"en": "sold 100 at 500", "sw": "nimeuza 100 bei 500", "fr": "vendu 100 a 500"}


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_cost_of_a_bird_is_counted_by_what_was_told(
    rehearsal: Rehearsal, language: str
) -> None:
    none = answer(rehearsal, language, COST[language], age_days=30)
    assert "2500" in none  # how to tell a cost; no money is invented
    said = numbers(answer(rehearsal, language, SPENT[language], COST[language], age_days=30))
    assert {45000, 300, 150} <= set(said)


@pytest.mark.parametrize("language", LANGUAGES)
def test_profit_is_what_came_in_less_what_was_spent(rehearsal: Rehearsal, language: str) -> None:
    texts = (SPENT[language], SOLD[language], PROFIT[language])
    said = numbers(answer(rehearsal, language, *texts, age_days=35))
    assert {100, 50000, 45000, 5000, 200} <= set(said)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "when will they reach 2kg"),
        ("sw", "watafika kilo 2 lini"),
        ("fr", "quand auront ils 2 kg"),
    ],
)
def test_a_weight_is_foretold_and_the_farms_own_weighing_moves_it(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    usual = numbers(answer(rehearsal, language, text, age_days=21))
    weighed = {"en": "10 birds 6 kg", "sw": "kuku 10 kilo 6", "fr": "10 sujets 6 kg"}
    behind = numbers(answer(rehearsal, language, weighed[language], text, age_days=21))
    assert 37 in usual
    assert 37 not in behind  # 600 g at three weeks is far behind 793


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "33 C and humid, 28 days"),
        ("sw", "33 C na unyevu, siku 28"),
        ("fr", "33 C et humide, 28 jours"),
    ],
)
def test_heat_and_damp_air_are_judged_with_the_humidity_taken(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    said = answer(rehearsal, language, text)
    assert {33, 80} <= set(numbers(said))
    assert any(word in said for word in ("danger", "hatari"))


IMPOSSIBLE = [
    ("en", "drinkers for 0", "0"),
    ("sw", "vinywesheo vya kuku 0", "0"),
    ("fr", "abreuvoirs pour 0", "0"),
    ("en", "charcoal tonight 70C", "70 C"),
    ("sw", "mkaa usiku huu 70C", "70 C"),
    ("fr", "charbon cette nuit 70C", "70 C"),
    ("en", "weight at 90 days", "day 50"),
    ("sw", "uzito siku 90", "siku ya 50"),
    ("fr", "poids 90 jours", "jour 50"),
    ("en", "when will they reach -2 kg", "minus"),
    ("sw", "watafika -2 kg lini", "kutoa"),
    ("fr", "quand auront ils -2 kg", "moins"),
    ("en", "how many birds in 300x20", "feet"),
    ("sw", "kuku wangapi 300x20", "futi"),
    ("fr", "combien de poulets dans 300x20", "pieds"),
]


@pytest.mark.parametrize(("language", "text", "why"), IMPOSSIBLE)
def test_what_can_not_be_is_said_and_nothing_is_counted(
    rehearsal: Rehearsal, language: str, text: str, why: str
) -> None:
    said = answer(rehearsal, language, text, age_days=5)
    assert why in said
    assert "m2" not in said or "5x4" in said


REPORTS = [
    ("en", "charcoal finished tonight, they pile up", "observe"),
    ("en", "feed finished", "observe"),
    ("en", "no feed left", "observe"),
    ("en", "bought 6 drinkers for 300", "expense"),
    ("sw", "mkaa umeisha usiku huu wamerundikana", "observe"),
    ("fr", "le charbon est fini cette nuit ils sont en tas", "observe"),
    ("en", "temp 31", "temperature"),
    ("en", "12 dead, how many deaths are too many", "deaths"),
]


@pytest.mark.parametrize(("language", "text", "intent"), REPORTS)
def test_a_report_is_never_taken_for_a_question(
    rehearsal: Rehearsal, language: str, text: str, intent: str
) -> None:
    assert played(rehearsal, language, text, age_days=5)[-1]["intent"] == intent


WITH_DEATHS = [
    ("en", "12 dead, drinkers for 300"),
    ("en", "20 died how many drinkers for 300"),
    ("sw", "wamekufa 20, vinywesheo vya kuku 300"),
    ("fr", "20 morts, abreuvoirs pour 300"),
    ("fr", "charbon cette nuit 14C et 15 morts"),
]


@pytest.mark.parametrize(("language", "text"), WITH_DEATHS)
def test_danger_told_beside_a_question_is_answered_first(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    turn = played(rehearsal, language, text, age_days=5)[-1]
    assert turn["referred"]


@pytest.mark.parametrize("text", ["2 dead, drinkers for 300", "drinkers for 300, and 1 died"])
def test_deaths_are_noted_and_the_question_beside_them_has_a_text_of_its_own(
    rehearsal: Rehearsal, text: str
) -> None:
    noted, answered = played(rehearsal, "en", text, age_days=5)[-1]["out"]
    assert "dead" in noted["text"]
    assert {300, 6} <= set(numbers(answered["text"]))
    assert (noted["parts"], answered["parts"]) == (1, 1)


@pytest.mark.parametrize(
    "text", ["smoke in the house how much charcoal tonight", "we are dizzy how many stoves tonight"]
)
def test_bad_air_is_never_answered_with_kilos_of_charcoal(rehearsal: Rehearsal, text: str) -> None:
    said = played(rehearsal, "en", text, age_days=3)[-1]["out"][0]["text"]
    assert "kg" not in said


@pytest.mark.parametrize(
    ("language", "text", "word"),
    [
        ("en", "can I keep 300 in 5x4m", "No"),
        ("en", "can I keep 150 in 5x4m", "Yes"),
        ("sw", "nyumba 5x4m inatosha kuku 300", "Hapana"),
        ("fr", "300 peuvent tenir dans 5x4m", "Non"),
    ],
)
def test_whether_so_many_fit_is_said_with_how_many_do(
    rehearsal: Rehearsal, language: str, text: str, word: str
) -> None:
    said = answer(rehearsal, language, text, age_days=5)
    assert said.startswith(word)
    assert {20, 191} <= set(numbers(said))


@pytest.mark.parametrize(
    "text",
    [
        "can i sell sick birds",
        "is it safe to eat a sick chicken",
        "can we eat the dead ones",
        "je peux vendre les malades",
        "on peut manger un poulet malade",
        "naweza kuuza wagonjwa",
        "tunaweza kula kuku mgonjwa",
    ],
)
def test_ill_and_dead_birds_are_never_sold_or_eaten(rehearsal: Rehearsal, text: str) -> None:
    rehearsal.begin(datetime.fromisoformat("2026-03-04T10:00:00+03:00"))
    for told in ("300 chicks placed monday", "1", "2", "no"):
        rehearsal.say(told)
    taken, _ = rehearsal.say(text)
    assert [one.key for one in taken.decision.lines] == ["no_meat"]

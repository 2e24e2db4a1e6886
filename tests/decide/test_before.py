"""From the order to the arrival, and the next order: steps that are answered, money that is kept,
slips put right in one turn, what was so last time."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import at_age

MORNING = datetime(2026, 3, 4, 6, 0, tzinfo=UTC)  # nine on the farm
ORDERS = {
    "en": ("i want 300 chicks 14 march", "not yet", "done"),
    "fr": ("je veux 300 poussins le 14 mars", "pas encore", "fait"),
    "sw": ("nataka vifaranga 300 tarehe 14 machi", "bado", "tayari"),
}


def say(rehearsal: Rehearsal, text: str) -> str:
    """The whole answer to a text."""
    return " ".join(rehearsal.say(text)[0].texts)


def ordered(rehearsal: Rehearsal, language: str, heat: str = "1") -> None:
    """300 chicks are planned for ten days later, without a thermometer."""
    rehearsal.begin(MORNING)
    rehearsal.join(language)
    for text in (ORDERS[language][0], heat, "2"):
        rehearsal.say(text)
    rehearsal.heard()


def steps(rehearsal: Rehearsal) -> list[tuple[object, object]]:
    """The steps that were answered, in order, with what was said."""
    told = rehearsal.case().batches[-1].live_events("step")
    return [(one.values["row"], one.values["done"]) for one in told]


def texts(rehearsal: Rehearsal, days: float) -> list[str]:
    """What came by itself in so many days."""
    rehearsal.wait(timedelta(days=days))
    return [one.text for one in rehearsal.heard()]


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_a_step_is_answered_until_the_next_one_comes_whatever_stood_between(
    rehearsal: Rehearsal, language: str
) -> None:
    ordered(rehearsal, language)
    texts(rehearsal, 1)  # the first step, then the one of the morning
    rehearsal.say("charcoal 3 sacks 4500")  # asks the kilos
    say(rehearsal, ORDERS[language][1])
    [(step, done)] = steps(rehearsal)
    assert not done
    rehearsal.wait(timedelta(hours=20))
    say(rehearsal, ORDERS[language][2])
    assert steps(rehearsal)[1:] == [(step, True)]


def test_a_lone_digit_answers_the_step_when_its_day_is_over(rehearsal: Rehearsal) -> None:
    rehearsal.begin(MORNING)
    for text in ("i want 300 chicks 1 april", "1", "2"):
        rehearsal.say(text)
    told = texts(rehearsal, 1.9)
    assert sum("1 done 2 not yet" in one for one in told) == 1
    rehearsal.wait(timedelta(days=1.5))
    assert "that is done" in say(rehearsal, "1")
    assert steps(rehearsal) == [("order_chicks", True)]


@pytest.mark.parametrize(
    ("language", "text", "kilos", "money"),
    [
        ("en", "bought 24 kg gas for 25000", 24, 25000),
        ("en", "for 25000 bought 24 kg gas", 24, 25000),
        ("en", "bought 75 kg of charcoal, 4500 shillings", 75, 4500),
        ("en", "bought firewood 100 kg 2000", 100, 2000),
        ("en", "bought 20 litres kerosene 3000", 16, 3000),  # 0.8 kg a litre
        ("fr", "Achete 24 kg de gaz pour 25000", 24, 25000),
        ("fr", "paye 25000 pour 24 kg de gaz", 24, 25000),
        ("fr", "achete 75 kg charbon a 15000", 75, 15000),
        ("sw", "nimenunua gesi kilo 24 kwa 25000", 24, 25000),
        ("sw", "nimelipa 4500 mkaa kilo 75", 75, 4500),
        ("sw", "nimenunua kuni kilo 100 2000", 100, 2000),
    ],
)
def test_fuel_that_is_bought_keeps_its_kilos_and_its_money_once(
    rehearsal: Rehearsal, language: str, text: str, kilos: int, money: int
) -> None:
    ordered(rehearsal, language)
    said = say(rehearsal, text)
    assert str(money) in said
    batch = rehearsal.case().batches[-1]
    assert [one.values["kg"] for one in batch.live_events("fuel_in")] == [kilos]
    paid = [(one.values["amount"], one.values["on"]) for one in batch.live_events("expense")]
    assert paid == [(money, "heat")]


@pytest.mark.parametrize(
    ("language", "text"),
    [("en", "dont have"), ("en", "i have none"), ("en", "I don't have one"),
     ("fr", "je n'en ai pas"), ("fr", "j'en ai pas"), ("sw", "sina"), ("sw", "hatuna")],
)  # fmt: skip
def test_not_to_have_one_is_a_no(rehearsal: Rehearsal, language: str, text: str) -> None:
    rehearsal.begin(MORNING)
    rehearsal.join(language)
    for said in (ORDERS[language][0], "1"):
        rehearsal.say(said)
    rehearsal.say(text)
    assert rehearsal.case().batches[-1].thermometer is False


@pytest.mark.parametrize(
    ("language", "told", "text"),
    [
        ("en", "18.2", "sorry it was 19.2 not 18.2"),
        ("fr", "18,2", "pardon c'etait 19,2 pas 18,2"),
        ("sw", "18.2", "samahani ilikuwa 19.2 si 18.2"),
        ("sw", "18.2", "sahihisha 19.2 si 18.2"),
    ],
)
def test_a_weighing_is_put_right_in_one_turn(
    rehearsal: Rehearsal, language: str, told: str, text: str
) -> None:
    at_age(rehearsal, 35, language=language)
    rehearsal.say({"en": "weight 10 birds {} kg", "fr": "pesee 10 sujets {} kg",
                   "sw": "uzito kuku 10 kilo {}"}[language].format(told))  # fmt: skip
    rehearsal.say(text)
    weights = rehearsal.case().batches[0].live_events("weight")
    assert [one.values["avg_g"] for one in weights] == [1920]


@pytest.mark.parametrize(
    ("language", "text", "says"),
    [("en", "it was 250 not 300", "250 chicks planned, not 300"),
     ("fr", "c'etait 250 pas 300", "250 poussins prevus, pas 300"),
     ("sw", "sahihisha 250 si 300", "vifaranga 250 wamepangwa, si 300")],
)  # fmt: skip
def test_before_they_come_a_number_put_right_is_one_that_is_planned(
    rehearsal: Rehearsal, language: str, text: str, says: str
) -> None:
    ordered(rehearsal, language)
    assert says in say(rehearsal, text)
    assert rehearsal.case().batches[-1].count == 250


@pytest.mark.parametrize(
    ("language", "heat", "word"),
    [("en", "2", "one gas heater there"), ("en", "1", "one stove there"),
     ("fr", "2", "un radiant a gaz la-bas"), ("fr", "1", "un fourneau la-bas"),
     ("fr", "4", "un rechaud la-bas"), ("sw", "2", "huko jiko la gesi moja"),
     ("sw", "1", "huko jiko moja")],
)  # fmt: skip
def test_the_move_names_what_the_farm_heats_with(
    rehearsal: Rehearsal, language: str, heat: str, word: str
) -> None:
    ordered(rehearsal, language, heat)
    rehearsal.wait(timedelta(days=9, hours=22))
    rehearsal.say({"en": "arrived", "fr": "arrives", "sw": "wamefika"}[language])
    assert any(word in one for one in texts(rehearsal, 15))


def test_fire_told_this_evening_is_not_told_again_with_the_arrival(rehearsal: Rehearsal) -> None:
    rehearsal.begin(MORNING)
    for text in ("300 chicks today", "1"):
        rehearsal.say(text)
    assert any("Fire:" in one for one in texts(rehearsal, 0.4))
    answer = say(rehearsal, "arrived")
    assert "Night:" in answer
    assert "Fire:" not in answer
    assert "Stove air" not in answer


@pytest.mark.parametrize(
    ("language", "offer", "again", "prices"),
    [("en", "as last time (gas heaters)?", "gas", "BUDGET 200 CHICK 95 FEED 3200"),
     ("fr", "comme avant (radiants a gaz)?", "gaz", "BUDGET 200 POUSSIN 95 ALIMENT 3200"),
     ("sw", "kama mwanzo (majiko ya gesi)?", "1", "BAJETI KUKU 200 KIFARANGA 95 CHAKULA 3200")],
)  # fmt: skip
def test_the_next_plan_offers_heat_thermometer_and_prices_of_the_last_batch(
    rehearsal: Rehearsal, language: str, offer: str, again: str, prices: str
) -> None:
    ordered(rehearsal, language, "2")
    rehearsal.say({"en": "budget 250 chick 95 feed 3200",
                   "fr": "budget 300 poussin 95 aliment 3200",
                   "sw": "bajeti kuku 300 kifaranga 95 chakula 3200"}[language])  # fmt: skip
    rehearsal.say(
        {"en": "order cancelled", "fr": "commande annulee", "sw": "oda imefutwa"}[language]
    )
    order = {"en": "i want 200 chicks 20 april", "fr": "je veux 200 poussins le 20 avril",
             "sw": "nataka vifaranga 200 tarehe 20 aprili"}  # fmt: skip
    assert offer in say(rehearsal, order[language])
    assert prices in say(rehearsal, again)
    assert prices in say(rehearsal, {"en": "my plan", "fr": "mon plan", "sw": "mpango"}[language])
    batch = rehearsal.case().batches[-1]
    assert (batch.heat, batch.thermometer) == (("gas",), False)
    assert rehearsal.case().question is None


@pytest.mark.parametrize(
    ("language", "sale", "status", "says"),
    [("en", "sold the rest for 120000", "status", "299 sold of 300"),
     ("fr", "vendu le reste pour 120000", "bilan", "299 vendus sur 300"),
     ("sw", "nimeuza waliobaki kwa 120000", "hali", "umeuza 299")],
)  # fmt: skip
def test_after_the_last_sale_the_status_says_how_the_batch_went(
    rehearsal: Rehearsal, language: str, sale: str, status: str, says: str
) -> None:
    at_age(rehearsal, 40, language=language)
    say(rehearsal, {"en": "gave 1 to neighbour", "fr": "donne 1 au voisin",
                    "sw": "nimempa jirani kuku 1"}[language])  # fmt: skip
    say(rehearsal, sale)
    assert says in say(rehearsal, status)


@pytest.mark.parametrize(
    ("language", "text", "birds"),
    [("en", "gave 1 to neighbour", 299), ("en", "we ate 2", 298), ("en", "culled 1", 299),
     ("fr", "nous en avons mange 2", 298), ("fr", "elimine 1", 299),
     ("sw", "nimeondoa kuku 1", 299), ("sw", "nimeondoa 1", 299), ("sw", "tumekula wawili", 298)],
)  # fmt: skip
def test_each_way_out_is_counted(
    rehearsal: Rehearsal, language: str, text: str, birds: int
) -> None:
    at_age(rehearsal, 33, language=language)
    rehearsal.say(text)
    assert rehearsal.case().batches[0].alive == birds


def test_undo_takes_back_the_sale_that_closed_a_batch_beside_another(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 40)
    for text in ("new batch 200 chicks today", "1", "1"):
        rehearsal.say(text)
    rehearsal.say("2 dead in batch 2")
    rehearsal.say("sold all of batch 1 for 90000")
    assert [one.count for one in rehearsal.case().batches] == [200]
    say(rehearsal, "undo")
    assert [(one.count, one.alive) for one in rehearsal.case().batches] == [(300, 300), (200, 198)]


@pytest.mark.parametrize(
    ("language", "text", "says"),
    [("en", "treated them today", "no waiting days"),
     ("fr", "traites aujourd'hui", "pas de jours d'attente"),
     ("sw", "nimewapa dawa leo", "haina siku za kusubiri")],
)  # fmt: skip
def test_no_days_on_the_label_are_no_ban(
    rehearsal: Rehearsal, language: str, text: str, says: str
) -> None:
    at_age(rehearsal, 35, language=language)
    rehearsal.say(text)
    assert says in say(rehearsal, "0")


def test_a_price_a_kilo_asks_what_they_weighed(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 38)
    assert "How many kilos" in say(rehearsal, "sold 50 by kilo 250 a kg")
    assert "50 sold for 25500" in say(rehearsal, "102")


def test_another_heat_told_in_words_stands_in_the_place_of_the_last_one(
    rehearsal: Rehearsal,
) -> None:
    ordered(rehearsal, "en", "2")
    rehearsal.say("order cancelled")
    rehearsal.say("i want 200 chicks 20 april")
    rehearsal.say("charcoal")
    assert rehearsal.case().batches[-1].heat == ("charcoal",)


def test_of_birds_that_all_died_the_vet_is_asked_after_once_and_by_their_name(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 20, count=200)
    for text in ("new batch 150 chicks today", "1", "1", "2"):
        rehearsal.say(text)
    rehearsal.say("batch 1: all died")
    rehearsal.say("batch 1: 200 dead")
    told = texts(rehearsal, 4)
    asked = [one for one in told if "the vet" in one and "1 yes 2 not yet" in one]
    assert len(asked) == 1, asked
    assert "200 birds: Your birds died." in asked[0]

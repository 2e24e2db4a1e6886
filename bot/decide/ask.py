"""A question of the farmer's: answered with a figure for this batch where there is one.

In: ASK with a topic, or NEXT. Out: one part. Age and number come from the question, else from the
batch. Called by `turn.choose`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from bot.decide.common import answer, behaviour_menu, say
from bot.errors import OutsideRange
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Line, Meaning
from bot.handbook.shapes import Handbook
from bot.husbandry.feed_water import feed_bags, feed_phase, feed_to_buy_kg, water_ml
from bot.husbandry.growth import HOT_STRAIN, feed_intake_g, weight_g
from bot.husbandry.losses import expected_deaths
from bot.husbandry.space import (
    birds_per_m2,
    capacity_with_equipment,
    drinkers_needed,
    feeders_needed,
    floor_needed,
    light,
)
from bot.husbandry.temperature import spot_temperature_c

HELD_TOPICS = ("sale_age", "price", "move", "withdrawal")  # while a disease is suspected
LAST_SPOT_AGE, LAST_FEED_AGE = 20, 48
GROWN_AGE = 28  # the floor of the last step, 10 a square metre


@dataclass(frozen=True, slots=True)
class Asked:
    """What a question is about: age in days and number of birds, where known."""

    age: int | None
    count: int | None
    house_m2: float | None
    batch: Batch | None
    case: Case


Answer = Callable[[Asked, Handbook], Line]


def ask(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The answer to the topic; where a figure is out of its range, the general words."""
    slots = meaning.slots
    batch = case.batch
    known = batch.age(case.today) if batch else None
    asked = Asked(
        age=slots.age_days if slots.age_days is not None else known,
        count=slots.count or (batch.alive if batch and batch.count else None),
        house_m2=slots.house_m2,
        batch=batch,
        case=case,
    )
    topic = slots.topic or "other"
    if batch is not None and batch.held and topic in HELD_TOPICS:
        return answer(say("held_no_sale"))
    if topic == "behaviour" and batch is not None and batch.state == "running":
        return Decision(question=behaviour_menu())
    try:
        line = _FIGURES[topic](asked, handbook) if topic in _FIGURES else _plain(topic)
    except OutsideRange:
        line = _plain(topic)
    return answer(line)


def next_(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """What comes next: today's heat, the next widening or the move."""
    del meaning
    batch = case.batch
    if batch is None or batch.placed_on is None:
        return answer(say("register_first"))
    age = (case.today - batch.placed_on).days
    if age < 0:
        return answer(say("status_planned", n=batch.count or 0, date=batch.placed_on))
    for ahead, key in ((3, "next_paper"), (7, "next_widen"), (14, "next_move"), (21, "next_grown"),
                       (28, "next_last"), (35, "next_sale")):  # fmt: skip
        if age < ahead:
            return answer(say(key, day=ahead + 1))
    del handbook
    return answer(say("next_close"))


def _plain(topic: str) -> Line:
    """The general words on a topic."""
    return say(f"on_{topic}" if topic in PLAIN else "on_other")


PLAIN = (
    "temperature",
    "humidity",
    "space",
    "feed_type",
    "feed_amount",
    "water",
    "drinkers",
    "feeders",
    "litter",
    "light",
    "ventilation",
    "heating",
    "move",
    "weight",
    "sale_age",
    "vaccination",
    "treatment",
    "withdrawal",
    "disease",
    "mortality",
    "behaviour",
    "cleaning",
    "biosecurity",
    "carcass",
    "fumes",
    "reminders",
    "price",
)


def _temperature(asked: Asked, handbook: Handbook) -> Line:
    if asked.age is None or asked.age < 0:
        return say("on_temperature")
    if asked.age > LAST_SPOT_AGE:
        return say("temperature_grown")
    target = spot_temperature_c(asked.age, handbook.husbandry)
    return say("temperature_at", day=asked.age + 1, target=target.value_c)


def _space(asked: Asked, handbook: Handbook) -> Line:
    book = handbook.husbandry
    if asked.house_m2:
        holds = capacity_with_equipment(asked.house_m2, GROWN_AGE, book)
        young = capacity_with_equipment(asked.house_m2, 0, book)
        return say("house_holds", area=asked.house_m2, n=holds, young=young)
    if asked.count is None:
        return say("on_space")
    age = max(0, asked.age or 0)
    floor = floor_needed(asked.count, age, book)
    dense = int(birds_per_m2(age, book))
    return say("space_at", n=asked.count, day=age + 1, area=floor.total_m2, dense=dense)


def _feed_type(asked: Asked, handbook: Handbook) -> Line:
    if asked.age is None or asked.age < 0:
        return say("on_feed_type")
    phase = feed_phase(asked.age, handbook.husbandry)
    if asked.age < 7:
        return say("feed_crumble", day=asked.age + 1)
    return say("feed_phase", day=asked.age + 1, phase=phase)


def _feed_amount(asked: Asked, handbook: Handbook) -> Line:
    book = handbook.husbandry
    if asked.count is None:
        return say("on_feed_amount")
    if asked.age is None or not 0 <= asked.age <= LAST_FEED_AGE:
        kg = feed_to_buy_kg(asked.count, 0, 42, book)
        return say("feed_whole", n=asked.count, kg=round(kg), bags=feed_bags(kg, book))
    kg = asked.count * feed_intake_g(asked.age, book) / 1000
    return say("feed_day", n=asked.count, day=asked.age + 1, kg=round(kg, 1))


def _water(asked: Asked, handbook: Handbook) -> Line:
    if asked.count is None or asked.age is None or not 0 <= asked.age <= LAST_FEED_AGE:
        return say("on_water")
    litres = asked.count * water_ml(asked.age, handbook.husbandry).value_ml / 1000
    return say("water_day", n=asked.count, day=asked.age + 1, litres=round(litres))


def _drinkers(asked: Asked, handbook: Handbook) -> Line:
    if asked.count is None:
        return say("on_drinkers")
    pieces = drinkers_needed(asked.count, max(0, asked.age or 0), handbook.husbandry)
    return say("drinkers_for", n=asked.count, pieces=pieces)


def _feeders(asked: Asked, handbook: Handbook) -> Line:
    if asked.count is None:
        return say("on_feeders")
    pieces = feeders_needed(asked.count, max(0, asked.age or 0), handbook.husbandry)
    return say("feeders_for", n=asked.count, pieces=pieces)


def _light(asked: Asked, handbook: Handbook) -> Line:
    if asked.age is None or asked.age < 0:
        return say("on_light")
    hours = light(asked.age, handbook.husbandry)
    return say(
        "light_at", day=asked.age + 1, hours=round(hours.light_h), dark=round(24 - hours.light_h)
    )


def _weight(asked: Asked, handbook: Handbook) -> Line:
    if asked.age is None:
        return say("on_weight")
    grams = weight_g(asked.age, handbook.husbandry, HOT_STRAIN).value_g
    return say("weight_at", day=asked.age + 1, g=round(grams))


def _mortality(asked: Asked, handbook: Handbook) -> Line:
    if asked.count is None:
        return say("on_mortality")
    week = sum(expected_deaths(asked.count, age, handbook.husbandry) for age in range(7))
    danger = max(3, -(-asked.count * 2 // 100))
    return say("mortality_at", n=asked.count, week=max(1, round(week)), danger=danger)


def _withdrawal(asked: Asked, handbook: Handbook) -> Line:
    del handbook
    given = asked.batch.live_events("treated") if asked.batch else ()
    if not given or given[-1].values.get("days") is None:
        return say("on_withdrawal")
    days = int(str(given[-1].values["days"]))
    return say("treated_days", date=given[-1].on_date, n=days)


_FIGURES: dict[str, Answer] = {
    "temperature": _temperature,
    "space": _space,
    "feed_type": _feed_type,
    "feed_amount": _feed_amount,
    "water": _water,
    "drinkers": _drinkers,
    "feeders": _feeders,
    "light": _light,
    "weight": _weight,
    "mortality": _mortality,
    "withdrawal": _withdrawal,
}

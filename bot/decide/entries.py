"""Entries that only need taking down: feed, water, weight, treatment, expense, crops.

In: the meaning of one fact. Out: an event and a short word of what was noted, with the one thing
that follows from it. Called by `turn.choose`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta

from bot.decide.common import (
    about,
    answer,
    answers,
    asked_batch,
    day_of,
    maybe,
    menu,
    no_batch,
    number,
    running,
    say,
)
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Line, Meaning, Slots, Value
from bot.facts.writes import AddEvent, CloseQuestion, TellAdviser, Write
from bot.handbook.shapes import Handbook
from bot.husbandry.feed_water import crop_full_pct
from bot.husbandry.forecast import Weighing, is_behind
from bot.husbandry.growth import HOT_STRAIN, weight_g
from bot.ledger.settle import REPLACES

CROPS_SLACK = 5  # percent: half of one chick in ten
BAG_KG = 50  # the common bag where no weight is said; common practice, no source
NOON = 12
FEW, MANY, MANY_BIRDS = 10, 20, 500  # birds weighed together; common practice
FUEL_KG = "fuel_kg"
FUELS = ("charcoal", "gas", "kerosene", "wood")
WEEK, WEIGHING_DAYS = 7, 4  # weighed weekly; the figure may come some days late
GROWN = 21  # no standing menu of brooding from here
SURE = "sure"  # the question that asks a doubtful figure once more
LEAST_SHARE, MOST_SHARE = 0.5, 2.0  # of the curve; weights beyond are asked again (common practice)
LAST_CURVE_AGE = 49
MOST_EATEN_KG = 0.5  # a bird and day, twice what the heaviest eat; more is asked again
BEHIND = ("feed", "water", "cold", "none")


def feed(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Feed bought ("in") or eaten, in kilograms."""
    del handbook
    batch = running(case) or case.batch
    kg = meaning.slots.kg
    if kg is None and meaning.slots.bags is not None:
        kg = meaning.slots.bags * BAG_KG
    if batch is None:
        return no_batch(case)
    if kg is None:
        return Decision(question=number("feed", "ask_feed", "feed", 0, 5000))
    bought = meaning.slots.feed_move == "in"
    kind = "feed_in" if bought else "feed_eaten"
    day = day_of(case, meaning)
    if not bought and kg > MOST_EATEN_KG * batch.alive and not answers(case, SURE):
        asked = number(SURE, "ask_feed_sure", "feed", 0, 5000, kg=kg, alive=batch.alive)
        return Decision(question=asked)
    write = AddEvent(batch.id, kind, day, {"kg": kg})
    price = meaning.slots.price
    if bought and price:
        paid = AddEvent(batch.id, "expense", day, {"amount": price, "on": "feed"})
        lines = (say("fact_feed_in", kg=kg), say("fact_expense_on", money=price, on="feed"))
        return Decision(lines, (write, paid))
    return Decision((say("fact_feed_in" if bought else "fact_feed", kg=kg),), (write,))


def water(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Water drunk, in litres."""
    del handbook
    batch = running(case)
    if batch is None:
        return no_batch(case)
    if meaning.slots.litres is None:
        return Decision(question=number("water", "ask_water", "water", 0, 5000))
    values = {"litres": meaning.slots.litres}
    write = AddEvent(batch.id, "water", day_of(case, meaning), values)
    return Decision((say("fact_water", litres=meaning.slots.litres),), (write,))


def weight(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """An average weight, from single weights or a total; set beside the comparison curve."""
    batch = running(case)
    if batch is None:
        return no_batch(case)
    grams = meaning.slots.avg_g
    if grams is None and meaning.slots.weights_g:
        grams = sum(meaning.slots.weights_g) / len(meaning.slots.weights_g)
    if grams is None:
        asked = number("weight", "ask_weight", "weight", 0, 80_000, n=_weighed(batch))
        return Decision(question=asked)
    doubted = _doubted(batch, grams, case, handbook)
    if doubted is not None:
        return doubted
    values: dict[str, object] = {"avg_g": round(grams, 1)}
    if meaning.slots.weights_g:
        values["weights_g"] = list(meaning.slots.weights_g)
    day = day_of(case, meaning)
    write = AddEvent(batch.id, "weight", day, values)
    noted = say("fact_weight", g=round(grams))
    usual = _usual_g(batch, day, handbook)
    if usual is None:
        return Decision((noted,), (write,))
    if _is_behind(batch, day, values, handbook):
        return _behind(batch, day, usual, noted, write, handbook)
    beside = say("weight_at", day=(batch.age(day) or 0) + 1, g=round(usual))
    return Decision((noted, beside), (write,))


def bare_weight(said: str, case: Case, handbook: Handbook) -> float | None:
    """The weight of a bird [g] that a figure without a word tells, in the days on which birds are
    weighed and while no weight came; None where it can't be one. In brooding a lone digit is a
    place of the standing menu."""
    batch = running(case)
    age = batch.age(case.today) if batch is not None else None
    if batch is None or age is None or age < WEEK or age % WEEK >= WEIGHING_DAYS:
        return None
    since = case.today - timedelta(days=WEIGHING_DAYS)
    weighed = any(one.on_date >= since for one in batch.live_events("weight"))
    if (
        weighed
        or not re.fullmatch(r"\d{1,3}([.,]\d{1,2})?", said)
        or (age < GROWN and len(said) == 1)
    ):
        return None
    grams = float(said.replace(",", ".")) * 1000 / _weighed(batch)
    return grams if _is_likely(grams, age, handbook) else None


def _is_likely(grams: float, age: int, handbook: Handbook) -> bool:
    usual = weight_g(min(LAST_CURVE_AGE, max(0, age)), handbook.husbandry).value_g
    return LEAST_SHARE * usual <= grams <= MOST_SHARE * usual


def _weighed(batch: Batch) -> int:
    """So many birds are weighed together."""
    return MANY if batch.alive > MANY_BIRDS else FEW


def _doubted(batch: Batch, grams: float, case: Case, handbook: Handbook) -> Decision | None:
    """A weight that no bird of this age has is asked for once more, and not taken down; said again
    it stands, where it is a weight at all."""
    age = min(LAST_CURVE_AGE, max(0, batch.age(case.today) or 0))
    usual = weight_g(age, handbook.husbandry).value_g
    if _is_likely(grams, age, handbook) or (grams > 0 and answers(case, SURE)):
        return None
    told: dict[str, Value] = {"g": round(grams), "day": age + 1, "usual": round(usual)}
    asked = number(SURE, "ask_weight_sure", "weight", 0, 80_000, n=_weighed(batch), **told)
    return Decision(question=asked)


def _usual_g(batch: Batch, day: date, handbook: Handbook) -> float | None:
    """The comparison curve on a day [g]: the hot-climate table. None before and after it."""
    age = batch.age(day)
    if age is None or not 7 <= age <= 42:
        return None
    return weight_g(age, handbook.husbandry, HOT_STRAIN).value_g


def _is_behind(batch: Batch, day: date, values: Mapping[str, object], handbook: Handbook) -> bool:
    usual = _usual_g(batch, day, handbook)
    if usual is None:
        return False
    single = values.get("weights_g")
    told = len(single) if isinstance(single, list | tuple) else 0
    birds = told or _weighed(batch)
    weighing = Weighing(batch.age(day) or 0, float(str(values["avg_g"])), birds)
    return is_behind(weighing, usual, handbook.husbandry)


def _behind(
    batch: Batch, day: date, usual: float, noted: Line, write: AddEvent, handbook: Handbook
) -> Decision:
    """More than two standard errors below the curve. The first time asks before it explains; after
    that the adviser is told."""
    age = batch.age(day) or 0
    earlier = any(
        one.on_date < day and _is_behind(batch, one.on_date, one.values, handbook)
        for one in batch.live_events("weight")
    )
    beside = maybe("weight_at", day=age + 1, g=round(usual))
    if not earlier:
        return Decision((noted, beside), (write,), menu("behind", "ask_behind", BEHIND))
    grams = round(float(str(write.values["avg_g"])))
    told = {"what": "weight", "day": age + 1, "g": grams, "usual": round(usual)}
    tell = TellAdviser("behind", f"weights stay behind, day {age + 1}", batch.id, told)
    return Decision((noted, beside, say("behind_again")), (write, tell))


def answer_behind(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """What may hold them back, as the farmer sees it, and what to do about it."""
    del handbook
    batch = asked_batch(case)
    chosen = meaning.slots.answer
    if batch is None or chosen not in BEHIND:
        return Decision(question=menu("behind", "ask_behind", BEHIND))
    tells: tuple[Write, ...] = ()
    if chosen == "none":
        reason = "weights behind, no reason known"
        tells = (TellAdviser("behind", reason, batch.id, {"what": "no_reason"}),)
    return Decision((say(f"behind_{chosen}"),), (*tells, CloseQuestion()))


def treated(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """A treatment or vaccine, kept as typed and never repeated; unknown days on the label ask."""
    del handbook
    batch = running(case)
    if batch is None:
        return no_batch(case)
    values = {"product": meaning.slots.product or "", "days": meaning.slots.days}
    day = day_of(case, meaning)
    write = AddEvent(batch.id, "treated", day, values)
    if meaning.slots.days is not None:
        return Decision((_wait(day, meaning.slots.days),), (write,))
    ask = number("withdrawal", "ask_withdrawal", "count", 0, 90)
    return Decision((say("treated", date=day),), (write,), ask)


def answer_withdrawal(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The days on the label of the last treatment."""
    del handbook
    batch = asked_batch(case)
    given = batch.live_events("treated") if batch else ()
    days = meaning.slots.count
    if batch is None or not given or days is None:
        return Decision(question=number("withdrawal", "ask_withdrawal", "count", 0, 90))
    last = given[-1]
    values = {**last.values, "days": days, REPLACES: [last.id]}
    writes = (AddEvent(batch.id, "treated", last.on_date, values),)
    return Decision((_wait(last.on_date, days),), writes)


def _wait(day: date, days: int) -> Line:
    """What the label says of sale and eating."""
    return say("treated_days", date=day, n=days) if days else say("treated_none", date=day)


def expense(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Money spent."""
    del handbook
    batch = case.batch
    if batch is None:
        return no_batch(case)
    if meaning.slots.price is None:
        return answer(say("expense_how_much"))
    values: dict[str, object] = {"amount": meaning.slots.price}
    on = meaning.slots.spent_on
    if on is not None:
        values["on"] = on
    write = AddEvent(batch.id, "expense", day_of(case, meaning), values)
    if on is None:
        return Decision((say("fact_expense", money=meaning.slots.price),), (write,))
    return Decision((say("fact_expense_on", money=meaning.slots.price, on=on),), (write,))


def fuel(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Fuel burnt in a night: by it this brooder's loss is learnt. Told before noon it is last
    night's. Fuel bought is kept, also before they come, so that its end is foreseen."""
    bought = meaning.slots.feed_move == "in"
    batch = running(case) or (case.batch if bought else None)
    if batch is None:
        return no_batch(case)
    kg = _fuel_kg(meaning.slots, meaning.slots.heat, handbook)
    if bought:
        return _fuel_in(meaning.slots, batch, day_of(case, meaning), handbook)
    if kg is None or not kg:
        return answer(say("fuel_how_much"))
    night = case.today if case.local.hour >= NOON else case.today - timedelta(days=1)
    write = AddEvent(batch.id, "fuel", night, {"kg": kg, "heat": meaning.slots.heat})
    heat = meaning.slots.heat or next(iter(batch.heat), None)
    return Decision((_of_fuel("fact_fuel", kg, heat),), (write,))


def _fuel_in(slots: Slots, batch: Batch, day: date, handbook: Handbook) -> Decision:
    """Fuel bought, in kilograms or litres of kerosene, and what was paid for it; of sacks and
    bottles, which are of any size, the kilos are asked."""
    heat = slots.heat or next(iter(batch.heat), None)
    kg = _fuel_kg(slots, heat, handbook)
    paid = () if slots.price is None else (
        AddEvent(batch.id, "expense", day, {"amount": slots.price, "on": "heat"}),
    )  # fmt: skip
    cost = () if slots.price is None else (say("fact_expense_on", money=slots.price, on="heat"),)
    if not kg:
        asked = number(FUEL_KG, "ask_fuel_kg", "feed", 0, 5000)
        return Decision(cost, paid, about(asked, heat=heat or "", day=day.isoformat()))
    write = AddEvent(batch.id, "fuel_in", day, {"kg": kg, "heat": heat})
    return Decision((_of_fuel("fact_fuel_in", kg, heat), *cost), (write, *paid))


def _of_fuel(key: str, kg: float, heat: str | None) -> Line:
    """How much fuel, by its name where it is known."""
    if heat not in FUELS:
        return say(key, kg=kg)
    return say(f"{key}_of", kg=kg, fuel=heat)


def _fuel_kg(slots: Slots, heat: str | None, handbook: Handbook) -> float | None:
    """Kilograms of fuel: as told, or by litres of kerosene."""
    h = handbook.husbandry
    if slots.kg is None and slots.litres and heat == "kerosene":
        return round(slots.litres * h.fuel_measure[heat].value, 1)
    return slots.kg


def answer_fuel_kg(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The kilos of the fuel that was bought."""
    batch, kept = asked_batch(case), case.question.about if case.question else {}
    kg = meaning.slots.kg
    if batch is None or not kg or "day" not in kept:
        return answer(say("ask_fuel_kg"))
    slots = Slots(kg=kg, heat=kept.get("heat") or None)
    found = _fuel_in(slots, batch, date.fromisoformat(kept["day"]), handbook)
    return replace(found, writes=(*found.writes, CloseQuestion()))


def crop_check(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """How many crops of ten were full; low ones get warmth, light, feed and water looked at."""
    batch = running(case)
    full = meaning.slots.crops_full
    if batch is None:
        return no_batch(case)
    if full is None:
        return Decision(question=number("crop", "ask_crop", "crop", 0, 10))
    of = meaning.slots.crops_of or 10
    write = AddEvent(batch.id, "crop", case.today, {"full": full, "of": of})
    hours = _hours(case, batch)
    wanted = crop_full_pct(min(48.0, max(2.0, hours)), handbook.husbandry)
    low = full / of * 100 + CROPS_SLACK < wanted
    return Decision((say("crops_are", n=full, of=of), say("crops_low" if low else "crops_good")),
                    (write,))  # fmt: skip


def _hours(case: Case, batch: Batch) -> float:
    """Hours since the first feed: two after arrival."""
    if batch.arrived_at is None:
        return 24.0 * max(1, batch.age(case.today) or 1)
    return max(0.0, (case.now - batch.arrived_at).total_seconds() / 3600 - 2)

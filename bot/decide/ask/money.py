"""Money: the budget of a batch, what a bird has cost so far, profit. Pure; called by `answer`.

No price is ever invented: without one the answer is in bags and sacks, and asks for one price.
"""

from __future__ import annotations

from dataclasses import replace
from math import ceil

from bot.day.planned import cash_line
from bot.decide.ask.asked import Answer, Asked, asked_of, impossible, tell
from bot.decide.ask.growth import weight_on
from bot.decide.ask.prices import Prices, income, known_prices, spent
from bot.decide.common import about, answer, asked_batch, no_batch, number, say
from bot.errors import OutsideRange
from bot.facts.farm import Case
from bot.facts.talk import Decision, Line, Meaning, Question, Value
from bot.facts.writes import AddEvent, CloseQuestion, Write
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.budget import batch_budget, cost_so_far, rough
from bot.husbandry.feed_water import feed_by_phase
from bot.husbandry.fuel_plan import fuel_until
from bot.husbandry.plan import Prices as PlanPrices
from bot.husbandry.plan import plan_batch
from bot.husbandry.space import floor_needed, litter_bags, litter_m3

SALE_AGE = 42  # days: to which a batch is counted where nothing else was said (common practice)
FIRST_SALE_AGE = 21
HEATED_AGE = 14
GROWN_AGE = 28
MOST_PRICE = 10_000_000


def _budget(asked: Asked, h: Husbandry) -> Decision:
    count = asked.count
    if count is None:
        return tell(say("budget_how_many"))
    said = asked.slots.age_days
    age = said if said is not None and FIRST_SALE_AGE <= said <= SALE_AGE else SALE_AGE
    prices = known_prices(asked)
    if prices.feed_bag is None:
        return Decision((_needs(count, age, h),), question=_ask_feed_price(count))
    found = batch_budget(count, age, h, feed_bag=prices.feed_bag, chick=prices.chick)
    told: dict[str, Value] = {"n": count, "day": age, "bags": found.bags, "feed": rough(found.feed)}
    told |= {"bird_low": rough(found.bird_low), "bird_high": rough(found.bird_high)}
    if prices.chick is None:
        return tell(say("budget_by_feed", **told, low=rough(found.low), high=rough(found.high)))
    told["chicks"] = rough(found.chicks)
    rest = [rough(one - found.chicks - found.feed) for one in (found.low, found.high)]
    line = say("budget_full", **told, low=rest[0], high=rest[1])
    return Decision((line,), _kept(asked), more=_by_week(count, age, prices, h))


def _by_week(count: int, age: int, prices: Prices, h: Husbandry) -> tuple[tuple[Line, ...], ...]:
    """When the money is needed, in a text of its own; for the whole life of a batch only."""
    if age != SALE_AGE:
        return ()
    try:
        plan = plan_batch(
            count, "charcoal", h, prices=PlanPrices(prices.feed_bag, prices.chick), sale_age=age
        )
    except OutsideRange:
        return ()
    return ((cash_line(plan),),)


def _kept(asked: Asked) -> tuple[Write, ...]:
    """The prices that this text told, kept with a batch that is still to come, also where the text
    counts with another number of chicks."""
    planned = [one for one in asked.case.batches if one.state == "planned"]
    coming = asked.batch or (planned[-1] if planned else None)
    if coming is None or coming.state != "planned":
        return ()
    told = {"feed_bag": asked.slots.feed_price, "chick": asked.slots.chick_price}
    return tuple(
        AddEvent(coming.id, "price", asked.today, {"of": name, "amount": price})
        for name, price in told.items()
        if price is not None
    )


def _needs(count: int, age: int, h: Husbandry) -> Line:
    """What a batch takes, in bags and sacks."""
    bags = sum(one.bags for one in feed_by_phase(count, 0, age, h))
    fuel = fuel_until(count, 0, HEATED_AGE, h.guessed_night.value, "charcoal", h)
    sack = h.charcoal_sack.value
    floor = floor_needed(count, GROWN_AGE, h).total_m2
    litter = litter_bags(litter_m3(floor, h.litter_depth.value), h)
    low, high = ceil(fuel.low_kg / sack), ceil(fuel.high_kg / sack)
    return say("budget_needs", n=count, day=age, bags=bags, low=low, high=high, litter=litter)


def _ask_feed_price(count: int) -> Question:
    asking = number("price", "ask_feed_price", "count", 1, MOST_PRICE)
    return about(asking, of="feed_bag", count=str(count))


def answer_price(meaning: Meaning, case: Case, h: Husbandry) -> Decision:
    """The price of a bag of feed, in answer to our question: kept with the batch, if there is one,
    and the budget made with it."""
    batch, price = asked_batch(case), meaning.slots.count
    kept = case.question.about if case.question else {}
    count = int(kept.get("count", "0")) or (batch.count if batch else 0) or 0
    if price is None or count < 1:
        return answer(say("budget_how_many"))
    writes: list[Write] = [CloseQuestion()]
    if batch is not None:
        values = {"of": "feed_bag", "amount": float(price)}
        writes.append(AddEvent(batch.id, "price", case.today, values))
    slots = replace(meaning.slots, count=count, feed_price=float(price))
    asked = asked_of(slots, case)
    found = _budget(asked, h)
    return Decision((impossible(asked) or found.lines[0],), tuple(writes), more=found.more)


def _cost(asked: Asked, h: Husbandry) -> Decision:
    batch = asked.batch
    if batch is None or batch.state != "running" or asked.slots.count is not None:
        return _budget(asked, h)
    out, came = spent(batch), income(batch, h)
    if out == 0:
        return tell(say("cost_none"))
    if batch.alive == 0 or came >= out:
        return _profit(asked, h)
    grams = round(weight_on(batch, asked.batch_age or 0, h))
    found = cost_so_far(out, came, batch.alive, grams)
    told: dict[str, Value] = {"spent": rough(out), "alive": batch.alive, "g": grams}
    told |= {"each": rough(found.bird), "kilo": rough(found.kg or 0)}
    if came:
        return tell(say("cost_after_sales", **told, income=rough(came)))
    return tell(say("cost_now", **told))


def _even(asked: Asked, h: Husbandry) -> Decision:
    """The price that comes out even: by what was spent, else by the budget."""
    batch = asked.batch
    told = batch is not None and batch.state == "running" and spent(batch) > 0
    return _cost(asked, h) if told else _budget(asked, h)


def _profit(asked: Asked, h: Husbandry) -> Decision:
    batch = asked.batch
    if batch is None:
        return no_batch(asked.case)
    out, came, sold = spent(batch), income(batch, h), batch.total("sold")
    if out == 0:
        return tell(say("cost_none"))
    if came == 0:
        return tell(say("profit_not_yet", spent=rough(out), alive=batch.alive))
    told: dict[str, Value] = {"n": sold, "income": rough(came), "spent": rough(out)}
    told |= {"money": rough(abs(came - out)), "alive": batch.alive}
    return tell(say("profit_up" if came >= out else "profit_down", **told))


FIGURES: dict[str, Answer] = {"budget": _budget, "cost": _cost, "even": _even, "profit": _profit}

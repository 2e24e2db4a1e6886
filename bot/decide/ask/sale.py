"""The sale: the best day, crates, the days to wait after a treatment. Pure; called by `answer`.

A batch that is held is answered before it comes here; one that waits after a treatment has no best
day before the wait is over.
"""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from bot.decide.ask.asked import Answer, Asked, tell
from bot.decide.ask.growth import weighings, weight_on
from bot.decide.ask.prices import Prices, known_prices, spent
from bot.decide.common import say
from bot.facts.talk import Decision, Line, Value
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.budget import rough
from bot.husbandry.forecast import age_of_weight, published_prior
from bot.husbandry.growth import feed_total_g
from bot.husbandry.losses import birds_left
from bot.husbandry.money import birds_a_crate, crates_needed
from bot.husbandry.sale import Costs, Price, SaleDay, best_sale_day, growth_ahead
from bot.ledger.withdrawal import wait_ends

FIRST_AGE = 21  # nobody sells broilers younger (common practice, no source)
# Six to ten hours without feed, none caught in the heat: common practice, no source.
FASTED = timedelta(hours=8)
HEAT_FROM, HEAT_TO = 9, 17
USUAL_BIRDS = 300
USUAL_SALE_G = 2000


def _sale_day(asked: Asked, h: Husbandry) -> Decision:
    batch = asked.batch
    if batch is not None and batch.open_alarm(asked.today) is not None:
        return tell(say("sold_caution"))
    ends = wait_ends(batch) if batch else None
    if ends == date.max:
        return tell(say("on_withdrawal"))
    if ends is not None and ends >= asked.today:
        return tell(say("sale_waits", date=ends + timedelta(days=1)))
    prices = known_prices(asked)
    if _basis(prices) == "none":
        return _at_weight(asked, h)
    found = _best(asked, prices, h)
    told: dict[str, Value] = {
        "day": found.best.age_days + 1,
        "g": round(found.best.weight_g / 10) * 10,
    }
    if found.best.age_days == found.options[-1].age_days:
        if _basis(prices) == "both":
            return tell(say("sale_pays_on", **told))
        return tell(say("sale_pays_on_guess", **told, n=round(h.price_ratio.value)))
    told |= {"low": min(found.as_good) + 1, "high": max(found.as_good) + 1}
    key = _basis(prices)
    if prices.kg or prices.bird:
        told["price"] = rough(prices.kg or prices.bird or 0)
    if key == "both":
        told["feed"] = rough(prices.feed_bag or 0)
        return tell(say("sale_best_kg" if prices.kg else "sale_best_bird", **told))
    told["n"] = round(h.price_ratio.value)
    told.pop("price", None)
    return tell(say(f"sale_best_{key}", **told))


def _at_weight(asked: Asked, h: Husbandry) -> Decision:
    """Without any price: when they weigh what most buyers want, and how to tell the prices."""
    found = age_of_weight(weighings(asked.batch), USUAL_SALE_G, published_prior(h))
    if found.value is None:
        return tell(say("reach_never", g=USUAL_SALE_G))
    today = asked.batch_age or 0
    likely, early, late = (
        max(today, 49 if age is None else age)
        for age in (found.value, found.earliest, found.latest)
    )
    told: dict[str, Value] = {"g": USUAL_SALE_G, "day": likely + 1}
    told |= {"low": early + 1, "high": late + 1}
    if asked.batch is None or asked.batch.placed_on is None:
        return tell(say("sale_at_weight_new", **told))
    on = asked.batch.placed_on + timedelta(days=likely)
    return tell(say("sale_at_weight", **told, date=on))


def _basis(prices: Prices) -> str:
    """Which prices are known: both, only that of the birds, only that of feed, or none."""
    birds = prices.kg is not None or prices.bird is not None
    if prices.feed_bag is not None:
        return "both" if birds else "no_sale_price"
    return "no_feed_price" if birds else "none"


def _best(asked: Asked, prices: Prices, h: Husbandry) -> SaleDay:
    """The best day by the prices told; where one is missing, by how they usually stand to each
    other. What the batch has cost so far: as told, and at least its feed by the usual share."""
    today = max(1, asked.batch_age or 1)
    start = max(FIRST_AGE, today)
    birds = birds_left(asked.count or USUAL_BIRDS, min(today, start), start, h)
    ratio = h.price_ratio.value
    feed_kg = prices.feed_bag / h.feed_bag.value if prices.feed_bag else None
    if feed_kg is None:
        worth = prices.kg or (prices.bird or 0) * 1000 / USUAL_SALE_G
        feed_kg = worth / ratio if worth else 1.0
    if prices.bird and not prices.kg:
        price = Price(grades=((h.sold_from.value, prices.bird),))
    else:
        price = Price(a_kg=prices.kg or feed_kg * ratio)
    eaten = birds * feed_total_g(start, h) / 1000 * feed_kg / h.feed_cost_share.value
    so_far = max(eaten, spent(asked.batch) if asked.batch else 0.0)
    growth = growth_ahead(weighings(asked.batch), start, published_prior(h))
    return best_sale_day(max(1, round(birds)), growth, price, Costs(feed_kg, 0.0, so_far), h)


def _crates(asked: Asked, h: Husbandry) -> Decision:
    if asked.count is None:
        return tell(say("crates_how_many"))
    grams = asked.slots.avg_g
    if grams is None and asked.slots.age_days is None and (asked.batch_age or 0) >= FIRST_AGE:
        grams = weight_on(asked.batch, asked.batch_age or 0, h)
    grams = round((grams or USUAL_SALE_G) / 10) * 10
    pieces = crates_needed(asked.count, grams, h)
    return tell(
        say("crates_for", n=asked.count, g=grams, pieces=pieces, each=birds_a_crate(grams, h))
    )


def _withdrawal(asked: Asked, h: Husbandry) -> Decision:
    del h
    given = asked.batch.live_events("treated") if asked.batch else ()
    if not given or given[-1].values.get("days") is None:
        return tell(say("on_withdrawal"))
    days = int(str(given[-1].values["days"]))
    if not days:
        return tell(say("treated_none", date=given[-1].on_date))
    return tell(say("treated_days", date=given[-1].on_date, n=days))


def _ill_meat(_asked: Asked, _h: Husbandry) -> Decision:
    """May ill or dead birds be sold or eaten? Never."""
    return tell(say("no_meat"))


def _feed_off(asked: Asked, _h: Husbandry) -> Decision:
    """How long without feed, and water: then how they are caught, in a text behind it. An hour in
    the heat of the day is answered first."""
    hour = _caught_at(asked)
    if hour is not None and _in_the_heat(hour):
        return _by_day()
    return Decision((_feed_line(hour),), more=((say("catch_how"),),))


def _catching(asked: Asked, _h: Husbandry) -> Decision:
    """When they are caught and by whom, with the feed in a text behind it."""
    hour = _caught_at(asked)
    if hour is not None and _in_the_heat(hour):
        return _by_day()
    return Decision((say("catch_how"),), more=((_feed_line(hour),),))


def _by_day() -> Decision:
    return Decision((say("catch_by_day"),), more=((_feed_line(None),),))


def _feed_line(hour: time | None) -> Line:
    if hour is None:
        return say("catch_feed")
    off = datetime.combine(date.min + timedelta(days=1), hour) - FASTED
    return say("catch_feed_at", at=off)


def _caught_at(asked: Asked) -> time | None:
    """The hour told, else unknown."""
    told = asked.slots.time
    return time.fromisoformat(told) if told else None


def _in_the_heat(hour: time) -> bool:
    return HEAT_FROM <= hour.hour < HEAT_TO


FIGURES: dict[str, Answer] = {
    "ill_meat": _ill_meat,
    "sale_day": _sale_day,
    "crates": _crates,
    "withdrawal": _withdrawal,
    "feed_off": _feed_off,
    "catching": _catching,
}

"""What to change next time, drawn from the record of a batch: the three that weigh most. Pure.

In: a batch with its events, the husbandry figures. Out: codes of LESSONS, the heaviest first; fewer
than three where the record gives no more: no fault is invented. Called by the answers and the
report, which word them (terms.yaml: lesson).
"""

from __future__ import annotations

from collections.abc import Iterator

from bot.errors import OutsideRange
from bot.facts.farm import Batch, Event
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.forecast import Weighing, is_behind
from bot.husbandry.growth import HOT_STRAIN, weight_g
from bot.husbandry.limits import straight
from bot.husbandry.losses import birds_left
from bot.ledger.closing import Closing, closing_of
from bot.ledger.ledger import Ledger, ledger_of

MOST = 3
WEEK = 7
FEW = 10  # birds weighed together
LEAST_WEIGHINGS = 3  # of a batch that wants to see how it grows (common practice)
TWICE = 2.0  # a loss of twice what is usual is worth a word (common practice)
CLAIM_PCT = 2.0  # dead on arrival above this is a matter of the hatchery (practice of the trade)
MORE_FEED = 1.1  # of the hot-climate table's conversion (common practice)
DAYS_SEEN = 2  # on so many days a sign is no chance (common practice)
# Signs of the record -> the lesson, with the first age at which it counts.
SIGNS: tuple[tuple[str, tuple[str, ...], int], ...] = (
    ("warmer", ("piled_near_heat", "stove_out", "litter_cold"), 0),
    ("cooler", ("panting", "wings_spread", "away_from_heat"), 0),
    ("draught", ("crowded_one_side", "rain_or_wind_in"), 0),
    ("litter", ("litter_wet", "litter_caked", "ammonia_smell"), 0),
    ("feed_ready", ("feed_finished", "not_eating"), 0),
    ("water_ready", ("not_drinking", "drinking_less"), 0),
    ("rats", ("rats_or_predator",), 0),
)
# How much a lesson weighs, where its size is not counted: what costs birds before what costs
# knowledge (common practice, no source).
WEIGHT = {
    "warmer": 3.0,
    "cooler": 3.0,
    "draught": 2.5,
    "litter": 2.5,
    "feed_ready": 2.5,
    "water_ready": 3.0,
    "rats": 2.0,
    "lock": 1.8,
    "vet_before": 1.6,
    "weigh": 1.2,
    "write_feed": 1.1,
    "write_money": 1.0,
    "count": 0.9,
}
LESSONS = (
    "hatchery",
    "first_week",
    "later_deaths",
    "early_weight",
    "later_weight",
    "feed_waste",
    *WEIGHT,
)


def lessons_of(batch: Batch, h: Husbandry) -> tuple[str, ...]:
    """At most three codes, the heaviest first."""
    found: dict[str, float] = {}
    for code, weight in _all(batch, h):
        found[code] = max(weight, found.get(code, 0.0))
    heaviest = sorted(found, key=lambda code: (-found[code], LESSONS.index(code)))
    return tuple(heaviest[:MOST])


def _all(batch: Batch, h: Husbandry) -> Iterator[tuple[str, float]]:
    ledger, closing = ledger_of(batch), closing_of(batch, h)
    yield from _losses(batch, ledger, h)
    yield from _growth(batch, ledger, h)
    yield from _feed(closing, h)
    yield from _seen(batch)
    yield from _unwritten(batch, ledger, closing)


def _losses(batch: Batch, ledger: Ledger, h: Husbandry) -> Iterator[tuple[str, float]]:
    """Deaths against what is usual: on arrival, in the first week, later; and birds stolen."""
    placed = ledger.birds.placed
    if not placed:
        return
    on_arrival = 100 * ledger.birds.out["dead_on_arrival"] / placed
    if on_arrival > CLAIM_PCT:
        yield "hatchery", 1 + on_arrival / CLAIM_PCT
    early = sum(_n(one) for one in batch.live_events("deaths") if _age(batch, one) < WEEK)
    target = placed * h.first_week_deaths.value / 100
    if early >= h.danger_least.value and early > TWICE * target:
        yield "first_week", 1 + early / target
    last = max((_age(batch, one) for one in batch.events), default=0)
    later = sum(_n(one) for one in batch.live_events("deaths") if _age(batch, one) >= WEEK)
    usual = _usual_deaths(placed, last, h)
    if later >= h.danger_least.value and usual and later > TWICE * usual:
        yield "later_deaths", 1 + later / usual
    if ledger.birds.out["stolen"]:
        yield "lock", WEIGHT["lock"] + 100 * ledger.birds.out["stolen"] / placed


def _usual_deaths(placed: int, last: int, h: Husbandry) -> float:
    """Deaths expected from the second week on, by the hot-climate manual."""
    if last <= WEEK:
        return 0.0
    return placed - birds_left(placed, WEEK, min(last, 56), h)


def _growth(batch: Batch, ledger: Ledger, h: Husbandry) -> Iterator[tuple[str, float]]:
    """The first weighing that was behind: before age 11 it is the brooding, later the feeding."""
    for one in ledger.weighings:
        age = batch.age(one.on_date)
        try:
            usual = weight_g(age if age is not None else -1, h, HOT_STRAIN).value_g
        except OutsideRange:
            continue
        if age is not None and is_behind(Weighing(age, one.mean_g, one.birds or FEW), usual, h):
            share = 1 - one.mean_g / usual
            yield ("early_weight" if age <= 10 else "later_weight"), 2 + 10 * share
            return


def _feed(closing: Closing, h: Husbandry) -> Iterator[tuple[str, float]]:
    """More feed a kilogram than the hot-climate table takes to that age."""
    if closing.conversion is None or closing.age_days is None:
        return
    rows = h.growth[HOT_STRAIN].rows
    points = tuple((float(row.age_days), row.feed_conversion or 0.0) for row in rows)
    usual = straight(points, closing.age_days)
    if closing.conversion > MORE_FEED * usual:
        yield "feed_waste", 2 + 5 * (closing.conversion / usual - 1)


def _seen(batch: Batch) -> Iterator[tuple[str, float]]:
    """Signs told on two days or more."""
    for code, signs, since in SIGNS:
        days = {
            one.on_date
            for one in batch.live_events("observed")
            if _age(batch, one) >= since and _signals(one) & set(signs)
        }
        if len(days) >= DAYS_SEEN:
            yield code, WEIGHT[code] + len(days) / 4


def _unwritten(batch: Batch, ledger: Ledger, closing: Closing) -> Iterator[tuple[str, float]]:
    """What the record does not tell, so that the next one is better known."""
    if batch.live_events("treated"):
        yield "vet_before", WEIGHT["vet_before"]
    if len(ledger.weighings) < LEAST_WEIGHINGS:
        yield "weigh", WEIGHT["weigh"]
    if closing.feed_kg is None:
        yield "write_feed", WEIGHT["write_feed"]
    whole = ledger.money.spent["chicks"] and ledger.money.spent["feed"]
    if not whole or (closing.sold and closing.income is None):
        yield "write_money", WEIGHT["write_money"]
    if not ledger.birds.counts or ledger.birds.gap:
        yield "count", WEIGHT["count"]


def _age(batch: Batch, one: Event) -> int:
    return batch.age(one.on_date) or 0


def _n(one: Event) -> int:
    return int(str(one.values.get("n") or 0))


def _signals(one: Event) -> set[str]:
    signals = one.values.get("signals")
    return {str(code) for code in signals} if isinstance(signals, list | tuple) else set()

"""Looking at what is known: status, and the week of birds that somebody else looks after.

In: STATUS, or a batch whose owner has other phones. Out: one part a batch that says how it stands.
Called by `turn.choose` and `turn.plan`.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from bot.day.closing import Past, closing_lines
from bot.decide.common import answer, maybe, no_batch, say
from bot.errors import OutsideRange
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Line, Meaning
from bot.handbook.shape_husbandry import Husbandry
from bot.handbook.shapes import Handbook
from bot.husbandry.growth import HOT_STRAIN, weight_g
from bot.husbandry.temperature import spot_temperature_c
from bot.ledger.ledger import Ledger, ledger_of
from bot.ledger.stores import feed_stock

LAST_HEATED = 20  # days of age
WEEK = 7


def status(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Day, birds, deaths, weight beside the curve, feed and until when, money: one part a batch,
    the youngest first. After the last sale: how the batch went."""
    del meaning
    known = [one for one in case.batches if one.count is not None and one.placed_on is not None]
    running = [one for one in reversed(known) if one.state == "running" and _age(one, case) >= 0]
    if running:
        first, *others = [_of(one, case, handbook.husbandry) for one in running]
        return Decision(first, more=tuple(others))
    batch = case.batch
    if batch is None and case.ended is not None and case.ended.count:
        told = closing_lines(case.ended, Past(), handbook.husbandry)
        return Decision(told[:1], more=tuple((line,) for line in told[1:]))
    if batch is None or batch.placed_on is None or batch.count is None:
        return no_batch(case)
    return answer(say("status_planned", n=batch.count, date=batch.placed_on))


def _age(batch: Batch, case: Case) -> int:
    return batch.age(case.today) or 0


def _of(batch: Batch, case: Case, h: Husbandry) -> tuple[Line, ...]:
    book, age = ledger_of(batch), _age(batch, case)
    birds = book.birds
    dead = birds.out["deaths"] + birds.out["dead_on_arrival"]
    core = say("status", day=age + 1, alive=birds.alive, n=birds.placed, dead=dead)
    waits = _waits(batch, book, case)
    gap = (maybe("status_gap", gap=birds.gap),) if birds.gap > 0 else ()
    known = (*_weight(batch, book, h), *_feed(batch, book, case, h), *_money(book))
    return (core, *known, *waits,
            *gap, *_others(book), *(_heat(age, h) if birds.alive else ()))  # fmt: skip


def _weight(batch: Batch, book: Ledger, h: Husbandry) -> tuple[Line, ...]:
    """The last weight, beside the comparison curve."""
    if not book.weighings:
        return ()
    last = book.weighings[-1]
    age = batch.age(last.on_date) or 0
    told = {"g": round(last.mean_g), "day": age + 1}
    try:
        usual = weight_g(age, h, HOT_STRAIN).value_g
    except OutsideRange:
        return (say("status_weight", **told),)
    return (say("status_weight_usual", **told, usual=round(usual)),)


def _feed(batch: Batch, book: Ledger, case: Case, h: Husbandry) -> tuple[Line, ...]:
    """Feed left, and the last day for which it is enough; only what was eaten where none was told
    as bought."""
    stock = feed_stock(batch, case.today, h)
    if stock is None:
        eaten = round(float(book.feed.eaten_kg))
        return (maybe("status_eaten", kg=eaten),) if eaten else ()
    if stock.until is None:
        return (say("status_feed_out"),)
    return (say("status_feed", kg=round(stock.kg), date=stock.until),)


def _money(book: Ledger) -> tuple[Line, ...]:
    """Money spent and come in, where any was told."""
    spent, income = round(book.money.out), round(book.money.income)
    return (say("status_money", spent=spent, income=income),) if spent or income else ()


def _waits(batch: Batch, book: Ledger, case: Case) -> tuple[Line, ...]:
    """Why none may be sold now."""
    if batch.held:
        return (say("status_held"),)
    if book.may_sell_from is None or book.may_sell_from <= case.today:
        return ()
    if book.wait_unknown:
        return (maybe("status_waits_unknown"),)
    return (maybe("status_waits", date=book.may_sell_from),)


def _others(book: Ledger) -> tuple[Line, ...]:
    out = book.birds.out
    home = out["eaten"] + out["given"] + out["stolen"] + out["escaped"]
    told = (("culled", out["culled"]), ("sold", out["sold"]), ("home", home))
    return tuple(maybe(f"status_{name}", n=count) for name, count in told if count)


def _heat(age: int, h: Husbandry) -> tuple[Line, ...]:
    if age > LAST_HEATED:
        return ()
    return (maybe("status_heat", target=spot_temperature_c(age, h).value_c),)


# The owner's week


def weekly_lines(case: Case, batch: Batch, h: Husbandry) -> tuple[Line, ...]:
    """Birds alive and dead in this week; what of weight, feed, money and waiting days fits in."""
    age = batch.age(case.today) or 0
    since = case.today - timedelta(days=WEEK)
    dead = sum(
        int(str(one.values.get("n", 0)))
        for kind in ("deaths", "culled")
        for one in batch.live_events(kind)
        if one.on_date > since
    )
    told = {"n": batch.count or 0, "week": (age + 1) // WEEK, "alive": batch.alive, "dead": dead}
    book = ledger_of(batch)
    more = (
        *_waits(batch, book, case),
        *_weight(batch, book, h),
        *_feed(batch, book, case, h),
        *_money(book),
    )
    return (say("owner_week", **told), *(replace(one, essential=False) for one in more))

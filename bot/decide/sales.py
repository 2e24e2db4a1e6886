"""Sales in parts, and what they brought.

In: SOLD, or the answer to "what did they bring?". Out: the sale in the record, the sum so far. A
sale that should not have been is put down all the same, and answered with why; what is asked back
is asked once. Called by `turn.choose`.
"""

from __future__ import annotations

from bot.decide.common import (
    about,
    answer,
    asked_batch,
    closed_if_empty,
    day_of,
    no_batch,
    number,
    running,
    say,
    too_many,
)
from bot.facts.farm import Batch, Case, Event
from bot.facts.talk import Decision, Line, Meaning, Question
from bot.facts.writes import AddEvent, ChangeBatch, CloseQuestion, TellAdviser, Write
from bot.handbook.shapes import Handbook
from bot.ledger.ledger import ledger_of
from bot.ledger.money import Sale
from bot.ledger.settle import REPLACES

MOST_MONEY = 100_000_000
MOST_KG = 20_000


def sold(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Birds sold; never more than are alive."""
    del handbook
    batch = running(case)
    slots = meaning.slots
    if batch is None:
        return no_batch(case)
    kept = case.question.about if case.question and case.question.name == "sold" else {}
    price = slots.price if slots.price is not None else _kept_price(kept.get("price"))
    per = slots.price_per or kept.get("price_per") or "bird"
    if slots.count is None:
        asked = number("sold", "ask_sold", "count", 1, 20_000)
        told = {} if price is None else {"price": str(price), "price_per": per}
        return Decision(question=about(asked, **told))
    day = day_of(case, meaning)
    values: dict[str, object] = {"price": price, "price_per": per}
    if slots.kg is not None:
        values["kg"] = slots.kg
    if slots.count > batch.alive:
        return too_many(batch, "sold", slots.count, day, values)
    event = AddEvent(batch.id, "sold", day, {"n": slots.count, **values})
    return _told(batch, case, event, slots.count)


def _kept_price(said: str | None) -> float | None:
    return None if said is None else float(said)


def _told(batch: Batch, case: Case, event: AddEvent, count: int) -> Decision:
    """What is said of a sale: the sum so far, a caution where one is due, the money where it is not
    known."""
    left = batch.alive - count
    caution, tells = _caution(batch, case, count)
    question = None if caution else _ask_money(event)
    lines: tuple[Line, ...] = (say("fact_sold", n=count), say("alive_now", n=left))
    money = _brought(event)
    if money is not None and not caution:
        before = ledger_of(batch)
        n = before.birds.out["sold"] + count
        total = round(float(before.money.income) + money)
        lines = (say("fact_sold", n=count), say("sold_so_far", n=n, money=total, alive=left))
    writes: tuple[Write, ...] = (event, *tells)
    if left == 0 and not caution and question is None:
        closing = ChangeBatch(batch.id, {"state": "closed"})
        return Decision((say("all_sold"),), (*writes, closing))
    return closed_if_empty(Decision((*lines, *caution), writes, question), batch, left)


def _caution(batch: Batch, case: Case, count: int) -> tuple[tuple[Line, ...], tuple[Write, ...]]:
    """Birds of a held or treated batch were sold: what to do now, and the adviser is told."""
    if batch.held:
        tell = TellAdviser(
            "sale", f"{count} sold of a held batch", batch.id, {"what": "held", "n": count}
        )
        return (say("held_no_sale"),), (tell,)
    if batch.open_alarm(case.today) is not None:
        return (say("sold_caution"),), ()
    book = ledger_of(batch)
    if book.may_sell_from is None or book.may_sell_from <= case.today:
        return (), ()
    reason = f"{count} sold within the days of a treatment"
    tell = TellAdviser("sale", reason, batch.id, {"what": "treated", "n": count})
    if book.wait_unknown:
        return (say("eat_unknown"),), (tell,)
    return (say("sold_waits", date=book.may_sell_from),), (tell,)


def _ask_money(event: AddEvent) -> Question | None:
    """What did they bring; by the kilo, how many kilos?"""
    if event.values.get("price") is None:
        return number("sale_money", "ask_sale_money", "count", 0, MOST_MONEY)
    if event.values.get("price_per") == "kg" and event.values.get("kg") is None:
        return number("sale_kg", "ask_sale_kg", "feed", 0, MOST_KG)
    return None


def _brought(event: AddEvent) -> float | None:
    values = event.values
    if values.get("price") is None:
        return None
    price, count = float(str(values["price"])), int(str(values["n"]))
    if values["price_per"] == "kg":
        return price * float(str(values["kg"])) if values.get("kg") is not None else None
    return price if values["price_per"] == "all" else price * count


def answer_money(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The money that the last sale brought; 0 where none came yet."""
    del handbook
    money = meaning.slots.count
    return _completed(case, None if not money else {"price": money, "price_per": "all"})


def answer_kg(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The kilos of the last sale by the kilo."""
    del handbook
    kg = meaning.slots.kg
    return _completed(case, {"kg": kg} if kg else None)


def _completed(case: Case, more: dict[str, object] | None) -> Decision:
    batch = _asked(case)
    last = _unpriced(batch) if batch else None
    if batch is None or last is None:
        return answer(say("nothing_to_undo"))
    if more is None:
        return Decision((say("sale_unpaid"),), (CloseQuestion(),))
    event = AddEvent(batch.id, "sold", last.on_date, {**last.values, **more, REPLACES: [last.id]})
    book = ledger_of(batch)
    total = round(float(book.money.income) + (_brought(event) or 0))
    line = say("sold_so_far", n=book.birds.out["sold"], money=total, alive=batch.alive)
    return Decision((line,), (event, CloseQuestion()))


def _asked(case: Case) -> Batch | None:
    """The batch whose sale was asked about; the sale may have closed it."""
    asked = case.question.batch_id if case.question else None
    if case.ended is not None and case.ended.id == asked:
        return case.ended
    return asked_batch(case)


def _unpriced(batch: Batch) -> Event | None:
    """The last sale of which the money is not known."""
    open_: list[Sale] = [one for one in ledger_of(batch).money.sales if one.money is None]
    last = max((one.event_id for one in open_), default=0)
    return next((one for one in batch.events if one.id == last), None)

"""Whatever is told, taken back and corrected, in any order: the record balances to the last unit.

The other side of the check is plain double entry, kept apart from the product: every entry that
counts is posted once, with its weight in whole grams and its money in whole cents.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, field, replace
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from bot.facts.farm import WAYS_OUT, Event
from bot.ledger.ledger import ledger_of
from bot.ledger.money import SPENT_ON
from tests.ledger.records import batch, event

BIRDS = st.integers(0, 400)
HUNDREDTHS = st.integers(0, 5_000_000)
AGES = st.integers(0, 45)


@dataclass(frozen=True)
class Step:
    """One thing a farmer does: tells an entry, takes the last back, or corrects an earlier one."""

    does: str
    kind: str
    amount: int
    age: int
    which: int


STEPS = st.lists(
    st.builds(
        Step,
        does=st.sampled_from(("tell", "tell", "tell", "undo", "correct")),
        kind=st.sampled_from((*WAYS_OUT, "feed_in", "feed_eaten", "expense", "counted")),
        amount=st.one_of(BIRDS, HUNDREDTHS),
        age=AGES,
        which=st.integers(0, 100),
    ),
    max_size=40,
)


@dataclass
class Book:
    """The plain book: posted holds what counts; pages below each correction what it stands for."""

    events: list[Event] = field(default_factory=list)
    posted: dict[int, Step] = field(default_factory=dict)
    hidden: dict[int, dict[int, Step]] = field(default_factory=dict)

    def do(self, step: Step) -> None:
        number = len(self.events) + 1
        if step.does == "undo":
            self._undo()
        elif step.does == "correct" and self.posted:
            old = sorted(self.posted)[step.which % len(self.posted)]
            kept = replace(step, kind=self.posted[old].kind)
            self.hidden[number] = {old: self.posted.pop(old)}
            self._post(number, kept, replaces=[old])
        else:
            self._post(number, step)

    def _post(self, number: int, step: Step, **more: object) -> None:
        self.posted[number] = step
        self.events.append(event(number, step.kind, step.age, **_values(step), **more))

    def _undo(self) -> None:
        if not self.posted:
            return
        last = max(self.posted)
        del self.posted[last]
        self.posted.update(self.hidden.pop(last, {}))
        self.events = [replace(one, undone=True) if one.id == last else one for one in self.events]

    def total(self, *kinds: str) -> int:
        return sum(_amount(one) for one in self.posted.values() if one.kind in kinds)


def _amount(step: Step) -> int:
    return step.amount % 401 if step.kind in WAYS_OUT or step.kind == "counted" else step.amount


def _values(step: Step) -> dict[str, object]:
    amount = _amount(step)
    if step.kind in ("feed_in", "feed_eaten"):
        return {"kg": amount / 1000}
    if step.kind == "expense":
        return {"amount": amount / 100, "on": SPENT_ON[amount % len(SPENT_ON)]}
    if step.kind == "sold":
        return {"n": amount, "price": (amount * 37) / 100, "price_per": "bird"}
    return {"n": amount}


def _book(steps: list[Step]) -> Book:
    book = Book()
    for step in steps:
        book.do(step)
    return book


@given(steps=STEPS, placed=st.integers(1, 2000))
def test_birds_are_those_placed_less_every_way_out(steps: list[Step], placed: int) -> None:
    book = _book(steps)
    birds = ledger_of(batch(*book.events, count=placed)).birds
    for kind in WAYS_OUT:
        assert birds.out[kind] == book.total(kind)
    assert birds.alive - birds.short == placed - book.total(*WAYS_OUT)
    assert min(birds.alive, birds.short) == 0


@given(steps=STEPS)
def test_feed_balances_to_the_gram(steps: list[Step]) -> None:
    book = _book(steps)
    feed = ledger_of(batch(*book.events)).feed
    assert feed.bought_kg * 1000 == book.total("feed_in")
    assert feed.eaten_kg * 1000 == book.total("feed_eaten")
    assert feed.bought_kg == feed.eaten_kg + feed.left_kg - feed.short_kg


@given(steps=STEPS)
def test_money_balances_to_the_cent(steps: list[Step]) -> None:
    book = _book(steps)
    money = ledger_of(batch(*book.events)).money
    brought = sum(_amount(one) ** 2 * 37 for one in book.posted.values() if one.kind == "sold")
    assert money.out * 100 == book.total("expense")
    assert money.income * 100 == brought
    assert money.balance * 100 == Decimal(brought - book.total("expense"))


@given(steps=STEPS, data=st.data())
def test_replaying_a_record_in_any_order_gives_the_same_state(
    steps: list[Step], data: st.DataObject
) -> None:
    events = _book(steps).events
    written = [replace(one, values=json.loads(json.dumps(one.values))) for one in events]
    shuffled = data.draw(st.permutations(written))
    assert ledger_of(batch(*shuffled)) == ledger_of(batch(*events))


@given(steps=STEPS)
def test_nothing_that_was_told_is_ever_lost(steps: list[Step]) -> None:
    book = Book()
    held: dict[int, tuple[str, dict[str, object]]] = {}
    for step in steps:
        book.do(step)
        now = {one.id: (one.kind, dict(one.values)) for one in book.events}
        assert all(now[number] == told for number, told in held.items())
        held = now

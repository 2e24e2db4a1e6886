"""Whatever a farmer tells by text, late or taken back, in any order: what the database then holds
balances with a plain count kept beside it, after each text, through the real reader and turn."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import timedelta
from decimal import Decimal

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.doors.rehearsal import Rehearsal
from bot.ledger.ledger import ledger_of
from tests.decide.scene import at_age

COUNT = 300
WAYS = {
    "sold {n} at 400": "sold",
    "we ate {n}": "eaten",
    "gave away {n}": "given",
    "yesterday {n} stolen": "stolen",
    "culled {n}": "culled",
    "bought {n} bags feed 3200": "feed",
    "undo": "undo",
}
TOLD = st.lists(st.tuples(st.sampled_from(list(WAYS)), st.integers(1, 9)), max_size=9)


@dataclass
class Tally:
    """Birds gone, kilograms bought, money in and out, entry by entry."""

    entries: list[tuple[int, int, int, int]] = field(default_factory=list)

    def add(self, kind: str, n: int) -> None:
        if kind == "undo":
            self.entries = self.entries[:-1]
        elif kind == "feed":
            self.entries.append((0, 50 * n, 0, 3200))
        else:
            self.entries.append((n, 0, 400 * n if kind == "sold" else 0, 0))

    @property
    def sums(self) -> tuple[int, ...]:
        return tuple(sum(column) for column in zip((0, 0, 0, 0), *self.entries, strict=True))


@settings(
    max_examples=15,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(told=TOLD)
def test_the_record_balances_after_every_text(
    told: list[tuple[str, int]], rehearsal: Rehearsal
) -> None:
    at_age(rehearsal, 33, count=COUNT)
    tally = Tally()
    for words, n in told:
        rehearsal.say(words.format(n=n), after=timedelta(minutes=20))
        tally.add(WAYS[words], n)
        book = ledger_of(rehearsal.case().batches[-1])
        gone, kg, income, out = tally.sums
        assert book.birds.alive == COUNT - gone
        held = (book.feed.bought_kg, book.money.income, book.money.out)
        assert held == (Decimal(kg), Decimal(income), Decimal(out))

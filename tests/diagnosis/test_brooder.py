"""The diagnosis against a brooder that shares no table with it: right first cause, few questions.

`pytest -s` prints the confusion table.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from bot.handbook.shape_causes import Cause, Causes, Chance
from bot.handbook.shapes import Handbook
from tests.diagnosis.brooder import season
from tests.diagnosis.talking import handbook

NUMBER, SEED = 200, 7


def flattened(causes: Causes, by: float) -> Causes:
    """Every figure moved towards what the sign is without a cause, by a share."""

    def flat(cause: Cause) -> Cause:
        signs = {
            code: Chance(
                base + (1 - by) * (chance.otherwise - base),
                {when: base + (1 - by) * (one - base) for when, one in chance.when.items()},
            )
            for code, chance in cause.signs.items()
            for base in (causes.signs[code].base,)
        }
        return replace(cause, signs=signs)

    return replace(causes, causes={code: flat(one) for code, one in causes.causes.items()})


def shown(table: Counter[tuple[str, str | None]]) -> str:
    """The confusion table, wrong namings only, as lines."""
    wrong = [(n, truth, named) for (truth, named), n in table.items() if truth != named]
    return "\n".join(f"{truth} named {named}: {n}" for n, truth, named in sorted(wrong, key=str))


def test_the_first_cause_named_is_right_in_85_of_100_with_two_questions_at_most() -> None:
    right, questions, table = season(NUMBER, SEED, handbook())
    print(f"right {right:.3f}, questions {questions:.2f}\n{shown(table)}")  # noqa: T201  # for -s
    assert right >= 0.85
    assert questions <= 2


def test_tables_flattened_by_a_fifth_lose_five_points_at_most() -> None:
    book = handbook()
    flat: Handbook = replace(book, causes=flattened(book.causes, 0.2))
    before, _, _ = season(NUMBER, SEED, book)
    after, _, _ = season(NUMBER, SEED, flat)
    assert after >= before - 0.05

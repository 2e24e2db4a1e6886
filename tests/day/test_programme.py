"""The vaccine days that a cooperative's own vet set, in the texts of those days."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta

import pytest

from bot.day.after import after
from bot.day.due import Due, due, next_moment
from bot.day.meetings import KINDS
from bot.facts.farm import Batch, Cooperative, VaccineDay
from bot.handbook.load import content_folder, load_handbook
from bot.handbook.shape_texts import Texts
from bot.say.render import Voice, compose
from tests.day.farms import NAIROBI, PLACED, batch, calendar, case, local

SET_ON = date(2026, 3, 1)
LONGEST = "Newcastle, eye and nose."  # 24 letters
SIGNER, NAME = "Kooperativa", "Wanjikuuuu"


def with_days(**days: str) -> Cooperative:
    """A cooperative whose vet set these: age_7="Gumboro"."""
    rows = (VaccineDay(int(age.removeprefix("age_")), words, "Dr. Asha", SET_ON)
            for age, words in days.items())  # fmt: skip
    return replace(NAIROBI, programme=tuple(rows))


def morning(mine: Batch, age: int, coop: Cooperative) -> Due:
    at = local(PLACED + timedelta(days=age), 6, 30)
    return next(one for one in due(case(mine, coop=coop), mine, calendar(), at)
                if one.slot == "morning")  # fmt: skip


def said(mine: Batch, age: int, coop: Cooperative) -> str:
    one = morning(mine, age, coop)
    voice = Voice("en", coop.name, None, PLACED)
    return compose(one.lines, one.question, voice, all_texts(), pushed=True)


def all_texts() -> Texts:
    return load_handbook(content_folder("")).texts


def test_what_the_vet_set_is_said_on_its_day_as_the_vet_calls_it() -> None:
    coop = with_days(age_6="Newcastle, eye", age_13="Gumboro, water")
    assert "Your vet's programme for day 7: Newcastle, eye." in said(batch(), 6, coop)
    assert "Your vet's programme for day 14: Gumboro, water." in said(batch(), 13, coop)
    for age in (5, 7, 12, 14):
        assert "programme" not in said(batch(), age, coop)


def test_the_day_before_says_what_to_ask_and_to_make_ready() -> None:
    coop = with_days(age_6="Newcastle, eye")
    assert "Tomorrow the vaccine your vet set" in said(batch(), 5, coop)
    assert "Tomorrow the vaccine" not in said(batch(), 6, coop)


def test_a_batch_that_is_held_gets_no_word_of_it() -> None:
    coop = with_days(age_6="Newcastle, eye")
    for age in (5, 6):
        rows = morning(batch(held=True), age, coop).rows
        assert not {"programme_today", "programme_tomorrow"} & set(rows)


def test_a_programme_stands_for_the_days_of_the_calendar() -> None:
    mine, set_in_content = batch(), replace(calendar(), vaccines=(6, 20))
    for coop, heard in ((NAIROBI, {6, 20}), (with_days(age_9="Gumboro"), {9})):
        told = set()
        for age in range(1, 25):
            at = local(PLACED + timedelta(days=age), 6, 30)
            [first, *_] = due(case(mine, coop=coop), mine, set_in_content, at)
            if {"vaccine_today", "programme_today"} & set(first.rows):
                told.add(age)
        assert told == heard


@pytest.mark.parametrize("age", [7, 10, 11, 12, 13, 14, 15, 21])
def test_what_must_be_done_is_said_all_the_same_if_on_another_day(age: int) -> None:
    coop = with_days(**{f"age_{age}": LONGEST})
    mine = replace(KINDS["charcoal, unanswered"], feathered=True)
    essential = {row.id for row in calendar().all_rows if row.essential}
    usual = essentials_of(mine, NAIROBI) & essential
    assert len(usual) > 12
    assert usual <= essentials_of(mine, coop)


def essentials_of(mine: Batch, coop: Cooperative) -> set[str]:
    """Every row that a farm is told up to day 28, which sends a word each day."""
    told: set[str] = set()
    at: datetime | None = mine.arrived_at
    while at is not None and at < local(PLACED + timedelta(days=28), 0):
        known = replace(case(mine, coop=coop, heard_at=at - timedelta(days=1)), now=at)
        items = due(known, mine, calendar(), at)
        told |= {row for one in items for row in one.rows}
        _, mine = after(known, mine, items)
        at = next_moment(known, mine, calendar(), at)
    return told


@pytest.mark.parametrize("kind", [one for one in KINDS if not one.startswith(("planned", "held"))])
def test_it_is_said_whatever_else_the_day_holds_and_in_one_part(kind: str) -> None:
    mine = replace(KINDS[kind], name=NAME, count=2000, nights="cold")
    beside = replace(mine, id=2, placed_on=date(2026, 2, 1))
    texts = all_texts()
    for age in range(1, 57):
        coop = replace(with_days(**{f"age_{age}": LONGEST}), name=SIGNER)
        at = local(PLACED + timedelta(days=age), 6, 30)
        known = case(mine, beside, coop=coop)
        one = next(one for one in due(known, mine, calendar(), at) if one.slot == "morning")
        assert "programme_today" in one.rows, age
        for code in texts.tongues:
            voice = Voice(code, SIGNER, "+254700000000", PLACED)
            whole = compose(one.lines, one.question, voice, texts, pushed=True)
            assert LONGEST in whole
            assert len(whole) <= 160, whole

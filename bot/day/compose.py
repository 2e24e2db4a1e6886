"""Fits a day into one text: head, essentials, sign, question, and what else there is room for.

Sizes are budgets of roles (content/texts/roles.yaml), so that what fits here fits in every
language: signer 12, then every piece with one space before it, 160 in all. Pure; called by morning.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from bot.day.figures import figure, target_c
from bot.day.rows import counts, line_of
from bot.day.standing import Standing, is_awaited, is_ready
from bot.facts.talk import Line
from bot.handbook.shape_calendar import Row
from bot.husbandry.temperature import is_hardening

ONE_PART, SIGNER = 160, 12
MOST_JOBS, MOST_SHORT, SHORT = 2, 3, 30  # one or two jobs; three only where all are of a few words
LAST_ALONE = -2  # age: from here on short steps share a text and its question
STEP_ASK = "q_step"
LONG = 100  # a job of this size carries a clause on fire: that day asks no question


@dataclass
class Page:
    """A text being put together. left: septets that are free. jobs: the rows on it."""

    sizes: Mapping[str, int]
    left: int = ONE_PART - SIGNER
    lines: list[Line] = field(default_factory=list)
    jobs: list[Row] = field(default_factory=list)

    def fits(self, size: int, reserve: int = 0) -> bool:
        return size + 1 + reserve <= self.left

    def add(self, line: Line) -> None:
        """Put a line on the page; its room is taken."""
        self.left -= self.sizes[line.key] + 1
        self.lines.append(line)

    def take(self, size: int) -> None:
        """Take room for something that is said later."""
        self.left -= size + 1

    @property
    def bars_question(self) -> bool:
        """A fire clause or a long job stands on the page."""
        return any(row.fire or row.size >= LONG for row in self.jobs)


def opened(at: Standing) -> Page:
    """A page with its head, and whose batch it is where the phone serves more than one."""
    page = Page(at.calendar.sizes)
    page.add(head(at))
    whose = whose_line(at)
    if whose is not None:
        page.add(whose)
    return page


def head(at: Standing) -> Line:
    """Which day it is."""
    if at.age < 0:
        return Line("day_before", {"n": -at.age})
    if at.age == 0 and is_awaited(at.batch, at.age):
        return Line("day_today")
    return Line("day", {"age": at.age + 1})


def whose_line(at: Standing) -> Line | None:
    """The batch's name, only where this phone has more than one batch."""
    if sum(1 for one in at.case.batches if one.state in ("planned", "running")) < 2:
        return None
    label = at.case.label(at.batch)
    if label:
        return Line("whose", {"name": label})
    return Line("whose_count", {"count": figure("count", at) or 0})


def sign(at: Standing) -> Line | None:
    """The temperature of the day and what the chicks show, or None where no heat is needed."""
    if not 0 <= at.age <= 20 or (at.age >= 14 and is_ready(at.batch)):
        return None
    if at.batch.open_alarm(at.today) is not None:
        return None  # nobody is to turn the heat of birds in danger by the calendar
    if at.age >= 14 and not at.batch.held and at.batch.nights == "warm":
        return None
    if at.age >= 14 and at.batch.heat == ("none",):
        return None  # there is nothing that they could be under
    values = {"target": target_c(at) or 0.0}
    if at.age >= 14:
        return Line("sign_late", values)
    if is_hardening(at.age, at.calendar.book):
        return Line("sign_hardening", values)
    return Line("sign_aim" if at.batch.thermometer else "sign_about", values)


def place_essentials(page: Page, rows: Sequence[Row], at: Standing, reserve: int) -> None:
    """Essentials first. The first one always; others where they fit beside the sign, or without
    it where today is their last day, and where a vaccine is due: that can't wait, and must not
    crowd out what is due beside it. What does not fit waits for tomorrow. rows: the open ones, of
    which only those that have room are held against the record."""
    for row in rows:
        first = not page.jobs
        last_chance = at.age >= (row.expires if row.once else row.last)
        vaccine = any(one.when.vaccine for one in (*page.jobs, row))
        if page.fits(row.size, 0 if first or last_chance or vaccine else reserve):
            _place(page, row, at)


def place_steps(page: Page, rows: Sequence[Row], at: Standing) -> None:
    """Steps of the countdown: one a text, so that its answer is clear; in the last two days others
    behind it, as long as the one question about them has room. What has none waits for tomorrow."""
    asked = page.sizes[STEP_ASK] + 1
    for row in rows:
        if page.jobs and (at.age < LAST_ALONE or not row.essential):
            return
        if page.fits(row.size, asked):
            _place(page, row, at)


def place_others(page: Page, rows: Sequence[Row], at: Standing) -> None:
    """Other jobs, while there is room and they are not too many."""
    for row in rows:
        if page.fits(row.size) and _welcome(row, page):
            _place(page, row, at)


def _welcome(row: Row, page: Page) -> bool:
    if any(row.text == one.text for one in page.jobs):
        return False
    short = all(one.size <= SHORT for one in (*page.jobs, row))
    return len(page.jobs) < (MOST_SHORT if short else MOST_JOBS)


def _place(page: Page, row: Row, at: Standing) -> None:
    """Put a row on the page where it counts for this batch."""
    line = line_of(row, at) if counts(row, at) else None
    if line is not None:
        page.add(line)
        page.jobs.append(row)

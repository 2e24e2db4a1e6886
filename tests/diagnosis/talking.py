"""A farm that talks: carries out the writes of decisions in memory, so that tests can hold whole
conversations with `danger` and `observe` without a database."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from functools import cache
from pathlib import Path
from zoneinfo import ZoneInfo

from bot.decide.danger import danger, danger_kind
from bot.decide.observe.answer import observe
from bot.facts.farm import Batch, Case, Complaint, Cooperative, Event, OpenQuestion, Person, Phone
from bot.facts.talk import Decision, Intent, Line, Meaning, Question, Slots
from bot.facts.writes import (
    AddEvent,
    ChangeBatch,
    ChangeComplaint,
    CloseQuestion,
    OpenComplaint,
    TellAdviser,
    Write,
)
from bot.handbook.causes import load_causes
from bot.handbook.husbandry import load_husbandry
from bot.handbook.shape_calendar import Calendar
from bot.handbook.shape_causes import Causes
from bot.handbook.shape_texts import Texts
from bot.handbook.shapes import Handbook
from bot.turn.choose import choose
from bot.turn.take import hearing
from bot.understand.read import Reader

CONTENT = Path(__file__).parents[2] / "content"
VET = "+254700000099"


@cache
def handbook() -> Handbook:
    """The real causes and figures; texts and calendar are not needed to decide."""
    husbandry = load_husbandry(CONTENT)
    causes = load_causes(CONTENT, husbandry.sources.by_id)
    return Handbook(husbandry, causes, NO_CALENDAR, Texts({}, {}, {}, {}), {})


NO_CALENDAR = Calendar.__new__(Calendar)  # never looked into by what is tested here


def causes() -> Causes:
    return handbook().causes


def seen(*signals: str, many: bool = False, c: float | None = None) -> Meaning:
    """A text that tells of signs, and maybe of a reading."""
    return Meaning(Intent.OBSERVE, Slots(value_c=c), signals=signals, many=signals if many else ())


def denied(*signals: str) -> Meaning:
    return Meaning(Intent.OBSERVE, not_signals=signals)


def reads(value_c: float | None) -> Meaning:
    return Meaning(Intent.TEMPERATURE, Slots(value_c=value_c))


def answers(option: str) -> Meaning:
    """A digit, read by the open question's options."""
    return Meaning(Intent.OTHER, Slots(answer=option))


def dead(number: int) -> Meaning:
    return Meaning(Intent.DEATHS, Slots(deaths=number))


def keys(found: Decision) -> list[str]:
    """The keys of every line of an answer, in all its texts."""
    return [one.key for text in (found.lines, *found.more) for one in text]


class Farm:
    """One phone with at most one batch. `tell` runs danger first, then the diagnosis."""

    def __init__(
        self,
        age: int | None = 5,
        count: int | None = 300,
        *,
        heat: tuple[str, ...] = ("charcoal",),
        house: str = "brooder",
        hour: int = 9,
        batch: bool = True,
        consent: str = "active",
        language: str = "en",
        book: Handbook | None = None,
    ) -> None:
        self.book = book or handbook()
        self.now = datetime(2026, 3, 4, hour, tzinfo=ZoneInfo("Africa/Nairobi")).astimezone(UTC)
        today = date(2026, 3, 4)
        placed = None if age is None else today - timedelta(days=age)
        known = Batch(
            1, "running", count, placed, heat=heat, house=house, arrived_at=_morning(placed)
        )
        self.case = Case(
            self.now,
            Cooperative(1, "Mkulima", "Africa/Nairobi", "KE", vet_number=VET),
            Phone(1, "+254700000001", consent),
            Person(1, language),
            language,
            (known,) if batch else (),
        )
        self.adviser: list[TellAdviser] = []

    @property
    def batch(self) -> Batch:
        return self.case.batches[0]

    @property
    def complaint(self) -> Complaint | None:
        found = self.batch.complaint
        return found if found and found.state == "open" else None

    def wait(self, **time: float) -> None:
        self.case = replace(self.case, now=self.case.now + timedelta(**time))

    def checked_back(self) -> None:
        """The check-back goes out: its question is open, the check is counted."""
        complaint = self.complaint
        assert complaint is not None
        if complaint.check_at is not None:
            self.case = replace(self.case, now=max(self.case.now, complaint.check_at))
        self._change(complaint=replace(complaint, check_at=None, checks=complaint.checks + 1))
        self.put(Question("check_back", "menu", "worked", _LINE, ("better", "same", "worse")))

    def text(self, text: str, reader: Reader) -> Decision:
        """The farmer texts; what they mean by it is read, and answered in the order of a turn."""
        meaning = reader.read(text, hearing(self.case, self.case.today))
        found = choose(meaning, self.case, self.book, text)
        return self._carry_out(found, any(isinstance(one, CloseQuestion) for one in found.writes))

    def tell(self, meaning: Meaning) -> Decision:
        found = danger(meaning, self.case, self.book) or observe(meaning, self.case, self.book)
        return self._carry_out(found, True)

    def _carry_out(self, found: Decision, answered: bool) -> Decision:
        for write in found.writes:
            self._apply(write)
        kind = danger_kind(found)
        if kind:
            today = dict(self.case.recent.danger_today)
            today[kind] = today.get(kind, 0) + 1
            self.case = replace(self.case, recent=replace(self.case.recent, danger_today=today))
        if answered:
            self.case = replace(self.case, question=None)
        if found.question is not None:
            self.put(found.question)
        self.wait(minutes=1)
        return found

    def put(self, question: Question) -> None:
        opened = OpenQuestion(
            1,
            question.name,
            question.kind,
            question.prompt,
            self.case.now,
            question.options,
            about=question.about,
            batch_id=1 if self.case.batches else None,
        )
        self.case = replace(self.case, question=opened)

    def _change(self, **changes: object) -> None:
        changed = replace(self.batch, **changes)  # type: ignore[arg-type]  # names checked by use
        self.case = replace(self.case, batches=(changed,))

    def _apply(self, write: Write) -> None:
        if isinstance(write, TellAdviser):
            self.adviser.append(write)
        elif isinstance(write, AddEvent):
            event = Event(
                len(self.batch.events) + 1, write.kind, write.on_date, self.case.now, write.values
            )
            self._change(events=(*self.batch.events, event))
        elif isinstance(write, ChangeBatch):
            self._change(**write.changes)
        elif isinstance(write, OpenComplaint):
            self._change(
                complaint=Complaint(
                    1,
                    1,
                    write.cause,
                    self.case.now,
                    write.signals,
                    write.not_signals,
                    write.asked,
                    write.actions,
                    write.check_at,
                )
            )
        elif isinstance(write, ChangeComplaint):
            self._complain(write)

    def _complain(self, write: ChangeComplaint) -> None:
        complaint = self.batch.complaint
        assert complaint is not None
        if write.changes.get("state") == "closed":
            self._change(complaint=None)
            return
        changed = replace(complaint, **write.changes)  # type: ignore[arg-type]  # checked by use
        self._change(complaint=changed)


def _morning(placed: date | None) -> datetime | None:
    return (
        None if placed is None else datetime(placed.year, placed.month, placed.day, 5, tzinfo=UTC)
    )


_LINE = Line("worked")

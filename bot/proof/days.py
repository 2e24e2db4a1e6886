"""Plays whole days: no unlisted day on which two essentials meet, and no day's text that breaks.

In: the calendar, the rehearsed meetings, Texts. Out: faults. Called by proofread. Farms of every
kind at their longest (2,000 birds, a signer of 12, a second batch on the phone) live from the first
day of the calendar to its last, in each language; every text they would get must be one part.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

from bot.day.after import after
from bot.day.due import Due, due, next_moment
from bot.day.meetings import KINDS, unrehearsed
from bot.facts.farm import Batch, Case, Cooperative, Person, Phone
from bot.facts.talk import Line, Question
from bot.handbook.shape_calendar import Calendar
from bot.handbook.shape_texts import Texts
from bot.proof.fault import Fault
from bot.proof.opposites import check_acts, check_opposites
from bot.say.render import ONE_PART, Voice, word
from bot.say.segments import measure

MEETINGS = "calendar/meetings.yaml"
SIGNER = "Mkulimabora"  # 11 letters, the most a signer may have
NAME = "Wanjikuuuu"  # 10 letters, the most a batch's name may have
MANY = 2000
Normals = tuple[tuple[float, float], ...]
COLD: Normals = ((18.0, 7.0),) * 12  # every night is foretold to be cold


def check_meetings(calendar: Calendar, listed: Mapping[str, tuple[str, ...]]) -> Iterator[Fault]:
    """Days on which two essentials meet and nobody has looked at it, and listed ones that no
    longer happen."""
    for kind, meeting in unrehearsed(calendar, listed):
        happens = meeting not in listed.get(kind, ())
        why = "two essentials meet on an unlisted day" if happens else "no longer happens"
        yield Fault(MEETINGS, kind, f"{meeting}: {why}")


def check_days(calendar: Calendar, texts: Texts) -> Iterator[Fault]:
    """Texts of a day that would not fit into one part, and days that contradict themselves."""
    told: set[tuple[str, str]] = set()
    lives: list[tuple[str, list[tuple[int, Due]]]] = []
    for kind, batch in KINDS.items():
        for crowded, normals in ((False, ()), (True, ()), (True, COLD)):
            lived = list(_life(_at_most(batch), calendar, crowded=crowded, normals=normals))
            lives.append((kind, lived))
            for age, one in lived:
                yield from _too_long(kind, age, one, texts, told)
    yield from check_opposites(lives, calendar)
    yield from check_acts(calendar)


def _too_long(
    kind: str, age: int, one: Due, texts: Texts, told: set[tuple[str, str]]
) -> Iterator[Fault]:
    keys = " + ".join(line.key for line in one.lines)
    for code in texts.tongues:
        text = _whole(one.lines, one.question, code, texts)
        size = measure(text).units
        if size > ONE_PART and (code, keys) not in told:
            told.add((code, keys))
            why = f"age {age}, {kind}: {size} septets: {text}"
            yield Fault(f"languages/{code}", keys, why)


def _at_most(batch: Batch) -> Batch:
    return replace(batch, count=MANY, heat_count=20 if batch.heat_count is None else 1, name=NAME)


def _whole(lines: tuple[Line, ...], question: Question | None, code: str, texts: Texts) -> str:
    """The text as it would be with nothing left out."""
    voice = Voice(code, SIGNER, texts.types["phone"])
    pieces = [word(line, voice, texts) for line in lines]
    if question is not None:
        pieces.append(word(question.line, voice, texts))
    return " ".join([f"{SIGNER}:", *pieces])


def _life(
    batch: Batch, calendar: Calendar, *, crowded: bool, normals: Normals
) -> Iterator[tuple[int, Due]]:
    """Everything that is pushed to a batch that never answers; with another one on the phone, its
    name stands in every text. normals: the air outside, as in Cooperative."""
    placed = batch.placed_on or date(2026, 3, 31)
    case = _case(batch, crowded=crowded, normals=normals)
    begin = batch.arrived_at or datetime.combine(
        placed + timedelta(days=calendar.first_age), time(0), UTC
    )
    at: datetime | None = begin
    while at is not None:
        others = tuple(one for one in case.batches if one.id != batch.id)
        case = replace(case, now=at, batches=(batch, *others))
        found = due(case, batch, calendar, at)
        yield from (((one.on_date - placed).days, one) for one in found)
        _, batch = after(case, batch, found)
        at = next_moment(case, batch, calendar, at)


def _case(batch: Batch, *, crowded: bool, normals: Normals) -> Case:
    phone = Phone(1, "+15005550001", "active")
    cooperative = Cooperative(1, SIGNER, "Africa/Nairobi", "KE", normals=normals)
    older = replace(batch, id=2, placed_on=date(2026, 2, 1), arrived_at=None, state="running")
    batches = (batch, older) if crowded else (batch,)
    return Case(batch.arrived_at or datetime(2026, 3, 1, tzinfo=UTC), cooperative, phone,
                Person(1, "en"), "en", batches)  # fmt: skip

"""A story: a script of what a farmer types and when, played on a handset, line by line.

In: a YAML script (content/stories/). Out: the lines of the conversation. Called by `broodpost
story`, and by the tests that compare the conversation with the one kept in the repository.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Protocol

from bot.doors.cli import screen
from bot.doors.cli.handset import Seen
from bot.handbook.strict import Section, read_section


class Phone(Protocol):
    """What a story is played on."""

    @property
    def now(self) -> datetime: ...
    def say(self, text: str) -> list[Seen]: ...
    def wait(self, step: timedelta) -> list[Seen]: ...
    def sleep_through(self, step: timedelta) -> list[Seen]: ...


@dataclass(frozen=True, slots=True)
class Step:
    """One step: a text, a note on what is happening, or time until a day and hour.

    day: of the batch, 1 on the day of placement; days before are 0 and less. outage: the service
    is away until then.
    """

    note: str | None = None
    say: str | None = None
    day: int | None = None
    at: time | None = None
    outage: bool = False


@dataclass(frozen=True, slots=True)
class Story:
    """title: what it is about. begins: the first moment, local. placed: the date of day 1."""

    title: str
    begins: datetime
    placed: date
    steps: tuple[Step, ...]


def load_story(path: Path) -> Story:
    """The script, checked."""
    section = read_section(path)
    story = Story(
        title=section.text("title"),
        begins=datetime.fromisoformat(section.text("begins")),
        placed=date.fromisoformat(section.text("placed")),
        steps=tuple(_step(one) for one in section.sections("steps")),
    )
    section.done()
    return story


def _step(section: Section) -> Step:
    at = section.text("at", "-")
    step = Step(
        note=section.text("note") if section.has("note") else None,
        say=section.text("say") if section.has("say") else None,
        day=section.whole("day") if section.has("day") else None,
        at=None if at == "-" else time.fromisoformat(at),
        outage=section.flag("outage", False),
    )
    section.done()
    return step


def play(story: Story, phone: Phone, *, colour: bool = False) -> Iterator[str]:
    """The lines of the conversation, as they come."""
    yield story.title
    for step in story.steps:
        if step.note:
            yield f"\n--- {step.note}"
        if step.day is not None and step.at is not None:
            until = datetime.combine(
                story.placed + timedelta(days=step.day - 1), step.at, phone.now.tzinfo
            )
            wait = phone.sleep_through if step.outage else phone.wait
            yield from _shown(wait(until - phone.now), colour)
        if step.say is not None:
            answers = phone.say(step.say)
            yield screen.farmer(phone.now, step.say)
            yield from _shown(answers, colour)


def _shown(seen: list[Seen], colour: bool) -> Iterator[str]:
    for one in seen:
        yield screen.service(one)
        why = screen.reasons(one.why)
        if why:
            yield screen.grey(why, colour)

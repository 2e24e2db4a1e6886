"""What the desk shows of a farm: both sides' texts in one row, the open trouble with its reasons, a
letter of a person. Pure. In: facts and the handbook. Out: dataclasses for the page."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal

from bot.diagnosis.evidence import evidence_of
from bot.diagnosis.explain import explain
from bot.diagnosis.story import Story
from bot.diagnosis.weigh import weigh
from bot.facts.farm import WAYS_OUT, Batch, Case, Cooperative, Event, Phone
from bot.handbook.shapes import Handbook
from bot.ledger.entries import FIGURE_OF, figure_of
from bot.say.plain import plain
from bot.say.segments import Parts, measure

Side = Literal["farmer", "machine", "person"]
LIKELY_SHOWN, LEAST_SHOWN = 3, 0.05
MOST_PARTS = 3  # of a letter
TALKING = timedelta(hours=2)  # so long after their text an answer goes at any hour
WHOLE = (*WAYS_OUT, "counted", "crop", "treated")
OUT = WAYS_OUT
# The least and the most of each figure that somebody at the desk may put in.
RANGES = {
    "temperature": (-10.0, 60.0),
    "humidity": (0.0, 100.0),
    "weight": (20.0, 8000.0),
    "crop": (0.0, 10.0),
    "treated": (0.0, 90.0),
    "counted": (0.0, 20_000.0),
    "expense": (0.0, 1e8),
    "price": (0.0, 1e6),
}
USUAL_RANGE = (0.0, 50_000.0)
UNITS = {"weight": "g", "temperature": "C", "humidity": "%", "feed_in": "kg", "feed_eaten": "kg",
         "fuel": "kg", "fuel_in": "kg", "water": "l"}  # fmt: skip
TEN, THOUSAND = 10, 1000


@dataclass(frozen=True, slots=True)
class Text:
    """A text between us and a phone. side: who said it. state: of ours, as in the outbox. parts: 0
    for a farmer's. intent: what a farmer's text was read as; None where it was not understood.
    due: when a text of ours may go, where it waits."""

    at: datetime
    side: Side
    body: str
    number: str
    parts: int = 0
    state: str = ""
    intent: str | None = None
    understood: bool | None = None
    due: datetime | None = None


def latest(texts: Iterable[Text], most: int) -> list[Text]:
    """The newest of both sides, newest first."""
    return sorted(texts, key=lambda one: one.at, reverse=True)[:most]


@dataclass(frozen=True, slots=True)
class Trouble:
    """The open complaint of a batch. likely: causes with their chance [%], likeliest first.
    because: the signs that speak for the first. would_change: signs that would name another.
    tried: advice given, in order. checks: how often we asked whether it helped."""

    cause: str | None
    since: datetime
    likely: tuple[tuple[str, int], ...]
    because: tuple[str, ...]
    would_change: tuple[str, ...]
    signals: tuple[str, ...]
    not_signals: tuple[str, ...]
    tried: tuple[str, ...]
    checks: int
    check_at: datetime | None


def trouble_of(case: Case, batch: Batch, handbook: Handbook) -> Trouble | None:
    """The open complaint, weighed as the machine weighs it; None where there is none."""
    open_one = batch.complaint
    if open_one is None:
        return None
    story = Story(
        open_one.signals, open_one.not_signals, open_one.asked, open_one.tried, open_one.cause,
        open_one.checks, open_one.id,
    )  # fmt: skip
    evidence = evidence_of(story, case, batch, handbook)
    why = explain(evidence, weigh(evidence, handbook.causes), handbook.causes)
    likely = [(code, round(100 * chance)) for code, chance in why.ranked if chance >= LEAST_SHOWN]
    return Trouble(
        cause=open_one.cause,
        since=open_one.opened_at,
        likely=tuple(likely[:LIKELY_SHOWN]),
        because=why.because,
        would_change=why.would_change,
        signals=open_one.signals,
        not_signals=open_one.not_signals,
        tried=tuple(one.removeprefix("advice:") for one in open_one.tried),
        checks=open_one.checks,
        check_at=open_one.check_at,
    )


@dataclass(frozen=True, slots=True)
class Letter:
    """What somebody writes to a farmer, as it will be sent. klass: of the outbox."""

    text: str
    parts: Parts
    klass: Literal["reply", "system"]

    @property
    def too_long(self) -> bool:
        return self.parts.parts > MOST_PARTS


def letter(
    cooperative: Cooperative, name: str, body: str, heard_at: datetime | None, now: datetime
) -> Letter | None:
    """The letter in plain letters, signed by the cooperative and whoever writes; None where nothing
    is left of it. What answers a text of the last two hours goes at any hour."""
    said = " ".join(plain(body).split())
    if not said:
        return None
    text = f"{cooperative.name} ({plain(name).split()[0][:12]}): {said}"
    answers = heard_at is not None and now - heard_at <= TALKING
    return Letter(text, measure(text), "reply" if answers else "system")


def why_not(phone: Phone | None) -> str | None:
    """Why nobody may write to a phone, as a key of desk.yaml; None where they may."""
    if phone is None:
        return "farm.no_phone"
    if phone.consent != "active":
        return f"cannot.{phone.consent}"
    return "farm.suspended" if phone.suspended else None


def entries(batch: Batch) -> Sequence[Event]:
    """What was told with a figure and counts, the newest first."""
    told = (one for one in batch.events if not one.undone and figure_of(one) is not None)
    return sorted(told, key=lambda one: (one.on_date, one.id), reverse=True)


def shown(figure: float) -> str:
    """A figure as it is read: no more places than it needs, never as a power of ten."""
    places = 0 if abs(figure) >= THOUSAND else 1 if abs(figure) >= TEN else 2
    said = f"{figure:.{places}f}"
    return said.rstrip("0").rstrip(".") if places else said


def corrected(batch: Batch, entry: Event, typed: str) -> tuple[float | None, str | None]:
    """The figure that was typed in an entry's place, or why it can't be (a key of desk.yaml)."""
    was = figure_of(entry) or 0.0
    try:
        figure = float(typed.strip().replace(",", "."))
    except ValueError:
        return None, "entry.no_figure"
    low, high = RANGES.get(entry.kind, USUAL_RANGE)
    if not low <= figure <= high:
        return None, "entry.outside"
    if entry.kind in WHOLE and figure != int(figure):
        return None, "entry.whole"
    if entry.kind in OUT and figure - was > batch.alive:
        return None, "entry.too_many"
    return figure, None


def put_right(entry: Event, figure: float, staff_id: int) -> dict[str, object]:
    """The values of the entry that stands for another. by: who put it right."""
    name = FIGURE_OF[entry.kind]
    kept = int(figure) if entry.kind in WHOLE else figure
    return {**entry.values, name: kept, "replaces": [entry.id], "by": staff_id}

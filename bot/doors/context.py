"""Makes a Case out of the context of contracts 1 and 2. In: a JSON object. Out: Case.

Called by `read` (which needs no database) and `rehearse` (which writes it into one in memory).
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import Literal
from zoneinfo import ZoneInfo

from bot.decide.common import behaviour_menu
from bot.facts.farm import Batch, Case, Cooperative, OpenQuestion, Person, Phone
from bot.facts.talk import Line, Question

NUMBER = "+254700000001"
ZONE = "Africa/Nairobi"
PLACED_AT = time(8, 0)
BEGINS_AT = time(9, 0)
VET = "+254700000099"


@dataclass(frozen=True, slots=True)
class Context:
    """What a line of contract 1 or 2 says about the farm. lang may be missing or wrong."""

    lang: str | None
    has_batch: bool
    age_days: int | None
    count: int | None
    prompt: str | None
    now: datetime
    heat: tuple[str, ...]
    heat_count: int | None
    house: str
    thermometer: bool

    @property
    def today(self) -> date:
        return self.now.astimezone(ZoneInfo(ZONE)).date()


def read_context(
    lang: object, raw: Mapping[str, object], languages: Collection[str] | None = None
) -> Context:
    """The context of a line; ValueError says which part can't be used. A lang that is none of
    `languages` (codes of the content's folders) is taken for not given; without them it is
    believed."""
    today = date.fromisoformat(str(raw.get("today") or "2026-03-04"))
    now = datetime.combine(today, BEGINS_AT, ZoneInfo(ZONE))
    if raw.get("now"):
        now = datetime.fromisoformat(str(raw["now"]))
        if now.tzinfo is None:
            raise ValueError("now needs an offset")
    age = _whole(raw.get("age_days"))
    house = str(raw.get("house") or ("open" if age is not None and age >= 14 else "brooder"))
    return Context(
        lang=str(lang) if lang and (languages is None or lang in languages) else None,
        has_batch=bool(raw.get("has_batch")),
        age_days=age,
        count=_whole(raw.get("count")),
        prompt=str(raw["last_prompt"]) if raw.get("last_prompt") else None,
        now=now.astimezone(UTC),
        heat=tuple(str(raw.get("heat") or "charcoal").split("+")),
        heat_count=_whole(raw.get("heat_count")),
        house=house,
        thermometer=bool(raw.get("thermometer", False)),
    )


def _whole(value: object) -> int | None:
    return None if value is None else int(str(value))


def case_of(context: Context) -> Case:
    """A person who is opted in, with the batch and the open question of the context."""
    cooperative = Cooperative(1, "Broodpost", ZONE, "KE", vet_number=VET)
    language = context.lang or "en"
    batch = batch_of(context) if context.has_batch else None
    return Case(
        now=context.now,
        cooperative=cooperative,
        phone=Phone(1, NUMBER, "active"),
        person=Person(1, language),
        language=language,
        batches=(batch,) if batch else (),
        question=open_question(context),
    )


def batch_of(context: Context) -> Batch:
    """A batch placed at 08:00 of its age 0."""
    age = context.age_days
    placed = None if age is None else context.today - timedelta(days=age)
    arrived = None
    if placed is not None and age is not None and age >= 0:
        arrived = datetime.combine(placed, PLACED_AT, ZoneInfo(ZONE)).astimezone(UTC)
    state = "running" if age is None or age >= 0 else "planned"
    moved = placed + timedelta(days=14) if placed and context.house == "open" else None
    return Batch(
        id=1,
        state=state,
        count=context.count,
        placed_on=placed,
        arrived_at=arrived,
        heat=context.heat,
        heat_count=context.heat_count,
        thermometer=context.thermometer,
        house=context.house,
        moved_on=moved,
    )


def open_question(context: Context) -> OpenQuestion | None:
    """The question named by last_prompt, asked just now."""
    if context.prompt is None:
        return None
    asked = question_of(context.prompt)
    return OpenQuestion(
        id=1,
        name=asked.name,
        kind=asked.kind,
        prompt=asked.prompt,
        asked_at=context.now - timedelta(minutes=5),
        options=asked.options,
        low=asked.low,
        high=asked.high,
        batch_id=1 if context.has_batch else None,
    )


_MENUS = {
    "litter": ("litter", ("dry", "wet", "caked", "smells")),
    "heat": ("heat", ("charcoal", "gas", "bulb", "kerosene", "wood")),
    "yes_no": ("yes_no", ("yes", "no")),
    "worked": ("check_back", ("better", "same", "worse")),
    "done": ("done", ("done", "not_yet")),
    "date": ("date", ()),
}
_NUMBERS = {
    "temperature": (-10.0, 130.0),
    "humidity": (0.0, 100.0),
    "deaths": (0.0, 20_000.0),
    "weight": (0.0, 80_000.0),
    "feed": (0.0, 5_000.0),
    "water": (0.0, 5_000.0),
    "crop": (0.0, 10.0),
    "count": (1.0, 20_000.0),
    "house": (1.0, 5_000.0),
}


def question_of(prompt: str) -> Question:
    """The question that a prompt of the contract stands for."""
    if prompt == "behaviour":
        return behaviour_menu()
    if prompt in _MENUS:
        name, options = _MENUS[prompt]
        return _question(name, "menu", prompt, options)
    if prompt in _NUMBERS:
        low, high = _NUMBERS[prompt]
        made = _question(prompt, "number", prompt, ())
        return Question(made.name, made.kind, made.prompt, made.line, (), low, high)
    raise ValueError(f"last_prompt {prompt!r} is not known")


def _question(
    name: str, kind: Literal["menu", "number"], prompt: str, options: tuple[str, ...]
) -> Question:
    return Question(name, kind, prompt, Line("behaviour_menu"), options)

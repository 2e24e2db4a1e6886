"""What we know: Cooperative, Person, Phone, Batch, Event, Complaint, and the Case that holds all of
it when a message arrives or a text falls due. Read by `records.case`; used by decide and day."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping, Sequence, Set
from dataclasses import dataclass, field, replace
from datetime import date, datetime, time
from typing import Any
from zoneinfo import ZoneInfo

from bot.facts.limits import Limits

EVENT_KINDS = (
    "deaths",
    "dead_on_arrival",
    "culled",
    "temperature",
    "humidity",
    "weight",
    "feed_in",
    "feed_eaten",
    "water",
    "crop",
    "litter",
    "treated",
    "sold",
    "eaten",
    "given",
    "stolen",
    "escaped",
    "counted",
    "doubted",
    "observed",
    "expense",
    "price",
    "fuel",
    "fuel_in",
    "moved",
    "night",
    "alarm",
    "vet",
    "step",
)
# Every way in which birds leave a batch. eaten: by the household; given: as a gift or a wage.
WAYS_OUT = (
    *("deaths", "dead_on_arrival", "culled", "sold", "eaten", "given", "stolen", "escaped"),
)
ALARM_DAYS = 3  # so long a danger is asked after and no sale goes without a caution
SECOND_FROM = 50  # people; common practice, no source
LONGEST_NAME = 10  # letters of a name that a text has room for


@dataclass(frozen=True, slots=True)
class TaughtWord:
    """What farmers of a language say there: `word` means the same as `means`, which the reader
    knows."""

    language: str
    word: str
    means: str


@dataclass(frozen=True, slots=True)
class VaccineDay:
    """A day of the vet's programme. age: whole days since placement. words: what is given, as the
    vet calls it, in plain letters. by: the vet; on: the day on which they said so."""

    age: int
    words: str
    by: str
    on: date


@dataclass(frozen=True, slots=True)
class Cooperative:
    """Who signs, who is called, and when texts may go. name: at most 11 plain characters.

    normals: the usual warmest and coldest air [C] of a day in each month, January first; () where
    none were set. forecast: the same by local day, the coldest of the night that follows it.
    prices: what the cooperative set, by name: feed_bag, chick, kg (live), bird. quiet: further
    local hours in which nothing but answers and danger goes, as day.quiet reads them. budget: parts
    a calendar month that may be sent; None: as many as are needed. taught: words of its farmers.
    authority_number: of the animal health office. programme: the vet's vaccine days by age; ()
    where none were set: then the days of content/calendar/vaccines.yaml count. second_from: people
    from which on a second person must agree to a text. limits: of OWN_LIMITS, where it answers
    less than the service would.
    """

    id: int
    name: str
    timezone: str
    region: str
    language: str = "en"
    vet_number: str | None = None
    routine_at: time = time(6, 30)
    night_at: time = time(17, 30)
    allowed_from: time = time(6, 0)
    allowed_to: time = time(20, 0)
    water_mix: bool = True
    normals: tuple[tuple[float, float], ...] = ()
    forecast: Mapping[date, tuple[float, float]] = field(default_factory=dict)
    prices: Mapping[str, float] = field(default_factory=dict)
    quiet: tuple[str, ...] = ()
    budget: int | None = None
    taught: tuple[TaughtWord, ...] = ()
    authority_number: str | None = None
    programme: tuple[VaccineDay, ...] = ()
    second_from: int = SECOND_FROM
    limits: Mapping[str, int] = field(default_factory=dict)

    @property
    def zone(self) -> ZoneInfo:
        return ZoneInfo(self.timezone)

    def within(self, house: Limits) -> Limits:
        """The limits of the service, and this cooperative's own where they are lower."""
        if not self.limits:
            return house
        own = {name: min(getattr(house, name), most) for name, most in self.limits.items()}
        return replace(house, **own)


@dataclass(frozen=True, slots=True)
class Person:
    id: int
    language: str
    name: str | None = None


@dataclass(frozen=True, slots=True)
class Phone:
    """consent: "unknown" (never joined), "invited", "active" or "stopped". heard_at: when a text
    last came from this phone (aware, UTC); None: never, or not looked up."""

    id: int
    number: str
    consent: str
    muted_until: datetime | None = None
    suspended: bool = False
    heard_at: datetime | None = None

    def muted(self, now: datetime) -> bool:
        """Whether nothing but danger is answered at this moment."""
        return self.muted_until is not None and now < self.muted_until


@dataclass(frozen=True, slots=True)
class Contact:
    """That a phone serves another's birds than its holder's. person_id: whose birds. role: "owner"
    (two farmers share the phone) or "caretaker" (whoever holds it works for them). state: "asked"
    (the phone has not agreed yet) or "active"."""

    id: int
    person_id: int
    role: str
    state: str


@dataclass(frozen=True, slots=True)
class Event:
    """One entry of a batch's record. turn_id: the message it came with (undo takes a turn back).
    values: "n" for counts, "value_c", "kg", "avg_g", "signals" ...; JSON values only. A correction
    carries "replaces", the ids of the entries it stands for. undone: it does not count, because it
    was taken back or another stands for it (ledger.settle)."""

    id: int
    kind: str
    on_date: date
    at: datetime
    values: Mapping[str, object]
    turn_id: int | None = None
    undone: bool = False


@dataclass(frozen=True, slots=True)
class Complaint:
    """What is wrong with a batch just now. signals and not_signals: all that was said of it so far.
    asked: names of the questions put. tried: keys of the advice given, in order. checks: how many
    check-backs went out."""

    id: int
    batch_id: int
    cause: str | None
    opened_at: datetime
    signals: tuple[str, ...] = ()
    not_signals: tuple[str, ...] = ()
    asked: tuple[str, ...] = ()
    tried: tuple[str, ...] = ()
    check_at: datetime | None = None
    checks: int = 0
    state: str = "open"


@dataclass(frozen=True, slots=True)
class Said:
    """A calendar row that was said to a batch on a local day, in a slot ("morning", "night"...)."""

    row: str
    on_date: date
    slot: str


@dataclass(frozen=True, slots=True)
class SaidDays:
    """rows: row -> the local days on which it was said. last: row -> the last of them.
    slots: day -> the slots said on it. memo: what was worked out of it, for all farms told
    the same; its keys name everything else that it was worked out of."""

    rows: Mapping[str, Sequence[date]]
    last: Mapping[str, date]
    slots: Mapping[date, Set[str]]
    memo: dict[Hashable, Any] = field(default_factory=dict, init=False, compare=False, repr=False)

    @classmethod
    def of(cls, said: Iterable[Said]) -> SaidDays:
        rows: dict[str, list[date]] = {}
        slots: dict[date, set[str]] = {}
        for one in said:
            rows.setdefault(one.row, []).append(one.on_date)
            slots.setdefault(one.on_date, set()).add(one.slot)
        return cls(rows, {row: max(days) for row, days in rows.items()}, slots)


@dataclass(frozen=True, slots=True)
class Batch:
    """One batch of chicks.

    state: "draft" (something essential is still missing), "planned", "running" or "closed".
    count: birds placed. placed_on: local date of age 0. arrived_at: the moment of arrival, aware,
    None until it was said. placement_version: rises when age 0 moves, so that the day's texts of
    an older placement are never taken for the new one's. heat: kinds; () when not said yet.
    house: "brooder" or "open". nights: "warm", "cool", "cold" or None. held: a notifiable disease
    is suspected: no selling, catching or moving text. owner_id, owner: the person whose birds they
    are and the name they gave; None where nobody told. phone_id: the phone its texts go to.
    What is worked out of a batch again and again is kept with it (_memo).
    """

    id: int
    state: str
    count: int | None = None
    placed_on: date | None = None
    arrived_at: datetime | None = None
    placement_version: int = 1
    heat: tuple[str, ...] = ()
    heat_count: int | None = None
    thermometer: bool | None = None
    house: str = "brooder"
    nights: str | None = None
    feathered: bool | None = None
    moved_on: date | None = None
    held: bool = False
    name: str | None = None
    events: tuple[Event, ...] = ()
    complaint: Complaint | None = None
    said: Sequence[Said] = ()
    owner_id: int | None = None
    owner: str | None = None
    phone_id: int | None = None
    _memo: dict[str, Any] = field(default_factory=dict, init=False, compare=False, repr=False)

    def told(self, said: Sequence[Said]) -> Batch:
        """The same batch with this said to it. What was worked out of its entries stays known."""
        found = replace(self, said=said)
        found._memo.update((name, self._memo[name]) for name in ("live", "alive")
                           if name in self._memo)  # fmt: skip
        return found

    def age(self, today: date) -> int | None:
        """Whole days since placement; negative before; None while no date is known."""
        return None if self.placed_on is None else (today - self.placed_on).days

    def live_events(self, kind: str) -> tuple[Event, ...]:
        """The entries of a kind that were not taken back, oldest first."""
        live: Mapping[str, tuple[Event, ...]] | None = self._memo.get("live")
        if live is None:
            found: dict[str, list[Event]] = {}
            for one in self.events:
                if not one.undone:
                    found.setdefault(one.kind, []).append(one)
            live = self._memo["live"] = {kind: tuple(told) for kind, told in found.items()}
        return live.get(kind, ())

    def open_alarm(self, today: date) -> Event | None:
        """The last danger told of these birds in the last days with which no vet was reached and
        that was not taken back (kind "over")."""
        last = max(self.live_events("alarm"), key=lambda one: one.id, default=None)
        taken_back = last is not None and last.values.get("kind") == "over"
        if last is None or taken_back or (today - last.on_date).days > ALARM_DAYS:
            return None
        reached = any(one.id > last.id for one in self.live_events("vet"))
        return None if reached else last

    def total(self, kind: str, on: date | None = None) -> int:
        """The sum of "n" over a kind's entries, of one day or of all."""
        return sum(
            int(str(one.values.get("n", 0)))
            for one in self.live_events(kind)
            if on is None or one.on_date == on
        )

    @property
    def alive(self) -> int:
        """Birds alive: placed less every way out."""
        if "alive" not in self._memo:
            out = (one for one in self.events if one.kind in WAYS_OUT and not one.undone)
            gone = sum(int(str(one.values.get("n", 0))) for one in out)
            self._memo["alive"] = max(0, (self.count or 0) - gone)
        birds: int = self._memo["alive"]
        return birds

    @property
    def said_days(self) -> SaidDays:
        """When what was said, looked up by row and by day."""
        if "said" not in self._memo:
            self._memo["said"] = getattr(self.said, "days", None) or SaidDays.of(self.said)
        found: SaidDays = self._memo["said"]
        return found


@dataclass(frozen=True, slots=True)
class OpenQuestion:
    """The question that a phone has open. asked_at: aware. pushed: it came with a text that we sent
    by ourselves. options, low, high, about: as in talk.Question. closed_by_push: the question that
    this one closed when it was pushed, so that a quick digit meant for that one is noticed."""

    id: int
    name: str
    kind: str
    prompt: str
    asked_at: datetime
    options: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    about: Mapping[str, str] = field(default_factory=dict)
    batch_id: int | None = None
    pushed: bool = False
    before: OpenQuestion | None = None


@dataclass(frozen=True, slots=True)
class Recent:
    """What came from this phone lately: for limits, robots and repeated misses.

    answers_hour, answers_day: our answers in the last hour and day. misses: texts in a row that
    were not understood. same: how often this very text came in the last ten minutes (this one
    not counted). danger_today: full danger texts sent today, by danger kind. last_said: our last
    text to this phone. misses_minute: texts of the last minute that were not understood.
    """

    answers_hour: int = 0
    answers_day: int = 0
    misses: int = 0
    same: int = 0
    danger_today: Mapping[str, int] = field(default_factory=dict)
    last_said: str | None = None
    misses_minute: int = 0


@dataclass(frozen=True, slots=True)
class Case:
    """All we know when a message arrives or a text falls due. now: aware, UTC. batches: drafts,
    planned and running ones, youngest last. ended: the last closed batch of a phone that has
    no other, where a text arrived; beside others where a slip is put right or chicks are ordered.
    language: how to speak to this person. contacts: whose birds the phone serves beside those of
    the person who holds it, where a text arrived. limits: what is answered at most. answered: False
    where only STOP, HELP and danger are (an unknown number of another country, a spent budget).
    key: of the hashes that stand for forgotten numbers."""

    now: datetime
    cooperative: Cooperative
    phone: Phone
    person: Person | None
    language: str
    batches: tuple[Batch, ...] = ()
    question: OpenQuestion | None = None
    recent: Recent = field(default_factory=Recent)
    ended: Batch | None = None
    contacts: tuple[Contact, ...] = ()
    limits: Limits = field(default_factory=Limits)
    answered: bool = True
    key: bytes = field(default=b"", repr=False)

    @property
    def today(self) -> date:
        """The local date of the farm."""
        return self.now.astimezone(self.cooperative.zone).date()

    @property
    def is_shared(self) -> bool:
        """Whether several people's birds are spoken of on this phone."""
        owners = {one.owner_id for one in self.batches}
        serving = any(one.state == "active" and one.role == "owner" for one in self.contacts)
        return len(owners) > 1 or serving

    def label(self, batch: Batch) -> str | None:
        """What a batch is called where a phone serves more than one: its own name, or its owner's
        where the birds are several people's. At most 10 letters, no two alike."""
        here = [one for one in self.batches if one.state in ("planned", "running")]
        others = [one for one in here if one.id != batch.id]
        if batch.name or not others:
            return batch.name
        if batch.owner is None or all(one.owner_id == batch.owner_id for one in others):
            return None
        if any(one.owner_id == batch.owner_id for one in others):
            return f"{batch.owner[:5]} {batch.count or 0}"
        return batch.owner[:LONGEST_NAME]

    @property
    def local(self) -> datetime:
        return self.now.astimezone(self.cooperative.zone)

    @property
    def batch(self) -> Batch | None:
        """The batch a text is about when none is named: the youngest running one, else a planned
        one, else a draft."""
        for state in ("running", "planned", "draft"):
            found = [one for one in self.batches if one.state == state]
            if found:
                return found[-1]
        return None

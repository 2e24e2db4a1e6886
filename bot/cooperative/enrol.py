"""Tries a list of farms before anybody is invited: what each row would do, and what is wrong with
it. In: entries of a list, what is known of the cooperative's people. Out: one outcome a row. Pure.
Called by turn.enrol.

A list invites, it does not enrol: only the phone itself says yes. What a farmer has said goes
before what a list says: their language is theirs once they have joined.
"""

from __future__ import annotations

import hashlib
import hmac
import json
import re
import unicodedata
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import astuple, dataclass, field
from typing import Any, Literal, get_args

from bot.cooperative.columns import Entry, fold
from bot.cooperative.phones import read_phone
from bot.cooperative.said import Said

Status = Literal["wrong", "double", "new", "changed", "same"]
STATUSES: tuple[Status, ...] = get_args(Status)
LONGEST = {"name": 40, "member": 20, "place": 40}
DETAILS = ("name", "member", "language", "place")
_A_DATE = re.compile(r"\d{4}-\d\d-\d\d(?:[T ]\d\d:\d\d.*)?")  # what a spreadsheet makes of "3-4"
_A_FRACTION = re.compile(r"\d+[.,]\d+")


@dataclass(frozen=True, slots=True)
class Farm:
    """A row put right. number: E.164. language: a code; None where the row names none."""

    number: str
    name: str | None = None
    member: str | None = None
    language: str | None = None
    place: str | None = None


@dataclass(frozen=True, slots=True)
class Known:
    """A phone of this cooperative, with whoever holds it. person_id: None where nobody does yet.
    consent: as facts.farm.Phone has it."""

    phone_id: int
    number: str
    consent: str
    person_id: int | None
    name: str | None = None
    member: str | None = None
    language: str | None = None
    place: str | None = None


@dataclass(frozen=True, slots=True)
class People:
    """What a list is held against. shut: numbers that no list may ask: they were forgotten, or are
    not this cooperative's. Which of the two is told to nobody."""

    known: Sequence[Known] = ()
    shut: Set[str] = frozenset()


@dataclass(frozen=True, slots=True)
class House:
    """What a list is read by. languages: a folded name or code -> the code. spoken: their own
    names, for a reader. served: whether texts may go to that number's country."""

    region: str
    languages: Mapping[str, str]
    spoken: str
    served: Callable[[str], bool]


@dataclass(frozen=True, slots=True)
class Checked:
    """An entry by itself: put right, or wrong."""

    entry: Entry
    farm: Farm | None
    why: tuple[Said, ...] = ()


@dataclass(frozen=True, slots=True)
class Change:
    """Something of a person that the list says otherwise. before: "" where nothing was known."""

    column: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Outcome:
    """What becomes of a row. why: reasons where it is wrong or double. known: whom it speaks of.
    changes: what of them changes; a "phone" among them is that of somebody who never agreed."""

    entry: Entry
    status: Status
    why: tuple[Said, ...] = ()
    farm: Farm | None = None
    known: Known | None = None
    changes: tuple[Change, ...] = ()


def check(entries: Iterable[Entry], house: House) -> list[Checked]:
    """Each entry by itself."""
    return [_checked(entry, house) for entry in entries]


def _checked(entry: Entry, house: House) -> Checked:
    number = read_phone(entry.phone, house.region)
    why = [number] if isinstance(number, Said) else []
    if isinstance(number, str) and not house.served(number):
        why.append(Said.of("phone_abroad"))
    why += _wrong_words(entry)
    language = house.languages.get(fold(entry.language)) if entry.language else None
    if entry.language and language is None:
        why.append(Said.of("language_unknown", cell=entry.language, spoken=house.spoken))
    if why or isinstance(number, Said):
        return Checked(entry, None, tuple(why))
    farm = Farm(
        number, entry.name or None, entry.member.upper() or None, language, entry.place or None
    )
    return Checked(entry, farm)


def _wrong_words(entry: Entry) -> Iterator[Said]:
    for column, most in LONGEST.items():
        if len(getattr(entry, column)) > most:
            yield Said.of(f"{column}_long", most=most)
        if _A_DATE.fullmatch(getattr(entry, column)):
            yield Said.of("made_a_date", cell=getattr(entry, column))
    if _A_FRACTION.fullmatch(entry.member):
        yield Said.of("member_fraction", cell=entry.member)
    if entry.name and not any(unicodedata.category(one).startswith("L") for one in entry.name):
        yield Said.of("name_no_letters", cell=entry.name)


def dry_run(checked: Sequence[Checked], people: People) -> list[Outcome]:
    """What the list would do, row by row. The first row of a phone or a member number counts, a
    later one is double."""
    run = _Run(people)
    return [run.outcome(one) for one in checked]


@dataclass(slots=True)
class _Run:
    people: People
    by_number: dict[str, Known] = field(init=False)
    by_member: dict[str, list[Known]] = field(init=False)
    rows_of_phone: dict[str, int] = field(default_factory=dict)
    rows_of_member: dict[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.by_number = {one.number: one for one in self.people.known}
        self.by_member = {}
        for one in self.people.known:
            if one.member:
                self.by_member.setdefault(one.member, []).append(one)

    def outcome(self, one: Checked) -> Outcome:
        farm = one.farm
        if farm is None:
            return Outcome(one.entry, "wrong", one.why)
        twice = self._twice(farm)
        if twice is not None:
            return Outcome(one.entry, "double", (twice,), farm)
        self.rows_of_phone[farm.number] = one.entry.row
        if farm.member:
            self.rows_of_member[_bare(farm.member)] = one.entry.row
        return self._held_against(one.entry, farm)

    def _twice(self, farm: Farm) -> Said | None:
        if farm.number in self.rows_of_phone:
            return Said.of("double_phone", row=self.rows_of_phone[farm.number])
        member = _bare(farm.member or "")
        if member in self.rows_of_member:
            return Said.of("double_member", row=self.rows_of_member[member])
        return None

    def _held_against(self, entry: Entry, farm: Farm) -> Outcome:
        known = self.by_number.get(farm.number)
        of_member = self.by_member.get(farm.member, []) if farm.member else []
        if farm.number in self.people.shut:
            return Outcome(entry, "wrong", (Said.of("phone_shut"),), farm)
        if known is None:
            return self._unknown_phone(entry, farm, of_member)
        if known.consent == "stopped":
            return Outcome(entry, "wrong", (Said.of("phone_stopped"),), farm, known)
        if known.person_id is None:
            return Outcome(entry, "wrong", (Said.of("phone_asked"),), farm, known)
        if of_member and all(one.person_id != known.person_id for one in of_member):
            return Outcome(entry, "wrong", (_elsewhere(of_member[0]),), farm, known)
        return _compared(entry, farm, known)

    def _unknown_phone(self, entry: Entry, farm: Farm, of_member: Sequence[Known]) -> Outcome:
        if not of_member:
            return Outcome(entry, "new", (), farm)
        if len(of_member) > 1 or of_member[0].consent != "invited":
            return Outcome(entry, "wrong", (_elsewhere(of_member[0]),), farm)
        return _compared(entry, farm, of_member[0])


def _bare(member: str) -> str:
    """0007 and 7 are one member: a spreadsheet loses zeros that stand first."""
    return member.lstrip("0") if member.isdecimal() else member


def _elsewhere(known: Known) -> Said:
    return Said.of("member_elsewhere", member=known.member or "", tail=known.number[-2:])


def _compared(entry: Entry, farm: Farm, known: Known) -> Outcome:
    """What the row says otherwise. An empty cell says nothing."""
    changes = [
        Change(column, getattr(known, column) or "", getattr(farm, column))
        for column in DETAILS
        if getattr(farm, column) not in (None, getattr(known, column))
        and (column != "language" or known.consent != "active")
    ]
    if farm.number != known.number:
        changes.insert(0, Change("phone", known.number, farm.number))
    status: Status = "changed" if changes else "same"
    return Outcome(entry, status, (), farm, known, tuple(changes))


def counted(outcomes: Iterable[Outcome]) -> dict[Status, int]:
    """How many rows of each status, all named."""
    found = Counter(one.status for one in outcomes)
    return {status: found[status] for status in STATUSES}


def texts_of(outcomes: Iterable[Outcome]) -> int:
    """How many phones would be asked to join: each is one text of one part."""
    return sum(1 for one in outcomes if one.status == "new" or asks_anew(one))


def asks_anew(one: Outcome) -> bool:
    """Whether somebody who never agreed is asked on another phone."""
    return any(change.column == "phone" for change in one.changes)


def seal(key: bytes, cooperative_id: int, file_digest: str, outcomes: Sequence[Outcome]) -> str:
    """What a confirmation carries: it fits this list of this cooperative with these outcomes, and
    nothing else. Sixteen hex digits."""
    said = json.dumps([cooperative_id, file_digest, as_json(outcomes)])
    return hmac.new(key, said.encode(), hashlib.sha256).hexdigest()[:16]


def as_json(outcomes: Iterable[Outcome]) -> list[Any]:
    """Outcomes as plain lists, to be kept for a day."""
    return [
        [
            list(astuple(one.entry)),
            one.status,
            [[why.key, [list(pair) for pair in why.values]] for why in one.why],
            list(astuple(one.farm)) if one.farm else None,
            list(astuple(one.known)) if one.known else None,
            [list(astuple(change)) for change in one.changes],
        ]
        for one in outcomes
    ]


def from_json(rows: Iterable[Sequence[Any]]) -> list[Outcome]:
    """The outcomes that `as_json` kept."""
    return [
        Outcome(
            Entry(*entry),
            status,
            tuple(Said(key, tuple((name, word) for name, word in pairs)) for key, pairs in why),
            Farm(*farm) if farm else None,
            Known(*known) if known else None,
            tuple(Change(*change) for change in changes),
        )
        for entry, status, why, farm, known, changes in rows
    ]

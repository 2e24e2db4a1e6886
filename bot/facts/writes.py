"""What shall change: one dataclass a kind of change. `decide` makes them, `records.apply` carries
them out in one transaction. Nothing here touches the database."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class Join:
    """An unknown number becomes a person of the cooperative, opted in by their own text."""

    language: str


@dataclass(frozen=True, slots=True)
class SetLanguage:
    language: str


@dataclass(frozen=True, slots=True)
class SetConsent:
    """state: "active" or "stopped". how: the word or field it was learnt from."""

    state: str
    how: str


@dataclass(frozen=True, slots=True)
class AddBatch:
    """A new batch of this phone; `changes` as in ChangeBatch. At most one a turn."""

    changes: Mapping[str, object]


@dataclass(frozen=True, slots=True)
class ChangeBatch:
    """Set fields of a batch (names of facts.farm.Batch). batch_id None: the batch added in this
    same turn. A change of placed_on raises the placement version, and what was said begins anew but
    for the lines (facts.told) given as "said"."""

    batch_id: int | None
    changes: Mapping[str, object]


@dataclass(frozen=True, slots=True)
class AddEvent:
    """One entry of a batch's record, never overwritten. batch_id None: the batch added now.

    kind: a name of facts.farm.EVENT_KINDS. on_date: the local day it belongs to.
    """

    batch_id: int | None
    kind: str
    on_date: date
    values: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class UndoEvents:
    """Take back the entries of one turn: they stay in the record, marked as undone."""

    event_ids: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class OpenComplaint:
    """Something is wrong with a batch, and we stay with it until it is solved.

    cause: the top cause, or None while only a question has been asked. check_at: when to look
    again (aware, UTC) or None. actions: the keys of the advice given.
    """

    batch_id: int
    cause: str | None
    signals: tuple[str, ...]
    not_signals: tuple[str, ...]
    asked: tuple[str, ...]
    actions: tuple[str, ...]
    check_at: datetime | None


@dataclass(frozen=True, slots=True)
class ChangeComplaint:
    """Set fields of an open complaint (names of facts.farm.Complaint). state "closed" ends it."""

    complaint_id: int
    changes: Mapping[str, object]


@dataclass(frozen=True, slots=True)
class KeepUnread:
    """The text was not understood: it goes to the adviser with the best guess, in words."""

    text: str
    guess: str | None


@dataclass(frozen=True, slots=True)
class TellAdviser:
    """A line on the adviser's list. kind: danger, worse, deaths, behind, intake, heat, count, sale,
    call_me, silent, late, robot.
    reason: one line of plain words and figures, without the phone number. told: the same as codes
    and figures (JSON values), which the desk words in the language of its reader."""

    kind: str
    reason: str
    batch_id: int | None = None
    told: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class CancelWaiting:
    """Nothing more goes to this phone: every waiting text is cancelled in the same transaction."""


@dataclass(frozen=True, slots=True)
class AskCaretaker:
    """The phone of this number (E.164) is asked to look after this person's birds; nothing goes
    there but the one question. name: what the owner calls them. Reaches that phone, unless it was
    asked lately or has stopped."""

    number: str
    name: str | None = None


@dataclass(frozen=True, slots=True)
class CareHere:
    """Owner and caretaker use this one phone."""


@dataclass(frozen=True, slots=True)
class AnswerCare:
    """The asked phone agreed to look after another's birds, whose texts come here from now on, or
    refused. Reaches the owner."""

    contact_id: int
    agreed: bool


@dataclass(frozen=True, slots=True)
class EndCare:
    """No other phone looks after this person's birds any more: their texts come here again."""


@dataclass(frozen=True, slots=True)
class SetName:
    """What the person who holds this phone is called."""

    name: str


@dataclass(frozen=True, slots=True)
class SetOwner:
    """The batch belongs to another person, who shares this phone."""

    batch_id: int
    name: str


@dataclass(frozen=True, slots=True)
class TellOwner:
    """Reaches the owner of a batch on other phones than this one."""

    batch_id: int


@dataclass(frozen=True, slots=True)
class LeaveNumber:
    """The number is in other hands: whoever texts from it next is a stranger, who sees and gets
    nothing of this farmer's. The farmer's birds go to another phone of theirs where there is one;
    else the adviser gives them one."""


@dataclass(frozen=True, slots=True)
class Forget:
    """The person who holds this phone is forgotten once the answer is written
    (records.forgetting)."""


@dataclass(frozen=True, slots=True)
class CloseQuestion:
    """The open question of this phone is answered or no longer matters."""


@dataclass(frozen=True, slots=True)
class Mute:
    """No answers to this phone until the moment given (STOP, START and danger still are)."""

    until: datetime
    reason: str


Write = (
    Join
    | SetLanguage
    | SetConsent
    | AddBatch
    | ChangeBatch
    | AddEvent
    | UndoEvents
    | OpenComplaint
    | ChangeComplaint
    | KeepUnread
    | TellAdviser
    | CancelWaiting
    | AskCaretaker
    | CareHere
    | AnswerCare
    | EndCare
    | SetName
    | SetOwner
    | TellOwner
    | LeaveNumber
    | Forget
    | CloseQuestion
    | Mute
)

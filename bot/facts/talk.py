"""What is heard and what is said: Incoming, Meaning, Line, Question, Decision.

An `Incoming` comes in at a door; `understand` makes a `Meaning` of it with a `Hearing`; `decide`
makes a `Decision`; `say` words its lines. The codes (intents, signs, causes) are internal: a farmer
never sees them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from datetime import date, datetime
from enum import StrEnum
from typing import Literal

from bot.facts.farm import OpenQuestion
from bot.facts.writes import Write

Value = str | int | float | date | datetime
Channel = Literal["sms", "ussd", "voice", "phone"]


class Intent(StrEnum):
    """What a farmer wants. The last group is ours and counts as `other` for outside measures."""

    PLAN = "plan"
    REGISTER = "register"
    ARRIVED = "arrived"
    OBSERVE = "observe"
    TEMPERATURE = "temperature"
    HUMIDITY = "humidity"
    DEATHS = "deaths"
    FEED = "feed"
    WEIGHT = "weight"
    WATER = "water"
    TREATED = "treated"
    SOLD = "sold"
    STATUS = "status"
    NEXT = "next"
    ASK = "ask"
    UNDO = "undo"
    STOP = "stop"
    START = "start"
    HELP = "help"
    LANGUAGE = "language"
    OTHER = "other"
    MULTI = "multi"
    CROP_CHECK = "crop_check"
    CALL_ME = "call_me"
    NOT_ME = "not_me"
    THANKS = "thanks"
    CULLED = "culled"
    EXPENSE = "expense"
    TAKEN = "taken"
    COUNTED = "counted"
    CORRECT = "correct"
    FUEL = "fuel"
    WHY = "why"
    CANCELLED = "cancelled"
    TODAY = "today"
    CARETAKER = "caretaker"
    NAME = "name"
    OWNER = "owner"
    FORGET = "forget"
    ABOUT_ME = "about_me"
    SETUP = "setup"
    CLOSE = "close"


@dataclass(frozen=True, slots=True)
class Incoming:
    """One message as a door received it. `text` may be empty, enormous or hostile.

    message_id: the gateway's id, opaque, up to 64 characters. at: aware, UTC.
    opt_out: the gateway's own OptOutType where it already answered ("STOP", "START", "HELP").
    meant: what was chosen on a screen; then the text only names it and is not read. asked: the
    question that stands on the screen; it is what the text answers, whatever else is open.
    language: chosen by somebody whom we do not know yet.
    """

    message_id: str
    account: str
    sender: str
    recipient: str
    text: str
    at: datetime
    channel: Channel = "sms"
    opt_out: str | None = None
    meant: Meaning | None = None
    asked: OpenQuestion | None = None
    language: str | None = None


@dataclass(frozen=True, slots=True)
class Hearing:
    """What the reader knows while it reads a text.

    prompt: the open question's kind (contracts.md: last_prompt) or None.
    options: the open menu's digits, first for 1: codes such as "yes", "no", "charcoal".
    asked: the name of the open question ("sign:panting", "wake"), whose options may be worded.
    trouble: something is wrong with the birds, and we talk of it. held: no bird may leave, for a
    disease is suspected. hung: we spoke of where the thermometer hangs, so a figure may be what it
    reads there. looked: the sign that our last advice asked to look for, without a menu.
    works: it asked whether all of a kind work, so that a bare "no" tells of one that does not.
    air: an alarm of bad air is open, and people may be ill of it.
    language: the person's stored language; may be None or wrong. count: birds alive.
    """

    today: date
    language: str | None = None
    has_batch: bool = False
    age_days: int | None = None
    count: int | None = None
    prompt: str | None = None
    options: tuple[str, ...] = ()
    asked: str | None = None
    trouble: bool = False
    held: bool = False
    hung: bool = False
    looked: str | None = None
    works: bool = False
    air: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Slots:
    """The figures and names found in a text; None or () where nothing was said.

    Temperatures in C, weights in g, feed in kg, water in litres, areas in m2. date_iso_offset:
    whole days from today, negative is past. answer: what a digit or word chose from the open menu
    ("yes", "no", "better", "same", "worse", "done", "not_yet", "dry", "wet", ...). figure: which
    number a question asks for (understand.wanted names them); then count, kg and value_c may be
    impossible ones, so that the answer can say why. feed_price: of a bag. thermometer: whether
    there is one. way: how birds left ("eaten", "given", "stolen", "escaped"). spent_on: what money
    went for (ledger.money.SPENT_ON). value and was: the right and the wrong figure of a correction.
    phone: a number named in the text (E.164). name: of a person.
    """

    count: int | None = None
    date_iso_offset: int | None = None
    age_days: int | None = None
    hatched: bool | None = None
    value_c: float | None = None
    rh_pct: float | None = None
    deaths: int | None = None
    kg: float | None = None
    bags: float | None = None
    feed_move: str | None = None
    weights_g: tuple[float, ...] = ()
    avg_g: float | None = None
    litres: float | None = None
    price: float | None = None
    price_per: str | None = None
    product: str | None = None
    days: int | None = None
    time: str | None = None
    lang: str | None = None
    house_m2: float | None = None
    topic: str | None = None
    answer: str | None = None
    heat: str | None = None
    heat_count: int | None = None
    crops_full: int | None = None
    crops_of: int | None = None
    figure: str | None = None
    length_m: float | None = None
    width_m: float | None = None
    feed_price: float | None = None
    thermometer: bool | None = None
    chick_price: float | None = None
    way: str | None = None
    spent_on: str | None = None
    value: float | None = None
    was: float | None = None
    phone: str | None = None
    name: str | None = None

    def said(self) -> dict[str, object]:
        """The slots that hold something, by name, tuples as lists: the shape of contract 1."""
        found: dict[str, object] = {}
        for one in fields(self):
            value = getattr(self, one.name)
            if value is None or value == ():
                continue
            found[one.name] = list(value) if isinstance(value, tuple) else value
        return found


NO_SLOTS = Slots()


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a text was understood to say.

    signals: signs seen; not_signals: signs said to be absent or gone. many: those of `signals`
    that the text said of many, most or all birds (or of heavy smoke). parts: for MULTI, one
    meaning a fact, in the order said.
    confidence: 0 to 1; below the handbook's line the bot asks instead of acting.
    language: the language the text was read in, None when it can't be told. cut: the text was too
    long and only its beginning was read. A sign that is only asked about ("if they pant?"), is
    another farm's or is past and gone is never in `signals`. people: what is told of people in a
    trouble with a fire, the gravest first ("inside", "down", "ill", "well", "out"). means: what the
    farmer means to do in a trouble ("medicine", "eat", "dead", "trader"). leave: what the farmer
    might do, and asks whether to ("heat_more", "water_off"). ruled: what is asked that a rule of
    the trade answers ("fire", "visitors"). worried: the text asks, is long or has words of
    trouble, and no sign of what is wrong was read in it.
    """

    intent: Intent
    slots: Slots = NO_SLOTS
    signals: tuple[str, ...] = ()
    not_signals: tuple[str, ...] = ()
    many: tuple[str, ...] = ()
    parts: tuple[Meaning, ...] = ()
    confidence: float = 1.0
    language: str | None = None
    cut: bool = False
    people: tuple[str, ...] = ()
    means: tuple[str, ...] = ()
    leave: tuple[str, ...] = ()
    ruled: tuple[str, ...] = ()
    worried: bool = False

    def facts(self) -> tuple[Meaning, ...]:
        """The single facts: the parts of a MULTI, else the meaning itself."""
        return self.parts or (self,)


@dataclass(frozen=True, slots=True)
class Line:
    """One thing to say: a key of content/texts.yaml and the values of its placeholders.

    essential: must be said in this text. Lines that are not are left out when they don't fit.
    """

    key: str
    values: Mapping[str, Value] = field(default_factory=dict)
    essential: bool = True


@dataclass(frozen=True, slots=True)
class Question:
    """The one question a text ends with.

    name: which question this is ("behaviour", "deaths", "heat", "check_back", "sign:panting").
    kind: MENU takes one digit, NUMBER takes a figure in [low, high] literally.
    prompt: how a bare answer is read (contracts.md: last_prompt).
    options: a menu's codes, first for 1. about: what the answer belongs to (a sign, a batch, a
    figure to confirm), as plain strings.
    """

    name: str
    kind: Literal["menu", "number"]
    prompt: str
    line: Line
    options: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    about: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Why:
    """The reasons behind an answer: for `why`, the desk and the terminal phone's grey line.

    ranked: causes with their probability, likeliest first. because: codes of the signs and facts
    it rests on. would_change: codes of signs that would have changed it.
    """

    cause: str | None = None
    ranked: tuple[tuple[str, float], ...] = ()
    because: tuple[str, ...] = ()
    would_change: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Push:
    """One text to other phones than the one that texted: those that a write of the same decision
    reaches (an asked caretaker's, the owner's). klass: as in the outbox. The question opens on
    each of them."""

    lines: tuple[Line, ...] = ()
    question: Question | None = None
    klass: str = "system"


@dataclass(frozen=True, slots=True)
class Decision:
    """What one turn changes and says. At most one question, at the end of the first text. `more`:
    further texts of the same answer, one part each (a late arrival's evening). `push`: what goes to
    other phones. `referred`: the
    farmer is sent to a vet, an authority or emergency help in this very answer. No line and no
    question: nothing is said."""

    lines: tuple[Line, ...] = ()
    writes: tuple[Write, ...] = ()
    question: Question | None = None
    why: Why | None = None
    referred: bool = False
    more: tuple[tuple[Line, ...], ...] = ()
    push: Push | None = None

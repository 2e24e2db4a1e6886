"""The invented cooperative of scripts/try: forty farms in all stages. In: an empty database, the
script (content/stories/desk.yaml), the present moment. Out: the database as it stands after every
farm texted what the script says, played through the real engine and clock; nothing is sent to
anybody. Called by `broodpost demo`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from itertools import count
from pathlib import Path
from zoneinfo import ZoneInfo

from sqlalchemy import select, update

from bot.clock import FixedClock
from bot.cooperative.may import PROVED, Role
from bot.cooperative.proofs import hashed
from bot.cooperative.sealed import seal
from bot.facts.talk import Incoming
from bot.gateway.client import Outgoing, Sent
from bot.handbook.strict import Section, read_section
from bot.records import tables as t
from bot.records.case import cases_of_phones, cooperative_held, next_due_of_all
from bot.records.desk_audit import note
from bot.records.desk_rules import keep_draft, put_live, version
from bot.records.desk_staff import NewMember, add_member, change_member, members, set_second
from bot.turn.tick import tick
from bot.wiring import Bot

NUMBER = "+254700000{:03}"  # of a range reserved for fiction
FIRST_NUMBER = 200
SERVICE = "+254700000100"
DIGITS = {"charcoal": "1", "gas": "2", "bulb": "3", "kerosene": "4", "wood": "5"}
ANSWERS = {"heat_count": "2", "thermometer": "1", "second": "1", "count_sure": "1"}
MOST_ANSWERS = 6  # questions of registering in a row
PAUSE = timedelta(minutes=2)


class Ear:
    """A gateway that takes every text; nothing leaves this machine."""

    def __init__(self) -> None:
        self._numbers = count(1)

    def send(self, outgoing: Outgoing) -> Sent:
        del outgoing
        return Sent(f"SM{next(self._numbers)}", "delivered")

    def find(self, to: str, text: str, since: datetime) -> tuple[Sent, ...]:
        del to, text, since
        return ()


@dataclass(frozen=True, slots=True)
class Saying:
    """One text of a course. day and at: of the batch; ago: hours before the present moment."""

    words: Mapping[str, str]
    day: int | None = None
    at: time | None = None
    ago: float | None = None


@dataclass(frozen=True, slots=True)
class DemoFarm:
    """A farm and what it texts, in order. day: what its batch is on today."""

    name: str
    place: str
    language: str
    birds: int
    heat: str
    day: int
    sayings: tuple[Saying, ...]


@dataclass(frozen=True, slots=True)
class Ruling:
    """What the vet set, so many days ago. rows: day of the batch, and what it is called."""

    ago: int
    vet: str
    rows: tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True)
class Demo:
    """name: of the cooperative. rulings: what its vet set, the oldest first."""

    name: str
    farms: tuple[DemoFarm, ...]
    rulings: tuple[Ruling, ...] = ()


def load_demo(path: Path) -> Demo:
    """The script, checked."""
    section = read_section(path)
    given = section.section("courses")
    courses = {name: [_saying(one) for one in given.sections(name)] for name in given.keys()}
    given.done()
    demo = Demo(
        section.text("name"),
        tuple(_farm(one, courses) for one in section.sections("farms")),
        tuple(_ruling(one) for one in section.sections("rulings")),
    )
    section.done()
    return demo


def _ruling(section: Section) -> Ruling:
    days = section.section("days")
    ruling = Ruling(
        ago=section.whole("ago"),
        vet=section.text("vet"),
        rows=tuple((int(day), days.text(day)) for day in days.keys()),
    )
    days.done()
    section.done()
    return ruling


def _saying(section: Section) -> Saying:
    at = section.text("at", "-")
    known = ("day", "at", "ago")
    saying = Saying(
        words={code: section.text(code) for code in section.keys() if code not in known},
        day=section.whole("day") if section.has("day") else None,
        at=None if at == "-" else time.fromisoformat(at),
        ago=section.number("ago") if section.has("ago") else None,
    )
    section.done()
    return saying


def _farm(section: Section, courses: Mapping[str, list[Saying]]) -> DemoFarm:
    names = section.texts("courses")
    farm = DemoFarm(
        name=section.text("name"),
        place=section.text("place"),
        language=section.text("language"),
        birds=section.whole("birds"),
        heat=section.text("heat"),
        day=section.whole("day"),
        sayings=tuple(one for name in names for one in courses[name]),
    )
    section.done()
    return farm


@dataclass(frozen=True, slots=True, order=True)
class Moment:
    """A text at its moment."""

    at: datetime
    place: int
    number: str = field(compare=False)
    words: str = field(compare=False)


@dataclass
class Player:
    """Plays the script on a service whose clock moves only when told to."""

    bot: Bot
    clock: FixedClock
    demo: Demo
    now: datetime
    zone: ZoneInfo
    _messages: Iterator[int] = field(default_factory=lambda: count(1))

    def play(self) -> Iterator[date]:
        """Everything up to the present moment; gives each day as it begins."""
        moments = self._moments()
        self.clock.moment = moments[0].at
        day = None
        for one in moments:
            self._wait(one.at)
            self._say(one)
            if self.clock.moment.date() != day:
                day = self.clock.moment.date()
                yield day
        self._wait(self.now)
        self._finish()

    def _moments(self) -> list[Moment]:
        found = []
        for place, farm in enumerate(self.demo.farms):
            number = NUMBER.format(FIRST_NUMBER + place)
            for said in farm.sayings:
                at = self._at(farm, said) + timedelta(seconds=place)
                if at < self.now:
                    found.append(Moment(at, place, number, self._words(farm, said)))
        return sorted(found)

    def _placed(self, farm: DemoFarm) -> date:
        return self.now.astimezone(self.zone).date() - timedelta(days=farm.day - 1)

    def _at(self, farm: DemoFarm, said: Saying) -> datetime:
        if said.ago is not None:
            return self.now - timedelta(hours=said.ago)
        day = self._placed(farm) + timedelta(days=(said.day or 1) - 1)
        local = datetime.combine(day, said.at or time(8), self.zone)
        return local.astimezone(self.now.tzinfo)

    def _words(self, farm: DemoFarm, said: Saying) -> str:
        placed = self._placed(farm)
        return said.words[farm.language].format(
            birds=farm.birds,
            date=f"{placed.day}/{placed.month}",
            heat=self._heat(farm),
            n1=max(3, round(farm.birds * 0.011)),
            n3=max(4, round(farm.birds * 0.03)),
        )

    def _heat(self, farm: DemoFarm) -> str:
        terms = self.bot.thinking.handbook.texts.tongues[farm.language].terms
        return terms["fuel_word"].get(farm.heat, terms["heat"][farm.heat])

    def _say(self, one: Moment) -> None:
        """A text, and the answers to what registering asks."""
        self._text(one.number, one.words)
        for _ in range(MOST_ANSWERS):
            answer = self._answer(one)
            if answer is None:
                return
            self._wait(self.clock.moment + PAUSE)
            self._text(one.number, answer)

    def _text(self, number: str, words: str) -> None:
        message = f"SMdemo{next(self._messages)}"
        account = self.bot.settings.gateway_account
        at = self.clock.moment
        self.bot.take(Incoming(message, account, number, SERVICE, words, at))
        self.clock.move(timedelta(seconds=1))

    def _answer(self, one: Moment) -> str | None:
        with self.bot.db.read() as connection:
            phone = connection.execute(select(t.phone.c.id).where(t.phone.c.number == one.number))
            phone_id = phone.scalar()
            if phone_id is None:
                return None
            asked = cases_of_phones(connection, [phone_id], self.clock.moment)[phone_id].question
        if asked is None or asked.pushed:
            return None
        farm = self.demo.farms[one.place]
        return DIGITS[farm.heat] if asked.name == "heat" else ANSWERS.get(asked.name)

    def _wait(self, until: datetime) -> None:
        """Time passes, from due moment to due moment."""
        while True:
            with self.bot.db.read() as connection:
                due = next_due_of_all(connection)
            if due is None or due >= until:
                break
            self.clock.moment = max(due, self.clock.moment + timedelta(seconds=1))
            tick(self.bot.db, self.bot.thinking.handbook, self.clock.moment)
        self.clock.moment = max(until, self.clock.moment)

    def _finish(self) -> None:
        """Every text of ours has arrived; the cooperative knows who its farmers are."""
        with self.bot.db.write() as connection:
            row = t.outbox.c
            connection.execute(
                update(t.outbox)
                .where(row.state == "waiting", row.not_before <= self.now)
                .values(state="delivered", sent_at=row.not_before)
            )
            for place, farm in enumerate(self.demo.farms):
                number = NUMBER.format(FIRST_NUMBER + place)
                person = select(t.phone.c.person_id).where(t.phone.c.number == number)
                connection.execute(
                    update(t.person)
                    .where(t.person.c.id == person.scalar_subquery())
                    .values(name=farm.name, place=farm.place, member_number=f"M{place + 1:03}")
                )


@dataclass(frozen=True, slots=True)
class SignIn:
    """Somebody who may sign in to the demo. key: of the second proof, where the role needs one."""

    name: str
    sign_in: str
    role: Role
    password: str
    key: str | None = None


def let_in(bot: Bot, people: Iterable[SignIn], now: datetime) -> None:
    """Staff of the only cooperative, with passwords that need not be changed."""
    with bot.db.write() as connection:
        row = connection.execute(select(t.cooperative.c.id, t.cooperative.c.language)).one()
        for one in people:
            new = NewMember(one.name, one.sign_in, hashed(one.password), one.role, row.language)
            made = add_member(connection, row.id, new, now)
            if made is not None:
                change_member(connection, row.id, made, fresh=False)
                if one.key:
                    set_second(connection, made, seal(bot.settings.house.key, made, one.key))


def set_rules(bot: Bot, rulings: Iterable[Ruling], now: datetime) -> None:
    """What the vet set, as versions of the rules of the only cooperative: put in and approved by
    those of its staff who may."""
    with bot.db.write() as connection:
        own = connection.execute(select(t.cooperative.c.id)).scalar_one()
        may = [one.id for one in members(connection, own) if one.role in PROVED]
        for one in rulings:
            at = now - timedelta(days=one.ago)
            coop = cooperative_held(connection, own)
            said = at.astimezone(coop.zone).date().isoformat()
            rows = [[day - 1, words, one.vet, said] for day, words in one.rows]
            values = {"water_mix": coop.water_mix, "programme": rows}
            kept = version(
                connection, own, keep_draft(connection, own, "vaccines", values, may[0], at)
            )
            if kept is not None and put_live(connection, coop, kept, may[-1], at):
                about = f"vaccines, version {kept.id}"
                note(connection, own, may[-1], "rules_approved", about, at)

"""Proofreads a cooperative's rules against the content, before they count: whether every text still
fits with its signer, numbers and vaccine words in place, and what a farmer would get tomorrow.

In: the cooperative as it would be, the handbook. Out: what is wrong, and texts before and after.
Called by the desk's page "Our rules".
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, time, timedelta

from bot.cooperative.said import Said
from bot.day.after import after
from bot.day.due import due, next_moment
from bot.day.quiet import opens
from bot.day.walltime import moment
from bot.facts.farm import Batch, Case, Cooperative, Person, Phone
from bot.facts.talk import Line
from bot.handbook.shape_texts import Texts
from bot.handbook.shapes import Handbook
from bot.proof.lengths import too_long
from bot.proof.medicine import refused_in
from bot.proof.screens import check_screens
from bot.say.render import Voice, compose, word

MOST_FAULTS, MOST_PAIRS, MOST_TEXTS = 3, 3, 2
USUAL_AGES = (7, 2)  # days of which texts are shown where no other day is meant
BIRDS, STOVES = 300, 2
Forbidden = Mapping[str, tuple[str, ...]]


def faults_of(cooperative: Cooperative, handbook: Handbook, forbidden: Forbidden) -> list[Said]:
    """Why these rules can't count, as keys under rules.fault in desk.yaml; [] where they can."""
    return [*_refused(cooperative, forbidden), *_long(cooperative, handbook)][:MOST_FAULTS]


def _refused(cooperative: Cooperative, forbidden: Forbidden) -> Iterator[Said]:
    for text in (cooperative.name, *(one.words for one in cooperative.programme)):
        if found := refused_in(text, forbidden):
            yield Said.of("refused", text=text, word=found)


def _long(cooperative: Cooperative, handbook: Handbook) -> Iterator[Said]:
    """Texts that would no longer fit, at the longest values of everything else."""
    texts = _with_own(handbook.texts, cooperative)
    for tongue in texts.tongues.values():
        for shape in texts.shapes.values():
            if shape.key in tongue.wordings:
                for _, text, _ in too_long(shape, tongue, texts):
                    yield Said.of("text_long", text=text)
    for fault in check_screens(texts, handbook.screens):
        yield Said.of("text_long", text=fault.why)


def _with_own(texts: Texts, cooperative: Cooperative) -> Texts:
    """The texts with this cooperative's own as the longest values. A farmer's phone may still be as
    long as the sample."""
    numbers = (cooperative.vet_number or "", cooperative.authority_number or "")
    own = {
        "signer": cooperative.name,
        "phone": max(texts.types["phone"], *numbers, key=len),
        "programme": max((one.words for one in cooperative.programme), key=len,
                         default=texts.types["programme"]),
    }  # fmt: skip
    return replace(texts, types={**texts.types, **own})


@dataclass(frozen=True, slots=True)
class Text:
    """A text of tomorrow. at: when it would go, on the farm's clock; None: as an answer."""

    at: datetime | None
    text: str


@dataclass(frozen=True, slots=True)
class Pair:
    """What a farmer would get before and after, as far as it differs. day: the batch's day
    tomorrow; None: the answer to a suspected disease. same: nothing differs; one text stands there.
    """

    day: int | None
    before: tuple[Text, ...]
    after: tuple[Text, ...]
    same: bool = False


def _pair(day: int | None, before: tuple[Text, ...], later: tuple[Text, ...]) -> Pair:
    if before == later:
        return Pair(day, before[:1], later[:1], same=True)
    gone = [one for one in before if one not in later]
    new = [one for one in later if one not in before]
    return Pair(day, tuple(gone[:MOST_TEXTS]), tuple(new[:MOST_TEXTS]))


def tomorrow(
    before: Cooperative, later: Cooperative, handbook: Handbook, now: datetime
) -> list[Pair]:
    """Texts that would be others tomorrow; where none would, one that stays as it is."""
    pairs = [
        _pair(age + 1, _day(before, age, handbook, now), _day(later, age, handbook, now))
        for age in _ages(before, later)
    ]
    pairs.append(_pair(None, _answer(before, handbook), _answer(later, handbook)))
    return [one for one in pairs if not one.same][:MOST_PAIRS] or pairs[:1]


def _ages(before: Cooperative, later: Cooperative) -> list[int]:
    """The days of the programme that differ, the day before the first of them, and usual ones."""
    old, new = ({(one.age, one.words) for one in each.programme} for each in (before, later))
    changed = sorted({age for age, _ in old ^ new})
    eve = [changed[0] - 1] if changed and changed[0] > 1 else []
    return list(dict.fromkeys([*changed[:2], *eve, *USUAL_AGES]))


def _answer(cooperative: Cooperative, handbook: Handbook) -> tuple[Text, ...]:
    voice = Voice(cooperative.language, cooperative.name, cooperative.vet_number)
    said = [word(Line("danger_notifiable"), voice, handbook.texts)]
    if cooperative.authority_number:
        office = Line("call_office", {"phone": cooperative.authority_number})
        said.append(word(office, voice, handbook.texts))
    return tuple(Text(None, one) for one in said)


def _day(cooperative: Cooperative, age: int, handbook: Handbook, now: datetime) -> tuple[Text, ...]:
    """The texts of tomorrow to an invented farm whose chicks are of that age then, played from the
    day they came; it sends a word each day."""
    day = now.astimezone(cooperative.zone).date() + timedelta(days=1)
    placed = day - timedelta(days=age)
    arrived = moment(placed, time(8), cooperative.zone)
    batch = Batch(1, "running", count=BIRDS, placed_on=placed, arrived_at=arrived,
                  heat=("charcoal",), heat_count=STOVES)  # fmt: skip
    language = cooperative.language
    phone = Phone(1, "", "active")
    case = Case(arrived, cooperative, phone, Person(1, language), language, (batch,))
    ends = moment(day + timedelta(days=1), time(0), cooperative.zone)
    voice = Voice(language, cooperative.name, cooperative.vet_number, day)
    found: list[Text] = []
    at: datetime | None = arrived
    while at is not None and at < ends:
        phone = replace(phone, heard_at=at - timedelta(days=1))
        case = replace(case, now=at, batches=(batch,), phone=phone)
        items = due(case, batch, handbook.calendar, at)
        if at.astimezone(cooperative.zone).date() == day:
            for one in items:
                if one.lines or one.question:
                    goes = opens(cooperative, at, one.klass).astimezone(cooperative.zone)
                    said = compose(one.lines, one.question, voice, handbook.texts, pushed=True)
                    found.append(Text(goes, said))
        _, batch = after(case, batch, items)
        at = next_moment(case, batch, handbook.calendar, at)
    return tuple(found)

"""Batches out of a text: planned, registered, arrived. In: a `Scene`. Out: one `Fact` or None.

register: a batch exists or is ordered, also for a coming day; plan: thinks, wants; arrived: the
chicks that were waited for are here. Pure; called by `read`.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace

from bot.facts.talk import Intent, Slots
from bot.understand.annotate import Clause
from bot.understand.numbers import Number
from bot.understand.patterns import Span
from bot.understand.scene import Fact, Scene

SMALLEST, LARGEST = 10, 20_000
WAITED = 3  # days up to which chicks may still be told to have come
MOST_BOXES = 40  # of day-old chicks; a box holds more
_BEGINS = ("arrived", "placed", "put_in", "coming", "order", "plan", "hatch")
_NO_CHICKS = ("buyer", "power", "water")  # who or what came, where no chicks are named


def find_batch(scene: Scene, *, other_facts: bool) -> Fact | None:
    """The batch a text tells of. other_facts: figures already mean something else."""
    slots = batch_slots(scene)
    wanted = any(not one.denied for one in scene.text.spans.get("plan", ()))
    planned = (wanted or "plan" in scene.intents) and not only_how_big(scene)
    sized = slots.count is not None or slots.house_m2 is not None
    planned = planned and not scene.has("signs_up")  # "i want to register 300 chicks"
    if planned and (sized or scene.has("bird", "batch")):
        return Fact(Intent.PLAN, with_day(scene, slots, past=False), 0)
    if scene.has("register", "signs_up") or "register" in scene.intents:
        return Fact(Intent.REGISTER, with_day(scene, slots, past=_past(scene)), 0)
    if other_facts and _came_with_a_reading(scene):
        count = _count_that_came(scene)
        return _arrived(scene, replace(slots, count=count)) if count else None
    if other_facts or (scene.has("@future") and scene.has("sell", "sold")):
        return None
    ordered = scene.has("order") and bool(scene.days) and not scene.of_kind("money")
    if scene.has("robot_word") and not (scene.has("bird") or ordered):
        return None  # "confirmed. ksh 1500 received, balance 1,712": nobody wrote it
    if _came(scene) and not _denied_there(scene):
        return _arrived(scene, slots)
    if scene.has("@set_apart") or (scene.has("@others") and scene.has("dead", "lost")):
        return None
    if scene.has("@future") and not scene.has("coming", "order"):
        return None
    if scene.hearing.has_batch and scene.has("~living") and not scene.has(*_BEGINS):
        return None  # "all 300 are alive today": those we know of
    birds = scene.has("bird") or slots.count is not None
    coming = bool(scene.days) and birds and scene.has("coming", "order")
    if coming or (slots.count is not None and _is_batch(scene, slots)):
        return Fact(Intent.REGISTER, with_day(scene, slots, past=_past(scene)), 0)
    return None


def only_how_big(scene: Scene) -> bool:
    """ "how big a room can carry 400": asks for a figure, and no more."""
    said = scene.text.spans.get("plan", ())
    tokens = scene.text.tokens
    carries = any(one.text in scene.text.little["carries_birds"] for one in tokens)
    return (
        carries
        and bool(said)
        and all(tokens[one.start].text in scene.text.little["how"] for one in said)
    )


def _came_with_a_reading(scene: Scene) -> bool:
    """ "wamefika 500 leo, joto 33": the chicks waited for, and how warm they have it."""
    waited = scene.hearing.has_batch and (scene.hearing.age_days or 0) <= 0
    other = scene.of_kind("grams", "bags", "litres", "money") or scene.has("dead", "lost", "@neg")
    return waited and scene.has("temperature", "@unit:celsius") and _came(scene) and not other


def _count_that_came(scene: Scene) -> int | None:
    """The figure right beside "they came", or beside the birds."""
    for one in scene.plain_numbers:
        near = (one.start - 1, one.end)
        beside = any(scene.text.at(name, at) for name in ("arrived", "bird") for at in near)
        if beside and SMALLEST <= one.value <= LARGEST:
            return round(one.value)
    return None


def _past(scene: Scene) -> bool:
    """ "niliwaingiza jumapili": put in already, so the sunday that was."""
    return _came(scene) or (scene.has("put_in") and not scene.has("coming"))


def _came(scene: Scene) -> bool:
    came = [
        span
        for clause in scene.text.clauses
        for name in ("arrived", "placed", "hatch")
        for span in clause.spans.get(name, ())
        if not scene.text.at("hatchery", span.start)
        and not any(scene.text.at("not_birds", at) for at in (span.start - 1, span.end))
        and (clause.has("bird", "box", "n") or not _another_came(clause, span))
    ]
    came = came or _boxes_in(scene)
    not_yet = bool(came) and all(span.denied and span.denier < 0 for span in came)
    return bool(came) and not not_yet and not scene.has("coming", "you_arrive")


def _boxes_in(scene: Scene) -> list[Span]:
    """ "three boxes came in, 306 of them": where chicks are waited for, their boxes."""
    return [
        span
        for clause in scene.text.clauses
        if _waited(scene) and clause.has("box")
        for span in clause.spans.get("fetched", ())
    ]


def _waited(scene: Scene) -> bool:
    """A batch that is expected, or has just come."""
    return scene.hearing.has_batch and (scene.hearing.age_days or 0) <= WAITED


def _denied_there(scene: Scene) -> bool:
    """Whether a negator stands where they came; "he says nothing before noon" denies nothing."""
    return any(
        one.has("arrived", "placed", "hatch") and one.has("@neg") for one in scene.text.clauses
    )


def _another_came(clause: Clause, came: Span) -> bool:
    """ "the vet came", "maji yamefika"; but "they have come, teacher"."""
    visitors = clause.spans.get("visitor", ())
    return clause.has(*_NO_CHICKS) or any(one.start < came.start for one in visitors)


def _arrived(scene: Scene, slots: Slots) -> Fact | None:
    """With a batch that was waited for they have arrived; else it is registered."""
    waited = _waited(scene)
    time = scene.clock[0][2] if scene.clock else None
    came = _day_they_came(scene)
    day = scene.day(past=True) if came is None else came
    if not scene.has("arrived") and slots.count is None and day is None:
        return None
    here = scene.has("arrived") or (waited and scene.has("placed", "put_in"))
    here = here or bool(_boxes_in(scene))
    if here and (waited or slots.count is None):
        if scene.has("message", "ok") and not waited:
            return None  # "message recu", "ok bien recu"
        if not (
            scene.has("bird", "box")
            or slots.count
            or len(scene.text.words()) <= (8 if waited else 4)
        ):
            return None
        found = replace(slots, date_iso_offset=min(0, day or 0), time=time)
        return Fact(Intent.ARRIVED, found, 0)
    if slots.count is None and not scene.has("bird", "hatch"):
        return None
    if scene.has("hatch") and came is None and not scene.has("hatchery"):
        slots = replace(slots, hatched=True)
    default = 0 if scene.has("arrived") and slots.age_days is None else None
    return Fact(
        Intent.REGISTER, replace(slots, date_iso_offset=day if day is not None else default), 0
    )


def _is_batch(scene: Scene, slots: Slots) -> bool:
    """A count with a day, an age or birds, and hardly anything else."""
    told = bool(scene.days) or slots.age_days is not None
    if scene.has("bird", "batch", "order", "coming", "have"):
        return told or not scene.hearing.has_batch
    return bool(scene.days) and len(scene.text.words()) <= 5


def batch_slots(scene: Scene) -> Slots:
    """The figures of a batch that stand in the text."""
    counts = [
        round(one.value)
        for one in scene.plain_numbers
        if SMALLEST <= one.value <= LARGEST and one.value == int(one.value)
        if not (_of_people(scene, one) or scene.text.at("elsewhere", one.start))  # "palm wine"
    ]
    counts = list(_in_boxes(scene)) or counts
    if not counts and scene.days and scene.has("bird"):
        counts = _odd_counts(scene)
    areas = scene.of_kind("area")
    heats = heats_said(scene)
    return Slots(
        count=counts[0] if counts else None,
        age_days=scene.ages[0].days if scene.ages else None,
        house_m2=round(areas[0].value, 1) if areas else None,
        heat="+".join(heats) if heats and counts else None,
    )


def _in_boxes(scene: Scene) -> Iterator[int]:
    """ "4 boxes of 100", "boksi tano kila moja 100": how many boxes, and how many in each."""
    text = scene.text
    if not scene.has("box"):
        return
    figures = [one for one in scene.plain_numbers if not one.weak]
    for boxes, held in itertools.pairwise(figures):
        gap = range(boxes.end, held.start)
        told = text.at("box", boxes.start - 1) or text.at("box", boxes.end)
        each = any(
            text.is_little(text.tokens[at].text, "each_of", "*@") or text.at("each", at)
            for at in gap
        )
        each = each or text.at("each", held.end)
        if told and each and len(gap) <= 4 and boxes.value <= MOST_BOXES <= held.value:
            yield round(boxes.value * held.value)


def _odd_counts(scene: Scene) -> list[int]:
    """A number of birds that no smallholder keeps (0, 5, five million): kept as said, so that it is
    asked about."""
    return [
        round(one.value)
        for one in scene.plain_numbers
        if one.value == int(one.value) and not one.weak and not _of_people(scene, one)
    ]


def _of_people(scene: Scene, one: Number) -> bool:
    """ "wanafunzi thelathini": a figure that counts people, or beasts that are no birds."""
    return any(scene.text.at("not_birds", at) for at in (one.start - 1, one.end))


def heats_said(scene: Scene) -> list[str]:
    """Kinds of heat named in the text, in the order said."""
    found = [
        (span.start, name[6:])
        for name, places in scene.text.spans.items()
        if name.startswith("@heat:")
        for span in places[:1]
    ]
    return list(dict.fromkeys(name for _, name in sorted(found)))


def _ahead(scene: Scene) -> bool:
    """ "i want 250 after 2 weeks", "baada ya wiki 2": a day to come, and no age."""
    start = scene.ages[0].start
    before = [one.text for one in scene.text.tokens[max(start - 2, 0) : start]]
    return bool(before) and (before[-1] in scene.text.little["after"] or before == ["baada", "ya"])


def with_day(scene: Scene, slots: Slots, *, past: bool) -> Slots:
    """With the day that is said; of an age alone none."""
    if slots.age_days is not None and not scene.days:
        ahead = not past and _ahead(scene)
        return replace(slots, age_days=None, date_iso_offset=slots.age_days) if ahead else slots
    day = _day_they_came(scene) if past else None
    day = scene.day(past=past) if day is None else day
    if day == 0 and slots.age_days and not scene.has(*_BEGINS):
        day = None  # "they are three weeks old today"
    return replace(slots, date_iso_offset=day)


def _day_they_came(scene: Scene) -> int | None:
    """ "hatched on sunday, came to me on monday": the day of the clause that tells they came."""
    if len(scene.days) < 2 or not scene.has("hatch"):
        return None
    told = (one for one in scene.text.clauses if one.has("arrived", "placed"))
    days = [
        day
        for clause in told
        if not clause.has("hatch")
        for day in scene.days
        if clause.start <= day.start < clause.end
    ]
    return days[0].resolved(scene.hearing.today, past=True) if len(days) == 1 else None

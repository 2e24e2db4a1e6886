"""The dead of a day told in parts, and those of several days: "2 at dawn and 3 now", "yesterday 6
today 1". In: a `Scene`. Out: `Told`, one a figure, each with its day. Pure; called by `deaths`.

Every figure goes with the time beside it; what of them is today's follows in one place, `of_today`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bot.understand.annotate import Clause
from bot.understand.numbers import Number
from bot.understand.scene import Scene

MOST_IN_PASSING = 20  # more dead than this are not told without a word for it
NOUGHTS = ("@answer:no", "@number:0", "@first:0", "@neg", "@negafter", "zero")
DIED = ("dead", "lost", "deaths")
NEAR_NOW = 3  # tokens between "now" and its figure
SINCE = -1000  # the day of a figure that is of all days so far
NEAR_SUM = 2  # words between "so", "in all" and the figure that they sum up
# What may stand beside the figures of days and tells of nothing else.
_BESIDE = (
    *("~so_far", "@many", "@whole", "whole_all", "have"),
    *("bird", "batch", *DIED, "copula", "own_birds", "few_only", "~only", "house"),
    *("well", "@polite", "@pronouns", "@article", "@now", "@weak", "@few"),
    *("@day:0", "@joiner", "@joins", "@and", "@clause", "@still", "@answer:not_yet", "@gone"),
    *("let_go", "~this", "~time_of_year", "hour_word", "just_now", "~added", "~put_right"),
    *("~picked", "~day_before", "~beside_time", "@sum", "@answer:in_all", "total"),
    *("~even", "@out_of", "last_day"),
    *("@me", "@subject", "@plural", "@since", "from_start", "@days"),
)
_TOLD = (
    *("few_only", "~only", "@gone", "let_go", "lost"),
    *("~added", "~picked", "last_day", "from_start"),
)
# Beside one of these the figures are not of the own dead of these days.
_OTHER = (
    *("game_word", "@others", "@earlier", "culled", "placed", "box"),
    *("plan", "alive", "in_truth", "i_said", "not_birds"),
)


@dataclass(frozen=True, slots=True)
class Told:
    """So many dead, told at a token. day: whole days from today, None where none is told. apart:
    told with a part of the day, or as more than before; whole: told as the sum."""

    at: int
    dead: int
    day: int | None = None
    apart: bool = False
    whole: bool = False


def of_today(told: Sequence[Told]) -> Told | None:
    """Those of today; else those without a day; else those of the latest day. What is told apart
    adds up, unless it only parts the figure told before it."""
    if not told:
        return None
    dated = [one.day for one in told if one.day is not None]
    today = [one for one in told if one.day == 0]
    undated = [one for one in told if one.day is None]
    sums = [one for one in told[1:] if one.whole and one.day in (0, None)]
    if sums and min(dated, default=0) == 0:
        return sums[-1]
    if (
        any(one.dead for one in today)
        and all(one.apart for one in today)
        and max(dated) == min(dated)
    ):
        today = [one for one in undated if one.at < today[0].at and not one.whole] + today
    if today or not undated:
        now = today or [one for one in told if one.day == max(dated)]
    else:
        now = undated if any(one.apart or one.whole for one in undated) else undated[:1]
    first, rest = now[0], now[1:]
    rest = [one for one in rest if not one.whole]
    if rest and all(one.apart for one in rest):
        more = sum(one.dead for one in rest)
        parts = first.dead == more and len(rest) > 1 and not first.apart
        return first if parts else replace(first, dead=first.dead + more)
    return now[-1]


def left_open(scene: Scene, told: Sequence[Told]) -> bool:
    """ "2 died in the morning, now 5": five more, or five in all? No word and no hour says."""
    if len(told) != 2 or any(one.day not in (0, None) or one.whole for one in told):
        return False
    first, then = told
    behind = range(first.at + 1, len(scene.text.tokens))
    own = range(
        max(then.at - NEAR_NOW, first.at + 1), min(then.at + NEAR_NOW, len(behind) + first.at + 1)
    )
    timed_both = first.apart and then.apart
    now = any(
        scene.text.at("just_now", at)
        or (scene.text.at("@now", at) and not (timed_both and scene.text.at("@day:0", at)))
        for at in own
    )  # "morning 5 noon 7 died today": both have their hour, and the day is of both
    more = any(scene.text.at(name, at) for name in ("~added", "@answer:more") for at in behind)
    hour = any(span.start > then.at for span in scene.text.spans.get("hour_word", ()))
    timed = any(span.start < then.at for span in scene.text.spans.get("hour_word", ()))
    return 0 < first.dead <= then.dead and timed and now and not more and not hour


@dataclass(frozen=True, slots=True)
class _Time:
    """A day, a part of one, or both, at tokens start..end."""

    start: int
    end: int
    day: int | None
    part: bool


@dataclass(frozen=True, slots=True)
class _Figure:
    start: int
    end: int
    dead: int
    added: bool = False
    whole: bool = False


def tallied(scene: Scene, *, known: bool = False) -> list[Told]:
    """The dead of each day and part of a day; none where a figure may be of something else.

    known: it is known that the text tells of the dead, though no word says so."""
    if not (scene.plain_numbers or scene.has(*NOUGHTS)):
        return []
    if scene.has(*_OTHER) or _came(scene):
        return []
    row = _row_of_days(scene)
    if row:
        return row
    told: list[Told] = []
    plain = True  # no word of dying in any of the clauses
    header: int | None = None
    waiting: int | None = None  # a day in a clause of its own
    sentence = -1
    for clause in scene.text.clauses:
        if clause.sentence != sentence:
            header, sentence = None, clause.sentence
        died = clause.has(*DIED)
        times, figures = _times(scene, clause), _figures(scene, clause)
        if not figures:
            plain = plain and not (died and _plain(scene, clause))  # "3 this morning, dead"
            waiting = times[0].day if len(times) == 1 and _plain(scene, clause) else None
            header = waiting if waiting is not None else header
            continue
        if not _plain(scene, clause) and (told_till := _told_till(scene, clause, figures, times)):
            figures = [one for one in figures if one.start < told_till]
            times = [one for one in times if one.start < told_till]
        elif not _plain(scene, clause):
            if died and (len(figures) > 1 or clause.has("@if", "@future")):
                return []
            if not died:
                continue
        if any(one.day is not None and one.day > 0 for one in times):
            return []
        paired = _in_turn(figures, times)
        if paired is None:
            return []
        plain = plain and not died
        if paired[0] is not None and paired[0].start < figures[0].start:
            header = paired[0].day if paired[0].day is not None else header
        if len(times) > len(figures):
            header = times[0].day
        for one, time in zip(figures, paired, strict=True):
            day = _day(one, time, header, waiting)
            apart = one.added or bool(time and time.part)
            told.append(Told(one.start, one.dead, day, apart, one.whole))
        waiting = None
    counted = len(told) > 1 and any(one.day is not None or one.apart for one in told)
    if not counted or (plain and not known and not _without_a_word(scene, told)):
        return []
    return told


def _came(scene: Scene) -> bool:
    """Chicks that came; "since they came" is only a time."""
    since = {
        at for span in scene.text.spans.get("from_start", ()) for at in range(span.start, span.end)
    }
    return any(span.start not in since for span in scene.text.spans.get("arrived", ()))


def _day(one: _Figure, time: _Time | None, header: int | None, waiting: int | None) -> int | None:
    if time is None:
        if waiting is not None:
            return waiting
        return (header or 0) if one.added else None
    return time.day if time.day is not None else header or 0


def _row_of_days(scene: Scene) -> list[Told]:
    """ "last 3 days dead was 1,2,0": as many figures as days, the last of them today's."""
    text = scene.text
    for number in text.numbers:
        near = range(number.start - 2, number.end + 3)
        days = any(text.at("@days", at) for at in near) and any(
            text.at("last_day", at) for at in near
        )
        behind = [one for one in text.numbers if one.start > number.end]
        row = [one for one in behind if one.value == int(one.value)]
        alone = len(row) == number.value > 1 and not scene.quantities
        if days and alone and scene.has(*DIED):
            return [
                Told(one.start, round(one.value), at - len(row) + 1) for at, one in enumerate(row)
            ]
    return []


def _without_a_word(scene: Scene, told: Sequence[Told]) -> bool:
    """Whether figures of several times can be dead though no word says so."""
    if scene.quantities or any(one.dead > MOST_IN_PASSING and one.day != SINCE for one in told):
        return False
    asked = scene.hearing.prompt
    if asked is not None:
        return asked == "deaths"
    said = scene.has(*_TOLD) or any(one.dead == 0 or one.whole for one in told) or len(told) > 2
    return said and len({(one.day, one.apart) for one in told}) + len(told) > 2


def _figures(scene: Scene, clause: Clause) -> list[_Figure]:
    """The figures and noughts of a clause."""
    begun = {
        at for span in clause.spans.get("from_start", ()) for at in range(span.start, span.end)
    }
    found = [
        _Figure(one.start, one.end, 0 if _not_one(scene, one) else round(one.value))
        for one in scene.near(clause, scene.plain_numbers)
        if one.value == int(one.value)
        and (one.spelt or not one.weak)
        and not scene.of_flock(one)
        and one.start not in begun
        and not _how_fast(scene, one)
    ]
    taken = {at for one in found for at in range(one.start, one.end)}
    taken |= {at for one in scene.text.numbers for at in range(one.start, one.end)}
    found += [one for one in _noughts(scene, clause) if one.start not in taken]
    found.sort(key=lambda one: one.start)
    return [
        replace(one, added=_added(scene, one), whole=_sums_up(scene, clause, one)) for one in found
    ]


def _how_fast(scene: Scene, one: Number) -> bool:
    """ "20 in one night", "they die one after another": no bird is counted by it."""
    text = scene.text
    if any(text.at(name, one.start) for name in ("die_many", "die_rate")):
        return True
    before, behind = one.start - 1, one.end
    while text.at("~only", behind):
        behind += 1
    if one.value == 1 and text.at("@weak", one.start) and text.at("in_turn", before):
        return text.at("hour_word", behind)  # "4 died on the first night"
    if text.at("hour_word", before):
        return one.value == 1 and text.at("~within", before - 1)
    return one.value == 1 and text.at("~within", before) and text.at("hour_word", behind)


def _not_one(scene: Scene, one: Number) -> bool:
    """ "not even one", "hakuna hata mmoja"."""
    before = one.start - 1
    while scene.text.at("~even", before):
        before -= 1
    denied = any(
        span.denied and span.end == before + 1
        for name in DIED
        for span in scene.text.spans.get(name, ())
    )
    return one.value == 1 and before >= 0 and (denied or _is_nought(scene, before))


def _noughts(scene: Scene, clause: Clause) -> Iterator[_Figure]:
    """ "none" beside a time or a word of dying, or alone; elsewhere it denies another word."""
    if not scene.has(*NOUGHTS):
        return
    times = {at for one in _times(scene, clause) for at in range(one.start, one.end)}

    def told(at: int) -> bool:
        return at in times or any(scene.text.at(name, at) for name in DIED)

    def little(at: int) -> bool:
        return any(scene.text.at(name, at) for name in ("~beside_time", "~even", *NOUGHTS))

    for at in range(clause.start, clause.end):
        if not _is_nought(scene, at):
            continue
        before, behind = at - 1, at + 1
        while before >= clause.start and little(before) and not told(before):
            before -= 1
        while behind < clause.end and little(behind) and not told(behind):
            behind += 1
        alone = before < clause.start and behind == clause.end
        ends = behind == clause.end and before >= clause.start and told(before)
        if alone or ends or (behind < clause.end and told(behind)):
            yield _Figure(at, at + 1, 0)
            return


def _is_nought(scene: Scene, at: int) -> bool:
    if any(scene.text.at(name, at) for name in ("@joins", "~added", *DIED)):
        return False
    return any(scene.text.at(name, at) for name in NOUGHTS)


def _added(scene: Scene, one: _Figure) -> bool:
    return scene.text.at("~added", one.start - 1) or scene.text.at("~added", one.end)


def _sums_up(scene: Scene, clause: Clause, one: _Figure) -> bool:
    """ "so 3 all together", "total 7", "3 in all"."""
    before = range(max(one.start - 1 - NEAR_SUM, clause.start), one.start)
    behind = range(one.end, min(one.end + NEAR_SUM, clause.end))
    figures = {number.start for number in scene.text.numbers}
    near = [*before, *(at for at in behind if at + 1 not in figures)]
    said = any(scene.text.at(name, at) for name in ("@answer:in_all", "total") for at in near)
    return one.dead > 0 and (said or scene.text.at("@sum", one.start - 1))


def _times(scene: Scene, clause: Clause) -> list[_Time]:
    """Days and parts of days in a clause; those of one time are one ("yesterday evening")."""
    spans = scene.text.spans
    found = []
    for day in scene.days:
        if clause.start <= day.start < clause.end:
            here = range(day.start, min(day.end + 1, clause.end))
            part = any(scene.text.at(name, at) for name in ("hour_word", "just_now") for at in here)
            found.append(_Time(day.start, day.end, day.gone_by(scene.hearing.today), part))
    parts = [
        (span.start, span.end) for name in ("hour_word", "just_now") for span in spans.get(name, ())
    ]
    parts += [(start, end) for start, end, _ in scene.clock]
    taken = {at for one in found for at in range(one.start, one.end)}
    for start, end in parts:
        if clause.start <= start < clause.end and start not in taken:
            found.append(_Time(start, end, None, True))
    for span in spans.get("~day_before", ()):
        if clause.start <= span.start < clause.end and span.start not in taken:
            found.append(_Time(span.start, span.end, -2, False))
    for span in (*spans.get("from_start", ()), *spans.get("~so_far", ())):
        if clause.start <= span.start < clause.end:
            found.append(_Time(span.start, span.end, SINCE, False))
    found.sort(key=lambda one: one.start)
    figures = [one.start for one in scene.plain_numbers]
    merged: list[_Time] = []
    for one in found:
        last = merged[-1] if merged else None
        parted = last is not None and any(last.end <= at < one.start for at in figures)
        if last is None or parted or _differ(last, one) or _divided(scene, last, one):
            merged.append(one)
        else:
            said = last.day if last.day is not None else one.day
            merged[-1] = _Time(last.start, one.end, said, last.part or one.part)
    return merged


def _differ(first: _Time, second: _Time) -> bool:
    return first.day is not None and second.day is not None and first.day != second.day


def _divided(scene: Scene, first: _Time, second: _Time) -> bool:
    """ "none" between them, or "and" between two parts of a day."""
    names = NOUGHTS if second.day is not None or first.day is not None else (*NOUGHTS, "@joins")
    return any(scene.text.at(name, at) for name in names for at in range(first.end, second.start))


def _in_turn(figures: Sequence[_Figure], times: Sequence[_Time]) -> list[_Time | None] | None:
    """The time of each figure, where figures and times stand in turn; None where they don't."""
    sums = [one for one in figures if one.whole]
    if sums:
        rest = [one for one in figures if not one.whole]
        timed = [one for one in times if one.end <= sums[0].start]
        paired = _in_turn(rest, timed) if rest else []
        if paired is None:
            return None
        own = iter(paired)
        said = [one for one in times if one.start > sums[0].start] or (timed if not rest else [])
        whole = said[0] if said else None
        return [whole if one.whole else next(own) for one in figures]
    if not times:
        return [None] * len(figures)
    if len(times) == len(figures) + 1:
        if times[0].day is not None and times[0].end <= figures[0].start:
            times = times[1:]  # "today 2 in the morning and 1 at noon"
        elif not times[-1].part and all(one.part for one in times[:-1]):
            times = times[:-1]  # "morning 5 noon 7 died today"
    if len(times) == len(figures):
        return list(times) if _side_by_side(figures, times) else None
    if len(times) != len(figures) - 1 or not (
        _side_by_side(figures[:-1], times) and _side_by_side(figures[1:], times)
    ):
        return None
    near = times[0].start - figures[0].end <= figures[1].start - times[0].end + 1
    last = figures[-1].added or (near and figures[-1].dead > 0)  # a "none" has its time
    return [*times, None] if last else [None, *times]


def _side_by_side(figures: Sequence[_Figure], times: Sequence[_Time]) -> bool:
    """Whether nothing else of them stands between a figure and its time."""
    starts = sorted([*(one.start for one in figures), *(one.start for one in times)])
    return all(
        abs(starts.index(one.start) - starts.index(time.start)) == 1
        for one, time in zip(figures, times, strict=True)
    )


def _plain(scene: Scene, clause: Clause) -> bool:
    names = ("@common",) if clause.has(*DIED) else ()
    return is_plain(scene, range(clause.start, clause.end), *names)


def _told_till(
    scene: Scene, clause: Clause, figures: Sequence[_Figure], times: Sequence[_Time]
) -> int | None:
    """ "9 died this morning 4 more at noon I burnt them all": all is told when the last figure has
    its time, and what its subject opens behind it is another statement."""
    picked = [span.start for span in clause.spans.get("~picked", ())]
    names = ("@common",) if clause.has(*DIED) else ()
    for opened in (span.start for span in clause.spans.get("@subject", ())):
        counted = [one for one in figures if one.start < opened]
        timed = [one for one in times if one.start < opened]
        if len(counted) < 2 or not timed or timed[-1].start < counted[-1].end:
            continue
        died = clause.has(*DIED) or any(at > opened for at in picked)
        plain = is_plain(scene, range(clause.start, opened), *names)
        return opened if died and plain else None
    return None


def is_plain(scene: Scene, places: range, *names: str) -> bool:
    """Whether nothing but days, figures, noughts and little words (or words of other classes that
    are named) stands there."""
    known = {at for day in scene.days for at in range(day.start, day.end)}
    known |= {at for one in scene.plain_numbers for at in range(one.start, one.end)}
    known |= {at for start, end, _ in scene.clock for at in range(start, end)}
    return all(
        at in known
        or scene.text.tokens[at].kind == "mark"
        or any(scene.text.at(name, at) for name in (*NOUGHTS, *_BESIDE, *names))
        for at in places
    )

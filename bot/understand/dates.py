"""Days and ages out of an annotated text. Pure; called by `facts`.

A day is whole days from today, negative is past. A bare weekday is kept as such until the reader
knows whether it is coming or past.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from bot.understand.annotate import Text
from bot.understand.index import Index
from bot.understand.numbers import Number

FAR_PAST = 200  # days: a day/month that lies further back is meant for next year
_ORDINAL = ("th", "st", "nd", "rd")
_SPANS = ("@days", "@weeks")
_DATE_MARKS = "/-."


@dataclass(frozen=True, slots=True)
class Day:
    """A day said at tokens start..end. weekday: 0 Monday, where only that was said."""

    start: int
    end: int
    offset: int | None = None
    weekday: int | None = None

    last: bool = False  # "last thursday"
    coming: bool = False  # "next thursday"
    of_month: bool = False  # "the 20th", of no month that is told

    def resolved(self, today: date, *, past: bool) -> int:
        """Whole days from today; a bare weekday is the last one or the coming one."""
        if self.offset is not None:
            return self.offset
        assert self.weekday is not None
        ahead = (self.weekday - today.weekday()) % 7
        if self.last or (past and not self.coming):
            return ahead - 7 if ahead else -7
        return ahead or 7

    def gone_by(self, today: date) -> int:
        """As `resolved`, of what was told of several days: a bare weekday may be today."""
        bare = self.offset is None and not self.last and not self.coming
        return 0 if bare and self.weekday == today.weekday() else self.resolved(today, past=True)

    def ahead(self, today: date) -> int | None:
        """ "ordered for the 20th" on the 4th: the coming one, whichever is nearer."""
        if not self.of_month or self.offset is None or self.offset >= 0:
            return self.offset
        number = (today + timedelta(days=self.offset)).day
        later = (today + timedelta(days=at) for at in range(1, 62))
        return next(((one - today).days for one in later if one.day == number), None)


@dataclass(frozen=True, slots=True)
class Age:
    """Days old, or the day of life, at tokens start..end."""

    start: int
    end: int
    days: int


def find_days(text: Text, index: Index, today: date) -> list[Day]:
    """Every day said, in order, without overlaps; the longest reading wins."""
    found = [
        *_counted(text, index),
        *_calendar(text, today),
        *_of_the_month(text, today),
        *_named(text),
    ]
    found.sort(key=lambda day: (day.start, -day.end))
    kept: list[Day] = []
    for day in found:
        if not kept or day.start >= kept[-1].end:
            kept.append(day)
    return [day for day in kept if not _dated(day, kept)]


def _with_month(text: Text, number: Number) -> bool:
    """ "tarehe 15 oktoba": the month is said."""
    behind = (number.end, number.end + 1)
    return any(
        span.start <= at < span.end
        for places in text.values("@month").values()
        for span in places
        for at in behind
    )


def _of_the_month(text: Text, today: date) -> Iterator[Day]:
    """ "tarehe 2", "on the 20th", "le 20": the nearest such day; or of the month that is told."""
    for number in text.numbers:
        start = _date_word(text, number)
        if start is None or number.value != int(number.value) or _with_month(text, number):
            continue
        end, month = _month_behind(text, number, today)
        end += _ending(text, number)
        if month is not None:
            day = _offset(today, number.value, month, None)
            days = [] if day is None else [day]
        else:
            near = nearest_of_month(number.value, today)
            days = [] if near is None else [near]
        if days:
            yield Day(start, end, days[0], of_month=month is None)


def nearest_of_month(number: float, today: date) -> int | None:
    """The nearest day of that number, as days from today."""
    near = (today + timedelta(days=at) for at in range(-15, 16))
    return next(((one - today).days for one in near if one.day == number), None)


def _date_word(text: Text, number: Number) -> int | None:
    """Where the words begin that make a figure a day of the month; None where none do."""
    before, after = number.start - 1, number.end
    if before < 0:
        return None
    if after < len(text.tokens) and text.tokens[after].text == "/":
        return None  # "tar 20/3"
    if text.at("@date", before):
        return before
    ordinal = text.tokens[number.start].text
    if _ending(text, number) or (ordinal[:1].isdigit() and ordinal[-2:] in _ORDINAL):
        return before if text.tokens[before].text in text.little["day_article"] else None
    told = text.has("plan", "placed", "order", "coming", "arrived", "register", "batch")
    counts = any(text.at(name, after) for name in ("bird", "@days", "@weeks", "dead", "price"))
    digits = ordinal.isdigit() and number.value <= 31 and not counts
    return (
        before if text.tokens[before].text in text.little["the_day"] and digits and told else None
    )


def _ending(text: Text, number: Number) -> int:
    """ "the 28th": 1 where the ending of an ordinal is a token of its own behind the figure."""
    at = number.end
    return int(not number.spelt and at < len(text.tokens) and text.tokens[at].text in _ORDINAL)


def _month_behind(text: Text, number: Number, today: date) -> tuple[int, int | None]:
    """ "tarehe moja mwezi ujao", "the 1st of next month": where it ends, and the month."""
    for span in text.spans.get("next_month", ()):
        if span.start - number.end in (0, 1):
            return span.end, today.month % 12 + 1
    for span in text.spans.get("this_month", ()):
        if span.start - number.end in (0, 1):
            return span.end, today.month
    return number.end, None


def _dated(day: Day, days: list[Day]) -> bool:
    """ "monday 23 february": the date says it, not the weekday before it."""
    return day.offset is None and any(
        one.offset is not None and 0 <= one.start - day.end <= 2 for one in days
    )


def find_ages(text: Text, days: list[Day]) -> list[Age]:
    """ "5 days old", "day 5", "wiki mbili", "age 12"; nothing that is already a day."""
    taken = {at for day in days for at in range(day.start, day.end)}
    found: list[Age] = []
    for number in text.numbers:
        if number.start in taken or number.value != int(number.value) or number.value > 120:
            continue
        aged = text.has("old") or _has_the_age(text, number) or _chicks_of(text, number)
        if number.weak and number.spelt and not aged:
            continue  # "one day i saw"
        if _no_age(text, number, days):
            continue
        age = _age_at(text, number)
        if age is not None:
            found.append(age)
    return found or list(_a_week_old(text, taken))


def _a_week_old(text: Text, taken: set[int]) -> Iterator[Age]:
    """ "week old chicks": one, where no figure says how many."""
    for span in text.spans.get("@weeks", ()):
        if text.at("old", span.end) and span.start not in taken:
            yield Age(span.start, span.end + 1, 7)


def _no_age(text: Text, number: Number, days: list[Day]) -> bool:
    """ "4 days after the injection", "if 1 day I see blood", "deaths 4 siku ya leo", "walikufa 20
    siku moja"."""
    names, end = ("@days", "@weeks"), number.end
    if any(one.start == end < one.end - 1 for one in text.spans.get("~so_far", ())):
        return True  # "4 died the first day", "walikufa 4 siku ya kwanza"
    if any(text.at(name, end) for name in names):
        end += 1
        if any(one.start == end for one in text.numbers) and _of_its_noun(text, number):
            return True  # "gunia la kilo 50 siku mbili": two days
    elif not any(text.at(name, number.start - 1) for name in names):
        return False
    if any(
        one.weak and one.end == number.start - 1 and text.at("~within", one.start - 1)
        for one in text.numbers
    ):
        return True  # "in one day 20 died"
    one_day = end > number.end and any(one.start == end and one.weak for one in text.numbers)
    if one_day and text.at("dead", number.start - 1):
        return True
    behind = text.tokens[end].text if end < len(text.tokens) else ""
    if behind in text.little["around_day"] and not text.has("hatch", "placed", "withdraw"):
        return True
    if number.value == 1 and text.at("@if", number.start - 1):
        return True
    return behind in text.little["of_day"] and any(day.start == end + 1 for day in days)


def _of_its_noun(text: Text, number: Number) -> bool:
    """ "kilo 50", "joto 33": a figure behind what it counts, in a language that counts so."""
    names = ("@unit:kg", "@unit:bag", "@unit:litre", "temperature", "dead")
    before = any(text.at(name, number.start - 1) for name in names)
    return before or bool(text.values("@first"))


def _age_at(text: Text, number: Number) -> Age | None:
    before, after = number.start - 1, number.end
    value = int(number.value)
    for name, factor in (("@days", 1), ("@weeks", 7)):
        aged = text.at("old", after + 1) or _has_the_age(text, number) or _chicks_of(text, number)
        if text.at(name, after) and not (number.weak and not aged):
            return Age(number.start, after + 1, value * factor)
        if before >= 0 and text.at(name, before):
            if _of_the_dead(text, number, before):
                continue
            if text.has("dead", "lost") and _this_day(text, before):
                continue  # "mortality of the day 4"
            if _this_day(text, before) and _has_unit(text, number):
                continue  # "consumption of the day 12 kg"
            of_life = text.tokens[before].text in text.little["day_of_life"]
            return Age(before, number.end, max(value - 1, 0) if of_life else value * factor)
        linked = before - 1
        joined = text.is_little(text.tokens[before].text, "joins_age", "=:")
        if linked >= 0 and joined and text.at(name, linked) and not _this_day(text, linked):
            first = text.tokens[before].text in text.little["first_day"] and name == "@days"
            return Age(linked, number.end, max(value - 1, 0) if first else value * factor)
    if before >= 0 and text.at("old", before) and text.tokens[before].kind == "word":
        return Age(before, number.end, value)
    return None


def _of_the_dead(text: Text, number: Number, unit: int) -> bool:
    """ "300 birds 12 days 2 dead": the days have their figure before them, and this one counts."""
    aged = any(one.end == unit and not one.weak for one in text.numbers)
    counts = any(text.at(name, number.end) for name in ("dead", "lost", "culled"))
    return aged and counts and not _of_its_noun(text, number)


def _has_the_age(text: Text, number: Number) -> bool:
    """ "qui ont une semaine", "ages d'une semaine": told as their age by the word before it."""
    return any(span.end == number.start for span in text.spans.get("has_age", ()))


def _chicks_of(text: Text, number: Number) -> bool:
    """ "one week chicks", "how warm at one week"; but not "one day birds piled"."""
    beside = text.at("bird", number.end + 1) or text.at("near", number.start - 1)
    return text.at("@weeks", number.end) and beside


def _this_day(text: Text, at: int) -> bool:
    """ "mortality of the day: 35" is no day 35."""
    return at > 0 and text.tokens[at - 1].text in text.little["this_day"]


def _has_unit(text: Text, number: Number) -> bool:
    """Whether a unit stands right behind the figure; a lone letter, which may be another word ("8 l
    aliment"), only where no word follows it."""
    at = number.end
    if at >= len(text.tokens):
        return False
    ends = text.ends_at(at + 1)
    return (ends or len(text.tokens[at].text) > 1) and any(
        span.start == at for places in text.values("@unit").values() for span in places
    )


def _counted(text: Text, index: Index) -> Iterator[Day]:
    for clause in text.clauses:
        for patterns, sign in ((index.ahead, 1), (index.ago, -1)):
            for match in patterns.find(clause.spans):
                if _holds_another(text, match.start, match.end):
                    continue
                if sign > 0 and clause.has("dead") and not clause.has("@future", "@question"):
                    continue  # "4 dead in 10 days": so long it took
                inside = [one for one in text.numbers if match.start <= one.start < match.end]
                before = range(match.start, inside[0].start) if inside else ()
                again = any(text.at(name, inside[0].end) for name in _SPANS) if inside else False
                if again and any(text.at("@days", at) for at in before):
                    continue  # "in a day at 3 weeks": their age
                if len(inside) == 1 and inside[0].value <= 400 and not _measures(text, inside[0]):
                    weeks = any(text.at("@weeks", at) for at in range(match.start, match.end))
                    days = round(inside[0].value) * (7 if weeks else 1)
                    yield Day(match.start, match.end, sign * days)


def _holds_another(text: Text, start: int, end: int) -> bool:
    """ "in water today, withdraw 5 days": no five days ahead."""
    return any(text.at(name, at) for name in ("@day:0", "withdraw") for at in range(start, end))


def _measures(text: Text, number: Number) -> bool:
    """ "fait 12 m2, j'aimerais": no 12 days."""
    units = ("square_metre", "kg", "litre", "celsius")
    return any(text.at(f"@unit:{name}", number.end) for name in units)


def _named(text: Text) -> Iterator[Day]:
    for offset, places in text.values("@day").items():
        for span in places:
            yield Day(span.start, span.end, int(offset))
    for weekday, places in text.values("@weekday").items():
        for span in places:
            before = span.start - 1
            last = text.at("last_day", before) or text.at("last_day", span.end)
            last = last or (text.at("@since", before) and not text.has("plan"))
            coming = text.at("next_day", before) or text.at("next_day", span.end)
            yield Day(span.start, span.end, None, int(weekday), last, coming)


def _calendar(text: Text, today: date) -> Iterator[Day]:
    """12/3, 12-3-2026, 2026-03-12, 12 march, march 12, le 5 mars."""
    tokens = text.tokens
    for at, token in enumerate(tokens):
        if token.value is None:
            continue
        run = [token.value]
        end = at + 1
        while (
            len(run) < 3
            and end + 1 < len(tokens)
            and tokens[end].text in _DATE_MARKS
            and tokens[end].text != "."
            and tokens[end + 1].value is not None
        ):
            run.append(tokens[end + 1].value or 0)
            end += 2
        day = _from_figures(run, today)
        if day is not None and (len(run) == 3 or tokens[at + 1].text == "/"):
            yield Day(at, end, day)
    for month, places in text.values("@month").items():
        for span in places:
            for number in text.numbers:
                if number.end in (span.start, span.start - 1) or number.start == span.end:
                    offset = _offset(today, number.value, int(month), None)
                    if offset is not None:
                        low, high = min(span.start, number.start), max(span.end, number.end)
                        yield Day(low, high, offset)


def _from_figures(run: list[float], today: date) -> int | None:
    if len(run) < 2:
        return None
    if len(run) == 3 and run[0] > 1000:
        return _offset(today, run[2], int(run[1]), run[0])
    return _offset(today, run[0], int(run[1]), run[2] if len(run) == 3 else None)


def _offset(today: date, day: float, month: int, year: float | None) -> int | None:
    if year is not None and year < 100:
        year += 2000
    try:
        meant = date(int(year) if year else today.year, month, int(day))
        offset = (meant - today).days
        if year is None and offset < -FAR_PAST:
            offset = (meant.replace(year=today.year + 1) - today).days
    except (ValueError, OverflowError):
        return None
    return offset if day == int(day) and abs(offset) < 400 else None


def in_pairs(days: Sequence[Day], figures: Sequence[int]) -> bool:
    """Whether two days and two figures stand in turn, the days first or the figures first."""
    before = [day.start < figure for day, figure in zip(days, figures, strict=True)]
    parted = days[1].start > figures[0] if before[0] else figures[1] > days[0].start
    return before[0] == before[1] and parted

"""A cooperative's own rules: in which groups they are kept, how a form is read, what can't be.
Pure. In: a form, the rules in force. Out: the values of a group, faults by field; or the
cooperative as it would be with them. Called by the page "Our rules" and by the settings.

Values of a group are plain (what JSON can hold), so that each version can be kept as it was.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, time
from decimal import Decimal, InvalidOperation
from typing import Any
from zoneinfo import available_timezones

from phonenumbers import SUPPORTED_REGIONS

from bot.cooperative.many import PART
from bot.cooperative.phones import read_called
from bot.cooperative.said import Said
from bot.day.quiet import DAYS, read_intervals
from bot.day.standing import LATEST
from bot.facts.farm import Cooperative, VaccineDay
from bot.facts.limits import OWN_LIMITS, Limits
from bot.say.plain import plain

GROUPS = ("names", "place", "hours", "vaccines", "nights", "prices", "limits")
Values = dict[str, Any]
MONTHS = 12
PRICES = ("feed_bag", "chick", "kg", "bird")  # a bag of 50 kg, a day-old, live birds
MOST_MONEY = 1e9
COLDEST_C, HOTTEST_C = -20, 50
MOST_SWING_C = 30  # between the day and the night of a month
LONGEST_SIGNER = 11  # letters; with its colon 12
EARLIEST, LAST = time(5), time(22)  # nothing goes by itself outside, whatever an operator allows
LEAST_HOURS = 6  # in which texts may go
NOON, AFTERNOON = time(12), time(15)
MOST_QUIET = 20
FIRST_DAY, LAST_DAY = 2, 57  # the first text of the calendar after their coming is of day 2
MOST_VACCINES = 20
LONGEST_WORDS = (
    24  # letters of what a vet calls a vaccine; the sample in texts/roles.yaml is as long
)
LONGEST_VET = 40
MOST_PARTS, MOST_SECOND = 10_000_000, 1000
LEAST_ANSWERS = 8  # an hour: registering takes six
_HOUR = re.compile(r"([01]?\d|2[0-3])[:.h]?([0-5]\d)")


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong. field: the name of the input. said: a key under rules.fault in desk.yaml."""

    field: str
    said: Said


@dataclass(frozen=True, slots=True)
class Asking:
    """What a form is read against. house: the limits of the service. languages: those that texts
    are worded in."""

    now: Cooperative
    house: Limits
    languages: Collection[str]
    today: date


class Form:
    """A form being read; what is wrong with it is gathered in `faults`."""

    def __init__(self, fields: Mapping[str, str]) -> None:
        self._fields = fields
        self.faults: list[Fault] = []

    def wrong(self, name: str, key: str, **values: object) -> None:
        self.faults.append(Fault(name, Said.of(key, **values)))

    def text(self, name: str) -> str:
        """What was typed, in plain letters, without spaces around it."""
        return " ".join(plain(self._fields.get(name, "")).split())

    def hour(self, name: str) -> time | None:
        found = _HOUR.fullmatch(self.text(name))
        if found is None:
            self.wrong(name, "hour")
            return None
        return time(int(found[1]), int(found[2]))

    def number(self, name: str, low: float, high: float, key: str) -> float | None:
        """A figure; None where nothing was typed or it is none, which is a fault."""
        typed = self.text(name).replace(" ", "").replace(",", ".")
        if not typed:
            return None
        try:
            found = Decimal(typed)
        except InvalidOperation:
            found = Decimal("NaN")
        if not found.is_finite() or not low <= found <= high:
            self.wrong(name, key, low=f"{low:g}", high=f"{high:g}")
            return None
        return float(found)

    def whole(self, name: str, low: int, high: int) -> int | None:
        found = self.number(name, low, high, "whole")
        if found is None or found != int(found):
            if found is not None:
                self.wrong(name, "whole", low=low, high=high)
            return None
        return int(found)


def read(group: str, fields: Mapping[str, str], asking: Asking) -> tuple[Values, Sequence[Fault]]:
    """The values of a group as a form gives them, and what is wrong; faults leave them unusable."""
    form = Form(fields)
    values = _READ[group](form, asking)
    return values, form.faults


def values_of(group: str, cooperative: Cooperative) -> Values:
    """The values of a group that are in force."""
    return _VALUES[group](cooperative)


def with_values(cooperative: Cooperative, group: str, values: Values) -> Cooperative:
    """The cooperative with other values of a group."""
    return _WITH[group](cooperative, values)


def wrong_signer(name: str) -> bool:
    """Whether a name can't sign: longer than 11 plain letters, or no name."""
    return plain(name) != name or not 0 < len(name) <= LONGEST_SIGNER or not _has_letter(name)


def may_approve(drafted_by: int | None, staff_id: int, approvers: int) -> bool:
    """Two see a change, as long as two of those who run or own are there: a slip in a signer or an
    hour reaches every farmer. Who is alone approves their own."""
    return drafted_by != staff_id or approvers <= 1


def _has_letter(text: str) -> bool:
    return any(letter.isalpha() for letter in text)


# Who signs, who is called


def _read_names(form: Form, asking: Asking) -> Values:
    name = form.text("name")
    if wrong_signer(name) or ":" in name:
        form.wrong("name", "name", most=LONGEST_SIGNER)
    language = form.text("language")
    if language not in asking.languages:
        form.wrong("language", "language")
    numbers: Values = {}
    for field in ("vet_number", "authority_number"):
        typed = form.text(field)
        numbers[field] = read_called(typed, asking.now.region) if typed else None
        if typed and numbers[field] is None:
            form.wrong(field, "number")
    return {"name": name, "language": language, **numbers}


def _names(one: Cooperative) -> Values:
    return {"name": one.name, "language": one.language, "vet_number": one.vet_number,
            "authority_number": one.authority_number}  # fmt: skip


def _with_columns(one: Cooperative, values: Values) -> Cooperative:
    return replace(one, **values)


# Where they are


def _read_place(form: Form, asking: Asking) -> Values:
    del asking
    region, zone = form.text("region").upper(), form.text("timezone").replace(" ", "_")
    if region not in SUPPORTED_REGIONS:
        form.wrong("region", "region")
    if "/" not in zone or zone not in available_timezones():
        form.wrong("timezone", "timezone")
    return {"region": region, "timezone": zone}


def _place(one: Cooperative) -> Values:
    return {"region": one.region, "timezone": one.timezone}


# Hours


HOURS = ("allowed_from", "allowed_to", "routine_at", "night_at")


def _read_hours(form: Form, asking: Asking) -> Values:
    del asking
    hours = {name: form.hour(name) for name in HOURS}
    quiet = _read_quiet(form)
    begins, ends, routine, night = (hours[name] for name in HOURS)
    if begins and ends:
        if not EARLIEST <= begins < ends <= LAST or ends.hour - begins.hour < LEAST_HOURS:
            form.wrong("allowed_from", "allowed", least=LEAST_HOURS, first=_said(EARLIEST),
                       last=_said(LAST))  # fmt: skip
        closes = min(ends, LATEST)
        if routine and not begins <= routine < min(closes, NOON):
            form.wrong("routine_at", "routine", first=_said(begins), last=_said(min(closes, NOON)))
        if night and not max(begins, AFTERNOON) <= night < closes:
            form.wrong("night_at", "night", first=_said(AFTERNOON), last=_said(closes))
        for at in (routine, night):
            if at and not form.faults and _after_quiet(at, quiet) >= closes:
                form.wrong("quiet_from_0", "quiet_long")
    said = {name: _said(hour) if hour else "" for name, hour in hours.items()}
    return {**said, "quiet": quiet}


def _read_quiet(form: Form) -> list[str]:
    """The quiet hours as day.quiet reads them: a day or none, and from when to when."""
    found = []
    for place in range(MOST_QUIET):
        begins, ends = form.text(f"quiet_from_{place}"), form.text(f"quiet_to_{place}")
        if not begins and not ends:
            continue
        from_hour, to_hour = form.hour(f"quiet_from_{place}"), form.hour(f"quiet_to_{place}")
        on = form.text(f"quiet_on_{place}")
        on = form.text(f"quiet_date_{place}") if on == "date" else on
        if from_hour is None or to_hour is None:
            continue
        line = f"{on} {_said(from_hour)}-{_said(to_hour)}".strip()
        try:
            read_intervals([line])
        except ValueError:
            form.wrong(f"quiet_from_{place}", "quiet")
        else:
            found.append(line)
    return found


def _after_quiet(at: time, quiet: Sequence[str]) -> time:
    """When a text of that hour goes on a usual day."""
    daily = [one for one in read_intervals(quiet) if one.weekday is None and one.on is None]
    for one in sorted(daily, key=lambda one: one.begins):
        if one.begins <= at < one.ends:
            at = one.ends
    return at


def _said(hour: time) -> str:
    return f"{hour:%H:%M}"


def _hours(one: Cooperative) -> Values:
    said = {name: _said(getattr(one, name)) for name in HOURS}
    return {**said, "quiet": list(one.quiet)}


def _with_hours(one: Cooperative, values: Values) -> Cooperative:
    begins, ends, routine, night = (time.fromisoformat(values[name]) for name in HOURS)
    return replace(
        one, allowed_from=begins, allowed_to=ends, routine_at=routine, night_at=night,
        quiet=tuple(values["quiet"]),
    )  # fmt: skip


def quiet_parts(line: str) -> tuple[str, str, str]:
    """The day ("" for each, a weekday, a date) and the two hours of a quiet line."""
    *day, hours = line.split()
    begins, ends = hours.split("-")
    return (day[0] if day else ""), begins, ends


WEEKDAYS = DAYS


# What the vet set


def _read_vaccines(form: Form, asking: Asking) -> Values:
    before = {(one.age, one.words): one for one in asking.now.programme}
    vet, on = form.text("vet"), _read_date(form, asking.today)
    rows: dict[int, list[Any]] = {}
    new = False
    for place in range(MOST_VACCINES):
        typed_day, words = form.text(f"day_{place}"), form.text(f"words_{place}")
        if not typed_day and not words:
            continue
        day = form.whole(f"day_{place}", FIRST_DAY, LAST_DAY)
        if not typed_day:
            form.wrong(f"day_{place}", "whole", low=FIRST_DAY, high=LAST_DAY)
        if not 0 < len(words) <= LONGEST_WORDS or not _has_letter(words):
            form.wrong(f"words_{place}", "words", most=LONGEST_WORDS)
        if day is None:
            continue
        age = day - 1
        if age in rows:
            form.wrong(f"day_{place}", "twice", day=day)
        kept = before.get((age, words))
        new = new or kept is None
        rows[age] = [age, words, *((kept.by, kept.on.isoformat()) if kept else (vet, on))]
    if new and not (0 < len(vet) <= LONGEST_VET and _has_letter(vet)):
        form.wrong("vet", "vet", most=LONGEST_VET)
    return {"water_mix": form.text("water_mix") == "yes",
            "programme": [rows[age] for age in sorted(rows)]}  # fmt: skip


def _read_date(form: Form, today: date) -> str:
    """The day on which the vet said so: today where none was put in."""
    typed = form.text("on")
    try:
        found = date.fromisoformat(typed) if typed else today
    except ValueError:
        found = None
    if found is None or found > today:
        form.wrong("on", "date")
        found = today
    return found.isoformat()


def _vaccines(one: Cooperative) -> Values:
    rows = [[row.age, row.words, row.by, row.on.isoformat()] for row in one.programme]
    return {"water_mix": one.water_mix, "programme": rows}


def _with_vaccines(one: Cooperative, values: Values) -> Cooperative:
    rows = (VaccineDay(age, words, by, date.fromisoformat(on))
            for age, words, by, on in values["programme"])  # fmt: skip
    return replace(one, water_mix=values["water_mix"], programme=tuple(rows))


# Nights


def _read_nights(form: Form, asking: Asking) -> Values:
    del asking
    found: list[list[float]] = []
    for month in range(1, MONTHS + 1):
        day = form.number(f"warm_{month}", COLDEST_C, HOTTEST_C, "degrees")
        night = form.number(f"cold_{month}", COLDEST_C, HOTTEST_C, "degrees")
        if day is None or night is None:
            continue
        if not night <= day <= night + MOST_SWING_C:
            form.wrong(f"cold_{month}", "swing", most=MOST_SWING_C)
        found.append([day, night])
    if found and len(found) < MONTHS and not form.faults:
        form.wrong("warm_1", "all_months")
    typed = any(form.text(f"{side}_{month}") for side in ("warm", "cold")
                for month in range(1, MONTHS + 1))  # fmt: skip
    if typed and not found and not form.faults:
        form.wrong("warm_1", "all_months")
    return {"normals": found}


def _nights(one: Cooperative) -> Values:
    return {"normals": [list(pair) for pair in one.normals]}


def _with_nights(one: Cooperative, values: Values) -> Cooperative:
    return replace(one, normals=tuple((day, night) for day, night in values["normals"]))


# Money


def _read_prices(form: Form, asking: Asking) -> Values:
    del asking
    found = {name: form.number(name, 0.01, MOST_MONEY, "price") for name in PRICES}
    return {"prices": {name: price for name, price in found.items() if price is not None}}


def _prices(one: Cooperative) -> Values:
    return {"prices": {name: price for name, price in one.prices.items() if name != PART}}


def _with_prices(one: Cooperative, values: Values) -> Cooperative:
    part = {PART: one.prices[PART]} if PART in one.prices else {}
    return replace(one, prices={**values["prices"], **part})


# Limits


def _read_limits(form: Form, asking: Asking) -> Values:
    limits = {}
    for name in OWN_LIMITS:
        most = form.whole(name, LEAST_ANSWERS, getattr(asking.house, name))
        if most is not None:
            limits[name] = most
    second = form.whole("second_from", 1, MOST_SECOND)
    if not form.text("second_from"):
        form.wrong("second_from", "whole", low=1, high=MOST_SECOND)
    return {
        "budget": form.whole("budget", 1, MOST_PARTS),
        PART: form.number(PART, 0.0001, MOST_MONEY, "price"),
        "second_from": second,
        "limits": limits,
    }


def _limits(one: Cooperative) -> Values:
    return {"budget": one.budget, PART: one.prices.get(PART), "second_from": one.second_from,
            "limits": dict(one.limits)}  # fmt: skip


def _with_limits(one: Cooperative, values: Values) -> Cooperative:
    others = {name: price for name, price in one.prices.items() if name != PART}
    part = {} if values[PART] is None else {PART: values[PART]}
    return replace(
        one, budget=values["budget"], prices={**others, **part},
        second_from=values["second_from"], limits=values["limits"],
    )  # fmt: skip


# A form as it is filled in for values that are known


def fields_of(group: str, values: Values) -> dict[str, str]:
    """What stands in the inputs of a form for these values."""
    if group == "nights":
        pairs = enumerate(values["normals"], start=1)
        return {f"{side}_{month}": _typed(value) for month, pair in pairs
                for side, value in zip(("warm", "cold"), pair, strict=True)}  # fmt: skip
    if group == "vaccines":
        return _vaccine_fields(values)
    plain_ones = {name: value for name, value in values.items() if not isinstance(value, list)}
    flat = {**plain_ones, **values.get("prices", {}), **values.get("limits", {})}
    found = {name: _typed(value) for name, value in flat.items() if not isinstance(value, dict)}
    for place, line in enumerate(values.get("quiet", ())):
        day, begins, ends = quiet_parts(line)
        dated = bool(day) and day not in WEEKDAYS
        found |= {f"quiet_on_{place}": "date" if dated else day,
                  f"quiet_date_{place}": day if dated else "",
                  f"quiet_from_{place}": begins, f"quiet_to_{place}": ends}  # fmt: skip
    return found


def _vaccine_fields(values: Values) -> dict[str, str]:
    found = {"water_mix": "yes" if values["water_mix"] else "no"}
    for place, (age, words, *_) in enumerate(values["programme"]):
        found |= {f"day_{place}": str(age + 1), f"words_{place}": words}
    return found


def _typed(value: object) -> str:
    if value is None:
        return ""
    return f"{value:.10g}" if isinstance(value, int | float) else str(value)


_READ: Mapping[str, Callable[[Form, Asking], Values]] = {
    "names": _read_names,
    "place": _read_place,
    "hours": _read_hours,
    "vaccines": _read_vaccines,
    "nights": _read_nights,
    "prices": _read_prices,
    "limits": _read_limits,
}
_VALUES: Mapping[str, Callable[[Cooperative], Values]] = {
    "names": _names,
    "place": _place,
    "hours": _hours,
    "vaccines": _vaccines,
    "nights": _nights,
    "prices": _prices,
    "limits": _limits,
}
_WITH: Mapping[str, Callable[[Cooperative, Values], Cooperative]] = {
    "names": _with_columns,
    "place": _with_columns,
    "hours": _with_hours,
    "vaccines": _with_vaccines,
    "nights": _with_nights,
    "prices": _with_prices,
    "limits": _with_limits,
}

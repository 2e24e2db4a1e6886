"""A cooperative's rules in words: a line for each thing that is set. In: the values of a group, the
words of the desk. Out: (what, how it is set). Called by the page "Our rules"."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date

from bot.cooperative.many import PART
from bot.cooperative.rules import PRICES, Values, quiet_parts
from bot.doors.desk.frame import Words
from bot.facts.limits import OWN_LIMITS, Limits

Lines = list[tuple[str, str]]


def lines_of(
    group: str, values: Values, w: Words, languages: Mapping[str, str], house: Limits
) -> Lines:
    """The rules of a group. languages: their own names. house: the limits of the service."""
    if group == "names":
        named = {**values, "language": languages.get(values["language"], values["language"])}
        return _each(named, w)
    if group == "limits":
        return _limits(values, w, house)
    return _OF[group](values, w)


def label_of(field: str, w: Words) -> str:
    """What an input is called, with its row where there are several."""
    name, _, place = field.rpartition("_")
    if not place.isdecimal():
        return w(f"rules.field.{field}") if field else ""
    if name in ("warm", "cold"):
        return f"{w(f'rules.field.{name}')}, {w('frame.months').split()[int(place) - 1]}"
    return f"{w(f'rules.field.{name}')} ({int(place) + 1})"


def _each(values: Values, w: Words) -> Lines:
    return [(w(f"rules.field.{name}"), str(value or w("rules.none"))) for name, value
            in values.items()]  # fmt: skip


def _hours(values: Values, w: Words) -> Lines:
    hours = {name: value for name, value in values.items() if name != "quiet"}
    quiet = "; ".join(_quiet(line, w) for line in values["quiet"])
    return [*_each(hours, w), (w("rules.quiet"), quiet or w("rules.none"))]


def _quiet(line: str, w: Words) -> str:
    day, begins, ends = quiet_parts(line)
    return f"{w.named('rules.weekday', day or 'each')} {begins}-{ends}"


def _vaccines(values: Values, w: Words) -> Lines:
    mix = w("frame.yes") if values["water_mix"] else w("frame.no")
    rows = [
        (w("rules.day", n=age + 1), w("rules.set_by", words=words, by=by, on=_date(on, w)))
        for age, words, by, on in values["programme"]
    ]
    none = [] if rows else [(w("rules.programme"), w("rules.no_programme"))]
    return [(w("rules.field.water_mix"), mix), *rows, *none]


def _date(said: str, w: Words) -> str:
    one = date.fromisoformat(said)
    return f"{one.day} {w('frame.months').split()[one.month - 1]} {one.year}"


def _nights(values: Values, w: Words) -> Lines:
    months = w("frame.months").split()
    pairs = zip(months, values["normals"], strict=False)
    found = [(month, w("rules.warm_cold", warm=f"{day:g}", cold=f"{night:g}"))
             for month, (day, night) in pairs]  # fmt: skip
    return found or [(w("rules.all_months"), w("rules.no_nights"))]


def _prices(values: Values, w: Words) -> Lines:
    return _each({name: _money(values["prices"].get(name)) for name in PRICES}, w)


def _money(value: float | None) -> str:
    return "" if value is None else f"{value:.10g}"


def _limits(values: Values, w: Words, house: Limits) -> Lines:
    budget = values["budget"] or w("rules.no_budget")
    money = {"budget": budget, PART: _money(values[PART])}
    own = {
        name: str(values["limits"].get(name) or w("rules.as_service", n=getattr(house, name)))
        for name in OWN_LIMITS
    }
    return _each({**money, "second_from": values["second_from"], **own}, w)


_OF: Mapping[str, Callable[[Values, Words], Lines]] = {
    "place": _each,
    "hours": _hours,
    "vaccines": _vaccines,
    "nights": _nights,
    "prices": _prices,
}

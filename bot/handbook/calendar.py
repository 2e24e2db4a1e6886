"""Loads content/calendar/ into a `Calendar`, strictly: an unknown key, text, figure or source, a
row that expires before it begins or a question without its digits is refused, file and key named.

In: the content folder, the texts and the husbandry figures. Out: `Calendar`. Called by
`handbook.load`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from bot.errors import HandbookError
from bot.handbook.shape_calendar import (
    HEATS,
    NIGHTS,
    SLOTS,
    TONIGHT,
    VACCINE,
    WARNINGS,
    Ask,
    Calendar,
    Pace,
    Row,
    When,
)
from bot.handbook.shape_husbandry import Husbandry
from bot.handbook.shape_texts import Texts, TextShape
from bot.handbook.strict import Section, read_section

ROW_FILES = ("preparation", "arrival", "brooding", "growing", "night", "rest")
FIRST_AGE = -28
LAST_AGE = 56  # later the daily texts end by themselves
# What `bot.day.figures` can count for a batch, and so what a row may ask for.
FIGURES = (
    "age",
    "days",
    "target",
    "area",
    "burner",
    "burners",
    "stove",
    "n",
    "alive",
    "feeders",
    "drinkers",
    "kg",
    "starter_kg",
    "litres",
    "sample",
    "hour",
    "dark",
    "name",
    "count",
    "brooder",
    "cold",
    "look",
    "before",
    "degrees",
    "hot",
    "bags",
    "litter_bags",
    "programme",
)
FEATHERED = ("yes", "no", "unknown")


def load_calendar(content: Path, book: Husbandry, texts: Texts) -> Calendar:
    """The calendar of content/calendar/. Raises HandbookError naming the file and the key."""
    folder = content / "calendar"
    acts, against, advised = _opposites(read_section(folder / "opposites.yaml"))
    rows: list[Row] = []
    for file in ROW_FILES:
        section = read_section(folder / f"{file}.yaml")
        for key in section.keys():
            if any(row.id == key for row in rows):
                section.refuse(key, "stands in another file of the calendar already")
            rows.append(_row(key, section.section(key), texts, book, acts))
        section.done()
    asking = read_section(folder / "questions.yaml")
    pace = _pace(asking.section("pace"), book)
    listed = asking.section("questions")
    asks = [_ask(key, listed.section(key), texts, book) for key in listed.keys()]
    _check_after(folder, rows, asks)
    asking.done()
    return Calendar(
        rows={slot: _rows_by_age(row for row in rows if row.slot == slot) for slot in SLOTS},
        asks=_asks_by_age(asks),
        all_rows=tuple(rows),
        all_asks=tuple(asks),
        sizes={key: shape.budget for key, shape in texts.shapes.items() if shape.file == "daily"},
        pace=pace,
        first_age=FIRST_AGE,
        last_age=LAST_AGE,
        book=book,
        against=against,
        advised=advised,
        vaccines=_vaccines(read_section(folder / "vaccines.yaml"), book),
    )


def _opposites(
    section: Section,
) -> tuple[tuple[str, ...], tuple[tuple[str, str], ...], Mapping[str, tuple[str, ...]]]:
    """The acts that rows may name, the pairs of them that contradict each other, and those that
    the advice on a trouble names."""
    acts = section.texts("acts")
    pairs: list[tuple[str, str]] = []
    for pair in section.rows("against"):
        if not isinstance(pair, list) or len(pair) != 2 or not set(pair) <= set(acts):
            section.refuse("against", f"{pair!r} is no pair of acts")
        pairs.append((str(pair[0]), str(pair[1])))
    told = section.section("advised")
    advised = {trouble: _all_of(told, trouble, acts) for trouble in told.keys()}
    told.done()
    section.done()
    return acts, tuple(pairs), advised


def _vaccines(section: Section, book: Husbandry) -> tuple[int, ...]:
    _sources(section, book)
    ages = tuple(int(age) for age in section.numbers("ages"))
    section.done()
    if any(not 0 <= age <= LAST_AGE for age in ages):
        section.refuse("ages", f"a vaccine is given between ages 0 and {LAST_AGE}")
    return ages


def load_meetings(content: Path) -> Mapping[str, tuple[str, ...]]:
    """The rehearsed days on which essential rows meet: "kind of farm" -> "age: row, row"."""
    section = read_section(content / "calendar" / "meetings.yaml")
    return {key: section.texts(key) for key in section.keys()}


def _check_after(folder: Path, rows: Sequence[Row], asks: Sequence[Ask]) -> None:
    known = {row.id for row in rows}
    listed: tuple[Row | Ask, ...] = (*rows, *asks)
    for one in listed:
        if one.after is not None and one.after not in known:
            raise HandbookError(folder.name, one.id, f"comes after {one.after!r}, which is no row")


def _row(key: str, section: Section, texts: Texts, book: Husbandry, acts: tuple[str, ...]) -> Row:
    text = section.text("text", key)
    shape = _shape(section, text, texts)
    first = section.whole("from")
    last = section.whole("until", first)
    every = section.whole("every") if section.has("every") else None
    row = Row(
        id=key,
        slot=_one_of(section, "slot", SLOTS),
        first=first,
        last=last,
        expires=section.whole("expires", last),
        every=every,
        window=section.whole("window", every or 1),
        after=section.text("after") if section.has("after") else None,
        priority=section.whole("priority"),
        essential=section.flag("essential", False),
        text=text,
        size=shape.budget,
        fire=shape.fire,
        figures=_figures(section, shape),
        when=_when(section.optional_section("when")),
        does=_all_of(section, "does", acts),
        source=_sources(section, book),
        by=section.whole("by") if section.has("by") else None,
    )
    section.done()
    if row.by is not None and not row.first <= row.by <= row.expires < 0:
        section.refuse("by", "a step is done between from and expires, before they come")
    if not FIRST_AGE <= row.first <= row.last <= row.expires <= LAST_AGE:
        section.refuse("expires", "ages must rise: from, until, expires, -28 to 56")
    if every is not None and every < 1:
        section.refuse("every", "must be a day or more")
    return row


def _ask(key: str, section: Section, texts: Texts, book: Husbandry) -> Ask:
    shape = _shape(section, section.text("text"), texts)
    kind = _one_of(section, "kind", ("menu", "number"))
    ask = Ask(
        id=key,
        name=section.text("name", key),
        kind="menu" if kind == "menu" else "number",
        prompt=section.text("prompt"),
        first=section.whole("from"),
        last=section.whole("until"),
        every=section.whole("every", 1),
        window=section.whole("window") if section.has("window") else None,
        times=section.whole("times", 99),
        priority=section.whole("priority"),
        text=shape.key,
        size=shape.budget,
        options=section.texts("options", ()),
        low=section.number("low") if section.has("low") else None,
        high=section.number("high") if section.has("high") else None,
        after=section.text("after") if section.has("after") else None,
        figures=_figures(section, shape),
        when=_when(section.optional_section("when")),
        source=_sources(section, book),
    )
    section.done()
    if ask.kind == "menu" and not 2 <= len(ask.options) <= 7:
        section.refuse("options", "a menu takes 2 to 7; 8 and 9 are kept for call me and not me")
    if ask.kind == "number" and (ask.options or ask.low is None):
        section.refuse("low", "a number takes its least value, and no options")
    return ask


def _pace(section: Section, book: Husbandry) -> Pace:
    _sources(section, book)
    pace = Pace(
        section.whole("early_last"),
        section.whole("early_gap"),
        section.whole("late_gap"),
        section.whole("always"),
    )
    section.done()
    return pace


def _when(section: Section) -> When:
    when = When(
        heat=_all_of(section, "heat", HEATS),
        nights=_all_of(section, "nights", NIGHTS),
        feathered=_all_of(section, "feathered", FEATHERED),
        ready=_maybe(section, "ready"),
        thermometer=_maybe(section, "thermometer"),
        held=_maybe(section, "held"),
        may_sell=_maybe(section, "may_sell"),
        last_wait_day=_maybe(section, "last_wait_day"),
        wait_unknown=_maybe(section, "wait_unknown"),
        hot=_maybe(section, "hot"),
        awaited=_maybe(section, "awaited"),
        weighed=_maybe(section, "weighed"),
        mix=_maybe(section, "mix"),
        several=_maybe(section, "several"),
        silent=_maybe(section, "silent"),
        well=section.texts("well", ()),
        troubled=section.texts("troubled", ()),
        moved=_maybe(section, "moved"),
        tonight=_all_of(section, "tonight", TONIGHT),
        warned=_all_of(section, "warned", WARNINGS),
        vaccine=_all_of(section, "vaccine", VACCINE),
    )
    section.done()
    return when


def _shape(section: Section, text: str, texts: Texts) -> TextShape:
    shape = texts.shapes.get(text)
    if shape is None or shape.file != "daily":
        section.refuse("text", f"{text!r} is not listed in texts/daily.yaml")
    return shape


def _figures(section: Section, shape: TextShape) -> tuple[str, ...]:
    named = tuple(shape.values)
    for name in named:
        if name not in FIGURES:
            section.refuse("text", f"nobody counts the figure {name!r} of {shape.key}")
    return named


def _sources(section: Section, book: Husbandry) -> tuple[str, ...]:
    found = section.texts("source")
    for one in found:
        if one not in book.sources:
            section.refuse("source", f"{one!r} is not listed in sources.yaml")
    return found


def _maybe(section: Section, key: str) -> bool | None:
    return section.flag(key) if section.has(key) else None


def _one_of(section: Section, key: str, known: Sequence[str]) -> str:
    value = section.text(key)
    if value not in known:
        section.refuse(key, f"{value!r} is none of {', '.join(known)}")
    return value


def _all_of(section: Section, key: str, known: Sequence[str]) -> tuple[str, ...]:
    found = section.texts(key, ())
    for one in found:
        if one not in known:
            section.refuse(key, f"{one!r} is none of {', '.join(known)}")
    return found


def _rows_by_age(rows: Iterable[Row]) -> Mapping[int, tuple[Row, ...]]:
    found: dict[int, list[Row]] = defaultdict(list)
    for row in sorted(rows, key=lambda one: (not one.essential, one.priority, one.first, one.id)):
        for age in range(row.first, (row.expires if row.once else row.last) + 1):
            found[age].append(row)
    return {age: tuple(listed) for age, listed in found.items()}


def _asks_by_age(asks: Iterable[Ask]) -> Mapping[int, tuple[Ask, ...]]:
    found: dict[int, list[Ask]] = defaultdict(list)
    for ask in sorted(asks, key=lambda one: (one.priority, one.first)):
        for age in range(ask.first, ask.last + 1):
            found[age].append(ask)
    return {age: tuple(listed) for age, listed in found.items()}

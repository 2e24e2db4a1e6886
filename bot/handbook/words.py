"""Loads what the reader knows of each language. In: the content folder. Out: `Words`.

Reads language.yaml, words.yaml, wanted.yaml, signs.yaml and replies.yaml of every folder under
content/languages; the format, and what a folder may leave out, is told in
content/languages/README.md. Strict: a missing, unknown or doubled key is refused with
HandbookError(file, key, why). Called by `handbook.load`, the tests and the proof; `understand`
compiles the result once into a `Reader`.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from itertools import product
from pathlib import Path

from bot.errors import HandbookError
from bot.handbook.shape_words import (
    Days,
    Denial,
    Example,
    Language,
    NumberWords,
    SignPatterns,
    Words,
)
from bot.handbook.strict import Section, content_name, read_section, read_yaml

UNITS = (
    "celsius",
    "fahrenheit",
    "percent",
    "kg",
    "gram",
    "tonne",
    "bag",
    "litre",
    "millilitre",
    "jerrycan",
    "bucket",
    "metre",
    "foot",
    "pace",
    "square_metre",
    "square_foot",
    "money",
)
ANSWERS = (
    "yes",
    "no",
    "unsure",
    "done",
    "not_yet",
    "better",
    "same",
    "worse",
    "more",
    "in_all",
    "dry",
    "wet",
    "caked",
    "smells",
    "warm",
    "cool",
    "cold",
)
GRAMMAR = (
    "lacks",
    "gone",
    "past",
    "now",
    "if",
    "others",
    "many",
    "few",
    "plural",
    "question",
    "clause",
    "and",
    "polite",
    "pronouns",
    "since",
    "until",
    "whole",
    "still",
    "out_of",
    "joins",
    "me",
    "asks",
    "sum",
    "outside",
    "sees",
    "auxiliary",
    "date",
    "article",
    "future",
    "subject",
    "carries",
    "maybe_if",
    "thought",
    "earlier",
)
COUNTING = (
    "came_to",
    "counted_word",
    "bodies",
    "warmth",
    "in_there",
    "added",
    "put_right",
    "picked",
    "day_before",
    "beside_time",
    "this",
    "time_of_year",
    "bygone",
    "only",
    "even",
    "so_far",
    "within",
    "shows",
    "how_can",
    "since",
    "like",
    "that_was",
    "nobody",
    "gone",
    "already",
    "are",
    "at_price",
    "all",
    "wanting",
    "doing",
    "sized",
    "again",
    "begun",
    "relative",
    "misdialled",
    "mourned",
    "living",
    "will_keep",
    "if_able",
    "far_ahead",
)
LITTLE = (
    "after",
    "all_of_it",
    "and_half",
    "around_day",
    "as_if",
    "behind_degrees",
    "beside_answer",
    "between_unit",
    "by",
    "carries_birds",
    "day_article",
    "day_of_life",
    "each_of",
    "either",
    "either_closing",
    "feared",
    "figure_follows",
    "first_day",
    "four_is_for_behind",
    "four_is_for_whom",
    "from_figure",
    "half_of",
    "held",
    "how",
    "how_many",
    "hundred_or_without",
    "instead",
    "is",
    "joins_age",
    "label",
    "likens",
    "links",
    "not_before",
    "of_a_house",
    "of_a_size",
    "of_class",
    "of_day",
    "of_half",
    "one_dead",
    "partitive",
    "per",
    "places",
    "point",
    "priced_at",
    "product_for",
    "product_name",
    "rises",
    "thats",
    "the_day",
    "the_or_is",
    "this_day",
    "times_a_size",
    "to_do",
    "towards",
    "two_is_to_behind",
    "up_to",
    "where",
    "which",
)
TOLD_OF = ("others", "earlier", "no_birds", "compared", "here_too", "teller")
EXAMPLE_CONTEXT: Mapping[str, object] = {  # what an example leaves out
    "has_batch": True,
    "age_days": 5,
    "count": 300,
    "last_prompt": None,
    "today": "2026-03-04",  # a Wednesday
}
SPEAKING = ("falls_back_to", "one_below")  # keys of language.yaml that handbook.texts reads
VERB_KINDS = ("plain", "negative", "past", "if", "mine", "noun", "future", "bare")


def load_words(content: Path) -> Words:
    """Every language folder. Raises HandbookError naming the file and the key."""
    root = read_section(content / "signs.yaml").section("signs")
    rows = {name: root.section(name) for name in root.keys()}
    signs = tuple(rows)
    danger = frozenset(name for name, row in rows.items() if row.number("danger") >= 3)
    folders = sorted(path for path in (content / "languages").iterdir() if path.is_dir())
    return Words(tuple(_language(folder, signs, danger) for folder in folders), signs, danger)


def load_examples(folder: Path) -> tuple[Example, ...]:
    """The examples of one language folder. Raises HandbookError naming the place."""
    path = folder / "examples.yaml"
    holder = Section({"examples": read_yaml(path)}, content_name(path))
    return tuple(_example(row, folder.name) for row in holder.sections("examples"))


def load_collected(folder: Path) -> tuple[Example, ...]:
    """The texts of many hands that the reader learns from beside the examples: collected.jsonl of a
    language folder, one object a line; none where there is no such file."""
    path = folder / "collected.jsonl"
    if not path.is_file():
        return ()
    name, lines = content_name(path), path.read_text(encoding="utf-8").splitlines()
    rows = (Section(_object(line, name, at), name) for at, line in enumerate(lines, 1))
    return tuple(_example(row, folder.name) for row in rows)


def _object(line: str, name: str, at: int) -> dict[str, object]:
    try:
        found = json.loads(line)
    except ValueError:
        found = None
    if not isinstance(found, dict):
        raise HandbookError(name, f"line {at}", "is no JSON object")
    return found


def _example(row: Section, language: str) -> Example:
    slots, context = row.optional_section("slots"), row.optional_section("context")
    example = Example(
        language=language,
        text=row.text("text"),
        intent=row.text("intent"),
        also=row.texts("also", ()),
        slots={key: slots.take(key) for key in slots.keys()},
        signals=row.texts("signals", ()),
        not_signals=row.texts("not_signals", ()),
        cause=row.texts("cause", ()),
        red_flag=row.flag("red_flag", False),
        unread=row.flag("unread", False),
        context={**EXAMPLE_CONTEXT, **{key: context.take(key) for key in context.keys()}},
    )
    row.done()
    return example


def _language(folder: Path, signs: tuple[str, ...], danger: frozenset[str]) -> Language:
    grammar = read_section(folder / "language.yaml")
    words = read_section(folder / "words.yaml")
    figures = folder / "wanted.yaml"
    wanted = read_yaml(figures) if figures.is_file() else {}
    verbs = _named(grammar.optional_section("verbs"), VERB_KINDS, may_lack=True)
    for key in SPEAKING:
        if grammar.has(key):
            grammar.take(key)
    language = Language(
        code=folder.name,
        name=grammar.text("name"),
        own_name=grammar.text("own_name"),
        days=_days(grammar),
        numbers=_numbers(grammar.section("numbers")),
        units=_named(grammar.optional_section("units"), UNITS, may_lack=True),
        answers=_named(grammar.section("answers"), ANSWERS),
        stop=grammar.texts("stop"),
        stop_with=grammar.texts("stop_with", ()),
        told_of=_named(grammar.optional_section("told_of"), TOLD_OF, may_lack=True),
        start=grammar.texts("start"),
        help=grammar.texts("help"),
        denial=_denial(grammar),
        grammar={key: grammar.texts(key, ()) for key in GRAMMAR},
        little=_named(grammar.optional_section("little"), LITTLE, may_lack=True),
        counting=_named(grammar.optional_section("counting"), COUNTING, may_lack=True),
        verbs={kind: _spelt_out(forms) for kind, forms in verbs.items()},
        classes=_lists(words.section("classes")),
        intents=_lists(words.optional_section("intents")),
        topics=_lists(words.optional_section("topics")),
        figures=_lists(Section(wanted, content_name(figures), "figures")),
        heats=_lists(words.optional_section("heats")),
        languages=_lists(words.optional_section("languages")),
        common=words.texts("common", ()),
        harmless=words.texts("harmless", ()),
        signs=_signs(read_section(folder / "signs.yaml"), signs, danger),
        sounds=_sounds(grammar),
        elisions=grammar.texts("elisions", ()),
        replies=_replies(folder / "replies.yaml"),
    )
    grammar.done()
    words.done()
    return language


def _replies(path: Path) -> dict[str, dict[str, tuple[str, ...]]]:
    """How each option of a question may be said; nothing where the folder has no such file."""
    if not path.is_file():
        return {}
    questions = read_section(path)
    return {name: _lists(questions.section(name)) for name in questions.keys()}


def _sounds(grammar: Section) -> tuple[tuple[str, str], ...]:
    rules = []
    for rule in grammar.texts("sounds", ()):
        pattern, sign, put = (part.strip() for part in rule.rpartition(">"))
        try:
            re.compile(pattern)
        except re.error as error:
            grammar.refuse("sounds", f"{rule!r}: {error}")
        if not sign or not pattern:
            grammar.refuse("sounds", f"{rule!r} must be: spelling > sound")
        rules.append((pattern, put))
    return tuple(rules)


def _spelt_out(forms: Iterable[str]) -> tuple[str, ...]:
    """Verb prefixes, those written in parts joined: "wa|a+na|me" is wana, wame, ana, ame."""
    parts = ((part.strip().split("|") for part in form.split("+")) for form in forms)
    return tuple(dict.fromkeys("".join(one) for each in parts for one in product(*each)))


def _days(section: Section) -> Days:
    relative = section.section("relative_days")
    return Days(
        months=_twelve(section, "months", 12),
        weekdays=_twelve(section, "weekdays", 7),
        relative={_whole(relative, key): relative.texts(key) for key in relative.keys()},
        in_days=section.texts("in_days", ()),
        ago=section.texts("days_ago", ()),
        day_words=section.texts("day_words"),
        week_words=section.texts("week_words"),
    )


def _numbers(section: Section) -> NumberWords:
    words, dozen = section.section("words"), section.optional_section("dozen")
    numbers = NumberWords(
        values={_whole(words, key): words.texts(key) for key in words.keys()},
        joiners=section.texts("joiners", ()),
        multiplier_first=section.flag("multiplier_first", False),
        half=section.texts("half", ()),
        dozen={_amount(dozen, key): dozen.texts(key) for key in dozen.keys()},
        never=section.texts("never", ()),
    )
    section.done()
    return numbers


def _denial(grammar: Section) -> Denial:
    section = grammar.section("negation")
    denial = Denial(
        before=section.texts("before"),
        after=section.texts("after", ()),
        reach=section.whole("reach", 4),
        no_denial=section.texts("not_negation", ()),
    )
    section.done()
    return denial


def _signs(
    section: Section, signs: tuple[str, ...], danger: frozenset[str]
) -> dict[str, SignPatterns]:
    """The patterns of each sign; one that is no danger may be left to the shared patterns."""
    found: dict[str, SignPatterns] = {}
    for name in signs:
        row = section.section(name) if name in danger else section.optional_section(name)
        found[name] = SignPatterns(row.texts("yes", ()), row.texts("no", ()))
        row.done()
    section.done()
    return found


def _named(
    section: Section, keys: tuple[str, ...], *, may_lack: bool = False
) -> dict[str, tuple[str, ...]]:
    found = {key: section.texts(key, () if may_lack else None) for key in keys}
    section.done()
    return found


def _lists(section: Section) -> dict[str, tuple[str, ...]]:
    return {key: section.texts(key) for key in section.keys()}


def _twelve(section: Section, key: str, length: int) -> tuple[tuple[str, ...], ...]:
    rows = section.rows(key)
    if len(rows) != length or not all(isinstance(row, list) for row in rows):
        section.refuse(key, f"must be {length} lists of words")
    return tuple(tuple(str(word) for word in row) for row in rows if isinstance(row, list))


def _whole(section: Section, key: str) -> int:
    try:
        return int(key)
    except ValueError:
        section.refuse(key, "must be a whole number in quotes")


def _amount(section: Section, key: str) -> float:
    try:
        return float(key)
    except ValueError:
        section.refuse(key, "must be a number in quotes")

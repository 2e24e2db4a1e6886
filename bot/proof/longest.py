"""The longest that a text can become. In: a text's shape, a language. Out: its wordings as written,
and each filled with the longest realistic value of every placeholder. Called by lengths and keys.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from string import Formatter

from bot.handbook.shape_texts import Texts, TextShape, Tongue, Wording
from bot.say.segments import measure

LONGEST_DAY = "28"  # of the month
SINGULAR = "1"


def forms(wording: Wording) -> Iterator[tuple[str, str]]:
    """Each form of a wording with the name of its plural category, "" where there is only one."""
    if isinstance(wording, str):
        yield "", wording
    else:
        yield from wording.items()


def placeholders(form: str) -> tuple[str, ...]:
    """The names in braces in order; ValueError where braces hold more than a name or gape."""
    found = []
    for _, name, spec, conversion in Formatter().parse(form):
        if name is None:
            continue
        if spec or conversion or not name.isidentifier():
            raise ValueError(f"{{{name}}} must hold a name and nothing else")
        found.append(name)
    return tuple(found)


def at_longest(shape: TextShape, tongue: Tongue, texts: Texts) -> Iterator[tuple[str, str]]:
    """Each form of this text with every placeholder at its longest realistic value."""
    for category, form in forms(tongue.wordings[shape.key]):
        values = {name: longest(kind, tongue, texts) for name, kind in shape.values.items()}
        if category == "one":
            values["n"] = SINGULAR
        yield category, form.format_map(values)


def longest(kind: str, tongue: Tongue, texts: Texts) -> str:
    """The longest realistic value of a type of roles.yaml, in this language."""
    if kind.startswith("word:"):
        return _longest(tongue.terms[kind.removeprefix("word:")])
    sample = texts.types[kind]
    if sample == "vet":
        words = tongue.terms["vet"]
        return _longest(
            {code: one.format(number=texts.types["phone"]) for code, one in words.items()}
        )
    if sample == "languages":
        return texts.choices
    if sample == "date":
        named = f"{_longest(tongue.terms['weekday'])} {LONGEST_DAY}"
        dated = f"{LONGEST_DAY} {_longest(tongue.terms['month'])}"
        return max(named, dated, key=len)
    return sample


def _longest(words: Mapping[str, str]) -> str:
    return max(words.values(), key=lambda one: measure(one).units)

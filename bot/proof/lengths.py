"""Every outgoing text is plain ASCII and fits its role at the longest realistic values.
In: Texts. Out: faults. Called by proofread. Whole days are laid out in days.py."""

from __future__ import annotations

from collections.abc import Iterator

from bot.handbook.shape_texts import Texts, TextShape, Tongue
from bot.proof.fault import Fault
from bot.proof.longest import at_longest, forms
from bot.say.plain import plain
from bot.say.segments import measure

SIGNER = 12  # with its colon
ONE_PART = 160
# What may stand in one text, one space between; the budgets of the roles must allow it.
TOGETHER = (
    ("signer", "pushed"),
    ("signer", "named", "night"),
    ("signer", "day", "sign", "task", "ask"),
    ("signer", "day", "sign", "half", "half", "ask"),
    ("signer", "day", "sign", "job_long"),
    ("signer", "day", "sign", "menu", "help"),
    ("signer", "before", "task", "ask"),
    ("signer", "named", "task", "ask"),
    ("ack", "action"),
    ("ack", "question"),
    ("action", "after"),
    ("action", "short_question"),
)


def check_lengths(texts: Texts) -> Iterator[Fault]:
    """Texts that are too long or not plain; roles whose budgets do not fit beside each other."""
    yield from _roles(texts)
    for tongue in texts.tongues.values():
        yield from _terms(tongue)
        for shape in texts.shapes.values():
            if shape.key in tongue.wordings:
                yield from _text(shape, tongue, texts)


def _roles(texts: Texts) -> Iterator[Fault]:
    sizes = {**texts.roles, "signer": SIGNER}
    for names in TOGETHER:
        if all(name in sizes for name in names):
            total = sum(sizes[name] for name in names) + len(names) - 1
            if total > ONE_PART:
                why = f"together they may take {total} septets; a part holds {ONE_PART}"
                yield Fault("texts/roles.yaml", " + ".join(names), why)


def _terms(tongue: Tongue) -> Iterator[Fault]:
    yield from _plain(f"languages/{tongue.code}/language.yaml", "own_name", tongue.own_name)
    for name, words in tongue.terms.items():
        for code, word in words.items():
            yield from _plain(f"languages/{tongue.code}/terms.yaml", f"{name}.{code}", word)


def _text(shape: TextShape, tongue: Tongue, texts: Texts) -> Iterator[Fault]:
    file = f"languages/{tongue.code}/{shape.file}.yaml"
    for category, form in forms(tongue.wordings[shape.key]):
        yield from _plain(file, f"{shape.key}.{category}" if category else shape.key, form)
    for category, text, units in too_long(shape, tongue, texts):
        place = f"{shape.key}.{category}" if category else shape.key
        why = f"takes {units} septets at its longest; {shape.role} may take {shape.budget}"
        yield Fault(file, place, f"{why}: {text}")


def too_long(shape: TextShape, tongue: Tongue, texts: Texts) -> Iterator[tuple[str, str, int]]:
    """The forms of a text that are longer than it may be, at the longest values: its category, the
    text, its septets."""
    try:
        longest = list(at_longest(shape, tongue, texts))
    except (KeyError, ValueError, IndexError, AttributeError):
        return  # a placeholder or a list is wrong: keys.py names it
    for category, text in longest:
        units = measure(plain(text)).units
        if units > shape.budget:
            yield category, text, units


def _plain(file: str, key: str, text: str) -> Iterator[Fault]:
    strange = sorted({letter for letter in text if not (letter.isascii() and letter.isprintable())})
    if strange:
        yield Fault(file, key, f"holds {', '.join(map(repr, strange))}; only plain ASCII is sent")
    elif plain(_unbraced(text)) != _unbraced(text):
        yield Fault(file, key, "holds a letter that costs two septets or is not on every phone")


def _unbraced(text: str) -> str:
    return text.replace("{", "").replace("}", "")

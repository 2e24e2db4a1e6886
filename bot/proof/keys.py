"""Every text stands in every language, with the same placeholders; every list of words too. What a
language leaves to the one it falls back to is no fault, but is told.
In: Texts. Out: faults. Called by proofread and the command line."""

from __future__ import annotations

from collections.abc import Iterator

from bot.handbook.shape_texts import Texts, TextShape, Tongue
from bot.handbook.texts import FILES
from bot.proof.fault import Fault
from bot.proof.longest import forms, placeholders


def check_keys(texts: Texts) -> Iterator[Fault]:
    """Missing wordings, placeholders that differ, lists of words that differ or are missing."""
    for tongue in texts.tongues.values():
        for shape in texts.shapes.values():
            file = f"languages/{tongue.code}/{shape.file}.yaml"
            if shape.key in tongue.wordings:
                yield from _placed(shape, tongue, file)
                if shape.must:
                    yield from _unsaid(shape, tongue)
            elif shape.must or tongue.falls_back_to is None:
                yield Fault(file, shape.key, "is missing in this language")
    yield from _lists(texts)


def unworded(texts: Texts) -> Iterator[tuple[Tongue, str, tuple[str, ...]]]:
    """What a language leaves to the one it falls back to: the tongue, the file, the keys."""
    for tongue in texts.tongues.values():
        if tongue.falls_back_to is None:
            continue
        left = [shape for shape in texts.shapes.values() if not tongue.can_say(shape)]
        for file in FILES:
            keys = tuple(shape.key for shape in left if shape.file == file)
            if keys:
                yield tongue, f"languages/{tongue.code}/{file}.yaml", keys


def _unsaid(shape: TextShape, tongue: Tongue) -> Iterator[Fault]:
    """Lists that a text needs which no language may leave to another."""
    for name in sorted(shape.lists - tongue.terms.keys()):
        yield Fault(
            f"languages/{tongue.code}/terms.yaml",
            name,
            f"is missing; {shape.key} takes a word of this list",
        )


def _placed(shape: TextShape, tongue: Tongue, file: str) -> Iterator[Fault]:
    for category, form in forms(tongue.wordings[shape.key]):
        place = f"{shape.key}.{category}" if category else shape.key
        try:
            found = set(placeholders(form))
        except ValueError as error:
            yield Fault(file, place, str(error))
            continue
        if found != set(shape.values):
            listed = ", ".join(sorted(shape.values)) or "none"
            said = ", ".join(sorted(found)) or "none"
            yield Fault(file, place, f"places {said}; texts/{shape.file}.yaml lists {listed}")


def _lists(texts: Texts) -> Iterator[Fault]:
    """The words that placeholders take: the same lists and codes in every language."""
    wanted = {
        (name, code): tongue.code
        for tongue in texts.tongues.values()
        for name, words in tongue.terms.items()
        for code in words
    }
    for tongue in texts.tongues.values():
        file = f"languages/{tongue.code}/terms.yaml"
        left = tongue.falls_back_to is not None  # then a whole list may be left out
        for (name, code), other in wanted.items():
            if code not in tongue.terms.get(name, {}) and not (left and name not in tongue.terms):
                yield Fault(file, f"{name}.{code}", f"is missing; {other} has it")
        for kind in sorted(_kinds(texts)):
            if kind not in tongue.terms and not left:
                yield Fault(file, kind, "is missing; a text takes a word of this list")


def _kinds(texts: Texts) -> frozenset[str]:
    """The lists that some placeholder takes its words from."""
    return frozenset[str]().union(*(shape.lists for shape in texts.shapes.values()))

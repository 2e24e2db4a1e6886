"""Every text stands in every language, with the same placeholders; every list of words too.
In: Texts. Out: faults. Called by proofread."""

from __future__ import annotations

from collections.abc import Iterator

from bot.handbook.shape_texts import Texts, TextShape, Tongue
from bot.proof.fault import Fault
from bot.proof.longest import forms, placeholders


def check_keys(texts: Texts) -> Iterator[Fault]:
    """Missing wordings, placeholders that differ, lists of words that differ or are missing."""
    for tongue in texts.tongues.values():
        for shape in texts.shapes.values():
            file = f"languages/{tongue.code}/{shape.file}.yaml"
            if shape.key not in tongue.wordings:
                yield Fault(file, shape.key, "is missing in this language")
            else:
                yield from _placed(shape, tongue, file)
    yield from _lists(texts)


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
        for (name, code), other in wanted.items():
            if code not in tongue.terms.get(name, {}):
                yield Fault(file, f"{name}.{code}", f"is missing; {other} has it")
        for kind in sorted(_kinds(texts)):
            if kind not in tongue.terms:
                yield Fault(file, kind, "is missing; a text takes a word of this list")


def _kinds(texts: Texts) -> set[str]:
    """The lists that some placeholder takes its words from."""
    kinds = {kind for shape in texts.shapes.values() for kind in shape.values.values()}
    lists = {kind.removeprefix("word:") for kind in kinds if kind.startswith("word:")}
    return (
        lists | ({"vet"} if "vet" in kinds else set()) | ({"weekday"} if "date" in kinds else set())
    )

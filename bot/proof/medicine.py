"""No outgoing text names a medicine, a dose, a disinfectant, a publisher, a breed or a library.

In: Texts, content/forbidden.yaml. Out: faults. Called by proofread, and by the desk for what staff
write. What to give is for the vet and the label; a name in a text would be taken for advice.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path

from bot.handbook.shape_texts import Texts, Tongue
from bot.handbook.strict import read_section
from bot.proof.fault import Fault
from bot.proof.longest import forms

FILE = "forbidden.yaml"
_WORD = re.compile(r"[a-z']+")


def load_forbidden(content: Path) -> Mapping[str, tuple[str, ...]]:
    """Stems by what they name. Raises HandbookError naming the key."""
    section = read_section(content / FILE)
    found = {key: section.texts(key) for key in ("medicines", "disinfectants", "names", "doses")}
    section.done()
    return found


def check_medicine(texts: Texts, forbidden: Mapping[str, tuple[str, ...]]) -> Iterator[Fault]:
    """Texts and words for placeholders that name what they must not."""
    for tongue in texts.tongues.values():
        for file, key, text in _said(texts, tongue):
            for kind, what in _KINDS.items():
                if stem := _names(text, forbidden[kind]):
                    yield Fault(file, key, f"names {what} ({stem}): {text}")
            if dose := _dose(text, forbidden["doses"]):
                yield Fault(file, key, f"gives a dose or a strength ({dose}): {text}")


def named_in(text: str, forbidden: Mapping[str, tuple[str, ...]]) -> str | None:
    """The medicine, disinfectant or dose that a text of a person seems to name; None for none."""
    for kind in ("medicines", "disinfectants"):
        for word in _WORD.findall(text.lower()):
            if _names(word, forbidden[kind]):
                return str(word)
    return _dose(text, forbidden["doses"])


def refused_in(text: str, forbidden: Mapping[str, tuple[str, ...]]) -> str | None:
    """What keeps the words of a vet or a cooperative out of a text of ours: a medicine, a
    disinfectant, a dose, a brand; None for nothing."""
    return named_in(text, forbidden) or _names(text, forbidden["names"])


_KINDS = {
    "medicines": "a medicine",
    "disinfectants": "a disinfectant",
    "names": "a publisher, a breed or a library",
}


def _said(texts: Texts, tongue: Tongue) -> Iterator[tuple[str, str, str]]:
    for key, wording in tongue.wordings.items():
        for _, form in forms(wording):
            yield f"languages/{tongue.code}/{texts.shapes[key].file}.yaml", key, form
    for name, words in tongue.terms.items():
        for code, word in words.items():
            yield f"languages/{tongue.code}/terms.yaml", f"{name}.{code}", word


def _names(text: str, stems: tuple[str, ...]) -> str | None:
    """The first stem that fits a word of the text, as content/forbidden.yaml tells."""
    for word in _WORD.findall(text.lower()):
        for stem in stems:
            if _fits(word, stem):
                return stem
    return None


def _fits(word: str, stem: str) -> bool:
    if stem.startswith("-"):
        return stem[1:] in word
    return word == stem[1:] if stem.startswith("=") else word.startswith(stem)


def _dose(text: str, units: tuple[str, ...]) -> str | None:
    """A figure followed by a unit of doses."""
    pattern = rf"[\d}}]\s*(?:{'|'.join(map(re.escape, units))})\b"
    found = re.search(pattern, text, re.IGNORECASE)
    return found.group() if found else None

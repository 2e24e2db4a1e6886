"""The words of printed pages and of the desk: the same keys and placeholders in every language that
words everything. In: the content folder, Texts. Out: faults. Called by proofread."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from bot.handbook.pages import DESK, FILE, TERMS, load_own_pages
from bot.handbook.shape_texts import BASE, Texts
from bot.proof.fault import Fault
from bot.proof.longest import placeholders
from bot.say.plain import plain


def check_pages(content: Path, texts: Texts) -> Iterator[Fault]:
    """Words that are missing, unknown, placed otherwise than in English, or not those of texts."""
    for name in (FILE, DESK):
        yield from _check(content, texts, name)
    yield from _check_terms(content, texts)


def _check(content: Path, texts: Texts, name: str) -> Iterator[Fault]:
    own = load_own_pages(content, name)
    base = own[BASE]
    for tongue in texts.tongues.values():
        words = own[tongue.code]
        file = f"languages/{tongue.code}/{name}"
        for key, word in words.items():
            if key not in base:
                yield Fault(file, key, "stands in no English page")
            elif _placed(word) != _placed(base[key]):
                yield Fault(file, key, f"places {_placed(word)}, English {_placed(base[key])}")
        if tongue.falls_back_to is None:
            yield from (
                Fault(file, key, "is missing in this language") for key in base if key not in words
            )


def _check_terms(content: Path, texts: Texts) -> Iterator[Fault]:
    """A word on a page that is another one than in a text."""
    for code, words in load_own_pages(content, TERMS).items():
        lists = texts.tongues[code].terms if code in texts.tongues else {}
        for key, word in words.items():
            name, _, one = key.partition(".")
            said = lists.get(name, {}).get(one)
            if said != plain(word):
                yield Fault(f"languages/{code}/{TERMS}", key, f"{word}: terms.yaml says {said}")


def _placed(word: str) -> tuple[str, ...]:
    try:
        return tuple(sorted(set(placeholders(word))))
    except ValueError as error:
        return (str(error),)

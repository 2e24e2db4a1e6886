"""Loads the words of pages: languages/<code>/pages.yaml (printed) and desk.yaml (the desk). In: the
content folder. Out: the words by language and key; what a language leaves out is said in the one it
falls back to. Keys under a heading are "heading.key". page_terms.yaml writes words of terms.yaml,
which are made for texts, with their accents.

Called by the command line, the desk and the proof. Pages are read on paper and on screens, so here
letters carry their accents.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from bot.handbook.shape_texts import BASE, Tongue
from bot.handbook.strict import Section, read_section

FILE = "pages.yaml"
DESK = "desk.yaml"
TERMS = "page_terms.yaml"

Terms = Mapping[str, Mapping[str, str]]


def load_pages(content: Path, file: str = FILE) -> Mapping[str, Mapping[str, str]]:
    """The words of every language. Raises HandbookError naming the file and the key."""
    own = load_own_pages(content, file)
    folders = content / "languages"
    found: dict[str, Mapping[str, str]] = {}
    for code, words in own.items():
        language = read_section(folders / code / "language.yaml")
        back = language.text("falls_back_to") if language.has("falls_back_to") else BASE
        found[code] = {**own[BASE], **own.get(back, {}), **words}
    return found


def load_own_pages(content: Path, file: str = FILE) -> Mapping[str, Mapping[str, str]]:
    """What each language words by itself; nothing where it has no such file."""
    found: dict[str, Mapping[str, str]] = {}
    for folder in sorted(one for one in (content / "languages").iterdir() if one.is_dir()):
        there = (folder / file).is_file()
        found[folder.name] = dict(_flat(read_section(folder / file))) if there else {}
    return found


def page_terms(content: Path, tongues: Mapping[str, Tongue]) -> Mapping[str, Terms]:
    """The lists of terms.yaml as pages of each language write them."""
    found: dict[str, Terms] = {}
    accents = load_own_pages(content, TERMS)
    for code, tongue in tongues.items():
        own = accents.get(code, {})
        lists = {**tongues[BASE].terms, **tongue.terms}
        found[code] = {
            name: {one: own.get(f"{name}.{one}", word) for one, word in words.items()}
            for name, words in lists.items()
        }
    return found


def _flat(section: Section) -> Iterator[tuple[str, str]]:
    for key in section.keys():
        if isinstance(section.take(key), dict):
            yield from ((f"{key}.{name}", word) for name, word in _flat(section.section(key)))
        else:
            yield key, section.text(key)

"""Loads the words of printed pages: languages/<code>/pages.yaml. In: the content folder. Out: the
words by language and key; what a language leaves out is said in the one it falls back to.

Called by the command line and the proof. Pages are read on paper and on screens, so here letters
carry their accents.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from bot.handbook.shape_texts import BASE
from bot.handbook.strict import read_section

FILE = "pages.yaml"


def load_pages(content: Path) -> Mapping[str, Mapping[str, str]]:
    """The words of every language. Raises HandbookError naming the file and the key."""
    own = load_own_pages(content)
    folders = content / "languages"
    found: dict[str, Mapping[str, str]] = {}
    for code, words in own.items():
        language = read_section(folders / code / "language.yaml")
        back = language.text("falls_back_to") if language.has("falls_back_to") else BASE
        found[code] = {**own[BASE], **own.get(back, {}), **words}
    return found


def load_own_pages(content: Path) -> Mapping[str, Mapping[str, str]]:
    """What each language words by itself; nothing where it has no such file."""
    found: dict[str, Mapping[str, str]] = {}
    for folder in sorted(one for one in (content / "languages").iterdir() if one.is_dir()):
        if not (folder / FILE).is_file():
            found[folder.name] = {}
            continue
        section = read_section(folder / FILE)
        found[folder.name] = {key: section.text(key) for key in section.keys()}
    return found

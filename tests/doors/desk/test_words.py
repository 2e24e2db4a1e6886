"""The words of the desk: each is used, and each that is used is there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import bot.doors.desk as desk
from bot.handbook.load import content_folder
from bot.handbook.pages import DESK, load_own_pages

FOLDER = Path(desk.__file__).parent
OWN = load_own_pages(content_folder(), DESK)


def sources() -> str:
    files = [*FOLDER.glob("*.py"), *(FOLDER / "templates").glob("*.html")]
    files += (FOLDER.parents[1] / "cooperative").glob("*.py")
    files += [FOLDER.parent / "result.py", FOLDER.parent / "cli" / "enrol.py"]
    return "\n".join(one.read_text("utf-8") for one in files)


def test_every_word_that_a_page_uses_is_there() -> None:
    used = set(re.findall(r"""\bw\(\s*["']([a-z_]+\.[\w.]*\w)["']""", sources()))
    assert len(used) > 50
    assert used - set(OWN["en"]) == set()


def test_no_word_is_left_that_no_page_uses() -> None:
    text = sources()
    groups = set(re.findall(r"""["']([a-z_.]+)\.["']""", text))
    groups |= set(re.findall(r"""f["']([a-z_.]+)\.\{""", text))
    groups |= set(re.findall(r"""named\(\s*["']([a-z_.]+)["']""", text)) | {"refused"}
    loose = [
        key
        for key in OWN["en"]
        if key.rpartition(".")[0] not in groups and not re.search(rf"""["']{key}["']""", text)
    ]
    titles = {f"{name}.title" for name in re.findall(r'nav="(\w+)"', text)}
    assert set(loose) - titles - {"frame.language", "frame.months"} == set()


@pytest.mark.parametrize("code", ["fr", "sw"])
def test_every_language_words_the_whole_desk(code: str) -> None:
    assert set(OWN[code]) == set(OWN["en"])
    months = OWN[code]["frame.months"].split()
    assert len(months) == 12

"""A slip in a content file is named: file, key and reason."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.errors import HandbookError
from bot.handbook.strict import Section, read_section, read_yaml


def written(folder: Path, text: str) -> Path:
    path = folder / "content" / "words.yaml"
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    "text", ["a: 1\na: 2\n", "top:\n  a: 1\n  b: 2\n  a: 3\n", "- {a: 1, a: 2}"]
)
def test_a_key_that_stands_twice_is_refused(tmp_path: Path, text: str) -> None:
    with pytest.raises(HandbookError) as refused:
        read_yaml(written(tmp_path, text))
    assert (refused.value.file, refused.value.key) == ("words.yaml", "a")


def test_words_of_a_language_stay_words(tmp_path: Path) -> None:
    found = read_yaml(written(tmp_path, "words: [yes, no, on, off, 12:30, 2026-03-04, 'null']"))
    assert found == {"words": ["yes", "no", "on", "off", "12:30", "2026-03-04", "null"]}


def test_numbers_and_flags_are_read_as_such(tmp_path: Path) -> None:
    assert read_yaml(written(tmp_path, "x: [1, -2, 2.5, true, false, null]")) == {
        "x": [1, -2, 2.5, True, False, None]
    }


@pytest.mark.parametrize("text", ["a: [1", "a: b: c", "\t- x"])
def test_a_malformed_file_is_named(tmp_path: Path, text: str) -> None:
    with pytest.raises(HandbookError, match=r"words\.yaml"):
        read_yaml(written(tmp_path, text))


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(HandbookError, match=r"husbandry/space\.yaml"):
        read_yaml(tmp_path / "content" / "husbandry" / "space.yaml")


def test_an_unknown_key_is_refused_with_its_place(tmp_path: Path) -> None:
    inner = read_section(written(tmp_path, "row: {text: hello, txet: hello}")).section("row")
    inner.text("text")
    with pytest.raises(HandbookError, match=r"row\.txet: is not known here"):
        inner.done()


@pytest.mark.parametrize(
    ("key", "take"),
    [
        ("flag", "whole"),
        ("flag", "number"),
        ("word", "number"),
        ("half", "whole"),
        ("whole", "text"),
        ("whole", "flag"),
        ("word", "texts"),
        ("numbers", "texts"),
        ("word", "section"),
        ("none", "text"),
        ("absent", "whole"),
    ],
)
def test_a_value_of_the_wrong_kind_is_refused(key: str, take: str) -> None:
    values = {"flag": True, "word": "x", "half": 1.5, "whole": 3, "numbers": [1], "none": None}
    with pytest.raises(HandbookError) as refused:
        getattr(Section(values, "a.yaml"), take)(key)
    assert refused.value.file == "a.yaml"
    assert refused.value.key == key


def test_an_optional_key_takes_its_default_but_a_wrong_one_is_still_refused() -> None:
    section = Section({"days": "soon"}, "a.yaml")
    assert section.number("hours", 2) == 2
    with pytest.raises(HandbookError):
        section.whole("days", 3)

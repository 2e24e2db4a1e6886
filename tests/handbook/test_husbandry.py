"""The husbandry figures are refused when they can't be right."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from bot.errors import HandbookError
from bot.handbook.husbandry import load_husbandry, load_sources

CONTENT = Path(__file__).resolve().parents[2] / "content"
Spoil = Callable[[str, str, str], Path]


@pytest.fixture
def spoiled(tmp_path: Path) -> Spoil:
    """A copy of the content with one text in one file replaced."""
    copy = tmp_path / "content"
    shutil.copytree(CONTENT / "husbandry", copy / "husbandry")
    shutil.copy(CONTENT / "sources.yaml", copy / "sources.yaml")

    def spoil(file: str, old: str, new: str) -> Path:
        path = copy / file
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new, 1), encoding="utf-8")
        return copy

    return spoil


def test_every_source_is_cited_and_every_citation_resolves() -> None:
    husbandry = load_husbandry(CONTENT)
    cited = {source for entry in husbandry.entries() for source in entry.source}
    assert cited <= set(husbandry.sources.by_id)
    for entry in husbandry.entries():
        assert len(entry.status) == len(entry.source) > 0


def test_the_two_pseudo_sources_say_plainly_what_they_are() -> None:
    sources = load_sources(CONTENT).by_id
    assert sources["common-practice"].said() == "common practice, no source"
    assert sources["from-memory"].said() == "from memory"


@pytest.mark.parametrize(
    ("file", "old", "new", "key"),
    [
        ("husbandry/growth.yaml", "[14, 519,", "[14, 419,", "rows"),
        ("husbandry/growth.yaml", "[14, 519,", "[13, 519,", "rows"),
        ("husbandry/growth.yaml", "549, 1.22, 1.25]", "549, 1.22, 0.7]", "rows"),
        ("husbandry/feed_water.yaml", "[4, 80]", "[4, 60]", "points"),
        ("husbandry/temperature.yaml", "[6, 32.5,", "[6, 34.5,", "rows"),
        ("husbandry/space.yaml", "[14, 20]", "[14, 35]", "steps"),
        ("husbandry/temperature.yaml", "[ROSS-HB-2018]", "[ROSS-HB-2081]", "source"),
        ("husbandry/temperature.yaml", "status: common practice", "status: surely", "status"),
        ("husbandry/temperature.yaml", "spot_start:", "spot_stat:", "spot_start"),
        ("husbandry/temperature.yaml", "spot_start:", "of_our_own: {}\nspot_start:", "of_our_own"),
        ("husbandry/losses.yaml", "danger_pct: {value: 2,", "danger_pct: {valu: 2,", "value"),
        ("husbandry/air_heat.yaml", "share: [0.3, 0.5, 0.6]", "share: [0.3, 0.5, 60]", "share"),
        ("husbandry/air_heat.yaml", "[480, 10]", "[480, 40]", "points"),
    ],
)
def test_a_slip_in_a_table_is_refused_and_named(
    spoiled: Spoil, file: str, old: str, new: str, key: str
) -> None:
    with pytest.raises(HandbookError) as refused:
        load_husbandry(spoiled(file, old, new))
    assert key in f"{refused.value.key} {refused.value.why}"


def test_one_figure_in_two_files_is_refused(spoiled: Spoil) -> None:
    copy = spoiled("husbandry/losses.yaml", "danger_least:", "spot_start:")
    with pytest.raises(HandbookError, match="too"):
        load_husbandry(copy)

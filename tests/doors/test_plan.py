"""`broodpost plan`: a page that stands alone, rows for a spreadsheet, the texts of a farmer."""

from __future__ import annotations

import csv
from io import StringIO

import pytest
from click.testing import CliRunner, Result

from bot.doors.cli.plan import plan_command
from tests.pages.reading import read

PRICED = ("--count", "500", "--date", "2026-03-09", "--chick", "100", "--feed", "3200")


def plan(*given: str) -> Result:
    return CliRunner().invoke(plan_command, given)


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_the_sheet_is_one_page_that_fetches_nothing(language: str) -> None:
    page = read(plan(*PRICED, "--lang", language).output)
    assert page.fetched == []
    assert "{" not in page.text
    for figure in ("2026-03-09", "14 m2", "52 m2", "28 - 49 l", "476 - 535"):
        assert figure in page.text, figure


def test_every_part_of_the_sheet_names_its_source() -> None:
    page = read(plan(*PRICED).output).text
    for source in ("Broiler Performance Objectives", "from memory", "common practice, no source"):
        assert source in page


def test_without_prices_the_sheet_names_no_money() -> None:
    page = read(plan("--count", "500", "--date", "2026-03-09").output).text
    assert "none is invented" in page
    assert "must bring" not in page


def test_the_spreadsheet_holds_ranges_and_sources() -> None:
    rows = list(csv.DictReader(StringIO(plan(*PRICED, "--as", "csv").output)))
    assert all(row["source"] for row in rows)
    assert all(float(row["from"]) <= float(row["to"]) for row in rows)
    cash = [row for row in rows if row["item"] == "Cash"]
    assert sum(float(row["from"]) for row in cash) == pytest.approx(230_000, rel=0.01)


def test_the_texts_are_those_that_a_farmer_gets() -> None:
    texts = plan("--house", "6x5", "--date", "2026-03-09", "--heat", "gas", "--as", "texts").output
    assert "Plan for 284" in texts
    assert "gas" in texts


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (("--count", "500", "--date", "9 march"), "2026-03-09"),
        (("--date", "2026-03-09"), "--count or --house"),
        (("--house", "big", "--date", "2026-03-09"), "6x5"),
        (("--count", "0", "--date", "2026-03-09"), "count 0"),
        ((*PRICED, "--sale", "90"), "sale_age 90"),
        ((*PRICED, "--lang", "xx"), "en, fr, sw"),
    ],
)
def test_what_can_not_be_planned_is_said_kindly(given: tuple[str, ...], said: str) -> None:
    refused = plan(*given)
    assert refused.exit_code != 0
    assert said in refused.output

"""The report of a batch: one page that stands alone, for each reader, in each language; what was
told is drawn, what was not is said to be missing."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest

from bot.day.closing import Past
from bot.facts.farm import Batch
from bot.handbook.load import content_folder, load_handbook
from bot.handbook.pages import load_pages
from bot.pages.report import READERS, Report, report_page
from tests.ledger.records import PLACED, batch, event
from tests.pages.reading import read

HANDBOOK = load_handbook(content_folder())
WORDS = load_pages(content_folder())
KEEPER = "Mkulima, Example Person."
TOLD = (
    event(1, "temperature", 1, value_c=33),
    event(2, "temperature", 5, value_c=24),
    event(3, "deaths", 2, n=2),
    event(4, "deaths", 4, n=1),
    event(5, "weight", 7, avg_g=180),
    event(6, "weight", 21, avg_g=800),
    event(7, "feed_in", 0, kg=900),
    event(8, "feed_eaten", 10, kg=14),
    event(9, "water", 10, litres=25),
    event(10, "observed", 3, signals=["piled_near_heat"]),
    event(11, "treated", 20, product="oxybrand", days=7),
    event(12, "expense", 0, amount=30000, on="chicks"),
    event(13, "sold", 40, n=297, price=250, price_per="kg", kg=594),
)


def made(mine: Batch, language: str = "en", reader: str = "farmer", *others: Batch) -> Report:
    texts = HANDBOOK.texts.tongues
    return Report(
        batch=mine,
        past=Past((), others),
        today=PLACED + timedelta(days=41),
        zone=ZoneInfo("Africa/Nairobi"),
        reader=reader,
        keeper=KEEPER,
        language=language,
        words=WORDS[language],
        terms={**texts["en"].terms, **texts[language].terms},
        h=HANDBOOK.husbandry,
    )


def page(mine: Batch, language: str = "en", reader: str = "farmer", *others: Batch) -> str:
    return report_page(made(mine, language, reader, *others))


CLOSED = replace(batch(*TOLD), state="closed")


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize(
    "mine", [CLOSED, batch(*TOLD[:-1]), batch()], ids=["closed", "open", "new"]
)
def test_the_page_stands_alone_for_each_reader_in_each_language(
    language: str, reader: str, mine: Batch
) -> None:
    found = read(page(mine, language, reader))
    assert found.fetched == []
    assert "{" not in found.text
    assert "oxybrand" not in found.text


def test_the_figures_are_those_of_the_record() -> None:
    text = read(page(CLOSED)).text
    # by hand: 297 of 300 lived, 594 kg for 297 birds, 900 kg of feed over 594 kg
    for figure in ("99.0 %", "2000 g", "1.52", "148 500", "118 500"):
        assert figure in text, figure


def test_what_was_told_is_drawn_and_what_was_not_is_said() -> None:
    full, empty = page(CLOSED), page(batch(event(1, "deaths", 2, n=1)))
    assert full.count("<svg") == 5
    assert empty.count("<svg") == 1
    missing = "temperature under the heat, weight a bird, feed a bird and day, water a bird and day"
    assert f"Nothing was told of: {missing}." in read(empty).text


def test_a_reading_off_the_target_lies_outside_the_band() -> None:
    assert "Readings: 2; in the right band: 1." in read(page(CLOSED)).text


def test_curves_ahead_end_with_the_batch() -> None:
    open_still = replace(made(batch(*TOLD[:6])), today=PLACED + timedelta(days=22))
    assert "likely ahead" in read(report_page(open_still)).text
    assert "likely ahead" not in read(page(CLOSED)).text


def test_a_lender_sees_no_name_and_the_money_first() -> None:
    found = read(page(CLOSED, "en", "lender")).text
    assert KEEPER not in found
    assert found.index("Money") < found.index("Curves")
    assert KEEPER in read(page(CLOSED)).text


def test_the_trainer_sees_what_was_seen() -> None:
    assert "piled at the heat" in read(page(CLOSED, "en", "trainer")).text
    assert "piled at the heat" not in read(page(CLOSED)).text


def test_others_stand_beside_it_only_where_none_can_be_read_from_them() -> None:
    few, enough = (page(CLOSED, "en", "farmer", *[CLOSED] * many) for many in (4, 5))
    assert "Others, middle" not in read(few).text
    assert "Others, middle (5)" in read(enough).text


def test_birds_missing_by_count_and_a_held_batch_are_not_hidden() -> None:
    counted = batch(event(1, "counted", 10, n=290))
    assert "missing from the record by the last count: 10" in read(page(counted)).text
    assert "no sale" in read(page(replace(counted, held=True))).text


def test_words_of_a_record_are_escaped() -> None:
    odd = replace(CLOSED, name="<script>")
    assert "<script" not in page(odd)


def test_every_point_lies_on_the_paper() -> None:
    drawn = page(CLOSED)
    places = [
        (float(x), float(y))
        for points in re.findall(r'points="([^"]+)"', drawn)
        for x, y in (one.split(",") for one in points.split())
    ]
    assert len(places) > 100
    assert all(0 <= x <= 720 and 0 <= y <= 290 for x, y in places)

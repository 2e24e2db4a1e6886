"""What the desk shows of a farm: letters, trouble, figures put right."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from bot.cooperative.farm import corrected, entries, letter, put_right, shown, trouble_of
from bot.facts.farm import Batch, Case, Complaint, Cooperative, Event, Person, Phone
from bot.ledger.settle import settled
from bot.wiring import Thinking

NOW = datetime(2026, 3, 10, 6, 0, tzinfo=UTC)
HERE = Cooperative(1, "Mkulima", "Africa/Nairobi", "KE")


def told(own: int, kind: str, **values: object) -> Event:
    return Event(own, kind, date(2026, 3, 9), NOW, values)


BATCH = Batch(
    1, "running", 300, date(2026, 3, 3), NOW, heat=("charcoal",), heat_count=2, thermometer=True,
    events=(told(1, "deaths", n=2), told(2, "temperature", value_c=27.5), told(3, "observed")),
)  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "typed", "fault"),
    [
        ("deaths", "4", None),
        ("deaths", "300", None),
        ("deaths", "301", "entry.too_many"),
        ("deaths", "2.5", "entry.whole"),
        ("deaths", "-1", "entry.outside"),
        ("deaths", "nan", "entry.outside"),
        ("deaths", "two", "entry.no_figure"),
        ("temperature", "27,5", None),
        ("temperature", "75", "entry.outside"),
        ("weight", "12", "entry.outside"),
    ],
)
def test_a_figure_is_taken_where_it_can_be(kind: str, typed: str, fault: str | None) -> None:
    own = {"deaths": BATCH.events[0], "temperature": BATCH.events[1]}
    entry = own.get(kind, told(9, kind, avg_g=180))
    figure, found = corrected(BATCH, entry, typed)
    assert (figure is None, found) == (fault is not None, fault)


@pytest.mark.parametrize(
    ("figure", "said"),
    [
        (0, "0"),
        (0.343, "0.34"),
        (2.5, "2.5"),
        (27.1667, "27.2"),
        (300, "300"),
        (1234567, "1234567"),
    ],
)
def test_a_figure_is_read_without_powers_of_ten(figure: float, said: str) -> None:
    assert shown(figure) == said


def test_what_was_put_right_counts_in_the_place_of_what_was_told() -> None:
    was = BATCH.events[0]
    right = Event(9, was.kind, was.on_date, NOW, put_right(was, 12.0, 4))
    batch = replace(BATCH, events=settled((*BATCH.events, right)))
    assert batch.alive == 288
    assert [one.id for one in entries(batch)] == [9, 2]
    assert right.values["by"] == 4


@pytest.mark.parametrize(
    ("body", "text"),
    [
        ("How are they?", "Mkulima (Amina): How are they?"),
        ("Ça va ?\n\n32°C", "Mkulima (Amina): Ca va ? 32 C"),
        ("😀", None),
        ("  ", None),
    ],
)
def test_a_letter_is_plain_and_signed(body: str, text: str | None) -> None:
    found = letter(HERE, "Amina Example", body, None, NOW)
    assert (found.text if found else None) == text


def test_only_an_answer_goes_at_any_hour() -> None:
    for ago, klass in ((timedelta(hours=2), "reply"), (timedelta(hours=3), "system")):
        found = letter(HERE, "Amina", "Hello", NOW - ago, NOW)
        assert found is not None
        assert found.klass == klass


def test_a_letter_has_three_parts_at_most() -> None:
    whole = letter(HERE, "Amina", "a" * (3 * 153 - 17), None, NOW)
    longer = letter(HERE, "Amina", "a" * (3 * 153 - 16), None, NOW)
    assert whole is not None
    assert longer is not None
    assert (whole.too_long, longer.too_long) == (False, True)


def case(batch: Batch) -> Case:
    return Case(NOW, HERE, Phone(1, "+254700000001", "active"), Person(1, "en"), "en", (batch,))


def test_the_open_trouble_tells_how_likely_what_is_and_on_what_it_rests(
    thinking: Thinking,
) -> None:
    open_one = Complaint(1, 1, "cold", NOW, ("piled_near_heat", "noisy_distress"))
    batch = replace(BATCH, complaint=open_one)
    found = trouble_of(case(batch), batch, thinking.handbook)
    assert found is not None
    assert found.likely[0][0] == "cold"
    assert found.likely[0][1] > 80
    assert {"piled_near_heat", "noisy_distress"} & set(found.because)
    assert set(found.would_change).isdisjoint(open_one.signals)


def test_without_a_complaint_there_is_no_trouble(thinking: Thinking) -> None:
    assert trouble_of(case(BATCH), BATCH, thinking.handbook) is None

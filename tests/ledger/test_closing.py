"""The closing: published worked examples through the whole record, and what a thin record tells."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.day.closing import Past, closing_lines
from bot.facts.farm import Batch, Event
from bot.handbook.husbandry import load_husbandry
from bot.handbook.load import content_folder
from bot.ledger.closing import LEAST_FARMS, closing_of, middle_of
from bot.ledger.lessons import LESSONS, MOST, lessons_of
from tests.ledger.records import batch, event

BOOK = load_husbandry(content_folder())


def sale(number: int, age: int, birds: int, kg: float, price: float = 250) -> Event:
    return event(number, "sold", age, n=birds, price=price, price_per="kg", kg=kg)


def ended(*more: Event, count: int = 1000, kg: float = 1.85, feed: float = 1.88) -> Batch:
    """95 of 100 birds sold at 44 days, at so many kilograms each, on so much feed a kilogram."""
    sold = count * 95 // 100
    return batch(
        event(1, "feed_in", 0, kg=round(feed * sold * kg, 3)),
        event(2, "deaths", 20, n=count - sold),
        sale(3, 44, sold, sold * kg),
        *more,
        count=count,
    )


def test_the_published_example_of_the_efficiency_factor_comes_out_of_the_record() -> None:
    # Shane, "What's your PEF?" (c.1998), Figure 1: 95 %, 1.85 kg, 44 days, 1.88 gives 212.
    found = closing_of(ended(), BOOK)
    assert found.livability_pct == pytest.approx(95)
    assert found.conversion == pytest.approx(1.88)
    assert found.index == pytest.approx(212, abs=0.6)
    assert found.weighed


def test_the_published_example_of_feed_conversion_comes_out_of_the_record() -> None:
    # livestocking.com, broiler performance targets: 100 birds, 350 kg of feed, 250 kg live: 1.4.
    whole = batch(event(1, "feed_in", 0, kg=350), sale(2, 40, 100, 250), count=100)
    assert closing_of(whole, BOOK).conversion == pytest.approx(1.4)


def test_sales_in_parts_weigh_their_ages_by_their_birds() -> None:
    parts = batch(sale(1, 35, 100, 180), sale(2, 42, 200, 480), count=300)
    found = closing_of(parts, BOOK)
    assert found.age_days == pytest.approx((35 * 100 + 42 * 200) / 300)
    assert found.weight_g == pytest.approx(660_000 / 300)


def test_cost_and_margin_are_what_was_told() -> None:
    told = ended(event(4, "expense", 0, amount=100_000, on="feed"), count=100)
    found = closing_of(told, BOOK)
    kg = 95 * 1.85
    assert found.margin == pytest.approx(250 * kg - 100_000)
    assert found.cost_bird == pytest.approx(100_000 / 95)
    assert found.cost_kg == pytest.approx(100_000 / kg)


def test_what_the_record_does_not_tell_is_not_guessed() -> None:
    found = closing_of(batch(event(1, "sold", 40, n=300), count=300), BOOK)
    assert (found.weight_g, found.conversion, found.index) == (None, None, None)
    assert (found.spent, found.income, found.margin) == (None, None, None)
    some_feed = closing_of(ended(feed=0.4), BOOK)
    assert some_feed.conversion is None  # a bird is not made of less feed than it weighs


def test_a_sale_without_its_money_leaves_the_margin_open() -> None:
    told = batch(
        event(1, "expense", 0, amount=5000), sale(2, 40, 100, 200), event(3, "sold", 42, n=50)
    )
    assert closing_of(told, BOOK).margin is None


def test_the_middle_of_other_farms_needs_five_of_them() -> None:
    closings = [closing_of(ended(kg=1.5 + 0.1 * at), BOOK) for at in range(LEAST_FARMS)]
    assert middle_of(closings[:-1], LEAST_FARMS).weight_g is None
    assert middle_of(closings, LEAST_FARMS).weight_g == pytest.approx(1700)


def test_a_figure_that_too_few_farms_tell_has_no_middle() -> None:
    told = [closing_of(ended(), BOOK)] * 4
    silent = [closing_of(batch(event(1, "sold", 40, n=300), count=300), BOOK)] * 3
    found = middle_of([*told, *silent], LEAST_FARMS)
    assert found.conversion is None
    assert found.livability_pct is not None


def seen(number: int, age: int, *signals: str) -> Event:
    return event(number, "observed", age, signals=list(signals))


def test_the_three_heaviest_lessons_come_from_the_record() -> None:
    mine = ended(
        event(10, "deaths", 3, n=40),
        seen(11, 2, "piled_near_heat"),
        seen(12, 4, "piled_near_heat"),
        event(13, "weight", 7, avg_g=120),
    )
    assert set(lessons_of(mine, BOOK)) >= {"first_week", "warmer"}
    assert len(lessons_of(mine, BOOK)) == MOST


@pytest.mark.parametrize(
    ("lesson", "events"),
    [
        ("hatchery", [event(10, "dead_on_arrival", 0, n=40)]),
        ("early_weight", [event(10, "weight", 7, avg_g=110)]),
        ("later_weight", [event(10, "weight", 7, avg_g=195), event(11, "weight", 28, avg_g=800)]),
        ("litter", [seen(10, 20, "litter_wet"), seen(11, 25, "ammonia_smell")]),
        ("cooler", [seen(10, 30, "panting"), seen(11, 31, "panting"), seen(12, 33, "panting")]),
        ("lock", [event(10, "stolen", 30, n=30)]),
    ],
)
def test_a_lesson_is_named_where_the_record_shows_it(lesson: str, events: list[Event]) -> None:
    assert lesson in lessons_of(ended(*events), BOOK)


def test_one_bad_day_is_no_lesson() -> None:
    assert "litter" not in lessons_of(ended(seen(10, 20, "litter_wet")), BOOK)


def test_much_feed_a_kilo_is_a_lesson_and_usual_feed_is_none() -> None:
    assert "feed_waste" in lessons_of(ended(feed=2.4), BOOK)
    assert "feed_waste" not in lessons_of(ended(feed=1.75), BOOK)


events = st.lists(
    st.one_of(
        st.builds(lambda age, n: ("deaths", age, {"n": n}), st.integers(0, 44), st.integers(0, 50)),
        st.builds(
            lambda age, n, kg: ("sold", age, {"n": n, "price": 250, "price_per": "kg", "kg": kg}),
            st.integers(20, 49),
            st.integers(1, 200),
            st.integers(1, 500),
        ),
        st.builds(lambda kg: ("feed_in", 0, {"kg": kg}), st.integers(0, 4000)),
        st.builds(lambda g: ("weight", 14, {"avg_g": g}), st.integers(100, 900)),
    ),
    max_size=8,
)


@settings(max_examples=60, deadline=None)
@given(told=events)
def test_any_record_can_be_closed(told: list[tuple[str, int, dict[str, object]]]) -> None:
    made = [event(at, kind, age, **values) for at, (kind, age, values) in enumerate(told, 1)]
    mine = batch(*made, count=300)
    found = closing_of(mine, BOOK)
    assert found.index is None or found.index > 0
    assert set(lessons_of(mine, BOOK)) <= set(LESSONS)
    closing_lines(mine, Past((mine,), (mine,) * LEAST_FARMS), BOOK)


def test_the_closing_is_told_with_earlier_batches_and_others_beside_it() -> None:
    earlier = replace(ended(kg=1.6), id=7)
    others = tuple(ended(kg=1.5 + 0.1 * at, count=200) for at in range(LEAST_FARMS))
    keys = [line.key for line in closing_lines(ended(), Past((earlier,), others), BOOK)]
    assert keys == ["closing_result", "closing_mine", "closing_others", "next_time_3"]
    alone = [line.key for line in closing_lines(ended(), Past((), others[:3]), BOOK)]
    assert alone == ["closing_result", "next_time_3"]


def test_a_batch_that_died_out_is_told_only_what_to_change() -> None:
    lost = batch(event(1, "deaths", 5, n=300), count=300)
    assert [line.key for line in closing_lines(lost, Past(), BOOK)] == ["next_time_3"]

"""Early warnings of the calendar: feed and water that fall against the table and this farm's days.

The usual feed and water of an age are those of the published tables (Ross 308 performance
objectives 2019, 1.77 g of water a g of feed); a fall of a fifth is common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from bot.facts.farm import Event
from bot.handbook.texts import load_texts
from bot.husbandry.feed_water import water_ml
from bot.husbandry.growth import feed_intake_g
from bot.say.render import Voice, compose
from bot.say.segments import measure
from tests.day.farms import CONTENT, PLACED, Play, batch, calendar, event, play

BIRDS = 300


def fed(shares: dict[int, float]) -> tuple[Event, ...]:
    """Feed reported in the evening of these ages, as shares of the table for 300 birds."""
    return tuple(
        replace(
            event(
                "feed_eaten",
                PLACED + timedelta(days=age),
                18,
                kg=share * BIRDS * feed_intake_g(age, calendar().book) / 1000,
            ),
            id=age,
        )
        for age, share in shares.items()
    )


def watered(shares: dict[int, float]) -> tuple[Event, ...]:
    return tuple(
        replace(
            event(
                "water",
                PLACED + timedelta(days=age),
                18,
                litres=share * BIRDS * water_ml(age, calendar().book).value_ml / 1000,
            ),
            id=age,
        )
        for age, share in shares.items()
    )


def warned(told: Play) -> list[tuple[int, str]]:
    return [
        (one.age, row)
        for one in told.told
        for row in one.rows
        if row in ("feed_falls", "water_falls")
    ]


def test_feed_that_falls_by_more_than_a_fifth_is_told_the_next_morning_and_once() -> None:
    told = play(batch(events=fed({20: 1.0, 21: 0.95, 22: 0.7, 23: 0.65})), 30)
    assert warned(told) == [(23, "feed_falls")]
    assert "They eat less" in told.day(23).text
    assert [one for age, one in told.noted if age == 23 and one.kind == "intake"]


def test_water_that_falls_goes_before_feed_that_falls() -> None:
    events = (*fed({20: 1.0, 21: 0.6}), *watered({20: 1.0, 21: 0.6}))
    assert warned(play(batch(events=events), 30))[0] == (22, "water_falls")


def test_one_report_says_nothing() -> None:
    assert warned(play(batch(events=fed({21: 0.5})), 30)) == []


def test_a_farm_that_always_feeds_less_than_the_table_is_not_warned() -> None:
    shares = dict.fromkeys(range(15, 26), 0.75)
    assert warned(play(batch(events=fed(shares)), 30)) == []


def test_feed_that_grows_more_slowly_than_the_table_but_within_a_fifth_is_no_warning() -> None:
    assert warned(play(batch(events=fed({20: 1.0, 21: 0.95, 22: 0.9, 23: 0.85})), 30)) == []


def test_birds_that_died_or_were_sold_eat_nothing_and_that_is_no_fall() -> None:
    sold = replace(event("sold", PLACED + timedelta(days=21), 8, n=150), id=90)
    events = (*fed({20: 1.0, 21: 0.5, 22: 0.5}), sold)
    assert warned(play(batch(events=events), 30)) == []


def test_two_entries_of_a_day_add_up() -> None:
    halves = (*fed({20: 1.0, 21: 0.5}), *(replace(one, id=60) for one in fed({21: 0.5})))
    assert warned(play(batch(events=halves), 30)) == []


def test_a_warning_takes_no_second_text_that_day() -> None:
    told = play(batch(events=fed({20: 1.0, 21: 0.6})), 30)
    assert len([one for one in told.told if one.age == 22]) == 1


@pytest.mark.parametrize("language", ["en", "sw", "fr"])
def test_the_warning_is_one_part_in_every_language(language: str) -> None:
    told = play(batch(events=watered({20: 1.0, 21: 0.6})), 30).day(22)
    voice = Voice(language, "M" * 11)
    text = compose(told.due.lines, told.question, voice, load_texts(CONTENT), pushed=True)
    assert measure(text).parts == 1


# Feed that ends. 300 birds at ages 20-22 eat 300 times the table's day, by hand from the table.


def bought(age: int, kg: float) -> Event:
    return replace(event("feed_in", PLACED + timedelta(days=age), 10, kg=kg), id=70 + age)


def table_kg(first: int, after: int) -> float:
    """What 300 birds eat from one age up to another by the table [kg]."""
    days = range(first, after)
    return sum(BIRDS * feed_intake_g(age, calendar().book) for age in days) / 1000


def ending(told: Play) -> list[tuple[int, str]]:
    rows = ("feed_two_days", "feed_today")
    return [(one.age, row) for one in told.told for row in one.rows if row in rows]


def test_feed_about_to_run_out_is_told_two_days_before_with_the_bags_of_a_week() -> None:
    told = play(batch(events=(bought(15, table_kg(15, 25)),)), 30)
    assert ending(told) == [(23, "feed_two_days")]
    week = table_kg(25, 32)
    bags = -(-week // 50)
    assert f"feed for 2 more days. Bags to buy: {bags:.0f}." in told.day(23).text


def test_feed_bought_since_puts_the_end_off() -> None:
    events = (bought(15, table_kg(15, 25)), bought(22, table_kg(25, 28)))
    assert ending(play(batch(events=events), 32)) == [(26, "feed_two_days")]


def test_what_they_were_reported_to_eat_counts_before_the_table() -> None:
    half = fed(dict.fromkeys(range(15, 24), 0.5))
    told = play(batch(events=(bought(15, table_kg(15, 25)), *half)), 32)
    assert ending(told)[0][0] > 24


def test_without_a_word_of_feed_bought_nothing_is_said_of_its_end() -> None:
    assert ending(play(batch(events=fed({20: 1.0})), 30)) == []


def test_where_two_days_were_already_gone_the_day_itself_is_told_once() -> None:
    assert ending(play(batch(events=(bought(20, table_kg(20, 21)),)), 30)) == [(20, "feed_today")]


def burning(*nights: int, bought_kg: float = 20) -> tuple[Event, ...]:
    """Fuel bought at age 2, and 4 kg burnt in the nights of these ages."""
    told = [event("fuel_in", PLACED + timedelta(days=2), 9, kg=bought_kg)]
    told += [event("fuel", PLACED + timedelta(days=age), 20, kg=4.0) for age in nights]
    return tuple(replace(one, id=at) for at, one in enumerate(told, 1))


def said(told: Play, *rows: str) -> list[tuple[int, str]]:
    return [(one.age, row) for one in told.told for row in one.rows if row in rows]


def test_fuel_is_warned_of_two_nights_before_its_end_as_this_farm_burns_it() -> None:
    told = play(batch(events=burning(2, 3)), 9)
    assert said(told, "fuel_ends") == [(5, "fuel_ends")]


def test_fuel_of_which_no_two_nights_were_told_is_not_guessed_at() -> None:
    assert said(play(batch(events=burning(2)), 9), "fuel_ends") == []


def reading(*values: tuple[int, float]) -> tuple[Event, ...]:
    """Readings at ten in the morning: (age, C)."""
    return tuple(
        replace(event("temperature", PLACED + timedelta(days=age), 10, value_c=value), id=at)
        for at, (age, value) in enumerate(values, 1)
    )


@pytest.mark.parametrize(
    ("values", "row", "side"),
    [(((4, 27.0), (5, 26.5)), "cold_long", "low"), (((4, 33.5), (5, 33.0)), "hot_long", "high")],
)
def test_readings_off_for_two_days_are_warned_of_once_and_told_to_the_adviser(
    values: tuple[tuple[int, float], ...], row: str, side: str
) -> None:
    told = play(batch(events=reading(*values), thermometer=True), 9)
    assert said(told, "cold_long", "hot_long") == [(6, row)]
    noted = [write.reason for _, write in told.noted if write.kind == "heat"]
    assert noted == [f"readings too {side} for two days, day 7"]


def test_one_good_reading_is_no_temperature_that_is_off_for_long() -> None:
    values = reading((4, 27.0), (5, 26.5), (5, 29.5))
    assert said(play(batch(events=values), 9), "cold_long", "hot_long") == []

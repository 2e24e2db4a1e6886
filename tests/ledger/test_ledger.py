"""What a record adds up to: counts of the living, sales in parts, waiting days, feed that lasts."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from bot.handbook.husbandry import load_husbandry
from bot.husbandry.growth import feed_intake_g
from bot.ledger.ledger import ledger_of
from bot.ledger.settle import settled
from bot.ledger.stores import feed_stock
from tests.day.farms import CONTENT
from tests.ledger.records import PLACED, batch, event


def test_a_count_of_the_living_shows_a_gap_and_changes_no_figure() -> None:
    found = ledger_of(batch(event(1, "deaths", 2, n=4), event(2, "counted", 8, n=290))).birds
    assert (found.alive, found.gap) == (296, 6)


def test_what_explains_a_gap_closes_it_and_later_deaths_do_not() -> None:
    counted = event(1, "counted", 8, n=290)
    eaten = event(2, "eaten", 8, n=4, explains=1)
    late = event(3, "stolen", 5, n=3)
    died = event(4, "deaths", 9, n=2)
    found = ledger_of(batch(counted, eaten, late, died)).birds
    assert (found.alive, found.gap) == (291, 3)


def test_more_birds_counted_than_the_record_has_is_a_gap_as_well() -> None:
    found = ledger_of(batch(event(1, "deaths", 2, n=9), event(2, "counted", 3, n=294))).birds
    assert found.gap == -3


def test_a_correction_stands_for_what_it_corrects_until_it_is_taken_back() -> None:
    first = event(1, "sold", 40, n=40, price=700, price_per="bird")
    right = event(2, "sold", 40, n=14, price=700, price_per="bird", replaces=[1])
    assert ledger_of(batch(first, right)).money.income == 9800
    assert ledger_of(batch(first, replace(right, undone=True))).money.income == 28000


def test_a_correction_of_a_correction_does_not_wake_the_first_one() -> None:
    told = [event(1, "deaths", 3, n=9), event(2, "deaths", 3, n=6, replaces=[1])]
    told.append(event(3, "deaths", 3, n=5, replaces=[2]))
    assert ledger_of(batch(*told)).birds.out["deaths"] == 5
    assert settled(settled(told)) == settled(told)


def test_sales_in_parts_by_the_bird_the_kilo_and_all_together() -> None:
    money = ledger_of(
        batch(
            event(1, "sold", 36, n=40, price=700, price_per="bird"),
            event(2, "sold", 37, n=20, price=350.5, price_per="kg", kg=41.2),
            event(3, "sold", 38, n=30, price=19500, price_per="all"),
            event(4, "sold", 39, n=10, price=340, price_per="kg"),
            event(5, "sold", 40, n=5, price=None),
        )
    ).money
    assert [one.money for one in money.sales] == [28000, Decimal("14440.6"), 19500, None, None]
    assert (money.income, money.unpriced) == (Decimal("61940.6"), 15)


def test_what_was_spent_is_added_up_by_kind() -> None:
    money = ledger_of(
        batch(
            event(1, "expense", 0, amount=28500, on="chicks"),
            event(2, "expense", 1, amount=3200.5, on="feed"),
            event(3, "expense", 9, amount=3200.25, on="feed"),
            event(4, "expense", 9, amount=50),
        )
    ).money
    assert (money.spent["feed"], money.spent["other"]) == (Decimal("6400.75"), Decimal(50))
    assert money.out == Decimal("34950.75")


def test_the_longest_waiting_of_all_treatments_holds() -> None:
    treated = [event(1, "treated", 20, days=10), event(2, "treated", 25, days=2)]
    assert ledger_of(batch(*treated)).wait_ends == PLACED + timedelta(days=30)
    unknown = event(3, "treated", 26, days=None)
    assert ledger_of(batch(*treated, unknown)).wait_ends == date.max


def test_birds_eaten_or_stolen_did_not_die() -> None:
    told = [event(1, "dead_on_arrival", 0, n=10), event(2, "deaths", 3, n=29)]
    told += [event(3, "eaten", 30, n=50), event(4, "stolen", 31, n=5)]
    assert ledger_of(batch(*told, count=300)).birds.livability_pct == 90


def test_feed_lasts_until_the_day_that_the_table_says_for_the_birds_alive() -> None:
    book = load_husbandry(CONTENT)
    three_days = sum(feed_intake_g(age, book) for age in (10, 11, 12)) * 290 / 1000
    told = batch(event(1, "deaths", 9, n=10), event(2, "feed_in", 10, kg=round(three_days, 3) + 1))
    stock = feed_stock(told, PLACED + timedelta(days=10), book)
    assert stock is not None
    assert stock.until == PLACED + timedelta(days=12)


def test_what_was_told_and_not_applied_is_kept() -> None:
    doubted = event(1, "doubted", 9, of="deaths", n=900)
    found = ledger_of(batch(doubted))
    assert (found.birds.alive, found.doubted) == (300, (doubted,))

"""Settings: the air outside, an address that is one, local prices, limits."""

from __future__ import annotations

from dataclasses import fields, replace

import pytest

from bot.errors import SettingsError
from bot.facts.limits import Limits
from bot.settings import read_settings

LOOPBACK = {"BROODPOST_UNSIGNED": "1"}
YEAR = ",".join(["27/13.5"] * 12)


def test_twelve_months_of_day_and_night_are_read() -> None:
    found = read_settings({**LOOPBACK, "BROODPOST_NORMALS": YEAR}).monthly_normals
    assert found == ((27.0, 13.5),) * 12


def test_without_normals_and_weather_there_are_none() -> None:
    found = read_settings(LOOPBACK)
    assert (found.monthly_normals, found.weather_url) == ((), "")


@pytest.mark.parametrize(
    "normals", ["27/13", YEAR + ",27/13", YEAR.replace("27/13.5", "13/27"), "a" * 12, "27"]
)
def test_normals_that_can_t_be_right_are_refused_with_an_example(normals: str) -> None:
    with pytest.raises(SettingsError, match=r"twelve months of day/night in C, like"):
        read_settings({**LOOPBACK, "BROODPOST_NORMALS": normals})


def test_an_address_without_its_scheme_is_refused() -> None:
    with pytest.raises(SettingsError, match="BROODPOST_WEATHER_URL"):
        read_settings({**LOOPBACK, "BROODPOST_WEATHER_URL": "weather.example/daily"})


def test_local_prices_are_read_by_name() -> None:
    found = read_settings({**LOOPBACK, "BROODPOST_PRICES": "feed_bag=3200, chick=100,kg=250"})
    assert found.local_prices == {"feed_bag": 3200, "chick": 100, "kg": 250}


@pytest.mark.parametrize("prices", ["feed=3200", "feed_bag", "feed_bag=much", "kg=-1", "chick=0"])
def test_prices_that_can_not_be_are_refused(prices: str) -> None:
    with pytest.raises(SettingsError):
        read_settings({**LOOPBACK, "BROODPOST_PRICES": prices})


def test_every_limit_can_be_set_by_its_name() -> None:
    for one in fields(Limits):
        found = read_settings({**LOOPBACK, "BROODPOST_LIMITS": f" {one.name} = 7"}).house.limits
        assert found == replace(Limits(), **{one.name: 7})


@pytest.mark.parametrize(
    "limits", ["answers_day", "answers_day=many", "answers=3", "mute_hours=0", "answers_day=4000"]
)
def test_limits_that_can_not_be_are_refused(limits: str) -> None:
    with pytest.raises(SettingsError, match="BROODPOST_LIMITS"):
        read_settings({**LOOPBACK, "BROODPOST_LIMITS": limits})

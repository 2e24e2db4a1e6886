"""Our figures against standards, printed formulas and worked examples that our own table of facts
does not hold, or that our code reaches by another way. The source stands beside each check."""

from __future__ import annotations

from fractions import Fraction
from math import atan, exp, sqrt
from statistics import NormalDist

import pytest

from bot.handbook.shape_husbandry import Husbandry
from tests.outside.asking import ask, number


def exact_tail(count: int, rate: Fraction, least: int) -> float:
    """P(X >= least) in whole fractions, from the smaller terms: no logarithm, no rounding."""
    below, term = Fraction(0), (1 - rate) ** count
    for dead in range(least):
        below += term
        term *= Fraction(count - dead, dead + 1) * rate / (1 - rate)
    return float(1 - below)


# The binomial law (any textbook), with the rate of the Vencobb 400 manual: 0.8 % in the first
# seven days, 0.45 % in the next, 0.75 % from day 28 to 35, spread evenly over their days.
@pytest.mark.parametrize(
    ("count", "age", "dead", "week_pct"),
    [
        (300, 5, 4, "0.8"),
        (100, 0, 1, "0.8"),
        (1000, 6, 12, "0.8"),
        (500, 10, 3, "0.45"),
        (250, 30, 2, "0.75"),
        (2000, 3, 2, "0.8"),
    ],
)
def test_rare_deaths_are_told_by_the_exact_binomial_tail(
    h: Husbandry, count: int, age: int, dead: int, week_pct: str
) -> None:
    rate = Fraction(week_pct) / 700
    found = ask(h, f"deaths-expected count={count} age_days={age} dead={dead}")
    assert found.value == pytest.approx(float(count * rate), rel=1e-5)
    assert found.extra["tail_probability"] == pytest.approx(exact_tail(count, rate, dead), rel=1e-5)


def saturated_hpa(celsius: float) -> float:
    """WMO-No. 8, Annex 4.B: pressure of water vapour over water (from memory)."""
    return 6.112 * exp(17.62 * celsius / (243.12 + celsius))


# WMO-No. 8, Annex 4.B: the ventilated psychrometer at 1013.25 hPa (from memory).
@pytest.mark.parametrize("celsius", [10, 20, 26.7, 30, 35, 40])
@pytest.mark.parametrize("humidity", [20, 40, 60, 80, 100])
def test_the_wet_bulb_is_that_of_a_psychrometer(
    h: Husbandry, celsius: float, humidity: int
) -> None:
    asked = f"heat-stress temperature_c={celsius} humidity_pct={humidity} age_days=30"
    wet = float(ask(h, asked).extra["wet_bulb_c"])
    factor = 6.53e-4 * (1 + 0.000944 * wet) * 1013.25
    vapour = saturated_hpa(wet) - factor * (celsius - wet)
    assert 100 * vapour / saturated_hpa(celsius) == pytest.approx(humidity, abs=1)


# Stull 2011, J. Appl. Meteor. Climatol. 50:2267: wet bulb by a fitted formula, its printed error
# -1.0 to +0.65 C (the air of a hot house is well within its range); worked point 20 C, 50 %: 13.7.
@pytest.mark.parametrize("celsius", [20, 26.7, 30, 35])
@pytest.mark.parametrize("humidity", [50, 60, 80, 95])
def test_the_wet_bulb_is_that_of_stulls_formula(
    h: Husbandry, celsius: float, humidity: int
) -> None:
    asked = f"heat-stress temperature_c={celsius} humidity_pct={humidity} age_days=30"
    stull = (
        celsius * atan(0.151977 * sqrt(humidity + 8.313659))
        + atan(celsius + humidity)
        - atan(humidity - 1.676331)
        + 0.00391838 * humidity**1.5 * atan(0.023101 * humidity)
        - 4.686035
    )
    if (celsius, humidity) == (20, 50):
        assert stull == pytest.approx(13.7, abs=0.05)
    assert -1.0 <= stull - float(ask(h, asked).extra["wet_bulb_c"]) <= 0.65


# Ross Broiler Management Handbook, appendix on efficiency (from memory): two worked examples. The
# third is Poultry Performance Plus, European broiler index (read): 361.5, gain rounded to 61 g.
@pytest.mark.parametrize(
    ("live", "kg", "days", "fcr", "printed"),
    [(97.2, 2.652, 42, 1.75, 351), (96.9, 3.006, 46, 1.83, 346), (96, 2.257, 37, 1.62, 361)],
)
def test_the_index_is_that_of_flocks_worked_in_print(
    h: Husbandry, live: float, kg: float, days: int, fcr: float, printed: int
) -> None:
    asked = f"livability_pct={live} weight_kg={kg} age_days={days} feed_conversion={fcr}"
    assert round(number(h, f"production-index {asked}")) == printed


@pytest.mark.parametrize("cv", [4, 7, 10, 14, 20])
def test_the_share_near_the_mean_is_that_of_the_normal_curve(h: Husbandry, cv: int) -> None:
    curve = NormalDist(1000, 10 * cv)  # Python's own normal curve
    share = 100 * (curve.cdf(1100) - curve.cdf(900))
    assert number(h, f"uniformity cv_pct={cv}") == pytest.approx(share, rel=1e-4)


# The confidence interval of a mean (any textbook): enough birds, and one fewer is not enough.
@pytest.mark.parametrize(("cv", "error"), [(10, 3), (8, 2), (12, 5), (15, 1), (9.5, 4.5)])
def test_fewer_birds_than_the_sample_would_miss_the_error(
    h: Husbandry, cv: float, error: float
) -> None:
    birds = number(h, f"sample-size cv_pct={cv} error_pct={error}")
    assert 1.96 * cv / sqrt(birds) <= error < 1.96 * cv / sqrt(birds - 1)


# Ross 308 performance objectives 2019: the columns of a printed table must agree with each other.
@pytest.mark.parametrize("age", range(2, 50))
def test_the_daily_table_agrees_with_itself(h: Husbandry, age: int) -> None:
    weight, day, total, ratio = (
        number(h, f"{name} age_days={age}")
        for name in ("weight", "feed-intake", "feed-total", "feed-conversion")
    )
    before = number(h, f"feed-total age_days={age - 1}")
    assert ratio == pytest.approx(total / weight, abs=0.5 / weight + 0.004)
    assert day == pytest.approx(total - before, abs=1)


# Vencobb 400, between its weeks, as a research group read it: scipy's interp1d (straight lines)
# in the GBADs programme's breed standards script.
@pytest.mark.parametrize(("age", "grams"), [(10, 301.43), (24, 1075), (31, 1610.71)])
def test_a_weekly_table_is_read_as_others_read_it(h: Husbandry, age: int, grams: float) -> None:
    assert number(h, f"weight age_days={age} strain=vencobb400") == pytest.approx(grams, abs=0.01)


# Carbon monoxide at work: NIOSH 35 ppm (40 mg/m3) and OSHA 50 ppm (55 mg/m3) for a shift; NIOSH
# ammonia 25 ppm (18 mg/m3) for a shift (NIOSH Pocket Guide, from memory; ammonia read). Carbon
# dioxide 5000 ppm x 44.01 / 24.45 = 9000 mg/m3. Ours may be stricter, never laxer.
@pytest.mark.parametrize(("gas", "limit"), [("co", 40), ("nh3", 18), ("co2", 9000)])
def test_no_limit_of_a_shift_is_laxer_than_that_for_workers(
    h: Husbandry, gas: str, limit: float
) -> None:
    assert number(h, f"gas-limit gas={gas} who=people minutes=480") <= limit


# WHO prints 15 min, 1 h, 8 h and 24 h: a time between two takes the stricter.
@pytest.mark.parametrize(
    ("minutes", "limit"), [(1, 100), (15, 100), (16, 35), (60, 35), (61, 10), (481, 4), (1440, 4)]
)
def test_a_time_between_two_printed_ones_takes_the_stricter_limit(
    h: Husbandry, minutes: int, limit: float
) -> None:
    assert number(h, f"gas-limit gas=co who=people minutes={minutes}") == limit


# Farms.com, hot weather management: stress of grown birds begins at 26.7 C and is clear at 29.4.
@pytest.mark.parametrize(("celsius", "level"), [(26.5, "none"), (26.7, "watch"), (29.4, "act")])
def test_stress_begins_at_the_printed_temperatures_themselves(
    h: Husbandry, celsius: float, level: str
) -> None:
    asked = f"heat-stress temperature_c={celsius} humidity_pct=60 age_days=35"
    assert ask(h, asked).value == level


# EU 1/2005, Annex I, chapter VII, E (from memory): 180-200 cm2 a kg below 1.6 kg, 160 to 3 kg,
# 115 to 5 kg.
@pytest.mark.parametrize(("grams", "cm2_kg"), [(1000, 180), (1900, 160), (2900, 160), (4900, 115)])
def test_crates_give_every_bird_the_space_of_the_transport_rules(
    h: Husbandry, grams: int, cm2_kg: int
) -> None:
    birds = float(ask(h, f"sell-crates count=100 weight_g={grams}").extra["birds_a_crate"])
    assert 4100 / birds >= cm2_kg * grams / 1000

"""Figures about the birds: growth, feed, water, crops, deaths, how even and how well they did.
Each function reads its inputs and gives an `Answer`; listed in GROWTH for the registry."""

from __future__ import annotations

from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.asking import Answer, Asked, Inputs, tidy
from bot.husbandry.feed_water import crop_full_pct, feed_phase, water_ml
from bot.husbandry.growth import (
    DAILY_STRAIN,
    HOT_STRAIN,
    feed_conversion,
    feed_intake_g,
    feed_total_g,
    sample_size,
    seven_day_weight_g,
    uniformity_pct,
    weight_g,
)
from bot.husbandry.losses import death_rate_a_day, deaths_tail, deaths_verdict, expected_deaths
from bot.husbandry.money import production_index


def _weight(inputs: Inputs, h: Husbandry) -> Answer:
    age = inputs.whole("age_days")
    strain = inputs.choice("strain", tuple(h.growth), DAILY_STRAIN)
    found = weight_g(age, h, strain)
    table = h.growth[strain]
    basis = f"as hatched, {strain}: {table.note}"
    if found.interpolated:
        basis += "; this day is not in the weekly table: interpolated on a straight line"
    return Answer(tidy(found.value_g), "g", (table,), basis)


def _feed_intake(inputs: Inputs, h: Husbandry) -> Answer:
    age = inputs.whole("age_days")
    basis = f"as hatched, {DAILY_STRAIN}, {feed_phase(age, h)} by age unless the bag says otherwise"
    if age <= 1:
        basis += "; the table prints no daily figure here: the total of day 1"
    return Answer(feed_intake_g(age, h), "g a bird that day", (h.growth[DAILY_STRAIN],), basis)


def _feed_total(inputs: Inputs, h: Husbandry) -> Answer:
    basis = f"as hatched, {DAILY_STRAIN}, eaten from placement to that age"
    value = feed_total_g(inputs.whole("age_days"), h)
    return Answer(value, "g a bird", (h.growth[DAILY_STRAIN],), basis)


def _feed_conversion(inputs: Inputs, h: Husbandry) -> Answer:
    basis = f"{DAILY_STRAIN}, as printed: feed / live weight; the chick's own weight is not taken "
    basis += "off"
    value = feed_conversion(inputs.whole("age_days"), h)
    return Answer(value, "g feed a g live weight", (h.growth[DAILY_STRAIN],), basis)


def _water(inputs: Inputs, h: Husbandry) -> Answer:
    age = inputs.whole("age_days")
    temperature = inputs.number("temperature_c", 21.0)
    found = water_ml(age, h, temperature)
    basis = f"{h.water_ratio.value:g} x feed of that day ({h.water_ratio.note}), at "
    basis += f"{temperature:g} C; {h.water_rise.value:g} % more for each degree above "
    basis += f"{h.water_rise_from.value:g}, not compounded"
    cited = (h.water_ratio, h.water_rise, h.growth[DAILY_STRAIN])
    return Answer(
        tidy(found.value_ml),
        "ml a bird that day",
        cited,
        basis,
        tidy(found.low_ml),
        tidy(found.high_ml),
    )


def _crop_full(inputs: Inputs, h: Husbandry) -> Answer:
    basis = f"hours after the first feed; {h.crop_fill.note}; straight between. Feel 20 to 30 "
    basis += "chicks from different places"
    value = crop_full_pct(inputs.number("hours"), h)
    return Answer(tidy(value), "% of chicks", (h.crop_fill,), basis)


def _first_week_deaths(_inputs: Inputs, h: Husbandry) -> Answer:
    entry = h.first_week_deaths
    basis = "target for ages 0-6: at most this share of the chicks placed; dead on arrival is apart"
    return Answer(entry.value, "% of chicks placed", (entry,), basis, 0.0, entry.value)


def _seven_day_weight(inputs: Inputs, h: Husbandry) -> Answer:
    value = seven_day_weight_g(inputs.number("chick_g"), h)
    basis = f"{h.chick_multiple.value:g} x the weight at placement"
    return Answer(tidy(value), "g", (h.chick_multiple,), basis)


def _deaths_expected(inputs: Inputs, h: Husbandry) -> Answer:
    count, age = inputs.whole("count"), inputs.whole("age_days")
    dead = inputs.whole("dead")
    tail = deaths_tail(count, age, dead, h)
    basis = (
        f"{100 * death_rate_a_day(age, h):.4g} % a day at this age: the cumulative deaths of "
        f"{HOT_STRAIN}, straight between its weeks; tail_probability is the exact binomial chance "
        f"of {dead} or more. The danger rule is another: 2 % and at least 3 in one day"
    )
    extra = {"tail_probability": tidy(tail), "verdict": deaths_verdict(dead, count, h)}
    return Answer(
        tidy(expected_deaths(count, age, h)),
        "deaths that day",
        (h.growth[HOT_STRAIN],),
        basis,
        extra=extra,
    )


def _production_index(inputs: Inputs, h: Husbandry) -> Answer:
    value = production_index(
        inputs.number("livability_pct"),
        inputs.number("weight_kg"),
        inputs.number("age_days"),
        inputs.number("feed_conversion"),
        h,
    )
    return Answer(tidy(value), "index", (h.production_factor,), h.production_factor.note)


def _uniformity(inputs: Inputs, h: Husbandry) -> Answer:
    value = uniformity_pct(inputs.number("cv_pct"), h)
    basis = "share within 10 % of the mean if weights follow a normal curve: 2 Phi(10 / CV) - 1"
    return Answer(tidy(value), "% of birds", (h.uniformity_band,), basis)


def _sample_size(inputs: Inputs, h: Husbandry) -> Answer:
    value = sample_size(inputs.number("cv_pct"), inputs.number("error_pct"), h)
    basis = "(1.96 x CV / error)^2, rounded up: the mean is within the error 95 times in 100"
    return Answer(value, "birds", (h.confidence_z,), basis)


GROWTH = (
    Asked("weight", "age_days=21 strain=vencobb400", "live weight, as hatched [strain]", _weight),
    Asked("feed-intake", "age_days=21", "feed a bird that day", _feed_intake),
    Asked("feed-total", "age_days=21", "feed a bird since placement", _feed_total),
    Asked("feed-conversion", "age_days=35", "feed / live weight", _feed_conversion),
    Asked("water", "age_days=21 temperature_c=28", "water a bird that day [temperature_c]", _water),
    Asked("crop-full", "hours=8", "chicks with a full crop", _crop_full),
    Asked("first-week-deaths", "", "target for the first week", _first_week_deaths),
    Asked("seven-day-weight", "chick_g=42", "target weight at 7 days", _seven_day_weight),
    Asked(
        "deaths-expected",
        "count=300 age_days=5 dead=4",
        "deaths expected, and how rare so many are",
        _deaths_expected,
    ),
    Asked(
        "production-index",
        "livability_pct=95 weight_kg=1.85 age_days=44 feed_conversion=1.88",
        "how well a batch did",
        _production_index,
    ),
    Asked("uniformity", "cv_pct=10", "birds within 10 % of the mean", _uniformity),
    Asked("sample-size", "cv_pct=10 error_pct=3", "birds to weigh", _sample_size),
)

"""Figures that look ahead: a weight to come, tonight's cold, the day to sell.
Each function reads its inputs and gives an `Answer`; listed in AHEAD for the registry."""

from __future__ import annotations

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.asking import ECHOED, Answer, Asked, Inputs, Value, read_number, tidy
from bot.husbandry.brooder import Fill, Loss, Reading, learn_loss, usual_loss
from bot.husbandry.forecast import Weighing, forecast_weight, published_prior
from bot.husbandry.growth import HOT_STRAIN, weight_g
from bot.husbandry.heat import SECONDS_AN_HOUR, bird_heat_w
from bot.husbandry.limits import check
from bot.husbandry.night import forecast_night, foretell_night, night_fuel
from bot.husbandry.sale import Costs, Price, best_sale_day, growth_ahead
from bot.husbandry.temperature import spot_temperature_c


def _rows(inputs: Inputs, key: str, width: int, like: str) -> list[tuple[float, ...]]:
    """Rows of numbers as 7:190,14:440; none when the key was not given."""
    found = []
    for part in inputs.text(key, "").split(","):
        if not part.strip():
            continue
        try:
            row = tuple(read_number(key, number) for number in part.split(":"))
        except OutsideRange:
            row = ()
        if len(row) != width:
            raise OutsideRange(f"{key} {part[:ECHOED]} can't be read", like)
        found.append(row)
    return found


def _weighings(inputs: Inputs) -> tuple[Weighing, ...]:
    birds = inputs.whole("birds", 10)
    rows = _rows(inputs, "weighings", 2, "age:grams, such as 7:190,14:440")
    if any(age != age // 1 for age, _ in rows):
        raise OutsideRange("an age in weighings is no whole number", "7:190,14:440")
    return tuple(Weighing(int(age), grams, birds) for age, grams in rows)


def _weight_forecast(inputs: Inputs, h: Husbandry) -> Answer:
    weighings = _weighings(inputs)
    found = forecast_weight(weighings, inputs.whole("age_days"), published_prior(h))
    basis = (
        f"{HOT_STRAIN} as what is usual, moved by {len(weighings)} weighings; low to high holds "
        "80 of 100 batches"
    )
    cited = (h.growth[HOT_STRAIN], h.growth_pace_sd, h.bird_cv)
    low, high = tidy(found.low_g), tidy(found.high_g)
    return Answer(tidy(found.value_g), "g", cited, basis, low, high)


def _loss(inputs: Inputs, birds_w: float, h: Husbandry) -> Loss:
    kind = inputs.choice("kind", tuple(h.fuels), "charcoal")
    air = inputs.number("air_m3h", 0) * h.air_density.value * h.air_heat.value / SECONDS_AN_HOUR
    prior = usual_loss(inputs.number("shell_w_k"), air, kind, h)
    rows = _rows(inputs, "nights", 4, "kg:hours:inside:outside, such as 4:12:29:15,4:12:30:16")
    for _, _, inside, outside in rows:
        check("nights: inside", inside, 0, 50, "degrees C")
        check("nights: outside", outside, -20, 50, "degrees C")
    fills = [
        Fill(kg, hours, birds_w, (Reading(inside, outside),), len(rows) - i)
        for i, (kg, hours, inside, outside) in enumerate(rows)
    ]
    return learn_loss(prior, fills, h)


def _cold_night(inputs: Inputs, h: Husbandry) -> Answer:
    age, count = inputs.whole("age_days"), inputs.whole("count")
    target = spot_temperature_c(age, h)
    birds = count * bird_heat_w(weight_g(age, h).value_g, target.value_c, h).sensible_w
    loss = _loss(inputs, birds, h)
    outside = forecast_night(inputs.number("high_c"), inputs.number("low_c"), h)
    found = foretell_night(loss, inputs.number("fuel_kg_h"), birds, outside, target.low_c, h)
    fuel = night_fuel(loss, birds, outside, target.value_c, h)
    known = f"learnt from {loss.readings} readings" if loss.learnt else "computed from the walls"
    basis = (
        f"lowest inside; the brooder's loss {loss.value:.3g} kg an hour and C ({loss.low:.3g} to "
        f"{loss.high:.3g}), {known}; low limit {target.low_c:g} C. Fuel is a rough range: round "
        "up. No opening makes a fire inside safe"
    )
    extra: dict[str, Value] = {
        "chance_of_cold": tidy(found.chance),
        "cold_from_hour": "none" if found.cold_from is None else found.cold_from,
        "fuel_kg_h": tidy(fuel.value_kg_h),
        "fuel_low_kg_h": tidy(fuel.low_kg_h),
        "fuel_high_kg_h": tidy(fuel.high_kg_h),
    }
    cited = (h.loss_sd, h.fuels[loss.kind], h.bird_heat)
    return Answer(
        tidy(found.lowest_c), "C", cited, basis, tidy(found.low_c), tidy(found.high_c), extra
    )


def _sale_day(inputs: Inputs, h: Husbandry) -> Answer:
    count, age = inputs.whole("count"), inputs.whole("age_days")
    grades = _rows(inputs, "grades", 2, "grams:price, such as 1200:300,1500:380")
    price = Price(inputs.number("price_kg", 0), tuple((a, b) for a, b in grades))
    again = inputs.choice("again", ("yes", "no"), "yes") == "yes"
    costs = Costs(
        inputs.number("feed_price_kg"),
        inputs.number("house_day", 0),
        inputs.number("spent", 0),
        again,
    )
    growth = growth_ahead(_weighings(inputs), age, published_prior(h))
    found = best_sale_day(count, growth, price, costs, h)
    words = "the most money a day of the round" if again else "the most money of this batch"
    basis = (
        f"{words}; waiting costs feed, deaths and the house. Low to high: days within 1 % of the "
        f"best. {h.empty_days.value:g} empty days between batches"
    )
    extra: dict[str, Value] = {
        "weight_g": tidy(found.best.weight_g),
        "margin": tidy(found.best.margin),
        "lost_by_selling_today": tidy(found.options[0].behind),
    }
    low, high = min(found.as_good), max(found.as_good)
    cited = (h.growth[HOT_STRAIN], h.empty_days)
    return Answer(found.best.age_days, "days old", cited, basis, low, high, extra)


AHEAD = (
    Asked(
        "weight-forecast",
        "age_days=35 weighings=7:185,14:430",
        "a weight to come [weighings birds]",
        _weight_forecast,
    ),
    Asked(
        "cold-night",
        "age_days=3 count=300 shell_w_k=110 high_c=27 low_c=13 fuel_kg_h=0.4",
        "the brooder tonight [kind air_m3h nights]",
        _cold_night,
    ),
    Asked(
        "sale-day",
        "count=290 age_days=28 weighings=21:840,28:1350 price_kg=250 feed_price_kg=65",
        "the best day to sell [grades birds house_day spent again]",
        _sale_day,
    ),
)

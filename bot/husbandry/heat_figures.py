"""Figures about air, heat, fuel, heat stress and gases.
Each function reads its inputs and gives an `Answer`; listed in HEAT for the registry."""

from __future__ import annotations

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Entry, Husbandry
from bot.husbandry.air import carbon_monoxide_mg_m3, gas_limit, minimum_air_m3h
from bot.husbandry.asking import Answer, Asked, Inputs, Value, tidy
from bot.husbandry.growth import DAILY_STRAIN, weight_g
from bot.husbandry.heat import (
    HeatNeed,
    air_of_changes_m3h,
    bird_heat_w,
    check_floor_for,
    check_house,
    fuel_kg,
    heat_needed,
    shell_w_k,
)
from bot.husbandry.limits import check_age
from bot.husbandry.stress import heat_stress, wet_bulb_c

FIRES = ("unvented", "flued", "none")
CAUTION = "not enough for a fire inside"
MOST_CHARCOAL_W = 8000.0  # 50 kg of charcoal a day, the end of the computation
SIZES = ("length_m", "width_m", "height_m", "walls")


def _minimum_air(inputs: Inputs, h: Husbandry) -> Answer:
    found = minimum_air_m3h(inputs.number("weight_g"), inputs.whole("count"), h)
    basis = f"{h.minimum_air.value:g} x W^0.75 m3/h a bird, W in kg; low: {h.minimum_air.low:g} "
    basis += f"(Charles and others 1981). Caution: {CAUTION}"
    return Answer(
        tidy(found.value_m3h),
        "m3/h",
        (h.minimum_air,),
        basis,
        tidy(found.low_m3h),
        extra={"caution": CAUTION},
    )


def _bird_heat(inputs: Inputs, h: Husbandry) -> Answer:
    found = bird_heat_w(inputs.number("weight_g"), inputs.number("temperature_c"), h)
    basis = "10.62 m^0.75 W at 20 C; a 1000 W: total 1000 + 20 (20 - t), sensible 0.61 of that "
    basis += "less 0.228 t^2, not below 0"
    return Answer(
        tidy(found.total_w),
        "W a bird",
        (h.bird_heat,),
        basis,
        extra={"sensible": tidy(found.sensible_w)},
    )


Said = tuple[float, str, tuple[Entry, ...]]  # a value, how to say it, the tables it rests on


def _bird_weight(inputs: Inputs, h: Husbandry) -> Said:
    """The weight [g] given, or the daily table's at age_days."""
    if inputs.has("weight_g"):
        given = inputs.number("weight_g")
        if inputs.has("age_days"):
            check_age(inputs.whole("age_days"))
        return given, f"{given:g} g", ()
    if not inputs.has("age_days"):
        raise OutsideRange("weight_g or age_days is missing", "weight_g=... or age_days=...")
    age = inputs.whole("age_days")
    found = weight_g(age, h).value_g
    return found, f"{found:g} g ({DAILY_STRAIN} at {age} days)", (h.growth[DAILY_STRAIN],)


def _shell(inputs: Inputs, count: int, h: Husbandry) -> tuple[float, float | None, str]:
    """Shell [W/K], the air of open tops [m3/h] where sizes are given, and the words for it."""
    sized = [key for key in SIZES if inputs.has(key)]
    fire = inputs.choice("fire", FIRES, "unvented")
    if inputs.has("shell_w_k"):
        if sized:
            raise OutsideRange(f"shell_w_k and {sized[0]} were both given", "one of the two")
        return inputs.number("shell_w_k"), None, "shell as given"
    if not sized:
        raise OutsideRange("the shell is missing", f"shell_w_k=... or {' '.join(SIZES)}")
    length, width, height = (inputs.number(key) for key in SIZES[:3])
    walls = inputs.choice("walls", tuple(h.wall_loss))
    check_house(length, width, height)
    check_floor_for(count, length, width)
    shell = shell_w_k(length, width, height, walls, h)
    words = f"walls of {walls} at {h.wall_loss[walls].value:g} W/(m2 K), one metal sheet as roof at"
    words += f" {h.roof_loss.value:g}, floor at {h.floor_loss.value:g} (from memory)"
    changes = air_of_changes_m3h(length, width, height, h) if fire == "unvented" else None
    return shell, changes, words


def _air(inputs: Inputs, minimum: float, changes: float | None, h: Husbandry) -> Said:
    """The fresh air [m3/h] that must be warmed."""
    if inputs.has("air_m3h"):
        return inputs.number("air_m3h"), "air as given", ()
    if changes is not None and changes >= minimum:
        words = f"air: {h.air_changes.value:g} changes an hour, because a fire without a flue needs"
        return changes, words + " the top open on two sides", (h.air_changes,)
    return minimum, "air: minimum ventilation of the birds (minimum-air)", (h.minimum_air,)


def _heat_needed(inputs: Inputs, h: Husbandry) -> Answer:
    count = inputs.whole("count")
    weight, weight_words, weighed = _bird_weight(inputs, h)
    minimum = minimum_air_m3h(weight, count, h).value_m3h
    shell, changes, shell_words = _shell(inputs, count, h)
    air, air_words, aired = _air(inputs, minimum, changes, h)
    inside, outside = inputs.number("inside_c"), inputs.number("outside_c")
    need = heat_needed(inside, outside, shell, air, count, weight, h)
    basis = (
        f"({need.shell_w_k:.1f} W/K shell + air x {h.air_density.value:g} kg/m3 x "
        f"{h.air_heat.value:g} J/(kg K)) x {inside - outside:g} K - sensible heat of {count} birds "
        f"of {weight_words}; {shell_words}; {air_words}. {CAUTION.capitalize()}"
    )
    if need.need_w < 0:
        basis += ". Below 0: the birds cover the loss, no fuel is needed"
    extra: dict[str, Value] = {
        "shell_w_k": tidy(need.shell_w_k),
        "air_m3h": tidy(need.air_m3h),
        "loss_w": tidy(need.loss_w),
        "birds_w": tidy(need.birds_w),
    }
    cited: tuple[Entry, ...] = (h.bird_heat, *aired, *weighed)
    if inputs.given.get("fire", FIRES[0]) == FIRES[0] and 0 < need.need_w < MOST_CHARCOAL_W:
        smoke, limit = _smoke_of_charcoal(need, h), gas_limit("co", "people", h).value
        if smoke > limit:  # a small fire's figure would read like a promise
            extra["carbon_monoxide_mg_m3"] = tidy(smoke)
            basis += _smoke_words(smoke, limit)
            cited += (h.charcoal_co,)
    if "walls" in inputs.given:
        cited += (h.roof_loss,)
    return Answer(tidy(need.need_w), "W", cited, basis, extra=extra)


def _smoke_of_charcoal(need: HeatNeed, h: Husbandry) -> float:
    """Carbon monoxide [mg/m3] if charcoal gave this heat and its smoke went into this air."""
    charcoal = fuel_kg(need.need_w, 24, "charcoal", h).value_kg
    return carbon_monoxide_mg_m3(charcoal, max(1.0, need.air_m3h), h)


def _smoke_words(smoke: float, limit: float) -> str:
    words = f". Why a flue, or the fire outside the wall: charcoal inside gives {smoke:.0f} mg/m3 "
    return words + f"of carbon monoxide in this air; the 8-hour limit for people is {limit:g}"


def _fuel(inputs: Inputs, h: Husbandry) -> Answer:
    kind = inputs.choice("kind", tuple(h.fuels))
    heat_w, hours = inputs.number("heat_w"), inputs.number("hours")
    share = inputs.maybe_number("efficiency")
    need = fuel_kg(heat_w, hours, kind, h, share)
    low, usual, high = need.fuel.share
    basis = f"heat x time / ({need.fuel.heating_mj_kg:g} MJ/kg x share that warms the brooder, "
    basis += f"{usual:g} ({low:g} to {high:g}))" if share is None else f"{share:g} as given)"
    basis += f"; {need.fuel.note}"
    if not need.fuel.vented:
        basis += ". Its smoke stays inside: no opening makes a fire inside safe"
    return Answer(
        tidy(need.value_kg), "kg", (need.fuel,), basis, tidy(need.low_kg), tidy(need.high_kg)
    )


def _heat_stress(inputs: Inputs, h: Husbandry) -> Answer:
    temperature, humidity = inputs.number("temperature_c"), inputs.number("humidity_pct")
    found = heat_stress(temperature, humidity, inputs.whole("age_days"), h)
    basis = (
        "index 0.85 dry bulb + 0.15 wet bulb (C, still air); watch from "
        f"{h.stress_watch.value:g}, act from {h.stress_act.value:g}, danger from "
        f"{h.stress_danger.value:g}. The index was published for market-size broilers of 46 days; "
        "panting birds outrank it"
    )
    extra: dict[str, Value] = {
        "index": tidy(found.index_c),
        "index_name": "temperature-humidity index for broilers, 0.85 Tdb + 0.15 Twb",
        "published_for": "market-size male broilers, 46 days, 2.8 kg",
        "wet_bulb_c": tidy(wet_bulb_c(temperature, humidity)),
    }
    cited = (h.stress_dry, h.stress_watch, h.stress_danger)
    return Answer(found.level, "level", cited, basis, extra=extra)


def _gas_limit(inputs: Inputs, h: Husbandry) -> Answer:
    gas = inputs.choice("gas", ("co", "co2", "nh3"))
    who = inputs.choice("who", ("people", "birds"))
    found = gas_limit(gas, who, h, inputs.maybe_number("minutes"))
    basis = "the most that may be breathed"
    if found.minutes:
        times = ", ".join(f"{limit:g} in {time:g} min" for time, limit in found.entry.points)
        basis += f" on average over {found.minutes:g} minutes; published: {times}"
    basis += f". {found.entry.note or 'the same in both sources'}"
    return Answer(
        found.value,
        found.entry.unit,
        (found.entry,),
        basis,
        extra={"minutes": found.minutes} if found.minutes else {},
    )


HEAT = (
    Asked("minimum-air", "weight_g=60 count=200", f"fresh air; {CAUTION}", _minimum_air),
    Asked("bird-heat", "weight_g=500 temperature_c=26", "heat of one bird", _bird_heat),
    Asked(
        "heat-needed",
        "outside_c=18 inside_c=32 shell_w_k=25 count=200 weight_g=60",
        "heat for a brooder: shell_w_k, or length_m width_m height_m walls [fire]; count with "
        "weight_g or age_days [air_m3h]",
        _heat_needed,
    ),
    Asked("fuel", "heat_w=370 hours=24 kind=charcoal", "fuel for a heat [efficiency]", _fuel),
    Asked(
        "heat-stress",
        "temperature_c=32 humidity_pct=60 age_days=30",
        "heat stress from age 21",
        _heat_stress,
    ),
    Asked("gas-limit", "gas=co who=people minutes=60", "limit of a gas [minutes]", _gas_limit),
)

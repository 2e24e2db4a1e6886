"""Figures about the house: temperature, floor, equipment, light, litter, crates.
Each function reads its inputs and gives an `Answer`; listed in HOUSE for the registry."""

from __future__ import annotations

from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.asking import Answer, Asked, Inputs, tidy
from bot.husbandry.money import birds_a_crate, crates_needed
from bot.husbandry.space import (
    birds_per_m2,
    capacity_birds,
    capacity_with_equipment,
    default_drinker,
    default_feeder,
    drinkers_needed,
    feeders_needed,
    floor_needed,
    light,
    litter_bags,
    litter_m3,
)
from bot.husbandry.temperature import air_temperature_c, spot_temperature_c


def _air_temperature(inputs: Inputs, h: Husbandry) -> Answer:
    value = air_temperature_c(inputs.whole("age_days"), inputs.number("humidity_pct"), h)
    basis = (
        "air at chick height in a brooder or house warmed evenly; straight lines between the "
        "rows (every 3 days) and columns (40, 50, 60, 70 % humidity) of the table. Behaviour of "
        "the chicks outranks the number"
    )
    return Answer(tidy(value), "C", (h.air_temperature,), basis)


def _spot_temperature(inputs: Inputs, h: Husbandry) -> Answer:
    age = inputs.whole("age_days")
    target = spot_temperature_c(age, h)
    if target.rule == "line":
        basis = "34 - age in days, not below 28.5, 1.5 either side; at chick height under the edge"
        basis += " of the heat. At ages 10-13 it holds for the night; a day reading down to 25 is"
        basis += " no cold while they stay spread"
        cited = (h.spot_start, h.spot_fall, h.spot_floor, h.spot_band)
        return Answer(target.value_c, "C", cited, basis, target.low_c, target.high_c)
    basis = "ages 14-20, only where nights are cold; at chick height under the edge of the heat"
    return Answer(target.value_c, "C", (h.late_spot,), basis, target.low_c, target.high_c)


def _litter_temperature(_inputs: Inputs, h: Husbandry) -> Answer:
    entry = h.litter_temperature
    basis = "feel or measure the litter before the chicks come; " + entry.note
    return Answer(entry.value, "C", (entry,), basis, entry.low, entry.high)


def _space(inputs: Inputs, h: Husbandry) -> Answer:
    basis = "clear floor, in steps at ages 0, 7, 14, 21, 28; add the equipment (brooder-area). "
    basis += f"{h.birds_per_m2.note}. From age {h.density_from_age.value:g} also keep below "
    basis += f"{h.density_caution.value:g} kg of live birds a m2"
    value = birds_per_m2(inputs.whole("age_days"), h)
    return Answer(value, "birds/m2", (h.birds_per_m2, h.density_caution), basis)


def _brooder_area(inputs: Inputs, h: Husbandry) -> Answer:
    count, age = inputs.whole("count"), inputs.whole("age_days")
    need = floor_needed(
        count,
        age,
        h,
        feeders=inputs.maybe_whole("feeders"),
        drinkers=inputs.maybe_whole("drinkers"),
        stoves=inputs.maybe_whole("stoves"),
    )
    feeder, drinker = h.feeders[need.feeder_kind], h.drinkers[need.drinker_kind]
    basis = (
        f"{count} birds / {birds_per_m2(age, h):g} a m2 = {need.birds_m2:.2f} m2, and equipment "
        f"{need.equipment_m2:.2f} m2: {need.feeders} {need.feeder_kind} feeders of "
        f"{feeder.footprint_m2:g} m2, {need.drinkers} {need.drinker_kind} drinkers of "
        f"{drinker.footprint_m2:g} m2, {need.stoves} stoves with their ring of "
        f"{h.stove_footprint.value:g} m2 (footprints: common practice)"
    )
    cited = (h.birds_per_m2, feeder, drinker, h.birds_per_stove, h.stove_footprint)
    extra = {"birds_m2": tidy(need.birds_m2), "equipment_m2": tidy(need.equipment_m2)}
    return Answer(tidy(need.total_m2), "m2", cited, basis, extra=extra)


def _capacity(inputs: Inputs, h: Husbandry) -> Answer:
    house_m2, age = inputs.number("house_m2"), inputs.whole("age_days")
    value = capacity_birds(house_m2, age, h)
    low = capacity_with_equipment(house_m2, age, h)
    basis = f"clear floor x {birds_per_m2(age, h):g} birds a m2, rounded down; low: with feeders, "
    basis += "drinkers and stoves standing on the same floor"
    return Answer(value, "birds", (h.birds_per_m2,), basis, low, value)


def _feeders(inputs: Inputs, h: Husbandry) -> Answer:
    count, age = inputs.whole("count"), inputs.whole("age_days")
    kind = inputs.choice("kind", tuple(h.feeders), default_feeder(age, h))
    entry = h.feeders[kind]
    basis = f"kind {kind}: {entry.note}; rounded up. {h.tray_until_age.note}"
    return Answer(
        feeders_needed(count, age, h, kind), entry.unit, (entry,), basis, extra={"kind": kind}
    )


def _drinkers(inputs: Inputs, h: Husbandry) -> Answer:
    count, age = inputs.whole("count"), inputs.whole("age_days")
    kind = inputs.choice("kind", tuple(h.drinkers), default_drinker(age, h))
    entry = h.drinkers[kind]
    basis = f"kind {kind}: {entry.note}; rounded up"
    return Answer(
        drinkers_needed(count, age, h, kind), entry.unit, (entry,), basis, extra={"kind": kind}
    )


def _light(inputs: Inputs, h: Husbandry) -> Answer:
    found = light(inputs.whole("age_days"), h)
    basis = f"{h.light_hours.note}; longest_dark_h is the least length of the longest dark piece"
    extra = {"dark_h": 24 - found.light_h, "longest_dark_h": found.dark_piece_h}
    return Answer(
        found.light_h, "hours of light a day", (h.light_hours, h.dark_piece), basis, extra=extra
    )


def _litter(inputs: Inputs, h: Husbandry) -> Answer:
    volume = litter_m3(inputs.number("area_m2"), inputs.number("depth_cm"))
    depth = h.litter_depth
    basis = f"area x depth; {depth.low:g} to {depth.high:g} cm is usual; a sack holds about "
    basis += f"{h.litter_bag.value:g} m3 ({h.litter_bag.note})"
    extra = {"bags": litter_bags(volume, h)}
    return Answer(tidy(volume), "m3", (depth, h.litter_bag), basis, extra=extra)


def _sell_crates(inputs: Inputs, h: Husbandry) -> Answer:
    count, weight_g = inputs.whole("count"), inputs.number("weight_g")
    each = birds_a_crate(weight_g, h)
    basis = f"{each} birds a crate: floor {h.crate_floor.value:g} cm2 ({h.crate_floor.note}) by "
    basis += "the space a kg of the transport rules; rounded up. Fewer a crate on a hot day"
    extra = {"birds_a_crate": each}
    return Answer(
        crates_needed(count, weight_g, h),
        "crates",
        (h.crate_space, h.crate_floor),
        basis,
        extra=extra,
    )


HOUSE = (
    Asked(
        "air-temperature",
        "age_days=3 humidity_pct=60",
        "air temperature of a brooder warmed evenly, by humidity",
        _air_temperature,
    ),
    Asked(
        "spot-temperature",
        "age_days=3",
        "temperature under the edge of the heat, ages 0-20",
        _spot_temperature,
    ),
    Asked("litter-temperature", "", "litter before the chicks come", _litter_temperature),
    Asked("space", "age_days=10", "birds a m2 of floor", _space),
    Asked(
        "brooder-area",
        "count=300 age_days=0",
        "floor with equipment [drinkers feeders stoves]",
        _brooder_area,
    ),
    Asked("capacity", "house_m2=30 age_days=28", "birds that a floor holds", _capacity),
    Asked("feeders", "count=300 age_days=3 kind=tray", "feeders [kind]", _feeders),
    Asked("drinkers", "count=300 age_days=3 kind=fount", "drinkers [kind]", _drinkers),
    Asked("light", "age_days=7", "hours of light and the longest dark piece", _light),
    Asked("litter", "area_m2=9 depth_cm=8", "volume and sacks of litter", _litter),
    Asked("sell-crates", "count=290 weight_g=1900", "crates for a sale", _sell_crates),
)

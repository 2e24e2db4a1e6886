"""Every figure by name: its example works, and bad input is refused kindly."""

from __future__ import annotations

import json
from contextlib import suppress

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from bot.doors.cli.figure import MORE, figure_command
from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.asking import UnknownFigure
from bot.husbandry.figures import REGISTRY, figure

NAMES = [
    "air-temperature",
    "spot-temperature",
    "litter-temperature",
    "space",
    "brooder-area",
    "capacity",
    "weight",
    "feed-intake",
    "feed-total",
    "feed-conversion",
    "water",
    "feeders",
    "drinkers",
    "light",
    "litter",
    "crop-full",
    "first-week-deaths",
    "seven-day-weight",
    "deaths-expected",
    "minimum-air",
    "bird-heat",
    "heat-needed",
    "fuel",
    "heat-stress",
    "production-index",
    "uniformity",
    "sample-size",
    "sell-crates",
    "gas-limit",
    "parts",
]
AHEAD = ["weight-forecast", "cold-night", "sale-day"]
KEYS = ["name", "inputs", "value", "unit", "low", "high", "source", "basis"]


def typed(*words: str) -> tuple[int, dict[str, object]]:
    """What the command answers, and its exit code."""
    done = CliRunner().invoke(figure_command, list(words))
    assert done.output.count("\n") == 1
    return done.exit_code, json.loads(done.output)


def test_the_names_are_the_stable_ones() -> None:
    assert {**REGISTRY, **MORE}.keys() == {*NAMES, *AHEAD}


@pytest.mark.parametrize("name", [*NAMES, *AHEAD])
def test_the_example_of_every_figure_works(name: str) -> None:
    asked = {**REGISTRY, **MORE}[name]
    words = [asked.example] if name == "parts" else asked.example.split()
    code, found = typed(name, *(word.replace('"', "") for word in words))
    assert code == 0
    assert list(found)[: len(KEYS)] == KEYS
    assert found["name"] == name
    assert found["source"]
    assert found["unit"]


@pytest.mark.parametrize(
    ("line", "valid"),
    [
        ("weight age_days=90", "0 to 49"),
        ("space age_days=90", "0 to 56"),
        ("spot-temperature age_days=21", "0 to 20"),
        ("bird-heat weight_g=60 temperature_c=70", "0 to 45"),
        ("heat-stress temperature_c=70 humidity_pct=60 age_days=30", "0 to 50"),
        ("heat-stress temperature_c=30 humidity_pct=60 age_days=20", "21 to 56"),
        ("brooder-area count=0 age_days=3", "1 to 50000"),
        ("minimum-air weight_g=60 count=-5", "1 to 50000"),
        (
            "production-index livability_pct=95 weight_kg=-2 age_days=40 feed_conversion=1.8",
            "0.1 to 6",
        ),
        ("sell-crates count=100 weight_g=1.9", "grams"),
        ("fuel heat_w=-66.7 hours=24 kind=charcoal", "no fire"),
        ("fuel heat_w=300 hours=24 kind=dung", "charcoal"),
        ("gas-limit gas=o2 who=people", "co, co2, nh3"),
        ("water age_days=20 temperature_c=90", "degrees C"),
        ("light age_days=7.5", "1, 2, 3"),
        ("litter area_m2=much depth_cm=8", "number"),
        ("litter area_m2=nan depth_cm=8", "number"),
        ("litter area_m2=inf depth_cm=8", "number"),
        ("litter area_m2=9", "for example"),
        ("litter area_m2=9 depth_cm=8 colour=red", "area_m2, depth_cm"),
        ("litter area_m2=9 area_m2=8 depth_cm=8", "once"),
        ("litter 9 8", "key=value"),
        ("no-such-figure", "spot-temperature"),
        ("heat-needed outside_c=18 inside_c=30 count=200 weight_g=60", "shell_w_k"),
        ("heat-needed outside_c=18 inside_c=30 shell_w_k=25 count=200", "weight_g"),
        ("weight-forecast age_days=35 weighings=7-190", "7:190"),
        ("weight-forecast age_days=90", "0 to 49"),
        ("weight-forecast age_days=35 weighings=7:-190", "25 to 6000"),
        ("sale-day count=290 age_days=28 feed_price_kg=65", "a price"),
        ("brooder-area count=1,000 age_days=3", "1000, without a comma"),
        ("weight age_days=1_0", "number"),
        ("gas-limit gas=co who=birds minutes=-5", "1 to 1440"),
        (
            "heat-needed outside_c=18 inside_c=30 shell_w_k=25 count=200 weight_g=60 age_days=90",
            "0 to 56",
        ),
        ("weight age_days=7 strain=" + "x" * 5000, "ross308-2019"),
        ("weight-forecast age_days=35 weighings=7:nan", "7:190"),
        (
            "cold-night age_days=3 count=300 shell_w_k=110 high_c=27 low_c=13 fuel_kg_h=0.4 "
            "nights=4:12:1e300:15",
            "0 to 50",
        ),
        ("sale-day count=290 age_days=28 feed_price_kg=65 grades=nan:nan", "1200:300"),
        ("sale-day count=290 age_days=28 feed_price_kg=65 grades=-5:3,0:3", "25 to 6000"),
        ("sale-day count=0 age_days=28 feed_price_kg=65 price_kg=250", "1 to 50000"),
    ],
)
def test_bad_input_is_refused_with_the_valid_range_and_exit_2(line: str, valid: str) -> None:
    code, found = typed(*line.split())
    assert code == 2
    assert list(found) == ["error", "valid"]
    assert valid in str(found["valid"])
    assert len(str(found["error"])) < 200  # a slip is not repeated at full length


def test_bytes_that_are_no_letters_are_refused() -> None:
    # the shell hands over the byte 0xFF as this half of a pair: it can't be printed as JSON again
    for words in (["parts", "text=\udcff"], ["wei\udcff", "age_days=3"]):
        code, found = typed(*words)
        assert code == 2
        assert found["valid"] == "letters in UTF-8"


@pytest.mark.parametrize("size", ["length_m=60 width_m=40", "length_m=30 width_m=18"])
def test_feet_where_metres_were_meant_are_noticed(size: str) -> None:
    line = f"heat-needed outside_c=18 inside_c=30 {size} height_m=3 walls=mud count=200 age_days=2"
    code, found = typed(*line.split())
    assert code == 2
    assert "feet" in str(found["valid"])


def test_the_open_top_for_a_fire_without_a_flue_counts_as_a_loss(h: Husbandry) -> None:
    house = {"outside_c": "18", "inside_c": "30", "length_m": "5", "width_m": "4"}
    batch = {"height_m": "2", "walls": "curtain2", "count": "300", "age_days": "2"}
    unvented = figure("heat-needed", {**house, **batch}, h)
    flued = figure("heat-needed", {**house, **batch, "fire": "flued"}, h)
    given_air = figure("heat-needed", {**house, **batch, "air_m3h": "50"}, h)
    assert unvented.extra["air_m3h"] == 3 * 40  # 3 changes an hour of 40 m3: common practice
    assert "common practice" in unvented.source
    assert "3 changes an hour" in unvented.basis
    assert flued.extra["air_m3h"] == pytest.approx(300 * 0.702 * 0.079**0.75, abs=0.01)
    assert given_air.extra["air_m3h"] == 50


def test_a_bird_of_an_age_weighs_what_the_daily_table_says(h: Husbandry) -> None:
    air = {"outside_c": "18", "inside_c": "26", "shell_w_k": "25", "count": "200"}
    by_age = figure("heat-needed", {**air, "age_days": "14"}, h)
    by_weight = figure("heat-needed", {**air, "weight_g": "519"}, h)
    assert by_age.value == by_weight.value


def test_footprints_and_the_caution_for_fires_are_said(h: Husbandry) -> None:
    area = figure("brooder-area", {"count": "300", "age_days": "0"}, h)
    assert "0.12 m2" in area.basis
    fuel = figure("fuel", {"heat_w": "300", "hours": "24", "kind": "charcoal"}, h)
    assert "no opening makes a fire inside safe" in fuel.basis


def test_a_decimal_comma_is_a_decimal_point(h: Husbandry) -> None:
    comma, point = (
        figure("litter", {"area_m2": text, "depth_cm": "8"}, h).value for text in ("9,5", "9.5")
    )
    assert comma == point


def test_the_text_of_parts_is_counted_as_typed() -> None:
    code, found = typed("parts", "text= a=b ")
    assert (code, found["units"], found["encoding"]) == (0, 5, "gsm7")
    assert typed("parts", "text=30°")[1]["encoding"] == "ucs2"


def test_the_list_shows_an_example_of_every_figure() -> None:
    lines = CliRunner().invoke(figure_command, ["--list"]).output.splitlines()
    assert [line.split()[0] for line in lines] == [*REGISTRY, *MORE]


WHOLE = {
    "brooder-area": "count=300 age_days=0 drinkers=6 feeders=3 stoves=2",
    "fuel": "heat_w=370 hours=24 kind=charcoal efficiency=0.5",
    "heat-needed": "outside_c=18 inside_c=30 length_m=5 width_m=4 height_m=2 walls=mud count=300 "
    "age_days=2 air_m3h=50 fire=flued",
    "cold-night": "age_days=3 count=300 shell_w_k=110 high_c=27 low_c=13 fuel_kg_h=0.4 kind=gas "
    "air_m3h=10 nights=4:12:29:15,4:12:30:16,4:12:30:16,4:12:30:16",
    "sale-day": "count=290 age_days=28 weighings=21:840 price_kg=250 feed_price_kg=65 birds=20 "
    "grades=1200:300,1500:380 house_day=10 spent=1000 again=no",
}  # with every input that may be left out
SLIPS = [
    *("90", "-1", "1.5", "70", "0", "nan", "-inf", "1e9", "1e308", "-1e308", "5e-324"),
    *("word", "", " ", "null", "-0", "1e-9"),
    *("1,5", "1,500", "0x10", "5C", "70%", "\x00", "9" * 400, "7:190", "0:0", "nan:1", "1e-300:1"),
    *("1e308:1e308", "0:0:0:0", "4:12:1e300:15,4:12:29:15,4:12:29:15,4:12:29:15", ":", ",", "-5:3"),
]


@pytest.mark.parametrize("name", sorted(REGISTRY))
def test_a_slip_in_any_input_gives_a_figure_or_a_kind_refusal(h: Husbandry, name: str) -> None:
    words = WHOLE.get(name, REGISTRY[name].example).split()
    good = dict(word.split("=", 1) for word in words)
    figure(name, good, h)
    for key in good:
        left_out = {other: value for other, value in good.items() if other != key}
        for inputs in (left_out, *({**good, key: slip} for slip in SLIPS)):
            with suppress(OutsideRange):
                assert json.dumps(figure(name, inputs, h).as_dict(), allow_nan=False)


@given(
    name=st.sampled_from(sorted(REGISTRY)),
    keys=st.lists(st.sampled_from(["age_days", "count", "weight_g", "kind", "hours", "x"])),
    text=st.text(max_size=12) | st.integers().map(str) | st.floats().map(str),
)
def test_whatever_is_typed_the_answer_is_a_figure_or_a_kind_refusal(
    h: Husbandry, name: str, keys: list[str], text: str
) -> None:
    with suppress(OutsideRange):
        found = figure(name, dict.fromkeys(keys, text), h)
        assert json.dumps(found.as_dict(), allow_nan=False)


def test_an_unknown_figure_lists_those_that_exist(h: Husbandry) -> None:
    with pytest.raises(UnknownFigure, match="spot-temperature"):
        figure("spot_temperature", {}, h)

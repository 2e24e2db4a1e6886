"""The evidence model as content: complete, and every slip refused with its file and key."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from bot.errors import HandbookError
from bot.handbook.causes import CAUSES, load_causes
from bot.handbook.husbandry import load_husbandry
from tests.diagnosis.talking import CONTENT, causes

SOURCES = load_husbandry(CONTENT).sources.by_id
# The contract's codes: nothing missing, nothing more.
SIGNS = """piled_near_heat away_from_heat at_edges_or_walls crowded_one_side spread_evenly panting
wings_spread noisy_distress quiet_content lethargic drinking_more drinking_less not_drinking
not_eating crop_empty litter_wet litter_caked litter_cold ammonia_smell eyes_swollen_or_closed
sneezing_or_rattle gasping bloody_droppings white_or_green_diarrhoea pasty_vent navel_wet
limping_or_down twisted_neck_or_paralysis swollen_head sudden_many_deaths smoke_or_fumes
drowsy_people_or_birds_near_stove sleepy_all_birds cannibalism_or_pecking feathers_ruffled
uneven_size rain_or_wind_in stove_out rats_or_predator feed_mouldy feed_finished no_power"""


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """A copy of the evidence model to plant faults in."""
    folder = tmp_path / "content"
    shutil.copytree(CONTENT / "causes", folder / "causes")
    shutil.copy(CONTENT / "signs.yaml", folder / "signs.yaml")
    return folder


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new, 1))


def test_all_signs_and_causes_of_the_contract_are_there() -> None:
    named = {code for code, sign in causes().signs.items() if not sign.ours}
    assert named == set(SIGNS.split())
    assert tuple(causes().causes) == CAUSES


def test_the_order_of_danger_is_the_contracts() -> None:
    first = ("fumes", "sick", "cold", "hot", "thirst", "hunger", "ammonia", "damp_litter")
    assert causes().by_danger()[:8] == first


@pytest.mark.parametrize(
    ("file", "old", "new", "key"),
    [
        ("causes/cold.yaml", "piled_near_heat: 0.8", "piled_at_heat: 0.8", "piled_at_heat"),
        ("causes/cold.yaml", "piled_near_heat: 0.8", "piled_near_heat: 1.8", "piled_near_heat"),
        ("causes/hot.yaml", "right: 0.1", "right: 0.3", "temperature"),
        ("causes/hot.yaml", "    gas: [hot_gas, hot_gas_more]\n", "", "gas"),
        ("causes/sick.yaml", "GEN-VET", "SOME-BOOK", "source"),
        ("causes/sick.yaml", "times: {}", "times: {monday: 2}", "monday"),
        ("causes/thirst.yaml", "danger: 5", "danger: 5\ndanger: 6", "danger"),
        ("causes/thirst.yaml", "danger: 5", "danger: 5\nhurry: 6", "hurry"),
        ("causes/hunger.yaml", "sign: feed_finished", "sign: feed_gone", "sign"),
        ("signs.yaml", "danger: 2, base: 0.015, ask", "danger: 7, base: 0.015, ask", "danger"),
        ("signs.yaml", "accept: 0.5 ", "accept: 5 ", "accept"),
    ],
)
def test_a_slip_is_refused_and_named(
    content: Path, file: str, old: str, new: str, key: str
) -> None:
    change(content / file, old, new)
    with pytest.raises(HandbookError) as refused:
        load_causes(content, SOURCES)
    assert refused.value.file == file
    assert key in refused.value.key


def test_a_missing_cause_and_a_stranger_are_refused(content: Path) -> None:
    shutil.copy(content / "causes" / "cold.yaml", content / "causes" / "frost.yaml")
    with pytest.raises(HandbookError, match="frost"):
        load_causes(content, SOURCES)
    (content / "causes" / "frost.yaml").unlink()
    (content / "causes" / "cold.yaml").unlink()
    with pytest.raises(HandbookError, match="cold"):
        load_causes(content, SOURCES)


def test_a_sign_that_depends_on_heat_or_age_uses_the_figure_that_holds() -> None:
    power = causes().causes["cold"].signs["no_power"]
    assert power.of({"bulb"}) > 5 * power.of({"charcoal"})

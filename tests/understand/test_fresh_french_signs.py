"""Signs in French as they are told otherwise, each beside what only sounds like it. Worded for this
test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("text", "sign", "age"),
    [
        ("le courant est coupe dans tout le quartier", "no_power", 8),
        ("ailes deployees a plat sur la litiere", "wings_spread", 30),
        ("ils tiennent leurs bras ecartes du corps", "wings_spread", 33),
        ("les plumes redressees comme un balai", "feathers_ruffled", 12),
        ("le rechaud n est plus que de la cendre", "stove_out", 4),
        ("le fourneau est froid personne ne l a ranime", "stove_out", 4),
        ("ils s entassent les uns les autres pres du rechaud", "piled_near_heat", 3),
        ("ils ne veulent plus de la lampe", "away_from_heat", 7),
        ("les petits sont semes dans tout le cercle", "spread_evenly", 5),
        ("tous partis vers le nord du poulailler", "crowded_one_side", 9),
        ("l abreuvoir se vide comme jamais", "drinking_more", 25),
        ("ils se ruent tous pour boire", "drinking_more", 30),
        ("le seau est encore aux trois quarts plein", "drinking_less", 22),
        ("l aliment de ce matin est toujours la intact", "not_eating", 19),
        ("je tate la gorge aucun grain dedans", "crop_empty", 2),
        ("rien dans le cou de ces petits", "crop_empty", 1),
        ("la litiere forme une dalle sous l abreuvoir", "litter_caked", 27),
        ("ca saisit a la gorge dans le poulailler", "ammonia_smell", 26),
        ("on dirait l odeur des latrines la dedans", "ammonia_smell", 26),
        ("bouchon de caca sous la queue", "pasty_vent", 4),
        ("le trou du ventre n est pas cicatrise", "navel_wet", 1),
        ("ils se mangent les orteils", "cannibalism_or_pecking", 20),
        ("la queue toute picoree chez certains", "cannibalism_or_pecking", 24),
        ("la gorge palpite sans cesse", "panting", 31),
        ("la tole laisse passer la pluie", "rain_or_wind_in", 10),
        ("on gratte le fond du dernier sac", "feed_finished", 21),
        ("il ne reste plus rien pour demain", "feed_finished", 21),
        ("stock de provende a zero", "feed_finished", 21),
    ],
)
def test_a_sign_is_told_otherwise(thinking: Thinking, text: str, sign: str, age: int) -> None:
    found = read(thinking, text, lang="fr", age_days=age)
    assert sign in found["signals"]
    assert found["intent"] == "observe"


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("chez mon voisin le courant est coupe", "no_power"),
        ("rien de prevu pour demain", "feed_finished"),
        ("le ventre est bien ferme", "navel_wet"),
        ("la litiere ne forme pas de croute", "litter_caked"),
        ("ca ne sent pas les latrines", "ammonia_smell"),
        ("la tole ne laisse pas passer la pluie", "rain_or_wind_in"),
        ("le fourneau est encore chaud", "stove_out"),
        ("la fumee prend a la gorge", "ammonia_smell"),
        ("deux ont le nombril noir et mou", "lethargic"),
        ("le tricycle a apporte 4 sacs d aliment", "not_eating"),
    ],
)
def test_what_sounds_like_it_is_none(thinking: Thinking, text: str, sign: str) -> None:
    assert sign not in read(thinking, text, lang="fr", age_days=9)["signals"]


def test_what_another_clause_denies_takes_nothing_back(thinking: Thinking) -> None:
    text = "les forts mangent les orteils des faibles, ils n ont pas la meme taille"
    assert "cannibalism_or_pecking" in read(thinking, text, lang="fr", age_days=16)["signals"]


def test_smoke_that_hurts_a_person_is_danger(thinking: Thinking) -> None:
    text = "ca fume et l ouvrier a mal aux yeux la dedans"
    assert read(thinking, text, lang="fr", age_days=6)["red_flag"]
    assert not read(thinking, "j ai mal aux yeux ce matin", lang="fr", age_days=6)["red_flag"]

"""What healthy birds do is called normal where that is asked, and what a question names that is not
is put right; few drinkers are thirst at once, what was looked at weighs, cold feet come first.
Worded for this test; common practice, no source."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import NOON, keys, stand

MORNING = "2026-07-09T09:00:00+03:00"
FEW: dict[str, object] = {"heat": "charcoal", "age_days": 4}
FORTNIGHT: dict[str, object] = {"heat": "charcoal", "age_days": 15}
GROWN: dict[str, object] = {"heat": "none", "house": "open", "age_days": 30}
FIRST: dict[str, object] = {"heat": "charcoal", "age_days": 0}

ANSWERED: dict[str, list[tuple[str, str, dict[str, object]]]] = {
    "ruled_moult": [
        ("en", "they lose the yellow down and scratch, is it normal?", FORTNIGHT),
        ("fr", "le duvet tombe et ils se grattent, c'est normal?", FORTNIGHT),
        ("sw", "manyoya ya utotoni yanaanguka na wanajikuna, ni kawaida?", FORTNIGHT),
    ],
    "ruled_soft": [
        ("en", "only a soft peeping is heard, is that a problem?", FEW),
        ("fr", "un petit bruit doux seulement, c'est grave?", FEW),
        ("sw", "wanatoa sauti ndogo laini tu, ni tatizo?", FEW),
    ],
    "ruled_scattered": [
        ("en", "They are scattered all over and sleeping, is something wrong?", FEW),
        ("fr", "ils sont eparpilles et dorment, c'est normal?", FEW),
        ("sw", "wametawanyika kote wamelala kimya, ni kawaida?", FEW),
    ],
    "ruled_stretched": [
        ("en", "they sleep stretched out flat, is that normal?", FEW),
        ("fr", "ils dorment allonges, pattes etendues, normal?", FEW),
        ("sw", "wanalala wamenyoosha miguu ni kawaida?", FEW),
    ],
    "ruled_brown": [
        ("en", "some droppings are brown and shiny, is this normal?", FORTNIGHT),
        ("fr", "des fientes brunes et brillantes, est-ce normal?", FORTNIGHT),
        ("sw", "kinyesi cha kahawia kinang'aa ni kawaida?", FORTNIGHT),
    ],
    "ruled_fire_night": [
        ("en", "do they still need heat at night?", FORTNIGHT),
        ("fr", "faut-il encore chauffer la nuit?", FORTNIGHT),
        ("sw", "bado wanahitaji joto usiku?", FORTNIGHT),
    ],
    "ruled_unfed_young": [
        ("en", "how many hours can chicks stay without feed? it comes tonight", FIRST),
        ("fr", "combien d'heures peuvent ils rester sans manger? l'aliment arrive ce soir", FIRST),
        ("sw", "wanaweza kukaa masaa mangapi bila chakula", FIRST),
    ],
    "ruled_unwatered": [("en", "how long can they stay without water", FORTNIGHT)],
    "ruled_layer": [
        ("en", "i gave them layers mash, the shop has nothing else, is it ok", FEW),
        ("fr", "je leur donne l'aliment pondeuse, c'est bon?", FEW),
        ("sw", "nimewapa chakula cha kuku wa mayai, ni sawa?", FEW),
    ],
    "own_smoke": [
        ("en", "can i burn tyres inside to chase mosquitoes", FORTNIGHT),
        ("fr", "je vais bruler des feuilles dans le poulailler contre les moustiques", FORTNIGHT),
        ("sw", "nichome majani ndani kufukuza mbu?", FORTNIGHT),
    ],
    "own_fuel": [
        ("en", "can i put paraffin on the litter", FORTNIGHT),
        ("sw", "niweke mafuta ya taa kwenye maranda?", FORTNIGHT),
    ],
    "own_sun": [
        ("en", "i will let them out in the sun for an hour is it ok", FORTNIGHT),
        ("fr", "je peux les sortir au soleil une heure?", FORTNIGHT),
        ("sw", "niwatoe nje juani kidogo?", FORTNIGHT),
    ],
}


@pytest.mark.parametrize(
    ("key", "language", "text", "farm"),
    [(key, *one) for key, told in ANSWERED.items() for one in told],
)
def test_it_is_answered_plainly_and_alone(
    rehearsal: Rehearsal, key: str, language: str, text: str, farm: dict[str, object]
) -> None:
    stand(rehearsal, language, NOON, **farm)
    assert keys(rehearsal, text) == [key, ""]


@pytest.mark.parametrize(
    ("language", "text", "farm"),
    [
        ("en", "the tank stood empty all night and now they fight at the drinkers", GROWN),
        ("en", "only 3 drinkers for all, the small ones are pushed away", FORTNIGHT),
        ("fr", "seulement deux abreuvoirs, ils se battent pour boire", FORTNIGHT),
        ("fr", "la citerne etait vide toute la nuit", GROWN),
        ("sw", "vinywesheo ni viwili tu wanagombania", FORTNIGHT),
        ("sw", "tangi liliisha maji usiku, wanapigana kwenye vinywesheo", GROWN),
    ],
)
def test_few_drinkers_are_thirst_at_once(
    rehearsal: Rehearsal, language: str, text: str, farm: dict[str, object]
) -> None:
    stand(rehearsal, language, MORNING, **farm)
    assert keys(rehearsal, text)[0] == "thirst_spread"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "is a smell like a toilet normal at this age"),
        ("en", "is it normal that the litter stinks?"),
        ("fr", "l'odeur de pourri de la litiere est normale?"),
        ("sw", "harufu kama ya choo ni kawaida kwa umri huu?"),
    ],
)
def test_a_smell_that_is_asked_about_is_smelt(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, NOON, **GROWN)
    assert keys(rehearsal, text)[0] == "ammonia_open"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "I turned the litter but it is wet again, why"),
        ("fr", "j'ai retourne la litiere et le lendemain c'est encore mouille, pourquoi"),
        ("sw", "nageuza maranda lakini yanalowa tena, kwa nini"),
    ],
)
def test_litter_wet_again_has_a_leak(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, NOON, **GROWN)
    assert keys(rehearsal, text)[0] == "damp_source"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "I shut the window and still they crowd in one corner, the lamp is fine"),
        ("sw", "nimefunga dirisha lakini wamejazana kona moja, taa iko sawa"),
    ],
)
def test_what_was_looked_at_weighs(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, MORNING, age_days=2, heat="bulb")
    assert "draught_low" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "chicks just arrived, their feet are cold like ice"),
        ("fr", "les poussins sont arrives, leurs pattes sont glacees"),
        ("sw", "vifaranga wamefika sasa hivi lakini miguu yao ni kama barafu"),
    ],
)
def test_cold_feet_are_warmed_before_all(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, MORNING, **FIRST)
    assert keys(rehearsal, text)[0] == "cold_first"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "I keep them in a carton in my kitchen and they cry all night"),
        ("fr", "ils sont dans un carton a la cuisine et crient toute la nuit"),
        ("sw", "nimewaweka kwenye katoni jikoni, wanalia usiku kucha"),
    ],
)
def test_a_carton_without_heat_is_cold(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, MORNING, age_days=1, count=50, heat="none")
    assert keys(rehearsal, text)[0] == "cold_box"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "should I pour water on the floor to cool them?"),
        ("fr", "je peux verser de l'eau par terre pour les rafraichir?"),
        ("sw", "nimwage maji sakafuni wapoe?"),
    ],
)
def test_water_on_the_floor_cools_nobody(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, NOON, **GROWN)
    assert keys(rehearsal, text)[0] == "own_wet"


@pytest.mark.parametrize(
    ("language", "text", "farm"),
    [
        ("en", "feathers are falling and backs bleed, is it normal", FORTNIGHT),
        ("en", "their droppings are brown and watery with blood, is it normal", FORTNIGHT),
        ("en", "the litter is dry and smells fresh, is it normal", GROWN),
        ("en", "we closed the curtains last night, they eat well", GROWN),
        ("fr", "ils sont eparpilles et muets, deux sont morts, c'est normal?", FEW),
    ],
)
def test_what_only_sounds_like_it(
    rehearsal: Rehearsal, language: str, text: str, farm: dict[str, object]
) -> None:
    stand(rehearsal, language, NOON, **farm)
    said = keys(rehearsal, text)
    assert not [one for one in said if one.startswith(("ruled", "ammonia", "draught"))]

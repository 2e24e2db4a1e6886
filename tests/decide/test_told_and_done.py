"""Thirst that shows before anybody names it, sleep that looks like death, a hole that was shut, wet
litter told late, pecking that draws blood: words of three languages to the answer, through the
reader and the whole turn. Common practice, no source."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

MORNING = "2026-07-09T08:00:00+03:00"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they shout and peck at the nails and every shiny thing, feet dry like sticks"),
        ("fr", "ils piaillent et picorent les clous et les gouttes, pattes seches"),
        ("sw", "wanapiga kelele wanadonoa misumari, miguu imekauka"),
    ],
)
def test_dry_feet_and_pecking_at_what_shines_ask_for_the_water(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=1, heat="gas")
    assert keys(rehearsal, text)[-1] == "sign:not_drinking"
    assert "thirst" in keys(rehearsal, "1")


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "two only, they stand near the stove on bricks"),
        ("sw", "viwili tu, viko karibu na jiko juu ya matofali"),
    ],
)
def test_where_the_drinkers_stand_is_no_place_of_spread_chicks(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=1)
    spread = {"en": "spread out but restless and crying", "sw": "wametawanyika ila wanalia"}
    rehearsal.say(spread[language])
    for _ in range(3):
        if keys(rehearsal, "1")[0] == "taken_yes":
            break
    said = keys(rehearsal, text)
    assert not {"heap_apart", "cold_charcoal"}.intersection(said)


@pytest.mark.parametrize(
    ("language", "text", "up"),
    [
        ("en", "chicks lie flat legs out, i fear they are dying??", "3"),
        ("fr", "allonges a plat un peu partout j'ai peur ils meurent ??", "ils se levent tous"),
        ("sw", "wamelala chali naogopa wanakufa??", "wote wanainuka"),
    ],
)
def test_death_that_is_only_feared_asks_for_one_look(
    rehearsal: Rehearsal, language: str, text: str, up: str
) -> None:
    stand(rehearsal, language, heat="bulb")
    taken, _ = rehearsal.say(text)
    assert not taken.decision.referred
    assert taken.decision.question is not None
    assert taken.decision.question.name == "wake"
    assert "wake_ok" in keys(rehearsal, up)


@pytest.mark.parametrize("text", ["my chicks are dying", "they dont wake when i touch them"])
def test_dying_and_not_waking_are_danger_at_once(rehearsal: Rehearsal, text: str) -> None:
    stand(rehearsal, "en")
    assert rehearsal.say(text)[0].decision.referred


@pytest.mark.parametrize(
    ("language", "first", "shut", "none"),
    [
        ("en", "rats took 2 chicks last night", "i closed the hole with stones", "none is missing"),
        ("fr", "un rat a pris 2 poussins", "j'ai bouche le trou", "aucun ne manque ce matin"),
        ("sw", "panya wamekula vifaranga 2", "tundu nimeziba kwa mawe", "hakuna aliyepotea"),
    ],
)
def test_a_hole_that_was_shut_is_counted_after_in_the_morning(
    rehearsal: Rehearsal, language: str, first: str, shut: str, none: str
) -> None:
    stand(rehearsal, language, MORNING, heat="bulb")
    assert "after_tomorrow" in keys(rehearsal, first)
    said = keys(rehearsal, shut)
    assert said[0] == "predator_shut"
    assert "sick_vent" not in said
    rehearsal.wait(timedelta(hours=24))
    assert "better" in keys(rehearsal, none)


def test_a_bulb_that_is_not_added_is_none_that_is_out(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", age_days=1, heat="bulb", thermometer=True)
    said = keys(rehearsal, "so i dont add the bulb? thermometer says 33 at chick height")
    assert "temp_right" in said
    assert "relight_bulb" not in said


@pytest.mark.parametrize(
    ("language", "first", "late"),
    [
        ("en", "they pile at the stove", "one stove is out and the litter is wet mud"),
        ("fr", "ils sont en tas pres du fourneau", "un fourneau eteint et la litiere est mouillee"),
        ("sw", "wamerundikana kwenye jiko", "jiko moja limezima na maranda yamelowa"),
    ],
)
def test_wet_litter_told_late_is_taken_out(
    rehearsal: Rehearsal, language: str, first: str, late: str
) -> None:
    stand(rehearsal, language)
    rehearsal.say(first)
    rehearsal.wait(timedelta(minutes=40))
    assert {"damp", "cold_damp"}.intersection(keys(rehearsal, late))


@pytest.mark.parametrize(
    ("language", "wet", "text"),
    [
        ("en", "the litter is wet under the drinkers", "i put dry sawdust on top"),
        ("fr", "la litiere est mouillee", "j'ai mis de la sciure seche par-dessus"),
        ("sw", "maranda yamelowa", "nimeweka maranda makavu juu yake"),
    ],
)
def test_dry_litter_on_top_does_not_dry_what_is_wet(
    rehearsal: Rehearsal, language: str, wet: str, text: str
) -> None:
    stand(rehearsal, language)
    rehearsal.say(wet)
    assert "litter_wet" not in rehearsal.say(text)[0].meaning.not_signals


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they peck each other, three have blood on the tail"),
        ("fr", "ils se piquent, trois saignent a la queue"),
        ("sw", "wanadonoana watatu wana damu mkiani"),
    ],
)
def test_pecking_that_draws_blood_is_answered_with_room(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=22, heat="none")
    assert "crowding" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "one jiko is nearly dead, two red coals left"),
        ("en", "the jiko is full of ash with two red coals"),
        ("fr", "j'ai rajoute du charbon au gros fourneau, c'est pire"),
    ],
)
def test_a_fire_that_dies_or_burns_is_no_death_and_no_smoke(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language)
    assert not rehearsal.say(text)[0].decision.referred


def test_what_is_found_at_home_is_not_told_of_who_was_visited(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "sw", age_days=23)
    text = "jana nilikuwa kwa shangazi leo nakuta kinyesi chekundu damu kwenye maranda"
    assert keys(rehearsal, text)[0] == "danger_blood"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "all get up except forty"),
        ("fr", "tous se levent sauf quarante"),
        ("sw", "wote wanainuka isipokuwa arobaini"),
    ],
)
def test_all_but_forty_get_up_is_not_all(rehearsal: Rehearsal, language: str, text: str) -> None:
    dull = {"en": "many are dull", "fr": "beaucoup sont abattus", "sw": "wengi wamezubaa"}
    stand(rehearsal, language, heat="bulb")
    rehearsal.say(dull[language])
    assert "danger_over" not in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "i put a blanket over them and they are still crying"),
        ("fr", "je les ai couverts avec une couverture et ils crient"),
        ("sw", "nimewafunika na blanketi bado wanalia"),
    ],
)
def test_a_blanket_over_chicks_is_told_to_come_off(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=5, heat="bulb")
    assert "blanket_off" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "first", "stoves"),
    [
        ("en", "some pile in the corner and some pant", "the two stoves are side by side"),
        ("fr", "les uns sont en tas, les autres soufflent", "les fourneaux sont cote a cote"),
        ("sw", "wengine wamerundikana wengine wanahema", "majiko yote mawili yako upande mmoja"),
    ],
)
def test_stoves_that_stand_together_are_set_apart(
    rehearsal: Rehearsal, language: str, first: str, stoves: str
) -> None:
    stand(rehearsal, language, age_days=5)
    rehearsal.say(first)
    assert "uneven_apart" in keys(rehearsal, stoves)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "one died yesterday. neighbour says its newcastle??"),
        ("fr", "hier un est mort. le voisin veut me donner ses comprimes"),
        ("sw", "jana amekufa mmoja. nataka niwape dawa ya jirani"),
        ("en", "i poured basins of water on the floor today"),
    ],
)
def test_a_cure_that_is_only_meant_is_noted_nowhere(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language)
    meaning = rehearsal.say(text)[0].meaning
    assert all(one.intent.value != "treated" for one in meaning.facts())


@pytest.mark.parametrize(
    ("language", "text"),
    [("sw", "nimeuza mbuzi mmoja"), ("fr", "j'ai vendu une chevre"), ("en", "sold 2 goats")],
)
def test_a_goat_that_was_sold_is_no_bird(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language)
    meaning = rehearsal.say(text)[0].meaning
    assert all(one.intent.value != "sold" for one in meaning.facts())


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "still panting but less, drinking, no new dead"),
        ("fr", "ils soufflent encore mais moins, pas de nouveaux morts"),
        ("sw", "wamekauka wanakimbia asante"),
    ],
)
def test_better_in_words_is_heard(rehearsal: Rehearsal, language: str, text: str) -> None:
    hot = {"en": "they are panting", "fr": "ils soufflent bec ouvert", "sw": "wanahema sana"}
    stand(rehearsal, language, heat="none", age_days=30)
    rehearsal.say(hot[language])
    rehearsal.wait(timedelta(minutes=35))
    assert "better" in str(rehearsal.say(text)[0].meaning.slots.answer)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "3 chicks missing this morning, the others crowd in the corner"),
        ("fr", "ce matin 3 poussins manquent, les autres sont tous dans le coin"),
        ("sw", "watatu siwaoni kabisa, wengine wamejibana kona"),
    ],
)
def test_those_that_crowd_for_fear_of_a_beast_get_its_answer(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, age_days=27, heat="none")
    said = keys(rehearsal, text)
    assert "predator" in said
    assert "uneven_none" not in said


def test_who_knocks_on_a_wall_tells_of_no_place(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en")
    signals = rehearsal.say("i knocked on the wall and all of them ran")[0].meaning.signals
    assert "at_edges_or_walls" not in signals


def test_litter_like_bread_is_taken_out(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", heat="none", age_days=26)
    assert "damp" in keys(rehearsal, "litter under the drinkers has become like bread")

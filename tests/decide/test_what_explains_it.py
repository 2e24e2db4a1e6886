"""A circumstance that the farmer tells explains what the birds do, and is answered itself: a line
that gives no water, a ring made small, sun on tin, air through a floor, wet chicks, salty feed, too
many birds that pant. What looks like it is not. Worded for this test; common practice."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

MORNING, NOON = "2026-07-09T09:00:00+03:00", "2026-07-09T13:00:00+03:00"
EVENING = "2026-07-09T20:10:00+03:00"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they stand at the nipples and peck at the pipe, feed is left. is the feed bad?"),
        ("en", "i press the nipple and nothing comes"),
        ("en", "not eating since noon, the nipples give no water"),
        ("fr", "j'appuie sur les pipettes et rien ne sort"),
        ("fr", "ils tapent sur les tetines et ne mangent plus, l'aliment est mauvais?"),
        ("sw", "nikibonyeza chuchu hakuna tone"),
        ("sw", "hawali, wanasimama kwenye bomba na kudonoa chuchu"),
    ],
)
def test_a_line_that_gives_nothing_is_thirst_and_no_bad_feed(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, NOON, age_days=23, heat="none")
    assert "thirst_line" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "i moved the water pipe yesterday and now they leave the feed"),
        ("en", "they do not eat since i cleaned the tank"),
        ("fr", "j'ai deplace les abreuvoirs hier, ils ne mangent plus"),
        ("fr", "depuis que j'ai nettoye la citerne ils ne mangent plus"),
        ("sw", "nimehamisha bomba la maji jana, hawali vizuri"),
    ],
)
def test_where_the_line_was_changed_each_drinker_is_felt_first(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, NOON, age_days=23, heat="none")
    assert keys(rehearsal, text)[-1] == "sign:not_drinking"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they sit near the stove pipe, spread and quiet"),
        ("en", "should i clean the tank today?"),
        ("fr", "je dois changer les pipettes quand?"),
        ("sw", "bomba linavuja maranda yamelowa"),
    ],
)
def test_a_pipe_alone_is_no_thirst(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, NOON, age_days=23, heat="none")
    said = keys(rehearsal, text)
    assert "thirst_line" not in said
    assert said[-1] != "sign:not_drinking"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "i made the ring small to keep the heat, now their mouths are open"),
        ("en", "ring is tight and they pant along the cardboard"),
        ("fr", "j'ai resserre le cercle hier, ils soufflent contre le carton"),
        ("fr", "cercle trop petit, tous le bec ouvert"),
        ("sw", "nimewazungushia duara dogo wanahema midomo wazi"),
    ],
)
def test_those_that_pant_in_a_small_ring_get_a_wider_one(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, NOON, age_days=6, heat="charcoal")
    assert "hot_crowded_fire" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "i made the ring smaller, they are quiet now"),
        ("fr", "j'ai resserre le cercle, ils sont calmes"),
        ("sw", "nimeweka duara dogo, wametulia"),
    ],
)
def test_a_ring_made_small_is_nothing_wrong_by_itself(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, EVENING, age_days=4, heat="charcoal")
    assert not {"crowding", "hot_crowded_fire", "hot_one"}.intersection(keys(rehearsal, text))


@pytest.mark.parametrize(
    ("language", "text"),
    [
        (
            "en",
            "from 2 oclock they all run to one side, the tin on the other side burns in the sun",
        ),
        ("en", "sun shines in through the window, they crowd at the far wall"),
        ("fr", "l'apres-midi ils vont tous d'un cote, la tole de l'autre cote est brulante"),
        ("fr", "le soleil tape dedans et ils se serrent contre l'autre mur"),
        ("sw", "mchana wanajazana upande mmoja, mabati ya upande wa pili yanachoma"),
    ],
)
def test_sun_on_the_tin_is_shaded(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, NOON, age_days=7, heat="bulb")
    assert "hot_sun" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they crowd at one wall, cold wind comes up between the floor boards"),
        ("en", "the house stands on poles, air comes from below and they sit on one side"),
        ("fr", "ils se serrent d'un cote, le froid monte entre les planches du plancher"),
        ("fr", "maison sur pilotis, le vent passe dessous et ils sont tous d'un cote"),
        ("sw", "wamejazana upande mmoja, upepo unapita kati ya mbao za sakafu"),
    ],
)
def test_air_from_below_is_stopped_on_the_floor(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, EVENING, age_days=6, heat="charcoal")
    assert "draught_floor" in keys(rehearsal, text)


def test_wind_through_a_wall_is_no_air_from_below(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", EVENING, age_days=6, heat="charcoal")
    assert "draught" in keys(rehearsal, "wind comes in at the wall on the east, they sit west")


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "rain came in last night, some chicks are soaked and shiver"),
        ("en", "20 chicks got wet and are trembling"),
        ("fr", "la pluie est entree, une dizaine sont trempes et grelottent"),
        ("fr", "ils ont ete mouilles par la pluie et tremblent"),
        ("sw", "mvua imeingia, vifaranga 20 wamelowa wanatetemeka"),
        ("sw", "walowaji 15 wanatetemeka"),
    ],
)
def test_wet_chicks_are_dried_and_warmed_and_are_no_alarm(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, age_days=9, heat="kerosene")
    said = keys(rehearsal, text)
    assert said.count("wet_chicks") == 1
    assert "danger_notifiable" not in said


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "it trembles and falls on its side since the rain"),
        ("fr", "la pluie est entree, le cou tremble et se tord"),
        ("sw", "mvua inanyesha, wanatetemeka vichwa na shingo imepinda"),
    ],
)
def test_who_falls_or_twists_in_the_rain_is_an_alarm(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, age_days=20, heat="none")
    assert "danger_notifiable" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "the new feed tastes salty and they drink a lot, watery droppings"),
        ("en", "i put some mash on my tongue, it is salty. litter is wet"),
        ("fr", "l'aliment a un gout de sel, ils boivent beaucoup et les fientes coulent"),
        ("fr", "il y a trop de sel dans l'aliment, litiere mouillee"),
        ("sw", "chakula kina chumvi, wanakunywa sana na kinyesi ni maji"),
    ],
)
def test_salty_feed_goes_out_and_the_water_stays(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, age_days=27, heat="none")
    said = keys(rehearsal, text)
    assert "feed_salty" in said
    assert "danger_ill" not in said


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "since the new feed they drink double"),
        ("fr", "depuis le nouvel aliment ils boivent boivent, les fientes comme de l'eau"),
        ("sw", "tangu chakula kipya wanakunywa sana"),
    ],
)
def test_who_drinks_on_a_new_feed_tastes_it_first(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, age_days=27, heat="none")
    assert keys(rehearsal, text)[-1] == "sign:feed_salty"
    assert "feed_salty" in keys(rehearsal, "1")


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "the water from the borehole is salty"),
        ("fr", "l'abreuvoir est sale"),
        ("sw", "niwape maji ya chumvi?"),
    ],
)
def test_other_salt_or_dirt_is_no_salty_feed(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, age_days=27, heat="none")
    assert "feed_salty" not in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "both flocks are in one house since the storm, they lie on each other and pant"),
        ("fr", "ils marchent les uns sur les autres et soufflent meme le soir"),
        ("fr", "tous dans un seul batiment, entasses et bec ouvert"),
        ("sw", "wamebanana wanapandana na wanahema hata usiku"),
        ("sw", "nyumba imejaa, wamejazana juu ya wenzao midomo wazi"),
    ],
)
def test_grown_birds_that_pant_on_each_other_get_air_and_room_and_no_heat(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, EVENING, age_days=35, heat="none", count=900)
    said = keys(rehearsal, text)
    assert "hot_crowded_night" in said
    assert not {"smother", "cold_open_none"}.intersection(said)


def test_a_heap_that_does_not_pant_at_night_is_still_parted_and_warmed(
    rehearsal: Rehearsal,
) -> None:
    stand(rehearsal, "en", EVENING, age_days=16, heat="charcoal", house="open")
    assert "smother" in keys(rehearsal, "they pile on each other in the corner and cry")


def test_thirst_leaves_a_feed_that_is_only_thought_bad(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", NOON, age_days=23, heat="none")
    told = "no water comes from the nipples, they leave the feed. i think the feed has gone bad"
    said = keys(rehearsal, told)
    assert "thirst_line" in said
    assert "feed_problem" not in said

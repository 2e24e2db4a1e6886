"""What a trainer would do first, whatever the farmer's words: texts of three languages to the first
answer, through the reader and the whole turn. Rules: bot/diagnosis, common practice without a
source."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import NIGHT, keys, stand


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "birds squeezed along the wall crying loud feet and belly dirty"),
        ("en", "all heaped in the corner under the wet wall and crying"),
        ("fr", "grand tas dans le coin ils crient fort les petits en dessous ne bougent plus"),
        ("fr", "entasses contre le mur mouille ils crient"),
        ("sw", "wamerundikana kwenye kona wanalia sana"),
    ],
)
def test_a_heap_is_parted_by_hand_before_all_else(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language)
    taken, _ = rehearsal.say(text)
    hand = {"en": "by hand", "fr": "a la main", "sw": "kwa mkono"}[language]
    assert hand in taken.texts[0]
    assert not taken.decision.referred


@pytest.mark.parametrize(
    ("language", "text", "no"),
    [
        ("en", "chicks closing their eyes with tears and mine pepper when i bend down there", "2"),
        ("fr", "quand j entre le matin mes yeux piquent les poussins ferment les yeux", "non"),
        ("sw", "macho yangu yanawasha nikiingia bandani na vifaranga wamefumba macho", "hapana"),
    ],
)
@pytest.mark.parametrize("heat", ["kerosene", "bulb"])
def test_where_the_farmers_own_eyes_sting_people_go_out_and_air_comes_in(
    rehearsal: Rehearsal, language: str, text: str, no: str, heat: str
) -> None:
    stand(rehearsal, language, heat=heat)
    assert keys(rehearsal, text) == ["air_sharp", "sign:smoke_or_fumes"]
    assert "ammonia" in keys(rehearsal, no)


def test_smoke_where_the_eyes_sting_is_bad_air(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en")
    rehearsal.say("my eyes burn when i go inside")
    assert keys(rehearsal, "yes")[0] == "danger_fumes"


@pytest.mark.parametrize(
    ("language", "text", "good"),
    [
        (
            "en",
            "chicks sleep too much all day are they sick",
            "all get up when i clap, they eat",
        ),
        ("en", "chicks lying flat legs stretched out like dead", "3"),
        (
            "fr",
            "poussins couches a plat pattes tendues comme morts j ai peur",
            "si je frappe des mains ils se levent tous et courent manger, bec ferme",
        ),
        (
            "sw",
            "vifaranga wanalala sana mchana nahofia ni wagonjwa",
            "wakipigiwa makofi wanaamka na kula, matumbo yamejaa",
        ),
    ],
)
def test_birds_that_only_lie_still_are_clapped_at_and_good_news_ends_it(
    rehearsal: Rehearsal, language: str, text: str, good: str
) -> None:
    stand(rehearsal, language)
    taken, _ = rehearsal.say(text)
    assert (taken.decision.referred, taken.decision.question is not None) == (False, True)
    assert "wake" in (taken.decision.question.name if taken.decision.question else "")
    assert keys(rehearsal, good) == ["wake_ok", ""]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "one chick cannot walk good the leg is big is disease coming to all"),
        ("fr", "un poussin boite est ce que ca va passer a tous"),
        ("sw", "kifaranga mmoja anachechemea je ugonjwa utaenea kwa wote"),
    ],
)
def test_whether_all_will_get_it_is_no_outbreak(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language)
    assert "sick_lame" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text", "only"),
    [
        ("en", "many birds are limping", "only one, the others run well"),
        ("fr", "beaucoup de poussins boitent", "un seul, les autres courent bien"),
        ("sw", "vifaranga wengi wanachechemea", "mmoja tu, wengine wazima"),
    ],
)
def test_only_one_after_an_alarm_takes_it_back_to_the_one_bird(
    rehearsal: Rehearsal, language: str, text: str, only: str
) -> None:
    stand(rehearsal, language)
    assert keys(rehearsal, text)[0] == "danger_ill"
    assert keys(rehearsal, only) == ["one_only", "one_look"]
    batch = rehearsal.case().batch
    assert batch is not None
    assert batch.open_alarm(rehearsal.case().today) is None


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "one side they pile on each other and the other side they run from the heater"),
        ("fr", "des poussins en tas d un cote et de l autre ils s ecartent ils crient"),
        ("sw", "upande mmoja wamerundikana upande mwingine wanakimbia joto"),
    ],
)
def test_a_heap_here_and_flight_there_is_uneven_heat_and_no_more_gas(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, heat="gas")
    assert keys(rehearsal, text)[0] == "uneven_gas"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "five chicks missing and there is blood near the wall"),
        ("fr", "ce matin jai vu du sang par terre et il manque des poussins"),
        ("sw", "vifaranga watano hawapo na kuna damu ukutani"),
    ],
)
def test_blood_on_the_floor_and_missing_birds_are_a_beast_and_no_disease(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language)
    assert "predator" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "all piled on one side of the brooder crying since evening"),
        ("fr", "les poussins crient et sont tous colles dun seul cote depuis ce soir"),
        ("sw", "wote wamerundikana upande mmoja wanalia tangu jioni"),
    ],
)
def test_a_heap_at_one_side_is_parted_and_wind_is_felt_for_before_heat_is_added(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, NIGHT, heat="gas")
    assert keys(rehearsal, text) == ["heap_apart", "sign:rain_or_wind_in"]


def test_hot_and_crowded_are_both_told(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", age_days=10)
    text = "chicks standing on each other at the wall with mouths open fighting for water"
    assert "hot_crowded_fire" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "1 but the new bag got rained on"),
        ("fr", "1 et le sac neuf a pris la pluie"),
        ("sw", "1 gunia jipya lilinyeshewa"),
    ],
)
def test_a_second_fact_behind_the_digit_is_kept(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, last_prompt="behaviour")
    assert "feed_problem" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "found brown sticky droppings smelling bad like chocolate is it sickness"),
        ("fr", "fientes marron collantes qui sentent mauvais comme du chocolat"),
        ("sw", "kinyesi cha kahawia kinanata kinanuka vibaya kama chokoleti"),
    ],
)
def test_brown_sticky_droppings_without_blood_are_normal(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language)
    for digit, key in (("1", "brown_normal"), ("2", "danger_blood"), ("3", "danger_ill")):
        stand(rehearsal, language)
        assert keys(rehearsal, text)[-1] == "brown"
        assert key in keys(rehearsal, digit)


@pytest.mark.parametrize(("age", "key"), [(25, "cool_now"), (9, "cool_now_chicks")])
def test_heat_that_kills_brings_the_vet_and_the_cooling_and_a_look_in_half_an_hour(
    rehearsal: Rehearsal, age: int, key: str
) -> None:
    stand(rehearsal, "en", age_days=age, count=600)
    said = keys(rehearsal, "14 dead today the rest have wings open and breathing fast")
    assert said[:2] == ["danger_deaths", key]
    rehearsal.wait(timedelta(minutes=31))
    assert "How are they now?" in rehearsal.heard()[-1].text


def test_a_power_cut_at_night_warms_with_hot_bottles_and_is_watched_till_morning(
    rehearsal: Rehearsal,
) -> None:
    stand(rehearsal, "en", NIGHT, age_days=2, heat="bulb")
    assert keys(rehearsal, "no power since midnight they cry and pile up")[0] == "power_bulb"
    rehearsal.wait(timedelta(minutes=21))
    assert "cold_more" in keys(rehearsal, "2")  # what is wrong is known: no menu of causes
    rehearsal.wait(timedelta(minutes=21))
    assert "better_night" in keys(rehearsal, "1")


@pytest.mark.parametrize(("digit", "key"), [("1", "taken_better"), ("2", "taken_same")])
def test_a_digit_before_we_ask_says_what_came_of_the_advice(
    rehearsal: Rehearsal, digit: str, key: str
) -> None:
    stand(rehearsal, "en")
    rehearsal.say("they pant with open beaks")
    assert keys(rehearsal, digit)[0] == key


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they are not eating since yesterday"),
        ("fr", "ils ne mangent pas depuis hier"),
        ("sw", "hawali tangu jana"),
    ],
)
def test_where_they_stand_is_not_asked_of_birds_that_do_not_eat(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language)
    for word in (text, "2", "4"):
        assert keys(rehearsal, word)[-1] not in ("behaviour", "")


@pytest.mark.parametrize(
    ("language", "text", "better"),
    [
        ("en", "my worker has a headache in the brooder", "all are outside, chicks lift heads now"),
        (
            "fr",
            "mon fils a mal a la tete a cause du fourneau dans le poulailler",
            "tous sont dehors, les poussins levent la tete",
        ),
        (
            "sw",
            "kichwa kinaniuma nikiingia kwa vifaranga",
            "watu wote wako nje, vifaranga wanainua vichwa",
        ),
    ],
)
def test_good_news_after_bad_air_is_understood(
    rehearsal: Rehearsal, language: str, text: str, better: str
) -> None:
    stand(rehearsal, language, NIGHT)
    assert keys(rehearsal, text)[0] == "danger_fumes"
    assert keys(rehearsal, better)[0] == "people_out"
    rehearsal.wait(timedelta(minutes=31))
    assert "better_poisoned" in keys(rehearsal, better)

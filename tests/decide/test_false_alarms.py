"""What only looks like bad air or a grave disease: a sting over wet litter, a head's height, beaks
that reach for a pipe, a vent that was pulled, deaths that grow fewer. Texts of three languages
through the whole turn. Common practice, no source."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

MORNING = "2026-07-09T06:40:00+03:00"
DAMP = {
    "en": "when i enter in the morning it pinches my eyes, litter is wet and the smell grows",
    "fr": "quand j'entre le matin ca me pique les yeux, la litiere est mouillee et ca sent fort",
    "sw": "nikiingia asubuhi macho yangu yanawasha, maranda yamelowa na harufu ni kali",
}
FINE = {
    "en": "no headache, no smoke. only the sting, strong when i kneel",
    "fr": "pas de mal de tete, pas de fumee. seulement ca pique fort quand je m'accroupis",
    "sw": "hakuna kichwa kuuma, hakuna moshi. inawasha tu nikiinama",
}


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_a_sting_over_wet_litter_asks_once_for_smoke_and_is_then_treated_as_what_it_is(
    rehearsal: Rehearsal, language: str
) -> None:
    stand(rehearsal, language, MORNING, heat="gas", age_days=12)
    first = keys(rehearsal, DAMP[language])
    assert first[0] == "air_sharp"
    assert first[-1] == "sign:smoke_or_fumes"
    said = keys(rehearsal, FINE[language])
    assert said[0] in ("ammonia", "taken_no")
    assert "ammonia" in said
    assert not {"better_poisoned", "danger_fumes", "fumes_gas"}.intersection(said)


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_after_a_false_alarm_of_bad_air_the_wet_litter_is_treated_and_the_heat_stays(
    rehearsal: Rehearsal, language: str
) -> None:
    stand(rehearsal, language, MORNING, heat="gas", age_days=12)
    boy = {"en": "my boy felt dizzy in the brooder, the smell is sharp, litter wet",
           "fr": "mon fils a eu un vertige dans la poussiniere, ca pique, litiere mouillee",
           "sw": "kijana amepata kizunguzungu bandani, harufu kali, maranda yamelowa"}  # fmt: skip
    assert keys(rehearsal, boy[language])[0] == "danger_fumes"
    rehearsal.wait(timedelta(minutes=1))
    said = keys(rehearsal, FINE[language])
    assert "ammonia" in said
    assert "better_poisoned" not in said


@pytest.mark.parametrize(
    ("language", "first", "height"),
    [
        (
            "en",
            "thermometer says 34 but they pile at the stove",
            "my head level, nail over the jiko so i can read",
        ),
        (
            "en",
            "thermometer says 34 but they pile at the stove",
            "at the height of my chest, on a post",
        ),
        (
            "fr",
            "le thermometre dit 34 mais ils sont en tas",
            "a hauteur de ma tete, au dessus du feu",
        ),
        ("sw", "kipimo kinasoma 34 lakini wamerundikana", "usawa wa kichwa changu, juu ya jiko"),
    ],
)
def test_a_thermometer_at_a_mans_head_is_hung_lower_and_nobody_is_sent_out(
    rehearsal: Rehearsal, language: str, first: str, height: str
) -> None:
    stand(rehearsal, language, heat="charcoal", age_days=5)
    assert keys(rehearsal, first)[-1] == "hang"
    said = keys(rehearsal, height)
    assert "hang_there" in said
    assert "danger_fumes" not in said


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they look up to the pipe, cant touch"),
        ("en", "they stretch and look up at the nipples, cannot reach"),
        ("fr", "ils regardent en haut vers les pipettes, ils n'arrivent pas"),
        ("sw", "wanaangalia juu kwenye bomba la maji, hawafiki"),
    ],
)
def test_beaks_that_reach_up_for_water_are_no_twisted_necks(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=5)
    taken, _ = rehearsal.say(text)
    assert not taken.decision.referred
    assert not rehearsal.case().batches[-1].held


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "a chick looks up at the sky and its neck is twisted"),
        ("fr", "un poussin regarde le ciel, le cou tordu"),
        ("sw", "kifaranga anatazama juu, shingo imepinda"),
    ],
)
def test_a_neck_that_twists_stays_a_danger(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, age_days=5)
    assert keys(rehearsal, text)[0] == "danger_notifiable"


@pytest.mark.parametrize(
    ("language", "vent", "text"),
    [
        ("en", "5 have dirt stuck on the vent", "i pulled the dry dirt off one and it bled"),
        ("fr", "5 ont le derriere colle", "j'ai tire la croute d'un, il a saigne"),
        ("sw", "5 wamefungwa mkundu na kinyesi",
         "nimevuta kikavu kwa mkono kimoja kilitoka damu"),
    ],
)  # fmt: skip
def test_blood_of_a_vent_that_was_pulled_is_no_bloody_dropping(
    rehearsal: Rehearsal, language: str, vent: str, text: str
) -> None:
    stand(rehearsal, language, age_days=4)
    assert "sick_vent" in keys(rehearsal, vent)
    rehearsal.wait(timedelta(minutes=1))
    said = keys(rehearsal, text)
    assert "danger_blood" not in said
    assert "sick_vent" in said  # not pulled, wetted: said again


def test_blood_in_the_droppings_beside_a_pulled_vent_stays_a_danger(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", age_days=4)
    rehearsal.say("5 have dirt stuck on the vent")
    assert keys(rehearsal, "i pulled it off. others have blood in the droppings")[0] == (
        "danger_blood"
    )


@pytest.mark.parametrize(
    ("language", "first", "text"),
    [
        ("en", "all pant with open beaks, it is very hot", "many are dull now"),
        ("fr", "tous halettent bec ouvert, il fait tres chaud", "ils sont abattus oui"),
        ("sw", "wote wanahema midomo wazi, joto kali", "wengi wamezubaa sasa"),
    ],
)
def test_dull_birds_of_a_flock_that_pants_are_cooled_first(
    rehearsal: Rehearsal, language: str, first: str, text: str
) -> None:
    stand(rehearsal, language, age_days=36, house="open", heat="none")
    assert keys(rehearsal, first)[0] == "hot_open"
    rehearsal.wait(timedelta(minutes=2))
    said = keys(rehearsal, text)
    assert said[0] not in ("danger_ill", "danger_dull")
    assert said[0] in ("hot_vet", "hot_open_more")


@pytest.mark.parametrize(
    ("language", "first", "text"),
    [
        ("en", "45 died since noon, hot, all pant open beaks", "they start to rise, 6 more dead"),
        ("fr", "45 morts depuis midi, chaud, tous bec ouvert", "ils se relevent, 6 morts de plus"),
        ("sw", "tangu saa saba wamekufa 45 joto kali, wote wanahema midomo wazi",
         "wameanza kunyanyuka, wamekufa 6 tu zaidi"),
    ],
)  # fmt: skip
def test_fewer_deaths_and_birds_that_rise_are_better_news_and_the_dead_are_added(
    rehearsal: Rehearsal, language: str, first: str, text: str
) -> None:
    stand(rehearsal, language, age_days=36, house="open", heat="none", count=900)
    assert keys(rehearsal, first)[0] == "danger_deaths"
    rehearsal.wait(timedelta(minutes=31))
    said = keys(rehearsal, text)
    assert "danger_deaths" not in said
    assert "danger_noted" in said
    assert "still_danger" in said
    assert rehearsal.case().batches[-1].total("deaths") == 51

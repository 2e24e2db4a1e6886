"""After an alarm of bad air what is told of people is heard as theirs: they are helped and asked
about before any bird, and nobody is sent in for a look. Texts of three languages through the whole
turn. Rules: practice (Fire and air); carbon monoxide has no smell: CPSC 5012."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from bot.facts.talk import Hearing
from bot.facts.writes import TellAdviser
from bot.wiring import Thinking
from tests.decide.scene import NIGHT, keys, stand

ALARM = {
    "en": "my boy sleeps near the stove in the brooder, wont wake up well, his head is paining",
    "fr": "mon fils dort dans la poussiniere pres du feu, il a mal a la tete et des vertiges",
    "sw": "kijana wangu amelala bandani karibu na jiko, haamki vizuri, kichwa kinamuuma",
}
BIRDS_FIRST = ("ask_ammonia_smell", "fumes_fire", "sick", "sick_vet", "sick_lame", "relight_fire")
SENT_IN = ("litter", "sign:ammonia_smell", "sign:noisy_distress", "wake", "behaviour", "one_look")


def alarmed(rehearsal: Rehearsal, language: str, **farm: object) -> None:
    stand(rehearsal, language, NIGHT, **farm)
    assert keys(rehearsal, ALARM[language])[0] == "danger_fumes"
    rehearsal.wait(timedelta(minutes=1))


def asked_again(rehearsal: Rehearsal, minutes: int) -> bool:
    """Whether we asked by ourselves how they are, so long after."""
    rehearsal.heard()
    rehearsal.wait(timedelta(minutes=minutes))
    question = rehearsal.case().question
    return bool(rehearsal.heard()) and question is not None and question.name == "check_back"


ILL = [
    ("en", "he is outside, talks a little, coughs"),
    ("en", "ok i carried him out, he is vomiting"),
    ("en", "no he is outside. speaks slowly, cannot stand well"),
    ("en", "my head is heavy too but i am ok"),
    ("en", "he breathes fast and shivers"),
    ("en", "mine too, me and my wife"),
    ("fr", "il est dehors, il parle un peu, il tousse"),
    ("fr", "je l'ai sorti, il vomit encore"),
    ("fr", "il ne tient pas debout, il est tout pale"),
    ("fr", "moi aussi j'ai la tete lourde"),
    ("sw", "yuko nje, anaongea kidogo, anakohoa"),
    ("sw", "nimemtoa nje anatapika"),
    ("sw", "hawezi kusimama vizuri, anaongea polepole"),
    ("sw", "na mimi kichwa kizito kidogo"),
    ("en", "he sits up but falls back"),
    ("en", "the boy stands then drops down again"),
    ("fr", "il s'assoit mais il retombe en arriere"),
    ("fr", "elle se leve et bascule sur le cote"),
    ("sw", "anakaa lakini anaanguka chali tena"),
]


@pytest.mark.parametrize(("language", "text"), ILL)
def test_what_is_told_of_a_person_helps_that_person_and_asks_how_they_are(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    alarmed(rehearsal, language)
    said = keys(rehearsal, text)
    assert said[0] == "people_ill"
    assert said[-1] == "people"
    assert not set(BIRDS_FIRST).intersection(said)


@pytest.mark.parametrize(("language", "text"), ILL)
def test_it_is_no_sign_of_the_birds(rehearsal: Rehearsal, language: str, text: str) -> None:
    alarmed(rehearsal, language)
    before = rehearsal.case().batches[-1]
    assert before.complaint is not None
    rehearsal.say(text)
    after = rehearsal.case().batches[-1]
    assert after.complaint is not None
    assert set(after.complaint.signals) <= {*before.complaint.signals}
    assert not after.held


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "he is outside but he does not answer me"),
        ("en", "she is not breathing well and wont wake"),
        ("fr", "il est dehors il repond a peine. que faire"),
        ("fr", "elle respire mal et ne se reveille pas"),
        ("sw", "yuko nje lakini hajibu"),
        ("sw", "hapumui vizuri na haamki"),
    ],
)
def test_who_hardly_answers_is_for_the_emergency_number_now(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    alarmed(rehearsal, language)
    said = keys(rehearsal, text)
    assert "people_down" in said
    assert said[0] in ("people_down", "fumes_inside")  # who may still be in there is fetched first


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "i pulled him outside"),
        ("en", "all of us are out now, door is open"),
        ("fr", "mon fils est dehors maintenant, j'appelle le voisin avec la moto"),
        ("fr", "on est tous sortis"),
        ("sw", "nimemtoa nje sasa"),
        ("sw", "wote tumetoka nje"),
    ],
)
def test_who_is_out_is_asked_about_and_not_looked_for_inside(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    alarmed(rehearsal, language)
    said = keys(rehearsal, text)
    assert said[0] == "people_out"
    assert said[-1] == "people"
    assert "fumes_inside" not in said


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "he is still inside near the door"),
        ("fr", "il est encore couche dedans pres de la porte"),
        ("sw", "bado yuko ndani karibu na mlango"),
    ],
)
def test_who_is_still_inside_is_fetched_by_two(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    alarmed(rehearsal, language)
    assert keys(rehearsal, text)[0] == "fumes_inside"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "is it the new feed? opened yesterday looks good"),
        ("en", "the chicks lie flat everywhere"),
        ("en", "what should i do with the chicks"),
        ("en", "temp is 33 inside"),
        ("fr", "c'est l'aliment? le sac est neuf"),
        ("fr", "les poussins toussent"),
        ("sw", "ni chakula kipya? vifaranga wamelala"),
        ("sw", "vifaranga wanakohoa"),
    ],
)
def test_nothing_asked_or_told_sends_anybody_in_before_the_air_had_its_time(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    alarmed(rehearsal, language)
    said = keys(rehearsal, text)
    assert said[0] in ("people_wait", "danger_fumes")
    assert said[-1] not in SENT_IN
    assert not set(BIRDS_FIRST).intersection(said)


def test_deaths_told_while_people_are_ill_are_counted_and_a_danger_behind_them(
    rehearsal: Rehearsal,
) -> None:
    alarmed(rehearsal, "en")
    taken, _ = rehearsal.say("all closed, very cold. fifteen dead")
    assert taken.decision.lines[0].key == "people_wait"
    assert taken.decision.referred
    assert "danger_deaths" in [line.key for text in taken.decision.more for line in text]
    assert rehearsal.case().batches[-1].total("deaths") == 15


@pytest.mark.parametrize(("digit", "key"), [("1", "people_well"), ("2", "people_ill"),
                                            ("3", "people_down")])  # fmt: skip
def test_the_question_how_they_are_is_answered_by_a_digit(
    rehearsal: Rehearsal, digit: str, key: str
) -> None:
    alarmed(rehearsal, "en")
    rehearsal.say("i pulled him outside")
    said = keys(rehearsal, digit)
    assert said[0] == key
    assert said[-1] == ("" if digit == "1" else "people")


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "speaks slow, cannot stand well"),
        ("en", "better but he still vomits"),
        ("fr", "il parle lentement, il vomit"),
        ("sw", "anaongea polepole, anatapika bado"),
    ],
)
def test_at_the_check_back_on_the_people_an_ill_one_is_helped(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    alarmed(rehearsal, language)
    assert asked_again(rehearsal, 31)
    said = keys(rehearsal, text)
    assert said[0] == "people_ill"
    assert not set(BIRDS_FIRST).intersection(said)
    assert asked_again(rehearsal, 31)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "he is fine now, talks well"),
        ("fr", "il va bien maintenant"),
        ("fr", "ca va mieux pour lui"),
        ("sw", "yuko sawa sasa"),
    ],
)
def test_who_is_well_stays_out_until_the_air_had_its_time(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    alarmed(rehearsal, language)
    assert keys(rehearsal, text)[0] == "people_well"
    assert asked_again(rehearsal, 31)
    assert "better_poisoned" in keys(rehearsal, text)


def test_the_adviser_hears_of_an_ill_person_once(rehearsal: Rehearsal) -> None:
    alarmed(rehearsal, "en")
    told = []
    for text in ("he is vomiting", "he still vomits"):
        taken, _ = rehearsal.say(text)
        told += [one for one in taken.decision.writes if isinstance(one, TellAdviser)]
    assert len(told) == 1


def test_birds_that_cough_without_an_alarm_of_bad_air_are_birds(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", heat="none")
    said = keys(rehearsal, "he coughs, my big cock, and two chicks")
    assert not {"people_ill", "people_wait"}.intersection(said)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "better, the heap loosens. my mother is sick i cannot stay here long"),
        ("fr", "mieux, le tas se defait. ma mere est malade je ne peux pas rester"),
        ("sw", "nafuu, rundo linalegea. mama anaumwa siwezi kukaa hapa muda mrefu"),
    ],
)
def test_an_ill_relative_beside_better_birds_takes_nothing_from_the_better(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, NIGHT)
    piled = {"en": "piled up at the stove", "fr": "ils sont en tas pres du feu",
             "sw": "wamerundikana karibu na jiko"}  # fmt: skip
    rehearsal.say(piled[language])
    assert asked_again(rehearsal, 21)
    said = keys(rehearsal, text)
    assert "better_night" in said
    assert "person_by_fire" in said
    assert "all_tried_cold" not in said


@pytest.mark.parametrize(
    ("language", "text"),
    [("en", "yes all are well"), ("fr", "oui tous vont bien"), ("sw", "ndio wote wazima")],
)
def test_all_well_at_the_check_back_is_said_of_the_people(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    alarmed(rehearsal, language)
    assert asked_again(rehearsal, 31)
    said = keys(rehearsal, text)
    assert "better_poisoned" in said
    assert "fumes_fire" not in said


@pytest.mark.parametrize(
    ("language", "out", "text"),
    [
        ("en", "i pulled him outside", "xx bla nkwo"),
        ("fr", "il est dehors", "xx bla nkwo"),
        ("sw", "nimemtoa nje", "xx bla nkwo"),
    ],
)
def test_words_nobody_knows_are_of_no_one_inside_once_they_are_out(
    rehearsal: Rehearsal, language: str, out: str, text: str
) -> None:
    alarmed(rehearsal, language)
    rehearsal.say(out)
    said = keys(rehearsal, text)
    assert said[0] == "people_wait"
    assert said[-1] == "people"


def test_a_phone_that_stopped_gets_each_danger_anew(rehearsal: Rehearsal) -> None:
    alarmed(rehearsal, "en")
    rehearsal.say("STOP")
    taken, _ = rehearsal.say("woke with pounding head after sleeping in the brooder")
    assert taken.decision.lines[0].key == "danger_fumes"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "their toilet is coming out with blood"),
        ("fr", "il sort du sang des fientes"),
        ("sw", "kinyesi chao kinatoka na damu"),
    ],
)
def test_blood_of_the_droppings_stays_a_danger_of_the_birds(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    alarmed(rehearsal, language)
    assert "danger_blood" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("fr", "personne n'a mal a la tete. ca sent comme l'urine"),
        ("fr", "personne n'a mal a la tete, c'est du gaz et non du charbon"),
        ("fr", "aucun de nous n'a mal a la tete"),
        ("en", "nobody has a headache here, it smells like urine"),
        ("sw", "hakuna mtu anayeumwa kichwa, inanuka kama mkojo"),
    ],
)
def test_nobody_who_has_a_headache_is_nobody_ill(
    thinking: Thinking, language: str, text: str
) -> None:
    hearing = Hearing(
        date(2026, 7, 29), language, has_batch=True, age_days=10, trouble=True, air=True
    )
    assert thinking.reader.read(text, hearing).people == ("well",)

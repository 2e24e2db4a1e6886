"""Gas that leaked and hurt nobody: once it is shut and the smell is gone, chicks get their heat
back by the sound heater. And what is no bad air at all: half of them too hot under one heater, a
sting each morning. Texts of three languages through the whole turn. Common practice, no source."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

EVENING, MORNING = "2026-08-19T19:10:00+03:00", "2026-07-09T06:40:00+03:00"
LEAKS = (
    ("en", "it smells a little at the left heater"),
    ("en", "there is a smell near the regulator"),
    ("en", "gas smells in the brooder, not strong"),
    ("fr", "il y a un peu d'odeur au radiant de gauche"),
    ("fr", "ca sent le gaz pres d'un radiant"),
    ("sw", "harufu kidogo kwa heater ya kushoto"),
    ("sw", "kuna harufu ya gesi kwenye mtungi"),
)
GONE = {
    "en": (
        "gas is shut and the smell is gone, now the chicks are cold",
        "no smell any more, they are piled up. can i light the good heater",
        "closed the bottle, smell finished",
    ),
    "fr": (
        "bouteille fermee, plus d'odeur, les poussins ont froid",
        "l'odeur est partie, ils sont en tas",
        "j'ai ferme le gaz, ca ne sent plus",
    ),
    "sw": (
        "nimefunga gesi, harufu imeisha, vifaranga wanasikia baridi",
        "hakuna harufu tena, wamerundikana",
        "mtungi umefungwa na harufu imeisha",
    ),
}
STILL = (
    ("en", "i shut the bottle but it still smells of gas"),
    ("fr", "bouteille fermee mais ca sent encore le gaz"),
    ("sw", "nimefunga mtungi lakini bado inanuka gesi"),
)
HALF_HOT = (
    (
        "en",
        "one of three gas heaters died, half crowd under the two and some pant below. i gave full",
    ),
    (
        "en",
        "a heater is out since noon, they press under the others and pant there, what now",
    ),
    (
        "fr",
        "un des 3 radiants en panne, la moitie tassee sous les autres et d'autres halètent",
    ),
    (
        "fr",
        "radiant mort depuis ce matin, ils se tassent sous le second et halètent, que faire",
    ),
    ("sw", "heater moja imezima, nusu wamebanana chini ya nyingine na wengine wanahema hapo"),
)
STINGS = (
    (
        "en",
        "in the morning when i go in it stings the eyes and throat, at night i close with plastic",
    ),
    ("en", "each dawn my eyes water when i bend inside, it is all closed at night for the cold"),
    ("fr", "a l'aube quand j'entre ca pique les yeux et le nez, la nuit tout est ferme a la bache"),
    ("fr", "en entrant le matin ca brule les yeux, la nuit je ferme bien car il fait froid"),
    ("sw", "asubuhi nikiingia macho yanawasha na koo, usiku nafunga na nailoni kwa baridi"),
)


def _leaks(rehearsal: Rehearsal, language: str) -> None:
    stand(rehearsal, language, EVENING, heat="gas", age_days=7)
    first = next(text for at, text in LEAKS if at == language)
    assert keys(rehearsal, first)[0] == "fumes_gas"
    rehearsal.wait(timedelta(minutes=25))
    rehearsal.heard()


@pytest.mark.parametrize(("language", "text"), LEAKS)
def test_a_smell_at_a_gas_heater_is_gas_and_no_wet_litter(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, EVENING, heat="gas", age_days=7)
    assert keys(rehearsal, text)[0] in ("fumes_gas", "danger_fumes")


@pytest.mark.parametrize(("language", "text"), [(at, one) for at in GONE for one in GONE[at]])
def test_once_the_gas_is_gone_the_sound_heater_is_lit_and_they_are_looked_at_again(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    _leaks(rehearsal, language)
    said = keys(rehearsal, text)
    assert "better_gas" in said
    assert not {"fumes_more", "uneven_more"}.intersection(said)
    rehearsal.wait(timedelta(minutes=45))
    assert rehearsal.heard()  # we come back to chicks that were without heat


@pytest.mark.parametrize(("language", "text"), STILL)
def test_while_it_still_smells_of_gas_nothing_is_lit(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    _leaks(rehearsal, language)
    assert "better_gas" not in keys(rehearsal, text)


@pytest.mark.parametrize(("language", "text"), HALF_HOT)
def test_half_crowded_and_panting_under_one_heater_is_uneven_heat_and_no_bad_air(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, EVENING, heat="gas", age_days=8)
    taken, _ = rehearsal.say(text)
    assert not taken.decision.referred
    assert taken.decision.why is not None
    assert taken.decision.why.cause == "uneven_heat"


@pytest.mark.parametrize(("language", "text"), STINGS)
def test_a_sting_of_each_morning_is_sharp_air_and_the_top_is_opened(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, heat="charcoal", age_days=10)
    taken, _ = rehearsal.say(text)
    assert not taken.decision.referred
    said = [line.key for part in (taken.decision.lines, *taken.decision.more) for line in part]
    assert {"air_sharp", "ammonia", "ammonia_bare"}.intersection(said)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "one heater is out, they press under the other and my boy there has a headache"),
        ("fr", "un radiant mort, ils se tassent sous l'autre et mon fils a des vertiges la dedans"),
        ("sw", "heater moja imezima, wamebanana na kijana wangu humo anaumwa kichwa"),
        ("fr", "quand j'entre ca pique et la tete me tourne"),
        ("en", "half crowd at the stove and the others lie drowsy, do not wake when i clap"),
    ],
)
def test_whoever_is_ill_beside_a_fire_is_still_bad_air(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, EVENING, heat="gas", age_days=8)
    taken, _ = rehearsal.say(text)
    assert taken.decision.referred

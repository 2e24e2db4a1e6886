"""What a farmer asks before grown birds are fetched: hours without feed, water, the hour of the
catch, who comes in. Six to ten hours without feed, water till the catch, caught in the dark or at
dawn, crates at the gate: common practice, no source. Texts of three languages through the whole
turn."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

MORNING = "2026-07-09T09:00:00+03:00"
GROWN = {"heat": "none", "age_days": 38, "count": 300}
FEED = {
    "en": (
        "how many hours without feed before catching?",
        "buyer picks up tonight, do i take away the water too?",
        "should chickens be fed on the day of sale?",
        "the trader comes saturday morning. shall i keep the feeders full until he arrives?",
        "i am selling tomorrow what do i prepare",
        "lorry comes tomorrow, do i starve them from now?",
    ),
    "fr": (
        "on attrape cette nuit, je laisse l'eau ?",
        "combien de temps a jeun avant la vente",
        "le client vient les chercher demain, je coupe l'eau et l'aliment ?",
        "je les nourris encore le jour du depart ?",
        "lacheteur passe demain matin, ils vont bien, faut il couper leau",
        "demain je vends tout",
    ),
    "sw": (
        "kabla ya kuwakamata wakae bila chakula masaa mangapi?",
        "mnunuzi anakuja kesho, nitoe maji pia?",
        "siku ya kuuza niwape chakula?",
        "tunakamata kuku usiku huu, niwaachie maji?",
        "kesho nauza kuku wote nifanye nini",
    ),
}
GATE = (
    ("en", "can the buyers men walk in and catch them with his boxes?"),
    ("en", "can his boys come inside with their crates"),
    ("en", "what time is best to catch them for the market"),
    ("fr", "les gars de l'acheteur peuvent entrer avec leurs cageots ?"),
    ("fr", "a quelle heure attraper les poulets pour le marche"),
    ("sw", "vijana wa mnunuzi waingie bandani na kreti zao?"),
    ("sw", "ni saa ngapi nzuri kuwakamata kwa ajili ya soko"),
)
BY_DAY = (
    ("en", "he wants to collect them at 1pm in the sun is that ok?"),
    ("en", "buyer will come tomorrow at noon, can i feed till he comes"),
    ("fr", "il veut les prendre a midi, c'est bon ?"),
    ("fr", "le grossiste charge demain a 14h, ils vont supporter ?"),
    ("sw", "mnunuzi anataka kuwachukua saa saba mchana ni sawa?"),
)
OTHERWISE = (
    ("en", "when should i sell"),
    ("en", "how many crates for 200"),
    ("en", "buyer took 40 yesterday at 600"),
    ("en", "how much feed until sale"),
    ("en", "can i move them to the new house at noon?"),
    ("fr", "combien de caisses pour 200 poulets"),
    ("fr", "acheteur a pris 40 hier a 2000"),
    ("fr", "a quel age vendre"),
    ("sw", "kreti ngapi kwa kuku 200"),
    ("sw", "niuze lini"),
    ("sw", "naweza kuwahamisha mchana?"),
)
TOLD = ("catch_feed", "catch_feed_at", "catch_how", "catch_by_day")


def _all_said(rehearsal: Rehearsal, text: str) -> list[str]:
    taken, _ = rehearsal.say(text)
    return [line.key for part in (taken.decision.lines, *taken.decision.more) for line in part]


@pytest.mark.parametrize(("language", "text"), [(at, one) for at in FEED for one in FEED[at]])
def test_feed_is_taken_eight_hours_before_they_are_caught_and_water_stays(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, **GROWN)
    assert _all_said(rehearsal, text) == ["catch_feed", "catch_how"]


@pytest.mark.parametrize(("language", "text"), GATE)
def test_who_comes_for_them_stays_at_the_gate(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, **GROWN)
    assert _all_said(rehearsal, text)[0] == "catch_how"


@pytest.mark.parametrize(("language", "text"), BY_DAY)
def test_none_is_caught_in_the_heat_of_the_day(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, **GROWN)
    assert _all_said(rehearsal, text) == ["catch_by_day", "catch_feed"]


@pytest.mark.parametrize(
    ("language", "text", "at"),
    [
        ("en", "lorry comes tomorrow at 4am, when must the feed come off?", "20:00"),
        (
            "fr",
            "l'acheteur vient demain a 5h du matin, faut-il enlever l'aliment ce matin",
            "21:00",
        ),
        ("sw", "gari linakuja kesho saa 10 alfajiri, nitoe chakula lini?", "2:00"),
    ],
)
def test_the_hour_is_counted_back_from_the_one_that_is_told(
    rehearsal: Rehearsal, language: str, text: str, at: str
) -> None:
    stand(rehearsal, language, MORNING, **GROWN)
    _, heard = rehearsal.say(text)
    assert any(at in one.text for one in heard)


@pytest.mark.parametrize(("language", "text"), OTHERWISE)
def test_what_is_asked_or_told_of_another_matter_is_not_taken_for_it(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, **GROWN)
    assert not set(TOLD).intersection(_all_said(rehearsal, text))


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "the lorry comes tomorrow at 5, do i stop the feed?"),
        ("fr", "le camion passe demain, je retire l'aliment quand ?"),
        ("sw", "mnunuzi anakuja kesho, nitoe chakula lini?"),
    ],
)
def test_nothing_of_a_catch_while_a_disease_is_suspected(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, **GROWN)
    ill = {
        "en": "two have twisted necks",
        "fr": "deux ont le cou tordu",
        "sw": "wawili shingo zimepinda",
    }
    assert keys(rehearsal, ill[language])[0] == "danger_notifiable"
    assert not set(TOLD).intersection(_all_said(rehearsal, text))

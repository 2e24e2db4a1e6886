"""Words that were taken for something else: how far the shop is for deaths, what is left for what
was eaten, where the dead were put for a heap, what they did before they lay down again. Texts of
three languages through the whole turn. Common practice, no source."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from bot.facts.writes import AddEvent
from tests.decide.scene import keys, stand

EVENING, MORNING = "2026-09-03T21:10:00+03:00", "2026-09-03T09:10:00+03:00"
LYING = {
    "en": "the chicks lie flat all over with necks out and make almost no noise",
    "fr": "les poussins sont couches a plat partout, le cou allonge",
    "sw": "vifaranga wamelala chini kila mahali shingo chini, kimya",
}
GRAVE = {
    "en": "30 died today, heads are swollen and necks twisted",
    "fr": "30 morts aujourd'hui, les tetes sont gonflees et le cou tordu",
    "sw": "30 wamekufa leo, vichwa vimevimba na shingo zimepinda",
}


def booked(rehearsal: Rehearsal, text: str) -> list[str]:
    """The kinds of record that a text left."""
    writes = rehearsal.say(text)[0].decision.writes
    return [one.kind for one in writes if isinstance(one, AddEvent)]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("sw", "duka lipo km 4, naweza kupata leo"),
        ("sw", "daktari yuko km 6 kutoka hapa"),
        ("en", "the shop is 4 km away, i can get it today"),
        ("fr", "la boutique est a 4 km, je peux y aller"),
        ("fr", "le poste est a 15 km"),
    ],
)
def test_how_far_it_is_counts_no_dead(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, MORNING, age_days=20)
    assert "deaths" not in booked(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [("en", "4 died today"), ("fr", "4 morts ce matin"), ("sw", "leo wamekufa 4")],
)
def test_the_dead_are_counted(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, MORNING, age_days=20, count=1000)
    assert "deaths" in booked(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "3 bags left"),
        ("en", "i have 3 bags of feed left"),
        ("fr", "il me reste 2 sacs"),
        ("fr", "il reste 100 kg d'aliment"),
        ("sw", "nimebaki na mifuko 3"),
    ],
)
def test_feed_that_is_left_was_not_eaten(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, MORNING, age_days=20)
    assert "feed_eaten" not in booked(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they ate 2 bags today"),
        ("en", "ate 2 bags, 3 left"),
        ("fr", "ils ont mange 100 kg"),
        ("sw", "wamekula mifuko 2"),
    ],
)
def test_feed_that_was_eaten_is(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, MORNING, age_days=20)
    assert "feed_eaten" in booked(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "the dead are in a heap at the door"),
        ("en", "dead ones piled outside, what do i do with them"),
        ("fr", "les morts sont en tas devant la porte"),
        ("fr", "cadavres en tas dehors, mon fils les a portes a main nue"),
        ("sw", "maiti zimerundikwa nje ya banda"),
    ],
)
def test_where_the_dead_were_put_is_no_heap_of_the_living(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, age_days=30, count=600)
    assert keys(rehearsal, GRAVE[language])[0].startswith("danger_")
    said = keys(rehearsal, text)
    assert "heap_apart" not in said
    assert "held_dead" in said


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they are piled in the corner on each other"),
        ("fr", "ils sont en tas dans le coin"),
        ("sw", "wamerundikana kwenye kona"),
    ],
)
def test_a_heap_of_the_living_is_parted(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, EVENING)
    hand = {"en": "by hand", "fr": "a la main", "sw": "kwa mkono"}[language]
    assert hand in rehearsal.say(text)[0].texts[0]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "they jump up and run when i clap, then lie down again"),
        ("en", "they got up, then sleep again"),
        ("en", "all ran then lay down"),
        ("fr", "ils sautent puis se recouchent"),
        ("sw", "wanaruka kisha wanalala tena"),
    ],
)
def test_who_gets_up_and_lies_down_again_only_rests(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, EVENING, heat="gas", age_days=5)
    assert keys(rehearsal, LYING[language])[-1] == "wake"
    assert "wake_ok" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "most lie down still"),
        ("en", "they lie down again and do not get up"),
        ("fr", "ils restent couches"),
        ("sw", "wengi wanabaki chini"),
    ],
)
def test_who_stays_down_does_not(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, EVENING, heat="gas", age_days=5)
    rehearsal.say(LYING[language])
    assert rehearsal.say(text)[0].decision.referred


@pytest.mark.parametrize(
    ("language", "text", "dead"),
    [
        ("fr", "un des deux est mort", 1),
        ("fr", "deux des trois malades sont morts", 2),
        ("fr", "un des poussins est mort", 1),
        ("en", "one of the two died", 1),
        ("sw", "mmoja kati ya wawili amekufa", 1),
    ],
)
def test_one_of_two_that_died_is_one(
    rehearsal: Rehearsal, language: str, text: str, dead: int
) -> None:
    stand(rehearsal, language, MORNING, age_days=13)
    assert rehearsal.say(text)[0].meaning.slots.deaths == dead


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "we pulled him out, he has a headache. two jikos still red inside"),
        ("en", "he is out. the stoves are red in there"),
    ],
)
def test_red_stoves_are_no_blood(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, EVENING, heat="charcoal")
    rehearsal.say("my worker does not wake up well in the brooder, his head hurts")
    assert "danger_blood" not in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("fr", "l'acheteur a deja donne un acompte"),
        ("fr", "le commercant m'a donne l'avance"),
        ("en", "the buyer gave me a deposit"),
    ],
)
def test_money_of_a_buyer_is_no_treatment(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, MORNING, age_days=34)
    assert "treated" not in booked(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "who can sleep there tonight?"),
        ("fr", "qui peut dormir la cette nuit?"),
        ("sw", "nani alale humo leo usiku?"),
    ],
)
def test_nobody_sleeps_in_there(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, MORNING, heat="charcoal")
    assert "sleep_out" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "one bag got hard and smells old, they leave half of it"),
        ("en", "the mash smells musty, we served it since sunday"),
        ("fr", "un sac est devenu dur et sent le vieux, ils laissent la moitie"),
        ("fr", "l'aliment est dur et sent le renferme"),
        ("sw", "gunia moja limekuwa gumu na linanuka kizamani, wanaacha nusu"),
    ],
)
def test_feed_that_smells_old_is_taken_out(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, MORNING, heat="none", age_days=21)
    assert "feed_problem" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "the old house is closed"),
        ("en", "the litter smells bad when i bend down"),
        ("fr", "le sol est dur"),
    ],
)
def test_what_is_old_or_hard_is_not_always_feed(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, heat="none", age_days=21)
    assert "feed_problem" not in keys(rehearsal, text)

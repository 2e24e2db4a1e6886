"""Nothing is changed, and nothing called well, before the one look that tells: of the dead, of
wounds, of cold feet, of a person who is still inside. In words, in three languages."""

from __future__ import annotations

from datetime import timedelta
from functools import partial

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide import scene
from tests.decide.scene import NIGHT
from tests.decide.scene import keys as said

stand = partial(scene.stand, age_days=12, count=500)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "one dead this morning, blood on the neck and back, the rest are eating"),
        ("fr", "un mort ce matin avec du sang sur le cou et le dos, les autres mangent"),
        ("sw", "mmoja amekufa leo ana damu mgongoni na kichwani, wengine wazima"),
    ],
)
def test_wounds_of_the_dead_ask_for_the_beast_and_not_for_a_place(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language)
    assert said(rehearsal, text)[-1] in ("sign:rats_or_predator", "dead_look")
    assert "predator" in said(rehearsal, "1")


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "2 chicks dead today, the others are fine"),
        ("fr", "2 morts ce jour, les autres vont bien"),
        ("sw", "wawili wamekufa leo wengine wazima"),
    ],
)
def test_where_some_died_the_dead_are_looked_at_before_all_is_well(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language)
    assert said(rehearsal, text)[-1] == "dead_look"
    assert "comfortable" not in said(rehearsal, "3")


@pytest.mark.parametrize(
    ("language", "alarm", "texts"),
    [
        (
            "en",
            "i have a headache since i went in to the chicks and they dont wake",
            ["my child is inside", "someone is still in there", "my son does not wake"],
        ),
        (
            "fr",
            "jai mal a la tete depuis que je suis entre et les poussins ne se reveillent pas",
            ["mon fils est dedans", "quelqu'un est encore dedans", "ma fille ne se reveille pas"],
        ),
        (
            "sw",
            "kichwa kinaniuma tangu niingie kwa vifaranga nao wamelala hawaamki",
            [
                "kijana wangu yuko ndani",
                "ndani kuna mtu",
                "mwanangu hazinduki",
                "mke wangu amebaki humo",
            ],
        ),
    ],
)
def test_a_person_left_in_bad_air_is_got_out_from_outside(
    rehearsal: Rehearsal, language: str, alarm: str, texts: list[str]
) -> None:
    for text in texts:
        stand(rehearsal, language, NIGHT, heat="charcoal", age_days=6)
        assert said(rehearsal, alarm)[0] == "danger_fumes"
        taken, _ = rehearsal.say(text)
        assert taken.decision.lines[0].key in ("fumes_inside", "danger_fumes")
        assert taken.decision.referred
        stand(rehearsal, language, NIGHT, heat="charcoal", age_days=6)


@pytest.mark.parametrize(
    ("language", "text", "no"),
    [
        ("en", "chicks cry and cry though the feeders are full", "no"),
        ("fr", "ils crient tout le temps pourtant les mangeoires sont pleines", "non"),
        ("sw", "vifaranga wanalia sana na vyombo vimejaa chakula", "hapana"),
    ],
)
def test_three_noes_to_a_cry_never_end_in_more_heat(
    rehearsal: Rehearsal, language: str, text: str, no: str
) -> None:
    stand(rehearsal, language, heat="bulb", age_days=8)
    keys = said(rehearsal, text)
    for _ in range(4):
        if not keys[-1].startswith("sign:"):
            break
        keys = said(rehearsal, no)
    assert not [key for key in keys if key.startswith("cold_")]
    assert not keys[-1].startswith("sign:")


@pytest.mark.parametrize(
    ("language", "text", "yes"),
    [
        ("en", "the chicks that came at noon do not eat and they cry", "yes"),
        ("fr", "les poussins arrives a midi ne mangent pas et crient", "oui"),
        ("sw", "vifaranga waliofika mchana hawali na wanalia", "ndiyo"),
    ],
)
def test_in_the_first_hours_the_floor_is_felt_before_feed_is_moved(
    rehearsal: Rehearsal, language: str, text: str, yes: str
) -> None:
    stand(rehearsal, language, age_days=0, count=150)
    assert said(rehearsal, text)[-1] == "sign:litter_cold"
    assert "cold_first" in said(rehearsal, yes)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "litter is wet and some birds stay much smaller"),
        ("fr", "la litiere est mouillee et certains restent beaucoup plus petits"),
        ("sw", "maranda yamelowa na wengine wamebaki wadogo sana"),
    ],
)
def test_what_was_told_second_is_asked_about_behind_the_first_action(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language)
    keys = said(rehearsal, text)
    assert "damp" in keys
    assert keys[-1] in ("sign:feed_out_of_reach", "sign:cannibalism_or_pecking", "")
    assert keys[-1] or "crowding" in keys or "hunger_room" in keys


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_a_bare_figure_after_the_thermometer_was_moved_is_its_reading(
    rehearsal: Rehearsal, language: str
) -> None:
    stand(rehearsal, language, age_days=4, thermometer=True)
    said(rehearsal, "36 C")
    said(rehearsal, "2")
    said(rehearsal, "2")
    assert rehearsal.say("24")[0].decision.why is not None
    assert "not_understood" not in said(rehearsal, "24,5")


@pytest.mark.parametrize(
    ("language", "text", "words"),
    [
        ("en", "they sneeze since yesterday", "the radio of my uncle plays"),
        ("fr", "ils eternuent depuis hier", "la radio de mon oncle joue"),
        ("sw", "wanapiga chafya tangu jana", "redio ya jirani inacheza"),
    ],
)
def test_words_not_understood_bring_the_same_question_and_then_go_on(
    rehearsal: Rehearsal, language: str, text: str, words: str
) -> None:
    stand(rehearsal, language, heat="none")
    first = said(rehearsal, text)[-1]
    again = said(rehearsal, words)
    assert (again[0], again[-1]) == ("sorry", first)
    further = said(rehearsal, words + " x")
    assert further[-1] not in (first, "behaviour")


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "new feed is big pellets they pick it up and drop it"),
        ("fr", "les granules sont trop gros ils picorent et recrachent"),
        ("sw", "chakula ni pellet kubwa leo nimebadilisha"),
    ],
)
def test_feed_too_coarse_for_them_is_crushed(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, heat="bulb", age_days=9)
    assert "feed_crush" in said(rehearsal, text)


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_better_air_is_kept_by_an_open_top_in_the_night(
    rehearsal: Rehearsal, language: str
) -> None:
    text = {
        "en": "sharp smell at bird height, litter is wet",
        "fr": "odeur forte qui pique a leur hauteur, litiere mouillee",
        "sw": "harufu kali inawasha na maranda yamelowa",
    }[language]
    stand(rehearsal, language, heat="none", house="open", age_days=22)
    assert "ammonia_open" in said(rehearsal, text)
    rehearsal.wait(timedelta(minutes=31))
    assert "better_top" in said(rehearsal, "1")

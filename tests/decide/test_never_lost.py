"""In a trouble nobody is told twice running that they were not understood; "help", "is it serious"
and "I don't know" are met with what is known and the next look, never with a list of topics.
Common practice, no source."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import at_age, told

TROUBLE = {
    "en": "they are piled at the stove",
    "fr": "ils sont en tas pres du fourneau",
    "sw": "wamerundikana kwenye jiko",
}
NOT_HEARD = {"en": "not understand", "fr": "pas compris", "sw": "Sijaelewa"}
STRANGE = ("zzyx qwop", "qwop vlork zzyx", "vlork drubb", "drubb zzyx vlork")


def said(rehearsal: Rehearsal, text: str) -> str:
    return " ".join(rehearsal.say(text)[0].texts)


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_nobody_is_told_twice_running_that_they_were_not_understood(
    rehearsal: Rehearsal, language: str
) -> None:
    at_age(rehearsal, 5, language=language)
    said(rehearsal, TROUBLE[language])
    missed = [NOT_HEARD[language] in said(rehearsal, text) for text in STRANGE]
    assert missed == [True, False, False, False]


def test_the_second_such_text_is_met_with_the_advice_the_third_goes_to_the_adviser(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 5)
    advice = said(rehearsal, TROUBLE["en"])
    said(rehearsal, STRANGE[0])
    assert said(rehearsal, STRANGE[1])[:40] in advice
    assert told(rehearsal.say(STRANGE[2])[0], "worse")


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "help me"),
        ("en", "is it serious"),
        ("en", "what do I do now"),
        ("en", "?"),
        ("fr", "c'est grave?"),
        ("fr", "aidez moi"),
        ("fr", "qu'est-ce que je dois faire"),
        ("sw", "nifanye nini"),
        ("sw", "ni hatari?"),
        ("sw", "nisaidie"),
    ],
)
def test_worry_in_a_trouble_is_answered_with_the_advice_once_more(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    at_age(rehearsal, 5, language=language)
    advice = said(rehearsal, TROUBLE[language])
    assert said(rehearsal, text)[:40] in advice


def test_worry_at_an_open_question_has_the_question_again(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 5)
    asked = said(rehearsal, "they make noise")
    again = said(rehearsal, "is it bad?")
    assert again.endswith(asked[-40:])


def test_worry_in_an_alarm_has_the_danger_in_full(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 5)
    alarm = said(rehearsal, "blood in the droppings of many")
    assert said(rehearsal, "what should i do")[:60] in alarm


def test_a_cry_for_help_of_many_words_is_asked_where_they_are(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 5)
    assert "Where are the chicks?" in said(rehearsal, "my chicks are not ok today please help")


@pytest.mark.parametrize("word", ["i dont know", "not sure"])
def test_who_does_not_know_at_a_check_back_sends_somebody_to_look(
    rehearsal: Rehearsal, word: str
) -> None:
    at_age(rehearsal, 5)
    said(rehearsal, TROUBLE["en"])
    while not any("1 better" in one.text for one in rehearsal.heard()):
        rehearsal.wait(timedelta(minutes=30))
    answer = said(rehearsal, word)
    assert "Let someone look" in answer
    assert "1 better 2 same 3 worse" in answer


@pytest.mark.parametrize(
    ("language", "text", "key"),
    [
        ("en", "the drinkers are all full", "not_drinking"),
        ("fr", "tous les fourneaux sont allumes", "stove_out"),
        ("sw", "vinywesheo vimejaa", "not_drinking"),
        ("en", "all stoves are burning", "stove_out"),
        ("en", "new mix since yesterday", "feed_new"),
        ("fr", "les abreuvoirs gouttent", "litter_wet"),
    ],
)
def test_what_is_told_unasked_in_a_trouble_is_taken_down(
    rehearsal: Rehearsal, language: str, text: str, key: str
) -> None:
    at_age(rehearsal, 5, language=language)
    said(rehearsal, TROUBLE[language])
    assert NOT_HEARD[language] not in said(rehearsal, text)
    complaint = rehearsal.case().batches[0].complaint
    assert complaint is not None
    assert key in (*complaint.not_signals, *complaint.signals)


@pytest.mark.parametrize(
    ("language", "text"), [("en", "vet is called"), ("sw", "nimempigia daktari")]
)
def test_that_the_vet_was_called_is_heard_before_we_ask(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    at_age(rehearsal, 5, language=language)
    danger = {"en": "blood in droppings", "sw": "kinyesi kina damu"}[language]
    said(rehearsal, danger)
    assert NOT_HEARD[language] not in said(rehearsal, text)

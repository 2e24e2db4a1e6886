"""Whole talks in the farmer's words, through the real reader: what is asked, what is reached, and
what follows. Walls, open beaks and wet litter in three languages and several wordings."""

from __future__ import annotations

import pytest

from bot.facts.talk import Decision
from bot.wiring import Thinking
from tests.diagnosis.talking import Farm

WALLS = {
    "en": ("chicks along the walls", "they are by the walls", "chicks standing at the edges",
           "they stand round the wall"),
    "fr": ("les poussins sont le long des murs", "poussins contre les murs",
           "ils restent aux bords", "ils sont contre le mur"),
    "sw": ("vifaranga wako kando ya ukuta", "vifaranga wako kwenye kuta", "wamekaa ukutani",
           "wako pembeni mwa ukuta"),
}  # fmt: skip
OPEN = {
    "en": ("yes, mouths open", "yes", "1", "yes they pant", "beaks are open"),
    "fr": ("oui, bec ouvert", "oui", "1", "oui ils halettent", "les becs sont ouverts"),
    "sw": ("ndio, midomo wazi", "ndiyo", "1", "ndiyo wanahema", "midomo iko wazi"),
}
SOAKED = {
    "en": ("no, litter soaked", "no, the litter is wet", "not panting, the litter is soaked"),
    "fr": ("non, litiere trempee", "non, la litiere est mouillee"),
    "sw": ("hapana, matandazo yameloa", "hapana, maranda yamelowa", "la, maranda yamelowa sana"),
}
TALKS = [
    (language, walls, answer, cause)
    for answers, cause in ((OPEN, "hot"), (SOAKED, "damp_litter"))
    for language, said in answers.items()
    for walls in WALLS[language]
    for answer in said
]


def cause(found: Decision) -> str | None:
    return found.why.cause if found.why else None


@pytest.mark.parametrize(("language", "walls", "answer", "expected"), TALKS)
def test_along_the_walls_asks_and_the_answer_reaches_the_cause(
    language: str, walls: str, answer: str, expected: str, thinking: Thinking
) -> None:
    farm = Farm(5, language=language, book=thinking.handbook)
    asked = farm.text(walls, thinking.reader)
    assert asked.question is not None
    assert asked.question.name == "sign:panting"
    found = farm.text(answer, thinking.reader)
    assert (cause(found), found.question, found.referred) == (expected, None, False)


@pytest.mark.parametrize(
    ("language", "word", "keys"),
    [
        ("en", "better", ["taken_better", "better_hot"]),
        ("fr", "mieux", ["taken_better", "better_hot"]),
        ("sw", "nafuu", ["taken_better", "better_hot"]),
        ("en", "same", ["taken_same", "hot_stove_out", "after_at"]),
        ("fr", "pareil", ["taken_same", "hot_stove_out", "after_at"]),
        ("sw", "vile vile", ["taken_same", "hot_stove_out", "after_at"]),
        ("en", "it is worse", ["taken_worse", "hot_stove_out", "after_at"]),
        ("fr", "c'est pire", ["taken_worse", "hot_stove_out", "after_at"]),
        ("sw", "mbaya zaidi", ["taken_worse", "hot_stove_out", "after_at"]),
        ("en", "ok", ["digit_again"]),
        ("fr", "merci", ["digit_again"]),
        ("sw", "sawa", ["digit_again"]),
    ],
)
def test_a_check_back_is_answered_in_words_and_a_bare_ok_is_asked_again(
    language: str, word: str, keys: list[str], thinking: Thinking
) -> None:
    farm = Farm(5, language=language, book=thinking.handbook)
    farm.text(OPEN[language][-1], thinking.reader)
    farm.checked_back()
    assert [line.key for line in farm.text(word, thinking.reader).lines] == keys


def test_what_is_said_beside_the_signs_keeps_the_text_for_the_night(thinking: Thinking) -> None:
    farm = Farm(5, hour=22, book=thinking.handbook)
    found = farm.text("they pant with open beaks. fed 5 kg", thinking.reader)
    assert [line.key for lines in found.more for line in lines] == ["watch_hot"]

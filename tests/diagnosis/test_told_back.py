"""The second look, answered by what the birds do and not by a digit: spread, quiet, eating is
better; a few that go back is a little better; more in the heap is worse."""

from __future__ import annotations

import pytest

from bot.facts.talk import Decision
from bot.wiring import Thinking
from tests.diagnosis.talking import Farm

PILED = {
    "en": "chicks piled up at the stove",
    "fr": "les poussins sont en tas pres du feu",
    "sw": "vifaranga wamerundikana kwenye jiko",
}
HUNGRY = {
    "en": "feeders are empty and they cry",
    "fr": "les mangeoires sont vides et ils crient",
    "sw": "vyombo vya chakula ni vitupu na wanalia",
}
WET = {
    "en": "the litter is wet near the drinkers",
    "fr": "la litiere est mouillee pres des abreuvoirs",
    "sw": "maranda yamelowa karibu na vinywesheo",
}
CROWDED = {
    "en": "they peck each other, too many in a small room",
    "fr": "ils se piquent, trop nombreux dans peu de place",
    "sw": "wanadonoana, wamebanana nafasi ndogo",
}
HOT = {
    "en": "they pant with open beaks away from the stove",
    "fr": "ils halettent bec ouvert loin du feu",
    "sw": "wanahema midomo wazi mbali na jiko",
}


def back(farm: Farm, first: str, then: str, thinking: Thinking) -> Decision:
    """They tell of a trouble, are given something to do, and are asked how it is now."""
    found = farm.text(first, thinking.reader)
    for _ in range(3):
        if farm.complaint is not None and farm.complaint.tried:
            break
        assert found.question is not None
        found = farm.text("1" if "litter" not in found.question.name else "2", thinking.reader)
    farm.checked_back()
    return farm.text(then, thinking.reader)


def keys(found: Decision) -> list[str]:
    return [one.key for one in found.lines]


@pytest.mark.parametrize(
    ("language", "first", "then"),
    [
        ("en", HUNGRY, "quiet, most of them eat"),
        ("fr", HUNGRY, "calmes, la plupart mangent"),
        ("sw", HUNGRY, "kimya, wengi wanakula"),
        ("en", HUNGRY, "all pecking on the paper"),
        ("fr", HUNGRY, "ils picorent tous sur le papier"),
        ("sw", HUNGRY, "wote wanadonoa chakula kwenye karatasi"),
        ("en", HUNGRY, "everyone is busy at the trays"),
        ("fr", HUNGRY, "ils mangent tous, puis ils dorment"),
        ("en", WET, "they spread out"),
        ("fr", WET, "ils se repartissent"),
        ("sw", WET, "wanatawanyika"),
        ("en", CROWDED, "they are spread now"),
        ("fr", CROWDED, "ils sont bien repartis"),
        ("sw", CROWDED, "wametawanyika"),
        ("en", HOT, "fewer open mouths"),
        ("fr", HOT, "moins de becs ouverts"),
        ("sw", HOT, "wanaohema wamepungua"),
    ],
)
def test_spread_quiet_or_eating_is_better(
    language: str, first: dict[str, str], then: str, thinking: Thinking
) -> None:
    farm = Farm(9, language=language, book=thinking.handbook)
    found = back(farm, first[language], then, thinking)
    assert any(one.startswith(("better", "comfortable")) for one in keys(found)), keys(found)
    assert (farm.complaint, found.question) == (None, None)


@pytest.mark.parametrize(
    ("language", "then"),
    [
        ("en", "better, some go back to the left"),
        ("en", "spread now, a few go back to the corner"),
        ("en", "most are quiet, two still shout"),
        ("fr", "mieux, certains reviennent a gauche"),
        ("fr", "ils sont ecartes mais quelques-uns retournent au coin"),
        ("fr", "tranquilles, etales, un peu serres"),
        ("sw", "afadhali, wachache wanarudi kona ya kushoto"),
        ("sw", "wachache bado wako konani lakini wengine wametulia"),
        ("sw", "wametawanyika, baadhi wanarudi upande mmoja"),
    ],
)
def test_a_few_that_go_back_is_a_little_better_and_is_looked_at_again(
    language: str, then: str, thinking: Thinking
) -> None:
    farm = Farm(4, language=language, hour=20, book=thinking.handbook)
    found = back(farm, PILED[language], then, thinking)
    assert "better_some_cold" in keys(found)
    assert "heap_apart" not in keys(found)
    assert farm.complaint is not None
    assert farm.complaint.check_at is not None


@pytest.mark.parametrize(
    ("language", "then"),
    [
        ("en", "more of them on top of each other"),
        ("en", "even more piled than before"),
        ("fr", "ils sont plus nombreux en tas"),
        ("fr", "encore plus serres qu'avant"),
        ("sw", "wamerundikana zaidi"),
        ("sw", "wanaongezeka kwenye rundo"),
    ],
)
def test_more_of_the_same_is_worse(language: str, then: str, thinking: Thinking) -> None:
    farm = Farm(4, language=language, hour=20, book=thinking.handbook)
    found = back(farm, PILED[language], then, thinking)
    assert keys(found)[0] == "taken_worse"


@pytest.mark.parametrize(
    ("language", "then"),
    [
        ("en", "better but two cannot stand up"),
        ("fr", "mieux mais deux ne tiennent pas debout"),
        ("sw", "afadhali lakini wawili hawawezi kusimama"),
        ("en", "a bit better but still piled at the stove"),
        ("fr", "toujours en tas"),
        ("sw", "bado wamerundikana"),
    ],
)
def test_what_is_still_wrong_is_not_called_better(
    language: str, then: str, thinking: Thinking
) -> None:
    farm = Farm(4, language=language, hour=20, book=thinking.handbook)
    found = back(farm, PILED[language], then, thinking)
    assert not any(one.startswith(("better", "comfortable")) for one in keys(found))


def test_a_few_that_go_back_again_and_again_end_with_the_look_till_morning(
    thinking: Thinking,
) -> None:
    farm = Farm(4, hour=20, book=thinking.handbook)
    found = back(farm, PILED["en"], "better, some go back to the corner", thinking)
    while farm.complaint is not None and farm.complaint.check_at is not None:
        farm.checked_back()
        found = farm.text("better, some go back to the corner", thinking.reader)
    assert "better_night" in keys(found)


@pytest.mark.parametrize(
    ("language", "text", "then"),
    [
        ("en", "the litter is wet and two birds limp", "1"),
        ("en", "the litter is wet and two birds limp", "they spread out, it is dry now"),
        ("fr", "la litiere est mouillee et deux poussins boitent", "mieux"),
        ("sw", "maranda inalowa kila siku na vifaranga 2 wanachechemea", "wanatawanyika"),
        ("sw", "maranda inalowa kila siku na vifaranga 2 wanachechemea", "1"),
    ],
)
def test_lame_birds_told_beside_wet_litter_are_answered_when_the_litter_is_better(
    language: str, text: str, then: str, thinking: Thinking
) -> None:
    farm = Farm(20, language=language, hour=12, book=thinking.handbook)
    found = back(farm, text, then, thinking)
    assert "sick_lame" in keys(found)

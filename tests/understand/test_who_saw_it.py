"""Danger that somebody else saw in the farmer's own house, a person who does not answer, and an
illness that "has got hold of them": told, whoever saw it, and whatever is asked behind it. Worded
for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("sw", "jirani kaona moshi unatoka kwenye banda langu"),
        ("sw", "mlinzi ananiambia moshi umejaa bandani kwetu"),
        ("sw", "moshi bandani kwangu, jirani amenipigia simu"),
        ("en", "neighbours say there is smoke in our brooder"),
        ("en", "somebody called me that smoke comes out of my chicken house"),
        ("en", "my brother saw smoke inside my house of chicks"),
        ("fr", "une voisine a vu de la fumee dans mon poulailler"),
        ("fr", "les voisins disent qu'il y a de la fumee chez moi"),
    ],
)
def test_smoke_that_another_saw_here_is_ours(thinking: Thinking, language: str, text: str) -> None:
    assert read(thinking, text, language, age_days=8)["signals"] == ["smoke_or_fumes"]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("sw", "jirani ana moshi kwake"),
        ("en", "my neighbour told me smoke killed his chicks"),
        ("fr", "mon voisin a de la fumee chez lui, chez moi rien"),
    ],
)
def test_smoke_at_anothers_is_not_ours(thinking: Thinking, language: str, text: str) -> None:
    assert "smoke_or_fumes" not in read(thinking, text, language, age_days=8)["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "mon mari dort dans la poussiniere il ne repond pas",
        "mon fils est couche pres des poussins et ne me repond plus",
        "ma soeur dort a cote des poussins, elle ne me repond pas",
        "le gardien dort et ne me repond pas",
    ],
)
def test_who_sleeps_and_does_not_answer_is_danger(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "fr", age_days=5)["red_flag"]


@pytest.mark.parametrize(
    "text", ["le veto ne me repond pas", "ma femme ne repond pas au telephone"]
)
def test_who_does_not_take_the_phone_is_none(thinking: Thinking, text: str) -> None:
    assert not read(thinking, text, "fr", age_days=5)["red_flag"]


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("kuhara kumewapata vifaranga nifanyeje", "white_or_green_diarrhoea"),
        ("wamepatwa na kuhara nifanye nini", "white_or_green_diarrhoea"),
        ("kuhara kumewaanza jana, nifanye nini", "white_or_green_diarrhoea"),
        ("kikohozi kimewapata nifanyeje", "sneezing_or_rattle"),
    ],
)
def test_what_has_got_hold_of_them_is_told(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in read(thinking, text, "sw", age_days=12)["signals"]


@pytest.mark.parametrize(
    "text",
    ["kuhara ni nini", "wakianza kuhara nifanye nini", "kuhara kwa vifaranga kunatokana na nini"],
)
def test_an_illness_only_asked_about_is_not(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "sw", age_days=12)["signals"] == []

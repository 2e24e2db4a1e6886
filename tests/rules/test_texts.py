"""Rules over all that is sent, in every language: no links, no codes, choices that are digits."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from bot.handbook.load import content_folder
from bot.handbook.texts import load_texts

ROOT = Path(__file__).parents[2]
GATEWAYS_OWN = "START|END|QUIT|CANCEL|STOP|STOPALL|UNSUBSCRIBE|REVOKE|OPTOUT|UNSTOP|HELP|INFO"
CHOICE = re.compile(rf"\b[1-9] ({GATEWAYS_OWN})\b", re.I)


def wordings() -> Iterator[tuple[str, str]]:
    """Every wording of every language, with where it stands."""
    texts = load_texts(content_folder())
    for code, tongue in texts.tongues.items():
        for key, said in tongue.wordings.items():
            for form in [said] if isinstance(said, str) else said.values():
                yield f"{code}: {key}", form


def saying(pattern: str) -> list[str]:
    """Where a wording holds this."""
    return [where for where, said in wordings() if re.search(pattern, said, re.I)]


def test_the_wordings_of_three_languages_are_looked_at() -> None:
    assert len({where.partition(":")[0] for where, _ in wordings()}) == 3
    assert saying("charcoal")


def test_no_text_sends_a_link_or_asks_for_a_code() -> None:
    assert saying(r"https?:|www\.|\.com\b|\bPIN\b|password|mot de passe|nenosiri") == []


def test_no_choice_is_a_word_that_a_gateway_takes_for_itself() -> None:
    assert [where for where, said in wordings() if CHOICE.search(said)] == []


def test_no_question_asks_for_a_share_or_for_humidity_but_of_who_told_one_that_can_not_be() -> None:
    asked = saying(r"(%|percent|pour cent|asilimia|humidity|humidite|unyevu)[^.?]*\?")
    assert {where.partition(": ")[2] for where in asked} == {"humid_again"}


def test_the_readme_says_who_has_not_read_the_texts() -> None:
    assert "not yet been read by a native speaker" in (ROOT / "README.md").read_text("utf-8")

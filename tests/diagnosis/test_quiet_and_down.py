"""Quiet birds that do not wake or get up are no calm birds: the air and people come first."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.diagnosis.talking import Farm

PILED = {
    "en": "chicks piled up at the stove",
    "fr": "les poussins sont en tas pres du feu",
    "sw": "vifaranga wamerundikana kwenye jiko",
}


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "quiet, they do not wake up"),
        ("en", "they lie quiet and do not get up"),
        ("fr", "calmes, ils ne se reveillent pas"),
        ("fr", "couches, ne bougent plus"),
        ("sw", "wamelala kimya, hawaamki"),
        ("sw", "wote wamelala, hawaamki"),
    ],
)
@pytest.mark.parametrize("asked", [True, False])
def test_quiet_birds_that_do_not_get_up_are_never_called_well(
    language: str, text: str, asked: bool, thinking: Thinking
) -> None:
    farm = Farm(6, language=language, hour=21, book=thinking.handbook)
    farm.text(PILED[language], thinking.reader)
    if asked:
        farm.checked_back()
    found = farm.text(text, thinking.reader)
    keys = [one.key for part in (found.lines, *found.more) for one in part]
    assert not any(one.startswith(("better", "comfortable", "not_understood")) for one in keys)
    assert found.referred or (found.question is not None and found.question.name == "wake")

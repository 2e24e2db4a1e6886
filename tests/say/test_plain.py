"""What a basic phone can show."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.say.plain import plain
from bot.say.segments import measure


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("Chicks are loud", "Chicks are loud"),
        ("éàçùôîœÉÀÇŒ", "eacuoioeEACOE"),
        ("e\u0301", "e"),
        ("32°C", "32 C"),
        ("32 °C", "32 C"),
        ("32\u00a0°C", "32 C"),
        ("90℉", "90 F"),
        ("34°", "34 deg"),
        ("n° 5", "no 5"),
        ("l’eau « propre »", 'l\'eau "propre"'),
        ("“now” – or—later…", '"now" - or-later...'),
        ("quoi\u202f?", "quoi ?"),
        ("2½ kg", "2 1/2 kg"),
        ("½ kg", "1/2 kg"),
        ("20 m²", "20 m2"),
        ("3 × 4", "3 x 4"),
        ("٣٥", "35"),
        ("good 👍🏽", "good "),
        ("Ĳsbrand Łukasz Wanjikũ", "IJsbrand Lukasz Wanjiku"),
        ("[a] {b} c|d ~5 `x`", "(a) (b) c/d -5 'x'"),
        ("1 dry\r\n2 wet\t3 caked", "1 dry\n2 wet 3 caked"),
        ("a\x00b\x1bc\u200bd\ufeffe", "abcde"),
        ("\ud800x", "x"),
    ],
)
def test_a_text_is_written_so_that_every_phone_shows_it(written: str, shown: str) -> None:
    assert plain(written) == shown


@given(st.text(st.characters(), max_size=60))
def test_whatever_comes_in_plain_ascii_goes_out_and_each_letter_costs_one(text: str) -> None:
    shown = plain(text)
    assert shown.replace("\n", "").isprintable() or not shown.strip("\n")
    assert shown.isascii()
    assert measure(shown).encoding == "gsm7"
    assert measure(shown).units == len(shown)
    assert plain(shown) == shown

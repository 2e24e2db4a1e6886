"""What a text costs, counted by hand."""

from __future__ import annotations

import pytest

from bot.say.segments import BASIC, EXTENSION, Parts, measure


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("", Parts(0, "gsm7", 0)),
        ("a", Parts(1, "gsm7", 1)),
        ("a" * 160, Parts(1, "gsm7", 160)),
        ("a" * 161, Parts(2, "gsm7", 161)),
        ("a" * 306, Parts(2, "gsm7", 306)),
        ("a" * 307, Parts(3, "gsm7", 307)),
        ("€" * 80, Parts(1, "gsm7", 160)),
        ("€" * 81, Parts(2, "gsm7", 162)),
        # 76 pairs fill 152 of 153 septets; the next pair does not fit the septet that is left.
        ("€" * 152, Parts(2, "gsm7", 304)),
        ("€" * 153, Parts(3, "gsm7", 306)),
        ("a" * 152 + "{" + "a" * 151, Parts(2, "gsm7", 305)),
        ("a" * 152 + "{" + "a" * 152, Parts(3, "gsm7", 306)),
        ("é" * 160, Parts(1, "gsm7", 160)),
        ("ê", Parts(1, "ucs2", 1)),
        ("°" * 70, Parts(1, "ucs2", 70)),
        ("°" * 71, Parts(2, "ucs2", 71)),
        ("°" * 134, Parts(2, "ucs2", 134)),
        ("°" * 135, Parts(3, "ucs2", 135)),
        ("🐥" * 35, Parts(1, "ucs2", 70)),
        ("🐥" * 36, Parts(2, "ucs2", 72)),
        # 33 pairs fill 66 of 67 units; a pair is never cut in two.
        ("🐥" * 66, Parts(2, "ucs2", 132)),
        ("🐥" * 67, Parts(3, "ucs2", 134)),
        ("line\nline\r\n", Parts(1, "gsm7", 11)),
        ("tab\t", Parts(1, "ucs2", 4)),
        ("`", Parts(1, "ucs2", 1)),
        ("ç", Parts(1, "ucs2", 1)),
        ("Ç", Parts(1, "gsm7", 1)),
    ],
)
def test_a_text_costs_what_the_standard_says(text: str, parts: Parts) -> None:
    assert measure(text) == parts


def test_the_alphabet_has_127_letters_and_ten_that_count_twice() -> None:
    assert (len(BASIC), len(EXTENSION)) == (127, 10)
    assert not BASIC & EXTENSION

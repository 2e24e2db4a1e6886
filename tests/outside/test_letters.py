"""Our count of letters and parts against two packages of other people.

gsm0338 1.1 (its tables are the Unicode consortium's mapping of GSM 03.38) and smsutil 1.1 (which
splits texts). smsutil counts an empty text as one part, which no gateway sends; it is left out.
"""

from __future__ import annotations

import gsm0338
import pytest
import smsutil
from hypothesis import example, given
from hypothesis import strategies as st

from bot.say.segments import BASIC, EXTENSION, measure

_CODEC = gsm0338.Codec()


def _octets(letter: str) -> int | None:
    try:
        encoded, _ = _CODEC.encode(letter)
    except UnicodeEncodeError:
        return None
    return len(encoded)


def test_the_whole_basic_plane_agrees_with_gsm0338() -> None:
    for code in range(0x10000):
        letter = chr(code)
        ours = 1 if letter in BASIC else 2 if letter in EXTENSION else None
        if letter != "\x1b":  # the escape itself is no letter
            assert ours == _octets(letter), hex(code)


_GSM = st.text(st.sampled_from(sorted(BASIC | EXTENSION)), min_size=1, max_size=700)
_PAIRS = st.text(st.sampled_from("a€{"), min_size=140, max_size=330)
_WIDE = st.text(st.sampled_from("aé°ع🐥"), min_size=1, max_size=300)


@given(st.one_of(_GSM, _PAIRS, _WIDE))
@example("€" * 77)
@example("🐥" * 34)
def test_parts_agree_with_smsutil(text: str) -> None:
    theirs = smsutil.split(text)
    ours = measure(text)
    assert ours.parts == len(theirs.parts)
    assert ours.encoding == {"gsm0338": "gsm7", "utf_16_be": "ucs2"}[theirs.encoding]


# 3GPP TS 23.040, 9.2.3.24.1: an escape and its letter, or the two halves of a surrogate pair, are
# not parted between two messages; so one septet or unit may be left empty at the end of a part.
@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("a" * 151 + "€" + "a" * 153, 2),
        ("a" * 152 + "€" + "a" * 151, 2),
        ("a" * 152 + "€" + "a" * 152, 3),  # 306 septets would fit were the pair parted
        ("ж" * 65 + "🐥" + "ж" * 67, 2),
        ("ж" * 66 + "🐥" + "ж" * 65, 2),
        ("ж" * 66 + "🐥" + "ж" * 66, 3),
        ("a" * 158 + "€", 1),
        ("a" * 159 + "€", 2),
        ("ж" * 68 + "🐥", 1),
        ("ж" * 69 + "🐥", 2),
    ],
)
def test_a_pair_is_never_parted(text: str, parts: int) -> None:
    assert measure(text).parts == parts

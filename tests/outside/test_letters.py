"""Our count of letters and parts against two packages of other people.

gsm0338 1.1 (its tables are the Unicode consortium's mapping of GSM 03.38) and smsutil 1.1 (which
splits texts). smsutil counts an empty text as one part, which no gateway sends; it is left out.
"""

from __future__ import annotations

from datetime import UTC, date, datetime

import gsm0338
import pytest
import smsutil
from flask import Flask
from hypothesis import example, given
from hypothesis import strategies as st

from bot.clock import FixedClock
from bot.doors.sms import sms_door
from bot.facts.talk import Decision, Hearing, Incoming, Intent, Meaning
from bot.say.plain import plain
from bot.say.segments import BASIC, EXTENSION, measure
from bot.settings import Settings
from bot.turn.take import Taken
from bot.wiring import Thinking

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


# 3GPP TS 23.038, 6.2.1 and 6.2.1.1: the default alphabet and its extension, code by code, as the
# two packages have them.


def test_every_code_of_the_alphabet_is_the_letter_that_both_packages_have() -> None:
    for code in range(0x80):
        if code == 0x1B:
            continue  # the escape
        theirs, _ = _CODEC.decode(bytes([code]))
        other = smsutil.decode(bytes([code]), "gsm0338")
        assert theirs == other[0], hex(code)
        assert theirs in BASIC, hex(code)
    assert len(BASIC) == 127


def test_the_letters_behind_the_escape_are_those_of_both_packages() -> None:
    theirs = set()
    for code in range(0x80):
        try:
            letter, _ = _CODEC.decode(bytes([0x1B, code]))
        except UnicodeDecodeError:
            continue
        theirs.add(letter)
    assert {letter for letter in theirs if len(letter) == 1} - BASIC == EXTENSION
    assert set(smsutil.GSM_EXT_CHARSET) - {"\x1b"} == EXTENSION


# Outbound: whatever a name or a place is written in, what is sent is plain and costs a septet each.

NAMES = (
    "N'Guessan", "Adébáyò", "Ọlá", "Ṣadé", "Ŋaŋa", "Amina Ɛ", "Đorđe", "Łukasz", "José", "Zoë",
    "Günther", "Åse", "Þór", "Søren", "Çelik", "Ğül", "Ștefan", "Αθηνά", "Борис", "Ґанна", "אורה",
    "فاطمة", "عمر", "አበበ", "ተስፋ", "李明", "さくら", "김철수", "सीता", "தமிழ்", "สมชาย",
    "𝐀𝐦𝐢𝐧𝐚", "Ａｍｉｎａ",
    "Juma 🐥", "“Mama”", "O’Neil",
    "a\u00a0b", "x\u200by", "\u202eevil", "a\u0301", "{n}", "^~|\\[]",
)  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_a_name_of_other_letters_is_sent_plain(name: str) -> None:
    sent = plain(name)
    assert sent.strip()
    assert sent.isascii()
    assert smsutil.is_valid_gsm(sent)
    encoded, _ = _CODEC.encode(sent)
    assert len(encoded) == len(sent)  # none counts twice


@given(st.text(max_size=60))
def test_whatever_is_written_both_packages_take_what_is_sent(text: str) -> None:
    sent = plain(text)
    encoded, _ = _CODEC.encode(sent)
    assert len(encoded) == len(sent)
    assert not sent or smsutil.is_valid_gsm(sent)


# Inbound: a phone may send its text as UCS-2, in its own digits, with pictures and curly signs.


@pytest.mark.parametrize(
    "text",
    [
        "3 dead", "٣ dead", "۳ dead", "３ dead", "३ dead", "3\u00a0dead", "“3 dead”", "3 dead 🐥",
        "\ufeff3 dead", "3\u2003dead\u200b", "𝟑 dead", "3 ｄｅａｄ", "③ dead", "3 déad",
    ],
)  # fmt: skip
def test_a_text_is_understood_in_whatever_letters_it_comes(thinking: Thinking, text: str) -> None:
    over_the_air = text.encode("utf-16-be").decode("utf-16-be")  # UCS-2 as TS 23.038 carries it
    meaning = thinking.reader.read(over_the_air, Hearing(date(2026, 3, 1), "en", has_batch=True))
    assert (meaning.intent, meaning.slots.deaths) == (Intent.DEATHS, 3)


@pytest.mark.parametrize("body", [b"%FF%FE3%00", b"3+dead%ED%A0%80", b"%F0%9F", b"%C3", b"%00%1B"])
def test_a_body_that_is_no_unicode_breaks_nothing(body: bytes) -> None:
    heard: list[Incoming] = []

    def take(incoming: Incoming) -> Taken:
        heard.append(incoming)
        return Taken(("Noted.",), Meaning(Intent.OTHER), Decision())

    app = Flask(__name__)
    settings = Settings(unsigned="1")
    app.register_blueprint(sms_door(take, settings, FixedClock(datetime(2026, 3, 1, tzinfo=UTC))))
    form = b"MessageSid=SM1&From=%2B254700000001&To=%2B254700000100&Body=" + body
    answer = app.test_client().post(
        "/sms", data=form, content_type="application/x-www-form-urlencoded"
    )
    assert answer.status_code == 200
    heard[0].text.encode("utf-8")  # can be kept
    assert "\x00" not in heard[0].text

"""Reads the phone number of a list, and never guesses one: what a spreadsheet has mangled is said
with its fix. In: a cell, a region. Out: E.164, or why not. Pure. Called by cooperative.enrol and by
cooperative.rules.
"""

from __future__ import annotations

import re

import phonenumbers
from phonenumbers import PhoneNumber, PhoneNumberFormat, PhoneNumberType

from bot.cooperative.said import Said
from bot.say.plain import plain

_SHORTENED = re.compile(r"\d([.,]\d+)?[eE]\+?\d+")
_WHOLE = re.compile(r"(\d{6,})[.,]0+")  # as a program writes a whole number it took for a measure
_ALLOWED = re.compile(r"\+?[\d ().-]+")
_SEPARATORS = re.compile(r"[ ().-]")


def read_phone(cell: str, region: str) -> str | Said:
    """The number of a cell in E.164. Said where there is none: a reason under `enrol.why` in
    desk.yaml."""
    text = plain(cell).strip()
    if not text:
        return Said.of("phone_none")
    if _SHORTENED.fullmatch(text):
        return Said.of("phone_shortened", cell=text)
    whole = _WHOLE.fullmatch(text)
    text = whole[1] if whole else text
    if not _ALLOWED.fullmatch(text):
        return Said.of("phone_letters", cell=cell)
    digits = _SEPARATORS.sub("", text)
    if digits.startswith("00"):
        digits = "+" + digits[2:]
    found = _parsed(digits, region)
    if found is None:
        return _length(cell, digits)
    if _lost_zero(digits, found, region):
        return Said.of("phone_zero", cell=cell, full=_e164(found))
    if phonenumbers.number_type(found) == PhoneNumberType.FIXED_LINE:
        return Said.of("phone_fixed", cell=cell)
    if not phonenumbers.is_possible_number_for_type(found, PhoneNumberType.MOBILE):
        return _length(cell, digits)
    return _e164(found)


def read_called(cell: str, region: str) -> str | None:
    """A number that people call, in E.164; a telephone with a wire is as good. None for any that
    can't be: too short, too long, letters."""
    text = plain(cell).strip()
    digits = _SEPARATORS.sub("", text)
    if digits.startswith("00"):
        digits = "+" + digits[2:]
    found = _parsed(digits, region) if _ALLOWED.fullmatch(text) else None
    if found is None or _lost_zero(digits, found, region):
        return None
    return _e164(found)


def _parsed(digits: str, region: str) -> PhoneNumber | None:
    try:
        found = phonenumbers.parse(digits, region)
    except phonenumbers.NumberParseException:
        return None
    return found if phonenumbers.is_possible_number(found) else None


def _length(cell: str, digits: str) -> Said:
    return Said.of("phone_length", cell=cell, digits=len(digits.lstrip("+")))


def _lost_zero(digits: str, found: PhoneNumber, region: str) -> bool:
    """Where numbers are dialled with a zero in front, one without it and without its country code
    may be short of a digit."""
    prefix = phonenumbers.ndd_prefix_for_region(region, True)
    has_code = digits.startswith("+") or digits == _e164(found)[1:]
    return prefix is not None and not has_code and not digits.startswith(prefix)


def _e164(number: PhoneNumber) -> str:
    return phonenumbers.format_number(number, PhoneNumberFormat.E164)

"""Who may be answered. In: a sender as the gateway gives it. Out: yes or no, or the E.164 form.

Short codes and names can't be answered: two robots answering each other is a real fault. Pure;
called by `turn.take` and the doors.
"""

from __future__ import annotations

from collections.abc import Collection

import phonenumbers


def e164(sender: str, region: str | None) -> str | None:
    """The number in E.164, or None where it is no number that a person could have.

    A leading 00 is rewritten first, since the library refuses it for several regions.
    """
    text = sender.strip()
    if text.startswith("00"):
        text = "+" + text[2:]
    try:
        number = phonenumbers.parse(text, region)
    except phonenumbers.NumberParseException:
        return None
    if not phonenumbers.is_possible_number(number):
        return None
    return phonenumbers.format_number(number, phonenumbers.PhoneNumberFormat.E164)


def may_be_answered(sender: str, recipient: str) -> bool:
    """Short codes, alphanumeric senders and our own number are stored and never answered."""
    is_number = sender.startswith("+") and sender[1:].isdigit() and len(sender) >= 8
    return is_number and sender != recipient


def is_served(sender: str, recipient: str, region: str, countries: Collection[str]) -> bool:
    """Whether an unknown number (E.164) lies in a country that is served: that of our own number,
    of the region, or one of `countries` (calling codes; "all" is every one). Numbers that cost dear
    to answer lie elsewhere."""
    if "all" in countries:
        return True
    code = _calling_code(sender)
    at_home = phonenumbers.country_code_for_region(region)
    return code is not None and (
        code in (at_home, _calling_code(recipient)) or str(code) in countries
    )


def _calling_code(number: str) -> int | None:
    try:
        return phonenumbers.parse(number, None).country_code
    except phonenumbers.NumberParseException:
        return None

"""Who may speak to our doors."""

from __future__ import annotations

import hashlib

import pytest

from bot.gateway.signature import SHA256, Signed, is_genuine, sign

# The test vector printed in the gateway's security documentation.
URL = "https://mycompany.com/myapp.php?foo=1&bar=2"
FORM = {
    "CallSid": ["CA1234567890ABCDE"],
    "Caller": ["+12349013030"],
    "Digits": ["1234"],
    "From": ["+12349013030"],
    "To": ["+18005551212"],
}
SIGNATURE = "0/KCTR6DLpKmkAf8muzZqo1nDgQ="
SETTINGS = "key=webhooks_1,algorithm=HMAC_SHA256"


def _asked(**changed: object) -> Signed:
    return Signed(**{"url": URL, "form": FORM, "signature": SIGNATURE, **changed})  # type: ignore[arg-type]  # a test's own shorthand


def test_the_published_vector_is_signed_alike() -> None:
    assert sign(URL, FORM, "12345") == SIGNATURE
    assert is_genuine(_asked(), ["12345"])


@pytest.mark.parametrize(
    "changed",
    [
        {"signature": ""},
        {"signature": SIGNATURE.lower()},
        {"signature": "é" * 28},
        {"form": {**FORM, "Digits": ["12345"]}},
        {"form": {**FORM, "Added": [""]}},
        {"form": {**FORM, "Digits": ["1234", "5"]}},
        {"url": URL + "3"},
        {"url": URL.replace("https", "http")},
        {"settings": SETTINGS},
        {"settings": "algorithm=HMAC_MD5"},
        {"settings": "algorithm=none"},
    ],
)
def test_anything_changed_is_refused(changed: dict[str, object]) -> None:
    assert not is_genuine(_asked(**changed), ["12345"])


def test_no_token_means_nobody_is_genuine() -> None:
    assert not is_genuine(_asked(signature=sign(URL, FORM, "")), [])
    assert not is_genuine(_asked(signature=sign(URL, FORM, "")), [""])


def test_two_tokens_are_accepted_while_they_are_rotated() -> None:
    for token in ("old", "new"):
        asked = _asked(signature=sign(URL, FORM, token))
        assert is_genuine(asked, ["new", "old"])
        assert is_genuine(asked, ["new"]) == (token == "new")


@pytest.mark.parametrize(
    ("signed_for", "seen_as"),
    [
        ("https://a.example:443/sms?x=%20", "https://a.example/sms?x=%20"),
        ("https://a.example/sms", "https://a.example:443/sms"),
        ("http://a.example:80/sms", "http://a.example/sms"),
        ("http://127.0.0.1:8000/sms", "http://127.0.0.1:8000/sms"),
        ("http://[::1]:8000/sms", "http://[::1]:8000/sms"),
    ],
)
def test_the_port_in_the_address_may_be_left_out(signed_for: str, seen_as: str) -> None:
    asked = _asked(url=seen_as, signature=sign(signed_for, FORM, "t"))
    assert is_genuine(asked, ["t"])


def test_the_newer_algorithm_is_followed_where_it_is_announced() -> None:
    asked = _asked(signature=sign(URL, FORM, "t", SHA256), settings=SETTINGS)
    assert is_genuine(asked, ["t"])


def test_a_body_that_is_no_form_is_held_to_its_hash() -> None:
    body = b'{"a": 1}'
    url = f"https://a.example/x?bodySHA256={hashlib.sha256(body).hexdigest()}"
    asked = Signed(url, None, sign(url, {}, "t"), body=body)
    assert is_genuine(asked, ["t"])
    assert not is_genuine(Signed(url, None, asked.signature, body=b'{"a": 2}'), ["t"])
    bare = "https://a.example/x"
    assert not is_genuine(Signed(bare, None, sign(bare, {}, "t"), body=body), ["t"])

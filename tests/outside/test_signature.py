"""Our signature against the twilio package 9 (used in tests only)."""

from __future__ import annotations

import hashlib

from hypothesis import given
from hypothesis import strategies as st
from twilio.request_validator import RequestValidator
from werkzeug.datastructures import MultiDict

from bot.gateway.signature import Signed, is_genuine, sign

_NAMES = st.text(st.characters(codec="utf-8"), min_size=1, max_size=8)
_FORMS = st.dictionaries(
    _NAMES, st.lists(st.text(st.characters(codec="utf-8"), max_size=12), min_size=1, max_size=3)
)
_URLS = st.sampled_from(
    [
        "https://a.example/sms",
        "https://a.example:443/sms?x=1",
        "https://a.example:8443/sms?x=%20y",
        "http://127.0.0.1:8000/sms",
        "http://a.example/",
    ]
)


@given(_URLS, _FORMS, st.sampled_from(["HMAC_SHA1", "HMAC_SHA256"]))
def test_what_they_sign_we_believe_and_what_we_sign_they_believe(
    url: str, form: dict[str, list[str]], algorithm: str
) -> None:
    validator = RequestValidator("token")
    posted: MultiDict[str, str] = MultiDict(
        [(name, value) for name, values in form.items() for value in values]
    )
    theirs = validator.compute_signature(url, posted, algorithm)
    assert sign(url, form, "token", algorithm) == theirs
    assert is_genuine(Signed(url, form, theirs, f"algorithm={algorithm}"), ["token"])
    assert validator.validate(url, posted, sign(url, form, "token", algorithm), algorithm)


@given(st.text(st.characters(codec="utf-8"), max_size=40))
def test_a_body_that_is_no_form_is_judged_alike(body: str) -> None:
    digest = hashlib.sha256(body.encode()).hexdigest()
    url = f"https://a.example/x?bodySHA256={digest}"
    signature = sign(url, {}, "token")
    assert RequestValidator("token").validate(url, body, signature)
    assert is_genuine(Signed(url, None, signature, body=body.encode()), ["token"])

"""Tells whether the gateway sent a request (pure): what was requested and our tokens come in, yes
or no goes out. Called by doors/sms, doors/receipts and doors/voice; the pretend gateway and the
operator's check of the public address sign with it.

The scheme is the Twilio-compatible one: base64(HMAC(token, URL + each sorted name and value)).
"""

from __future__ import annotations

import base64
import hashlib
import hmac
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from urllib.parse import parse_qs, urlsplit, urlunsplit

HEADER = "X-Twilio-Signature"
SETTINGS_HEADER = "X-Twilio-Webhooks-Signature-Settings"
SHA1, SHA256 = "HMAC_SHA1", "HMAC_SHA256"

_HASHES = {SHA1: "sha1", SHA256: "sha256"}
_DEFAULT_PORTS = {"http": 80, "https": 443}

Form = Mapping[str, Sequence[str]]


@dataclass(frozen=True, slots=True)
class Signed:
    """What came in and was, perhaps, signed.

    url: the public address with the raw path and query, as the gateway wrote it. form: every field
    with all its values, or None where the body is no form (then the query carries bodySHA256).
    settings: the header that names the algorithm, empty for HMAC_SHA1.
    """

    url: str
    form: Form | None
    signature: str
    settings: str = ""
    body: bytes = field(default=b"", repr=False)


def sign(url: str, form: Form, token: str, algorithm: str = SHA1) -> str:
    """The signature of a form posted to `url`. algorithm: HMAC_SHA1 or HMAC_SHA256, else
    KeyError."""
    fields = (name + value for name in sorted(form) for value in sorted(set(form[name])))
    said = url + "".join(fields)
    mac = hmac.new(token.encode(), said.encode("utf-8", "surrogatepass"), _HASHES[algorithm])
    return base64.b64encode(mac.digest()).decode()


def is_genuine(asked: Signed, tokens: Sequence[str]) -> bool:
    """Whether one of `tokens` (two while they are rotated) signed this request, with or without
    the port in its address. No token, no signature, an unknown algorithm or a body that was
    tampered with: False. Every candidate is compared, in constant time."""
    algorithm = _algorithm(asked.settings)
    if algorithm not in _HASHES or not asked.signature or not _body_holds(asked):
        return False
    matches = [
        hmac.compare_digest(
            sign(url, asked.form or {}, token, algorithm).encode(), asked.signature.encode()
        )
        for token in tokens
        if token
        for url in _addresses(asked.url)
    ]
    return any(matches)


def _algorithm(settings: str) -> str:
    for part in settings.split(","):
        name, _, value = part.partition("=")
        if name.strip() == "algorithm" and value.strip():
            return value.strip().upper()
    return SHA1


def _body_holds(asked: Signed) -> bool:
    if asked.form is not None:
        return True
    promised = parse_qs(urlsplit(asked.url).query).get("bodySHA256", [""])[0]
    if not promised:
        return not asked.body
    found = hashlib.sha256(asked.body).hexdigest()
    return hmac.compare_digest(found.encode(), promised.lower().encode())


def _addresses(url: str) -> tuple[str, str]:
    """The address without a port, and with one: gateways sign either."""
    parts = urlsplit(url)
    try:
        port = parts.port
    except ValueError:
        return url, url
    bare = parts.netloc.removesuffix(f":{port}") if port else parts.netloc
    default = port or _DEFAULT_PORTS.get(parts.scheme, 80)
    return (
        urlunsplit(parts._replace(netloc=bare)),
        urlunsplit(parts._replace(netloc=f"{bare}:{default}")),
    )

"""What whoever has the database must not read: sealed with a key made of the service's secret,
which lies outside of it. In: the secret, whose it is, the text. Out: what is kept; and back. Called
by the desk's sign-in and the migration that sealed what lay in plain.

AES-256-GCM with a nonce by chance, its key by HKDF-SHA256, so that the secret may serve other ends
too. The owner's number is bound in: what is moved to another row no longer opens.
"""

from __future__ import annotations

from base64 import urlsafe_b64decode, urlsafe_b64encode
from secrets import token_bytes

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.kdf.hkdf import HKDF

KEY_BYTES, NONCE_BYTES = 32, 12
PURPOSE = b"broodpost: second factor of staff"


def seal(secret: bytes, whose: int, text: str) -> str:
    """What is kept of a text: another one each time."""
    nonce = token_bytes(NONCE_BYTES)
    sealed = _cipher(secret).encrypt(nonce, text.encode(), _bound(whose))
    return urlsafe_b64encode(nonce + sealed).decode()


def unseal(secret: bytes, whose: int, kept: str) -> str | None:
    """The text; None where it was sealed with another secret or for somebody else."""
    try:
        both = urlsafe_b64decode(kept)
        return (
            _cipher(secret).decrypt(both[:NONCE_BYTES], both[NONCE_BYTES:], _bound(whose)).decode()
        )
    except (InvalidTag, ValueError):
        return None


def _cipher(secret: bytes) -> AESGCM:
    return AESGCM(HKDF(SHA256(), KEY_BYTES, None, PURPOSE).derive(secret))


def _bound(whose: int) -> bytes:
    return b"%d" % whose

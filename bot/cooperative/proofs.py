"""How staff prove who they are: passwords and the codes of a second factor. In: what was typed and
what is kept of it. Out: whether it is right. Called by the desk's sign-in and `broodpost staff`.

Passwords are hashed by argon2id with the least memory that OWASP's cheat sheet on password storage
names (19 MiB, 2 passes, 1 lane), and only two at once, so that nobody fills the memory of a small
machine by signing in wrongly. Codes are those of RFC 6238: six digits, 30 seconds, SHA-1.
"""

from __future__ import annotations

import secrets
from datetime import datetime
from functools import cache
from hmac import compare_digest
from threading import BoundedSemaphore

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError
from pyotp import TOTP, random_base32

_HASHER = PasswordHasher(time_cost=2, memory_cost=19 * 1024, parallelism=1)
_AT_ONCE = BoundedSemaphore(2)
SHORTEST, LONGEST = 12, 128  # letters of a password
LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"  # without those that look alike
STEP_S = 30
DRIFT = 1  # steps that a phone's clock may be off


def hashed(password: str) -> str:
    """What is kept of a password."""
    with _AT_ONCE:
        return _HASHER.hash(password)


def is_right(kept: str | None, password: str) -> bool:
    """Whether this is the password. kept: None for nobody, which takes as long."""
    with _AT_ONCE:
        try:
            return _HASHER.verify(kept or _nobodys(), password) and kept is not None
        except (VerificationError, InvalidHashError):
            return False


@cache
def _nobodys() -> str:
    return _HASHER.hash(secrets.token_hex())


def given_out() -> str:
    """A new password to hand to somebody: four groups of four, some 79 bits."""
    groups = ("".join(secrets.choice(LETTERS) for _ in range(4)) for _ in range(4))
    return "-".join(groups)


def is_good(password: str, sign_in: str) -> bool:
    """Whether somebody may choose this password."""
    letters = len(set(password))
    return SHORTEST <= len(password) <= LONGEST and letters > 4 and sign_in not in password.lower()


def new_secret() -> str:
    """A new second factor."""
    return random_base32()


def secret_address(secret: str, sign_in: str, issuer: str) -> str:
    """The address by which a phone takes a second factor over."""
    return TOTP(secret).provisioning_uri(name=sign_in, issuer_name=issuer)


def step_of(secret: str, code: str, now: datetime, last_step: int) -> int | None:
    """The step whose code this is; None where it is none, or was used already."""
    typed = "".join(code.split())
    current = int(now.timestamp()) // STEP_S
    totp = TOTP(secret)
    for step in range(current - DRIFT, current + DRIFT + 1):
        if compare_digest(totp.generate_otp(step).encode(), typed.encode()) and step > last_step:
            return step
    return None

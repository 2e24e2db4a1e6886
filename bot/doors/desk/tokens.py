"""Tokens of the desk (pure but for chance): that of a session, and that of its forms. Called by
desk.frame and desk.sign_in.

A form carries a token made of the session's own, so that no other site can send it. It is masked
anew on every page: a page may be compressed without giving it away by its length.
"""

from __future__ import annotations

import hashlib
import secrets
from hmac import compare_digest

BYTES = 32


def new_token() -> str:
    """256 random bits for a cookie."""
    return secrets.token_urlsafe(BYTES)


def form_token(session_token: str) -> str:
    """What a form of this session carries; another one each time."""
    mask = secrets.token_bytes(BYTES)
    return (mask + _mixed(mask, _own(session_token))).hex()


def is_own_form(session_token: str, found: str) -> bool:
    """Whether a form came from a page of this session."""
    try:
        both = bytes.fromhex(found)
    except ValueError:
        return False
    mask, rest = both[:BYTES], both[BYTES:]
    return len(both) == 2 * BYTES and compare_digest(_mixed(mask, rest), _own(session_token))


def _own(session_token: str) -> bytes:
    return hashlib.sha256(f"form:{session_token}".encode()).digest()


def _mixed(mask: bytes, value: bytes) -> bytes:
    return bytes(one ^ other for one, other in zip(mask, value, strict=True))

"""What stands for a number that was forgotten (pure): a number and a key come in, a mark goes out.
Called by records.forgetting and wherever a number is looked up that somebody else names."""

from __future__ import annotations

import hashlib
import hmac

MARK = "#"  # the first letter of a hash in the place of a number


def mark_of(number: str, key: bytes) -> str:
    """A keyed hash, as long as a number may be, and the same each time."""
    return MARK + hmac.new(key, number.encode(), hashlib.sha256).hexdigest()[:19]

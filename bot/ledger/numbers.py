"""Figures of a record as exact decimals, so that they balance to the last unit in any order."""

from __future__ import annotations

from decimal import Decimal


def exact(value: object) -> Decimal:
    """A figure as it was told; 0 where none was."""
    return Decimal(str(value)) if isinstance(value, int | float) else Decimal(0)

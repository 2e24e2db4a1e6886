"""Cells of a spreadsheet that are never taken for a formula. Pure; used by every export."""

from __future__ import annotations

STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")


def safe_cell(text: str) -> str:
    """The text, with an apostrophe before it where a spreadsheet would work it out (OWASP, "CSV
    injection")."""
    return f"'{text}" if text.startswith(STARTS) else text

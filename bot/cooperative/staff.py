"""Changes of who may: what somebody that owns may change of another. Pure; called by the page "Who
may". In: who changes whom. Out: why not, as a key of desk.yaml; None where they may."""

from __future__ import annotations

import re

from bot.cooperative.may import Role, Signed

SIGN_IN = re.compile(r"[a-z0-9][a-z0-9._@-]{2,39}")
LONGEST_NAME = 40


def why_not(who: Signed, staff_id: int) -> str | None:
    """Nobody changes themselves: so the last who owns can't lock everybody out."""
    if not who.may("owns"):
        return "who.owners_only"
    return "who.not_yourself" if staff_id == who.staff_id else None


def wrong_with(name: str, sign_in: str, role: Role | None) -> str | None:
    """What can't be right about somebody new; None where it can."""
    if not name.strip() or len(name.strip()) > LONGEST_NAME or not name.isprintable():
        return "who.name_wrong"
    if not SIGN_IN.fullmatch(sign_in.strip().lower()):
        return "who.sign_in_wrong"
    return None if role else "who.role_wrong"

"""Who may do what at the desk. In: roles. Out: yes or no. Pure; asked by every page of the desk.

Roles stand in a row, and each may what those before it may: looks (reads), enrols (invites farms),
advises (writes to farms, corrects, teaches words), runs (sets rules, sees costs), owns (says who
may). Those who run or own prove themselves by a second factor.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal, get_args

from bot.facts.farm import Cooperative

Role = Literal["looks", "enrols", "advises", "runs", "owns"]
ROLES: tuple[Role, ...] = get_args(Role)
PROVED: tuple[Role, ...] = ("runs", "owns")

IDLE = timedelta(hours=1)  # a phone put aside
LONGEST = timedelta(hours=12)  # a day's work
NOTED_EVERY = timedelta(minutes=5)  # so seldom is it written down that a session is in use


@dataclass(frozen=True, slots=True)
class Signed:
    """Who is signed in. fresh: the password was given out and must be changed. second: whether a
    second factor was set up; proved: whether this session has shown it."""

    session_id: int
    staff_id: int
    name: str
    sign_in: str
    role: Role
    language: str
    cooperative: Cooperative
    fresh: bool
    second: bool
    proved: bool
    seen_at: datetime
    ends_at: datetime

    def may(self, needs: Role) -> bool:
        """Whether the role reaches so far."""
        return may(self.role, needs)

    @property
    def must_prove(self) -> bool:
        """Whether the second factor is still to be shown."""
        return not self.proved and (self.second or self.role in PROVED)


def may(role: Role, needs: Role) -> bool:
    """Whether a role may what needs another."""
    return ROLES.index(role) >= ROLES.index(needs)


def as_role(text: str) -> Role | None:
    """The role of that name; None where there is none."""
    return next((role for role in ROLES if role == text), None)


def is_open(seen_at: datetime, ends_at: datetime, now: datetime) -> bool:
    """Whether a session goes on: used lately, and not too old."""
    return seen_at <= now + IDLE and now - seen_at < IDLE and now < ends_at

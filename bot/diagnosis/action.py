"""Chooses the action that fits: by cause, heat, house, age, hour, and what was tried.

In: a cause, the signs, the circumstances. Out: `Advice` or None when all was tried; and when to
look again. Called by `decide.observe`.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime, time, timedelta

from bot.diagnosis.danger import smothering
from bot.diagnosis.weigh import Circumstances
from bot.handbook.shape_causes import Cause, Causes, Instead

SMOTHER = "smother"
SMOTHER_CHECK = timedelta(minutes=30)
PUSH_FROM, PUSH_TO = time(5, 0), time(22, 0)
# With several kinds of heat, the one to speak of: the easiest to change, or the one that smokes.
EASIEST = ("gas", "bulb", "charcoal", "kerosene", "wood", "none")
SMOKIEST = ("charcoal", "wood", "kerosene", "gas", "bulb", "none")
DEFAULT_HEAT = "charcoal"


@dataclass(frozen=True, slots=True)
class Advice:
    """key: the text. check_in: how long until we look again, zero for never. urgent: looked at
    again even at night. both: the text speaks of the second trouble too."""

    key: str
    check_in: timedelta
    urgent: bool = False
    both: bool = False


def advise(
    cause: str,
    signals: Collection[str],
    circumstances: Circumstances,
    tried: Collection[str],
    causes: Causes,
    also: str | None = None,
) -> Advice | None:
    """The first action for a cause that was not tried yet; None when all were. also: the second
    trouble that holds."""
    if cause == "cold" and smothering(signals, circumstances) and SMOTHER not in tried:
        return Advice(SMOTHER, SMOTHER_CHECK, urgent=True)
    content = causes.causes[cause]
    both = tuple(one.action for one in content.instead if one.also is not None)
    for key in actions(content, signals, circumstances, also):
        if key not in tried:
            return Advice(key, timedelta(minutes=content.check_in), both=key in both)
    return None


def actions(
    cause: Cause, signals: Collection[str], circumstances: Circumstances, also: str | None = None
) -> tuple[str, ...]:
    """The keys of a cause's actions here, first to last."""
    heat = heat_to_change(circumstances.heats, cause.code, signals)
    house = "open" if circumstances.open_house else "brooder"
    keys = cause.actions[house, heat]
    for one in cause.instead:
        if one.also in (None, also) and _fits(one, heat, house, signals, circumstances):
            return (one.action, *((one.then,) if one.then else keys[1:]))
    return keys


def _fits(
    one: Instead, heat: str, house: str, signals: Collection[str], circumstances: Circumstances
) -> bool:
    return (
        (one.sign is None or one.sign in signals)
        and (not one.heats or heat in one.heats)
        and (not one.bands or circumstances.band in one.bands)
        and (not one.hours or bool(circumstances.conditions().intersection(one.hours)))
        and one.house in (None, house)
        and one.stoves in (None, circumstances.stoves)
    )


def heat_to_change(heats: Collection[str], cause: str, signals: Collection[str]) -> str:
    """Which kind of heat an action speaks of where a farm has several."""
    working = [heat for heat in heats if not (heat == "bulb" and "no_power" in signals)]
    order = SMOKIEST if cause == "fumes" else EASIEST
    known = working or list(heats)
    return next((heat for heat in order if heat in known), DEFAULT_HEAT)


def look_again(local: datetime, advice: Advice, routine_at: time) -> tuple[datetime, bool]:
    """When the check-back goes out, in the farm's time, and whether it had to wait for morning.
    local: aware. What we push goes 05:00-22:00, at night only smothering."""
    at = local + advice.check_in
    if advice.urgent or (PUSH_FROM <= at.time() < PUSH_TO):
        return at, False
    day = at.date() if at.time() < PUSH_FROM else at.date() + timedelta(days=1)
    return datetime.combine(day, max(routine_at, PUSH_FROM), local.tzinfo), True

"""Practice phone: what a farmer gets, tried with the real engine; nothing is sent. In: a form that
carries the whole conversation. Out: the page."""

from __future__ import annotations

from datetime import date, timedelta

from flask import request

from bot.cooperative.may import Signed
from bot.doors.desk.frame import Answer, Desk
from bot.doors.practice import (
    BEGINNINGS,
    LONGEST,
    MOST_STEPS,
    WAITS,
    Script,
    Shown,
    played,
)
from bot.records.desk_practice import row_of

DIGITS = "123456789"
MOST_LINES = 60
FARTHEST = timedelta(days=1)  # the day of the first text: a page may stay open over midnight


def hang(desk: Desk) -> None:
    tongues = desk.bot.thinking.handbook.texts.tongues

    @desk.page("/practice", needs="looks", nav="practice")
    def practice(who: Signed) -> Answer:
        return _asked(who)

    @desk.page("/practice/phone", needs="looks", methods=("POST",))
    def practice_phone(who: Signed) -> Answer:
        script = _script(who)
        if script is None:
            return _asked(who, "practice.choose")
        step = request.form.get("go") or request.form.get("text", "")
        longer = script.with_step(step) if step else script
        fault = "practice.full" if longer is None else None
        script = longer or script
        with desk.bot.db.read() as connection:
            row = row_of(connection, who.cooperative.id)
        return desk.show(
            "practice_phone.html",
            who,
            lines=_said(desk, who, played(desk.bot.thinking, row, script)),
            script=script,
            steps="\n".join(script.steps),
            fault=fault,
            waits=list(WAITS),
            digits=DIGITS,
            longest=LONGEST,
            left=MOST_STEPS - len(script.steps),
        )

    def _asked(who: Signed, fault: str | None = None) -> Answer:
        return desk.show(
            "practice.html", who, fault=fault, beginnings=BEGINNINGS, tongues=tongues.values(),
            status=400 if fault else 200,
        )  # fmt: skip

    def _script(who: Signed) -> Script | None:
        """The conversation of the form; None where it can't be one."""
        language, begins = request.form.get("language", ""), request.form.get("begins", "")
        if language not in tongues or begins not in BEGINNINGS:
            return None
        today = desk.bot.clock.now().astimezone(who.cooperative.zone).date()
        try:
            on = date.fromisoformat(request.form.get("on", today.isoformat()))
        except ValueError:
            return None
        if abs(on - today) > FARTHEST:
            on = today
        found: Script | None = Script(language, begins, on)
        for step in request.form.get("steps", "").splitlines():
            found = found.with_step(step) if found else None
        return found


def _said(desk: Desk, who: Signed, lines: list[Shown]) -> list[Shown]:
    """The newest at the end, where the form stands; spans of time in words. A long conversation
    loses its beginning, so that the page stays small."""
    w = desk.tongue(who)
    return [
        Shown(one.at, one.side, w(f"practice.wait.{one.text[1:]}")) if one.side == "time" else one
        for one in lines[-MOST_LINES:]
    ]

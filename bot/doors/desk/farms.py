"""Farms: all of a cooperative's, and one found by a name or the end of a number. In: a form. Out:
the page. What is looked for is posted, so that no name stands in an address."""

from __future__ import annotations

from flask import request

from bot.cooperative.may import Signed
from bot.doors.desk.frame import Answer, Desk
from bot.records.desk_farms import farms_listed

A_PAGE = 50
LONGEST = 40


def hang(desk: Desk) -> None:
    @desk.page("/farms", needs="looks", nav="farms", methods=("GET", "POST"))
    def farms(who: Signed) -> Answer:
        wanted = request.form.get("wanted", "").strip()[:LONGEST]
        after = request.args.get("after", 0, type=int)
        with desk.bot.db.read() as connection:
            found = farms_listed(connection, who.cooperative.id, A_PAGE + 1, after, wanted)
        more = found[A_PAGE - 1].person_id if len(found) > A_PAGE and not wanted else None
        today = desk.bot.clock.now().astimezone(who.cooperative.zone).date()
        return desk.show(
            "farms.html", who, farms=found[:A_PAGE], more=more, wanted=wanted, today=today
        )

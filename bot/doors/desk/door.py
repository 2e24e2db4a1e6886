"""The desk as one door: all its pages under /desk. In: the Bot. Out: `Desk`, whose blueprint
`doors.web` mounts. A new page is a file beside this one with `hang(desk)`, and a line here."""

from __future__ import annotations

from flask import Response, abort, make_response, redirect, url_for

from bot.cooperative.may import Signed
from bot.doors.desk import (
    costs,
    enrol,
    entry,
    farm,
    farms,
    many,
    person,
    practice,
    rules,
    sign_in,
    unread,
    visits,
    who,
    you,
)
from bot.doors.desk.frame import STYLE, STYLE_NAME, Answer, Desk
from bot.wiring import Bot

PAGES = (
    sign_in,
    you,
    visits,
    farms,
    farm,
    entry,
    person,
    enrol,
    unread,
    many,
    practice,
    rules,
    costs,
    who,
)


def open_desk(bot: Bot) -> Desk:
    """The desk with all its pages."""
    desk = Desk(bot)
    _ground(desk)
    for one in PAGES:
        one.hang(desk)
    return desk


def _ground(desk: Desk) -> None:
    """The first page, the style, and what is nowhere."""

    @desk.page("/", needs="looks")
    def first(who: Signed) -> Answer:
        seen = next((one.endpoint for one in desk.links if who.may(one.needs)), "desk.you")
        return make_response(redirect(url_for(seen), 303))

    @desk.page(f"/{STYLE_NAME}", needs=None)
    def style() -> Answer:
        answer = Response(STYLE, content_type="text/css; charset=utf-8")
        answer.headers["Cache-Control"] = "public, max-age=31536000, immutable"
        return answer

    @desk.page("/<path:lost>", needs=None)
    def nowhere(lost: str) -> Answer:  # noqa: ARG001  # never echoed
        abort(404)

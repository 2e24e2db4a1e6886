"""The web application: every door that speaks HTTP. In: the Bot. Out: a Flask application. Called
by `broodpost serve`, by a WSGI server of the operator's choice, and by tests."""

from __future__ import annotations

import logging
from time import perf_counter

from flask import Flask, Response, jsonify
from jinja2 import StrictUndefined
from prometheus_client import CONTENT_TYPE_LATEST
from sqlalchemy.exc import SQLAlchemyError
from werkzeug.exceptions import HTTPException

from bot.doors.desk.door import open_desk
from bot.doors.health import complaints, in_words
from bot.doors.metrics import Figures
from bot.doors.plain_sms import plain_door
from bot.doors.receipts import receipts_door
from bot.doors.sms import sms_door
from bot.doors.ussd import ussd_door
from bot.doors.voice import voice_door
from bot.facts.dial import Dialled, Screen
from bot.facts.talk import Incoming
from bot.outbox.receipts import Receipt, take_receipt
from bot.turn.take import Taken
from bot.wiring import Bot

log = logging.getLogger(__name__)
LARGEST_BODY = 128 * 1024
MOST_FIELDS = 200


def create_app(bot: Bot) -> Flask:
    """All doors of one Bot."""
    app = Flask("broodpost", static_folder=None)
    app.url_map.merge_slashes = False  # a path that is no door's is refused, never led elsewhere
    app.config["MAX_CONTENT_LENGTH"] = LARGEST_BODY
    app.config["MAX_FORM_MEMORY_SIZE"] = LARGEST_BODY
    app.config["MAX_FORM_PARTS"] = MOST_FIELDS
    figures = Figures(bot.db, bot.clock, bot.settings.house.limits)

    def take(incoming: Incoming) -> Taken:
        begun = perf_counter()
        taken = bot.take(incoming)
        figures.note(taken, begun)
        return taken

    def dial(dialled: Dialled) -> Screen:
        screen = bot.dial(dialled)
        figures.note_screen(screen)
        return screen

    def note_receipt(receipt: Receipt) -> bool:
        return take_receipt(bot.db, receipt, bot.clock.now())

    app.register_blueprint(sms_door(take, bot.settings, bot.clock))
    app.register_blueprint(receipts_door(note_receipt, bot.settings))
    app.register_blueprint(plain_door(bot.take_plain, bot.settings, bot.clock))
    app.register_blueprint(voice_door(take, bot.settings, bot.clock))
    app.register_blueprint(ussd_door(dial, bot.settings))
    if bot.settings.opens_desk:
        app.jinja_options = {"undefined": StrictUndefined, "trim_blocks": True}
        app.register_blueprint(open_desk(bot).blueprint)
    _eyes(app, bot, figures)
    app.register_error_handler(HTTPException, _refused)
    app.register_error_handler(SQLAlchemyError, _database_away)
    app.after_request(_headers)
    return app


def _eyes(app: Flask, bot: Bot, figures: Figures) -> None:
    """GET /health and GET /metrics."""

    @app.get("/health")
    def health() -> tuple[Response, int]:
        wrong = complaints(bot.db, bot.clock.now())
        return jsonify(status="late" if wrong else "ok", wrong=wrong), 503 if wrong else 200

    @app.get("/metrics")
    def metrics() -> Response:
        return Response(figures.text(), content_type=CONTENT_TYPE_LATEST)


def _refused(error: HTTPException) -> Response:
    """A refusal in one plain line, without echoing anything that came in."""
    return Response(f"{error.name}\n", error.code, content_type="text/plain; charset=utf-8")


def _database_away(error: SQLAlchemyError) -> Response:
    """Nothing was taken: the gateway may post it again."""
    log.error("the database does not work: %s", in_words(error), exc_info=error)
    return Response("Service Unavailable\n", 503, content_type="text/plain; charset=utf-8")


def _headers(response: Response) -> Response:
    response.headers.setdefault("X-Content-Type-Options", "nosniff")
    response.headers.setdefault("Cache-Control", "no-store")
    response.headers.setdefault("Referrer-Policy", "no-referrer")
    return response

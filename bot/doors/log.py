"""Keeps numbers and texts out of the log. In: every record, at the sink. Out: lines on standard
error in which a number is a keyed hash and its last two digits. Set up by the command line.

Nothing of ours logs a text. What others raise may hold one, so of an exception only its kind and
its way through the code are written, and its words only where they can't hold a farmer's.
"""

from __future__ import annotations

import hashlib
import hmac
import logging
import re
import secrets
import sys
import traceback
from types import TracebackType

from sqlalchemy.exc import DBAPIError

from bot.errors import BroodpostError
from bot.settings import Settings

_NUMBER = re.compile(r"(?:\+|%2B)?\d(?: ?\d){6,14}")
_FORMAT = "%(asctime)s %(levelname)s %(name)s: "

ExcInfo = tuple[type[BaseException], BaseException, TracebackType | None] | tuple[None, None, None]


def set_up_logging(settings: Settings, level: int = logging.INFO) -> None:
    """Send all records to standard error through the one formatter that hides."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(Hiding(settings.secret))
    root = logging.getLogger()
    root.handlers = [handler]
    root.setLevel(level)
    logging.getLogger("alembic").setLevel(logging.WARNING)


class Hiding(logging.Formatter):
    """Writes a record without numbers and without other people's words. secret: the key of the
    hashes; without one, they hold for this process only."""

    def __init__(self, secret: str) -> None:
        super().__init__(_FORMAT)
        self._key = secret.encode() or secrets.token_bytes(16)

    def format(self, record: logging.LogRecord) -> str:
        record.asctime = self.formatTime(record, self.datefmt)
        said = record.getMessage()
        if record.exc_info:
            said += "\n" + self.formatException(record.exc_info)
        return self.formatMessage(record) + self.hide(said)

    def formatException(self, ei: ExcInfo) -> str:
        """The kind of each exception in the chain and where it came from."""
        error = ei[1]
        lines: list[str] = []
        while error is not None and len(lines) < 200:
            lines += [f"{type(error).__name__}{_harmless_words(error)}"]
            lines += [part.rstrip() for part in traceback.format_tb(error.__traceback__)]
            error = error.__cause__ or error.__context__
        return "\n".join(lines)

    def hide(self, text: str) -> str:
        """`text` with every number replaced."""
        return _NUMBER.sub(lambda found: self._mark(found.group()), text)

    def _mark(self, number: str) -> str:
        digits = re.sub(r"\D", "", number.removeprefix("%2B"))
        digest = hmac.new(self._key, digits.encode(), hashlib.sha256).hexdigest()
        return f"#{digest[:10]}..{digits[-2:]}"


def _harmless_words(error: BaseException) -> str:
    """Words of our own errors, of the system and of the database's driver; no one else's."""
    if isinstance(error, BroodpostError | OSError):
        return f": {error}"
    if isinstance(error, DBAPIError) and type(error).__name__ == "OperationalError":
        return f": {error.orig}"
    return ""

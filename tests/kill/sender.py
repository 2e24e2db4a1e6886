"""A sender that is killed: before its first post, or between the gateway's answer and the commit.

Run as a process: gateway address, database, moment, "before" or "after".
"""

from __future__ import annotations

import os
import signal
import sys
from datetime import datetime

from bot.gateway.client import Outgoing, Sent, TwilioCompatible
from bot.outbox.dispatch import send_waiting
from bot.records.session import Database
from tests.kill.plain import ACCOUNT, SERVICE, TOKEN


class Dying(TwilioCompatible):
    """Posts for real, if at all, and is gone."""

    post_first = True

    def send(self, outgoing: Outgoing) -> Sent:
        if self.post_first:
            super().send(outgoing)
        os.kill(os.getpid(), signal.SIGKILL)
        raise AssertionError("outlived its end")


def main(url: str, database: str, now: str, when: str) -> None:
    gateway = Dying(url, ACCOUNT, TOKEN, SERVICE, "http://127.0.0.1:9/sms/receipt")
    gateway.post_first = when == "after"
    send_waiting(Database(database), gateway, datetime.fromisoformat(now), threads=1)


if __name__ == "__main__":
    main(*sys.argv[1:])

"""A stand-in for the SMS gateway: a real HTTP server that speaks the Twilio-compatible REST API,
keeps what it was given, posts signed receipts and texts, and misbehaves on demand. Run as a
process of its own by scripts/try and the kill tests (`python -m bot.gateway.pretend --port 8081
--service http://127.0.0.1:8080`), or inside a test as `PretendGateway`.

Beside the API it answers, under /pretend/ (JSON, loopback only, no key):
  GET  /pretend/messages?since=N   texts taken after number N, and `last`, the newest number
  POST /pretend/text               {"from", "body", ...}: a phone texts the service; its replies
  POST /pretend/faults             gateway/faults.faults_from; {} behaves well again
  POST /pretend/settle             waits until every receipt was posted
  POST /pretend/clear              forgets all texts
"""

from __future__ import annotations

import argparse
import base64
import hmac
import json
import os
import re
import socket
import struct
import sys
import threading
from collections.abc import Mapping
from datetime import date
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from types import TracebackType
from typing import Any
from urllib.parse import parse_qs, urlsplit

from bot.clock import Clock, FileClock, SystemClock
from bot.gateway.faults import Fault, Faults, faults_from
from bot.gateway.kept import Book
from bot.gateway.phones import Phones, Service

LONGEST_BODY = 1600
_E164 = re.compile(r"\+[1-9]\d{6,14}")


class PretendGateway:
    """The server and what it keeps. `with PretendGateway(service) as gateway: gateway.url`."""

    def __init__(
        self,
        service: Service,
        *,
        port: int = 0,
        clock: Clock | None = None,
        faults: Faults | None = None,
    ) -> None:
        self.service = service
        self.book = Book()
        self.faults = faults or Faults()
        self.phones = Phones(service, self.book)
        self.clock = clock or SystemClock()
        self.closing = threading.Event()
        self._server = _Server(("127.0.0.1", port), self)
        self.url = f"http://127.0.0.1:{self._server.server_address[1]}"

    def serve(self) -> None:
        """Answer until closed."""
        self._server.serve_forever(poll_interval=0.05)

    def close(self) -> None:
        self.closing.set()
        self._server.shutdown()
        self._server.server_close()
        self.phones.close()

    def __enter__(self) -> PretendGateway:
        threading.Thread(target=self.serve, daemon=True).start()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        value: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    request_queue_size = 256

    def __init__(self, address: tuple[str, int], gateway: PretendGateway) -> None:
        self.gateway = gateway
        super().__init__(address, _Handler)

    def handle_error(self, request: object, client_address: object) -> None:
        """A sender that hangs up is no fault of the gateway."""


class _Handler(BaseHTTPRequestHandler):
    server: _Server
    protocol_version = "HTTP/1.1"
    disable_nagle_algorithm = True
    wbufsize = 1 << 16
    timeout = 60

    def do_GET(self) -> None:
        asked = urlsplit(self.path)
        if asked.path.startswith("/pretend/"):
            self._own(asked.path, b"", parse_qs(asked.query))
        elif self._is_known():
            self._list(asked.path, parse_qs(asked.query))

    def do_POST(self) -> None:
        body = self.rfile.read(int(self.headers.get("Content-Length") or 0))
        path = urlsplit(self.path).path
        if path.startswith("/pretend/"):
            self._own(path, body, {})
        elif self._is_known():
            self._create(parse_qs(body.decode("utf-8", "replace"), keep_blank_values=True))

    def log_message(self, format: str, *args: object) -> None:
        """Nothing is logged: the address line may hold a number."""

    # The API

    def _create(self, form: Mapping[str, list[str]]) -> None:
        gateway = self.server.gateway
        said = {name: values[0] for name, values in form.items()}
        refusal = _refusal(said, gateway.faults.refused)
        if refusal is not None:
            self._answer(400, _error(*refusal))
            return
        fault = gateway.faults.next_fault()
        if fault.takes:
            self._take(said, fault)
        else:
            self._misbehave(fault)

    def _take(self, said: Mapping[str, str], fault: Fault) -> None:
        gateway = self.server.gateway
        kept = gateway.book.take(
            said["To"],
            said.get("From") or said.get("MessagingServiceSid", ""),
            said["Body"],
            gateway.clock.now(),
            said.get("StatusCallback", ""),
        )
        answer = kept.as_api(gateway.service.account)
        gateway.phones.report(kept, gateway.faults)
        if fault is Fault.SLOW:
            gateway.closing.wait(gateway.faults.slow_seconds)
        if fault in (Fault.NONE, Fault.SLOW):
            self._answer(201, answer)
        else:
            self._misbehave(fault)

    def _misbehave(self, fault: Fault) -> None:
        if fault is Fault.BUSY:
            self._answer(429, _error(20429, "Too Many Requests"))
        elif fault in (Fault.ERROR_BEFORE, Fault.ERROR_AFTER):
            self._answer(500, _error(20500, "Internal Server Error"))
        elif fault in (Fault.HTML_BEFORE, Fault.HTML_AFTER):
            self._send(200, "text/html", b"<html><body>Maintenance</body></html>")
        else:
            self._reset()

    def _list(self, path: str, query: Mapping[str, list[str]]) -> None:
        gateway = self.server.gateway
        account = gateway.service.account
        one = re.fullmatch(r"/2010-04-01/Accounts/[^/]+/Messages/([^/]+)\.json", path)
        if one:
            kept = gateway.book.get(one.group(1))
            self._answer(*((200, kept.as_api(account)) if kept else (404, _error(20404, path))))
            return
        on, first, last = (_day(query, f"DateSent{sign}") for sign in ("", ">", "<"))
        found = gateway.book.listed(query.get("To", [None])[0], on or first, on or last)
        size = int(query.get("PageSize", ["50"])[0])
        listed = [kept.as_api(account) for kept in found[:size]]
        self._answer(200, {"messages": listed, "page": 0, "page_size": size, "next_page_uri": None})

    def _is_known(self) -> bool:
        """Whether the account and its token are right; answers 401 where they aren't."""
        service = self.server.gateway.service
        said = self.headers.get("Authorization", "").removeprefix("Basic ")
        right = base64.b64encode(f"{service.account}:{service.token}".encode()).decode()
        start = f"/2010-04-01/Accounts/{service.account}/Messages"
        if hmac.compare_digest(said.encode(), right.encode()) and self.path.startswith(start):
            return True
        self._answer(401, _error(20003, "Authenticate"))
        return False

    # Our own

    def _own(self, path: str, body: bytes, query: Mapping[str, list[str]]) -> None:
        gateway = self.server.gateway
        try:
            said = _object(body)
            if path == "/pretend/messages":
                kept = gateway.book.since(int(query.get("since", ["0"])[0]))
                last = kept[-1].number if kept else gateway.book.count()
                self._answer(200, {"messages": [one.as_seen() for one in kept], "last": last})
            elif path == "/pretend/text":
                self._answer(200, gateway.phones.text(said))
            elif path == "/pretend/faults":
                gateway.faults = faults_from(said)
                self._answer(200, {})
            elif path == "/pretend/settle":
                self._answer(200, {"told": gateway.phones.wait_until_told(30)})
            elif path == "/pretend/clear":
                gateway.book.clear()
                self._answer(200, {})
            else:
                self._answer(404, _error(20404, path))
        except (KeyError, ValueError, TypeError, AttributeError) as wrong:
            self._answer(400, _error(20001, f"{type(wrong).__name__}: {wrong}"))

    # Bytes

    def _answer(self, status: int, said: Mapping[str, Any]) -> None:
        self._send(status, "application/json", json.dumps(said).encode())

    def _send(self, status: int, kind: str, body: bytes) -> None:
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def _reset(self) -> None:
        """Hang up so that the sender gets a reset instead of an answer."""
        now = struct.pack("ii", 1, 0)
        self.connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, now)
        self.connection.close()
        self.close_connection = True


def _refusal(said: Mapping[str, str], refused: Mapping[str, int]) -> tuple[int, str] | None:
    """The code and reason why a text is not taken, or None."""
    to, body = said.get("To", ""), said.get("Body", "")
    checks = (
        (not to, 21604, "A 'To' phone number is required."),
        (not said.get("From") and not said.get("MessagingServiceSid"), 21603, "'From' is required"),
        (not body, 21602, "Message body is required."),
        (len(body) > LONGEST_BODY, 21617, "The message body exceeds the 1600 character limit."),
        (not _E164.fullmatch(to), 21211, "Invalid 'To' Phone Number"),
        (to in refused, refused.get(to, 0), "Refused"),
    )
    return next(((code, why) for fails, code, why in checks if fails), None)


def _error(code: int, why: str) -> dict[str, Any]:
    return {"code": code, "message": why, "more_info": "", "status": code // 100}


def _object(body: bytes) -> Mapping[str, Any]:
    said = json.loads(body or b"{}")
    return said if isinstance(said, dict) else {}


def _day(query: Mapping[str, list[str]], name: str) -> date | None:
    values = query.get(name)
    return date.fromisoformat(values[0][:10]) if values else None


def main(arguments: list[str] | None = None) -> None:
    """Run until ended. Prints one JSON line with the address when ready."""
    asked = _parser().parse_args(arguments)
    url = asked.service.rstrip("/")
    token = os.environ.get("BROODPOST_GATEWAY_TOKEN", "pretend")
    service = Service(url, asked.signed_as or url, asked.account, token, asked.number)
    clock = FileClock(Path(asked.clock_file)) if asked.clock_file else SystemClock()
    gateway = PretendGateway(service, port=asked.port, clock=clock, faults=Faults(asked.seed))
    sys.stdout.write(json.dumps({"url": gateway.url}) + "\n")
    sys.stdout.flush()
    try:
        gateway.serve()
    except KeyboardInterrupt:
        return


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m bot.gateway.pretend",
        description="A stand-in for the SMS gateway, for trying and testing on one machine.",
        epilog="The token comes from BROODPOST_GATEWAY_TOKEN, else it is 'pretend'.",
    )
    parser.add_argument("--port", type=int, default=0, help="0 takes a free one")
    parser.add_argument("--service", required=True, help="address of broodpost, without a path")
    parser.add_argument("--signed-as", default="", help="its public address, where that differs")
    parser.add_argument("--account", default="ACpretend")
    parser.add_argument("--number", default="+15005550006", help="the service's own number")
    parser.add_argument("--clock-file", default="", help="seconds to add to real time")
    parser.add_argument("--seed", type=int, default=1)
    return parser


if __name__ == "__main__":
    main()

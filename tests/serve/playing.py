"""What the checks of the running service share: start it, text it, play its clock, read its post.

In: a data directory and settings. Out: answers as a gateway would see them, and the texts that the
service pushed. Nothing here imports the service: it is met as a process, over HTTP. Called by the
tests of this folder only.
"""

from __future__ import annotations

import base64
import hashlib
import hmac
import itertools
import json
import os
import re
import signal
import socket
import subprocess
import sys
import threading
import time
import uuid
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import TypeVar
from urllib.parse import parse_qs, urlsplit
from xml.etree import ElementTree
from zoneinfo import ZoneInfo

import requests
from prometheus_client.parser import text_string_to_metric_families

ROOT = Path(__file__).resolve().parents[2]
NAIROBI = ZoneInfo("Africa/Nairobi")
ACCOUNT = "ACfiction0000000000000000000000000"
TOKEN = "fiction-token-not-a-secret"
SENDER = "+15005550006"
NAME = "Mfano"
LOOPS = {"tick", "send"}
STEP = timedelta(minutes=118)
"""Just under the two hours that still count as time passing."""

_phones = itertools.count(1)
_T = TypeVar("_T")


def phone() -> str:
    """A number nobody has texted from yet, plainly invented."""
    return f"+254700000{next(_phones):03d}"


def free_port() -> int:
    """A port that nobody listens on just now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


def until(condition: Callable[[], _T], seconds: float = 10) -> _T:
    """The first true value of `condition`; after `seconds` whatever it says then."""
    end = time.monotonic() + seconds
    while not (found := condition()) and time.monotonic() < end:
        time.sleep(0.05)
    return found


def sign(token: str, url: str, fields: Mapping[str, str]) -> str:
    """X-Twilio-Signature of a form post, written from the gateway's published rule."""
    said = url + "".join(name + fields[name] for name in sorted(fields))
    digest = hmac.new(token.encode(), said.encode(), hashlib.sha1).digest()
    return base64.b64encode(digest).decode()


def parts(text: str) -> int:
    """Parts of a plain ASCII text by 3GPP TS 23.038: the escaped signs count twice."""
    septets = len(text) + sum(text.count(sign) for sign in "^{}[]~\\|")
    return 1 if septets <= 160 else -(-septets // 153)


_COMMON = {
    "en": "the your you of to and are them in with for not is at on have",
    "sw": "na ya wa kwa vifaranga maji leo ni wako yako au siku sasa la kama moto",
    "fr": "les des la le de et vous votre poussins eau un une est pour sur dans",
}


def language(text: str) -> str:
    """Which of the three languages a text is in, by its commonest words."""
    words = re.findall(r"[a-z]+", text.lower())
    return max(_COMMON, key=lambda code: sum(word in _COMMON[code].split() for word in words))


def sends_to_vet(text: str) -> bool:
    """Whether a text names the vet, in one of the three languages."""
    return bool(re.search(r"\bvet|\bmifugo\b|\bdaktari\b", text.lower()))


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer of a door, with the texts that it holds."""

    status: int
    content_type: str
    body: str

    @property
    def texts(self) -> list[str]:
        """The messages for the phone, in order."""
        root = ElementTree.fromstring(self.body)
        assert root.tag == "Response"
        return [node.text or "" for node in root.iter("Message")]

    @property
    def said(self) -> str:
        """All messages as one text."""
        return " ".join(self.texts)


class Clock:
    """The clock file of one or more services, and the local time that it makes."""

    def __init__(self, path: Path, begins: datetime) -> None:
        self._path = path
        self.set(begins)

    @property
    def path(self) -> str:
        """Where the services read it."""
        return str(self._path)

    @property
    def now(self) -> datetime:
        """The played moment, local."""
        return datetime.now(NAIROBI) + timedelta(seconds=float(self._path.read_text()))

    def set(self, moment: datetime) -> None:
        """Make it `moment` at once, whatever lies between."""
        ahead = (moment - datetime.now(NAIROBI)).total_seconds()
        draft = self._path.with_suffix(".new")
        draft.write_text(f"{ahead:.3f}")
        draft.replace(self._path)

    def play_to(self, moment: datetime, service: Service) -> None:
        """Let time pass until `moment`, in steps that are no outage, each seen by the loop."""
        while self.now < moment:
            self.set(min(self.now + STEP, moment))
            service.a_tick()


def morning(days: int = 0, hour: int = 9, minute: int = 0) -> datetime:
    """A local moment of the played world, `days` after its first day."""
    first = datetime(2027, 3, 1, hour, minute, tzinfo=NAIROBI)
    return first + timedelta(days=days)


class Service:
    """`broodpost serve` as a process of its own."""

    def __init__(
        self, data: Path, gateway: str, clock: Clock | None = None, **settings: str | None
    ) -> None:
        self.data = data
        self.port = free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        self.settings = {
            "BROODPOST_GATEWAY_URL": gateway,
            "BROODPOST_GATEWAY_ACCOUNT": ACCOUNT,
            "BROODPOST_GATEWAY_TOKEN": TOKEN,
            "BROODPOST_SENDER": SENDER,
            "BROODPOST_PUBLIC_URL": self.url,
            "BROODPOST_REGION": "KE",
            "BROODPOST_TZ": "Africa/Nairobi",
            "BROODPOST_NAME": NAME,
            "BROODPOST_SECRET": "an invented secret of more than thirty-two letters",
            "BROODPOST_USSD_SECRET": "an-invented-path-of-more-than-24-letters",
        }
        if clock is not None:
            self.settings["BROODPOST_CLOCK_FILE"] = clock.path
        for name, value in settings.items():
            if value is None:
                self.settings.pop(name, None)
            else:
                self.settings[name] = value
        logs = next(folder for folder in data.parents if folder.is_dir())
        self.stdout = logs / f"{data.name}.{self.port}.out"
        self.stderr = logs / f"{data.name}.{self.port}.err"
        self._process: subprocess.Popen[bytes] | None = None

    def launch(self, *before: str) -> subprocess.Popen[bytes]:
        """Start the process without waiting for it."""
        env = {k: v for k, v in os.environ.items() if not k.startswith("BROODPOST_")}
        command = [*before, sys.executable, "-m", "bot", "serve"]
        command += ["--port", str(self.port), "--data", str(self.data)]
        with self.stdout.open("ab") as out, self.stderr.open("ab") as err:
            self._process = subprocess.Popen(
                command, env=env | self.settings, cwd=ROOT, stdout=out, stderr=err
            )
        return self._process

    def start(self) -> Service:
        """Start it and wait until it says that it is ready."""
        process = self.launch()

        def settled() -> bool:
            return process.poll() is not None or self.healthy()

        until(settled, 30)
        assert self.healthy(), f"not ready: {self.stderr.read_text()[-3000:]}"
        return self

    def healthy(self) -> bool:
        """Whether /health answers 200."""
        try:
            return requests.get(f"{self.url}/health", timeout=2).status_code == 200
        except requests.RequestException:
            return False

    def a_tick(self) -> None:
        """Wait until the loop has ticked and its sender has passed, both after this moment."""
        began = time.monotonic()

        def passed() -> bool:
            since = time.monotonic() - began
            return max(self._ages(), default=since) < since

        assert until(passed, 30), "the loop stands still"

    def _ages(self) -> list[float]:
        """Seconds since the loop last ticked and since its sender last passed."""
        figures = requests.get(f"{self.url}/metrics", timeout=5).text
        return [
            sample.value
            for family in text_string_to_metric_families(figures)
            for sample in family.samples
            if sample.name.endswith("loop_age_seconds") and sample.labels["loop"] in LOOPS
        ]

    def stop(self) -> tuple[int, float]:
        """SIGTERM; the exit code and the seconds it took. Killed after 10, which gives -9."""
        assert self._process is not None
        began = time.monotonic()
        self._process.send_signal(signal.SIGTERM)
        try:
            code = self._process.wait(10)
        except subprocess.TimeoutExpired:
            self._process.kill()
            code = self._process.wait()
        return code, time.monotonic() - began

    def memory_kb(self) -> int:
        """Memory of the process that is in use now, as Linux tells it."""
        assert self._process is not None
        pages = int(Path(f"/proc/{self._process.pid}/statm").read_text().split()[1])
        return pages * os.sysconf("SC_PAGE_SIZE") // 1024

    def running(self) -> bool:
        """Whether the process lives."""
        return self._process is not None and self._process.poll() is None

    def post(
        self, path: str, fields: Mapping[str, str], signature: str | None, seconds: float = 15
    ) -> Answer:
        """One form post, with this signature or without one."""
        headers = {} if signature is None else {"X-Twilio-Signature": signature}
        got = requests.post(self.url + path, data=dict(fields), headers=headers, timeout=seconds)
        return Answer(got.status_code, got.headers.get("Content-Type", ""), got.text)

    def signed(self, path: str, fields: Mapping[str, str]) -> Answer:
        """One form post signed as the gateway signs it."""
        public = self.settings["BROODPOST_PUBLIC_URL"]
        return self.post(path, fields, sign(TOKEN, public + path, fields))

    def text(self, sender: str, body: str, **more: str) -> Answer:
        """A phone texts the service."""
        return self.signed("/sms", inbound(sender, body, **more))

    def receipt(self, sid: str, status: str, **more: str) -> Answer:
        """The gateway says what became of a text."""
        return self.signed("/sms/receipt", receipt(sid, status, **more))


def inbound(sender: str, body: str, **more: str) -> dict[str, str]:
    """The fields of a text as the gateway posts them."""
    sid = f"SM{uuid.uuid4().hex}"
    fields = {"MessageSid": sid, "SmsSid": sid, "AccountSid": ACCOUNT, "From": sender}
    fields |= {"To": SENDER, "Body": body, "NumMedia": "0", "NumSegments": "1"}
    return fields | more


def receipt(sid: str, status: str, **more: str) -> dict[str, str]:
    """The fields of a receipt as the gateway posts them."""
    fields = {"MessageSid": sid, "SmsSid": sid, "AccountSid": ACCOUNT, "From": SENDER}
    return fields | {"MessageStatus": status, "To": "+254700000999"} | more


@contextmanager
def serving(
    data: Path, gateway: str, clock: Clock | None = None, **settings: str | None
) -> Iterator[Service]:
    """A started service, ended afterwards."""
    service = Service(data, gateway, clock, **settings)
    try:
        yield service.start()
    finally:
        if service.running():
            service.stop()


@dataclass(frozen=True, slots=True)
class Sent:
    """One request to send, as it reached the gateway."""

    path: str
    authorization: str
    fields: Mapping[str, str]


class Counter:
    """A gateway counter in this process: keeps every request to send, in the mood it is told."""

    def __init__(self) -> None:
        self.taken: list[Sent] = []
        self.mood = "takes"
        self.let_go = threading.Event()
        self._server = ThreadingHTTPServer(("127.0.0.1", 0), _handler(self))
        self._server.daemon_threads = True
        self._server.block_on_close = False
        self.url = f"http://127.0.0.1:{self._server.server_address[1]}"
        threading.Thread(target=self._server.serve_forever, daemon=True).start()

    def close(self) -> None:
        """Let everything that hangs go, and end."""
        self.let_go.set()
        self._server.shutdown()
        self._server.server_close()

    def to(self, number: str) -> list[Sent]:
        """What was to be sent to one phone."""
        return [one for one in self.taken if one.fields["To"] == number]


def _handler(counter: Counter) -> type[BaseHTTPRequestHandler]:
    class Handler(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            length = int(self.headers["Content-Length"])
            form = parse_qs(self.rfile.read(length).decode(), keep_blank_values=True)
            fields = {name: values[0] for name, values in form.items()}
            path = urlsplit(self.path).path
            counter.taken.append(Sent(path, self.headers["Authorization"] or "", fields))
            if counter.mood == "hangs":
                counter.let_go.wait(30)
            if counter.mood == "busy":
                self._say(429, {"code": 20429, "message": "Too Many Requests", "status": 429})
                return
            self._say(201, {"sid": f"SM{uuid.uuid4().hex}", "status": "queued", **fields})

        def do_GET(self) -> None:
            self._say(200, {"messages": [], "page": 0, "next_page_uri": None})

        def _say(self, status: int, body: Mapping[str, object]) -> None:
            told = json.dumps(body).encode()
            self.send_response(status)
            self.send_header("Content-Type", "application/json")
            self.send_header("Content-Length", str(len(told)))
            self.end_headers()
            with suppress(ConnectionError):  # whoever hung up meanwhile
                self.wfile.write(told)

        def log_message(self, format: str, *args: object) -> None:
            """Keep the test run quiet."""

    return Handler


@dataclass(frozen=True, slots=True)
class Push:
    """A text that the pretend gateway delivered."""

    to: str
    body: str
    at: datetime
    parts: int
    encoding: str


class Gateway:
    """The project's stand-in gateway as a process of its own: delivers and posts receipts."""

    def __init__(self, service: Service, clock: Clock, port: int) -> None:
        self.url = f"http://127.0.0.1:{port}"
        command = [sys.executable, "-m", "bot.gateway.pretend", "--port", str(port)]
        command += ["--service", service.url, "--account", ACCOUNT, "--number", SENDER]
        command += ["--clock-file", clock.path]
        self._process = subprocess.Popen(
            command,
            env=os.environ | {"BROODPOST_GATEWAY_TOKEN": TOKEN},
            cwd=ROOT,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        assert until(self._up, 20), "the pretend gateway does not answer"

    def _up(self) -> bool:
        try:
            return requests.get(f"{self.url}/pretend/messages?since=0", timeout=2).ok
        except requests.RequestException:
            return False

    def close(self) -> None:
        """End it."""
        self._process.terminate()
        self._process.wait(10)

    def pushes(self, to: str | None = None) -> list[Push]:
        """Everything delivered so far, or what one phone was sent, oldest first."""
        got = requests.get(f"{self.url}/pretend/messages", params={"since": 0}, timeout=5).json()
        found = []
        for one in got["messages"]:
            at = datetime.fromisoformat(one["at"]).astimezone(NAIROBI)
            found.append(Push(one["to"], one["body"], at, one["parts"], one["encoding"]))
        return [push for push in found if to is None or push.to == to]

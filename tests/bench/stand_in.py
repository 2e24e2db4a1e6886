"""A gateway of the measurements: a process that takes every text and answers after a while. Run as
`python -m tests.bench.stand_in SECONDS`; prints its port. It counts what it took at GET /."""

from __future__ import annotations

import asyncio
import json
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import blake2b
from pathlib import Path

import requests

ROOT = Path(__file__).resolve().parents[2]


class StandIn:
    """Speaks just enough HTTP to be posted to over kept connections."""

    def __init__(self, seconds: float) -> None:
        self._seconds = seconds
        self._texts = 0
        self._known: set[bytes] = set()

    async def talk(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        try:
            while True:
                head = await reader.readuntil(b"\r\n\r\n")
                length = next(
                    (int(one[15:]) for one in head.lower().split(b"\r\n")
                     if one.startswith(b"content-length:")), 0,
                )  # fmt: skip
                body = await reader.readexactly(length)
                writer.write(await self._answer(head, body))
                await writer.drain()
        except (asyncio.IncompleteReadError, ConnectionError):
            writer.close()

    async def _answer(self, head: bytes, body: bytes) -> bytes:
        if head.startswith(b"GET"):
            return _http(200, {"texts": self._texts, "doubled": self._texts - len(self._known)})
        await asyncio.sleep(self._seconds)
        self._texts += 1
        self._known.add(blake2b(body, digest_size=12).digest())
        return _http(201, {"sid": f"SM{self._texts}", "status": "queued"})


def _http(status: int, said: dict[str, object]) -> bytes:
    body = json.dumps(said).encode()
    head = f"HTTP/1.1 {status} OK\r\nContent-Type: application/json\r\nContent-Length: {len(body)}"
    return head.encode() + b"\r\n\r\n" + body


@contextmanager
def stand_in(seconds: float) -> Iterator[str]:
    """The address of a gateway that answers after so long."""
    command = [sys.executable, "-m", "tests.bench.stand_in", str(seconds)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        try:
            yield f"http://127.0.0.1:{int(process.stdout.readline())}"
        finally:
            process.terminate()


def taken(url: str) -> tuple[int, int]:
    """How many texts it took, and how many of them twice."""
    said = requests.get(url, timeout=5).json()
    return int(said["texts"]), int(said["doubled"])


async def _serve(seconds: float) -> None:
    server = await asyncio.start_server(StandIn(seconds).talk, "127.0.0.1", 0, backlog=256)
    sys.stdout.write(f"{server.sockets[0].getsockname()[1]}\n")
    sys.stdout.flush()
    await server.serve_forever()


if __name__ == "__main__":
    asyncio.run(_serve(float(sys.argv[1])))

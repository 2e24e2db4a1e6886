"""The wire to a gateway: one HTTP request out, its answer in, or a SendError that says whether the
request may have arrived. Called by the gateways beside it."""

from __future__ import annotations

import ssl
import threading
from typing import Any

import requests
import urllib3.exceptions as deep
from requests.adapters import HTTPAdapter

from bot.errors import SendError

TIMEOUTS = (3.05, 10.0)  # seconds to connect, seconds between bytes of the answer


class Wire:
    """Requests to one gateway; one session a thread, so that connections are kept. auth: name and
    password of basic authentication. headers: sent with every request."""

    def __init__(
        self,
        timeouts: tuple[float, float] = TIMEOUTS,
        auth: tuple[str, str] | None = None,
        headers: dict[str, str] | None = None,
    ) -> None:
        self._timeouts = timeouts
        self._auth = auth
        self._headers = headers or {}
        self._threads = threading.local()

    def ask(self, method: str, url: str, **given: Any) -> requests.Response:
        """One request; given: data, json or params as `requests` takes them. Raises SendError."""
        try:
            return self._session().request(
                method,
                url,
                auth=self._auth,
                headers=self._headers,
                timeout=self._timeouts,
                allow_redirects=False,
                **given,
            )
        except requests.RequestException as lost:
            # The exception's own words hold the address, and with it the number.
            name = type(lost).__name__
            raise SendError(name, permanent=False, unknown=not _never_left(lost)) from None

    def _session(self) -> requests.Session:
        session: requests.Session | None = getattr(self._threads, "session", None)
        if session is None:
            session = requests.Session()
            session.trust_env = False
            for scheme in ("http://", "https://"):
                session.mount(scheme, HTTPAdapter(pool_maxsize=1, max_retries=0))
            self._threads.session = session
        return session


def json_of(answer: requests.Response) -> dict[str, Any]:
    """The answer's JSON object; empty where it holds none."""
    try:
        said = answer.json()
    except ValueError:
        return {}
    return said if isinstance(said, dict) else {}


def _never_left(lost: requests.RequestException) -> bool:
    """Whether the request can't have reached the gateway: no name, no connection, no address."""
    if isinstance(lost, requests.ConnectTimeout | ValueError):  # a wrong address is a ValueError
        return True
    never = (deep.NewConnectionError, ssl.SSLCertVerificationError)
    return any(isinstance(cause, never) for cause in _causes(lost))


def _causes(lost: BaseException) -> list[BaseException]:
    """The exception and those it wraps: `requests` keeps urllib3's among its arguments."""
    found: list[BaseException] = []
    queue = [lost]
    while queue and len(found) < 20:
        one = queue.pop()
        found.append(one)
        inside = [*one.args, getattr(one, "reason", None), one.__cause__]
        queue += [more for more in inside if isinstance(more, BaseException) and more not in found]
    return found

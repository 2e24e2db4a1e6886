"""Lets in only what the gateway signed. In: the request at hand and the settings. Out: nothing, or
403; whether an unsigned one comes from where it may. Called first by doors/sms, doors/receipts,
doors/voice and doors/ussd.

The address is built from the public base and the raw path and query: behind a proxy the framework's
own is another than the gateway signed.
"""

from __future__ import annotations

from collections.abc import Sequence
from ipaddress import IPv4Network, IPv6Network, ip_address

from flask import Request, abort

from bot.gateway.signature import HEADER, SETTINGS_HEADER, Signed, is_genuine
from bot.settings import Settings


def let_in(request: Request, settings: Settings) -> None:
    """403 unless one of our tokens signed the request; unsigned ones only where the operator says
    so, and only from this machine."""
    signature = request.headers.get(HEADER, "")
    if not signature and settings.accepts_unsigned and _is_near(request.remote_addr):
        return
    tokens = (settings.gateway_token, settings.gateway_token_old)
    if not is_genuine(_signed(request, settings.public_url, signature), tokens):
        abort(403)


def address(request: Request, public_url: str) -> str:
    """The address of the request as the outside sees it."""
    raw = request.environ.get("REQUEST_URI") or request.environ.get("RAW_URI") or request.full_path
    path = (
        str(raw)
        if str(raw).startswith("/")
        else "/" + str(raw).partition("//")[2].partition("/")[2]
    )
    return public_url.rstrip("/") + path.removesuffix("?")


def comes_from(request: Request, networks: Sequence[IPv4Network | IPv6Network]) -> bool:
    """Whether a request comes from one of these networks; from anywhere where there are none."""
    if not networks:
        return True
    try:
        address = ip_address(caller(request))
    except ValueError:
        return False
    return any(address in network for network in networks)


def caller(request: Request) -> str:
    """Where a request comes from; behind a proxy on this machine, the last address it names."""
    remote = request.remote_addr
    if _is_near(remote) and request.headers.get("X-Forwarded-For"):
        remote = request.headers["X-Forwarded-For"].rpartition(",")[2].strip()
    return remote or ""


def _signed(request: Request, public_url: str, signature: str) -> Signed:
    url, settings = address(request, public_url), request.headers.get(SETTINGS_HEADER, "")
    if request.mimetype in ("application/x-www-form-urlencoded", "multipart/form-data", ""):
        return Signed(url, request.form.to_dict(flat=False), signature, settings)
    return Signed(url, None, signature, settings, request.get_data())


def _is_near(remote: str | None) -> bool:
    try:
        return ip_address(remote or "").is_loopback
    except ValueError:
        return False

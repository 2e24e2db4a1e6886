"""Settings, read once from the environment and then frozen. Unknown BROODPOST_ variables are
refused, so that a misspelt one is never silently ignored. Called by `wiring`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from ipaddress import IPv4Network, IPv6Network, ip_network
from pathlib import Path
from urllib.parse import urlsplit
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from bot.cooperative.rules import (
    COLDEST_C,
    HOTTEST_C,
    MONTHS,
    MOST_MONEY,
    PRICES,
    wrong_signer,
)
from bot.day.quiet import read_intervals
from bot.errors import SettingsError
from bot.facts.limits import MOST_ANSWERS, House, Limits

PREFIX = "BROODPOST_"
GATEWAY_FIELDS = ("to", "text", "sender", "reference", "valid_seconds")
INBOUND_FIELDS = ("from", "text", "id", "to")
LOOPBACK = ("localhost", "127.0.0.1", "::1")
YES = ("1", "true", "yes", "on")
SECRET_LETTERS = 32


@dataclass(frozen=True, slots=True)
class Settings:
    """Every setting; the environment variable is the field's name in capitals behind BROODPOST_.

    gateway_url: base of the Twilio-compatible REST API. gateway_account, gateway_token: its
    credentials; the token also verifies what comes in. gateway_token_old: accepted too while the
    token is being changed. sender: our number. public_url: our own base address as the gateway
    signs it. region: default region of numbers. ussd_secret: the secret in the USSD path.
    ussd_from: addresses from which a phone's menu may be asked for, "203.0.113.7,198.51.100.0/24";
    empty: from anywhere, by the secret alone.
    database_url: else SQLite in the data folder. secret: key for hashes in logs. tz: time zone of
    the first cooperative. name: the signer, with its colon at most 12 plain characters. vet: the
    vet's number for the first cooperative. unsigned: accept unsigned requests (loopback only).
    clock_file: a file of seconds to add to real time (loopback only). content: another content
    folder. rate: texts a second the sender number may send. normals: the usual air outside [C] of
    the first cooperative, day/night for each month, January first: "27/13,28/13,..."; empty where
    not known: then no cold hour is foretold from it. weather_url: the whole address, with its
    place, of a weather service with daily lists (gateway/weather.py); empty: none is asked. prices:
    what things cost and birds bring at the first cooperative, "feed_bag=3200,chick=100,kg=250";
    what a farmer tells goes before it.
    quiet: hours in which the first cooperative sends nothing but answers and danger, beside the
    operator's: "12:30-13:30,friday 12:00-14:00,2026-12-25 06:00-20:00". budget: parts a month that
    it may send; empty: as many as are needed. limits: how much is answered, where it differs from
    the defaults of facts.limits.Limits: "answers_day=40,strangers_day=100". countries: calling
    codes of unknown numbers that may be answered beside that of our own number and region,
    "256,255"; "all" answers every one.
    gateway_style: "form" or "json" where the gateway is not a Twilio-compatible one but takes one
    post a text at gateway_url (gateway/plain_http.py); then gateway_fields says what it calls our
    fields, "to=recipient,text=message,sender=from,reference=ref", gateway_fixed adds fields of its
    own, "type=plain", and gateway_id says where its answer holds an id, "messages.0.id" (empty:
    nowhere). inbound_secret: the secret in the path at which such a gateway posts a farmer's text;
    inbound_fields: what it calls its fields there, "from=sender,text=message,id=id,to=to".
    desk: "1" opens the cooperatives' desk under /desk; it needs a public address with https and a
    secret of at least 32 letters (on loopback neither).
    """

    gateway_url: str = ""
    gateway_account: str = ""
    gateway_token: str = ""
    gateway_token_old: str = ""
    sender: str = ""
    public_url: str = "http://127.0.0.1"
    region: str = "KE"
    ussd_secret: str = ""
    ussd_from: str = ""
    database_url: str = ""
    secret: str = ""
    tz: str = "Africa/Nairobi"
    name: str = "Broodpost"
    vet: str = ""
    unsigned: str = ""
    clock_file: str = ""
    content: str = ""
    rate: str = "10"
    normals: str = ""
    prices: str = ""
    weather_url: str = ""
    quiet: str = ""
    budget: str = ""
    limits: str = ""
    countries: str = ""

    @property
    def house(self) -> House:
        """What every turn keeps to."""
        pairs = (one.split("=") for one in self.limits.split(",") if one.strip())
        chosen = {name.strip(): int(number) for name, number in pairs}
        countries = tuple(one.strip(" +") for one in self.countries.split(",") if one.strip())
        return House(Limits(**chosen), self.secret.encode(), countries)

    gateway_style: str = ""
    gateway_fields: str = ""
    gateway_fixed: str = ""
    gateway_id: str = "id"
    inbound_secret: str = ""
    inbound_fields: str = ""
    desk: str = ""

    @property
    def ussd_networks(self) -> tuple[IPv4Network | IPv6Network, ...]:
        """Where the phone's menu may be asked for from; () for anywhere."""
        return tuple(ip_network(one.strip()) for one in self.ussd_from.split(",") if one.strip())

    @property
    def quiet_hours(self) -> tuple[str, ...]:
        """The quiet intervals, as day.quiet reads them."""
        return tuple(one.strip() for one in self.quiet.split(",") if one.strip())

    @property
    def gateway_names(self) -> dict[str, str]:
        """What the gateway calls our fields; as we call them where not set."""
        return pairs(self.gateway_fields) or {name: name for name in GATEWAY_FIELDS}

    @property
    def inbound_names(self) -> dict[str, str]:
        """What the gateway calls the fields of a farmer's text; as we call them where not set."""
        return {**{name: name for name in INBOUND_FIELDS}, **pairs(self.inbound_fields)}

    @property
    def accepts_unsigned(self) -> bool:
        return self.unsigned.lower() in YES

    @property
    def opens_desk(self) -> bool:
        return self.desk.lower() in YES

    @property
    def is_near(self) -> bool:
        """Whether the public address is this machine's own."""
        return urlsplit(self.public_url).hostname in LOOPBACK

    @property
    def clock_path(self) -> Path | None:
        return Path(self.clock_file) if self.clock_file else None

    @property
    def monthly_normals(self) -> tuple[tuple[float, float], ...]:
        """Warmest and coldest of a usual day [C], January first; () where not set."""
        months = [one.split("/") for one in self.normals.split(",")] if self.normals else []
        return tuple((float(day), float(night)) for day, night in months)

    @property
    def local_prices(self) -> dict[str, float]:
        """What things cost and birds bring, by name; nothing where not set."""
        pairs = [one.split("=") for one in self.prices.split(",")] if self.prices else []
        return {name.strip(): float(price) for name, price in pairs}

    @property
    def texts_a_second(self) -> float:
        return float(self.rate)


def read_settings(environment: Mapping[str, str]) -> Settings:
    """Settings from the environment; SettingsError says which variable is wrong and why."""
    known = {one.name for one in fields(Settings)}
    found: dict[str, str] = {}
    for name, value in environment.items():
        if not name.startswith(PREFIX):
            continue
        field = name.removeprefix(PREFIX).lower()
        if field not in known:
            raise SettingsError(f"{name} is not a setting; known are {_names(known)}")
        found[field] = value
    settings = Settings(**found)
    _check(settings)
    return settings


def pairs(text: str) -> dict[str, str]:
    """ "a=b,c=d" by name; ValueError where a part is no pair."""
    found = [one.split("=", 1) for one in text.split(",")] if text else []
    if any(len(one) != 2 or not one[0].strip() for one in found):
        raise ValueError(text)
    return {name.strip(): value.strip() for name, value in found}


def _check_gateway(settings: Settings) -> None:
    if settings.gateway_style not in ("", "form", "json"):
        raise SettingsError(
            f"BROODPOST_GATEWAY_STYLE {settings.gateway_style!r}: form, json or empty"
        )
    for name, known in (
        ("gateway_fields", GATEWAY_FIELDS),
        ("gateway_fixed", None),
        ("inbound_fields", INBOUND_FIELDS),
    ):
        said = str(getattr(settings, name))
        try:
            unknown = set(pairs(said)) - set(known or pairs(said))
        except ValueError:
            unknown = {said}
        if unknown:
            names = f"names of {', '.join(known)}" if known else "names"
            raise SettingsError(
                f"BROODPOST_{name.upper()} {said!r}: {names} with what the gateway calls them, "
                "like to=recipient,text=message"
            )
    if settings.gateway_fields and not {"to", "text"} <= set(settings.gateway_names):
        raise SettingsError("BROODPOST_GATEWAY_FIELDS: to and text are needed")


def _names(known: set[str]) -> str:
    return ", ".join(sorted(PREFIX + name.upper() for name in known))


def _check(settings: Settings) -> None:
    if wrong_signer(settings.name):
        raise SettingsError(
            f"BROODPOST_NAME {settings.name!r}: with its colon at most 12 plain characters"
        )
    try:
        ZoneInfo(settings.tz)
    except (ZoneInfoNotFoundError, ValueError) as error:
        raise SettingsError(f"BROODPOST_TZ {settings.tz!r} is no time zone") from error
    loopback = settings.is_near
    if settings.accepts_unsigned and not loopback:
        raise SettingsError("BROODPOST_UNSIGNED needs a BROODPOST_PUBLIC_URL on loopback")
    if settings.clock_file and not loopback:
        raise SettingsError("BROODPOST_CLOCK_FILE needs a BROODPOST_PUBLIC_URL on loopback")
    if not settings.gateway_token and not settings.accepts_unsigned:
        raise SettingsError(
            "BROODPOST_GATEWAY_TOKEN is not set: nothing that comes in could be verified "
            "(on loopback BROODPOST_UNSIGNED=1 does without)"
        )
    _check_gateway(settings)
    _check_desk(settings)
    _check_normals(settings)
    _check_prices(settings)
    try:
        read_intervals(settings.quiet_hours)
    except ValueError as error:
        raise SettingsError(f"BROODPOST_QUIET: {error}") from error
    _check_house(settings)
    try:
        settings.ussd_networks  # noqa: B018  # read to see that it can be
    except ValueError as error:
        raise SettingsError(f"BROODPOST_USSD_FROM: {error}") from error
    if settings.budget and not (settings.budget.isdigit() and int(settings.budget) > 0):
        raise SettingsError(f"BROODPOST_BUDGET {settings.budget!r} is no number of parts")
    if settings.weather_url and urlsplit(settings.weather_url).scheme not in ("http", "https"):
        raise SettingsError("BROODPOST_WEATHER_URL is no address; it begins with https://")
    try:
        if settings.texts_a_second <= 0:
            raise ValueError("not above 0")
    except ValueError as error:
        raise SettingsError(f"BROODPOST_RATE {settings.rate!r} is no number above 0") from error


def _check_desk(settings: Settings) -> None:
    if not settings.opens_desk or settings.is_near:
        return
    if urlsplit(settings.public_url).scheme != "https":
        raise SettingsError("BROODPOST_DESK needs a BROODPOST_PUBLIC_URL with https")
    if len(settings.secret) < SECRET_LETTERS:
        raise SettingsError(
            f"BROODPOST_DESK needs a BROODPOST_SECRET of at least {SECRET_LETTERS} letters"
        )


def _check_house(settings: Settings) -> None:
    try:
        house = settings.house
    except (TypeError, ValueError) as error:
        names = ", ".join(one.name for one in fields(Limits))
        raise SettingsError(
            f"BROODPOST_LIMITS {settings.limits!r}: whole numbers by name, of {names}"
        ) from error
    if any(getattr(house.limits, one.name) < 1 for one in fields(Limits)):
        raise SettingsError("BROODPOST_LIMITS: each is at least 1")
    if max(house.limits.answers_talking, house.limits.answers_day) > MOST_ANSWERS:
        raise SettingsError(f"BROODPOST_LIMITS: a phone has {MOST_ANSWERS} answers a day at most")
    if not all(one == "all" or one.isdigit() for one in house.countries):
        raise SettingsError(
            f"BROODPOST_COUNTRIES {settings.countries!r}: calling codes like 254,255, or all"
        )


def _check_prices(settings: Settings) -> None:
    try:
        right = all(
            name in PRICES and 0 < price < MOST_MONEY
            for name, price in settings.local_prices.items()
        )
    except ValueError:
        right = False
    if not right:
        raise SettingsError(
            f"BROODPOST_PRICES {settings.prices!r}: names of {', '.join(PRICES)} with their price, "
            "like feed_bag=3200,chick=100,kg=250"
        )


def _check_normals(settings: Settings) -> None:
    try:
        months = settings.monthly_normals
    except ValueError:
        months = ((0.0, 0.0),)
    right = all(COLDEST_C <= night <= day <= HOTTEST_C for day, night in months)
    if len(months) not in (0, MONTHS) or not right:
        raise SettingsError(
            f"BROODPOST_NORMALS {settings.normals!r}: twelve months of day/night in C, like "
            "27/13,28/14,28/15,26/15,25/14,24/12,23/11,24/12,26/12,27/14,25/14,25/13"
        )

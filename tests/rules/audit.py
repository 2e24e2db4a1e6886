"""What we depend on: is every package pinned by hash, is its licence one we may ship with, is a
weakness of it known? In: scripts/lock.txt, the packages installed here, a public source of
advisories. Out: a line for each complaint; ends with 1 where there is one, with 2 where the
advisories could not be asked for. Run by scripts/audit.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from importlib.metadata import distributions
from pathlib import Path

import requests

LOCK = Path(__file__).parents[2] / "scripts" / "lock.txt"
SOURCE = "https://api.osv.dev/v1/querybatch"  # Open Source Vulnerabilities, a public database
TOOLS = frozenset({"pip", "setuptools", "wheel"})  # come with Python's own venv
PATIENCE_S = 20
ALLOWED = re.compile(
    r"(the )?(MIT(-0)?|(0|[234]-clause )?BSD([- ][234][- ]clause)?|Apache([- ]2\.0)?|ISC"
    r"|PSF(-2\.0)?|Python Software Foundation|MPL[- ]2\.0|Mozilla Public License 2\.0 \(MPL 2\.0\)"
    r"|LGPL-(2\.1|3\.0)(-only|-or-later)?|Zlib|CC0-1\.0|Unlicense|ZPL[- ]2\.1|Zope Public)"
    r"( software)?( license)?( \(ISCL\))?",
    re.I,
)


@dataclass(frozen=True, slots=True)
class Package:
    """One that is installed. licences: what it says of itself, the most exact way that it does."""

    name: str
    version: str
    licences: tuple[str, ...]


Ask = Callable[[Sequence[Package]], Sequence[Sequence[str] | None] | None]


def pinned(lock: str) -> dict[str, bool]:
    """Each package of a lock, and whether it is pinned to one version and by hash."""
    found: dict[str, bool] = {}
    for entry in re.split(r"(?<!\\)\n", lock):
        said = entry.strip()
        if not said or said.startswith("#"):
            continue
        name = re.split(r"[=<>!~;\[ @]", said, maxsplit=1)[0]
        exact = re.match(r"[\w.-]+(\[[\w,-]+\])?==[\w.+!]+[\s\\;]", said) is not None
        found[_plain(name)] = exact and re.search(r"--hash=sha256:[0-9a-f]{64}\b", said) is not None
    return found


def unpinned(lock: str) -> list[str]:
    return [
        f"{name}: is not pinned by version and hash" for name, so in pinned(lock).items() if not so
    ]


def installed() -> list[Package]:
    """What is installed here."""
    found = []
    for found_here in distributions():
        told = found_here.metadata
        classes = [one for one in told.get_all("Classifier") or () if one.startswith("License ::")]
        classed = [one.rpartition(":: ")[2] for one in classes if not one.endswith("OSI Approved")]
        exact = told["License-Expression"]
        field = (told["License"] or "").strip().splitlines()[:1]
        licences = [exact] if exact else classed or field
        found.append(Package(_plain(told["Name"]), found_here.version, tuple(licences)))
    return sorted(found, key=lambda one: one.name)


def not_in_lock(packages: Iterable[Package], lock: str) -> list[str]:
    known = pinned(lock)
    return [
        f"{one.name}: is installed and not in the lock"
        for one in packages
        if one.name not in known and one.name not in TOOLS
    ]


def not_allowed(packages: Iterable[Package]) -> list[str]:
    """A line for each package whose licence is not known to be one that we may ship with."""
    return [
        f"{one.name}: licence {', '.join(one.licences) or 'unknown'}"
        for one in packages
        if not one.licences or not all(is_allowed(said) for said in one.licences)
    ]


def is_allowed(said: str) -> bool:
    """Of licences joined by OR one must do, of those joined by AND each."""
    return any(
        all(ALLOWED.fullmatch(one.strip()) for one in either.split(" AND "))
        for either in said.split(" OR ")
    )


def weak(packages: Sequence[Package], ask: Ask) -> list[str] | None:
    """A line for each known weakness and for each package nobody told about; None where the source
    could not be asked."""
    told = ask(packages)
    if told is None:
        return None
    answers = [*told, *[None] * (len(packages) - len(told))]
    found = []
    for one, names in zip(packages, answers, strict=False):
        if names is None:
            found.append(f"{one.name} {one.version}: was skipped by the source")
        elif names:
            found.append(f"{one.name} {one.version}: {', '.join(names)}")
    return found


def ask_source(packages: Sequence[Package]) -> Sequence[Sequence[str] | None] | None:
    """One question about all of them; None where there is no answer."""
    queries = [
        {"package": {"name": one.name, "ecosystem": "PyPI"}, "version": one.version}
        for one in packages
    ]
    try:
        answer = requests.post(SOURCE, json={"queries": queries}, timeout=PATIENCE_S)
        answer.raise_for_status()
        results = answer.json()["results"]
    except (requests.RequestException, ValueError, KeyError, TypeError):
        return None
    return [_names(one) for one in results] if isinstance(results, list) else None


def _names(result: object) -> Sequence[str] | None:
    if not isinstance(result, Mapping):
        return None
    return [str(one.get("id", "unnamed")) for one in result.get("vulns", ())]


def _plain(name: str) -> str:
    """A package's name as the index compares it."""
    return re.sub(r"[-_.]+", "-", name).lower()


def main() -> int:
    lock, packages = LOCK.read_text("utf-8"), installed()
    found = [*unpinned(lock), *not_in_lock(packages, lock), *not_allowed(packages)]
    weaknesses = weak(packages, ask_source)
    lines = [*found, *(weaknesses or ())]
    if not found:
        lines.append(f"{len(packages)} packages: pinned by hash, licences allowed")
    if weaknesses is None:
        lines.append(f"advisories were NOT looked up: {SOURCE} can't be reached from here")
    elif not weaknesses:
        lines.append("no advisory is known for any of them")
    sys.stdout.write("\n".join(lines) + "\n")
    return 1 if found or weaknesses else 2 if weaknesses is None else 0


if __name__ == "__main__":
    sys.exit(main())

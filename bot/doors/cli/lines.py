"""JSON Lines in, JSON Lines out: one bad line gives an error line and the run goes on. And the
option that such commands share: the content they think with."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterable, Mapping
from typing import Any, TextIO

import click

content_option = click.option(
    "--content",
    envvar="BROODPOST_CONTENT",
    default="",
    help="another content folder than the one installed",
)


def each_line(
    source: Iterable[str], sink: TextIO, work: Callable[[Mapping[str, Any]], Mapping[str, Any]]
) -> None:
    """Do `work` on every line that is not blank and print its result, in order."""
    for raw in source:
        if raw.strip():
            print(json.dumps(_one(raw, work), ensure_ascii=False), file=sink, flush=True)


def _one(raw: str, work: Callable[[Mapping[str, Any]], Mapping[str, Any]]) -> Mapping[str, Any]:
    given: Any = None
    try:
        given = json.loads(raw)
        if not isinstance(given, dict):
            raise ValueError("a line must be a JSON object")
        return work(given)
    except Exception as error:
        print(f"{type(error).__name__}: {error}", file=sys.stderr)
        found = given.get("id") if isinstance(given, dict) else None
        return {"id": found, "error": f"{type(error).__name__}: {error}"}

"""Every number of the content carries a source, and every source cited is listed.

In: the content folder, Texts. Out: faults. Called by proofread. A number of a YAML file is sourced
by a `source` in the mapping it stands in or in any mapping around it. A text that places or prints
a husbandry number is sourced in texts/*.yaml.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from pathlib import Path

from bot.handbook.shape_texts import Texts, TextShape, Tongue
from bot.handbook.strict import content_name, read_yaml
from bot.proof.fault import Fault
from bot.proof.longest import forms

# Numbers here are no claims on husbandry: lengths, and an invented farm's own figures.
NO_CLAIMS = ("languages", "stories", "sources.yaml", "texts/roles.yaml", "screens.yaml")
# Roles that repeat what a farmer sent, or ask.
ECHOES = frozenset(
    "fact ack day before named help question short_question ask menu title label lead foot".split()
)
HUSBANDRY = ("celsius", "area", "kg", "litres")  # types of values that are counted by the handbook
_MENU = re.compile(r"\b[1-9](?= [a-z])")
_EXAMPLE = re.compile(r"[^.?!]*\b(?:like|Or:)[^.?!]*(?:\.\d[^.?!]*)*")
_NUMBER = re.compile(r"\d")


def check_sources(content: Path, texts: Texts | None) -> Iterator[Fault]:
    """Numbers without a source, and citations that lead nowhere."""
    known = read_yaml(content / "sources.yaml")
    listed: Collection[str] = known if isinstance(known, dict) else ()
    for path in sorted(content.rglob("*.yaml")):
        name = content_name(path)
        if not name.startswith(NO_CLAIMS):
            yield from _walk(read_yaml(path), name, "", False, listed)
    if texts is not None and "en" in texts.tongues:
        for shape in texts.shapes.values():
            if not shape.source and _advises(shape, texts.tongues["en"]):
                file = f"texts/{shape.file}.yaml"
                yield Fault(file, shape.key, "gives a number without a source")


def _walk(
    node: object, file: str, at: str, sourced: bool, listed: Collection[str]
) -> Iterator[Fault]:
    if isinstance(node, dict):
        cited = node.get("source")
        if isinstance(cited, list):
            yield from (
                Fault(file, f"{at}.source".strip("."), f"{one} is not in sources.yaml")
                for one in cited
                if one not in listed
            )
        for key, value in node.items():
            place = f"{at}.{key}".strip(".")
            yield from _walk(value, file, place, sourced or bool(cited), listed)
    elif isinstance(node, list):
        for at_index, value in enumerate(node):
            yield from _walk(value, file, f"{at}[{at_index}]", sourced, listed)
    elif isinstance(node, int | float) and not isinstance(node, bool) and not sourced:
        yield Fault(file, at, f"the number {node:g} carries no source")


def _advises(shape: TextShape, english: Tongue) -> bool:
    """Whether this text gives a number of its own: no menu digit, no example of what to send."""
    if shape.role in ECHOES:
        return False
    if any(kind in HUSBANDRY for kind in shape.values.values()):
        return True
    for _, form in forms(english.wordings.get(shape.key, {})):
        if _NUMBER.search(_MENU.sub("", _EXAMPLE.sub("", form))):
            return True
    return False

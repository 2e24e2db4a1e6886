"""Loads content/texts/ and the wordings of every language. In: the content folder. Out: `Texts`.

Called by `handbook.load`. What can only be seen by comparing languages and lengths is left to the
content proof; here a file must only be well-formed and every key known.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from bot.handbook.shape_texts import Texts, TextShape, Tongue, Wording
from bot.handbook.strict import Section, read_section

FILES = ("answers", "figures", "daily", "actions")
PLURALS = ("one", "other")


def load_texts(content: Path) -> Texts:
    """Every outgoing text. Raises HandbookError naming the file and the key."""
    roles, types = _roles(read_section(content / "texts" / "roles.yaml"))
    shapes: dict[str, TextShape] = {}
    for file in FILES:
        section = read_section(content / "texts" / f"{file}.yaml")
        for key in section.keys():
            if key in shapes:
                section.refuse(key, f"stands in {shapes[key].file}.yaml already")
            shapes[key] = _shape(section.section(key), key, file, roles, types)
    folders = sorted(path for path in (content / "languages").iterdir() if path.is_dir())
    tongues = {folder.name: _tongue(folder, shapes) for folder in folders}
    return Texts(shapes, tongues, types, roles)


def _roles(section: Section) -> tuple[dict[str, int], dict[str, str]]:
    roles = section.section("roles")
    types = section.section("types")
    found = (
        {role: roles.whole(role) for role in roles.keys()},
        {name: types.text(name) for name in types.keys()},
    )
    section.done()
    return found


def _shape(
    section: Section, key: str, file: str, roles: Mapping[str, int], types: Mapping[str, str]
) -> TextShape:
    role = section.text("role")
    if role not in roles:
        section.refuse("role", f"{role!r} is not a role of roles.yaml")
    values = section.optional_section("values")
    placed = {name: values.text(name) for name in values.keys()}
    for name, kind in placed.items():
        if kind not in types and not kind.startswith("word:"):
            values.refuse(name, f"{kind!r} is not a type of roles.yaml")
    shape = TextShape(
        key,
        file,
        role,
        roles[role],
        placed,
        section.texts("source", ()),
        section.flag("fire", False),
    )
    section.done()
    return shape


def _tongue(folder: Path, shapes: Mapping[str, TextShape]) -> Tongue:
    wordings: dict[str, Wording] = {}
    for file in FILES:
        section = read_section(folder / f"{file}.yaml")
        for key in section.keys():
            if key not in shapes or shapes[key].file != file:
                section.refuse(key, f"is not listed in texts/{file}.yaml")
            wordings[key] = _wording(section, key)
    terms = read_section(folder / "terms.yaml")
    lists = {name: _list(terms.section(name)) for name in terms.keys()}
    return Tongue(folder.name, wordings, lists)


def _wording(section: Section, key: str) -> Wording:
    raw = section.take(key)
    if isinstance(raw, str) and raw.strip():
        return raw
    if not isinstance(raw, dict):
        section.refuse(key, "must be a text, or one text for each of one and other")
    forms = section.section(key)
    found = {name: forms.text(name) for name in PLURALS}
    forms.done()
    return found


def _list(section: Section) -> dict[str, str]:
    return {code: section.text(code) for code in section.keys()}

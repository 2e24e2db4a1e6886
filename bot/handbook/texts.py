"""Loads content/texts/ and the wordings of every language. In: the content folder. Out: `Texts`.

Called by `handbook.load`. What can only be seen by comparing languages and lengths is left to the
content proof; here a file must only be well-formed and every key known.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from bot.errors import HandbookError
from bot.handbook.shape_texts import BASE, Texts, TextShape, Tongue, Wording
from bot.handbook.strict import Section, content_name, read_section

FILES = ("answers", "figures", "daily", "actions", "screens")
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
    folders = (path for path in (content / "languages").iterdir() if path.is_dir())
    tongues = sorted((_tongue(folder, shapes) for folder in folders), key=lambda one: one.own_name)
    by_code = {tongue.code: tongue for tongue in tongues}
    _check_fallbacks(by_code)
    return Texts(shapes, by_code, types, roles)


def _check_fallbacks(tongues: Mapping[str, Tongue]) -> None:
    """What is not worded is said in a language that words everything."""
    whole = [tongue.code for tongue in tongues.values() if tongue.falls_back_to is None]
    if BASE not in whole:
        raise HandbookError(f"languages/{BASE}", "(folder)", "must be there and word every text")
    for tongue in tongues.values():
        if tongue.falls_back_to not in (None, *whole):
            why = f"must name a language that words everything: {', '.join(sorted(whole))}"
            raise HandbookError(f"languages/{tongue.code}/language.yaml", "falls_back_to", why)


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
        section.flag("must", False),
    )
    section.done()
    return shape


def _tongue(folder: Path, shapes: Mapping[str, TextShape]) -> Tongue:
    language = read_section(folder / "language.yaml")
    own_name = language.text("own_name")
    back = language.text("falls_back_to") if language.has("falls_back_to") else None
    below = language.whole("one_below") if language.has("one_below") else None
    wordings: dict[str, Wording] = {}
    for file in FILES:
        section = _file(folder / f"{file}.yaml", may_lack=back is not None)
        for key in section.keys():
            if key not in shapes or shapes[key].file != file:
                section.refuse(key, f"is not listed in texts/{file}.yaml")
            wordings[key] = _wording(section, key)
    terms = _file(folder / "terms.yaml", may_lack=back is not None)
    lists = {name: _list(terms.section(name)) for name in terms.keys()}
    return Tongue(folder.name, own_name, wordings, lists, back, below)


def _file(path: Path, *, may_lack: bool) -> Section:
    """A file of a language; one that falls back to another may do without it."""
    if may_lack and not path.is_file():
        return Section({}, content_name(path))
    return read_section(path)


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

"""Reads content files strictly, so that a slip in one of them is named and start is refused.

In: the path of a YAML file under content/. Out: plain Python values, and `Section`, which hands
out typed keys and refuses unknown ones. Called by every loader of content.

Differences from plain YAML 1.1, made because content holds words of several languages: a key may
stand only once, `yes`, `no`, `on` and `off` are words (only true and false are flags), and dates
and times such as 12:30 stay text.
"""

from __future__ import annotations

import re
from collections.abc import Hashable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn, TypeVar

import yaml

from bot.errors import HandbookError

if TYPE_CHECKING or not yaml.__with_libyaml__:
    from yaml import SafeLoader as BaseLoader
else:
    from yaml import CSafeLoader as BaseLoader

T = TypeVar("T")
_REQUIRED = "required"
_TAG = "tag:yaml.org,2002:"


class _Refused(Exception):
    """A key stands twice; carried from inside the parser to read_yaml."""

    def __init__(self, key: str, line: int) -> None:
        super().__init__(key)
        self.key = key
        self.line = line


class _StrictLoader(BaseLoader):
    """SafeLoader without duplicate keys and without the YAML 1.1 surprises."""

    def construct_mapping(
        self, node: yaml.MappingNode, deep: bool = False
    ) -> dict[Hashable, object]:
        seen: set[object] = set()
        for key_node, _ in node.value:
            key = self.construct_object(key_node, deep=True)
            if key in seen:
                raise _Refused(str(key), key_node.start_mark.line + 1)
            seen.add(key)
        return super().construct_mapping(node, deep)


_StrictLoader.yaml_implicit_resolvers = {}
for _tag, _pattern, _first in (
    ("bool", r"^(?:true|false)$", "tf"),
    ("null", r"^(?:null|~|)$", ["n", "~", ""]),
    ("int", r"^[-+]?[0-9]+$", "-+0123456789"),
    ("float", r"^[-+]?[0-9]+(?:\.[0-9]+(?:[eE][-+]?[0-9]+)?|[eE][-+]?[0-9]+)$", "-+0123456789"),
):
    _StrictLoader.add_implicit_resolver(_TAG + _tag, re.compile(_pattern), list(_first))


def content_name(path: Path) -> str:
    """The path relative to the folder called content, as errors name it."""
    parts = path.parts
    if "content" in parts[:-1]:
        last = len(parts) - 1 - parts[::-1].index("content")
        return "/".join(parts[last + 1 :])
    return path.name


def read_yaml(path: Path) -> object:
    """The content of one YAML file. HandbookError when missing, malformed or with a key twice."""
    file = content_name(path)
    try:
        text = path.read_text(encoding="utf-8")
        return yaml.load(text, Loader=_StrictLoader)  # a subclass of SafeLoader
    except OSError as error:
        raise HandbookError(file, "(file)", error.strerror or "can't be read") from error
    except _Refused as error:
        raise HandbookError(file, error.key, f"stands twice (line {error.line})") from error
    except UnicodeDecodeError as error:
        raise HandbookError(file, "(file)", "is not UTF-8") from error
    except yaml.YAMLError as error:
        raise HandbookError(file, "(file)", f"is not valid YAML: {error}") from error


def read_section(path: Path) -> Section:
    """The file as a Section, for files whose top is a mapping."""
    return Section(read_yaml(path), content_name(path))


class Section:
    """A mapping from which typed keys are taken one by one; `done()` refuses what is left.

    `file` and `at` (the dotted place inside the file) go into every error.
    """

    def __init__(self, value: object, file: str, at: str = "") -> None:
        self.file = file
        self.at = at
        if not isinstance(value, dict):
            self.refuse("", "must be a mapping of keys")
        for key in value:
            if not isinstance(key, str):
                self.refuse(str(key), "a key must be text; put it in quotes")
        self._values: dict[str, object] = dict(value)
        self._left = set(self._values)

    def refuse(self, key: str, why: str) -> NoReturn:
        """Raise HandbookError for a key of this section."""
        raise HandbookError(self.file, self._place(key), why)

    def _place(self, key: str) -> str:
        return ".".join(part for part in (self.at, key) if part) or "(file)"

    def keys(self) -> tuple[str, ...]:
        """All keys in the order of the file."""
        return tuple(self._values)

    def has(self, key: str) -> bool:
        """Whether the key stands in the file (even with an empty value)."""
        return key in self._values

    def take(self, key: str) -> object:
        """The raw value of a required key."""
        if key not in self._values:
            self.refuse(key, "is missing")
        self._left.discard(key)
        return self._values[key]

    def done(self) -> None:
        """Call last: any key not taken is unknown and refused."""
        for key in self._values:
            if key in self._left:
                self.refuse(key, "is not known here")

    def _typed(self, key: str, kinds: tuple[type[T], ...], word: str, default: T | str | None) -> T:
        if default is not _REQUIRED and key not in self._values:
            return default  # type: ignore[return-value]  # the public methods pair default and kind
        value = self.take(key)
        if not isinstance(value, kinds) or (isinstance(value, bool) and bool not in kinds):
            self.refuse(key, f"must be {word}")
        return value

    def text(self, key: str, default: str | None = None) -> str:
        """Text, not empty; a default makes the key optional."""
        if default is not None and key not in self._values:
            return default
        value = self._typed(key, (str,), "text", _REQUIRED)
        if not value.strip():
            self.refuse(key, "is empty")
        return value

    def whole(self, key: str, default: int | None = None) -> int:
        """A whole number; a default makes the key optional."""
        return self._typed(key, (int,), "a whole number", _REQUIRED if default is None else default)

    def number(self, key: str, default: float | None = None) -> float:
        """A number; a default makes the key optional."""
        fallback = _REQUIRED if default is None else default
        return float(self._typed(key, (int, float), "a number", fallback))

    def flag(self, key: str, default: bool | None = None) -> bool:
        """True or false; a default makes the key optional."""
        return self._typed(key, (bool,), "true or false", _REQUIRED if default is None else default)

    def texts(self, key: str, default: Sequence[str] | None = None) -> tuple[str, ...]:
        """A list of texts; a default makes the key optional."""
        if default is not None and key not in self._values:
            return tuple(default)
        found = self.rows(key)
        if not all(isinstance(item, str) and item.strip() for item in found):
            self.refuse(key, "must be a list of texts")
        return tuple(str(item) for item in found)

    def numbers(self, key: str) -> tuple[float, ...]:
        """A list of numbers."""
        found = self.rows(key)
        if not all(isinstance(item, int | float) and not isinstance(item, bool) for item in found):
            self.refuse(key, "must be a list of numbers")
        return tuple(float(str(item)) for item in found)

    def rows(self, key: str) -> tuple[object, ...]:
        """A list of anything."""
        value = self.take(key)
        if not isinstance(value, list):
            self.refuse(key, "must be a list")
        return tuple(value)

    def section(self, key: str) -> Section:
        """A mapping inside this one."""
        return Section(self.take(key), self.file, self._place(key))

    def optional_section(self, key: str) -> Section:
        """A mapping inside this one, or an empty one where the key does not stand."""
        return self.section(key) if self.has(key) else Section({}, self.file, self._place(key))

    def sections(self, key: str) -> tuple[Section, ...]:
        """A list of mappings."""
        return tuple(
            Section(item, self.file, f"{self._place(key)}[{at}]")
            for at, item in enumerate(self.rows(key))
        )

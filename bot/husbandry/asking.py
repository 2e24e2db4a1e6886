"""How a figure is asked for and answered: Inputs (key=value strings, read strictly), Answer,
Figure, Entry. Used by the registry in `figures` and by the files that fill it."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from math import isfinite

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Entry as Cited
from bot.handbook.shape_husbandry import Husbandry

Value = int | float | str
ECHOED = 40  # letters of a slip that a refusal repeats
THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2}(,\d{3})+")


class UnknownFigure(OutsideRange):
    """A figure was asked for by a name that does not exist; `valid` lists those that do."""

    def __init__(self, name: str, names: Sequence[str]) -> None:
        super().__init__(f"there is no figure called {name[:ECHOED]}", ", ".join(names))


@dataclass(frozen=True, slots=True)
class Figure:
    """One number with its working. `extra` holds what belongs beside the value, by name."""

    name: str
    inputs: Mapping[str, Value]
    value: Value
    unit: str
    low: float | None
    high: float | None
    source: str
    basis: str
    extra: Mapping[str, Value] = field(default_factory=dict)

    def as_dict(self) -> dict[str, object]:
        """The figure as the command line prints it."""
        return {
            "name": self.name,
            "inputs": dict(self.inputs),
            "value": self.value,
            "unit": self.unit,
            "low": self.low,
            "high": self.high,
            "source": self.source,
            "basis": self.basis,
            **self.extra,
        }


@dataclass(frozen=True, slots=True)
class Answer:
    """What a figure's own function gives back; `cited`: the tables it rests on."""

    value: Value
    unit: str
    cited: tuple[Cited, ...]
    basis: str
    low: float | None = None
    high: float | None = None
    extra: Mapping[str, Value] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Asked:
    """One entry of the registry. example: what a reader may type after the name."""

    name: str
    example: str
    about: str
    answer: Callable[[Inputs, Husbandry], Answer]


class Inputs:
    """The key=value strings of one question, taken one by one. `given` keeps what was read."""

    def __init__(self, raw: Mapping[str, str]) -> None:
        self._raw = dict(raw)
        self.given: dict[str, Value] = {}
        self._known: list[str] = []

    def has(self, key: str) -> bool:
        """Whether the key was given; asking makes it a known one."""
        self._known.append(key)
        return key in self._raw

    def text(self, key: str, default: str | None = None) -> str:
        """The value as typed; without a default the key must be given."""
        if not self.has(key):
            if default is None:
                raise OutsideRange(f"{key} is missing", f"{key}=...")
            return default
        value = self._raw[key].strip()
        self.given[key] = value
        return value

    def raw_text(self, key: str) -> str:
        """The value exactly as typed, blanks at its ends too; the key must be given."""
        self.text(key)
        self.given[key] = self._raw[key]
        return self._raw[key]

    def choice(self, key: str, options: Sequence[str], default: str | None = None) -> str:
        """One of some words."""
        value = self.text(key, default).lower()
        if value not in options:
            raise OutsideRange(f"{key} {value[:ECHOED]} is not known", ", ".join(options))
        return value

    def number(self, key: str, default: float | None = None) -> float:
        """A plain number; 1,5 and 1.5 are the same. Without a default it must be given."""
        if default is not None and not self.has(key):
            return default
        value = read_number(key, self.text(key))
        self.given[key] = int(value) if value.is_integer() else value
        return value

    def whole(self, key: str, default: int | None = None) -> int:
        """A whole number. 1,000 is refused: it may be meant as a thousand or as one."""
        typed = self._raw.get(key, "").strip()
        if THOUSANDS.fullmatch(typed):
            raise OutsideRange(f"{key} {typed[:ECHOED]} is unclear", "1000, without a comma")
        value = self.number(key, default)
        if not float(value).is_integer():
            raise OutsideRange(f"{key} {value:g} must be a whole number", "1, 2, 3, ...")
        return int(value)

    def maybe_number(self, key: str) -> float | None:
        """A number, or None where the key was not given."""
        return self.number(key) if self.has(key) else None

    def maybe_whole(self, key: str) -> int | None:
        """A whole number, or None where the key was not given."""
        return self.whole(key) if self.has(key) else None

    def done(self) -> None:
        """Call last: a key that nobody asked for is refused, so that a typing slip is seen."""
        for key in self._raw:
            if key not in self._known:
                known = ", ".join(dict.fromkeys(self._known)) or "no inputs at all"
                raise OutsideRange(f"{key[:ECHOED]} is not asked for here", known)


def read_number(key: str, text: str) -> float:
    """A finite number as typed, decimal comma or point; OutsideRange, naming `key`, for else."""
    try:
        value = float("nan") if "_" in text else float(text.replace(",", "."))
    except ValueError:
        value = float("nan")
    if not isfinite(value):
        raise OutsideRange(f"{key} {text[:ECHOED]} is not a number", "a number such as 3 or 2.5")
    return value


def tidy(value: float) -> float:
    """Six figures are more than any of these tables carries."""
    return float(f"{value:.6g}")

"""What was learned from the examples: one column of weights for each thing a text may say."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

INTENT, SIGN, DENIED, TOPIC, DANGER = "intent", "sign", "denied", "topic", "danger"
SIDE = "side"
TELLS, DENIES, ONLY_DENIES = SIDES = ("tells", "denies", "only_denies")  # of any sign


@dataclass(frozen=True)
class Trust:
    """Weights of the models that say how far words and margins are to be believed
    (`understand.trust`): intents (features, intents); signs (features, 3: none, seen, denied) with
    by_sign (signs, 3) added to it; danger (features,). dangers: the signs of danger."""

    intents: NDArray[np.float64]
    signs: NDArray[np.float64]
    by_sign: NDArray[np.float64]
    danger: NDArray[np.float64]
    dangers: tuple[str, ...]


@dataclass(frozen=True)
class Learned:
    """A linear classifier, by columns. names: (kind, code) of each, as ("sign", "huddle").
    weights: (rows, columns), whole numbers to be multiplied by `scale`. bias: of each column.
    languages: those whose examples it was learned from. standing: weights of how a sign stands
    among the words around it, (rows, 3): neither, told, denied (`understand.standing`)."""

    names: tuple[tuple[str, str], ...]
    weights: NDArray[np.int8]
    scale: NDArray[np.float32]
    bias: NDArray[np.float32]
    languages: frozenset[str]
    trust: Trust
    standing: NDArray[np.float32]

    @cached_property
    def _columns(self) -> dict[str, slice]:
        found: dict[str, slice] = {}
        for at, (kind, _) in enumerate(self.names):
            found[kind] = slice(found[kind].start if kind in found else at, at + 1)
        return found

    @cached_property
    def _codes(self) -> dict[str, tuple[str, ...]]:
        return {
            kind: tuple(code for _, code in self.names[at]) for kind, at in self._columns.items()
        }

    def columns(self, kind: str) -> slice:
        """The columns of a kind, which stand together."""
        return self._columns.get(kind, slice(0))

    def codes(self, kind: str) -> tuple[str, ...]:
        """The codes of a kind, in the order of its columns."""
        return self._codes.get(kind, ())

    @cached_property
    def _places(self) -> dict[str, dict[str, int]]:
        return {
            kind: {one: at for at, one in enumerate(codes)} for kind, codes in self._codes.items()
        }

    def places(self, kind: str) -> Mapping[str, int]:
        """Where each code of a kind stands among `codes`."""
        return self._places.get(kind, {})

    @cached_property
    def denied_of(self) -> NDArray[np.int64]:
        """For each sign the column in which it is denied, or -1."""
        where = [self.column.get((DENIED, code), -1) for code in self.codes(SIGN)]
        return np.array(where, np.int64)

    @cached_property
    def column(self) -> dict[tuple[str, str], int]:
        """The column of each (kind, code)."""
        return {name: at for at, name in enumerate(self.names)}

    def found(self, *names: tuple[str, str]) -> NDArray[np.int64]:
        """The column of each (kind, code), or -1."""
        return np.array([self.column.get(one, -1) for one in names], np.int64)

    @property
    def rows(self) -> int:
        """How many rows a feature may fall into; a power of two."""
        return int(self.weights.shape[0])

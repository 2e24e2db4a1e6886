"""A reason as data: a key of desk.yaml and its values, worded where it is shown. Pure."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Said:
    """key: what is said. values: what it says it of."""

    key: str
    values: tuple[tuple[str, str], ...] = ()

    @classmethod
    def of(cls, key: str, **values: object) -> Said:
        """With values by name."""
        return cls(key, tuple((name, str(value)) for name, value in values.items()))

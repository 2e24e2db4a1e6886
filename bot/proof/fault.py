"""One fault of the content, as the proof names it. Made by the files beside it; printed by the
command line."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """file: relative to content/. key: the dotted place in it. why: what is wrong, for a reader."""

    file: str
    key: str
    why: str

    def __str__(self) -> str:
        return f"{self.file}: {self.key}: {self.why}"

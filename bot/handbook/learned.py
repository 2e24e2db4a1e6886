"""Reads and writes content/languages/learned.npz, which `broodpost teach` makes of the examples.
In: the content folder. Out: `Learned`. Called by `wiring`, the proof and the command."""

from __future__ import annotations

from pathlib import Path
from zipfile import BadZipFile

import numpy as np

from bot.errors import HandbookError
from bot.handbook.shape_learned import Learned, Trust

FILE = "languages/learned.npz"
TRUST = ("intents", "signs", "by_sign", "danger")


def load_learned(content: Path) -> Learned:
    """Raises HandbookError where the file is missing or is none of ours."""
    try:
        with np.load(content / FILE, allow_pickle=False) as held:
            names = tuple((str(kind), str(code)) for kind, code in held["names"])
            learned = Learned(
                names=names,
                weights=held["weights"],
                scale=held["scale"],
                bias=held["bias"],
                languages=frozenset(str(one) for one in held["languages"]),
                trust=Trust(
                    **{name: held[f"trust_{name}"].astype(np.float64) for name in TRUST},
                    dangers=tuple(str(one) for one in held["dangers"]),
                ),
                standing=held["standing"].astype(np.float32),
            )
    except (OSError, KeyError, ValueError, BadZipFile) as slip:
        raise HandbookError(FILE, "(file)", "can't be read: run `broodpost teach`") from slip
    rows, columns = learned.weights.shape
    if rows & (rows - 1) or {len(learned.scale), len(learned.bias), len(names)} != {columns}:
        raise HandbookError(FILE, "weights", "do not fit the names")
    if list(names) != sorted(names):
        raise HandbookError(FILE, "names", "do not stand in order")
    return learned


def save_learned(learned: Learned, content: Path) -> Path:
    """Write it where `load_learned` finds it; the same weights make the same bytes."""
    path = content / FILE
    with path.open("wb") as file:
        np.savez_compressed(
            file,
            names=np.array(learned.names),
            weights=learned.weights,
            scale=learned.scale,
            bias=learned.bias,
            languages=np.array(sorted(learned.languages)),
            dangers=np.array(learned.trust.dangers),
            standing=learned.standing.astype(np.float16),
            **{f"trust_{name}": getattr(learned.trust, name) for name in TRUST},
        )
    return path

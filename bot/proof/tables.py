"""Tables rise with age, or fall, as nature has it, whatever their file says of itself.

In: the husbandry figures. Out: faults. Called by proofread. The loader refuses a table that breaks
its own word (`falls: true`); here that word is checked.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from bot.handbook.shape_husbandry import Curve, Entry, Equipment, Grid, Growth, Husbandry, Steps
from bot.proof.fault import Fault

# The older or heavier the bird, the less of it: heat, birds on a square metre, light, floor of a
# crate for a kilogram. All others rise.
FALLING = ("air_temperature", "birds_per_m2", "light_hours", "crate_space")


def check_tables(book: Husbandry) -> Iterator[Fault]:
    """Tables that run the wrong way, and numbers that cannot be: nothing below nought."""
    for entry in book.entries():
        falls = entry.name in FALLING
        for column, values in _columns(entry):
            for before, after in pairwise(values):
                if (after > before) if falls else (after < before):
                    way = "rises" if after > before else "falls"
                    why = f"{column} {way} from {before:g} to {after:g}"
                    yield Fault("husbandry", entry.name, why)
            if any(value < 0 for value in values):
                yield Fault("husbandry", entry.name, f"{column} holds a number below nought")


def _columns(entry: Entry) -> Iterator[tuple[str, Sequence[float]]]:
    """The columns of a table, by name."""
    if isinstance(entry, Curve | Steps):
        yield "the table", [y for _, y in entry.points]
    elif isinstance(entry, Grid):
        for at, column in enumerate(entry.columns):
            yield f"{column:g} %", [values[at] for _, values in entry.rows]
    elif isinstance(entry, Growth):
        yield "weight", [row.weight_g for row in entry.rows]
        totals = [row.feed_total_g for row in entry.rows if row.feed_total_g is not None]
        yield "feed", totals
    elif isinstance(entry, Equipment):
        yield "pieces a bird", [pieces / birds for _, birds, pieces in entry.serves]

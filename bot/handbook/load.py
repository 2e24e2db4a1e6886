"""Opens content/ and makes the Handbook of it; a slip anywhere in it refuses the start.

In: the content folder. Out: Handbook, and the words that understanding is made from. Called by
`wiring` and the content proof.
"""

from __future__ import annotations

from pathlib import Path

import bot
from bot.errors import HandbookError
from bot.handbook.calendar import load_calendar
from bot.handbook.causes import load_causes
from bot.handbook.husbandry import load_husbandry
from bot.handbook.screens import load_screens
from bot.handbook.shapes import Handbook
from bot.handbook.texts import load_texts


def content_folder(named: str = "") -> Path:
    """The content folder: the one named, the one installed with the package, or the checkout's."""
    here = Path(bot.__file__).parent
    for folder in (Path(named),) if named else (here / "content", here.parent / "content"):
        if (folder / "sources.yaml").is_file():
            return folder
    raise HandbookError(named or "content", "(folder)", "holds no sources.yaml")


def load_handbook(content: Path) -> Handbook:
    """Everything but the words, checked. Raises HandbookError(file, key, why)."""
    husbandry = load_husbandry(content)
    texts = load_texts(content)
    causes = load_causes(content, husbandry.sources.by_id)
    return Handbook(
        husbandry=husbandry,
        causes=causes,
        calendar=load_calendar(content, husbandry, texts),
        texts=texts,
        screens=load_screens(content, texts, causes.signs),
    )

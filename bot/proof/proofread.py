"""Proofreads content/: what no loader can see by one file alone.

In: the content folder. Out: every fault found, sorted by file. Called by `broodpost proof` and the
tests. A file that can't be loaded is one fault, and the rest is read all the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TypeVar

from bot.errors import HandbookError
from bot.handbook.calendar import load_calendar, load_meetings
from bot.handbook.causes import load_causes
from bot.handbook.husbandry import load_husbandry
from bot.handbook.learned import load_learned
from bot.handbook.screens import load_screens
from bot.handbook.texts import load_texts
from bot.handbook.words import load_words
from bot.proof.days import check_days, check_meetings
from bot.proof.fault import Fault
from bot.proof.fire import check_fire, load_fire_words
from bot.proof.keys import check_keys
from bot.proof.lengths import check_lengths
from bot.proof.medicine import check_medicine, load_forbidden
from bot.proof.pages import check_pages
from bot.proof.screens import check_screens
from bot.proof.sources import check_sources
from bot.proof.tables import check_tables
from bot.proof.words import check_words

T = TypeVar("T")


def proofread(content: Path) -> tuple[Fault, ...]:
    """Every fault of the content, none twice; an empty tuple where it is right."""
    faults: list[Fault] = []

    def load(loader: Callable[[], T]) -> T | None:
        try:
            return loader()
        except HandbookError as error:
            faults.append(Fault(error.file, error.key, error.why))
            return None

    def check(found: Callable[[], Iterable[Fault]]) -> None:
        load(lambda: faults.extend(found()))

    book = load(lambda: load_husbandry(content))
    texts = load(lambda: load_texts(content))
    fire = load(lambda: load_fire_words(content))
    forbidden = load(lambda: load_forbidden(content))
    meetings = load(lambda: load_meetings(content))
    check(lambda: check_sources(content, texts))
    load(lambda: load_words(content))
    load(lambda: load_learned(content))
    check(lambda: check_words(content))
    if book is not None:
        check(lambda: check_tables(book))
        causes = load(lambda: load_causes(content, book.sources.by_id))
        if causes is not None and texts is not None:
            screens = load(lambda: load_screens(content, texts, causes.signs))
            if screens is not None:
                check(lambda: check_screens(texts, screens))
    if texts is not None:
        unlike = tuple(check_keys(texts))
        faults.extend(unlike)
        check(lambda: check_lengths(texts))
        check(lambda: check_pages(content, texts))
        if fire is not None:
            check(lambda: check_fire(texts, fire))
        if forbidden is not None:
            check(lambda: check_medicine(texts, forbidden))
    if book is not None and texts is not None:
        calendar = load(lambda: load_calendar(content, book, texts))
        if calendar is not None and meetings is not None:
            check(lambda: check_meetings(calendar, meetings))
        if calendar is not None and not unlike:
            check(lambda: check_days(calendar, texts))
    return tuple(sorted(set(faults)))

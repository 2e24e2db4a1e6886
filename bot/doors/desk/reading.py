"""What a taught word would change: over the text it was taught for, and over every collected
example that holds it. In: the handbook and the reader, a cooperative with and without the word.
Out: answers before and after. Called by the page "Unread words"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice
from pathlib import Path

from bot.cooperative.taught import heard
from bot.doors.context import case_of, read_context
from bot.doors.met import missing
from bot.doors.told import told
from bot.facts.farm import Case, Cooperative, TaughtWord
from bot.facts.writes import KeepUnread
from bot.handbook.shape_words import Example
from bot.handbook.words import load_collected, load_examples
from bot.turn.choose import choose
from bot.turn.take import as_answer, hearing
from bot.wiring import Thinking

MOST_READ = 300  # texts; a word that stands in more is too common to be taught


@dataclass(frozen=True, slots=True)
class Answer:
    """What the machine says to a text. read: whether it was understood."""

    texts: tuple[str, ...]
    read: bool


@dataclass(frozen=True, slots=True)
class Effect:
    """A collected text of which something changes. broken: it is read rightly without the word,
    and would not be with it."""

    text: str
    before: Answer
    after: Answer
    broken: bool


@dataclass(frozen=True, slots=True)
class Trial:
    """A word, tried. n: how many collected texts hold it; common: more than are read."""

    before: Answer
    after: Answer
    n: int = 0
    common: bool = False
    effects: tuple[Effect, ...] = ()

    @property
    def broken(self) -> tuple[Effect, ...]:
        return tuple(one for one in self.effects if one.broken)

    @property
    def may_be_taught(self) -> bool:
        """Whether it helps and spoils nothing."""
        return self.after.read and not self.common and not self.broken


def trial(thinking: Thinking, content: Path, case: Case, text: str, word: TaughtWord) -> Trial:
    """The word, tried on the text of a farm and on what was collected."""
    now = case.cooperative
    then = replace(now, taught=(*(one for one in now.taught if one.word != word.word), word))
    before = answered(thinking, case, text)
    after = answered(thinking, replace(case, cooperative=then), text)
    found = list(islice(examples_with(content, word), MOST_READ + 1))
    if len(found) > MOST_READ:
        return Trial(before, after, len(found), common=True)
    effects = (_effect(thinking, one, now, then) for one in found)
    return Trial(before, after, len(found), effects=tuple(one for one in effects if one))


def answered(thinking: Thinking, case: Case, text: str) -> Answer:
    """What would be said to a text now."""
    meaning = heard(
        lambda said: thinking.reader.read(said, hearing(case, case.today)),
        text, case, thinking.handbook,
    )  # fmt: skip
    decision = choose(meaning, case, thinking.handbook, text)
    unread = any(isinstance(write, KeepUnread) for write in decision.writes)
    return Answer(as_answer(decision, case, thinking.handbook).texts, not unread)


def examples_with(content: Path, word: TaughtWord) -> Iterator[Example]:
    """The collected texts of the word's language that hold it."""
    folder = content / "languages" / word.language
    whole = re.compile(rf"(?<!\w){re.escape(word.word)}(?!\w)", re.IGNORECASE)
    loads = {"examples.yaml": load_examples, "collected.jsonl": load_collected}
    for name, load in loads.items():
        file = folder / name
        if file.is_file() and whole.search(file.read_text("utf-8")):
            yield from (one for one in load(folder) if whole.search(one.text))


def _effect(thinking: Thinking, one: Example, now: Cooperative, then: Cooperative) -> Effect | None:
    before, missed_before = _judged(thinking, one, now)
    after, missed_after = _judged(thinking, one, then)
    broken = bool(missed_after) and not missed_before
    if before == after and not broken:
        return None
    return Effect(one.text, before, after, broken)


def _judged(
    thinking: Thinking, one: Example, cooperative: Cooperative
) -> tuple[Answer, tuple[str, ...]]:
    """The answer to an example, and what of it is not met."""
    context = read_context(one.language, one.context, thinking.handbook.texts.tongues)
    case = replace(case_of(context), cooperative=cooperative)
    meaning = heard(
        lambda said: thinking.reader.read(said, hearing(case, context.today)),
        one.text, case, thinking.handbook,
    )  # fmt: skip
    decision = choose(meaning, case, thinking.handbook, one.text)
    unread = any(isinstance(write, KeepUnread) for write in decision.writes)
    texts = as_answer(decision, case, thinking.handbook).texts
    line = told(meaning, decision, thinking.handbook.causes)
    return Answer(texts, not unread), missing(one, line)

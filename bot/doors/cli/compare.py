"""Compares two content folders over texts: what each was taken for, and what it would be.

In: the thinking of both, `Collected` texts. Out: `Change`s. Called by `changes`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from bot.doors.cli.collected import Collected
from bot.doors.context import Context, case_of, read_context
from bot.doors.met import missing
from bot.doors.told import told
from bot.facts.farm import Case
from bot.facts.talk import Decision, Intent, Meaning
from bot.facts.writes import KeepUnread
from bot.handbook.shape_words import Example
from bot.turn.choose import choose
from bot.turn.take import hearing
from bot.wiring import Thinking


@dataclass(frozen=True, slots=True)
class Reading:
    """What became of a text. line: of contract 1. unread: it goes to the adviser."""

    line: Mapping[str, Any]
    unread: bool
    dangers: frozenset[str]

    def shown(self) -> str:
        """What was understood, in one line; in which order the signs were told is no matter."""
        slots = [f"{name} {value}" for name, value in self.line["slots"].items()]
        absent = (f"not {one}" for one in sorted(self.line["not_signals"]))
        signs = [*sorted(self.line["signals"]), *absent]
        cause = [f"cause {self.line['cause']}"] if self.line["cause"] else []
        danger = ["DANGER"] if self.line["red_flag"] else []
        return ", ".join([self.line["intent"], *slots, *signs, *cause, *danger])


@dataclass(frozen=True, slots=True)
class Change:
    """One text of which something changes, or a fresh example that is not met. missed_before,
    missed_after: what of an example was and is not met, in words."""

    one: Collected
    before: Reading
    after: Reading
    missed_before: tuple[str, ...] = ()
    missed_after: tuple[str, ...] = ()

    @property
    def broken(self) -> bool:
        """An example that held, of which something no longer does."""
        held = self.one.example is not None and not self.one.fresh and not self.missed_before
        return held and bool(self.missed_after)

    @property
    def met(self) -> bool:
        """An example that is met now and was not before."""
        known = self.one.example is not None
        return known and bool(self.missed_before) and not self.missed_after

    @property
    def lost(self) -> frozenset[str]:
        """Dangers that were seen and no longer are, unless an example says that there are none."""
        gone = self.before.dangers - self.after.dangers
        if self.one.example is None:
            return gone
        return gone & dangers_of(self.one.example)

    def shown(self) -> str:
        """The text, before and after, and what that means for its example."""
        lines = [f"{self.one.where}: {self.one.text!r}"]
        if self.before.shown() == self.after.shown():
            lines.append(f"    as before  {self.after.shown()}")
        else:
            lines += [f"    before  {self.before.shown()}", f"    after   {self.after.shown()}"]
        if self.lost:
            lines.append(f"    DANGER LOST: {', '.join(sorted(self.lost))}")
        if self.one.example is not None:
            lines.append(f"    {self._judged()}")
        return "\n".join(lines)

    def _judged(self) -> str:
        wrong = "; ".join(self.missed_after)
        if self.broken:
            return f"EXAMPLE BROKEN: {wrong}"
        if not wrong:
            return "example now met" if self.missed_before else "example met as before"
        return f"new example NOT met: {wrong}" if self.one.fresh else f"example not met: {wrong}"


@dataclass(slots=True)
class Mind:
    """Reads and decides with one content folder. What is decided for a meaning and a farm is kept:
    it depends on the text only where nothing was understood."""

    thinking: Thinking
    _decided: dict[tuple[Meaning, Context], Decision] = field(default_factory=dict)

    def hear(self, one: Collected) -> tuple[Meaning, Context, Case]:
        """The meaning of a text; the language it is guessed to be in is left out."""
        context = read_context(one.lang, one.context, self.thinking.handbook.texts.tongues)
        case = case_of(context)
        heard = self.thinking.reader.read(one.text, hearing(case, context.today))
        return replace(heard, language=None), context, case

    def reading(self, text: str, heard: Meaning, context: Context, case: Case) -> Reading:
        """What would be decided on it."""
        if heard.intent is Intent.OTHER:
            decision = choose(heard, case, self.thinking.handbook, text)
        elif (heard, context) in self._decided:
            decision = self._decided[heard, context]
        else:
            decision = choose(heard, case, self.thinking.handbook, text)
            self._decided[heard, context] = decision
        line = told(heard, decision, self.thinking.handbook.causes)
        unread = any(isinstance(write, KeepUnread) for write in decision.writes)
        return Reading(line, unread, self._dangers(line))

    def _dangers(self, line: Mapping[str, Any]) -> frozenset[str]:
        signs = self.thinking.handbook.causes.signs
        found = {one for one in line["signals"] if one in signs and signs[one].danger >= 3}
        return frozenset(found | ({"red flag"} if line["red_flag"] else set()))


def dangers_of(example: Example) -> frozenset[str]:
    """The dangers that an example is known to tell of."""
    return frozenset((*example.signals, *(("red flag",) if example.red_flag else ())))


def compare(live: Thinking, changed: Thinking, collected: Iterable[Collected]) -> Iterator[Change]:
    """Every text of which something changes, and every fresh example that is not met.

    Where both folders weigh causes alike, a text with the same meaning gets the same decision, and
    nothing needs to be decided: that is what makes it quick.
    """
    old, new = Mind(live), Mind(changed)
    alike = _weighs_alike(live, changed)
    for one in collected:
        heard, then = old.hear(one), new.hear(one)
        if alike and heard[0] == then[0] and not one.fresh:
            continue
        before, after = old.reading(one.text, *heard), new.reading(one.text, *then)
        missed = tuple(missing(one.example, each.line) for each in (before, after))
        change = Change(one, before, after, *missed)
        differs = before.shown() != after.shown()
        if differs or before.unread != after.unread or (one.fresh and change.missed_after):
            yield change


def _weighs_alike(live: Thinking, changed: Thinking) -> bool:
    one, other = live.handbook, changed.handbook
    return (one.causes, one.husbandry, one.calendar) == (
        other.causes,
        other.husbandry,
        other.calendar,
    )

"""Patterns as written in the folders, compiled and matched. Pure.

A pattern is looked for in one clause; the syntax is told in content/languages/README.md. Called by
`index` (compile) and by the readers of signs, intents, topics and days (match).
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from bot.errors import HandbookError
from bot.understand.lexicon import Lexicon

GAP = 3  # other words that may stand between neighbours of a chunk
_ELEMENT = re.compile(r"(?:<[^>]*>|[^\s<|]+)(?:\|(?:<[^>]*>|[^\s<|]+))*")
# What may be denied beside a sign without taking the sign away: "diarrhoea but no blood".
TOLD_APART = frozenset(
    "blood red fed_red dead smell ammonia wet mould gasp rain peck sneeze dizzy neck head comb "
    "eye".split()
)
_TRIES = 200  # steps a chunk may take in one clause: a bound, never reached by a real text


class Span(NamedTuple):
    """Tokens start..end (end not included) belong to a class."""

    start: int
    end: int
    denied: bool = False
    denier: int = -1
    past: bool = False


Spans = Mapping[str, Sequence[Span]]
Places = tuple[tuple[str, ...], ...]  # of each place one of these classes must be in the clause


@dataclass(frozen=True, slots=True)
class Element:
    """One place of a chunk: any of these classes; denied: only where it is denied."""

    names: tuple[str, ...]
    denied: bool = False


@dataclass(frozen=True, slots=True)
class Pattern:
    """chunks: all must be found, in any order; forbidden: none may be. name: what it stands for.
    language: index of the folder."""

    name: str
    text: str
    chunks: tuple[tuple[Element, ...], ...]
    forbidden: tuple[tuple[Element, ...], ...]
    language: int = 0
    needed: Places = ()


@dataclass(frozen=True, slots=True)
class Match:
    """A pattern found. used: indices of the tokens it stands on."""

    name: str
    start: int
    end: int
    used: frozenset[int]
    denied: bool = False
    past: bool = False
    weight: int = 1
    text: str = ""
    deniers: frozenset[int] = frozenset()  # negators that reach a part of it


@dataclass(slots=True)
class PatternSet:
    """Patterns in the order of the folders, and by the classes of their rarest place, each with its
    number and its other places."""

    patterns: list[Pattern] = field(default_factory=list)
    by_rarest: dict[str, list[tuple[int, Pattern, Places]]] = field(default_factory=dict)

    def add(self, pattern: Pattern) -> None:
        """Take in a pattern; `arrange` follows the last."""
        self.patterns.append(pattern)

    def arrange(self) -> None:
        """Index every pattern under that of its places which the fewest patterns need."""
        needed = Counter(name for one in self.patterns for names in one.needed for name in names)
        self.by_rarest.clear()
        for number, pattern in enumerate(self.patterns):
            rarest = min(pattern.needed, key=lambda names: sum(needed[name] for name in names))
            others = tuple(names for names in pattern.needed if names != rarest)
            for name in rarest:
                self.by_rarest.setdefault(name, []).append((number, pattern, others))

    def find(self, spans: Spans, languages: Container[int] | None = None) -> Iterator[Match]:
        """Every pattern that is found in a clause, each once, in the order of the folders; only of
        some languages if given."""
        found: dict[int, Pattern] = {}
        for name in spans.keys() & self.by_rarest.keys():
            for number, pattern, others in self.by_rarest[name]:
                for names in others:  # plain loops, for speed: most patterns go no further
                    for one in names:
                        if one in spans:
                            break
                    else:
                        break
                else:
                    if languages is None or pattern.language in languages:
                        found[number] = pattern
        for number in sorted(found):
            yield from matches(found[number], spans)


def compile_pattern(
    text: str,
    name: str,
    lexicon: Lexicon,
    language: int,
    file: str,
    *,
    keep_denials: bool = True,
) -> Pattern:
    """Compile one pattern. HandbookError where it holds no part that must be there.

    keep_denials: False for signs, where "& !<not x>" behind <x> is left out: a denied sign is to be
    told as denied, not to be missed.
    """
    chunks: list[tuple[Element, ...]] = []
    forbidden: list[tuple[Element, ...]] = []
    for part in text.split("&"):
        part = part.strip()
        refused = part.startswith("!")
        elements = tuple(
            _element(match.group(), lexicon, language)
            for match in _ELEMENT.finditer(part.lstrip("! "))
        )
        if not elements:
            raise HandbookError(file, name, f"pattern {text!r} has an empty part")
        (forbidden if refused else chunks).append(elements)
    if not chunks:
        raise HandbookError(file, name, f"pattern {text!r} asks for nothing")
    own = {name for chunk in chunks for element in chunk for name in element.names}
    if not keep_denials:
        forbidden = [one for one in forbidden if not _denies_itself(one, own)]
    needed = tuple(element.names for chunk in chunks for element in chunk)
    return Pattern(name, text, tuple(chunks), tuple(forbidden), language, needed)


def _denies_itself(forbidden: tuple[Element, ...], own: set[str]) -> bool:
    only = len(forbidden) == 1 and forbidden[0].denied
    return only and all(name in own for name in forbidden[0].names)


def _element(text: str, lexicon: Lexicon, language: int) -> Element:
    names: list[str] = []
    denied = False
    for option in text.split("|"):
        option = option.strip()
        if option.startswith("<"):
            inner = option.strip("<> ")
            denied = denied or inner.startswith("not ")
            names.append(inner.removeprefix("not ").strip())
        elif option:
            word = option.lower().replace("ng'", "ng").replace("'", " ").strip()
            if " " in word:
                lexicon.add(f"={word}", word, language)
                names.append(f"={word}")
            else:
                names.append(lexicon.literal(word, language))
    return Element(tuple(dict.fromkeys(names)), denied)


def matches(pattern: Pattern, spans: Spans) -> Iterator[Match]:
    """The places where a pattern is found: one for a bag, each for a single chunk.

    What is forbidden and denied by a negator of its own does not stand there ("diarrhoea but no
    blood")."""
    deniers: set[int] = set()
    for chunk in pattern.forbidden:
        apart = len(chunk) == 1 and TOLD_APART.issuperset(chunk[0].names)
        for found in _chunk(chunk, spans):
            if not apart or found[0].denier < 0:
                return
            deniers.add(found[0].denier)
    for match in _matches(pattern, spans):
        if deniers.isdisjoint(match.deniers):
            yield match


def _matches(pattern: Pattern, spans: Spans) -> Iterator[Match]:
    if len(pattern.chunks) == 1:
        taken: set[int] = set()
        for found in sorted(_chunk(pattern.chunks[0], spans), key=_length):
            inside = range(found[0].start, found[-1].end)
            if taken.isdisjoint(inside):
                taken.update(inside)
                yield _match(pattern, found)
        return
    together = _nearest(pattern, spans)
    if together is not None:
        yield _match(pattern, together)


def _nearest(pattern: Pattern, spans: Spans) -> list[Span] | None:
    """The parts of a bag that stand closest together, of two as close the later: of "eyes swollen
    heads not swollen" the heads with their own word."""
    best: list[Span] | None = None
    for anchor in _chunk(pattern.chunks[0], spans):
        together = list(anchor)
        for chunk in pattern.chunks[1:]:
            used = {at for span in together for at in range(span.start, span.end)}
            free = [
                found
                for found in _chunk(chunk, spans)
                if used.isdisjoint(at for span in found for at in range(span.start, span.end))
            ]
            if not free:
                break
            together.extend(
                min(
                    free,
                    key=lambda found: (
                        _spread((*together, *found)),
                        -min(one.start for one in found),
                    ),
                )
            )
        else:
            if best is None or _spread(together) <= _spread(best):
                best = together
    return best


def _spread(found: Sequence[Span]) -> int:
    return max(span.end for span in found) - min(span.start for span in found)


def _length(found: tuple[Span, ...]) -> int:
    return found[-1].end - found[0].start


def _match(pattern: Pattern, found: Iterable[Span]) -> Match:
    elements = [element for chunk in pattern.chunks for element in chunk]
    pairs = list(zip(elements, found, strict=True))
    used = {at for _, span in pairs for at in range(span.start, span.end)}
    used |= {span.denier for element, span in pairs if element.denied and span.denier >= 0}
    return Match(
        name=pattern.name,
        start=min(span.start for _, span in pairs),
        end=max(span.end for _, span in pairs),
        used=frozenset(used),
        denied=any(
            span.denied and span.denier < 0 for element, span in pairs if not element.denied
        ),
        past=any(span.past for _, span in pairs),
        weight=len(pairs),
        text=pattern.text,
        deniers=frozenset(span.denier for _, span in pairs if span.denier >= 0),
    )


def _chunk(chunk: tuple[Element, ...], spans: Spans) -> Iterator[tuple[Span, ...]]:
    """Every way to find the elements one after another."""
    budget = [_TRIES]
    for first in _spans_of(chunk[0], spans):
        yield from _follow(chunk, 1, (first,), spans, budget)


def _follow(
    chunk: tuple[Element, ...], at: int, found: tuple[Span, ...], spans: Spans, budget: list[int]
) -> Iterator[tuple[Span, ...]]:
    if at == len(chunk):
        yield found
        return
    end = found[-1].end
    for span in _spans_of(chunk[at], spans):
        budget[0] -= 1
        if budget[0] < 0:
            return
        if end <= span.start <= end + GAP:
            yield from _follow(chunk, at + 1, (*found, span), spans, budget)


def _spans_of(element: Element, spans: Spans) -> Iterator[Span]:
    for name in element.names:
        for span in spans.get(name, ()):
            if span.denied or not element.denied:
                yield span

"""The fixed rules on fire and air, held over every text of every language.

In: Texts and the word lists of languages/<code>/fire.yaml. Out: faults. Called by proofread.
Carbon monoxide kills people and birds: no text may say or imply that an opening makes a fire inside
safe, none may tell to close everything, and whoever is told to add heat, light a stove or close
curtains is told in the same text to leave the top open on two sides.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from pathlib import Path

from bot.handbook.shape_texts import Texts, TextShape
from bot.handbook.strict import Section, read_section
from bot.proof.fault import Fault
from bot.proof.longest import forms
from bot.proof.phrases import found, sentences, without

FILE = "fire.yaml"


@dataclass(frozen=True, slots=True)
class FireWords:
    """The phrases of one language (bot.proof.phrases says how they are read).

    adds: tells to add heat, to light a stove or to close curtains; adds_not: sounds so and is not.
    top_open: the top stays open on two sides. closes_all: tells to close everything. fire: a fire
    or its air. safe: calls something safe; safe_not: sounds so and may be said. curtain: a curtain.
    up_down: words of lifting and lowering. carries: tells to carry a burning stove out;
    carries_not: sounds so and is not. carrying: what must be said with it, one phrase each.
    """

    adds: tuple[str, ...]
    adds_not: tuple[str, ...]
    top_open: tuple[str, ...]
    closes_all: tuple[str, ...]
    fire: tuple[str, ...]
    safe: tuple[str, ...]
    safe_not: tuple[str, ...]
    curtain: tuple[str, ...]
    up_down: tuple[str, ...]
    carries: tuple[str, ...]
    carries_not: tuple[str, ...]
    carrying: tuple[str, ...]


def load_fire_words(content: Path) -> Mapping[str, FireWords]:
    """The phrases of every language that has them. Raises HandbookError naming the key."""
    files = sorted((content / "languages").glob(f"*/{FILE}"))
    return {path.parent.name: _words(read_section(path)) for path in files}


def _words(section: Section) -> FireWords:
    words = FireWords(**{one.name: section.texts(one.name) for one in fields(FireWords)})
    for one in fields(FireWords):
        if not getattr(words, one.name) and not one.name.endswith("_not"):
            section.refuse(one.name, "needs a phrase: without one the fire rules hold nothing back")
    section.done()
    return words


def check_fire(texts: Texts, words: Mapping[str, FireWords]) -> Iterator[Fault]:
    """Every breach of the fire rules."""
    for tongue in texts.tongues.values():
        if tongue.code not in words:
            why = "is missing: the fire rules need this language's words"
            yield Fault(f"languages/{tongue.code}/{FILE}", "(file)", why)
            continue
        for shape in texts.shapes.values():
            file = f"languages/{tongue.code}/{shape.file}.yaml"
            for category, form in forms(tongue.wordings.get(shape.key, {})):
                place = f"{shape.key}.{category}" if category else shape.key
                for why in _breaches(shape, form, words[tongue.code]):
                    yield Fault(file, place, f"{why}: {form}")


def _breaches(shape: TextShape, form: str, words: FireWords) -> Iterator[str]:
    adds = found(words.adds, without(words.adds_not, form))
    if adds and not shape.fire:
        yield f"says {adds!r}, so texts/{shape.file}.yaml must flag it fire: true"
    if (adds or shape.fire) and not found(words.top_open, form):
        yield "a fire clause is missing: leave the top open on two sides"
    if closes := found(words.closes_all, form):
        yield f"tells to close everything ({closes!r})"
    calm = without(words.safe_not, form)
    if (safe := found(words.safe, calm)) and found(words.fire, form):
        yield f"calls a fire or its air safe ({safe!r})"
    for sentence in sentences(form):
        if found(words.curtain, sentence) and (moves := found(words.up_down, sentence)):
            yield f"curtains open and close, never {moves!r}"
    if found(words.carries, without(words.carries_not, form)):
        missing = [phrase for phrase in words.carrying if not found((phrase,), form)]
        if missing:
            yield f"a stove is carried out without saying how: {', '.join(missing)}"

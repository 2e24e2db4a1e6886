"""Everything compiled once: lexicon, speller and pattern sets. In: `Words`. Out: `Index`.

Called by `read.compile_words`. Raises HandbookError where a pattern names a class that no folder
fills, so that a slip in content is found at start.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from bot.errors import HandbookError
from bot.handbook.shape_words import Words
from bot.understand.lexicon import Lexicon, build
from bot.understand.patterns import Pattern, PatternSet, compile_pattern
from bot.understand.sounds import Sounds
from bot.understand.spelling import Speller
from bot.understand.spoken import Forms, build_forms

DANGER_CLASSES = frozenset(
    "blood dead die_many twist paralysed gasp smoke dizzy headache swollen culled @stop".split()
)


@dataclass(frozen=True, slots=True)
class Index:
    """What the reader reads with."""

    lexicon: Lexicon
    speller: Speller
    sounds: tuple[Sounds, ...]  # by language
    present: PatternSet
    absent: PatternSet
    intents: PatternSet
    topics: PatternSet
    figures: PatternSet
    stop: PatternSet
    told_of: PatternSet
    ahead: PatternSet
    ago: PatternSet
    danger: frozenset[str]
    signs: tuple[str, ...]
    replies: Forms
    little: Mapping[str, frozenset[str]]  # little words of all languages, by what they do


def build_index(words: Words) -> Index:
    """Compile all languages together."""
    lexicon = build(words)
    present, absent, intents, topics = PatternSet(), PatternSet(), PatternSet(), PatternSet()
    stop, told_of = PatternSet(), PatternSet()
    ahead, ago = PatternSet(), PatternSet()
    figures = PatternSet()
    for at, language in enumerate(words.languages):
        folder = f"languages/{language.code}"

        def fill(
            into: PatternSet,
            name: str,
            texts: Iterable[str],
            file: str,
            at: int = at,
            folder: str = folder,
        ) -> None:
            for text in texts:
                into.add(
                    compile_pattern(
                        text,
                        name,
                        lexicon,
                        at,
                        f"{folder}/{file}",
                        keep_denials=into is not present,
                    )
                )

        for name, sign in language.signs.items():
            fill(present, name, sign.present, "signs.yaml")
            fill(absent, name, sign.absent, "signs.yaml")
        _fill_named(fill, intents, language.intents, "words.yaml")
        _fill_named(fill, topics, language.topics, "words.yaml")
        _fill_named(fill, figures, language.figures, "wanted.yaml")
        fill(stop, "stop", language.stop_with, "language.yaml")
        _fill_named(fill, told_of, language.told_of, "language.yaml")
        fill(ahead, "in_days", language.days.in_days, "language.yaml")
        fill(ago, "days_ago", language.days.ago, "language.yaml")
    every = (present, absent, intents, topics, figures, stop, told_of, ahead, ago)
    _refuse_unknown(lexicon, every)
    for patterns in every:
        patterns.arrange()
    speller = Speller(_spellable(lexicon), _danger_words(lexicon))
    return Index(
        lexicon,
        speller,
        tuple(Sounds(one, at, lexicon) for at, one in enumerate(words.languages)),
        present,
        absent,
        intents,
        topics,
        figures,
        stop,
        told_of,
        ahead,
        ago,
        words.danger_signs,
        words.signs,
        build_forms(words, lexicon),
        _little(words),
    )


def _little(words: Words) -> Mapping[str, frozenset[str]]:
    """Of all languages; each name is in every folder, filled or not."""
    names = words.languages[0].little if words.languages else {}
    return {
        name: frozenset(
            word for language in words.languages for word in language.little.get(name, ())
        )
        for name in names
    }


def _fill_named(
    fill: object, into: PatternSet, named: Mapping[str, tuple[str, ...]], file: str
) -> None:
    assert callable(fill)
    for name, texts in named.items():
        fill(into, name, texts, file)


def _spellable(lexicon: Lexicon) -> list[str]:
    return [word for word in lexicon.exact if word not in lexicon.unspelt]


def _danger_words(lexicon: Lexicon) -> frozenset[str]:
    return frozenset(
        word
        for word, entries in (*lexicon.exact.items(), *lexicon.stems.items())
        if any(entry.name in DANGER_CLASSES for entry in entries)
    )


def _refuse_unknown(lexicon: Lexicon, sets: Iterable[PatternSet]) -> None:
    known = {"n"}
    for table in (lexicon.exact, lexicon.prefixes, lexicon.stems, lexicon.open_stems):
        known |= {entry.name for entries in table.values() for entry in entries}
    known |= {
        entry.name
        for begun in lexicon.phrases.values()
        for rows in begun.values()
        for _, entry in rows
    }
    for group in sets:
        for pattern in group.patterns:
            _check(pattern, known)


def _check(pattern: Pattern, known: set[str]) -> None:
    for chunk in (*pattern.chunks, *pattern.forbidden):
        for element in chunk:
            for name in element.names:
                if name not in known:
                    raise HandbookError(
                        "languages", pattern.name, f"{pattern.text!r}: no class {name!r}"
                    )

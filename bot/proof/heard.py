"""What must be heard in every language: each danger, and STOP.

In: the content folder. Out: faults. Called by `broodpost proof` once everything loads. Of each
danger sign, and of STOP, a language's examples must hold one that the reader understands.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

from bot.facts.talk import Hearing, Intent, Meaning
from bot.handbook.shape_words import Example
from bot.handbook.words import load_examples, load_words
from bot.proof.fault import Fault
from bot.understand.read import Reader, compile_words


def check_heard(content: Path) -> Iterator[Fault]:
    """Dangers, and STOP, of which a language has no example that is understood."""
    words = load_words(content)
    reader = compile_words(words)
    for language in words.languages:
        folder = content / "languages" / language.code
        examples = load_examples(folder)
        for name in (*sorted(words.danger_signs), Intent.STOP.value):
            told = (one for one in examples if name in (*one.signals, one.intent))
            if not any(name in _heard(one, reader) for one in told):
                why = "must be heard in every language: give an example that is understood"
                yield Fault(f"languages/{language.code}/examples.yaml", name, why)


def _heard(example: Example, reader: Reader) -> tuple[str, ...]:
    """The signs and the intent that the reader finds in an example."""
    meaning: Meaning = reader.read(example.text, _hearing(example))
    return (*meaning.signals, meaning.intent.value)


def _hearing(example: Example) -> Hearing:
    known = example.context
    age, count, prompt = (known[key] for key in ("age_days", "count", "last_prompt"))
    return Hearing(
        today=date.fromisoformat(str(known["today"])),
        language=example.language,
        has_batch=bool(known["has_batch"]),
        age_days=age if isinstance(age, int) else None,
        count=count if isinstance(count, int) else None,
        prompt=prompt if isinstance(prompt, str) else None,
    )

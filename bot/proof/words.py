"""No word or phrase stands for two things between which the reader has to choose.

In: the content folder. Out: faults. Called by proofread. All languages are read at once, so
opposites are compared across them; a menu's answers, numbers, units, kinds of heat, signs, intents
and topics within each.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from bot.handbook.strict import read_yaml
from bot.proof.fault import Fault

Choice = Mapping[str, Iterable[str]]  # what is meant -> the words that mean it
# Classes of words.yaml that a farmer's meaning hangs on: a word of one is none of the other.
OPPOSITES = (
    ("cold", "hot"),
    ("near", "away"),
    ("pile", "spread"),
    ("cry", "quiet"),
    ("more", "less"),
    ("empty", "full"),
    ("open", "closed"),
    ("drink", "eat"),
    ("feed", "water"),
    ("feeder", "drinker"),
    ("dead", "well"),
    ("dead", "all_well"),
    ("sick", "well"),
    ("sick", "all_well"),
    ("bought", "fed"),
    ("bird", "person"),
    ("panting", "gasp"),
)
# Answers to one menu, of which a word may mean only one.
MENUS = (
    ("yes", "no"),
    ("done", "not_yet"),
    ("better", "same", "worse"),
    ("more", "in_all"),
    ("dry", "wet", "caked", "smells"),
    ("warm", "cool", "cold"),
)


def check_words(content: Path) -> Iterator[Fault]:
    """Words with two meanings, language by language, and opposites across all."""
    classes: dict[str, set[str]] = defaultdict(set)
    for folder in sorted(path for path in (content / "languages").iterdir() if path.is_dir()):
        words = _file(folder / "words.yaml")
        for name, listed in _lists(words.get("classes")).items():
            classes[name] |= set(listed)
        for key in ("intents", "topics", "heats", "languages"):
            yield from _doubles(f"languages/{folder.name}/words.yaml", key, _lists(words.get(key)))
        wanted = _lists(_file(folder / "wanted.yaml"))
        yield from _doubles(f"languages/{folder.name}/wanted.yaml", "figures", wanted)
        for question, options in _file(folder / "replies.yaml").items():
            said = {name: words for name, words in _lists(options).items() if name != "about"}
            yield from _doubles(f"languages/{folder.name}/replies.yaml", question, said)
        yield from _of_language(folder)
        yield from _of_signs(folder)
    for one, other in OPPOSITES:
        for word in sorted(classes[one] & classes[other]):
            yield Fault("languages", f"classes.{one}", f"{word!r} also means its opposite, {other}")


def _of_language(folder: Path) -> Iterator[Fault]:
    file = f"languages/{folder.name}/language.yaml"
    language = _file(folder / "language.yaml")
    for key in ("months", "weekdays"):
        rows = language.get(key)
        if isinstance(rows, list):
            yield from _doubles(file, key, {str(at + 1): row for at, row in enumerate(rows)})
    for key in ("relative_days", "units"):
        yield from _doubles(file, key, _lists(language.get(key)))
    numbers = language.get("numbers")
    if isinstance(numbers, dict):
        yield from _doubles(file, "numbers.words", _lists(numbers.get("words")))
    answers = _lists(language.get("answers"))
    for menu in MENUS:
        yield from _doubles(file, "answers", {code: answers.get(code, ()) for code in menu})
    wholes = {key: language.get(key) for key in ("stop", "start", "help")}
    yield from _doubles(file, "stop, start, help", _lists(wholes))


def _of_signs(folder: Path) -> Iterator[Fault]:
    """A pattern tells of one sign only, and never that one sign is there and not there."""
    file = f"languages/{folder.name}/signs.yaml"
    sides = {sign: _lists(listed) for sign, listed in _file(folder / "signs.yaml").items()}
    yield from _doubles(file, "signs", {sign: side.get("yes", ()) for sign, side in sides.items()})
    for sign, side in sides.items():
        yield from _doubles(file, sign, {"its presence": side.get("yes", ()),
                                         "its absence": side.get("no", ())})  # fmt: skip


def _doubles(file: str, key: str, choice: Choice) -> Iterator[Fault]:
    seen: dict[str, str] = {}
    for meaning, words in choice.items():
        for word in dict.fromkeys(words):
            if word in seen:
                yield Fault(file, key, f"{word!r} means {seen[word]} and {meaning}")
            seen.setdefault(word, meaning)


def _file(path: Path) -> dict[str, object]:
    """The file's mapping; an empty one where it is missing or malformed, which its loader names."""
    found = read_yaml(path) if path.is_file() else {}
    return found if isinstance(found, dict) else {}


def _lists(node: object) -> dict[str, list[str]]:
    """The lists of words of a mapping, each word as text."""
    if not isinstance(node, dict):
        return {}
    return {
        str(key): [str(word) for word in words]
        for key, words in node.items()
        if isinstance(words, list)
    }

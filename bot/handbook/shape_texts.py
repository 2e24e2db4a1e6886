"""The shape of outgoing texts: what each key may hold, how long it may be, and its wordings.

Made by `handbook.texts`; read by `say` and `proof`. Plain dataclasses, no I/O.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field

BASE = "en"  # every text is worded in it; what no other language words is said in it
Wording = str | Mapping[str, str]  # one text, or one a plural category ("one", "other")


@dataclass(frozen=True, slots=True)
class TextShape:
    """One key: its role, its budget in septets, its placeholders (name -> type of value).

    file: where it is listed ("answers", "figures", "daily", "actions"). fire: it adds heat, lights
    a stove or closes curtains, so its wording must keep the top open on two sides. must: no
    language may leave it to another one.
    """

    key: str
    file: str
    role: str
    budget: int
    values: Mapping[str, str]
    source: tuple[str, ...] = ()
    fire: bool = False
    must: bool = False

    @property
    def lists(self) -> frozenset[str]:
        """The lists of terms.yaml that its values take words from."""
        kinds = self.values.values()
        named = {kind.removeprefix("word:") for kind in kinds if kind.startswith("word:")}
        own = {"vet": {"vet"}, "date": {"weekday", "month"}}
        return frozenset(named.union(*(own.get(kind, set()) for kind in kinds)))


@dataclass(frozen=True, slots=True)
class Tongue:
    """What one language says: `wordings` by key, `terms` by list and code.

    own_name: as its speakers call it. falls_back_to: the language that says what is not worded
    here; None where everything is. one_below: numbers smaller than this take the singular; None
    where only 1 does (CLDR plural rules).
    """

    code: str
    own_name: str
    wordings: Mapping[str, Wording]
    terms: Mapping[str, Mapping[str, str]]
    falls_back_to: str | None = None
    one_below: int | None = None

    def can_say(self, shape: TextShape) -> bool:
        """Whether it words this text and every list that the text takes words from."""
        return shape.key in self.wordings and shape.lists <= self.terms.keys()


Phrase = tuple[str, str, tuple[str, ...]]  # language, what it means, its words


@dataclass(frozen=True, slots=True)
class Texts:
    """All outgoing texts. tongues: by the languages' own names, the order in which a farmer is
    offered them. types: name of a value type -> its longest realistic value, or "date", "vet",
    "languages", or "word:<list>" for types that a language words itself.
    worded: lines as they were last worded (say.render): many farms are told the same."""

    shapes: Mapping[str, TextShape]
    tongues: Mapping[str, Tongue]
    types: Mapping[str, str]
    roles: Mapping[str, int]
    worded: dict[Hashable, str] = field(default_factory=dict, init=False, compare=False, repr=False)
    _speakers: dict[tuple[str, str], Tongue] = field(
        default_factory=dict, init=False, compare=False, repr=False
    )
    _phrases: dict[str, Mapping[str, Sequence[Phrase]]] = field(
        default_factory=dict, init=False, compare=False, repr=False
    )

    def speaker(self, key: str, code: str) -> Tongue:
        """Who says a text to somebody of this language: its own tongue; where that can't, the one
        it falls back to; English for a language whose folder was taken away."""
        found = self._speakers.get((key, code))
        if found is None:
            found = self._speakers[key, code] = self._speaker(key, code)
        return found

    def _speaker(self, key: str, code: str) -> Tongue:
        own = self.tongues.get(code)
        behind = self.tongues.get(own.falls_back_to) if own and own.falls_back_to else None
        found = (one for one in (own, behind) if one and one.can_say(self.shapes[key]))
        return next(found, self.tongues[BASE])

    def phrases(self, name: str) -> Mapping[str, Sequence[Phrase]]:
        """The phrases of a list of terms.yaml in every language, by their first word."""
        if name not in self._phrases:
            found: dict[str, list[Phrase]] = {}
            for tongue in self.tongues.values():
                for code, listed in tongue.terms.get(name, {}).items():
                    for words in map(str.split, listed.split("/")):
                        found.setdefault(words[0], []).append((tongue.code, code, tuple(words)))
            self._phrases[name] = found
        return self._phrases[name]

    @property
    def choices(self) -> str:
        """The languages as a menu: "1 English 2 Francais 3 Kiswahili"."""
        names = (tongue.own_name for tongue in self.tongues.values())
        return " ".join(f"{digit} {name}" for digit, name in enumerate(names, start=1))

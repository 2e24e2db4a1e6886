"""Answers to a menu in the farmer's own words: an annotated text and the question that is open in,
the options that were told and the words they stand on out. Pure; called by `read`.

How each option of each question may be said stands in content/languages/*/replies.yaml, as words
one after another: a slip of the pen is heard, and a negator before them turns a yes into a no.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import NamedTuple

from rapidfuzz import fuzz, process

from bot.facts.talk import Hearing
from bot.handbook.shape_words import Words
from bot.understand.annotate import Clause, Text
from bot.understand.lexicon import DENIED, Flag, Lexicon
from bot.understand.patterns import Span
from bot.understand.tidy import BREAKS

GAP = 3  # other words that may stand between two words of an option
SHORT = 7  # words of a clause in which one word alone may be an option
REACH = 3  # words from a negator to what it denies
SHORTEST, LIKE = 5, 84.0  # letters of a word that may be misspelt, and how like it must be
KEPT = 1 << 12  # words of texts with the places of forms they fill; the longest unused goes first
# Of these menus one option is told: the first of those that were named, the graver before the
# milder. Of the others all that were told hold.
ONE_OF: Mapping[str, tuple[str, ...]] = {
    "wake": ("down", "few", "up"),
    "deaths_look": ("many_dull", "heap", "few_dull", "lively"),
    "check_back": ("worse", "same", "better"),
    "vet_reached": ("not_yet", "yes"),
    "nights": ("cold", "cool", "warm"),
    "behind": ("feed", "water", "cold", "none"),
    "what": ("what_ill", "what_water", "what_feed", "what_litter", "what_well"),
    "ill_look": ("ill_blood", "ill_breath", "ill_eyes", "ill_loose", "ill_none"),
    "vet_said": ("vet_danger", "vet_not_yet", "vet_free"),
}
TELLS_ALL = ("check_back", "vet_reached", "well", "what")  # whose answers tell of the birds as well
NONE_OF = ("spot_none", "look_none", "dead_whole", "dry")  # told alone; beside another it falls
_LITTER_SIGNS = {"wet": "litter_wet", "caked": "litter_caked", "smells": "ammonia_smell"}
_UNASKED = {"litter": ("dry", *_LITTER_SIGNS), "vet_reached": ("yes", "not_yet")}
_BARRED = {"behaviour": ("dead", "lost", "@others")}  # said of others than those alive
YES, NO = "yes", "no"
SIGN = "sign:"  # questions of one sign
WORRY = "worry"  # no question of ours: "is it serious", "what do I do"
BETTER, SAME, WORSE = "better", "same", "worse"


class Word(NamedTuple):
    """One place of a form: any of these words, classes or stems of verbs."""

    plain: tuple[str, ...]
    classes: tuple[str, ...]
    stems: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Form:
    """One way to say an option. words: their numbers in `Forms`. language: index of the folder.
    order: its place among the forms of its question."""

    option: str
    words: tuple[int, ...]
    language: int
    order: int


@dataclass(frozen=True, slots=True)
class Said:
    """options: the codes told, joined by "+" where several hold. used: the places of the words.
    short: told by single words alone, which may be of another matter. several: more than one option
    of this menu may hold. tells_all: what the words tell of the birds holds beside the answer."""

    options: str
    used: frozenset[int]
    short: bool = False
    several: bool = False
    tells_all: bool = False


class Told(NamedTuple):
    """An answer to a question that is not open."""

    question: str
    option: str

    @property
    def signs(self) -> tuple[tuple[str, bool], ...]:
        """The signs that it tells, each with whether it is there; () where it is of none."""
        if self.question.startswith(SIGN):
            return ((self.question.removeprefix(SIGN), self.option == YES),)
        options = self.option.split("+")
        return tuple((sign, True) for option, sign in _LITTER_SIGNS.items() if option in options)


@dataclass(frozen=True, slots=True)
class _Place:
    form: Form
    used: frozenset[int]
    denied: bool

    @property
    def length(self) -> int:
        return max(self.used) - min(self.used)


ABOUT = "about"  # beside the options: the things that a question is about
Standing = Mapping[int, frozenset[int]]  # where in a text each word of the forms stands


class Spelt(NamedTuple):
    """Words that may be misspelt, with the number of each."""

    words: list[str]
    numbers: list[int]


@dataclass(slots=True, eq=False)
class Forms:
    """Every way to say every option, of all languages. of: by the name of the question, then by the
    number of the first word. words: by their numbers, each once. The other tables look up which of
    them a word of a text is."""

    lexicon: Lexicon
    of: dict[str, dict[int, list[Form]]] = field(default_factory=dict)
    words: list[Word] = field(default_factory=list)
    _exact: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))
    _begun: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))
    _stems: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))
    _classes: dict[str, list[int]] = field(default_factory=lambda: defaultdict(list))
    _spelt: dict[str, Spelt] = field(default_factory=lambda: defaultdict(lambda: Spelt([], [])))
    _filled: Callable[[str], tuple[int, ...]] = field(init=False)
    _last: tuple[Text | None, Standing] = (None, {})  # one text is asked for several questions

    def __post_init__(self) -> None:
        self._filled = lru_cache(KEPT)(self._fills)

    def add(self, word: Word) -> None:
        """Take in a word, under the number of its place in `words`."""
        number = len(self.words)
        self.words.append(word)
        for one in word.classes:
            self._classes[one].append(number)
        for one in word.stems:
            self._stems[one].append(number)
        for one in word.plain:
            if one[-1] == "*":
                self._begun[one[:-1]].append(number)
                continue
            self._exact[one.removeprefix("=")].append(number)
            if one[0] != "=" and len(one) >= SHORTEST:
                alike = self._spelt[one[0]]
                alike.words.append(one)
                alike.numbers.append(number)

    def told(self, question: str, standing: Standing) -> list[Form]:
        """The forms of a question whose words all stand in a text, in the order of the folders."""
        by_first = self.of.get(question, {})
        found: list[Form] = []
        for first in by_first.keys() & standing.keys():
            for form in by_first[first]:
                for word in form.words:  # plain loops, for speed: most forms go no further
                    if word not in standing:
                        break
                else:
                    found.append(form)
        return sorted(found, key=lambda form: form.order)

    def standing(self, text: Text) -> Standing:
        """Where each of the words stands that stand in a text."""
        last, found = self._last
        if last is not text:
            found = self._stand(text)
            self._last = text, found
        return found

    def _stand(self, text: Text) -> Standing:
        found: dict[int, set[int]] = defaultdict(set)
        for at, token in enumerate(text.tokens):
            for number in self._filled(token.text):
                found[number].add(at)
        for name in text.spans.keys() & self._classes.keys():
            places = {at for span in text.spans[name] for at in range(span.start, span.end)}
            for number in self._classes[name]:
                found[number] |= places
        return {number: frozenset(places) for number, places in found.items()}

    def _fills(self, token: str) -> tuple[int, ...]:
        """The numbers of the words that a word of a text is, by itself."""
        found = list(self._exact.get(token, ()))
        for length in range(1, len(token) + 1):
            found += self._begun.get(token[:length], ())
            if _prefix(token, token[length:], self.lexicon) is not None:
                found += self._stems.get(token[length:], ())
        if len(token) >= SHORTEST and token[0] in self._spelt:
            words, numbers = self._spelt[token[0]]
            like = process.extract(token, words, scorer=fuzz.ratio, score_cutoff=LIKE, limit=None)
            found += (numbers[at] for _, _, at in like)
        return tuple(dict.fromkeys(found))


def build_forms(words: Words, lexicon: Lexicon) -> Forms:
    """Every way to say every option, of all languages."""
    forms = Forms(lexicon)
    numbers: dict[Word, int] = {}
    count = 0
    for at, language in enumerate(words.languages):
        for question, options in language.replies.items():
            by_first = forms.of.setdefault(question, {})
            for option, texts in options.items():
                for text in texts:
                    own = [_word(place.split("|")) for place in text.split()]
                    for word in own:
                        if word not in numbers:
                            numbers[word] = len(numbers)
                            forms.add(word)
                    count += 1
                    form = Form(option, tuple(numbers[word] for word in own), at, count)
                    by_first.setdefault(form.words[0], []).append(form)
    return forms


def _word(options: Sequence[str]) -> Word:
    classes = tuple(one[1:-1] for one in options if one[0] == "<")
    stems = tuple(one[1:] for one in options if one[0] == "-")
    return Word(tuple(one for one in options if one[0] not in "<-"), classes, stems)


def spoken(
    text: Text,
    hearing: Hearing,
    forms: Forms,
    opening: int = 0,
) -> Said | None:
    """What of the open menu is told in words; None where nothing of it is. opening: tokens of an
    answer before them, in which a no denies nothing."""
    if hearing.asked not in forms.of or not hearing.options:
        return None
    if hearing.asked == "behaviour" and text.has("lies_flat"):
        return None  # that they lie everywhere tells of no calm
    mine = _of_languages(text, hearing, forms)
    standing = forms.standing(text)
    wanted = [
        form
        for form in forms.told(hearing.asked, standing)
        if form.language in mine and form.option != ABOUT
    ]
    found = [
        place
        for clause in text.clauses
        if hearing.asked == WORRY
        or not (clause.asked or clause.has("@if", *_BARRED.get(hearing.asked or "", ())))
        for form in wanted
        for place in _places(text, standing, clause, form, forms, opening)
    ]
    flips = _flips(hearing)
    told = _apart(one for one in found if flips or not one.denied)
    if hearing.asked == "check_back":
        told = _of_most(told, text)
    options = _chosen(told, hearing)
    if not options:
        return None
    used = frozenset(at for place in told for at in place.used)
    short = all(len(place.form.words) == 1 for place in told)
    tells_all = hearing.asked in TELLS_ALL
    return Said("+".join(options), used, short, _several(hearing), tells_all)


def told_unasked(text: Text, hearing: Hearing, forms: Forms) -> Iterator[Told]:
    """What a text tells that we might have asked: it names the thing, and says how it is ("the
    drinkers were full at 6"). Of signs that are asked for with yes or no, litter and the vet."""
    standing = forms.standing(text)
    for question in forms.of:
        if not any(
            _from(text, standing, form, at)
            for form in forms.told(question, standing)
            if form.option == ABOUT
            for at in standing[form.words[0]]
        ):
            continue
        options = (YES, NO) if question.startswith(SIGN) else _UNASKED.get(question, ())
        asked = replace(hearing, asked=question, options=options)
        said = spoken(text, asked, forms)
        if said is not None:
            yield Told(question, said.options)


class Aside(NamedTuple):
    """One thing told under a heading that is no question of ours. clause: where it stands."""

    option: str
    denied: bool
    clause: Clause


def told_aside(text: Text, heading: str, hearing: Hearing, forms: Forms) -> list[Aside]:
    """All that is told under a heading of replies.yaml, by clause, `about` included."""
    mine = _of_languages(text, hearing, forms)
    standing = forms.standing(text)
    wanted = [form for form in forms.told(heading, standing) if form.language in mine]
    told: list[Aside] = []
    for clause in text.clauses if wanted else ():
        found = [
            place
            for form in wanted
            for place in _places(text, standing, clause, form, forms, 0, alone=True)
        ]
        said = _apart(one for one in found if one.form.option != ABOUT)
        said += [one for one in found if one.form.option == ABOUT]
        told += [Aside(one.form.option, one.denied, clause) for one in said]
    return told


def _apart(found: Iterable[_Place]) -> list[_Place]:
    """Of ways that stand on the same words the one that says more."""
    kept: list[_Place] = []
    for one in sorted(found, key=lambda one: (-len(one.form.words), one.length)):
        if all(one.used.isdisjoint(other.used) for other in kept):
            kept.append(one)
    return kept


def _of_most(told: list[_Place], text: Text) -> list[_Place]:
    """ "a few are still in the corner but the others are calm": what is as before with a few is not
    so with the flock, where the rest are better."""

    def of_few(one: _Place) -> bool:
        same = one.form.option == SAME
        return same and any(
            clause.has("@few") and clause.start <= min(one.used) < clause.end
            for clause in text.clauses
        )

    better = any(one.form.option == BETTER and not one.denied for one in told)
    return [one for one in told if not of_few(one)] if better else told


def _chosen(told: Sequence[_Place], hearing: Hearing) -> tuple[str, ...]:
    other = {YES: NO, NO: YES, BETTER: SAME, WORSE: SAME}
    named = {other.get(one.form.option, "") if one.denied else one.form.option for one in told}
    if not _several(hearing):
        order = ONE_OF.get(hearing.asked or "", (YES, NO))
        return next(((one,) for one in order if one in named), ())
    kept = tuple(one for one in hearing.options if one in named)
    return tuple(one for one in kept if one not in NONE_OF) or kept


def _flips(hearing: Hearing) -> bool:
    """Whether an option denied is the other one."""
    return {YES, NO} <= set(hearing.options) or BETTER in hearing.options


def _several(hearing: Hearing) -> bool:
    return not {YES, NO} <= set(hearing.options) and hearing.asked not in ONE_OF


def _of_languages(text: Text, hearing: Hearing, forms: Forms) -> frozenset[int]:
    """The folders whose forms are looked for: the farmer's language, and that of the text."""
    wanted = (hearing.language, *text.languages[:1])
    return frozenset(at for at, code in enumerate(forms.lexicon.codes) if code in wanted)


def _places(
    text: Text,
    standing: Standing,
    clause: Clause,
    form: Form,
    forms: Forms,
    opening: int,
    *,
    alone: bool = False,
) -> Iterator[_Place]:
    """Where a form, whose words stand in the text, begins in a clause, each place once; its other
    words may stand in the next clause. alone: one word tells in a long clause as well."""
    if len(form.words) == 1 and not alone and _length(text, clause) > SHORT:
        return
    free = clause.start
    for start in sorted(standing[form.words[0]]):
        if not free <= start < clause.end:
            continue
        used = _from(text, standing, form, start)
        if used is not None:
            reach = range(max(clause.start, opening), clause.end)
            denied = _denied(text, reach, form, used, forms)
            yield _Place(form, frozenset(used), denied)
            free = used[-1] + 1


def _length(text: Text, clause: Clause) -> int:
    return sum(text.tokens[at].kind != "mark" for at in range(clause.start, clause.end))


def _from(text: Text, standing: Standing, form: Form, start: int) -> tuple[int, ...] | None:
    """The places of the words of a form whose first word stands here; None where the others do not
    follow."""
    used = [start]
    for word in form.words[1:]:
        first = used[-1] + 1
        places = range(first, min(first + GAP, len(text.tokens) - 1) + 1)
        broken = next((at for at in places if text.tokens[at].text in BREAKS), places.stop)
        stands = standing.get(word, ())
        here = next((at for at in range(first, broken) if at in stands), None)
        if here is None:
            return None
        used.append(here)
    return tuple(used)


def _denied(text: Text, places: range, form: Form, used: Sequence[int], forms: Forms) -> bool:
    """A negator shortly before it, a verb that denies, or a word that it is over. A form that holds
    a negator says itself what is denied; a no that opens a statement of all is an answer."""
    if any(text.at("@neg", at) for at in used):
        return False
    whole = _in_classes(text, form, used, forms)
    first = min((span.start for span in whole), default=used[0])
    before = range(max(places.start, min(first, used[0]) - REACH), used[0])
    negators = [at for at in before if text.at("@neg", at) and not text.at("@answer:yes", at)]
    if any(not _only_answers(text, at) for at in negators):
        return True
    if any(span.denied for span in whole):
        return True  # "none of us is dizzy"
    behind = range(used[0], min(used[-1] + REACH + 1, places.stop))
    over = (span for name in ("@gone", "@negafter") for span in text.spans.get(name, ()))
    if any(one.start in behind and not {*range(one.start, one.end)} & {*used} for one in over):
        return True
    stems = (
        _prefix(text.tokens[at].text, one, forms.lexicon) or 0
        for at, word in zip(used, form.words, strict=True)
        for one in forms.words[word].stems
    )
    return any(flags & DENIED for flags in stems) or any(
        _denying(text, at, forms.lexicon) for at in before[-2:]
    )


def _in_classes(text: Text, form: Form, used: Sequence[int], forms: Forms) -> list[Span]:
    """The entries of classes of words that a form stands on: "mal a la tete" is denied as a
    whole."""
    return [
        span
        for at, word in zip(used, form.words, strict=True)
        for name in forms.words[word].classes
        for span in text.spans.get(name, ())
        if span.start <= at < span.end
    ]


def _only_answers(text: Text, at: int) -> bool:
    """ "no all burn", "non ils sont pleins"."""
    opens = at == 0 and text.at("@answer:no", at)
    return opens and any(text.at(name, at + 1) for name in ("@whole", "@many", "@pronouns"))


def _denying(text: Text, at: int, lexicon: Lexicon) -> bool:
    """A Swahili verb in a form that denies ("hakina")."""
    known = [one for one in lexicon.look_up(text.tokens[at].text) if one.name[0] != "="]
    return bool(known) and all(one.flags & DENIED for one in known)


def _prefix(token: str, stem: str, lexicon: Lexicon) -> Flag | None:
    """What the prefix of a verb says, None where the word is no form of this stem."""
    begun = token.removesuffix(stem) if token.endswith(stem) else ""
    found = (one[begun] for one in lexicon.verb_prefixes if begun in one)
    return next(found, None)

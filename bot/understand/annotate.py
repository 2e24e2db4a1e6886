"""Tokens in, an annotated text out: classes of words, numbers, clauses, what is denied. Pure.

Called by `read`. Everything later (signs, facts, questions) looks only at this.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Protocol

from bot.understand.lexicon import DENIED, IN_PATTERNS, PAST, Entry, Lexicon, Reading
from bot.understand.numbers import Number, NumberSpans, find_numbers
from bot.understand.patterns import Match, PatternSet, Span
from bot.understand.sounds import Sounds
from bot.understand.spelling import Speller
from bot.understand.tidy import BREAKS, Token, plain, tokens

MAX_TOKENS = 400
REACH = 5
NEAR_TOLD = 3  # words between a time and "i told you"
YEARS = range(1990, 2100)
_BARE = ("@answer:no", "@number:0")
_OF_A_TIME = ("@article", "hour_word", "@days")
_OF_A_THING = ("eat", "drink", "drank", "fed", "have", "see", "@sees", "move", "breathe")
# What may follow "the others" where something is told of them.
_TOLD_OF = (
    *("copula", "eat", "drink", "breathe", "move", "walk", "well", "quiet", "all_well", "open"),
    "occupied",
    *("@verb", "@neg", "@pronouns", "@auxiliary", "@still"),
)
_OF_ONE = ("@few", "few_only", "a_bird", "n")  # before "the others": those they are set against
_SET_APART = ("others", "earlier", "no_birds")
TELLER = "teller"  # of `told_of`: somebody who tells of the own birds
_PERSONS = frozenset({"@plural", "@few"})  # what the prefix of a verb alone says


@dataclass(slots=True)
class Clause:
    """Tokens start..end between breaks. sentence: clauses of one sentence share it."""

    start: int
    end: int
    sentence: int
    spans: dict[str, list[Span]] = field(default_factory=dict)
    readings: list[Match] = field(default_factory=list)
    asked: bool = False  # the sentence ends with a question mark
    anew: tuple[int, ...] = ()  # subjects behind a closed denial, with which a new statement begins

    def has(self, *names: str) -> bool:
        """Whether any of the classes stands in the clause."""
        return not self.spans.keys().isdisjoint(names)


Valued = Mapping[str, Mapping[str, list[Span]]]  # "@day:-1" as {"@day": {"-1": ...}}
Little = Mapping[str, frozenset[str]]
_NOWHERE: Mapping[str, list[Span]] = {}


@dataclass(slots=True)
class Text:
    """An annotated text. plain: in lower-case ASCII. languages: codes by likelihood. guessed:
    tokens taken for another word. valued: classes that carry a value, by their kind. little: little
    words of all languages, by what they do."""

    plain: str
    tokens: list[Token]
    spans: dict[str, list[Span]]
    clauses: list[Clause]
    numbers: list[Number]
    languages: list[str]
    guessed: frozenset[int]
    unknown: int
    cut: bool
    active: frozenset[int] = frozenset()  # folders whose words carry the text
    valued: Valued = field(default_factory=dict)
    little: Little = field(default_factory=dict)

    def is_little(self, word: str, name: str, marks: str = "") -> bool:
        """Whether a word is one of the little words of that name, or one of these marks."""
        return word in self.little[name] or (len(word) == 1 and word in marks)

    def clause_at(self, index: int) -> Clause:
        """The clause in which a token stands."""
        return next(one for one in self.clauses if one.start <= index < one.end)

    def ends_at(self, index: int) -> bool:
        """Whether the text ends before a token, or a mark stands there."""
        return index >= len(self.tokens) or self.tokens[index].kind == "mark"

    def has(self, *names: str) -> bool:
        """Whether any of the classes stands in the text."""
        return not self.spans.keys().isdisjoint(names)

    def at(self, name: str, index: int) -> bool:
        """Whether a token belongs to a class."""
        places = self.spans.get(name)
        return places is not None and any(span.start <= index < span.end for span in places)

    def values(self, kind: str) -> Mapping[str, list[Span]]:
        """Where the classes of a kind stand, by value: of "@day" those of "-1", "0", ..."""
        return self.valued.get(kind, _NOWHERE)

    def words(self) -> list[str]:
        """The words and numbers, without marks."""
        return [token.text for token in self.tokens if token.kind != "mark"]


def annotate(raw: str, words: Known, language: str | None) -> Text:
    """Tidy, cut into tokens and mark them."""
    lexicon, speller = words.lexicon, words.speller
    text, cut = plain(raw)
    found = tokens(text, lexicon.exact.__contains__)[:MAX_TOKENS]
    found = _apart(found, lexicon, speller)
    entries, guessed, unknown = _entries(found, lexicon, speller)
    scores = _language_scores(found, entries, lexicon, language)
    best = max(range(len(scores)), key=lambda at: scores[at])
    if scores[best]:
        foreign = frozenset(range(len(scores))) - _active(scores, 0.4)
        found, entries, heard = _by_ear(found, entries, words, best, foreign)
        guessed = [*guessed, *heard]
        unknown = sum(
            not known and token.kind == "word" for token, known in zip(found, entries, strict=True)
        )
    alone = _wholly_in(found, entries, lexicon, language)
    active, carrying = alone or _active(scores, 0.4), alone or _active(scores, 0.25)
    spans = _spans([lexicon.reading(one, active) for one in entries], active)
    spans = _without_telling(_without_covered(spans))
    valued = _valued(spans)
    numbers = find_numbers(found, _number_spans(spans, valued), words.little)
    numbers = [one for one in numbers if not _of_a_unit(one, spans)]
    numbers = [_no_hundred(one, found, spans, words.little) for one in numbers]
    if numbers:
        spans["n"] = [Span(number.start, number.end) for number in numbers]
    for year in _years(numbers, spans):
        for name in ("@others", "@earlier"):
            spans.setdefault(name, []).append(year)
            spans[name].sort(key=lambda span: (span.start, -span.end))
    order = sorted(range(len(scores)), key=lambda at: -scores[at])
    clauses = _clauses(found, spans, valued)
    for clause in clauses:
        clause.spans = _inside(spans, clause)
        _keep_opening(clause)
    _opening_ifs(found, clauses, spans)
    for clause in clauses:
        _tell_of(clause, words.told_of, carrying, spans)
        _closing_no(found, clause, words.little)
        _keep_looking_back(found, clause, words.little)
        clause.anew = tuple(_begun_anew(clause))
        _mark_denied(clause)
    return Text(
        text,
        found,
        spans,
        clauses,
        numbers,
        [lexicon.codes[at] for at in order if scores[at] > 0],
        frozenset(guessed),
        unknown,
        cut,
        carrying,
        valued,
        words.little,
    )


def _of_a_unit(number: Number, spans: Mapping[str, Sequence[Span]]) -> bool:
    """ "75 pour cent", "75 per hundred": the hundred belongs to the unit."""
    return any(
        one.start < number.start and number.end <= one.end for one in spans.get("@unit:percent", ())
    )


def _years(numbers: Iterable[Number], spans: dict[str, list[Span]]) -> Iterable[Span]:
    """ "in 2023 i lost 80", "mwaka 2023": a year told is a time gone by."""
    words = {span.end for span in spans.get("year_word", ())}
    counted = {span.start for span in spans.get("bird", ())}
    for one in numbers:
        year = one.value in YEARS and one.value % 100 and not one.spelt
        if year and one.start in words and one.end not in counted:
            yield Span(one.start, one.end)


def _tell_of(
    clause: Clause, patterns: PatternSet, active: frozenset[int], spans: dict[str, list[Span]]
) -> None:
    """Marks where a clause tells of others' birds, of an earlier batch ("batch ya december"), of no
    birds at all ("the road is paralysed"), or that it is here as well ("and now these too"). Who
    only tells of the own birds ("the neighbour says my chicks cough") has none of his own there."""
    for match in patterns.find(clause.spans, active):
        span = Span(match.start, match.end)
        if match.name == TELLER:
            for named in (clause.spans, spans):
                named["@others"] = [
                    one
                    for one in named.get("@others", ())
                    if one.end <= span.start or span.end <= one.start
                ]
                if not named["@others"]:
                    del named["@others"]
            continue
        names = [f"@{match.name}"]
        if match.name == "earlier":
            names.append("@others")
        if match.name in _SET_APART:
            names.append("@set_apart")
        for name in names:
            for places in (clause.spans.setdefault(name, []), spans.setdefault(name, [])):
                places.append(span)
                places.sort(key=lambda one: (one.start, -one.end))


class Known(Protocol):
    """What `annotate` looks words up in; `index.Index` is one."""

    @property
    def lexicon(self) -> Lexicon:
        """Words, forms and phrases of all languages."""
        ...

    @property
    def speller(self) -> Speller:
        """Misspelt words."""
        ...

    @property
    def told_of(self) -> PatternSet:
        """Patterns of whom or of which time a clause tells."""
        ...

    @property
    def sounds(self) -> tuple[Sounds, ...]:
        """Words written by ear, for each language."""
        ...

    @property
    def little(self) -> Little:
        """Little words of all languages, by what they do."""
        ...


def _by_ear(
    found: Sequence[Token],
    entries: list[tuple[Entry, ...]],
    words: Known,
    language: int,
    foreign: frozenset[int],
) -> tuple[list[Token], list[tuple[Entry, ...]], list[int]]:
    """Words that the language of the text does not know, as it hears them. foreign: languages that
    carry no part of the text; a word of theirs is as good as unknown ("kolé" in French)."""
    sounds = words.sounds[language]
    whole: list[Token] = []
    known: list[tuple[Entry, ...]] = []
    heard: list[int] = []
    for token, entry in zip(found, entries, strict=True):
        strange = token.kind == "word" and foreign.issuperset([one.language for one in entry])
        parts = sounds.apart(token.text) if strange else None
        if parts is not None:
            whole.append(Token(parts[0], "word"))
            known.append(words.lexicon.look_up(parts[0]))
            token, entry = Token(parts[1], "word"), words.lexicon.look_up(parts[1])
            strange = not entry
        meant = sounds.heard(token.text) if strange else None
        if meant is not None:
            entry = words.lexicon.look_up(meant)
            heard.append(len(whole))
        whole.append(token)
        known.append(entry)
    return whole, known, heard


def _apart(found: list[Token], lexicon: Lexicon, speller: Speller) -> list[Token]:
    """Words run together are taken apart, where they mean nothing as they stand."""
    whole: list[Token] = []
    for token in found:
        parts: tuple[str, ...] = ()
        unknown = token.kind == "word" and not lexicon.look_up(token.text)
        if unknown and speller.correct(token.text) is None:
            parts = speller.split(token.text, lexicon.is_word)
        whole.extend(Token(one, "word") for one in parts) if parts else whole.append(token)
    return whole


def _entries(
    found: Sequence[Token], lexicon: Lexicon, speller: Speller
) -> tuple[list[tuple[Entry, ...]], list[int], int]:
    entries: list[tuple[Entry, ...]] = []
    guessed: list[int] = []
    unknown = 0
    for at, token in enumerate(found):
        known = lexicon.look_up(token.text)
        if token.kind == "word" and _is_bare(known):
            better = None if known else speller.correct(token.text)
            better = better or speller.verb(token.text, lexicon)
            if better is not None:
                known = (*lexicon.look_up(better), *known)
                guessed.append(at)
            elif not known and len(token.text) > 1:
                unknown += 1
        entries.append(known)
    return entries, guessed, unknown


def _is_bare(known: Iterable[Entry]) -> bool:
    """No more than the persons of a verb, or the beginning of a word in some pattern ("=wana*")."""
    names = (entry.name for entry in known)
    return all(
        name in _PERSONS or (name[0] == "=" and name[-1] == "*") or name[0] == "~" for name in names
    )


def _language_scores(
    found: Sequence[Token],
    entries: Sequence[tuple[Entry, ...]],
    lexicon: Lexicon,
    language: str | None,
) -> list[float]:
    """How much speaks for each language: words only it knows count most."""
    scores = [0.0] * len(lexicon.codes)
    for token, known in zip(found, entries, strict=True):
        if not known or token.kind == "number":
            continue
        languages = {entry.language for entry in known}
        share = 1.0 if len(languages) == 1 else 0.3 / len(languages)
        for at in languages:
            scores[at] += share
    if language in lexicon.codes:
        scores[lexicon.codes.index(language)] += 0.3
    return scores


def _wholly_in(
    found: Sequence[Token],
    entries: Sequence[tuple[Entry, ...]],
    lexicon: Lexicon,
    language: str | None,
) -> frozenset[int]:
    """The listener's language, where it knows every word of the text: no other is read then."""
    if language not in lexicon.codes:
        return frozenset()
    at = lexicon.codes.index(language)
    words = [known for token, known in zip(found, entries, strict=True) if token.kind == "word"]
    return frozenset({at}) if words and all(_is_of(at, known) for known in words) else frozenset()


def _is_of(language: int, known: Sequence[Entry]) -> bool:
    """A word of this language: it means something there, or stands only in a pattern there."""
    meaning = [one.language for one in known if one.name[0] not in IN_PATTERNS]
    return language in (meaning or [one.language for one in known])


def _active(scores: Sequence[float], share: float) -> frozenset[int]:
    best = max(scores, default=0.0)
    return frozenset(at for at, score in enumerate(scores) if score > 0 and score >= share * best)


def _spans(read: Sequence[Reading], active: frozenset[int]) -> dict[str, list[Span]]:
    spans: dict[str, list[Span]] = defaultdict(list)
    for at, word in enumerate(read):
        for name, denied, past in word.classes:
            spans[name].append(Span(at, at + 1, denied, -1, past))
        begun = [
            (name, _phrase(parts, whole, at)) for name, parts, whole in _phrases(read, at, active)
        ]
        for name, span in begun:
            spans[name].append(span)
        for name in {name for name, _ in begun}:  # of those that begin here the longest is first
            spans[name].sort(key=lambda span: (span.start, -span.end))
    return spans


def _phrases(
    read: Sequence[Reading], at: int, active: frozenset[int]
) -> Iterable[tuple[str, tuple[str, ...], Sequence[Reading]]]:
    """The phrases that begin with a word, with their parts and the words that stand for them."""
    begun = read[at].phrases
    if not begun or at + 1 == len(read):
        return
    rows = (
        row
        for second, _, _ in read[at + 1].classes
        for phrases in begun
        if second in phrases
        for row in phrases[second]
    )
    for parts, entry in rows:
        whole = read[at : at + len(parts)]
        if len(whole) < len(parts):
            continue
        if not all(part in word.names for part, word in zip(parts, whole, strict=True)):
            continue
        if entry.language in active or not _known_in(whole, active):
            yield entry.name, parts, whole


def _known_in(read: Iterable[Reading], active: frozenset[int]) -> bool:
    """Every word means something in the languages of the text: a phrase of another is none
    ("si ya" is Swahili, not French)."""
    return all(
        any(one.language in active and one.name[0] not in IN_PATTERNS for one in word.entries)
        for word in read
    )


def _phrase(parts: Sequence[str], read: Sequence[Reading], start: int) -> Span:
    """A phrase is denied, or past, where the verb in it is ("hawatafuti hewa"); one that is written
    with the denied verb ("hawezi simama") is what it says."""
    denied = past = False
    for part, word in zip(parts, read, strict=True):
        forms = [entry.flags for entry in word.entries if entry.name == part]
        denied = denied or all(one & DENIED for one in forms)
        past = past or any(one & PAST for one in forms)
    return Span(start, start + len(read), denied, -1, past)


def _without_covered(spans: dict[str, list[Span]]) -> dict[str, list[Span]]:
    """Words inside a harmless phrase mean nothing; a phrase that denies nothing is no negator."""
    harmless = {at for span in _harmless(spans) for at in range(span.start, span.end)}
    idle = {
        at
        for span in spans.get("@notneg", ())
        if not any(_covers(one, span) for one in spans.get("@neg", ()))
        for at in range(span.start, span.end)
    }
    along = spans.get("whole_time", ())
    times = (*spans.get("@earlier", ()), *spans.get("@past", ())) if "@gone" in spans else ()
    if not harmless and not idle and not along and not times:
        return spans
    kept: dict[str, list[Span]] = {}
    for name, places in spans.items():
        gone = harmless | idle if name in ("@neg", "@negafter", "@gone") else harmless
        left = [
            span
            for span in places
            if name == "@harmless"
            or not (
                gone & {*range(span.start, span.end)}
                or _is_part(span, along)
                or (name == "@gone" and _is_part(span, times))  # "last year" is not over
            )
        ]
        if left:
            kept[name] = left
    return kept


def _is_part(span: Span, along: Iterable[Span]) -> bool:
    """ "muda wote", "toute la journee": the "all" of a time counts no birds."""
    return any(
        one.start <= span.start
        and span.end <= one.end
        and span.end - span.start < one.end - one.start
        for one in along
    )


def _without_telling(spans: dict[str, list[Span]]) -> dict[str, list[Span]]:
    """Without the time at which something was told: of "yesterday i told you blood in droppings"
    the telling is past, not the blood."""
    if "i_said" not in spans or "@past" not in spans:
        return spans
    told = [(one.start - NEAR_TOLD, one.end) for one in spans["i_said"]]
    kept = [
        one for one in spans["@past"] if not any(start <= one.start <= end for start, end in told)
    ]
    return {**spans, "@past": kept} if kept else {k: v for k, v in spans.items() if k != "@past"}


def _covers(whole: Span, part: Span) -> bool:
    """ "dites pas que", where "pas que" alone is no denial."""
    return whole.start < part.start and part.end <= whole.end


def _harmless(spans: dict[str, list[Span]]) -> Iterable[Span]:
    """A cough of one's own is harmless, but not where smoke is told of."""
    ill = {
        span.start
        for name in ("sneeze", "headache", "dizzy", "sting", "vomit")
        for span in spans.get(name, ())
    }
    for span in spans.get("@harmless", ()):
        if "smoke" not in spans or ill.isdisjoint(range(span.start, span.end)):
            yield span


def _valued(spans: dict[str, list[Span]]) -> Valued:
    valued: dict[str, dict[str, list[Span]]] = {}
    for name, places in spans.items():
        if ":" in name:
            kind, _, value = name.partition(":")
            valued.setdefault(kind, {})[value] = places
    return valued


def _number_spans(spans: dict[str, list[Span]], valued: Valued) -> NumberSpans:
    return NumberSpans(
        {int(value): places for value, places in valued.get("@number", _NOWHERE).items()},
        {int(value): places for value, places in valued.get("@first", _NOWHERE).items()},
        {float(value): places for value, places in valued.get("@amount", _NOWHERE).items()},
        frozenset(span.start for span in spans.get("@joiner", ())),
        {span.start: span.end for span in spans.get("@half", ())},
        frozenset(span.start for span in spans.get("@weak", ())),
    )


def _no_hundred(
    number: Number, found: Sequence[Token], spans: Mapping[str, list[Span]], little: Little
) -> Number:
    """ "trois sans vie": heard, it could be 300; as it is spelt it is "three without", but before
    what is counted."""
    end = number.end
    if end >= len(found) or found[end - 1].text not in little["hundred_or_without"]:
        return number
    counted = (name for name in spans if name == "bird" or name.startswith("@unit:"))
    if found[end].kind != "word" or any(
        one.start == end for name in counted for one in spans[name]
    ):
        return number
    return replace(number, end=end - 1, value=number.value / 100)


def _clauses(found: Sequence[Token], spans: dict[str, list[Span]], valued: Valued) -> list[Clause]:
    starters = {span.start for span in spans.get("@clause", ())}
    if starters:  # French "du mais" is maize, and no "but"
        starters -= {at for span in spans.get("feed", ()) for at in range(span.start + 1, span.end)}
    if "others_rest" in spans:
        starters |= _turns_to_the_rest(spans)
    sighs = _sighs(found, spans, valued) if "what_to_do" in spans else ()
    clauses: list[Clause] = []
    start, sentence = 0, 0

    def close(end: int) -> None:
        if end > start:
            clauses.append(Clause(start, end, sentence))

    for at, token in enumerate(found):
        if token.text in BREAKS:
            close(at)
            start = at + 1
            if token.text == "?":
                for clause in clauses:
                    clause.asked = clause.asked or clause.sentence == sentence
            if token.text != ",":
                sentence += 1
        elif (at in starters or at in sighs) and at > start:
            close(at)
            start = at
            sentence += at in sighs
    close(len(found))
    return clauses


def _turns_to_the_rest(spans: Mapping[str, Sequence[Span]]) -> set[int]:
    """ "one gasps the others breathe well": what is told of the others is a statement of its own.
    Not where they are only named ("it pecks the others", "smaller than the others")."""
    says = {span.start for name in _TOLD_OF for span in spans.get(name, ())}
    named = {span.end for name in ("before_rest", "peck") for span in spans.get(name, ())}
    told = min((span.start for name in _OF_ONE for span in spans.get(name, ())), default=None)
    if told is None:
        return set()
    rest = (one for one in spans["others_rest"] if one.start > told)
    return {one.start for one in rest if one.end in says and one.start not in named}


def _sighs(found: Sequence[Token], spans: dict[str, list[Span]], valued: Valued) -> set[int]:
    """ "they gasp what do i do?": what is told stands for itself, and the question closes the text.
    Not behind an "if" or "when" that opens what is asked about."""
    words = [at for at, token in enumerate(found) if token.kind != "mark"]
    supposing = {
        span.start
        for name in ("@if", "@ifform", "@maybe_if", "when_word")
        for span in spans.get(name, ())
    }
    ends = {words[-1] + 1} if words else set()
    opened = supposing.intersection(range(3)) and "wake_try" not in spans
    days = valued.get("@day", _NOWHERE).values()
    idle = {
        at
        for places in (spans.get("@polite", ()), spans.get("@now", ()), *days)
        for span in places
        for at in range(span.start, span.end)
    }
    return {
        span.start
        for span in spans.get("what_to_do", ())
        if span.end in ends
        and not opened
        and any(at not in idle for at in words if at < span.start)  # "today what do I do" wishes
    }


def _inside(spans: dict[str, list[Span]], clause: Clause) -> dict[str, list[Span]]:
    inside: dict[str, list[Span]] = {}
    for name, places in spans.items():
        kept = [span for span in places if clause.start <= span.start and span.end <= clause.end]
        if kept:
            inside[name] = kept
    return inside


def _keep_opening(clause: Clause) -> None:
    """ "is husk ok" asks, "husk is ok" tells: a word of `opening` counts only where it begins the
    clause, after polite words."""
    polite = {at for span in clause.spans.get("@polite", ()) for at in range(span.start, span.end)}
    first = next((at for at in range(clause.start, clause.end) if at not in polite), clause.start)
    kept = [span for span in clause.spans.pop("opening", ()) if span.start == first]
    if kept:
        clause.spans["opening"] = kept


def _opening_ifs(
    found: Sequence[Token], clauses: Sequence[Clause], spans: dict[str, list[Span]]
) -> None:
    """ "kama wanaharisha damu nifanye nini": a word that is also "like" or "about" is an "if" where
    it opens a sentence that asks, with no figure behind it."""
    for clause in clauses:
        for span in clause.spans.get("@maybe_if", ()):
            little = all(
                any(
                    name in ("@polite", "@if") and at in range(one.start, one.end)
                    for name, places in clause.spans.items()
                    for one in places
                )
                for at in range(clause.start, span.start)
            )
            figure = span.end < len(found) and found[span.end].value is not None
            asks = any(
                one.asked or one.has("@question", "what_to_do")
                for one in clauses
                if one.sentence == clause.sentence
            )
            if little and asks and not figure:
                clause.spans.setdefault("@if", []).append(span)
                spans.setdefault("@if", []).append(span)


def joins(clause: Clause) -> list[Span]:
    """Words that join two statements ("and"), where they are no negators themselves."""
    negators = {span.start for name in ("@neg", "@negafter") for span in clause.spans.get(name, ())}
    return [span for span in clause.spans.get("@joins", ()) if span.start not in negators]


def over_join(ands: Sequence[Span], end: int, start: int, *, near: int = 0) -> bool:
    """Whether a joining word stands between, more than `near` words before `start`: a denial that
    ends at `end` does not reach it ("no smell and the litter is dry"; but "no cough and rattle").
    """
    return any(end <= one.start and near < start - one.end for one in ands)


def _begun_anew(clause: Clause) -> Iterable[int]:
    """ "no cough they eat well", "avance pas il tourne": a subject behind what is denied, unless
    the word before it lets the denial through ("i dont think they cough")."""
    negators = {span.end for span in clause.spans.get("@neg", ())}
    closed = {span.end for span in clause.spans.get("@negafter", ())}
    through = {span.end for span in clause.spans.get("@carries", ())}
    for span in clause.spans.get("@subject", ()):
        opened = span.start in negators and span.start not in closed
        if not opened and span.start not in through:
            yield span.start
    links = {span.start for name in ("@joins", "@neg") for span in clause.spans.get(name, ())}
    for name in ("dead", "lost"):
        for span in clause.spans.get(name, ()):
            if span.start in negators and span.end not in links:
                yield span.end - 1  # "no deaths, ate 32 kg": the negator has its word
    they = {span.start for span in clause.spans.get("@plural", ())}
    they &= {span.start for span in clause.spans.get("@verb", ())}
    they -= {span.start for span in clause.spans.get("~relative", ())}
    for span in clause.spans.get("@joins", ()) if they else ():
        if span.end in they:
            yield span.start  # "hakuna aliyekufa na wanakula": but not "... na wanaokohoa"


def anew(clause: Clause, end: int, start: int) -> bool:
    """Whether a new statement begins between a negator that ends at `end` and what starts there."""
    return any(end <= at < start for at in clause.anew)


def _closing_no(found: Sequence[Token], clause: Clause, little: Little) -> None:
    """ "cough no", "blood zero": a bare no that ends the clause denies the word before it."""
    last = clause.end - 1
    bare = any(Span(last, clause.end) in clause.spans.get(name, ()) for name in _BARE)
    if not bare or last == clause.start or found[last - 1].text in little["either_closing"]:
        return
    after = clause.spans.setdefault("@negafter", [])
    if all(span.end != clause.end for span in after):
        after.append(Span(last, clause.end))


def _keep_looking_back(found: Sequence[Token], clause: Clause, little: Little) -> None:
    """ "fientes vertes pas de sang": a negator with a partitive behind it denies what follows, and
    nothing before it; but "ne dorment pas de la nuit" goes on with a time, and "mangent pas de
    provende" with what they do not eat."""
    back = clause.spans.get("@negafter")
    if not back:
        return
    doing = {span.end for name in _OF_A_THING for span in clause.spans.get(name, ())}
    times = {span.start for name in _OF_A_TIME for span in clause.spans.get(name, ())}
    ahead = {
        span.end
        for span in back
        if span.end + 1 < clause.end
        and found[span.end].text in little["partitive"]
        and span.end + 1 not in times
        and span.start not in doing
    }
    if not ahead:
        return
    clause.spans["@negafter"] = [span for span in back if span.end not in ahead]
    for name, places in clause.spans.items():
        if name[0] not in "@~=":  # "toussent pas" is no phrase there
            whole = (one for one in places if one.end - one.start == 1 or one.end not in ahead)
            clause.spans[name] = list(whole)


def near_negators(clause: Clause) -> set[int]:
    """Negators that look back one word at most: those that look ahead too, and a bare no."""
    both = {span.start for span in clause.spans.get("@neg", ())}
    bare = (span for name in _BARE for span in clause.spans.get(name, ()))
    return both | {span.start for span in bare if span.end == clause.end}


def _mark_denied(clause: Clause) -> None:
    """Classes that stand after a negator (or before one that looks back) are denied by it."""
    before = clause.spans.get("@neg", [])
    after = clause.spans.get("@negafter", [])
    if not before and not after:
        return
    both = near_negators(clause)
    ands = joins(clause)
    for name, places in clause.spans.items():
        if name[0] in "@~":
            continue
        clause.spans[name] = [
            span if span.denied else _denied(span, clause, both, ands) for span in places
        ]


def _denied(span: Span, clause: Clause, both: set[int], ands: list[Span]) -> Span:
    for negator in reversed(clause.spans.get("@neg", [])):
        near = negator.end <= span.start < negator.end + REACH
        if (
            near
            and not over_join(ands, negator.end, span.start)
            and not anew(clause, negator.end, span.start)
        ):
            return Span(span.start, span.end, True, negator.start, span.past)
    for negator in clause.spans.get("@negafter", []):
        reach = 2 if negator.start in both else REACH
        near = span.end <= negator.start < span.end + reach
        if (
            near
            and not any(span.end <= one.start < negator.start for one in ands)
            and not anew(clause, span.end, negator.start)
        ):
            return Span(span.start, span.end, True, negator.start, span.past)
    return span

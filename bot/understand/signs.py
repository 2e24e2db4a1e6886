"""Which signs a text reports, and which it denies. Pure; called by `read`.

A sign is denied by a negator that reaches it, by words that say it is over, or when it was seen in
the past and the text goes on with something of now. It is not reported at all where the text only
supposes it ("if they pant"), asks about it, or speaks of someone else's birds.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bot.understand.annotate import REACH, Clause, Text
from bot.understand.index import Index
from bot.understand.patterns import Match

BENIGN = frozenset({"spread_evenly", "quiet_content"})
# A sign that is part of another, said in the same words, is not said twice.
INSIDE = {
    "drinking_less": ("not_drinking",),
    "lethargic": ("sleepy_all_birds", "drowsy_people_or_birds_near_stove"),
    "sleepy_all_birds": ("drowsy_people_or_birds_near_stove",),
    "eyes_swollen_or_closed": (),
    "panting": ("gasping",),
}
HEAVY = frozenset({"smoke_or_fumes"})
_LINKS = ("or", "nor", "ou", "ni", "wala", "au", "and", "et", "na", "n", "&", "/", "+")


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign in a clause. denied: said to be absent. many: of many birds, or heavy."""

    name: str
    start: int
    denied: bool
    many: bool
    clause: int
    past: bool = False
    weight: int = 1
    guessed: bool = False


@dataclass(frozen=True, slots=True)
class Signs:
    """present, absent, many: codes in the order said. starts: where each stands."""

    present: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()
    many: tuple[str, ...] = ()
    at: int = 0
    guessed: bool = False
    asked_about: bool = False


def find_signs(text: Text, index: Index, count: int | None) -> Signs:
    """All signs of a text, brought together."""
    found: list[Sign] = []
    supposed = False
    for at, clause in enumerate(text.clauses):
        matches = _clause_matches(clause, index)
        if not matches:
            continue
        if _of_others(text, clause):
            continue
        if _supposed(text, clause, matches, index):
            supposed = True
            continue
        found.extend(_judged(text, at, matches, count))
    found = _past_and_gone(text, found)
    return _together(text, found, supposed)


def _clause_matches(clause: Clause, index: Index) -> list[tuple[Match, bool]]:
    """Matches of a clause, best first for each sign, with whether they say it is absent."""
    best: dict[tuple[str, bool], Match] = {}
    for absent, patterns in ((False, index.present), (True, index.absent)):
        for match in patterns.find(clause.spans):
            if not absent:
                clause.readings.append(match)
            key = (match.name, absent)
            if key not in best or _strength(match) > _strength(best[key]):
                best[key] = match
    for key in [key for key in best if not key[1] and (key[0], True) in best]:
        if best[key].used < best[key[0], True].used:
            del best[key]
    found = [(match, absent) for (_, absent), match in best.items()]
    return [pair for pair in found if not _taken_over(clause, pair[0], found)]


def _taken_over(clause: Clause, match: Match, found: Sequence[tuple[Match, bool]]) -> bool:
    """A negator or "gone" that this match stands on belongs to another sign, said in more words.

    "no more huddling under the lamp" is no lamp that is out; "not drinking too much" is no
    refusing of water.
    """
    little = {
        at
        for name in ("@neg", "@negafter", "@gone")
        for span in clause.spans.get(name, ())
        if span.start in match.used
        for at in range(span.start, span.end)
    }
    core = match.used - little
    if not little or not core:
        return False
    for other, _ in found:
        if other.name == match.name or little & other.used:
            continue
        if core < other.used:
            return True
        between = range(min(little) + 1, min(core))
        if other.used and all(at in between for at in other.used):
            return True
        if core & other.used and min(other.used) in between:
            return True
    return False


def _strength(match: Match) -> tuple[int, int]:
    return (match.weight, -(match.end - match.start))


def _of_others(text: Text, clause: Clause) -> bool:
    """Someone else's birds: said in this sentence, at or before this clause."""
    for other in text.clauses:
        if (
            other.sentence == clause.sentence
            and other.start <= clause.start
            and other.has("@others")
        ):
            own = any(
                one.has("own_birds") and one.start >= other.start
                for one in text.clauses
                if one.sentence == clause.sentence and one.start <= clause.start
            )
            return not own
    return False


def _supposed(
    text: Text, clause: Clause, matches: Sequence[tuple[Match, bool]], index: Index
) -> bool:
    """Only supposed or asked: nothing is reported."""
    used = {at for match, _ in matches for at in match.used}
    first = min(match.start for match, _ in matches)
    for other in text.clauses:
        if other.sentence != clause.sentence or other.start > clause.start:
            continue
        for span in other.spans.get("@if", ()):
            if span.start not in used and (other is not clause or span.start <= first + 1):
                return True
    if _begins_with_if(clause) and _asks(text, clause):
        return True
    danger = any(match.name in index.danger and not absent for match, absent in matches)
    asking = [
        span
        for span in clause.spans.get("@question", ())
        if span.start not in used and _asks_here(text, clause, span.start)
    ]
    if not asking:
        return clause.asked and not danger and clause.has("@question")
    if clause.has("what_to_do") and not clause.has("how_to"):
        return False
    return not (danger and clause.has("why") and clause.has("own_birds", "@plural"))


def _begins_with_if(clause: Clause) -> bool:
    """The first verb is an if-form; after another verb it tells what happens beside it."""
    forms = [span.start for span in clause.spans.get("@ifform", ())]
    verbs = [span.start for span in clause.spans.get("@verb", ())]
    return bool(forms) and not any(verb < forms[0] for verb in verbs)


def _asks_here(text: Text, clause: Clause, at: int) -> bool:
    """ "when" inside a clause only tells the moment ("cold when I touch it")."""
    return clause.asked or at <= clause.start + 1 or not text.at("when_word", at)


def _asks(text: Text, clause: Clause) -> bool:
    return any(
        one.asked or one.has("@question", "what_to_do")
        for one in text.clauses
        if one.sentence == clause.sentence
    )


def _judged(
    text: Text, at: int, matches: Sequence[tuple[Match, bool]], count: int | None
) -> Iterable[Sign]:
    clause = text.clauses[at]
    for match, absent in matches:
        if absent:
            denied = not _negated(text, clause, match, matches)
            if not denied:
                continue
        else:
            denied = match.denied or _negated(text, clause, match, matches)
            denied = denied or _over(clause, match, matches)
        yield Sign(
            match.name,
            match.start,
            denied,
            _many(text, clause, match, count),
            at,
            match.past or _past(clause, match),
            match.weight,
            any(one in text.guessed for one in match.used),
        )


def _negated(
    text: Text, clause: Clause, match: Match, matches: Sequence[tuple[Match, bool]]
) -> bool:
    """A negator inside the match, or before it within reach with nothing else to deny between."""
    negators = (*clause.spans.get("@neg", ()), *clause.spans.get("@negafter", ()))
    if any(span.start in match.used for span in negators):
        return False  # a sign that is a negation itself ("ne boivent pas")
    both = {span.start for span in clause.spans.get("@neg", ())}
    for span in clause.spans.get("@neg", ()):
        if span.start in match.used or _elsewhere(span.start, match, matches):
            continue
        if match.start <= span.start < match.end:
            return True
        if span.end <= match.start and match.start - span.end < REACH + _linked(
            text, span.end, match
        ):
            between = [
                other
                for other, _ in matches
                if other.name != match.name and span.end <= other.start and other.end <= match.start
            ]
            if not between or _joined(text, between, match):
                return True
    for span in clause.spans.get("@negafter", ()):
        if span.start in match.used or _elsewhere(span.start, match, matches):
            continue
        reach = 2 if span.start in both else REACH
        later = [
            other for other, _ in matches if match.end <= other.start and other.start >= span.end
        ]
        if match.end <= span.start < match.end + reach and not (later and span.start in both):
            return True
    return False


def _elsewhere(at: int, match: Match, matches: Sequence[tuple[Match, bool]]) -> bool:
    """Another sign stands on this word."""
    return any(at in other.used for other, _ in matches if other.name != match.name)


def _linked(text: Text, start: int, match: Match) -> int:
    """A list ("no cough or sneezing or rattle") may reach further."""
    return 6 if any(text.tokens[at].text in _LINKS for at in range(start, match.start)) else 0


def _joined(text: Text, between: Sequence[Match], match: Match) -> bool:
    """Whether the denial goes on: "no cough or rattle", but not "no smell, and they are spread"."""
    last = max(other.end for other in between)
    words = [text.tokens[at].text for at in range(last, match.start)]
    if not words or words[0] not in _LINKS or match.name in BENIGN:
        return False
    return len(words) <= 2


def _claimed(clause: Clause, matches: Sequence[tuple[Match, bool]]) -> set[int]:
    """Tokens that a sign of this clause stands on in any reading ("le charbon est fini")."""
    signs = {match.name for match, _ in matches}
    return {at for match in clause.readings if match.name in signs for at in match.used}


def _over(clause: Clause, match: Match, matches: Sequence[tuple[Match, bool]]) -> bool:
    """Words that say it stopped stand near, and no other sign is nearer to them."""
    for span in clause.spans.get("@gone", ()):
        inside = set(range(span.start, span.end))
        if any(inside & other.used for other, _ in matches) or inside & _claimed(clause, matches):
            continue
        if any(
            negator.end <= span.start < negator.end + 2 for negator in clause.spans.get("@neg", ())
        ):
            continue
        mine = _distance(match, span.start)
        if mine <= 5 and all(_distance(other, span.start) >= mine for other, _ in matches):
            return match.name not in BENIGN
    return False


def _distance(match: Match, at: int) -> int:
    if at < match.start:
        return match.start - at
    return max(0, at - match.end + 1)


def _past(clause: Clause, match: Match) -> bool:
    return any(span.start not in match.used for span in clause.spans.get("@past", ()))


def _many(text: Text, clause: Clause, match: Match, count: int | None) -> bool:
    """Said of many, most, all, or a plural without a number; or heavy, for smoke."""
    if match.name in HEAVY:
        return text.has("heavy", "sting", "headache") or _coughing(text)
    if clause.has("@many"):
        return not clause.has("few_only")
    figures = [
        number
        for number in text.numbers
        if clause.start <= number.start < clause.end
        and not any(
            text.at(name, number.end) or text.at(name, number.start - 1)
            for name in ("@days", "@weeks", "@unit:celsius")
        )
        and number.start not in match.used
    ]
    for number in figures:
        percent = number.end < len(text.tokens) and text.tokens[number.end].text == "%"
        share = number.value / 100 * (count or 300) if percent else number.value
        return share >= max(3, 0.02 * (count or 300))
    return not clause.has("@few")


def _coughing(text: Text) -> bool:
    return text.has("sneeze", "dizzy")


def _past_and_gone(text: Text, found: list[Sign]) -> list[Sign]:
    """A sign of the past is gone where a later clause, or a later sign, is of now."""
    kept = []
    for sign in found:
        if sign.past and not sign.denied and sign.name not in BENIGN:
            clause = text.clauses[sign.clause]
            later = [one for one in text.clauses[sign.clause + 1 :] if _now_or_better(one)]
            here = [span for span in clause.spans.get("@now", ()) if span.start > sign.start]
            others = [
                one
                for one in found
                if one.name != sign.name
                and one.start > sign.start
                and not one.past
                and (one.denied or one.name in BENIGN)
            ]
            if later or here or others:
                sign = Sign(
                    sign.name, sign.start, True, False, sign.clause, True, sign.weight, sign.guessed
                )
        kept.append(sign)
    return kept


def _now_or_better(clause: Clause) -> bool:
    return clause.has("@now", "all_well", "@answer:better") or (
        clause.has("@clause") and clause.has("well")
    )


def _together(text: Text, found: Sequence[Sign], supposed: bool) -> Signs:
    """One word a sign: the later one where a text says both."""
    last: dict[str, Sign] = {}
    for sign in found:
        other = last.get(sign.name)
        if other is None or sign.start >= other.start:
            last[sign.name] = sign
    for inner, outer in INSIDE.items():
        alike = (last[name] for name in outer if name in last)
        if inner in last and any(one.denied == last[inner].denied for one in alike):
            del last[inner]
    order = sorted(last.values(), key=lambda sign: sign.start)
    present = [sign for sign in order if not sign.denied]
    return Signs(
        tuple(sign.name for sign in present),
        tuple(sign.name for sign in order if sign.denied),
        tuple(sign.name for sign in present if sign.many),
        order[0].start if order else len(text.tokens),
        bool(present) and all(sign.guessed for sign in present),
        supposed,
    )

"""Whether a sign is denied where it stands, and how far a denial reaches. Pure; called by `signs`.

A negator reaches a few words on, over a list ("no cough or sneezing"), but not over a joining word
into the next statement ("no smell and the litter is dry").
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.understand.annotate import REACH, Clause, Text, anew, joins, near_negators, over_join
from bot.understand.patterns import Match, Span

Found = Sequence[tuple[Match, bool]]  # matches of a clause; True: they say the sign is absent
DYING = ("dead", "lost")
RISES = "gets_up"
BENIGN = frozenset({"spread_evenly", "quiet_content"})


def _links(text: Text, word: str) -> bool:
    return text.is_little(word, "links", "&/+")


def negated(
    text: Text, clause: Clause, match: Match, found: Found, *, absent: bool = False
) -> bool:
    """A negator inside the match, or before it within reach with nothing else to deny between.

    absent: the match itself says that a sign is absent, like "litter dry".
    """
    negators = (*clause.spans.get("@neg", ()), *clause.spans.get("@negafter", ()))
    if any(span.start in match.used for span in negators):
        return False  # a sign that is a negation itself ("ne boivent pas")
    if match.name == RISES and match.deniers:
        return True  # "they do not get up when i clap", whatever else stands on that negator
    good = absent or match.name in BENIGN
    if _before(text, clause, match, found, good=good):
        return True
    return not absent and _after(text, clause, match, found)


def _before(text: Text, clause: Clause, match: Match, found: Found, *, good: bool) -> bool:
    ands = joins(clause)
    back = {span.start for span in clause.spans.get("@negafter", ())}
    for span in clause.spans.get("@neg", ()):
        own = span.end in match.used and span.start not in back
        own = own and not _links(text, text.tokens[span.start].text)
        if span.start in match.used:
            continue
        if _elsewhere(text, span.start, match, found, clause.readings, own=own):
            continue
        if _answers(text, clause, span.end):
            continue
        if match.start <= span.start < match.end:
            if _of_another_thing(clause, span, match):
                continue
            return True
        reach = REACH + _linked(text, span.end, match)
        if not (span.end <= match.start and match.start - span.end < reach):
            continue
        if over_join(ands, span.end, match.start, near=-1 if good else 0):
            continue
        if anew(clause, span.end, match.start) or _opens_anew(clause, span.end, match):
            continue
        between = [
            other
            for other, _ in found
            if other.name != match.name and span.end <= other.start and other.end <= match.start
        ]
        if not between or _joined(text, between, match):
            return True
    return False


def _opens_anew(clause: Clause, end: int, match: Match) -> bool:
    """ "no improvement they all cough": the sign begins with the subject of a new statement; "it is
    not diarrhoea it is blood": the subject stands before the last of its words."""
    subjects = {one.start for one in clause.spans.get("@subject", ())}
    last = max(match.used, default=match.start)
    return any(end < at and match.start <= at < last for at in subjects.intersection(clause.anew))


def _of_another_thing(clause: Clause, negator: Span, match: Match) -> bool:
    """ "red, it is not paint it is their droppings": a new statement begins between the negator
    and the rest of the sign, and before it stood one as well."""
    behind = min((at for at in match.used if at >= negator.end), default=negator.end)
    subjects = {span.start for span in clause.spans.get("@subject", ())}
    return anew(clause, negator.end, behind) and any(
        match.start < at < negator.start for at in subjects
    )


def _answers(text: Text, clause: Clause, end: int) -> bool:
    """ "gasping? no it was panting": the first word answers what was asked before."""
    asked = clause.start > 0 and text.tokens[clause.start - 1].text == "?"
    return asked and end == clause.start + 1 and text.at("@pronouns", end)


def _after(text: Text, clause: Clause, match: Match, found: Found) -> bool:
    both = near_negators(clause)
    ands = joins(clause)
    for span in clause.spans.get("@negafter", ()):
        if span.start in match.used or _elsewhere(text, span.start, match, found, clause.readings):
            continue
        if any(match.end <= at.start and at.end <= span.start for at in ands):
            continue
        if span.start in both and _of_deaths(clause, span.end):
            continue
        they = [one.start for one in clause.spans.get("@plural", ())]
        if any(match.end <= at < span.start and anew(clause, at, at + 1) for at in they):
            continue  # "le cou tordu ils n'arrivent plus a boire": denied of what they do
        if any(one.name != match.name and one.start < span.start < one.end for one, _ in found):
            continue  # "boite de la patte, son cou est pas tordu"
        reach = 2 if span.start in both else REACH
        later = [other for other, _ in found if match.end <= other.start <= span.end + REACH]
        later = [other for other in later if other.start >= span.end]
        if match.end <= span.start < match.end + reach and not (later and span.start in both):
            return True
    return False


def _of_deaths(clause: Clause, at: int) -> bool:
    """ "spread well no deaths": the negator belongs to the deaths behind it."""
    return any(span.start == at for name in ("dead", "lost") for span in clause.spans.get(name, ()))


def _elsewhere(
    text: Text, at: int, match: Match, found: Found, readings: Sequence[Match], *, own: bool = False
) -> bool:
    """Another sign stands on this word, or another reading of this one ("hana nguvu, dull"); but of
    "green water not blood" the negator is of the word right behind it, and "hakuna anayesinzia"
    says by one word that none is dull and that the flock is not."""
    if any(
        at in other.used and not (own and max(other.used) == at)
        for other, absent in found
        if other.name != match.name
        and not (absent and (match.used < other.used or _joined(text, [other], match)))
    ):
        return True
    return any(
        at in one.used and one.end - one.start == len(one.used) and one.used.isdisjoint(match.used)
        for one in readings
        if one.name == match.name and not one.denied
    )


def _linked(text: Text, start: int, match: Match) -> int:
    """A list ("no cough or sneezing or rattle") may reach further."""
    between = text.tokens[start : match.start]
    return 6 if any(_links(text, one.text) for one in between) else 0


def _joined(text: Text, between: Sequence[Match], match: Match) -> bool:
    """Whether the denial goes on: "no cough or rattle", but not "no smell, and they are spread"."""
    last = max(other.end for other in between)
    words = [text.tokens[at].text for at in range(last, match.start)]
    if not words or not _links(text, words[0]) or match.name in BENIGN:
        return False
    return len(words) <= 2


def listed(text: Text, at: int) -> bool:
    """Whether a clause goes on with a denied list: "no cough, sneezing or blood".

    The clause itself, or the one that ends the list, must link its last item with "or", so that
    "no appetite, blood in the droppings" stays a report.
    """
    clause = text.clauses[at]
    if at == 0 or clause.has("@neg", "@negafter") or not _comma_before(text, clause):
        return False
    last = next(
        (
            one
            for one in text.clauses[at:]
            if any(text.tokens[i].text in text.little["either"] for i in range(one.start, one.end))
            and one.sentence == clause.sentence
        ),
        None,
    )
    if last is None or any(
        one.has("@pronouns", "@verb", "n") or one.end - one.start > 6
        for one in text.clauses[at : text.clauses.index(last) + 1]
    ):
        return False
    before = text.clauses[at - 1]
    return before.has("@neg") or listed(text, at - 1)


def _comma_before(text: Text, clause: Clause) -> bool:
    return clause.start > 0 and text.tokens[clause.start - 1].text == ","


def over(clause: Clause, match: Match, found: Found) -> bool:
    """Words that say it stopped stand near, and no other sign is nearer to them."""
    for span in clause.spans.get("@gone", ()):
        inside = set(range(span.start, span.end))
        if any(inside & other.used for other, _ in found) or inside & _claimed(clause, found):
            continue
        if any(
            negator.end <= span.start < negator.end + 2 for negator in clause.spans.get("@neg", ())
        ):
            continue
        mine = _distance(match, span.start)
        rivals = (other for other, absent in found if not absent)
        if mine <= 7 and all(_distance(other, span.start) >= mine for other in rivals):
            return match.name not in BENIGN
    return False


def _claimed(clause: Clause, found: Found) -> set[int]:
    """Tokens that a sign of this clause stands on in any reading ("le charbon est fini")."""
    signs = {match.name for match, _ in found}
    return {at for match in clause.readings if match.name in signs for at in match.used}


def _distance(match: Match, at: int) -> int:
    if at < match.start:
        return match.start - at
    return max(0, at - match.end + 1)


def taken_back(text: Text, at: int) -> bool:
    """ "they were gasping? no it was just panting": asked, and answered no in the next sentence."""
    clause = text.clauses[at]
    if not clause.asked:
        return False
    later = [one for one in text.clauses[at + 1 :] if one.sentence > clause.sentence]
    return bool(later) and any(
        span.start == later[0].start for span in later[0].spans.get("@answer:no", ())
    )


def none_died(text: Text, at: int) -> bool:
    """ "dying in masses? who told you that, 0 dead here": asked, and none died behind it."""
    clause = text.clauses[at]
    behind = text.clauses[at + 1 :] if clause.asked else []
    words = [span for one in behind for name in DYING for span in one.spans.get(name, ())]
    noughts = {one.end for one in text.numbers if one.value == 0 and one.start >= clause.end}
    return bool(words) and all(span.denied or span.start in noughts for span in words)

"""Signs of a time that is past, only thought of, or ended by what is told behind them.

Pure; called by `signs`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bot.understand.annotate import Clause, Text
from bot.understand.denial import BENIGN
from bot.understand.how_many import so_many_behind
from bot.understand.patterns import Match
from bot.understand.sign import Sign
from bot.understand.supposed import here_too

RETURNS = frozenset({"no_power", "stove_out"})  # over where a later clause says it is back
# Dead is dead, and what was done to line or ring stays done.
LASTING = frozenset({"sudden_many_deaths", "water_changed", "ring_tight", "feed_wetted"})
RAIN_IN = "rain_or_wind_in"
NEAR_WAS = 4  # words from "it was" to the end of what it was


def was_so(text: Text, sign: Sign) -> bool:
    """Whether a word of the past leads from the dead to what is said of them."""
    here = text.clauses[sign.clause]
    if sign.denied or text.has("others_rest") or here.has("@still"):
        return False
    sentence = (one for one in text.clauses[: sign.clause + 1] if one.sentence == here.sentence)
    died = max(
        (at.end for one in sentence for at in one.spans.get("dead", ()) if at.end <= sign.end),
        default=None,
    )
    return died is not None and any(
        died <= was.start < sign.end and sign.end - was.end <= NEAR_WAS
        for was in here.spans.get("@past", ())
        if any(text.at(name, was.start - 1) for name in ("@pronouns", "@subject"))
        or any(text.at(name, was.start) for name in ("@pronouns", "@verb"))
    )


def past(text: Text, clause: Clause, match: Match) -> bool:
    """Seen then; "since last night" and "still" go on until now."""
    if clause.has("@still") or here_too(text.clauses):
        return False
    now = [span.start for span in clause.spans.get("@now", ()) if span.start < match.end]
    return any(
        span.start not in match.used
        and not _since(text, span.start)
        and not (
            span.start < match.start and any(span.start < one for one in now)
        )  # "yesterday well, today bloody"
        for span in clause.spans.get("@past", ())
    )


def _since(text: Text, at: int) -> bool:
    return text.at("@since", at - 1) or text.at("@since", at - 2)


def past_and_gone(text: Text, found: list[Sign]) -> list[Sign]:
    """A sign of the past is gone where a later clause, or a later sign, is of now."""
    kept = []
    for sign in found:
        if sign.denied or sign.name in BENIGN or sign.name in LASTING:
            kept.append(sign)
            continue
        ends = (_well_now, _ended_behind, _only_thought, _stayed_outside)
        if any(ended(text, found, sign) for ended in ends):
            sign = replace(sign, denied=True, many=False, past=True)
        elif sign.past and not so_many_behind(text, text.clauses[sign.clause]):
            clause = text.clauses[sign.clause]
            behind = text.clauses[sign.clause + 1 :]
            later = [one for one in behind if _now_or_better(one) and not one.has("what_to_do")]
            here = [span for span in clause.spans.get("@now", ()) if span.start >= sign.end]
            others = [
                one
                for one in found
                if one.name != sign.name
                and one.start > sign.start
                and not one.past
                and (one.name in BENIGN or (one.denied and text.clauses[one.clause].has("@now")))
            ]
            if later or here or others:
                sign = replace(sign, denied=True, many=False)
        kept.append(sign)
    return kept


def _only_thought(text: Text, found: Sequence[Sign], sign: Sign) -> bool:
    """ "we thought one was paralysed but no, it was tied": taken back behind a "but"."""
    clause = text.clauses[sign.clause]
    if not any(span.start < sign.start for span in clause.spans.get("@thought", ())):
        return False
    for at, later in enumerate(text.clauses[sign.clause + 1 :], start=sign.clause + 1):
        ill = any(one.clause == at and not one.denied and one.name not in BENIGN for one in found)
        if text.at("@clause", later.start) and later.sentence == clause.sentence:
            return not ill
    return False


def _well_now(text: Text, found: Sequence[Sign], sign: Sign) -> bool:
    """ "they pant but are ok now": a later clause says that it is well, and tells no other sign."""
    for at, clause in enumerate(text.clauses[sign.clause + 1 :], start=sign.clause + 1):
        ill = any(one.clause == at and not one.denied and one.name not in BENIGN for one in found)
        if ill or clause.has("@neg", "@negafter", "@few", "@if", "@question") or clause.asked:
            continue
        following = text.clauses[at + 1 : at + 2]
        now = [one for one in (clause, *following) if one.sentence == clause.sentence]
        well = clause.has("all_well", "@answer:better", "well")
        if well and any(one.has("@now") for one in now):
            return True
    return False


def _ended_behind(text: Text, found: Sequence[Sign], sign: Sign) -> bool:
    """ "some were coughing, but that has stopped": the clause behind says only that it is over."""
    for at, clause in enumerate(text.clauses[sign.clause + 1 : sign.clause + 2], sign.clause + 1):
        goes_on = clause.sentence == text.clauses[sign.clause].sentence
        if sign.name in RETURNS and goes_on and _is_back(clause):
            return True  # "light went off but returned in 10 minutes"
        tells_more = any(one.clause == at for one in found) or clause.has(
            "@neg", "@plural", "@few", "@many", "bird", "n", "dead", "lost", "@question"
        )
        begins = any(text.at(name, clause.start) for name in ("@clause", "@pronouns", "@gone"))
        return goes_on and begins and clause.has("@gone") and not tells_more
    return False


def _stayed_outside(text: Text, found: Sequence[Sign], sign: Sign) -> bool:
    """ "it rained hard but it did not come into the house": rain named before, and kept out."""
    del found
    here = text.clauses[sign.clause]
    later = [one for one in text.clauses[sign.clause + 1 :] if one.sentence == here.sentence]
    return sign.name == RAIN_IN and any(
        any(span.denied for span in one.spans.get("enter", ()))
        and not one.has("rain", "wind", "@if", "@still")
        for one in later
    )


def _is_back(clause: Clause) -> bool:
    back = clause.spans.get("back", ())
    open_still = clause.has("@neg", "@negafter", "@if", "@future", "@until", "@question")
    return bool(back) and not any(span.denied for span in back) and not open_still


def _now_or_better(clause: Clause) -> bool:
    if any(not span.denied for span in clause.spans.get("dead", ())):
        return False  # "much smoke last night, this morning 6 dead": it was no past
    return clause.has("@now", "all_well", "@answer:better") or (
        clause.has("@clause") and clause.has("well")
    )


def same_words(inner: Sign, outer: Sign) -> bool:
    """Both told or both denied; two denials in words of their own stay two ("not a, not b")."""
    return inner.denied == outer.denied and not (inner.denied and inner.start != outer.start)


def of_the_rest(text: Text, told: Sign, denied: Sign) -> bool:
    """ "5 are not eating, the rest eat well": both hold, and the five are what is told."""
    return any(
        told.start <= span.start <= denied.start for span in text.spans.get("others_rest", ())
    )

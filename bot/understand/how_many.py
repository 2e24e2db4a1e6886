"""Of how many birds a sign is told: one, a few, so many, all; beside it or in the clause behind.

Pure; called by `signs` and `weigh`.
"""

from __future__ import annotations

from dataclasses import replace

from bot.understand.annotate import Clause, Text
from bot.understand.lookalikes import UNWELL
from bot.understand.numbers import Number
from bot.understand.patterns import Match, Span

DEFAULT_COUNT = 300
HEAVY = frozenset({"smoke_or_fumes"})
ASKED_OF = 2  # words behind "does it", "is it" that the question is of
LEAST_MANY = 3  # birds
FEW_WORDS = 8  # in which a clause behind a sign tells of how many, and of nothing else
OF_HOW_MANY = (
    *("@many", "@whole", "@common", "@pronouns", "@polite", "@plural", "@now", "@article"),
    *("@subject", "@asks", "@verb"),
    *("have", "copula", "bird", "house", "batch", "own_birds", "almost", "half_of", "n"),
)
NOT_SO_MANY = ("@neg", "@if", "@gone", "@others", "others_rest", "well", "eat", "dead")


def so_many(birds: float, count: int | None) -> bool:
    """Whether so many of a flock are many (practice.md: three, or one in fifty)."""
    return birds >= max(LEAST_MANY, 0.02 * (count or DEFAULT_COUNT))


def of_all(text: Text, clause: Clause, match: Match, count: int | None) -> Match:
    """A whole flock that is dull is worse than dull birds; "all 400" is the whole as well."""
    all_of_them = clause.has("@whole") or _whole_number(text, clause, count)
    told = match.name == "lethargic" and not match.denied
    whole = told and all_of_them and not clause.has("few_only")
    return replace(match, name="sleepy_all_birds") if whole else match


def _whole_number(text: Text, clause: Clause, count: int | None) -> bool:
    """ "all 400" of a flock of about 400."""
    return any(
        clause.start < one.start < clause.end
        and (
            (
                (text.at("whole_all", one.start - 1) or text.at("@many", one.start - 1))
                and one.value >= (count or DEFAULT_COUNT) / 2
            )
            or (one.value == count and text.at("@article", one.start - 1))  # "les 500"
        )
        for one in text.numbers
    )


def many(text: Text, clause: Clause, match: Match, count: int | None) -> bool:
    """Said of many, most, all, or a plural without a number; or heavy, for smoke."""
    if match.name in HEAVY:
        hurt = _told_of(text, "sting", "headache") or _coughing(text)
        heavy = _told_of(text, "heavy") and not clause.has("@few")
        return hurt or heavy or (text.has("full") and not text.has("crop"))
    if match.name == "lethargic" and all(text.at("too_quiet", at) for at in match.used):
        return False  # a worry, not a flock that is down
    if clause.has("others_rest") and text.has("dead") and not _counted_apart(clause, match):
        return not clause.has("few_only")  # "4 died, the others are dull": all that are left
    if so_many_behind(text, clause):
        return True  # "only one coughed yesterday, now it is the whole house"
    if clause.has("@many") and not _feared(clause):
        return not clause.has("few_only")
    of_a_part = _of_a_part(text, clause, match)
    figures = [
        number
        for number in text.numbers
        if clause.start <= number.start < clause.end
        and number.start not in of_a_part
        and not any(
            text.at(name, number.end) or text.at(name, number.start - 1)
            for name in ("@days", "@weeks", "@unit:celsius")
        )
        and not _of_the_clock(text, number)
        and (number.start not in match.used or text.tokens[number.start].text.isdigit())
        and not _of_so_many(text, clause, number)
        and not _of_the_dead(text, clause, number)
        and not _of_the_rest_behind(text, match, number)
    ]
    ahead = [one for one in figures if one.end <= match.start]
    for number in (ahead[-1:] or figures)[:1]:
        percent = number.end < len(text.tokens) and text.tokens[number.end].text == "%"
        share = number.value / 100 * (count or DEFAULT_COUNT) if percent else number.value
        return so_many(share, count)
    if not figures and (behind := _figure_behind(text, clause)):
        return so_many(behind, count)
    if match.name == UNWELL:
        return clause.has("@whole")  # "my birds are sick": how many, and of what, is asked
    if any(span.start not in of_a_part for span in clause.spans.get("@few", ())):
        return False
    if _of_those_before(text, clause, match, count):
        return False
    return _subject(clause) or not few_before(text, clause)


def _of_those_before(text: Text, clause: Clause, match: Match, count: int | None) -> bool:
    """ "3 of them have catarrh and they sneeze": told once more of the few that were counted."""
    if text.has("@now", "@past", "@others") or clause.has("@whole", "bird", "own_birds", "n"):
        return False
    for before in text.clauses:
        if before.sentence != clause.sentence or before.end > clause.start:
            continue
        figures = [one for one in text.numbers if before.start <= one.start < before.end]
        same = any(one.name == match.name for one in before.readings)
        if same and figures and not before.has("@many", "@whole"):
            return not so_many(figures[-1].value, count)
    return False


def _of_a_part(text: Text, clause: Clause, match: Match) -> set[int]:
    """ "fifty have one eye swollen", "ils ont un oeil ferme": the "one" right before a part of a
    bird counts no birds, where birds are told before it."""
    birds = [span.start for name in ("@plural", "n") for span in clause.spans.get(name, ())]
    return {
        one.start
        for one in text.numbers
        if one.weak and one.end in match.used and any(at < one.start for at in birds)
    }


def _told_of(text: Text, *names: str) -> bool:
    """Whether a word of the classes is told: of "smoke does it really hurt them" the hurt is only
    asked about, "no headache" is denied, and what is black by soot is no thick smoke."""
    asked = {
        at
        for span in text.spans.get("@question", ())
        if text.at("@asks", span.start)
        for at in range(span.end, span.end + ASKED_OF)
    }
    of_soot = {at for span in text.spans.get("sooty", ()) for at in range(span.start, span.end)}
    return any(
        not (span.start in asked | of_soot or _is_denied(text, span))
        for name in names
        for span in text.spans.get(name, ())
    )


def _is_denied(text: Text, span: Span) -> bool:
    """ "no headache", "pas de mal de tete": the negator stands right before it."""
    return any(text.at("@neg", span.start - back) for back in (1, 2))


def _counted_apart(clause: Clause, match: Match) -> bool:
    """ "the others have empty crops and two a wet navel": a figure between them and the sign."""
    rest = [span.end for span in clause.spans["others_rest"] if span.end <= match.start]
    return bool(rest) and any(
        rest[-1] <= span.start < match.start for span in clause.spans.get("n", ())
    )


def so_many_behind(text: Text, clause: Clause) -> bool:
    """ "i hear them rattle, more than half", "green droppings? most have it": the clause behind
    tells nothing but how many."""
    behind, further = _behind(text, clause)
    if further is not None and further.has("others_rest") and further.sentence == clause.sentence:
        return False  # "one limps, all | the others run"
    if behind is None or not behind.has("@many", "@whole") or behind.has(*NOT_SO_MANY, "@few"):
        return False
    short = behind.end - behind.start <= FEW_WORDS and not behind.readings
    return short and _only_how_many(text, behind, set())


def _figure_behind(text: Text, clause: Clause) -> float:
    """ "they cannot walk, 20 of them": the figure that is a clause of its own behind the sign; 0
    where there is none."""
    behind, _ = _behind(text, clause)
    if behind is None or behind.sentence != clause.sentence or behind.readings:
        return 0.0
    figures = [n for n in text.numbers if behind.start <= n.start < behind.end and not n.weak]
    if len(figures) != 1 or behind.has(*NOT_SO_MANY, "@days", "@weeks"):
        return 0.0
    said = set(range(figures[0].start, figures[0].end))
    return figures[0].value if _only_how_many(text, behind, said) else 0.0


def _behind(text: Text, clause: Clause) -> tuple[Clause | None, Clause | None]:
    """The clause behind one, and that behind it."""
    at = next(at for at, one in enumerate(text.clauses) if one is clause)
    one, two = [*text.clauses[at + 1 : at + 3], None, None][:2]
    return one, two


def _only_how_many(text: Text, clause: Clause, figure: set[int]) -> bool:
    """Whether every token but the figure's is a word of how many, or a mark."""
    return all(
        at in figure
        or text.tokens[at].kind == "mark"
        or any(text.at(name, at) for name in OF_HOW_MANY)
        for at in range(clause.start, clause.end)
    )


def _of_so_many(text: Text, clause: Clause, number: Number) -> bool:
    """ "5 sur 300": the flock; but "diarrhee sur une quarantaine" counts the ill."""
    ahead = any(clause.start <= one.start < number.start for one in text.numbers)
    return ahead and text.at("@out_of", number.start - 1)


def _feared(clause: Clause) -> bool:
    """ "one limps, is it coming to all?": those that may fall ill are not ill."""
    feared = [range(one.start, one.end) for one in clause.spans.get("to_all", ())]
    many = clause.spans.get("@many", ())
    return bool(feared) and all(any(one.start in place for place in feared) for one in many)


def _of_the_clock(text: Text, number: Number) -> bool:
    """ "at 2h they were panting": an hour counts no birds."""
    behind = text.tokens[number.end].text if number.end < len(text.tokens) else ""
    return text.at("clock_word", number.start - 1) or behind in ("h", "am", "pm", "hrs", ":")


def _of_the_dead(text: Text, clause: Clause, number: Number) -> bool:
    """ "4 died, others are dull": the figure counts the dead, not the dull."""
    near = range(number.start - 3, number.end + 3)
    here = (at for at in near if clause.start <= at < clause.end)
    return any(text.at("dead", at) for at in here)


def _of_the_rest_behind(text: Text, match: Match, number: Number) -> bool:
    """ "one limps the other 299 are well": the figure counts those that are not told of."""
    near = (number.start - 1, number.end)
    return number.start >= match.end and any(text.at("others_rest", at) for at in near)


def _subject(clause: Clause) -> bool:
    return clause.has("@plural", "bird", "@whole")


def few_before(text: Text, clause: Clause) -> bool:
    """ "one is dull, eyes closed": a clause without birds of its own speaks of those before it."""
    before = [
        one for one in text.clauses if one.sentence == clause.sentence and one.start < clause.start
    ]
    named = [one for one in before if _subject(one) or one.has("@few", "@many")]
    return bool(named) and named[-1].has("@few") and not named[-1].has("@many")


def _coughing(text: Text) -> bool:
    return text.has("sneeze", "dizzy")

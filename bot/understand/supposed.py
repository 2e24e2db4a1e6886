"""What a text only supposes, asks about, or tells of other people's birds. Pure.

Called by `signs` and `facts`: nothing of it is reported as seen in this flock.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.understand.annotate import Clause, Text
from bot.understand.index import Index
from bot.understand.patterns import Match, Span

SMOKE = "smoke_or_fumes"
SAW = ("@sees", "see")
NAMED_BEFORE = 3  # words from a disease to the sign by which it is called
Found = Sequence[tuple[Match, bool]]


def of_others(text: Text, clause: Clause, at: int) -> bool:
    """Whether what stands at a token is said of someone else's birds, or of an earlier batch.

    The last of "my neighbour" and "mine" before it in the sentence decides; where neither stands
    before it, one behind it in its own clause ("blood in the droppings at my neighbour's").
    """
    sentence = [one for one in text.clauses if one.sentence == clause.sentence]
    others = [span.start for one in sentence for span in one.spans.get("@others", ())]
    if not others or here_too(sentence):
        return False
    own = [span.start for one in sentence for span in one.spans.get("own_birds", ())]
    if _of_then(sentence, at, own):
        return True
    before = max((one for one in others if one <= at), default=-1)
    if before >= 0 and (_back_home(sentence, before, at) or told_at_mine(clause)):
        return False
    if before >= 0:
        return not any(before <= one <= at for one in own)
    behind = [
        one for one in others if one < clause.end and not text.at("others_rest", one + 1)
    ]  # "un mort, pas de toux chez les autres": the rest of the flock
    mine = [one for one in own if clause.start <= one < clause.end]
    return bool(behind) and (not mine or not_mine(text, behind[0]))


def _back_home(sentence: Sequence[Clause], others: int, at: int) -> bool:
    """ "yesterday i was at my uncle's, today i find blood": found now, and at home."""

    def between(name: str) -> bool:
        return any(others < span.start < at for one in sentence for span in one.spans.get(name, ()))

    return between("@now") and between("see")


def told_at_mine(clause: Clause) -> bool:
    """ "there is smoke in my house", "my neighbour saw smoke at mine": nothing denies, where it is
    is said, and of others who are named before it they only saw it."""
    if clause.asked or clause.has("@neg", "@negafter", "@gone", "@question", "@if", "@past"):
        return False
    own = [span.start for span in clause.spans.get("own_birds", ())]
    others = [span.start for span in clause.spans.get("@others", ())]
    lost = {span.start for span in clause.spans.get("lost", ())}  # they lost birds of their own
    seen = [span.start for name in SAW for span in clause.spans.get(name, ())]
    seen = [at for at in seen if at not in lost]
    if not others:
        return bool(own)
    return any(other < look < mine for other in others for look in seen for mine in own)


def here_too(sentence: Sequence[Clause]) -> bool:
    """ "last batch had it and now these too", "gasping like the last batch": it is so here."""
    return any(one.has("@compared", "@here_too") for one in sentence)


def _of_then(sentence: Sequence[Clause], at: int, own: Sequence[int]) -> bool:
    """ "last year my birds were all paralysed": "my birds" right behind the time are of then."""
    for clause in sentence:
        times = [span.start for span in clause.spans.get("@earlier", ()) if span.start <= at]
        if times and not any(clause.end <= one <= at for one in own):
            return True
    return False


def not_mine(text: Text, end: int) -> bool:
    """What others have is denied of the own birds behind it: "not mine", "les miens non", "this
    one no such thing"."""
    own = [span.start for span in text.spans.get("own_birds", ()) if span.start >= end]
    if not own:
        return False
    near = range(own[0] - 2, own[0] + 5)
    negators = (*text.spans.get("@neg", ()), *text.spans.get("@negafter", ()))
    answers = text.spans.get("@answer:no", ())
    return any(span.start in near and span.start >= end for span in (*negators, *answers))


def supposed(text: Text, clause: Clause, found: Found, index: Index) -> bool:
    """Only supposed or asked: nothing is reported."""
    if any(match.name == SMOKE for match, _ in found) and _choking(text):
        return False  # "how do I stop the smoke, the house is full"
    if _tried(text, clause) and not clause.has("@if"):
        return False  # "ukiwagusa hawashtuki wote wamezubaa": what touching them shows
    used = {at for match, _ in found for at in match.used}
    first = min(match.start for match, _ in found)
    last = max(match.end for match, _ in found)
    danger = any(match.name in index.danger and not absent for match, absent in found)
    if danger and any(
        span.start <= first <= span.end + 1 for span in clause.spans.get("ones_who", ())
    ):
        return False  # "can i eat the ones with swollen heads": they are there
    if _if_before(text, clause, used, first, danger) or _disease_asked_about(text, clause, first):
        return True
    if _begins_with_if(clause) and _asks(text, clause):
        return True
    if _when_what(clause) and not (danger and clause.has("own_birds")):
        return True
    if begins_with_auxiliary(text, clause):
        return not (danger and clause.has("own_birds"))
    if clause.asked and text.at("@asks", clause.start) and not clause.has("@plural", "own_birds"):
        return True  # "is bloody droppings dangerous?"
    if _judged_in_general(clause, first) or helped(text, first):
        return True
    if any(last <= span.start for span in clause.spans.get("fears", ())):
        return False  # "they lie flat i fear they die??": told, and only what follows is asked
    then = clause.has("@past")  # "when i was cleaning i saw blood": no when that asks
    asking = [
        span
        for span in clause.spans.get("@question", ())
        if span.start not in used
        and asks_here(text, clause, span)
        and not (then and text.at("when_word", span.start))
    ]
    if not asking:
        return clause.asked and not danger and clause.has("@question")
    general = clause.asked and clause.has("@if") and not clause.has("own_birds")
    if _what_to_do(text, clause) and not clause.has("how_to") and not general:
        return False
    if all(span.start >= last for span in asking) and _told(clause, last):
        return False
    own = clause.has("own_birds", "@plural") and (clause.has("why") or _own_first(clause, first))
    return not (danger and own)


def _tried(text: Text, clause: Clause) -> bool:
    tried = clause.has("wake_try") and clause.has("@ifform", "when_word")
    return tried and text.has("@many", "@whole", "whole_all")


def _disease_asked_about(text: Text, clause: Clause, first: int) -> bool:
    """ "the disease of twisted necks, is there a vaccine": named right before the sign in a text
    that asks, and of no birds that are named before it."""
    near = range(max(clause.start, first - NAMED_BEFORE), first)
    named = next((at for at in near if text.tokens[at].text in text.little["feared"]), None)
    if named is None or text.has("own_birds", "@here_too"):
        return False
    asks = any(one.asked or one.has("@question", "what_to_do") for one in text.clauses)
    told = ("@plural", "bird", "n", "@many", "@me")
    return asks and not any(
        span.start < named for name in told for span in clause.spans.get(name, ())
    )


def _choking(text: Text) -> bool:
    told = any(one.has("sting", "full") and not one.has("@ifform") for one in text.clauses)
    return told and not text.has("@if", "@others", "@outside")


def _judged_in_general(clause: Clause, first: int) -> bool:
    """ "is gasping dangerous", "is charcoal smoke bad for chicks", with or without a mark."""
    opening = [span for span in clause.spans.get("opening", ()) if first - span.start <= 2]
    judged = [span for span in clause.spans.get("judged", ()) if span.start > first]
    return bool(opening and judged) and not clause.has("own_birds")


def helped(text: Text, first: int) -> bool:
    """ "is onion good for cough", "kitunguu kinasaidia mafua": what a thing is said to be good for;
    but "they rattle, what helps"."""
    return any(0 <= first - span.end <= 1 for span in text.spans.get("helps_against", ()))


def _if_before(text: Text, clause: Clause, used: set[int], first: int, danger: bool) -> bool:
    """An "if" before the sign in its clause, or in an earlier clause of a sentence that asks."""
    for other in text.clauses:
        if other.sentence != clause.sentence or other.start > clause.start:
            continue
        for span in other.spans.get("@if", ()):
            if span.start in used or _as_if(text, span) or _tells_when(text, clause, span):
                continue
            if other is clause and span.start <= first + 1:
                return True
            if other is not clause and _asks(text, clause) and (clause.asked or not danger):
                return True
    return False


def _when_what(clause: Clause) -> bool:
    """ "when they pant what should i do": asked in general; "when i was cleaning i saw blood" is
    told."""
    if clause.has("@past"):
        return False
    starts = any(span.start <= clause.start + 1 for span in clause.spans.get("when_word", ()))
    return starts and clause.has("what_to_do")


def _tells_when(text: Text, clause: Clause, span: Span) -> bool:
    """ "when they walk they fall": told, where nothing else in the sentence asks."""
    if not text.at("when_word", span.start):
        return False
    sentence = [one for one in text.clauses if one.sentence == clause.sentence]
    return not any(
        one.asked
        or one.has("what_to_do", "how_to")
        or any(not text.at("when_word", at.start) for at in one.spans.get("@question", ()))
        or any(not text.at("when_word", at.start) for at in one.spans.get("@if", ()))
        for one in sentence
    )


def _as_if(text: Text, span: Span) -> bool:
    return span.start > 0 and text.tokens[span.start - 1].text in text.little["as_if"]


def _what_to_do(text: Text, clause: Clause) -> bool:
    """ "why" alone asks what to do only of the farmer's own birds."""
    return any(
        clause.has("own_birds") or not text.at("why", span.start)
        for span in clause.spans.get("what_to_do", ())
    )


def begins_with_auxiliary(text: Text, clause: Clause) -> bool:
    """ "can smoke kill chicks": asked; "can not stand", "do not eat": told."""
    start = clause.start
    while start < clause.end - 1 and text.at("@polite", start):
        start += 1
    return text.at("@auxiliary", start) and not text.at("@neg", start + 1)


def _told(clause: Clause, last: int) -> bool:
    """A report with a question behind it: birds are named, and it is no matter of knowledge."""
    general = [span for span in clause.spans.get("@if", ()) if span.start >= last]
    if general:
        return clause.has("own_birds")
    return clause.has("@plural", "own_birds", "@few", "@many", "n", "what_to_do")


def _own_first(clause: Clause, first: int) -> bool:
    """ "how do i treat my birds that pass blood": they are the farmer's own, and it is so."""
    general = clause.has("how_to", "@if") or clause.has("plan")
    return not general and any(span.start < first for span in clause.spans.get("own_birds", ()))


def _begins_with_if(clause: Clause) -> bool:
    """The first verb is an if-form; after another verb it tells what happens beside it, and what
    has befallen them is there."""
    if clause.has("befallen"):
        return False
    forms = [span.start for span in clause.spans.get("@ifform", ())]
    verbs = [span.start for span in clause.spans.get("@verb", ())]
    return bool(forms) and not any(verb < forms[0] for verb in verbs)


def asks_here(text: Text, clause: Clause, span: Span) -> bool:
    """Whether a question word asks where it stands.

    "when" tells the moment, unless a verb of asking follows ("when do i sell") or it ends what is
    said ("chanjo ni lini"); "is a" inside a clause is a statement ("there is a noise").
    """
    if clause.asked:
        return True
    if (
        text.at("what_word", span.start)
        and _token(text, span.start - 1) in text.little["where"] | text.little["thats"]
    ):
        return False  # "clots in what they drop"
    if text.at("when_word", span.start):
        if text.at("~even", span.end):
            return False  # "serres quand meme"
        if _token(text, span.end).endswith(("ing", "in")):
            return False  # "a sound when breathing"
        if span.end >= clause.end - 1:
            return True
        if span.start > clause.start + 1:
            return False
        told = any(text.at(name, span.end) for name in ("@me", "@plural", "@pronouns"))
        return not told or text.at("@asks", span.end + 1)
    inside = range(span.start, span.end)
    if text.at("@asks", span.start) and span.start > clause.start + 1:
        return any(text.at("@me", at) and not text.at("@asks", at) for at in inside)
    return True


def _token(text: Text, at: int) -> str:
    return text.tokens[at].text if 0 <= at < len(text.tokens) else ""


def _asks(text: Text, clause: Clause) -> bool:
    return any(
        one.asked or one.has("@question", "what_to_do")
        for one in text.clauses
        if one.sentence == clause.sentence
    )

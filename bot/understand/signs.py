"""Which signs a text reports, and which it denies. Pure; called by `read`.

A sign is denied by a negator that reaches it, by words that say it is over, or when it was seen in
the past and the text goes on with something of now. It is not reported at all where the text only
supposes it ("if they pant"), asks about it, or speaks of someone else's birds.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from bot.understand.annotate import Clause, Text
from bot.understand.denial import BENIGN, listed, negated, none_died, over, taken_back
from bot.understand.gone_by import of_the_rest, past, past_and_gone, same_words, was_so
from bot.understand.how_many import HEAVY, few_before, many, of_all, so_many_behind
from bot.understand.index import Index
from bot.understand.lookalikes import (
    DROPPINGS,
    DROWSY,
    UNWELL,
    bathes,
    is_lookalike,
    none_inside,
    told_of_no_bird,
)
from bot.understand.patterns import Match, Span
from bot.understand.sign import Sign, Signs
from bot.understand.supposed import asks_here, helped, here_too, not_mine, of_others, supposed

STEM = 4  # letters by which a word is known again in another form
PECKED, BLOODY = "cannibalism_or_pecking", "bloody_droppings"
PASSES = ("passed", "shit", "defecate", "expel")
MANY_DEAD, POWER_CUT = "sudden_many_deaths", "no_power"
# A sign that is part of another, said in the same words, is not said twice.
INSIDE = {
    "drinking_less": ("not_drinking",),
    "lethargic": ("sleepy_all_birds", "drowsy_people_or_birds_near_stove"),
    "sleepy_all_birds": ("drowsy_people_or_birds_near_stove",),
    "eyes_swollen_or_closed": (),
    "panting": ("gasping",),
    "piled_near_heat": ("crowd_at_water",),
    "cannibalism_or_pecking": ("crowd_at_water",),
}
# "My eyes burn when I go in" is felt, not supposed; what is planned with people inside counts too.
FELT, PLANNED = ("own_eyes", "own_cough"), ("sleeps_inside", "generator_inside")
KICKS = "kicks_on_side"
OF_THE_WEAK = ("lethargic", UNWELL)  # what of the dead is told without alarm for the living
OF_THE_DEAD = (*OF_THE_WEAK, "limping_or_down", "uneven_size")
SEVERAL = ("@plural", "@many", "@whole", "others_rest", "~added")
OF_THE_SUBJECT = ("bird", "own_birds", "@plural", "@many", "@few", "@polite", "@now", "n")
# What may stand between the dead one and what it was like.
OF_THE_TIME = (
    *("@article", "@day:0", "@day:-1", "hour_word", "@now", "@common", "~beside_time", "~already"),
    *("bird", "that_one", "@answer:more", "~only"),
)
OF_A_BATH = ("twisted_neck_or_paralysis", "limping_or_down", "crowded_one_side", "lies_still")
TRULY_TWISTED = ("twist", "paralysed", "limp", "dizzy", "legs_apart")
FLOCK_DULL = "sleepy_all_birds"
EMPTIED = {"drinker": "not_drinking", "feeder": "feed_out_of_reach"}
REFUSED = {
    "feed": "not_eating",
    "feeder": "not_eating",
    "water": "not_drinking",
    "drinker": "not_drinking",
}
COLD_HALF, HOT_HALF = {"piled_near_heat", "crowded_one_side"}, {"panting", "away_from_heat"}
HALVES, OF_THE_COLD = "here_and_there", ("piled_near_heat", "litter_cold")


def find_signs(text: Text, index: Index, count: int | None) -> Signs:
    """All signs of a text, brought together."""
    found: list[Sign] = []
    only_supposed = False
    aside: set[str] = set()
    for at, clause in enumerate(text.clauses):
        matches = []
        for match, absent in _clause_matches(text, clause, index, count):
            if absent and _asked_within(text, clause, match):
                continue
            if _is_of_here(text, clause, match):
                matches.append((match, absent))
                if told_of_no_bird(clause, match):
                    aside.add(match.name)
                continue
            if text.has("@set_apart") or _of_an_earlier_time(text, clause):
                aside.add(match.name)
            if not absent and match.name not in BENIGN and _kept_off(text, match):
                found.append(Sign(match.name, match.start, True, False, at))
        names = [match.name for match, absent in matches if not absent]
        matches = [
            (match, absent)
            for match, absent in matches
            if absent
            or not (is_lookalike(text, clause, match, names) or _of_one_bird(text, clause, match))
        ]
        if not matches:
            continue
        felt = not clause.has("@if") and any(match.name in FELT for match, _ in matches)
        felt = felt or any(match.name in PLANNED for match, _ in matches)
        held = felt or taken_back(text, at) or _so_with_ours(text, at)
        if supposed(text, clause, matches, index) and not held:
            only_supposed = True
            if helped(text, min(match.start for match, _ in matches)):
                aside.update(match.name for match, _ in matches)
            continue
        found.extend(_judged(text, at, matches, count))
    found = _bathing(text, [*past_and_gone(text, found), *_fainting(text, found)])
    found = [*_emptied(text, found), *_refused(text)]
    found = _lying_so(text, _of_the_living(text, _halves(text, found)))
    found = _of_wounds(text, found)
    signs = _together(text, found, only_supposed)
    return replace(signs, aside=frozenset(aside.difference(signs.present, signs.absent)))


def _of_one_bird(text: Text, clause: Clause, match: Match) -> bool:
    """ "one stands in its corner, all limp", "un seul ne se leve plus, les autres vont bien": of
    the one, and no flock that is down."""
    if match.name != FLOCK_DULL:
        return False
    told = [one.value for one in text.numbers if clause.start <= one.start < clause.end]
    if text.has("others_rest") and not clause.has("others_rest"):
        return told == [1]
    return not clause.has("@plural", "@many", "bird", "n") and few_before(text, clause)


def _of_an_earlier_time(text: Text, clause: Clause) -> bool:
    """Whether the sentence has named an earlier batch or year by here."""
    return any(
        one.has("@earlier")
        for one in text.clauses
        if one.sentence == clause.sentence and one.start <= clause.start
    )


def _of_wounds(text: Text, found: list[Sign]) -> list[Sign]:
    """ "they peck each other's tails, blood on some": blood of wounds, where pecking is told in the
    same sentence, and neither what they passed nor that they passed it."""
    pecked = {text.clauses[one.clause].sentence for one in found if _is_told(one, PECKED)}
    if text.has(*DROPPINGS, *PASSES):
        return found
    return [
        one
        for one in found
        if not (
            _is_told(one, BLOODY)
            and text.at("blood", one.start)
            and text.clauses[one.clause].sentence in pecked
        )
    ]


def _is_told(sign: Sign, name: str) -> bool:
    return sign.name == name and not sign.denied


def _so_with_ours(text: Text, at: int) -> bool:
    """ "is it pepper that makes blood? mine are like that since monday", "does rice water stop
    green droppings? most have it", "diarrhoea has got hold of them, what do i do": asked of the
    own birds."""
    if so_many_behind(text, text.clauses[at]):
        return True
    here, *later = text.clauses[at:]
    told = [one for one in later if not one.asked]
    told += [here] if any(one.has("what_to_do") for one in (here, *later)) else []
    return any(one.has("@here_too") and not one.has("@neg", "@negafter", "@if") for one in told)


def _asked_within(text: Text, clause: Clause, match: Match) -> bool:
    """ "blood in their droppings, is it normal?": nothing says that it is."""
    first, last = min(match.used, default=0), max(match.used, default=0)
    return any(
        first < span.start <= last and asks_here(text, clause, span)
        for span in clause.spans.get("@question", ())
    )


def _emptied(text: Text, found: list[Sign]) -> list[Sign]:
    """ "five drinkers, three are empty now": what is empty is what was named last."""
    for at, clause in enumerate(text.clauses):
        if not clause.has("empty") or clause.has("crop", *EMPTIED) or at == 0:
            continue
        named = [name for one in text.clauses[:at] for name in ("crop", *EMPTIED) if one.has(name)]
        if named and named[-1] in EMPTIED and clause.has("n", "@few", "@many"):
            kept = [one for one in found if (one.name, one.clause) != ("crop_empty", at)]
            start = clause.spans["empty"][0].start
            found = [*kept, Sign(EMPTIED[named[-1]], start, False, False, at)]
    return found


def _refused(text: Text) -> Iterable[Sign]:
    """ "the feed is mouldy, they want none of it", "there is water, nobody goes there": refused in
    a clause that names neither, behind the one named last."""
    for at, clause in enumerate(text.clauses):
        here = [one for one in text.clauses[:at] if one.sentence == clause.sentence]
        plain = clause.has("refuse") and not clause.has(*REFUSED, "heat", "@if", "@others")
        named = [name for one in here for name in REFUSED if one.has(name)]
        if plain and named and not clause.asked:
            yield Sign(REFUSED[named[-1]], clause.spans["refuse"][0].start, False, True, at)


def _halves(text: Text, found: list[Sign]) -> list[Sign]:
    """ "half are cold, half are hot": here and there, in whatever clauses it is told."""
    seen = {one.name for one in found if not one.denied}
    places = text.spans.get("half_of", ())
    felt = text.has("feels_cold") and text.has("feels_hot", "pant")
    felt = felt or (len(places) > 1 and bool(seen & COLD_HALF) and bool(seen & HOT_HALF))
    if not places or not felt or text.has("@if", "@others", "@past"):
        return found
    cold = () if text.has("pile") else OF_THE_COLD
    kept = [one for one in found if one.name not in cold]
    return [*kept, Sign(HALVES, places[0].start, False, True, 0)]


def _of_the_living(text: Text, found: list[Sign]) -> list[Sign]:
    """Without what the dead were like before: "1 died, it was already weak", "1 mort, le plus
    faible"."""
    return [
        one
        for one in found
        if not (one.name in OF_THE_WEAK and was_so(text, one))
        and not (one.name in OF_THE_DEAD and _is_the_dead_one(text, one))
    ]


def _is_the_dead_one(text: Text, sign: Sign) -> bool:
    """ "1 mort ce matin la plus faible": one died, and nothing but an article and the time stands
    between that and what it was like."""
    here = text.clauses[sign.clause]
    sentence = [one for one in text.clauses[: sign.clause + 1] if one.sentence == here.sentence]
    dead = [at.end for one in sentence for at in one.spans.get("dead", ()) if at.end <= sign.start]
    if sign.denied or not dead or any(one.value > 1 for one in text.numbers):
        return False
    between = range(dead[-1], sign.start)
    named = any(text.at("@article", at) or text.at("that_one", at) for at in between)
    more = any(text.at(one, at) for at in range(dead[-1], here.end) for one in SEVERAL)
    return (
        named
        and not more
        and all(
            text.tokens[at].kind == "mark" or any(text.at(name, at) for name in OF_THE_TIME)
            for at in between
        )
    )


def _lying_so(text: Text, found: list[Sign]) -> list[Sign]:
    """ "they lie like dead, necks laid down, legs behind": how they lie is no twisted neck, unless
    something is told to be twisted or lame as well."""
    if not any(one.name == "lies_still" and not one.denied for one in found):
        return found
    return [one for one in found if not _only_laid(text.clauses[one.clause], one.name)]


def _only_laid(clause: Clause, name: str) -> bool:
    """Whether a sign rests on nothing but how necks and legs lie: a neck laid out beside the legs
    gasps for no air, where no beak or breath is named."""
    if name == "gasping":
        return clause.has("leg") and not clause.has("beak", "breath")
    return name in OF_A_BATH[:2] and not clause.has(*TRULY_TWISTED)


def _bathing(text: Text, found: list[Sign]) -> list[Sign]:
    """ "lies on its side, kicks, then gets up": no fit, and nothing wrong with its legs."""
    if not any(one.name == KICKS and not one.denied for one in found) or not bathes(text):
        return found
    return [one for one in found if one.name not in OF_A_BATH]


def _is_of_here(text: Text, clause: Clause, match: Match) -> bool:
    """Said of this flock. People who faint beside a fire are in danger whoever they are."""
    if match.name == POWER_CUT and clause.has("our_place"):
        return True  # "there is a blackout in our area"
    people = {span.start for span in clause.spans.get("person", ())}
    people_ill = match.used & people or not clause.has("bird")
    then = clause.has("@earlier") and not here_too(text.clauses)
    if match.name == DROWSY and people_ill and not then and not not_mine(text, match.start):
        return True
    return not of_others(text, clause, match.start)


def _kept_off(text: Text, match: Match) -> bool:
    """What others have is not here: "mine fine", "their smoke does not reach my house"."""
    enters = text.spans.get("enter", ()) if match.name in HEAVY else ()
    denied = any(span.denied for clause in text.clauses for span in clause.spans.get("enter", ()))
    return not_mine(text, match.start) or (bool(enters) and denied)


def _fainting(text: Text, found: Sequence[Sign]) -> Iterable[Sign]:
    """ "we slept in the brooder, now the boy is vomiting": people ill where the fire is."""
    near = text.has("heat", "brooder", "smoke") and not text.has("@if", "@others", "@question")
    if not near or not text.has("person") or any(one.name == DROWSY for one in found):
        return
    for at, clause in enumerate(text.clauses):
        for name in ("vomit", "faint", "not_wake"):
            here = text.has("person") if name == "vomit" else clause.has("person")
            denied = clause.has("@neg") if name != "not_wake" else clause.has("bird")
            if here and not denied and clause.has(name):
                yield Sign(DROWSY, clause.spans[name][0].start, False, True, at)
                return


def _clause_matches(
    text: Text, clause: Clause, index: Index, count: int | None
) -> list[tuple[Match, bool]]:
    """Matches of a clause, best first for each sign, with whether they say it is absent."""
    best: dict[tuple[str, bool], Match] = {}
    spans = _without_teller(clause)
    opens = _behind_the_subject(text, clause)
    for absent, patterns in ((False, index.present), (True, index.absent)):
        for match in patterns.find(spans, text.active or None):
            if not absent:
                clause.readings.append(match)
            key = (match.name, absent)
            if key not in best or _better(match, best[key], opens):
                best[key] = match
    for key in [key for key in best if not key[1] and (key[0], True) in best]:
        if best[key].used < best[key[0], True].used:
            del best[key]
    negators = {span.start for span in clause.spans.get("@neg", ())}
    for name, _ in [key for key in best if key[1] and (key[0], False) in best]:
        none = best[name, True]
        if (none.used | none.deniers) & best[name, False].used & negators:
            del best[name, True]  # "hana nguvu, dull": the negator makes the sign
    for key in [key for key in best if key[1] and _denies_another(clause, key[0], best)]:
        del best[key]
    found = [(of_all(text, clause, match, count), absent) for (_, absent), match in best.items()]
    return [pair for pair in found if not _taken_over(clause, pair[0], found)]


def _denies_another(clause: Clause, name: str, best: Mapping[tuple[str, bool], Match]) -> bool:
    """ "white droppings not blood nearly all of them" says nothing of "not all": the negator is of
    the sign right behind it."""
    used = best[name, True].used
    behind = {
        span.end
        for span in clause.spans.get("@neg", ())
        if span.start in used and span.end not in used
    }
    return any(
        not absent and other != name and not behind.isdisjoint(match.used)
        for (other, absent), match in best.items()
    )


def _without_teller(clause: Clause) -> Mapping[str, Sequence[Span]]:
    """The clause without the writer who only tells what is seen: "i looked, heads are swollen"."""
    sees = [span.start for span in clause.spans.get("@sees", ())]
    me = {span.start for span in clause.spans.get("@me", ())}
    tellers = {at for at in me if any(0 < see - at <= 2 for see in sees)}
    if not tellers or "person" not in clause.spans:
        return clause.spans
    patients = [span for span in clause.spans["person"] if span.start not in tellers]
    kept = {name: places for name, places in clause.spans.items() if name != "person"}
    return {**kept, "person": patients} if patients else kept


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
    for other, absent in found:
        if other.name == match.name or little & other.used:
            continue
        if absent and little & other.deniers:
            continue  # "they do not get up when i clap": denied itself, it denies nothing
        if core < other.used:
            return True
        between = range(min(little) + 1, min(core))
        if other.used and all(at in between for at in other.used):
            return True
        if core & other.used and min(other.used) in between:
            return True
    return False


def _behind_the_subject(text: Text, clause: Clause) -> int:
    """Where the clause begins to tell: behind "kuku wangu wengi"."""
    at = clause.start
    while at < clause.end and any(text.at(name, at) for name in OF_THE_SUBJECT):
        if text.at("@verb", at):
            break
        at += 1
    return at


def _better(match: Match, other: Match, opens: int) -> bool:
    """The stronger one; of two on one noun the denied one that begins with it: of "macho yamevimba
    vichwa havijavimba" the heads with the verb behind them. A verb that opens the clause, at
    `opens`, has its noun behind it: "wanaharisha damu hawaharishi kijani"."""
    for one, two, wins in ((match, other, True), (other, match, False)):
        of_first = two.start == opens and two.end - two.start == len(two.used) > 1
        shared = one.start in two.used and one.start > two.start
        if shared and of_first and one.denied and not one.deniers:
            return not wins
        if shared and one.weight >= two.weight and (one.denied or one.deniers):
            return wins
        began = one.used.intersection(range(one.start, two.start)) and one.used & two.used
        if began and one.denied and two.start - one.start == 1:
            return wins  # "hawajikimbizi mbali na moto": the verb before it denies where to
    return _strength(match) > _strength(other)


def _strength(match: Match) -> tuple[int, int]:
    return (match.weight, -(match.end - match.start))


def _judged(
    text: Text, at: int, matches: Sequence[tuple[Match, bool]], count: int | None
) -> Iterable[Sign]:
    clause = text.clauses[at]
    carried = listed(text, at) or taken_back(text, at)
    alive = none_died(text, at)
    for match, absent in matches:
        if alive and match.name == MANY_DEAD:
            continue
        if absent:
            denied = not negated(text, clause, match, matches, absent=True)
            if not denied or match.denied:
                continue
        else:
            denied = carried or match.denied or negated(text, clause, match, matches)
            denied = denied or (match.name not in PLANNED and over(clause, match, matches))
            denied = denied or (match.name in HEAVY and none_inside(clause))
            if denied and match.name == UNWELL:
                continue  # "none is sick" says no more than that all is well
        yield Sign(
            match.name,
            match.start,
            denied,
            many(text, clause, match, count),
            at,
            match.past or past(text, clause, match),
            match.weight,
            any(one in text.guessed for one in match.used),
            match.end,
        )


def _of_two_kinds(text: Text, told: Sign, denied: Sign) -> bool:
    """ "they cough but do not rattle", "swollen eyes, not closed": a sign of two kinds, of
    which one is told and the other denied; but "they coughed, now no cough" is told of one."""
    if "_or_" not in told.name or told.past or denied.start < told.end:
        return False
    if any(one.start <= told.start for one in text.clauses[told.clause].spans.get("@neg", ())):
        return False
    words = {one.text[:STEM] for one in text.tokens[told.start : told.end]}
    same = any(one.text[:STEM] in words for one in text.tokens[denied.start : denied.end])
    return not same and not text.clauses[denied.clause].has("@gone", "@now", "@answer:no")


def _together(text: Text, found: Sequence[Sign], supposed: bool) -> Signs:
    """One word a sign: the later one where a text says both."""
    last: dict[str, Sign] = {}
    for sign in found:
        other = last.get(sign.name)
        if (
            other is not None
            and not other.denied
            and sign.denied
            and (of_the_rest(text, other, sign) or _of_two_kinds(text, other, sign))
        ):
            if sign.name == "lethargic":  # "one is dull, the others are not": no dull flock
                last.setdefault(FLOCK_DULL, replace(sign, name=FLOCK_DULL))
            continue
        if other is None or sign.start >= other.start:
            both = other is not None and not sign.denied and not other.denied and other.many
            last[sign.name] = replace(sign, many=True) if both else sign
    for inner, outer in INSIDE.items():
        alike = (last[name] for name in outer if name in last)
        if inner in last and any(same_words(last[inner], one) for one in alike):
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

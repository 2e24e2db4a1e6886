"""A reading told by the place where it was taken, without a word for the thermometer: "24 under the
lamp", "near the drinker 29". In: a `Scene`. Out: one `Fact` or none. Pure; called by `facts` and
`read`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from bot.facts.talk import Intent, Slots
from bot.understand.annotate import Clause
from bot.understand.numbers import Number
from bot.understand.patterns import Match
from bot.understand.quantities import says_is
from bot.understand.scene import Fact, Scene
from bot.understand.sign import Signs

COOLEST, WARMEST = 15.0, 45.0  # what a brooder may have, in C
OLDEST = 28  # days; grown birds have no heat beside which a reading is taken
FAR = 9  # words from the first of a place to its last ("on the floor below the lamp")
PLACES = ("heat", "drinker", "feeder", "height")
_NAMED = ("brooder", "house")  # what a reading is of by its name alone
# Beside a figure they make it a count of birds, of things, of minutes.
_COUNTS = (
    *("bird", "n", "@few", "person", "count_verb", "@out_of", "minute_word", "length_word"),
    "which_one",
)
_OTHER = ("dead", "lost", "culled", "sold", "feed", "ask_only", "bag_word", "box", "plan")
_WHERE = ("when_word", "ask_where")
_BIRDS = ("bird", "@plural", "@whole")
_ASKED = (None, "temperature", "behaviour")
# What may stand before the figure and its place: "it shows now 37 next to the stove".
_LITTLE = (
    *("@polite", "@pronouns", "@article", "@now", "@day:0", "copula", "~shows", "temperature"),
    *("~beside_time", "near", "@clause"),
)
# Signs of place that the words of such a place only seem to tell of.
_SEEMING = (
    *("piled_near_heat", "away_from_heat", "at_edges_or_walls", "crowded_one_side"),
    "spread_evenly",
)


def by_place(scene: Scene) -> Fact | None:
    """The one figure of a clause that a brooder may have, right beside a place and counting
    nothing."""
    named = scene.has(*PLACES, *_NAMED, "~warmth", "~in_there")
    if not named or (scene.hearing.age_days or 0) > OLDEST:
        return None
    if scene.hearing.prompt not in _ASKED:
        return None
    found = [one for clause in scene.text.clauses for one in _in_clause(scene, clause)]
    if len(found) > 1:  # "near the roof 33 but on the floor 30"
        behind = {one.start for one in scene.text.clauses if scene.text.at("@clause", one.start)}
        last = max(one.start for one in scene.text.clauses if one.start <= found[-1].at)
        return found[-1] if last in behind else None
    return found[0] if found else None


_LEADS = ("copula", "@pronouns", "~warmth", "~in_there", "~beside_time")


def beside_the_birds(scene: Scene) -> Fact | None:
    """ "its 33 n they pant", "29 and they are heaped": the one figure of the text, which its clause
    says of the air alone, where a clause beside it tells what the birds do."""
    if (scene.hearing.age_days or 0) > OLDEST or scene.hearing.prompt not in _ASKED:
        return None
    figures = [one for one in scene.plain_numbers if not one.weak]
    if len(figures) != 1 or scene.quantities or scene.ages or scene.has(*_OTHER, "weigh", "price"):
        return None
    figure = figures[0]
    clause = scene.text.clause_at(figure.start)
    if not COOLEST <= figure.value <= WARMEST or counts(scene, figure):
        return None
    joins = [at for at in range(clause.start, clause.end) if scene.text.at("@and", at)]
    told = [one.start for one in scene.text.spans.get("@plural", ())]
    start = max((at for at in joins if at < figure.start), default=clause.start)
    end = min((at for at in (*joins, *told) if at >= figure.end), default=clause.end)
    end = min(end, clause.end)
    alone = all(
        at in joins or _is_little(scene, at)
        for at in (*range(start, figure.start), *range(figure.end, end))
    )
    if end in told and not (_it_is(scene, figure) or says_is(scene.text, figure.start - 1)):
        return None  # "25 wamelala": so many birds
    birds = any(not start <= at < end for at in told)
    mark = end >= clause.end or scene.text.tokens[end].kind == "mark"
    led = any(scene.text.at(name, at) for name in _LEADS for at in range(start, figure.start))
    if not (mark or end in joins or led):
        return None  # "25 wamelala pembeni": so many birds
    asked = any(one.asked or one.has("@if") for one in scene.text.clauses)
    if alone and birds and not asked and scene.hearing.has_batch:
        return Fact(Intent.TEMPERATURE, Slots(value_c=figure.value), figure.start)
    return None


def _in_clause(scene: Scene, clause: Clause) -> Iterator[Fact]:
    figures = [
        one
        for one in scene.near(clause, scene.plain_numbers)
        if not one.weak and not scene.text.at("@outside", one.start - 1)
    ]
    if len(figures) != 1 or not COOLEST <= figures[0].value <= WARMEST or clause.asked:
        return
    figure = figures[0]
    measured = any(clause.start <= one.start < clause.end for one in scene.quantities)
    if measured or any(_of_it(one, clause) for one in scene.text.clauses):
        return
    if any(told(scene, clause, figure) for told in (_of_the_brooder, _so_warm, _in_there)):
        yield Fact(Intent.TEMPERATURE, Slots(value_c=figure.value), figure.start)
        return
    if counts(scene, figure):
        return
    placed = _before_its_place(scene, clause, figure) or _behind_its_place(scene, clause, figure)
    if placed or _only_shown(scene, clause, figure):
        yield Fact(Intent.TEMPERATURE, Slots(value_c=figure.value), figure.start)


def _of_the_brooder(scene: Scene, clause: Clause, figure: Number) -> bool:
    """ "the brooder is at 32", "bandani 33 sasa hivi": nothing but its name, and that it is so warm
    or when."""
    if not scene.hearing.has_batch:
        return False  # "my room is 30": how big
    names = [one for name in _NAMED for one in clause.spans.get(name, ())]
    rest = [
        at
        for at in range(clause.start, figure.start)
        if not any(one.start <= at < one.end for one in names)
    ]
    said = any(
        says_is(scene.text, at) or scene.text.at("copula", at) or scene.text.at("~at_price", at)
        for at in rest
    )
    timed = clause.has("just_now", "hour_word") and any(one.end == figure.start for one in names)
    said = said or timed
    whose = {at for one in names for at in (one.start - 1, one.end) if scene.text.at("@common", at)}
    time = ("hour_word",) if timed else ()
    little = all(at in whose or _is_little(scene, at, *time) for at in rest)
    behind = all(_is_little(scene, at, *time) for at in range(figure.end, clause.end))
    return bool(names) and said and little and behind


def _so_warm(scene: Scene, clause: Clause, figure: Number) -> bool:
    """ "heat is 28", "warmth 30 now": the word for it, the figure, and nothing else."""
    words = clause.spans.get("~warmth", ())
    told = {at for one in words for at in range(one.start, one.end)}
    told |= set(range(figure.start, figure.end))
    rest = [at for at in range(clause.start, clause.end) if at not in told]
    behind = bool(words) and all(one.start < figure.start for one in words)
    denied = clause.has("@since", "@neg", "@gone", "@past")
    return behind and not denied and all(_is_little(scene, at, "~in_there") for at in rest)


def _in_there(scene: Scene, clause: Clause, figure: Number) -> bool:
    """ "it is 28 in there": of the air, and nothing else told."""
    rest = [at for at in range(clause.start, clause.end) if not figure.start <= at < figure.end]
    named = scene.text.at("~in_there", figure.end) and _it_is(scene, figure)
    return named and all(_is_little(scene, at, "~in_there") for at in rest)


def _of_it(other: Clause, told: Clause) -> bool:
    """ "20 by the drinker, dead": a word with no figure and no "no" of its own is of this one."""
    return other.has(*_OTHER) and (other is told or not other.has("n", "@neg", "@answer:no"))


def without_its_place(scene: Scene, signs: Signs, told: Fact) -> Signs:
    """Without the signs of place that only the words of the place itself seem to tell of: of the
    place of a reading, or of the way that birds went."""
    gone = told.intent in (Intent.TAKEN, Intent.DEATHS)
    stands = {
        match.name
        for clause in scene.text.clauses
        for match in clause.readings
        if not (
            clause.start <= told.at < clause.end and (gone or _told_by_place(scene, clause, match))
        )
    }
    dropped = [one for one in _SEEMING if one not in stands]
    return replace(
        signs,
        present=tuple(one for one in signs.present if one not in dropped),
        many=tuple(one for one in signs.many if one not in dropped),
        absent=tuple(one for one in signs.absent if one not in dropped),
    )


def _told_by_place(scene: Scene, clause: Clause, match: Match) -> bool:
    """Whether no bird is named before the place: "34 at the edge of the bulb"."""
    named = (span.start for name in _BIRDS for span in clause.spans.get(name, ()))
    birds = [at for at in named if scene.text.tokens[at].value is None]
    return not any(at < match.end and not scene.text.at("when_word", at - 1) for at in birds)


def counts(scene: Scene, figure: Number) -> bool:
    """Whether a figure stands right beside what it counts: birds, minutes, a length."""
    beside = (figure.start - 1, figure.end)
    return any(
        scene.text.at(name, at) and not scene.text.at("height", at)
        for name in _COUNTS
        for at in beside
        if not (name == "count_verb" and _it_is(scene, figure))
    )


def _it_is(scene: Scene, figure: Number) -> bool:
    """ "it is 27 under the lamp": said of the air, where "they are 27" counts birds."""
    spans = scene.text.spans
    its = {(one.start, one.end) for one in spans.get("@subject", ())}
    said = (one for one in spans.get("copula", ()) if one.end == figure.start)
    return any((one.start, one.end) in its for one in said)


def _behind_its_place(scene: Scene, clause: Clause, figure: Number) -> bool:
    """ "near the drinker 29": nothing but the place before the figure, which ends the clause."""
    outside = [one.end for one in scene.plain_numbers if scene.text.at("@outside", one.start - 1)]
    at = max((end for end in outside if clause.start < end <= figure.start), default=clause.start)
    between = () if at == clause.start else ("@common",)  # "outside 19, in there by the chicks 32"
    while at < figure.start and not _leads(scene, at):
        if not _is_little(scene, at, *between):
            return False
        at += 1
    end = _end_of_place(scene, at, figure.start)
    if end is None or figure.end != clause.end:
        return False
    return all(_is_little(scene, one) for one in range(end, figure.start))


def _before_its_place(scene: Scene, clause: Clause, figure: Number) -> bool:
    """ "it shows 24 under the lamp where they sleep": the place right behind the figure, and behind
    it nothing that birds do there."""
    if not all(_is_little(scene, at) for at in range(clause.start, figure.start)):
        return False
    just = scene.text.at("@common", figure.end) and not _leads(scene, figure.end)
    end = _end_of_place(scene, figure.end + just, clause.end)
    if end is None:
        return False
    if any(scene.text.at(name, end) for name in ("@joins", "@and", "@polite", "@now")):
        return True
    while end < clause.end and _is_little(scene, end):
        end += 1
    return end == clause.end or any(scene.text.at(name, end) for name in _WHERE)


def _only_shown(scene: Scene, clause: Clause, figure: Number) -> bool:
    """ "what hangs on the beam, two metres above them, shows 37": a clause of nothing else."""
    shown = scene.text.at("~shows", figure.start - 1) and clause.start >= figure.start - 2
    return shown and figure.end == clause.end and scene.has("height")


def _end_of_place(scene: Scene, start: int, stop: int) -> int | None:
    """Behind the last word of the place that begins at a token; None where none begins there."""
    if not _leads(scene, start):
        return None
    end = None
    for at in range(start, min(start + FAR + 1, stop)):
        if any(scene.text.at(name, at) for name in PLACES) or (
            end == at and _of_an_edge(scene, at)
        ):
            end = at + 1
        elif not (_leads(scene, at) or _is_little(scene, at, "@common") or _of_an_edge(scene, at)):
            break
    return end


def _of_an_edge(scene: Scene, at: int) -> bool:
    """ "at the edge of the bulb"."""
    return scene.text.at("edge", at) or (
        scene.text.at("@out_of", at) and scene.text.at("edge", at - 1)
    )


def _leads(scene: Scene, at: int) -> bool:
    """A word that leads to a place ("under", "at"), or a level of its own ("at chick level")."""
    return any(scene.text.at(name, at) for name in ("near", "~beside_time", "height"))


def _is_little(scene: Scene, at: int, *names: str) -> bool:
    return says_is(scene.text, at) or any(scene.text.at(name, at) for name in (*_LITTLE, *names))

"""How many died, or were culled, out of a text. In: a `Scene`. Out: one `Fact` or none. Pure.

Called by `facts`. The figure of today where two days are named; "no deaths" is 0; the figure behind
"of" is the flock.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bot.facts.talk import Intent, Slots
from bot.understand.annotate import Clause
from bot.understand.dates import Day
from bot.understand.dead_figure import apart, day_in, figure_in
from bot.understand.dying import (
    feared,
    if_ever,
    likened,
    of_a_thing,
    of_the_fire,
    that_was_then,
    theirs_too,
)
from bot.understand.how_many import so_many
from bot.understand.numbers import Number
from bot.understand.of_now import dead_of_now, tells_of_then
from bot.understand.patterns import Span
from bot.understand.scene import YOUNGEST_SOLD, Fact, Scene
from bot.understand.seized import seized
from bot.understand.supposed import of_others
from bot.understand.tally import NOUGHTS, Told, left_open, of_today, tallied

_FED = ("fed", "drank", "weigh", "temperature", "humidity", "sold", "bought")
_STORES = (*_FED, "feed", "water", "eat", "drink", "@unit:kg", "@unit:litre")
_ILL = ("head", "neck", "swollen", "blood", "gasp", "diarrhoea", "twist", "sick", "dull", "sneeze")
_LET_GO = ("price", "sold", "each", "per_kg", "total", "@unit:money")
_NOT_DEAD = ("trade", "price", "feed", "water", "temperature", "plan", "order", "placed", "arrived")
FEW_DEAD = 3  # words of a clause that says no more than that they are dead
NEAR_HOUR = 4  # tokens between a figure and its hour
# What may stand beside "me, none" and tells of nothing else.
_OF_THE_LIVING = (
    *("bird", "dead", "lost", "own_birds", "myself", "n", "well", "@me", "@polite", "@pronouns"),
    *("@article", "@common", "@now", "@weak", "@day:0", "@joiner", "for_all"),
    *("@clause", "@subject", "~nobody", "~only", "@still"),
)
# Between "not many" and the figure that it is instead.
_INSTEAD = ("dead", "bird", "copula", "~only", "@subject", "@joins", "few_only", "@pronouns")
# Beside one of these a lone figure tells of nothing else ("it is only one").
_AROUND_ONE = ("@pronouns", "@subject", "@common", "~only", "@polite")


def deaths(scene: Scene) -> Iterator[Fact]:
    """The dead of today, and the culled where they are told apart."""
    if scene.has("game_word") and not scene.has("dead", "bird"):
        return  # "they won 2 0 yesterday"
    apart = _culled_apart(scene)
    if apart is not None:
        yield Fact(Intent.CULLED, Slots(count=round(apart.value)), apart.start)
    told = _told(scene, apart)
    one = of_today(told)
    if one is None:
        return
    culled = scene.has("culled") and not scene.has("dead", "lost")
    if not culled and left_open(scene, told):
        first, then = told[0].dead, told[1].dead
        sign = danger_of(first + then, scene.hearing.count)
        yield Fact(Intent.DEATHS, Slots(deaths=then, was=first), one.at, sign)
        return
    yield Fact(
        Intent.CULLED if culled else Intent.DEATHS,
        Slots(deaths=None if culled else one.dead, count=one.dead if culled else None),
        one.at,
        () if culled else danger_of(one.dead, scene.hearing.count),
    )


def _told(scene: Scene, culled: Number | None) -> list[Told]:
    """Every figure of dead birds with its day, by the first way of telling that fits."""
    told = list(_rest_is_dead(scene)) or tallied(scene)
    if told:
        return told
    told = _in_clauses(scene, culled)
    if not told and scene.hearing.prompt == "deaths":
        told.extend(_answered(scene))
    told = told or list(_gone_from_the_flock(scene)) or list(_so_many_bodies(scene))
    told = told or list(_fewer_alive(scene))
    told = told or list(_by_a_beast(scene))
    if not told:
        return []
    then = scene.has("from_start") or not any(one.day == 0 for one in told)
    if tells_of_then(scene) and then:
        told.extend(dead_of_now(scene, told[0].at))
    told.extend(_nothing_of_mine(scene, told[0].at))
    return told


def _by_a_beast(scene: Scene) -> Iterator[Told]:
    """Those that a beast took are gone like the dead."""
    taken = seized(scene)
    if taken is not None:
        yield Told(taken.number.start, round(taken.number.value), scene.day(past=True))


def _in_clauses(scene: Scene, culled: Number | None) -> list[Told]:
    """Clause by clause that tells of dying."""
    told: list[Told] = []
    for at, clause in enumerate(scene.text.clauses):
        if not clause.has("dead", "lost", "culled"):
            if told:
                told.extend(_told_today(scene, at))
            continue
        word = min(
            span.start for name in ("dead", "lost", "culled") for span in clause.spans.get(name, ())
        )
        rat = any(scene.text.at("predator", word - back) for back in (1, 2))  # "found a rat dead"
        others = (clause.has("not_birds") or rat or of_the_fire(scene, clause)) and not clause.has(
            "bird"
        )
        if of_a_thing(scene, clause, word) or likened(scene, clause, word):
            continue
        theirs = of_others(scene.text, clause, word) and not theirs_too(clause, word)
        if others or theirs or that_was_then(scene, at):
            told.extend(_none_of_mine(scene, word))
            if not told and tells_of_then(scene):
                told.extend(dead_of_now(scene, word))
            continue
        if if_ever(scene, clause, word) or feared(scene, clause, word):
            continue
        instead = list(_instead_of_many(scene, at))
        found = None if instead else figure_in(scene, clause, culled)
        told.extend(instead)
        if found is not None:
            told.append(Told(found.at, found.dead, day_in(scene, clause, found.at)))
            if at:
                told.extend(_told_today(scene, at - 1))
        elif _nobody(scene, at):
            told.append(Told(word, 0, day_in(scene, clause, word)))
        elif behind := list(_behind_a_vessel(scene, at)):
            told.extend(behind)
        elif at and clause.has("dead"):
            told.extend(_before_comma(scene, at))
    return told


def _instead_of_many(scene: Scene, at: int) -> Iterator[Told]:
    """ "i didn't say many died, it is one": the clause behind is its figure alone."""
    here, behind = scene.text.clauses[at], scene.text.clauses[at + 1 : at + 2]
    if not here.has("@many") or not _denies(here):
        return
    told_here = scene.near(here, scene.plain_numbers)
    if told_here:
        yield from _right_behind_many(scene, here, told_here)
        return
    for clause in behind:
        figures = scene.near(clause, scene.plain_numbers)
        told = {place for one in figures for place in range(one.start, one.end)}
        plain = all(
            any(scene.text.at(name, place) for name in _AROUND_ONE)
            for place in range(clause.start, clause.end)
            if place not in told
        )
        if len(figures) == 1 and plain and clause.sentence == here.sentence:
            yield Told(figures[0].start, round(figures[0].value))


def _denies(clause: Clause) -> bool:
    """Whether a negator stands there, or dying is denied by its verb ("hawajafa wengi")."""
    return clause.has("@neg") or any(one.denied for one in clause.spans.get("dead", ()))


def _right_behind_many(scene: Scene, clause: Clause, figures: Sequence[Number]) -> Iterator[Told]:
    """ "not many died only 2", "vifo si vingi ni viwili": what it is instead."""
    many = max(span.end for span in clause.spans["@many"])
    denied = [span.start for span in clause.spans.get("@neg", ())]
    denied += [span.start for span in clause.spans.get("dead", ()) if span.denied]
    one = figures[0]
    plain = all(any(scene.text.at(name, at) for name in _INSTEAD) for at in range(many, one.start))
    if len(figures) == 1 and one.start >= many > min(denied) and plain:
        yield Told(one.start, round(one.value), day_in(scene, clause, one.start))


def _culled_apart(scene: Scene) -> Number | None:
    """ "2 lost and 1 culled for leg": the figure beside the word, where the dead have their own."""
    if not scene.has("culled") or not scene.has("dead", "lost"):
        return None
    figures = [one for one in scene.plain_numbers if not scene.of_flock(one)]
    killed = scene.text.spans["culled"]
    died = [span for name in ("dead", "lost") for span in scene.text.spans.get(name, ())]
    died = [
        one
        for one in died
        if not any(one.start < span.end and span.start < one.end for span in killed)
    ]

    def away(one: Number, words: Sequence[Span]) -> int:
        return min((apart(one, span.start, span.end) for span in words), default=NEAR_HOUR)

    def leads(one: Number, words: Sequence[Span]) -> bool:
        return any(one.end == span.start for span in words)

    in_pairs = any(leads(one, killed) for one in figures) and any(
        leads(one, died) for one in figures
    )  # "3 died 1 culled": each before its word
    own = [
        one
        for one in figures
        if away(one, killed) <= 1
        and (away(one, killed) < away(one, died) or (in_pairs and leads(one, killed)))
    ]
    others = [one for one in figures if one not in own]
    if len(own) != 1 or not died or own[0].value != int(own[0].value):
        return None
    told = any(away(one, died) <= 1 for one in others) or any(one.denied for one in died)
    return own[0] if told else None


def _nobody(scene: Scene, at: int) -> bool:
    """ "today we lost nobody": the word opens a clause of its own behind the verb."""
    clause, behind = scene.text.clauses[at], scene.text.clauses[at + 1 : at + 2]
    if clause.has("lost_other", "person_thing") or scene.near(clause, scene.plain_numbers):
        return False
    return scene.text.at("~nobody", clause.end - 1) or any(
        one.sentence == clause.sentence and _names_nobody(scene, one) for one in behind
    )


def _names_nobody(scene: Scene, clause: Clause) -> bool:
    """ "nobody", "no one this week": no other word than of the time."""
    named = [one for one in clause.spans.get("~nobody", ()) if one.start == clause.start]
    times = ("@now", "@day:0", "@weeks", "@days", "@common", "@polite", "@still")
    rest = range(max(one.end for one in named), clause.end) if named else ()
    return bool(named) and all(any(scene.text.at(name, at) for name in times) for at in rest)


def _rest_is_dead(scene: Scene) -> Iterator[Told]:
    """ "200 yesterday, today I counted 185, the rest are carcasses": the difference died."""
    whole = [one for one in scene.plain_numbers if one.value == int(one.value) and not one.weak]
    if len(whole) != 2 or not whole[1].value < whole[0].value <= 2 * whole[1].value:
        return
    for span in scene.text.spans.get("others_rest", ()):
        dead = any(scene.text.at("dead", span.end + skip) for skip in range(3))
        if dead and span.start >= whole[1].end:
            yield Told(span.start, round(whole[0].value - whole[1].value), 0)
            return


def danger_of(dead: int, count: int | None) -> tuple[str, ...]:
    """The sign that so many deaths of a day are (practice.md: danger by number)."""
    return ("sudden_many_deaths",) if so_many(dead, count) else ()


def _none_of_mine(scene: Scene, word: int) -> Iterator[Told]:
    """ "my neighbour lost 20, me none", "he lost 30, i lost nothing": the text ends on the writer,
    a nought, and words of birds and of dying alone."""
    text = scene.text
    figures = [one for one in text.numbers if one.value and not one.weak]
    for name in ("own_birds", "myself", "@me"):
        for span in text.spans.get(name, ()):
            rest = range(span.start, len(text.tokens))
            if span.start <= word or any(one.start >= span.start for one in figures):
                continue
            noughts = any(text.at(one, at) for one in NOUGHTS for at in rest)
            none = noughts or any(one.value == 0 for one in text.numbers if one.start in rest)
            none = none or any(
                one.denied and one.start >= span.start
                for name in ("dead", "lost")
                for one in text.spans.get(name, ())
            )
            plain = (text.tokens[at].kind != "word" or _says_no_more(scene, at) for at in rest)
            if none and all(plain):
                yield Told(span.start, 0)
                return


def _says_no_more(scene: Scene, at: int) -> bool:
    mark = scene.text.tokens[at].kind == "mark"
    return mark or any(scene.text.at(name, at) for name in (*NOUGHTS, *_OF_THE_LIVING))


def _gone_from_the_flock(scene: Scene) -> Iterator[Told]:
    """ "14 gone this night out of 400", "heads swollen, 5 sont deja parti ce matin": birds gone by
    themselves, of a flock or beside an illness; none that were sold or given."""
    let_go = scene.has(*_LET_GO) or bool(scene.of_kind("grams"))
    if scene.sold_at is not None or scene.has("buyer", "thief", "plan", "@others"):
        return
    now = any(day.offset in (0, -1) for day in scene.days) or scene.has(
        "hour_word", "@now", "~already"
    )
    for one in scene.plain_numbers:
        if one.value != int(one.value) or (one.weak and not one.spelt):
            continue
        end = one.end
        while any(scene.text.at(name, end) for name in ("~are", "~only", "bird", "~added")):
            end += 1
        beside = now and scene.has("@out_of", *_ILL) and not let_go
        if (
            (scene.text.at("~gone", end) and (beside or _gone_young(scene, one, end)))
            or _gone_for_good(scene, one, end)
        ) and not scene.of_flock(one):
            yield Told(one.start, round(one.value), 0)
            return


def _gone_young(scene: Scene, number: Number, end: int) -> bool:
    """ "one don go, average 165 g", "3 gone this morning": of birds too young to be sold a
    statement says no more than how many are gone."""
    old = (scene.hearing.age_days or YOUNGEST_SOLD) >= YOUNGEST_SOLD
    if (old and not scene.has("predator")) or scene.has("price", "sold") or scene.of_kind("money"):
        return False
    return _says_no_more_than(scene, number, "~gone", end)


def _gone_for_good(scene: Scene, number: Number, end: int) -> bool:
    """ "7 didnt wake up", "4 have left us", "8 went home to god": words that may be of people or of
    trade, where a statement holds no more than how many and when."""
    if not scene.text.at("gone_for_good", end) or scene.has("trade", "price", "person"):
        return False
    return _says_no_more_than(scene, number, "gone_for_good", end)


def _says_no_more_than(scene: Scene, number: Number, name: str, end: int) -> bool:
    """Whether a clause holds the figure, those words and a time alone."""
    text = scene.text
    clause = text.clause_at(number.start)
    gone = {at for span in clause.spans.get(name, ()) for at in range(span.start, span.end)}
    days = {at for day in scene.days for at in range(day.start, day.end)}
    joined = [at for at in range(end, clause.end) if text.at("@and", at)]
    rest = range(end, min(joined, default=clause.end))
    first = clause.start
    while any(text.at(one, first) for one in ("@and", "@polite", "~only", "@common")):
        first += 1
    return number.start == first and all(
        at in gone | days or text.at("hour_word", at) or text.at("@now", at) for at in rest
    )


def _fewer_alive(scene: Scene) -> Iterator[Told]:
    """ "had 500 last night now 460 breathing", "281 alive out of 300 today": those that are missing
    among the living died, where nothing was sold, given or taken."""
    figures = [one for one in scene.plain_numbers if not one.weak]
    if len(figures) != 2 or scene.quantities or scene.has(*_NOT_DEAD):
        return
    if scene.sold_at is not None or any(one.asked for one in scene.text.clauses):
        return
    flock, alive = sorted(figures, key=lambda one: -one.value)
    if not alive.value < flock.value <= 2 * alive.value or flock.value != int(flock.value):
        return
    if not (scene.days or scene.has("hour_word", "@now", "just_now", "sleepy")):
        return  # "i have 288 alive of 300": since when is not told
    living = any(
        scene.text.at("~living", at)
        for at in (alive.end, alive.end + 1, alive.start - 1, alive.start - 2)
    )
    if living and (scene.of_flock(flock) or flock.start < alive.start):
        yield Told(alive.start, round(flock.value - alive.value), 0)


def _nothing_of_mine(scene: Scene, word: int) -> Iterator[Told]:
    """ "jirani lost 100, mine 0": the text ends on a nought of one's own."""
    for span in scene.text.spans.get("own_birds", ()):
        last = scene.text.tokens[-1]
        if span.start > word and span.end == len(scene.text.tokens) - 1 and last.value == 0:
            yield Told(span.start, 0, 0)


def _answered(scene: Scene) -> Iterator[Told]:
    """To "how many died?": "3 since the start, today none"; the day is said, the word is not."""
    for at, clause in enumerate(scene.text.clauses):
        yield from _told_today(scene, at)
        said = scene.near(clause, scene.plain_numbers)
        figures = [one for one in said if not scene.of_flock(one)]
        days = [day for day in scene.days if clause.start <= day.start < clause.end]
        if len(said) == 2 and len(figures) == len(days) == 1 and not scene.quantities:
            yield Told(
                figures[0].start, round(figures[0].value), day_in(scene, clause, figures[0].start)
            )
        elif len(figures) == len(days) == 2 and not scene.quantities:
            yield from (
                Told(one.start, round(one.value), 0)
                for one in figures
                if day_in(scene, clause, one.start) == 0
            )
        elif len(figures) == 2 and len(days) == 1 and not scene.quantities:
            near = min(figures, key=lambda one: apart(one, days[0].start, days[0].end))
            yield Told(near.start, round(near.value), day_in(scene, clause, near.start))
        elif len(figures) == len(days) == 1 and day_in(scene, clause, days[0].start) == 0:
            yield from _beside_today(scene, clause, figures[0].start, days[0])


def _told_today(scene: Scene, at: int) -> Iterator[Told]:
    """ "yesterday 2 died, today none", "hier 2 morts, aujourd'hui 1": only a day and a figure; the
    day may be a clause of its own ("today, however, not one")."""
    clause, before = scene.text.clauses[at], scene.text.clauses[max(at - 1, 0)]
    day = day_in(scene, clause, clause.start)
    if day is None and before.end - before.start == 1:
        day = day_in(scene, before, before.start)
    if day != 0:
        return
    figures = scene.near(clause, scene.plain_numbers)
    if clause.has("@neg") and all(one.weak for one in figures):
        if all(_says_no_more(scene, at) for at in range(clause.start, clause.end)):
            yield Told(clause.start, 0, 0)  # "it is fire today, no wind" tells of no birds
    elif len(figures) == 1 and clause.end - clause.start <= 4 and not clause.has(*_STORES):
        yield Told(figures[0].start, round(figures[0].value), 0)


def _behind_a_vessel(scene: Scene, at: int) -> Iterator[Told]:
    """ "a wheelbarrow of carcasses. forty": the figure alone behind what they were put in."""
    behind = scene.text.clauses[at + 1 : at + 2]
    if not scene.text.clauses[at].has("vessel"):
        return
    for clause in behind:
        figures = scene.near(clause, scene.plain_numbers)
        if len(figures) == 1 and figures[0].end - figures[0].start == clause.end - clause.start:
            yield Told(figures[0].start, round(figures[0].value))


def _before_comma(scene: Scene, at: int) -> Iterator[Told]:
    """ "today 2, dead", "4 of 300 did not get up, cold already": the figure stands alone before the
    comma."""
    clause = scene.text.clauses[at - 1]
    if clause.sentence == scene.text.clauses[at].sentence:
        alone = [one for one in scene.near(clause, scene.plain_numbers) if not scene.of_flock(one)]
        short = clause.end - clause.start <= 3 or clause.has("get_up", "stand_up")
        short = short or scene.text.at("~put_right", scene.text.clauses[at].start)  # "i mean dead"
        lay = len(alone) == 1 and _lay_there(scene, clause, scene.text.clauses[at], alone[0])
        if len(alone) == 1 and (lay or (short and not alone[0].weak)):
            yield Told(alone[0].start, round(alone[0].value), day_in(scene, clause, alone[0].start))


def _lay_there(scene: Scene, before: Clause, dead: Clause, one: Number) -> bool:
    """ "one found under the feeder, dead": where so many lay, and behind the comma hardly more than
    that they are dead."""
    at = one.start
    while at > before.start and any(
        scene.text.at(name, at - 1) for name in ("~picked", "@sees", "@me", "@now", "@pronouns")
    ):
        at -= 1
    found = before.has("~picked", "near", "lying") and not before.has("eat", "drink", "cry")
    return found and at == before.start and dead.end - dead.start <= FEW_DEAD


def where_they_lay(scene: Scene, fact: Fact) -> bool:
    """ "two lying by the wall, dead": the clause of the figure tells only where they were found."""
    return fact.intent is Intent.DEATHS and any(
        clause.start <= fact.at < clause.end and not clause.has("dead", "lost", "culled", "pile")
        for clause in scene.text.clauses
    )


def _so_many_bodies(scene: Scene) -> Iterator[Told]:
    """ "we picked 7 bodies": what only the dead are counted as; hot or bare ones are alive."""
    if scene.has(*_ILL, "feather", "hot", "cold", "weigh", "sold", "plan", "ask_only"):
        return
    for one in scene.plain_numbers:
        before = scene.text.at("~bodies", one.end) or scene.text.at("~bodies", one.end + 1)
        if one.weak and scene.text.at("remaining", one.end + 1):
            continue  # "beneath the one that remains"
        if one.value == int(one.value) and (before or scene.text.at("~bodies", one.start - 1)):
            clause = scene.text.clause_at(one.start)
            yield Told(one.start, round(one.value), day_in(scene, clause, one.start))
            return


def _beside_today(scene: Scene, clause: Clause, first: int, today: Day) -> Iterator[Told]:
    """ "9 died since day one, none today", "6 have died, today 1": a figure or a "none" right
    beside the day, at the end of the clause, with the first figure further off."""
    if today.start - first < 3 or clause.end - today.end > 1:
        return
    for at in (today.start - 1, today.end):
        figure = next((one for one in scene.plain_numbers if one.start == at), None)
        counts = figure is not None and not figure.weak and not scene.of_flock(figure)
        if figure is not None and counts and figure.start > first:
            yield Told(at, round(figure.value), 0)
        elif any(span.start == at for span in clause.spans.get("@neg", ())):
            yield Told(at, 0, 0)

"""How many died, or were culled, out of a text. In: a `Scene`. Out: one `Fact` or none. Pure.

Called by `facts`. The figure of today where two days are named; "no deaths" is 0; the figure behind
"of" is the flock.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bot.facts.talk import Intent, Slots
from bot.understand.annotate import Clause, joins
from bot.understand.dates import Day, in_pairs
from bot.understand.lexicon import DENIED
from bot.understand.numbers import Number
from bot.understand.of_now import dead_of_now, tells_of_then
from bot.understand.patterns import Span
from bot.understand.quantities import says_is
from bot.understand.scene import YOUNGEST_SOLD, Fact, Scene
from bot.understand.supposed import of_others
from bot.understand.tally import NOUGHTS, Told, left_open, of_today, tallied

DEFAULT_COUNT = 300
SHORT_QUESTION = 7  # words
BARE = 3  # words of a statement that hardly says more than that some died
LAST_HOUR = 24
FEW_BEHIND = 3  # words behind "lost 7" that would tell of what, if not of birds
LINKS = 3  # words between a fire and that it died
FEARED = 2  # words between a fear and the dying that is feared
LIKENED = 6  # words between "like" and those who die
_FED = ("fed", "drank", "weigh", "temperature", "humidity", "sold", "bought")
_STORES = (*_FED, "feed", "water", "eat", "drink", "@unit:kg", "@unit:litre")
_ILL = ("head", "neck", "swollen", "blood", "gasp", "diarrhoea", "twist", "sick", "dull", "sneeze")
_LET_GO = ("price", "sold", "each", "per_kg", "total", "@unit:money")
NEAR_VESSEL = 2  # tokens behind a figure in which a vessel is what it counts
NEAR_HOUR = 4  # tokens between a figure and its hour
# What may stand beside "me, none" and tells of nothing else.
_OF_THE_LIVING = (
    *("bird", "dead", "lost", "own_birds", "myself", "n", "well", "@me", "@polite", "@pronouns"),
    *("@article", "@common", "@now", "@weak", "@day:0", "@joiner", "for_all"),
    *("@clause", "@subject", "~nobody", "~only", "@still"),
)


# Beside one of these a lone figure tells of nothing else ("it is only one").
_AROUND_ONE = ("@pronouns", "@subject", "@common", "~only", "@polite")
# What may stand between two figures of the same dead, the right and the wrong one.
_OF_THE_DEAD = (
    *("dead", "lost", "bird", "copula"),
    *("@pronouns", "@common", "@article", "@auxiliary", "@carries", "@subject"),
)
_UNTOLD = (
    *("@neg", "@if", "@ifform", "@future"),
    *("@others", "@earlier", "not_birds", "@no_birds"),
)


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


def uncounted(scene: Scene) -> bool:
    """ "some died", "ya des morts": own birds that died, and no figure of how many."""
    if not scene.hearing.has_batch or scene.has("@question", "game_word", "die_not"):
        return False
    if scene.has("kin", "mourned") and not scene.has("bird"):
        return False  # "my father passed on. burial is saturday"
    return any(
        _of_own(scene, clause)
        and not (clause.asked or clause.has(*_UNTOLD) or _of_nobody(scene, at))
        for at, clause in enumerate(scene.text.clauses)
        if clause.has("dead")
    )


def _of_own(scene: Scene, clause: Clause) -> bool:
    """Birds are named, or some of them, or hardly a word stands beside that they died."""
    bare = _words_of(scene, clause) <= BARE and not clause.has("person")
    return bare or clause.has("bird", "@few", "few_only")


def _words_of(scene: Scene, clause: Clause) -> int:
    return sum(one.kind != "mark" for one in scene.text.tokens[clause.start : clause.end])


def _of_nobody(scene: Scene, at: int) -> bool:
    """Denied, said of a thing, likened, or of others' birds and of earlier ones."""
    clause = scene.text.clauses[at]
    dead = clause.spans["dead"][0]
    word = dead.start
    likened = _of_a_thing(scene, clause, word) or _likened(scene, clause, word)
    theirs = of_others(scene.text, clause, word) or _that_was_then(scene, at)
    return dead.denied or likened or theirs or _of_the_fire(scene, clause)


def _told(scene: Scene, culled: Number | None) -> list[Told]:
    """Every figure of dead birds with its day, by the first way of telling that fits."""
    told = list(_rest_is_dead(scene)) or tallied(scene)
    if told:
        return told
    told = _in_clauses(scene, culled)
    if not told and scene.hearing.prompt == "deaths":
        told.extend(_answered(scene))
    told = told or list(_gone_from_the_flock(scene))
    if not told:
        return []
    then = scene.has("from_start") or not any(one.day == 0 for one in told)
    if tells_of_then(scene) and then:
        told.extend(dead_of_now(scene, told[0].at))
    told.extend(_nothing_of_mine(scene, told[0].at))
    return told


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
        others = (clause.has("not_birds") or rat or _of_the_fire(scene, clause)) and not clause.has(
            "bird"
        )
        if _of_a_thing(scene, clause, word) or _likened(scene, clause, word):
            continue
        theirs = of_others(scene.text, clause, word) and not _theirs_too(clause, word)
        if others or theirs or _that_was_then(scene, at):
            told.extend(_none_of_mine(scene, word))
            if not told and tells_of_then(scene):
                told.extend(dead_of_now(scene, word))
            continue
        if _if_ever(scene, clause, word) or _feared(scene, clause, word):
            continue
        instead = list(_instead_of_many(scene, at))
        found = None if instead else _deaths_in(scene, clause, culled)
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
    if not (here.has("@many") and here.has("@neg")) or scene.near(here, scene.plain_numbers):
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


def _feared(scene: Scene, clause: Clause, word: int) -> bool:
    """ "un peu couches, j'ai peur ils meurent": feared right before the word, without a figure."""
    near = any(word - FEARED <= span.end <= word for span in clause.spans.get("die_not", ()))
    figures = scene.near(clause, scene.plain_numbers)
    return near and all(one.weak for one in figures)


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


def _theirs_too(clause: Clause, word: int) -> bool:
    """ "18 dead and the neighbour's are all dead": the first are ours."""
    joined = [one.start for one in joins(clause) if one.start > word]
    others = [one.start for one in clause.spans.get("@others", ()) if one.start > word]
    died = (span.start for name in ("dead", "lost") for span in clause.spans.get(name, ()))
    return bool(joined and others) and joined[0] < others[0] and max(died) > joined[0]


def _of_the_fire(scene: Scene, clause: Clause) -> bool:
    """ "the fire is burning, it has not died"."""
    out = clause.has("out_fire") and scene.has("heat")
    return out and not scene.plain_numbers and not scene.has("bird", "a_bird", "@answer:no")


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


def _of_a_thing(scene: Scene, clause: Clause, word: int) -> bool:
    """ "le feu est mort a 3h", "the bulb has died": what died stands right before it."""
    said = len(clause.spans.get("dead", ())) == 1 and not clause.has("lost", "culled")
    if not said or any(one.start == word + 1 for one in scene.plain_numbers):
        return False
    for at in range(word - 1, max(word - LINKS, clause.start) - 1, -1):
        if any(scene.text.at(name, at) for name in ("heat", "power", "light_word")):
            return at == word - 1 or not scene.text.at("@neg", at + 1)
        linked = any(scene.text.at(name, at) for name in ("copula", "@pronouns", "@auxiliary"))
        if not linked and not says_is(scene.text, at):
            return False
    return False


def _likened(scene: Scene, clause: Clause, word: int) -> bool:
    """ "they breathe like those who drown", "comme ceux qui se noient": nobody died."""
    figures = {one.start for one in scene.plain_numbers} | {one.start for one in scene.days}
    for at in range(word - 1, max(word - LIKENED, clause.start) - 1, -1):
        if at in figures or word + 1 in figures:
            return False
        if scene.text.at("~like", at):
            return True
    return False


def _that_was_then(scene: Scene, at: int) -> bool:
    """ "40 died on me, that was the old batch": the clause behind says of which."""
    clause = scene.text.clauses[at]
    behind = scene.text.clauses[at + 1 : at + 2]
    return any(
        one.sentence == clause.sentence
        and one.has("@earlier")
        and scene.text.at("~that_was", one.start)
        and not scene.near(one, scene.plain_numbers)
        for one in behind
    )


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
    return ("sudden_many_deaths",) if dead >= max(3, 0.02 * (count or DEFAULT_COUNT)) else ()


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
        while scene.text.at("~are", end):
            end += 1
        beside = now and scene.has("@out_of", *_ILL) and not let_go
        if (
            scene.text.at("~gone", end)
            and (beside or _gone_young(scene, one, end))
            and not scene.of_flock(one)
        ):
            yield Told(one.start, round(one.value), 0)
            return


def _gone_young(scene: Scene, number: Number, end: int) -> bool:
    """ "one don go, average 165 g", "3 gone this morning": of birds too young to be sold a
    statement says no more than how many are gone."""
    old = (scene.hearing.age_days or YOUNGEST_SOLD) >= YOUNGEST_SOLD
    if old or scene.has("predator", "price", "sold") or scene.of_kind("money"):
        return False
    clause = next(one for one in scene.text.clauses if one.start <= number.start < one.end)
    gone = {at for span in clause.spans.get("~gone", ()) for at in range(span.start, span.end)}
    days = {at for day in scene.days for at in range(day.start, day.end)}
    rest = range(end, clause.end)
    return number.start == clause.start and all(
        at in gone | days or scene.text.at("hour_word", at) or scene.text.at("@now", at)
        for at in rest
    )


def _nothing_of_mine(scene: Scene, word: int) -> Iterator[Told]:
    """ "jirani lost 100, mine 0": the text ends on a nought of one's own."""
    for span in scene.text.spans.get("own_birds", ()):
        last = scene.text.tokens[-1]
        if span.start > word and span.end == len(scene.text.tokens) - 1 and last.value == 0:
            yield Told(span.start, 0, 0)


def _if_ever(scene: Scene, clause: Clause, word: int) -> bool:
    """ "if I lose 20 I call you": nobody died. But "kama 20 wamekufa": about twenty did, and "kufa
    2", "kufa hakuna" name the deaths."""
    if scene.text.at("deaths", word) and _counted_beside(scene, word):
        return False
    start = next((one.start for one in clause.spans.get("@if", ()) if one.start < word), None)
    forms = any(one.start == word for one in clause.spans.get("@ifform", ()))
    figure = any(start is not None and one.start == start + 1 for one in clause.spans.get("n", ()))
    return (forms or (start is not None and start <= clause.start + 1 and not figure)) and (
        clause.has("@future") or forms
    )


def _counted_beside(scene: Scene, word: int) -> bool:
    """A figure or a nought right beside a word."""
    linked = word + 1 < len(scene.text.tokens) and says_is(scene.text, word + 1)
    near = (word - 1, word + 1 + linked)
    figures = {one.start for one in scene.plain_numbers} | {
        one.end - 1 for one in scene.plain_numbers
    }
    return any(at in figures or any(scene.text.at(one, at) for one in NOUGHTS) for at in near)


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


def _of_a_vessel(scene: Scene, number: Number) -> bool:
    """ "a whole wheelbarrow of carcasses": how many barrows, and not how many birds."""
    near = range(number.end, number.end + NEAR_VESSEL)
    return any(scene.text.at("vessel", at) for at in near)


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
        if len(alone) == 1 and short and not alone[0].weak:
            yield Told(alone[0].start, round(alone[0].value), day_in(scene, clause, alone[0].start))


@dataclass(frozen=True, slots=True)
class _Dead:
    """at: where it begins; figure: where the figure stands."""

    at: int
    dead: int
    figure: int


def _deaths_in(scene: Scene, clause: Clause, culled: Number | None) -> _Dead | None:
    """Where, and how many; None where nothing countable is said."""
    words = [one for one in clause.spans.get("dead", ()) if not _of_a_leg(scene, one)]
    if not words and clause.has("dead"):
        return None
    words = words or (clause.spans.get("culled", []) if culled is None else [])
    weak = not words
    words = words or clause.spans.get("lost", [])
    if not words or (weak and not _birds_lost(scene, clause)):
        return None
    numbers = [
        one
        for one in scene.near(clause, scene.plain_numbers)
        if one.value == int(one.value)
        and one is not culled
        and not _after_mark(scene, one)
        and not any(scene.text.at(name, one.start) for name in ("die_many", "die_rate"))
        and not scene.text.at("went_to", one.start - 1)  # "tombe a 27"
        and not _since_an_hour(scene, one)
    ]
    numbers = [one for one in numbers if not _of_one_day(scene, one)] or numbers
    some = [one for one in numbers if not scene.of_flock(one)]
    numbers = some if some or _one_bird(clause) else numbers
    numbers = [
        one for one in numbers if not (_of_a_reading(scene, one) or _of_a_vessel(scene, one))
    ]
    right = _put_right(scene, clause)
    if right is not None:
        return _Dead(right.start, round(right.value), right.start)
    numbers = [one for one in numbers if not scene.is_put_right(one)] or numbers
    numbers = scene.in_truth(scene.plain_numbers) or numbers
    if clause.has("die_many"):  # "one after another, I counted 40"
        numbers = [one for one in numbers if not one.weak] or numbers
    word = words[0]
    listed = any(one.start == word.end for one in numbers) and _names_first(scene, clause)
    numbers.sort(
        key=lambda one: (apart(one, word.start, word.end), listed and one.end <= word.start)
    )
    if scene.sold_at is not None and _none_beside(scene, word, numbers):
        return _Dead(word.start, 0, word.start)
    today = [one for one in numbers if day_in(scene, clause, one.start) == 0]
    if len(numbers) > 1 and today and len(scene.days) > 1:
        numbers = today
    if numbers:
        best = numbers[0]
        if best.weak and (_no_single(scene, clause, best, word) or _not_even(scene, clause, best)):
            return _Dead(best.start, 0, best.start)
        if _none_of(clause, best, word):
            return None if scene.has("arrived", "box") else _Dead(word.start, 0, word.start)
        if best.value == 1 and _not_one(scene, clause, best, words):
            return _Dead(best.start, 0, best.start)
        if _even_so_few(scene, clause, best, words):
            return _Dead(best.start, 0, best.start)
        return _Dead(min(best.start, word.start), round(best.value), best.start)
    if any(span.denied for span in words) or clause.has("zero") or _letter_o(scene, clause, word):
        return _Dead(word.start, 0, word.start)
    if _one_bird(clause):
        return _Dead(word.start, 1, word.start)
    return None


def _of_one_day(scene: Scene, number: Number) -> bool:
    """ "in one day 20 died", "siku moja walikufa 20": in how long, and not how many; but "lost one
    day 3" is told of the third day."""
    if not number.weak:
        return False
    at = scene.text.at
    behind = any(one.start == number.end + 1 for one in scene.text.numbers)
    lasts = at("~within", number.start - 1) or not behind
    return at("@days", number.start - 1) or (at("@days", number.end) and lasts)


def _one_bird(clause: Clause) -> bool:
    """ "yule mdogo amekufa": a verb of one; but not "the village head has died"."""
    somebody = clause.has("mourned") and not clause.has("bird")
    return clause.has("a_bird") and not (somebody or clause.has("@many", "@plural"))


def _names_first(scene: Scene, clause: Clause) -> bool:
    """ "t 31 mort 1 aliment 15kg": a row of words with their figures behind."""
    ends = {one.end for one in scene.text.numbers} | {one.end for one in scene.quantities}
    starts = {one.start for one in scene.text.numbers}
    return clause.start not in starts and clause.end in ends


def _none_beside(scene: Scene, word: Span, numbers: Sequence[Number]) -> bool:
    """ "sold 20 at 480, deaths none": the nought stands beside the word, and no figure does."""
    figures = [one for one in numbers if not scene.priced(one)]
    if not word.denied or any(apart(one, word.start, word.end) == 0 for one in figures):
        return False
    return any(scene.text.at(name, at) for name in NOUGHTS for at in (word.start - 1, word.end))


def _put_right(scene: Scene, clause: Clause) -> Number | None:
    """ "not ten died, it is one", "it is not 12 dead but 2": the figure told behind the wrong one,
    in this clause or the next of its sentence; or right before it ("3 not 30 died", "it is 3 that
    died not 13")."""
    figures = [one for one in scene.plain_numbers if one.value == int(one.value)]
    wrong = [one for one in scene.near(clause, figures) if scene.is_put_right(one)]
    if not wrong:
        return None
    after = [other for other in scene.text.clauses if other.start >= clause.start]
    told = [one for one in after if one.sentence == clause.sentence][:2]
    right = [
        one
        for one in figures
        if wrong[-1].end < one.start < told[-1].end and not scene.of_flock(one)
    ]
    right = right or _right_before(scene, clause, wrong[0])
    return right[0] if len(right) == 1 and not _of_a_reading(scene, right[0]) else None


def _right_before(scene: Scene, clause: Clause, wrong: Number) -> list[Number]:
    """The last figure before a wrong one, where nothing but its dead stands between them."""
    before = [one for one in scene.near(clause, scene.plain_numbers) if one.end < wrong.start]
    if not before or scene.of_flock(before[-1]):
        return []
    between = range(before[-1].end, wrong.start - 1)
    told = all(any(scene.text.at(name, at) for name in _OF_THE_DEAD) for at in between)
    return before[-1:] if told else []


def _letter_o(scene: Scene, clause: Clause, word: Span) -> bool:
    """ "deaths O", "O dead": the letter for the figure, right beside the word and at the edge."""
    before, behind = word.start - 1, word.end
    opens = before == clause.start and scene.text.tokens[before].text == "o"
    closes = behind == clause.end - 1 and scene.text.tokens[behind].text == "o"
    return opens or closes


def _of_a_leg(scene: Scene, dead: Span) -> bool:
    """ "paralysed, legs dead": no bird died."""
    near = (dead.start - 1, dead.end)
    gone = (
        dead.start - 2 if dead.start > 1 and scene.text.tokens[dead.start - 1].text == "gone" else 0
    )
    return any(scene.text.at("leg", at) for at in near) or (gone > 0 and scene.text.at("leg", gone))


def _none_of(clause: Clause, number: Number, word: Span) -> bool:
    """ "102 chicks no dead ones": the negator stands between the figure and its word."""
    between = range(number.end, word.start)
    return any(span.start in between for span in clause.spans.get("@neg", ())) and word.denied


def _no_single(scene: Scene, clause: Clause, one: Number, word: Span) -> bool:
    """ "no one died", "pas un seul n'est mort"; but "one is dead no gasping"."""
    if apart(one, word.start, word.end) > 3:
        return False
    last = max(one.start, word.start)
    if _next_denied(clause, one, word):
        return False
    negators = [one for one in clause.spans.get("@neg", ()) if not _of_others_number(scene, one)]
    denied = word.denied and any(one.start == word.denier for one in negators)
    return (word.denied and word.denier < 0) or denied or any(one.start < last for one in negators)


def _of_others_number(scene: Scene, negator: Span) -> bool:
    """ "5 hawapo mmoja amekufa": five are not there; who died is told behind."""
    return any(number.end == negator.start for number in scene.text.numbers)


def _next_denied(clause: Clause, one: Number, word: Span) -> bool:
    """ "one died no sickness", "mmoja amekufa hakuna ugonjwa": the negator behind the word has its
    own after it."""
    last = max(one.end, word.end)
    return apart(one, word.start, word.end) == 0 and last <= word.denier < clause.end - 1


def _not_one(scene: Scene, clause: Clause, number: Number, words: Sequence[Span]) -> bool:
    """ "not 1 died", "sijapoteza hata 1": a verb that denies, or a negator right before the one."""
    denies = all(span.denied and span.denier < 0 for span in words)
    return denies or _not_even(scene, clause, number)


def _not_even(scene: Scene, clause: Clause, number: Number) -> bool:
    """ "nothing died thank god not even one", "pas meme 1": a negator stands before the one."""
    start = number.start
    while start > clause.start and scene.text.at("~even", start - 1):
        start -= 1
    own = (one for one in clause.spans.get("@neg", ()) if not _of_others_number(scene, one))
    return any(start <= span.end <= number.start for span in own)


def _even_so_few(scene: Scene, clause: Clause, number: Number, words: Sequence[Span]) -> bool:
    """ "not even two died", "meme pas deux morts", "hawakufa hata wawili": none."""
    text, at = scene.text, number.start - 1
    if text.at("@neg", at - 1) and text.at("~even", at - 2):
        return True  # "meme pas eu deux morts"
    if text.at("@neg", at):
        return text.at("~even", at - 1)
    if not text.at("~even", at):
        return False
    if any(one.denied and one.end <= number.start for one in words):
        return True
    look_up = scene.index.lexicon.look_up
    said = (entry for one in words for entry in look_up(text.tokens[one.start].text))
    return any(one.flags & DENIED for one in said) or _not_one(scene, clause, number, words)


def _of_a_reading(scene: Scene, number: Number) -> bool:
    """ "no deaths temp 32", "dead 2 feed 20 water 40": the figure right behind the word of a
    reading or a store is its own."""
    before = number.start - 1
    names = ("temperature", "humidity", "weigh", "average", "feed", "water")
    return any(scene.text.at(name, before) for name in names)


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


def told_before_asking(scene: Scene) -> bool:
    """ "25 died today, God why", "20 dead, what is happening": a report with a lament behind it."""
    for clause in scene.text.clauses:
        words = clause.spans.get("dead", ())
        if words and _wondered_at(scene, clause):
            return True
        asking = [one.start for one in clause.spans.get("@question", ())]
        figures = [one.end for one in scene.near(clause, scene.plain_numbers) if not one.weak]
        told = max((span.end for span in words), default=0)
        if not told or not figures or clause.has("@if"):
            continue
        if asking and min(asking) >= max(told, min(figures)) and clause.has("why", "what_to_do"):
            return True
    return _told_then_asked(scene)


def _wondered_at(scene: Scene, clause: Clause) -> bool:
    """ "how can 8 chicks die in one day": they did; the figure stands right behind the question."""
    figures = {one.start for one in scene.near(clause, scene.plain_numbers) if not one.weak}
    behind = {span.end for span in clause.spans.get("~how_can", ())}
    return bool(figures & (behind | {at + 1 for at in behind if scene.text.at("bird", at)}))


def _told_then_asked(scene: Scene) -> bool:
    """ "4 died of 2000, is it normal?", "16 in the pit, is it disease?": the dead are told, and a
    short question without a figure follows."""
    first, later = scene.text.clauses[0], scene.text.clauses[1:]
    if not later or first.has("@if", "@others", "@question", "@future"):
        return False
    if not first.has("dead", "lost") or scene.has("feed", "water", "vaccine", "medicine", "sell"):
        return False
    said = any(not one.weak for one in scene.near(first, scene.plain_numbers))
    figures = any(scene.near(clause, scene.text.numbers) for clause in later)
    words = sum(clause.end - clause.start for clause in later)
    return said and not figures and words <= SHORT_QUESTION


def _since_an_hour(scene: Scene, number: Number) -> bool:
    """ "lights gone since 6", "depuis 18": a time, and no count."""
    return scene.text.at("~since", number.start - 1) and number.value <= LAST_HOUR


def _birds_lost(scene: Scene, clause: Clause) -> bool:
    """ "lost" is a death only with birds or a bare figure, not a phone, weight or money; "zero
    losses" behind the feed and the water are deaths."""
    for one in scene.near(clause, scene.plain_numbers):
        if one.value == 0 and one.end == clause.spans["lost"][0].start:
            return not scene.text.at("lost_other", one.end + 2)
    if any(_bare_loss(scene, clause, one) for one in clause.spans["lost"]):
        return True
    things = (one.start for one in clause.spans.get("lost_other", ()))
    if any(not scene.text.at("same_word", one - 1) for one in things):
        return False  # but "same time" is nothing that was lost
    if clause.has("weigh", "person_thing"):
        return False
    numbers = scene.near(clause, scene.plain_numbers)
    return bool(numbers) or clause.has("bird") or any(s.denied for s in clause.spans["lost"])


def _bare_loss(scene: Scene, clause: Clause, lost: Span) -> bool:
    """ "lost 7 today out of my flock, feed was 8kg": the figure stands right behind, and nothing
    follows it that could be lost but birds."""
    figure = next(
        (one for one in scene.near(clause, scene.plain_numbers) if one.start == lost.end), None
    )
    if figure is None or figure.weak:
        return False
    behind = range(figure.end, min(figure.end + FEW_BEHIND, clause.end))
    said = any(scene.text.at(name, at) for name in ("lost_other", "person_thing") for at in behind)
    return not said and (
        scene.text.at("bird", figure.end)
        or any(day.start == figure.end for day in scene.days)
        or clause.has("bird")
    )


def _after_mark(scene: Scene, number: Number) -> bool:
    before = number.start - 1
    return before >= 0 and scene.text.tokens[before].text in ("@", "$")


def apart(number: Number, start: int, end: int) -> int:
    """Words between a figure and what stands at start..end."""
    return start - number.end if number.end <= start else number.start - end


def day_in(scene: Scene, clause: Clause, near: int) -> int | None:
    """The day said closest to a token of a clause; None where none is said. Two days and two
    figures go in pairs: "yesterday 3 today 1", "3 yesterday 1 today"."""
    days = [day for day in scene.days if clause.start <= day.start < clause.end]
    if not days:
        return None
    figures = [one.start for one in scene.near(clause, scene.plain_numbers)]
    if len(days) == len(figures) == 2 and near in figures and in_pairs(days, figures):
        return days[figures.index(near)].resolved(scene.hearing.today, past=True)
    if [near] == figures and _none_on_the_second(clause, days, near):
        return days[0].resolved(scene.hearing.today, past=True)
    before = days[0].start < min(figures, default=near)

    def away(day: Day) -> tuple[int, bool]:
        """A figure between two days belongs to the one on the side where the days are told."""
        return min(abs(day.start - near), abs(day.end - 1 - near)), (day.start < near) != before

    best = min(days, key=away)
    return best.resolved(scene.hearing.today, past=True)


def _none_on_the_second(clause: Clause, days: Sequence[Day], figure: int) -> bool:
    """ "yesterday 2 died today none": the figure stands between the days, a none behind."""
    if len(days) != 2 or not days[0].end <= figure < days[1].start:
        return False
    return any(span.start >= days[1].end for span in clause.spans.get("@neg", ()))

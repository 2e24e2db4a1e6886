"""The figure of the dead in a clause that tells of dying, and the day it belongs to. Pure.

Called by `deaths`. What stands beside a count and is none of it: the flock, a reading, an hour, a
barrow, the figure that is put right.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bot.understand.annotate import Clause
from bot.understand.dates import Day, in_pairs
from bot.understand.lexicon import DENIED
from bot.understand.numbers import Number
from bot.understand.patterns import Span
from bot.understand.scene import Scene
from bot.understand.tally import NOUGHTS

LAST_HOUR = 24
FEW_BEHIND = 3  # words behind "lost 7" that would tell of what, if not of birds
NEAR_AFTER = 2  # tokens from "after" to the deaths
NEAR_VESSEL = 2  # tokens behind a figure in which a vessel is what it counts
# What may stand between two figures of the same dead, the right and the wrong one.
_NO_BIRD = ("@others", "~mourned", "not_birds", "predator")
_BETWEEN_FIGURES = (
    *("dead", "lost", "bird", "copula", "@joins"),
    *("@pronouns", "@common", "@article", "@auxiliary", "@carries", "@subject"),
)


@dataclass(frozen=True, slots=True)
class Dead:
    """at: where it begins; figure: where the figure stands."""

    at: int
    dead: int
    figure: int


def figure_in(scene: Scene, clause: Clause, culled: Number | None) -> Dead | None:
    """Where, and how many; None where nothing countable is said."""
    words = [
        one
        for one in clause.spans.get("dead", ())
        if not (_of_a_leg(scene, one) or scene.text.at("almost", one.start - 1))
    ]
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
    numbers = [one for one in numbers if not _left_after(scene, one, words[0])]
    numbers = [one for one in numbers if not (_of_a_reading(scene, one) or of_a_vessel(scene, one))]
    numbers = [one for one in numbers if not _of_a_place(scene, one)]
    right = _put_right(scene, clause)
    if right is not None:
        return Dead(right.start, round(right.value), right.start)
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
        return Dead(word.start, 0, word.start)
    today = [one for one in numbers if day_in(scene, clause, one.start) == 0]
    if len(numbers) > 1 and today and len(scene.days) > 1:
        numbers = today
    if numbers:
        best = numbers[0]
        if best.weak and (_no_single(scene, clause, best, word) or _not_even(scene, clause, best)):
            return Dead(best.start, 0, best.start)
        if _none_of(clause, best, word):
            return None if scene.has("arrived", "box") else Dead(word.start, 0, word.start)
        if best.value == 1 and _not_one(scene, clause, best, words):
            return Dead(best.start, 0, best.start)
        if _even_so_few(scene, clause, best, words):
            return Dead(best.start, 0, best.start)
        return Dead(min(best.start, word.start), round(best.value), best.start)
    none = any(span.denied for span in words) or clause.has("zero") or _no_bird(scene, word)
    if none or _letter_o(scene, clause, word):
        return Dead(word.start, 0, word.start)
    alone = _one_bird(clause) or _that_one(scene, clause, word)
    if alone or _the_one_before(scene, clause, word):
        return Dead(word.start, 1, word.start)
    return None


def _of_a_place(scene: Scene, number: Number) -> bool:
    """ "11 poulets ecrases dans un coin": which place, and not how many."""
    places = ("corner", "wall", "edge", "one_side", "box")
    behind = any(scene.text.at(name, number.end) for name in places)
    within = any(
        one.start <= number.start < one.end for one in scene.text.spans.get("one_side", ())
    )
    return number.weak and (behind or within)


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
    somebody = clause.has("~mourned") and not clause.has("bird")
    return clause.has("a_bird") and not (somebody or clause.has("@many", "@plural"))


def _that_one(scene: Scene, clause: Clause, word: Span) -> bool:
    """ "le petit est mort": a word for one that died, and one that it is said of."""
    dead_one = scene.text.tokens[word.start].text in scene.text.little["one_dead"]
    named = any(one.end - one.start > 1 for one in clause.spans.get("@few", ()))
    people = (at for at in clause.spans.get("person", ()) if not scene.text.at("@me", at.start))
    other = ("@many", "@plural", "@if", "others_rest", *_NO_BIRD)
    return dead_one and named and not any(people) and not clause.has(*other)


def _the_one_before(scene: Scene, clause: Clause, word: Span) -> bool:
    """ "i saw one that did not move, it was dead": told of the one bird named right before."""
    text = scene.text
    at = next(at for at, one in enumerate(text.clauses) if one is clause)
    if not at or text.tokens[word.start].text not in text.little["one_dead"]:
        return False
    before = text.clauses[at - 1]
    ones = before.spans.get("a_bird", ())
    others = [
        span
        for span in before.spans.get("@plural", ())
        if not any(one.start <= span.start and span.end <= one.end for one in ones)
    ]
    several = clause.has("@plural", "@many", "@if") or before.has("@many", *_NO_BIRD)
    told = bool(ones) and clause.has("@pronouns") and not (others or several)
    return told and before.sentence == clause.sentence


def _names_first(scene: Scene, clause: Clause) -> bool:
    """ "t 31 mort 1 aliment 15kg": a row of words with their figures behind."""
    ends = {one.end for one in scene.text.numbers} | {one.end for one in scene.quantities}
    starts = {one.start for one in scene.text.numbers}
    return clause.start not in starts and clause.end in ends


def _left_after(scene: Scene, number: Number, word: Span) -> bool:
    """ "290 left after the deaths": those that live."""
    between = range(number.end, word.start)
    led = [at for at in between if scene.text.tokens[at].text in scene.text.little["after"]]
    return any(word.start - at <= NEAR_AFTER for at in led)


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
    told = all(any(scene.text.at(name, at) for name in _BETWEEN_FIGURES) for at in between)
    return before[-1:] if told else []


def _no_bird(scene: Scene, word: Span) -> bool:
    """ "i lost no chick this week", "perdu aucun poussin"."""
    return scene.text.at("@neg", word.end) and scene.text.at("bird", word.end + 1)


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
    return not scene.text.at("dead", before) and any(scene.text.at(name, before) for name in names)


def of_a_vessel(scene: Scene, number: Number) -> bool:
    """ "a whole wheelbarrow of carcasses": how many barrows, and not how many birds."""
    near = range(number.end, number.end + NEAR_VESSEL)
    return any(scene.text.at("vessel", at) for at in near)


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

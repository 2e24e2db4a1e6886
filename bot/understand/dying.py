"""Dying that is told of and is no death of this flock: a fire's, a fear, a likeness, others' birds.

Called by `deaths` and by `read`. Pure.
"""

from __future__ import annotations

from bot.understand.annotate import Clause, joins
from bot.understand.quantities import says_is
from bot.understand.scene import Scene
from bot.understand.supposed import of_others
from bot.understand.tally import NOUGHTS

SHORT_QUESTION = 7  # words
BARE = 3  # words of a statement that hardly says more than that some died
LINKS = 3  # words between a fire and that it died
FEARED = 2  # words between a fear and the dying that is feared
LIKENED = 6  # words between "like" and those who die
_UNTOLD = (
    *("@neg", "@if", "@ifform", "@future"),
    *("@others", "@earlier", "not_birds", "@no_birds"),
)


def uncounted(scene: Scene) -> bool:
    """ "some died", "ya des morts": own birds that died, and no figure of how many."""
    if not scene.hearing.has_batch or scene.has("@question", "game_word", "die_not"):
        return False
    if scene.has("kin", "~mourned") and not scene.has("bird"):
        return False  # "my father passed on. burial is saturday"
    return any(
        _of_own(scene, clause)
        and not (clause.asked or clause.has(*_UNTOLD) or _of_nobody(scene, at))
        for at, clause in enumerate(scene.text.clauses)
        if clause.has("dead")
    )


def feared(scene: Scene, clause: Clause, word: int) -> bool:
    """ "un peu couches, j'ai peur ils meurent": feared right before the word, without a figure."""
    near = any(word - FEARED <= span.end <= word for span in clause.spans.get("die_not", ()))
    figures = scene.near(clause, scene.plain_numbers)
    return near and all(one.weak for one in figures)


def of_the_fire(scene: Scene, clause: Clause) -> bool:
    """ "the fire is burning, it has not died"."""
    out = clause.has("out_fire") and scene.has("heat")
    return out and not scene.plain_numbers and not scene.has("bird", "a_bird", "@answer:no")


def of_a_thing(scene: Scene, clause: Clause, word: int) -> bool:
    """ "le feu est mort a 3h", "the bulb has died": what died stands right before it."""
    if clause.has("price") and not (scene.plain_numbers or clause.has("@whole", "@many")):
        return True  # "bei ya kuku imekufa", "the price is dead"
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


def likened(scene: Scene, clause: Clause, word: int) -> bool:
    """ "they breathe like those who drown", "comme ceux qui se noient": nobody died."""
    figures = {one.start for one in scene.plain_numbers} | {one.start for one in scene.days}
    for at in range(word - 1, max(word - LIKENED, clause.start) - 1, -1):
        if at in figures or word + 1 in figures:
            return False
        if scene.text.at("~like", at):
            return True
    return False


def that_was_then(scene: Scene, at: int) -> bool:
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


def if_ever(scene: Scene, clause: Clause, word: int) -> bool:
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


def theirs_too(clause: Clause, word: int) -> bool:
    """ "18 dead and the neighbour's are all dead": the first are ours."""
    joined = [one.start for one in joins(clause) if one.start > word]
    others = [one.start for one in clause.spans.get("@others", ()) if one.start > word]
    died = (span.start for name in ("dead", "lost") for span in clause.spans.get(name, ()))
    return bool(joined and others) and joined[0] < others[0] and max(died) > joined[0]


def _of_nobody(scene: Scene, at: int) -> bool:
    """Denied, said of a thing, likened, or of others' birds and of earlier ones."""
    clause = scene.text.clauses[at]
    dead = clause.spans["dead"][0]
    word = dead.start
    told_of = of_a_thing(scene, clause, word) or likened(scene, clause, word)
    theirs = of_others(scene.text, clause, word) or that_was_then(scene, at)
    return dead.denied or told_of or theirs or of_the_fire(scene, clause)


def _of_own(scene: Scene, clause: Clause) -> bool:
    """Birds are named, or some of them, or hardly a word stands beside that they died."""
    bare = _words_of(scene, clause) <= BARE and not clause.has("person")
    return bare or clause.has("bird", "@few", "few_only")


def _words_of(scene: Scene, clause: Clause) -> int:
    return sum(one.kind != "mark" for one in scene.text.tokens[clause.start : clause.end])


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

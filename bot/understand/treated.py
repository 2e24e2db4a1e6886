"""A vaccine or medicine that was given, with its name as typed. In: a `Scene`. Pure.

Called by `facts`. What was only bought was not given.
"""

from __future__ import annotations

from collections.abc import Iterator

from bot.facts.talk import Intent, Slots
from bot.understand.annotate import Clause
from bot.understand.patterns import Span
from bot.understand.scene import Fact, Scene
from bot.understand.supposed import asks_here

LONG_NAME = 6  # letters of a name that only its place in the water gives away
_GIVEN = ("given", "fed", "treat", "done_word")


def treated(scene: Scene) -> Iterator[Fact]:
    """A vaccine or medicine that was given, with its name as typed."""
    words = [*scene.text.spans.get("vaccine", ()), *scene.text.spans.get("medicine", ())]
    words += scene.text.spans.get("treat", ())
    words += _remedies(scene)
    words = [
        span
        for span in words
        if not any(one(scene, span) for one in (_only_bought, _asked, _since, _meant))
    ]
    weighed = scene.has("weigh") or len(scene.plain_numbers) > 2
    paid = scene.has("buyer")  # "the buyer gave an advance"
    named = None if words or weighed or paid else _given_product(scene)
    if named is not None:
        words = [named]
    if scene.has("kills") and not scene.has(*_GIVEN):
        return  # "newcastle is killing my birds": a disease, named like its vaccine
    if not words or scene.has("plan") or any(_coming(scene)):
        return
    given = scene.has("treat", "fed", "given", "done_word", "finished", "mixed")
    given = given or any(_dated(scene, span) for span in words)
    if not given:
        return
    denied = any(
        span.denied
        for clause in scene.text.clauses
        for name in ("treat", "vaccine", "medicine", "given", "fed")
        for span in clause.spans.get(name, ())
    )
    if denied:
        return
    yield Fact(
        Intent.TREATED,
        Slots(
            product=_product(scene),
            date_iso_offset=scene.day(past=True),
            days=_withdrawal(scene),
        ),
        min(span.start for span in words),
    )


def _remedies(scene: Scene) -> list[Span]:
    """ "put garlic and lemon in their water": what is in the kitchen is a cure only where it went
    to the birds."""
    return [
        span
        for clause in scene.text.clauses
        if clause.has("mixed", "given", "fed", "water", "drinker")
        and clause.has("water", "drinker", "feed", "feeder", "bird", "@plural")
        for span in clause.spans.get("home_remedy", ())
    ]


def _withdrawal(scene: Scene) -> int | None:
    """The days to wait before sale or slaughter, where they are said to be that: "for 3 days,
    withdrawal 7 days" is 7. Days that only tell how long it is given are none."""
    waits = scene.text.spans.get("withdraw", ())
    if not waits:
        return None
    apart = [
        (min(abs(age.start - one.end), abs(one.start - age.end)), age.start < one.start, age.days)
        for one in waits
        for age in scene.ages
    ]
    return min(apart)[2] if apart else None


def _only_bought(scene: Scene, word: Span) -> bool:
    """The medicine was bought, which says nothing of giving it."""
    for clause in scene.text.clauses:
        if clause.start <= word.start < clause.end and clause.has("bought"):
            given = clause.has(*_GIVEN)
            return not given or _nearer(clause, word, "bought", _GIVEN)
    return False


def _since(scene: Scene, word: Span) -> bool:
    """ "since the drug no more blood": given before, and known."""
    near = (word.start - 1, word.start - 2)
    return any(scene.text.at("@since", at) for at in near) and not scene.has("given")


def _meant(scene: Scene, word: Span) -> bool:
    """ "the neighbour wants to give his tablets", "or should i inject": meant or offered in its
    clause, and not done."""
    return any(
        clause.has("wishes", "should_i") and not clause.has("done_word", "finished")
        for clause in scene.text.clauses
        if clause.start <= word.start < clause.end
    )


def _dated(scene: Scene, word: Span) -> bool:
    """A day is told in its clause, where nothing died; "died of xxx last year" is no date of a
    treatment, and the day of another clause is of something else."""
    return any(
        clause.start <= day.start < clause.end
        for clause in scene.text.clauses
        if clause.start <= word.start < clause.end and not clause.has("dead", "lost")
        for day in scene.days
    )


def _asked(scene: Scene, word: Span) -> bool:
    """ "what drug can I use", "is there a bone medicine?": a question word stands before it in its
    clause, or the clause asks and nothing in it was given."""
    return any(
        (clause.asked and not clause.has(*_GIVEN))
        or any(
            span.start < word.start and asks_here(scene.text, clause, span)
            for span in clause.spans.get("@question", ())
        )
        for clause in scene.text.clauses
        if clause.start <= word.start < clause.end
    )


def _nearer(clause: Clause, word: Span, name: str, others: tuple[str, ...]) -> bool:
    def apart(names: tuple[str, ...]) -> int:
        return min(
            abs(span.start - word.start) for one in names for span in clause.spans.get(one, ())
        )

    return apart((name,)) < apart(others)


def _given_product(scene: Scene) -> Span | None:
    """ "gave xxx yesterday": a name that no folder knows, right behind "gave" or before "given"; or
    anywhere before the days to wait."""
    for clause in scene.text.clauses:
        if clause.has("@no_birds"):
            continue  # "the price of maize gives me a headache"
        for span in clause.spans.get("given", ()):
            for at in (span.end, span.end + 1, span.start - 1):
                if clause.start <= at < clause.end and _name_like(scene, at):
                    return Span(at, at + 1) if len(scene.text.tokens[at].text) >= 4 else None
    return _mixed_in(scene) or _before_the_wait(scene)


def _before_the_wait(scene: Scene) -> Span | None:
    """ "dozi ya xxx nisiuze siku 7", "xxx yesterday, wait 7 days before sale": the name that no
    folder knows, where days to wait follow."""
    waits = [span.start for span in scene.text.spans.get("withdraw", ())]
    if not waits or not scene.ages:
        return None
    for at in range(min(waits)):
        if _means_nothing(scene, at) and len(scene.text.tokens[at].text) >= LONG_NAME:
            return Span(at, at + 1)
    return None


def _means_nothing(scene: Scene, at: int) -> bool:
    """A word of no class, such as the name of a product."""
    if scene.text.tokens[at].kind != "word":
        return False
    names = (name for name in scene.text.spans if not name.startswith("="))
    return not any(scene.text.at(name, at) for name in names)


def _mixed_in(scene: Scene) -> Span | None:
    """ "put xxx in the drinker": a name that no folder knows, in the water."""
    for clause in scene.text.clauses:
        if not clause.has("water", "drinker"):
            continue
        for span in clause.spans.get("mixed", ()):
            within = scene.text.at("~within", span.end + 1)
            if scene.text.at("water", span.end + 2) and not within:
                continue  # "poured basins of water"
            if span.end < clause.end and _name_like(scene, span.end):
                long = len(scene.text.tokens[span.end].text) >= LONG_NAME
                return Span(span.end, span.end + 1) if long else None
    return None


def _name_like(scene: Scene, at: int) -> bool:
    """Unknown, and no misspelt unit behind a figure ("25 litrs")."""
    return _unknown(scene, at) and (at == 0 or scene.text.tokens[at - 1].value is None)


def _coming(scene: Scene) -> Iterator[bool]:
    for day in scene.days:
        yield (day.offset or 0) > 0


def _product(scene: Scene) -> str | None:
    """The longest run of words that name it, as typed."""
    text = scene.text
    names = [*text.spans.get("vaccine", ()), *text.spans.get("medicine", ()), *_remedies(scene)]
    core = {at for span in names for at in range(span.start, span.end)}
    named = _given_product(scene) if not core else None
    if named is not None:
        core = {named.start}
    if not core:
        core = {
            at
            for at, token in enumerate(text.tokens)
            if token.kind == "word" and not scene.index.lexicon.look_up(token.text)
        }
    if not core:
        return None
    start = end = min(core)
    while end + 1 < len(text.tokens) and _part_of_name(scene, end + 1, core):
        end += 1
    while start > 0 and _unknown(scene, start - 1):
        start -= 1
    return " ".join(token.text for token in text.tokens[start : end + 1])[:60]


def _unknown(scene: Scene, at: int) -> bool:
    token = scene.text.tokens[at]
    return token.kind == "word" and not scene.index.lexicon.look_up(token.text)


def _part_of_name(scene: Scene, at: int, core: set[int]) -> bool:
    if at in core or _unknown(scene, at):
        return True
    linking = scene.text.tokens[at].text in scene.text.little["product_name"]
    return linking and (
        at + 1 in core or (at + 1 < len(scene.text.tokens) and _unknown(scene, at + 1))
    )

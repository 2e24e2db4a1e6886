"""Wishes, questions and small talk: what is neither a figure nor a sign. Pure; called by `read`."""

from __future__ import annotations

from collections.abc import Iterator

from bot.facts.talk import Intent, Meaning, Slots
from bot.understand.annotate import Clause, Text
from bot.understand.batches import find_batch
from bot.understand.numbers import Number
from bot.understand.patterns import Match, Span
from bot.understand.scene import THINGS, Scene
from bot.understand.sign import Signs
from bot.understand.supposed import asks_here, begins_with_auxiliary, of_others
from bot.understand.taken import corrected

FEWEST = 3  # words of a text that names a language and nothing else
UNSURE = 0.2
MOST_DEGREES = 45  # C in a brooder; fewer birds are hardly a batch
RATE = 100  # "how many of a hundred"
_BESIDE = ("@polite", "@pronouns", "ok", "greet", "thanks", "message", "@now")
_WISHES = (
    Intent.UNDO,
    Intent.LANGUAGE,
    Intent.NOT_ME,
    Intent.CALL_ME,
    Intent.STATUS,
    Intent.NEXT,
    Intent.WHY,
    Intent.HELP,
    Intent.START,
    Intent.CLOSE,
)
_OF_TEXTS = ("message", "farming_over")
# What is of birds and their keeping, beside a price.
_OURS = ("bird", "feed", "heat", "brooder", "vaccine", "medicine")
_STOPPABLE = ("heat", "light_word", "power", "feed", "water", "medicine", "vaccine")
_SUBJECTS = (
    "@pronouns bird @plural person litter feed water medicine vaccine heat smoke predator drinker "
    "feeder droppings blood neck twist swollen sick dead own_birds house curtain power light_word"
).split()


def whole(text: Text, name: str) -> bool:
    """The text is one entry of a class, apart from polite words and marks."""
    for span in text.spans.get(name, ()):
        if all(
            token.kind == "mark"
            or span.start <= at < span.end
            or any(text.at(one, at) for one in _BESIDE)
            for at, token in enumerate(text.tokens)
        ):
            return True
    return False


def is_stop(scene: Scene) -> bool:
    """An opt-out: the whole message, a pattern, or STOP first followed by a report."""
    text = scene.text
    if whole(text, "@stop"):
        return scene.hearing.prompt != "done" or text.tokens[0].text == "stop"
    for clause in text.clauses:
        for match in scene.index.stop.find(clause.spans):
            asked = clause.asked or any(
                span.start not in match.used for span in clause.spans.get("@question", ())
            )
            told = any(not match.used.isdisjoint(one.used) for one in clause.readings)
            if not (asked or told or match.denied or clause.has("hour_word")):
                return True  # "no texts at night" is about the hour, "not interested" of birds
    first = text.clauses[0] if text.clauses else None
    if first and text.tokens[0].text == "stop" and text.at("@me", 1) and not first.asked:
        return True  # "stop i have a headache and ...": served first, the danger beside it
    if text.has("@stop") and text.has(*_OF_TEXTS) and _tells_texts_to_stop(text):
        return True
    return bool(
        first
        and len(text.clauses) > 1
        and not first.asked
        and first.has("@stop")
        and first.end - first.start <= 2
        and text.tokens[first.start].text == "stop"
        and not _stops_a_thing(text.clauses[1])
    )


def _tells_texts_to_stop(text: Text) -> bool:
    """ "your texts disturb me, stop", "i gave up farming, stop": a clause that is nothing but the
    word, beside one of our texts, or that no birds are kept any more, and of nothing else."""
    if text.has("thanks", "hour_word", *_STOPPABLE):
        return False
    told = any(one.has(*_OF_TEXTS) and not one.asked for one in text.clauses)
    return told and any(_is_nothing_but(text, one, "@stop") for one in text.clauses)


def _is_nothing_but(text: Text, clause: Clause, name: str) -> bool:
    """A clause is entries of a class, apart from polite words and marks."""
    return clause.has(name) and all(
        text.tokens[at].kind == "mark" or any(text.at(one, at) for one in (name, *_BESIDE))
        for at in range(clause.start, clause.end)
    )


def _stops_a_thing(clause: Clause) -> bool:
    """ "stop! I mean stop the light at night": what is to stop is no text of ours."""
    opens = any(span.start == clause.start for span in clause.spans.get("~put_right", ()))
    return opens and clause.has("@stop") and clause.has(*_STOPPABLE)


def wish(scene: Scene, signs: Signs) -> Meaning | None:
    """What is wanted from the service: help, status, a language, a call, to take back."""
    text = scene.text
    if signs.present or signs.absent:
        return None
    for intent, name in ((Intent.HELP, "@help"), (Intent.START, "@start")):
        if whole(text, name):
            return Meaning(intent)
    language = _language(scene)
    if language is not None:
        return Meaning(Intent.LANGUAGE, Slots(lang=language))
    if scene.intents.get("language") and (len(text.words()) <= 4 or scene.has("other_language")):
        return Meaning(Intent.LANGUAGE)
    if scene.hearing.has_batch and whole(text, "plan_word"):
        return Meaning(Intent.PLAN)
    for intent in _WISHES:
        if signs.asked_about and intent not in (Intent.CALL_ME, Intent.UNDO, Intent.NOT_ME):
            continue
        found = scene.intents.get(intent.value)
        if found and intent is not Intent.LANGUAGE and not _about_something(scene, intent, found):
            return Meaning(intent)
    return None


def _about_something(scene: Scene, intent: Intent, found: list[Match]) -> bool:
    """A wish is not one where figures of facts stand in the text."""
    if intent is Intent.UNDO and scene.has("~misdialled"):
        told = scene.plain_numbers or scene.has("undo", "take_out", "dead", "feed", "water")
        return not told  # "sorry wrong number": meant for somebody else
    if intent is Intent.UNDO and any(True for _ in corrected(scene)):
        return True  # the right figure is told: it is put in the place of the wrong one
    if intent is Intent.CALL_ME and (scene.text.clauses[-1].asked or scene.has("you_arrive")):
        return True  # "call me when you reach town": to somebody else
    if intent is Intent.CALL_ME and scene.has("to_remind") and "next" in scene.intents:
        return True  # "rappelez moi le travail": remind me
    if intent is Intent.CLOSE:
        told = bool(scene.plain_numbers or scene.quantities) or scene.text.clauses[-1].asked
        return told or scene.has("@question", "@if", "@others", "@neg")
    denied = all(one.deniers for one in found) and not scene.has("@question")
    if intent is Intent.CALL_ME and denied:
        return True  # "don't call me"
    if intent in (Intent.UNDO, Intent.CALL_ME, Intent.NOT_ME):
        return False
    if intent is Intent.NEXT and scene.has("@others"):
        return True  # "the neighbour's are ill, what do i do so that mine stay well"
    if intent is Intent.NEXT and scene.has("plan", "register", "order"):
        return scene.day(past=False) != 0 or bool(scene.plain_numbers)
    if intent is Intent.WHY and best_topic(scene) == "biosecurity":
        return True  # "why do we dip feet before entering": no advice of ours
    if intent in (Intent.STATUS, Intent.NEXT, Intent.HELP, Intent.WHY, Intent.START):
        return bool(scene.quantities) or (scene.has("dead") and intent is Intent.WHY)
    return not found


def _language(scene: Scene) -> str | None:
    """The language wished; of several the one that is not said to be hard."""
    named = sorted(
        (span.start, span.end, code)
        for code, places in scene.text.values("@language").items()
        for span in places
    )
    asked = scene.intents.get("language") or len(scene.text.words()) <= FEWEST
    if not named or not asked:
        return None
    wished = [code for start, end, code in named if not _too_hard(scene.text, start, end)]
    return (wished or [code for _, _, code in named])[0]


def _too_hard(text: Text, start: int, end: int) -> bool:
    """ "kiswahili is hard for me, use english", "sielewi kiingereza": which one is not wished."""
    if any(0 <= start - span.end <= 1 for span in text.spans.get("not_understood", ())):
        return True
    return any(0 <= span.start - end <= 2 for span in text.spans.get("hard_word", ()))


def question(scene: Scene, signs: Signs) -> Meaning | None:
    """A question that is to be answered; a report with a question behind it stays a report."""
    text = scene.text
    if signs.present or (signs.absent and not _how_to_keep_it_out(scene)):
        return None
    asks = text.has("@if", "when_given") or any(
        _asks(text, clause) or any(_asks_in_earnest(text, clause, span) for span in _asking(clause))
        for clause in text.clauses
    )
    if not asks and not signs.asked_about and "ask" not in scene.intents:
        return None
    if text.has("@others") and not _asks_for_self(text):
        return None
    if text.has("@if") and _promises(text):
        return None
    if scene.has("dead") and _only_wonders(scene):
        return None
    if text.has("plan") or "plan" in scene.intents:
        batch = find_batch(scene, other_facts=False)
        if batch is not None and batch.intent is Intent.PLAN:
            return Meaning(Intent.PLAN, batch.slots)
    topic = best_topic(scene)
    if of_other_goods(scene, topic):
        return Meaning(Intent.OTHER, confidence=UNSURE)
    if topic is None and not signs.asked_about and not text.has("bird", "feed", "water", "heat"):
        return None
    topic = topic or ("disease" if signs.asked_about else "other")
    return Meaning(Intent.ASK, asked_slots(scene, topic), not_signals=signs.absent)


def asked_slots(scene: Scene, topic: str | None) -> Slots:
    """What a question names beside its topic: the age, the birds, the floor."""
    ages = scene.ages
    counts = [round(one.value) for one in scene.plain_numbers if _counts_own_birds(scene, one)]
    areas = [one for one in scene.of_kind("area") if not scene.text.at("each", one.end)]
    just_hatched = 0 if scene.has("day_old") and not ages else None
    return Slots(
        topic=topic,
        age_days=ages[0].days if ages and topic != "mortality" else just_hatched,
        count=counts[0] if counts else None,
        house_m2=round(areas[0].value, 1) if areas else None,
    )


def of_other_goods(scene: Scene, topic: str | None) -> bool:
    """ "how much is cement these days", "are tomatoes selling there": no price of ours."""
    priced = topic in ("price", "sale_age") or scene.has("ask_many")
    return priced and scene.has("other_goods") and not scene.has(*_OURS)


def _how_to_keep_it_out(scene: Scene) -> bool:
    """ "his have twisted necks, nothing here, how do i protect mine": what is not here is only told
    to ask how it stays away."""
    return scene.has("@others") and scene.has("keeps_out") and _asks_for_self(scene.text)


def _counts_own_birds(scene: Scene, number: Number) -> bool:
    """A flock that is asked about: no reading, and no birds that others lost."""
    clause = scene.text.clause_at(number.start)
    reading = clause.has("temperature") and any(
        scene.text.at("temperature", at) for at in range(number.start - 3, number.start)
    )
    lost = clause.has("dead", "lost") and (scene.has("@others") or _beside_a_loss(scene, number))
    lost = lost or clause.has("@others")  # "the chief has 500 that cough, should he call a vet"
    before = scene.text.tokens[number.start - 1].text if number.start else ""
    rate = number.value == RATE and before in scene.text.little["per"]
    thing = any(scene.text.at(name, number.end) for name in (*THINGS, "each"))  # a price each
    thing = thing or scene.text.at("weigh", number.start - 1)  # "should they weigh 800"
    if clause.has("humidity") or (
        clause.has("hot", "cold", "heat") and number.value <= MOST_DEGREES
    ):
        reading = reading or not scene.text.at("bird", number.end)  # "is 34 too hot for day 10"
    return number.value >= 20 and not number.weak and not (reading or lost or thing or rate)


def _beside_a_loss(scene: Scene, number: Number) -> bool:
    """ "lost 200 to newcastle, how do I keep it out": the figure right behind the word is lost."""
    return any(scene.text.at(name, number.start - 1) for name in ("dead", "lost"))


def _asking(clause: Clause) -> Iterator[Span]:
    for name in ("@question", "what_to_do"):
        yield from clause.spans.get(name, ())


def _asks_in_earnest(text: Text, clause: Clause, span: Span) -> bool:
    """A word of asking, and none that only joins: "when they lift the tail", "the boy who sleeps",
    "says what they pass"."""
    if not asks_here(text, clause, span):
        return False
    inside = span.start > clause.start + 1 and span.end == span.start + 1
    joins = text.at("what_word", span.start) or text.at("when_word", span.start)
    return not (inside and joins and text.at("@plural", span.end))


def _asks(text: Text, clause: Clause) -> bool:
    """A question mark, or a word of asking before its subject: "do broilers need it"."""
    if clause.asked or _asks_of_its_worth(clause):
        return True
    start = clause.start
    while start < clause.end - 1 and text.at("@polite", start):
        start += 1
    subject = any(text.at(name, start + 1) for name in _SUBJECTS)
    return subject and begins_with_auxiliary(text, clause)


def _asks_of_its_worth(clause: Clause) -> bool:
    """ "is blood meal good in the ration": begins with the verb, what is judged between."""
    starts = [span.end for span in clause.spans.get("opening", ())]
    return any(span.start > end for end in starts for span in clause.spans.get("good_word", ()))


def _promises(text: Text) -> bool:
    """ "if I see blood I will tell you": nothing is asked."""
    asking = (span for clause in text.clauses for span in _asking(clause))
    if any(clause.asked for clause in text.clauses) or any(True for _ in asking):
        return False
    me = {span.end for span in text.spans.get("@me", ())} | {-1}
    return any(
        span.start in me or text.at("@me", span.start) for span in text.spans.get("@future", ())
    )


def _asks_for_self(text: Text) -> bool:
    """Of others' birds: a question mark, or words of asking behind what is told of them."""
    if any(clause.asked for clause in text.clauses):
        return True
    return any(asks_here(text, clause, span) for clause in text.clauses for span in _asking(clause))


def _only_wonders(scene: Scene) -> bool:
    """ "25 died today God why": a report that ends in a sigh."""
    text = scene.text
    asking = [span for span in text.spans.get("@question", ()) if not text.at("why", span.start)]
    if asking or scene.has("@if") or not scene.plain_numbers:
        return False
    figures = [number.start for number in scene.plain_numbers]
    sighs = text.spans.get("why", ())
    return bool(sighs) and all(span.start > max(figures) for span in sighs)


def best_topic(scene: Scene) -> str | None:
    """The topic with the weightiest patterns found; of two as weighty the one that begins first."""
    weights: dict[str, int] = {}
    for clause in scene.text.clauses:
        found = scene.index.topics.find(clause.spans)
        for match in sorted(found, key=lambda one: one.start):
            weights[match.name] = weights.get(match.name, 0) + 2 * match.weight - 1
    return max(weights, key=lambda name: weights[name]) if weights else None


def small_talk(scene: Scene) -> Meaning | None:
    """Thanks alone; a standing OK or a thumb; that what we said is done."""
    text = scene.text
    if not text.tokens:
        return None
    if whole(text, "@answer:done") and not scene.has("finished"):  # the feed may be
        return Meaning(Intent.THANKS)
    if whole(text, "thanks") or whole(text, "ok"):
        return Meaning(Intent.THANKS)
    if scene.has("arrived") and scene.has("message", "ok") and not scene.has("bird", "box"):
        return Meaning(Intent.THANKS)  # "message recu"
    if scene.has("thanks") and len(text.words()) <= 6 and not text.numbers:
        return Meaning(Intent.THANKS)
    if not scene.has("@question") and any(_own_well(text)):
        return Meaning(Intent.OBSERVE, confidence=0.8)
    for answer in ("better", "same", "worse"):
        if whole(text, f"@answer:{answer}"):
            return Meaning(Intent.OBSERVE, Slots(answer=answer), confidence=0.6)
    return None


def _own_well(text: Text) -> Iterator[bool]:
    """ "all is well" of the farmer's own birds."""
    for clause in text.clauses:
        for span in clause.spans.get("all_well", ()):
            if not span.denied and not of_others(text, clause, span.start):
                yield True

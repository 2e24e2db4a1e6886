"""A farmer's text in, what it means out: the parser, top to bottom on this page. Pure.

Called by `turn.take`, the rehearsals and the command line. Never raises for any text; what fits
nothing is OTHER with low confidence, so that the bot asks instead of guessing.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from bot.facts.talk import Hearing, Intent, Meaning, Slots
from bot.handbook.shape_learned import Learned
from bot.handbook.shape_words import Words
from bot.understand.ahead import weather_ahead
from bot.understand.annotate import Text, annotate
from bot.understand.asked import beside, told_clauses
from bot.understand.batches import batch_slots, find_batch, heats_said
from bot.understand.deaths import danger_of, where_they_lay
from bot.understand.denial import BENIGN
from bot.understand.dying import told_before_asking, uncounted
from bot.understand.facts import find_facts
from bot.understand.fetched import before_they_go
from bot.understand.index import Index, build_index
from bot.understand.leave import leave
from bot.understand.led import (
    Led,
    borne_out,
    in_words,
    of_change,
    only_of_few,
    opening_answer,
    opening_figure,
    read_figured,
    read_led,
    with_danger,
)
from bot.understand.likeness import opinion
from bot.understand.lookalikes import DROWSY, ILLNESS, one_died
from bot.understand.of_flock import gone_of_flock
from bot.understand.of_now import tells_of_then
from bot.understand.people import DEAD, DOWN, ILL, means, of_people, plans
from bot.understand.placed import by_place, without_its_place
from bot.understand.readings import hung_reading
from bot.understand.replies import (
    bare_figure,
    figure_among_words,
    place_said,
    read_crops,
    read_reply,
    says_dry,
)
from bot.understand.ruled import SMELL, ruled, smelt
from bot.understand.scene import Fact, Scene
from bot.understand.setup import setup
from bot.understand.sign import Signs
from bot.understand.signs import find_signs
from bot.understand.spoken import NO, SIGN, WORRY, YES, Said, spoken, told_unasked
from bot.understand.supposed import SMOKE
from bot.understand.talk import is_stop, question, small_talk, wish
from bot.understand.trust import judged, told_by
from bot.understand.wanted import wanted
from bot.understand.weigh import settled, weigh

HOW = frozenset({"quiet_content", "noisy_distress", "panting", "wings_spread"})
SURE, GUESSED, UNSURE = 1.0, 0.5, 0.2
SO_FEW = 0.1  # of the flock, counted beside an illness: the ill
VET, FLOCK_DOWN = "vet_reached", "sleepy_all_birds"
CHECK, WORKED = "check_back", ("better", "same", "worse")
UNLIKE, LEAST_MEASURE = "heat_unlike", 9  # above the digits that count
STOP_WORDS = 3  # tokens of an order that opens a text
LONG = 12  # words; a story, of which one sign at least is expected
STOVE, LIES = "stove", "lies_still"
CALM, MISSING, OTHERS_WELL = "spread_evenly", "birds_missing", "others_well"
WENT_OUT = "stove_out"
IN_BOX = frozenset({"dead_in_box"})  # told of chicks that came, and of no illness
_LEAVING = (Intent.SOLD, Intent.TAKEN)
_ROUTINE = (
    *(Intent.OTHER, Intent.ASK, Intent.PLAN, Intent.REGISTER, Intent.ARRIVED, Intent.OBSERVE),
    *(Intent.NEXT, Intent.HELP, Intent.CANCELLED, Intent.THANKS),
)
_BESIDE_FIGURE = (Intent.DEATHS, Intent.CULLED, Intent.TREATED, Intent.SOLD, Intent.MULTI)


class Reader:
    """Reads texts with one compiled index and what was learned from the examples (None: by words
    alone); safe to share between threads."""

    def __init__(self, index: Index, learned: Learned | None = None) -> None:
        self._index = index
        self._learned = learned

    def read(self, text: str, hearing: Hearing) -> Meaning:
        """What the text means to this listener."""
        annotated = annotate(text, self._index, hearing.language)
        meaning = self._beside_birds(annotated, hearing)
        if meaning.intent is not Intent.STOP:
            forms = self._index.replies
            asks = meaning.intent is Intent.ASK
            asked = ruled(annotated, hearing, forms, asking=asks)
            meaning = replace(smelt(meaning, asked), leave=leave(annotated, hearing, forms))
            meaning = replace(meaning, ruled=tuple(one for one in asked if one != SMELL))
        if self._worried(meaning, annotated, hearing):
            meaning = replace(meaning, worried=True)
        if not (hearing.held and _may_be_of_trade(meaning)):
            return meaning
        if annotated.has("trade"):
            topic = Slots(topic="sale_age")
            return Meaning(Intent.ASK, topic, language=meaning.language, means=meaning.means)
        return meaning

    def _beside_birds(self, text: Text, hearing: Hearing) -> Meaning:
        """The meaning, with what is told of people and what the farmer means to do. A clause of
        people is no sign of the birds; without an alarm of bad air it must not take a danger
        away."""
        whole = self._read(text, hearing, self._learned)
        index = self._index
        planned: tuple[str, ...] = ()
        if whole.intent is not Intent.STOP:
            planned = (*weather_ahead(text, hearing), *plans(text, hearing, index.replies))
        if planned:
            whole = replace(whole, means=planned)
        in_danger = any(one in index.danger for one in whole.signals)
        if whole.intent is Intent.STOP or not (hearing.trouble or hearing.air or in_danger):
            return whole
        doing = (*whole.means, *means(text, hearing, index.replies))
        whole = _of_carcasses(whole, doing)
        told = of_people(text, hearing, index.replies)
        ill = told is not None and not {ILL, DOWN}.isdisjoint(told.told)
        if told is None or not (hearing.air or (hearing.trouble and ill and not in_danger)):
            return replace(whole, means=doing)
        rest = _NOTHING
        if told.rest:
            rest = self._read(annotate(told.rest, index, hearing.language), hearing, self._learned)
        return replace(_of_carcasses(rest, doing), people=told.told, means=doing)

    def _read(self, annotated: Text, hearing: Hearing, learned: Learned | None) -> Meaning:
        """By words, and by what was learned where it is given: a piece of a text is no example."""
        index = self._index
        led = opening_answer(annotated, hearing)
        scene = Scene(annotated, index, hearing)
        answered = self._in_words(led, scene)
        if answered is None and led:
            answered = read_led(led, self._without_question(hearing))
        figured = None if led else opening_figure(annotated, hearing)
        if figured is not None:
            answered = read_figured(
                figured,
                lambda words: self._read_piece(words, hearing),
                self._without_question(hearing),
            )
        if answered is not None:
            return answered
        signs = _with_answer(scene, find_signs(annotated, index, hearing.count))
        meaning = _understood(scene, signs)
        if meaning.intent is Intent.ASK:
            meaning = self._with_told(meaning, annotated, hearing)
        if learned is not None and not settled(meaning, scene):
            like = opinion(annotated, hearing, learned)
            if like is not None:
                meaning = weigh(meaning, judged(told_by(meaning, annotated), like), signs, scene)
        if meaning.intent is Intent.STOP:
            meaning = self._stopped(meaning, annotated, hearing)
        if meaning.intent is Intent.ASK and _of_other_beasts(scene):
            meaning = _NOTHING
        lost = meaning.intent is Intent.OTHER and meaning.confidence <= UNSURE
        if lost and uncounted(scene):
            meaning = Meaning(Intent.DEATHS)
        elif lost and hearing.has_batch and (gone := gone_of_flock(scene)):
            sign = danger_of(gone, hearing.count)
            meaning = Meaning(Intent.DEATHS, Slots(deaths=gone), sign, many=sign)
        quiet = meaning.intent in (Intent.OBSERVE, Intent.OTHER) and _lies_quiet(scene)
        if quiet and "gets_up" not in meaning.signals:
            meaning = _not_waking(meaning)
        if FLOCK_DOWN in meaning.signals and _rests_at_noon(scene):
            meaning = _lying_still(meaning)
        if {SMOKE, FLOCK_DOWN} <= set(meaning.signals):
            meaning = _stifled(meaning)
        if {CALM, "lethargic"} <= set(meaning.signals) and _some_asleep(scene):
            meaning = _without(meaning, frozenset({"lethargic"}))
        if FLOCK_DOWN in meaning.signals:
            meaning = _without_calm(meaning, spread=scene.has("spread"))
        if hearing.looked and hearing.prompt is None:
            meaning = self._found_there(meaning, annotated, hearing)
        if hearing.trouble and meaning.intent in (Intent.OTHER, Intent.THANKS):
            meaning = self._unasked(meaning, annotated, hearing)
        language = annotated.languages[0] if annotated.languages else None
        return replace(_what_went_out(meaning, scene), language=language, cut=annotated.cut)

    def _in_words(self, led: Led | None, scene: Scene) -> Meaning | None:
        """The options of the open menu that were told in words, with what was told beside them. A
        sign of danger in the whole text stands, whatever its words were taken for."""
        text, index, hearing = scene.text, scene.index, scene.hearing
        if led is None and (bare_figure(scene) is not None or is_stop(scene)):
            return None
        if hearing.asked == "check_back" and _lies_quiet(scene):
            return None
        opening = len(text.tokens) - len(led.rest) if led else 0
        said = spoken(text, hearing, index.replies, opening)
        if said is None:
            return None
        signs = find_signs(text, index, hearing.count)
        free = self._without_question(hearing)
        found = read_led(in_words(led, said, text), lambda words: borne_out(free(words), signs))
        if found is None or (led is None and _of_another_matter(found, said)):
            return None
        if hearing.asked == "check_back":
            left = " ".join(one.text for at, one in enumerate(text.tokens) if at not in said.used)
            found = of_change(found, said, free(left))
            if said.options == "better" and not only_of_few(found, text):
                return None  # "quiet but two cannot stand"
            if (
                said.options == "better"
                and BENIGN.issuperset(found.signals)
                and CALM in found.signals
            ):
                return None  # "spread and quiet" says more than better
        return with_danger(found, signs, said, index.danger)

    def _found_there(self, meaning: Meaning, text: Text, hearing: Hearing) -> Meaning:
        """What was found where our advice asked to look whether every source of heat works: "no,
        one went out"; "left 50 cm, right 30". A bare no is no to "do all work"."""
        sign = hearing.looked
        assert sign is not None
        sure = meaning.confidence > UNSURE
        if sure and (meaning.signals or meaning.not_signals) and not _unlike(text):
            return meaning if text.has("bird") else _without_place(meaning, sign)
        if text.has("bird") or (sure and meaning.intent is Intent.DEATHS and not _of_a_lamp(text)):
            return meaning
        asked = replace(hearing, asked=f"{SIGN}{sign}", options=(YES, NO))
        said = spoken(text, asked, self._index.replies)
        bare = hearing.works and len(text.words()) == 1
        out = (said is not None and not said.short and said.options == YES) or (
            bare and text.has("@answer:no")
        )
        works = (said is not None and not said.short and said.options == NO) or (
            bare and text.has("@answer:yes")
        )
        seen = (*((sign,) if out else ()), *((UNLIKE,) if _unlike(text) else ()))
        if not seen and not works:
            return meaning
        return Meaning(Intent.OBSERVE, signals=seen, not_signals=(sign,) if works else ())

    def _stopped(self, stop: Meaning, text: Text, hearing: Hearing) -> Meaning:
        """STOP with what is told behind it, read as if it had come without: danger is danger."""
        if len(text.clauses) < 2 or text.clauses[0].end > STOP_WORDS:
            return stop
        behind = " ".join(one.text for one in text.tokens[text.clauses[1].start :])
        rest = self._read(annotate(behind, self._index, hearing.language), hearing, self._learned)
        return replace(
            stop,
            signals=tuple(dict.fromkeys((*stop.signals, *rest.signals))),
            many=tuple(dict.fromkeys((*stop.many, *rest.many))),
        )

    def _worried(self, meaning: Meaning, text: Text, hearing: Hearing) -> bool:
        """Whether there is a worry in the text that was not read: no sign of what is wrong, though
        it asks, is long or speaks of trouble. What is told of calm birds, or is a reading, may be
        asked about and told at length; of those words of trouble alone make a worry, and of a
        reading a long text."""
        facts = (meaning, *meaning.parts)
        signals = {one for fact in facts for one in fact.signals}
        if not BENIGN.issuperset(signals):
            return False
        if self._worries(text, hearing):
            return True
        if signals:
            return False
        long = len(text.words()) >= LONG
        reading = any(fact.slots.value_c is not None for fact in facts)
        return long or (not reading and any(one.asked for one in text.clauses))

    def _worries(self, text: Text, hearing: Hearing) -> bool:
        """Whether only help is wished: "is it serious", "my chicks are not ok please help"."""
        asked = replace(hearing, asked=WORRY, options=(WORRY,))
        return spoken(text, asked, self._index.replies) is not None

    def _unasked(self, meaning: Meaning, text: Text, hearing: Hearing) -> Meaning:
        """What is told of things that we ask about, though we did not."""
        if meaning.slots.answer is not None:
            return meaning
        told = tuple(told_unasked(text, hearing, self._index.replies))
        found = {sign: here for one in told for sign, here in one.signs}
        seen = tuple(sign for sign, here in found.items() if here)
        gone = tuple(sign for sign, here in found.items() if not here)
        if seen or gone:
            return Meaning(Intent.OBSERVE, signals=seen, not_signals=gone)
        if self._worries(text, hearing):
            return Meaning(Intent.HELP)
        vet = next((one.option for one in told if one.question == VET), None)
        if vet:
            return replace(meaning, slots=Slots(answer=vet, topic=VET))
        asked = hearing.prompt or hearing.asked
        worked = None if asked else self._how_it_went(text, hearing)
        return replace(meaning, slots=Slots(answer=worked, topic=CHECK)) if worked else meaning

    def _how_it_went(self, text: Text, hearing: Hearing) -> str | None:
        """Better, the same or worse, told before we ask ("they all eat now")."""
        asked = replace(hearing, asked=CHECK, options=WORKED)
        said = spoken(text, asked, self._index.replies)
        return said.options if said is not None and said.options in WORKED else None

    def _without_question(self, hearing: Hearing) -> Callable[[str], Meaning]:
        """Reads words as if no question were open."""
        free = replace(hearing, prompt=None, options=())
        return lambda words: self._read_piece(words, free)

    def _read_piece(self, words: str, hearing: Hearing) -> Meaning:
        return self._read(annotate(words, self._index, hearing.language), hearing, None)

    def _with_told(self, asked: Meaning, text: Text, hearing: Hearing) -> Meaning:
        """A question, and what the other clauses tell: both are answered."""
        telling = told_clauses(text)
        if not telling:
            return asked
        words = " , ".join(
            " ".join(token.text for token in text.tokens[one.start : one.end]) for one in telling
        )
        index = self._index
        part = annotate(words, index, hearing.language)
        told = _told(Scene(part, index, hearing), Signs())
        if (
            asked.slots.figure is not None
            and told is not None
            and told.intent not in _BESIDE_FIGURE
        ):
            return asked  # its other figures belong to the question
        return beside(asked, told, hearing, first=telling[0].start == text.clauses[0].start)


_OF_BIRDS = ("bird", "own_birds", "house", "brooder", "litter", "droppings", "egg", "batch")
_NOTHING = Meaning(Intent.OTHER, confidence=UNSURE)


def _what_went_out(meaning: Meaning, scene: Scene) -> Meaning:
    """ "the jiko went off": which heat it was, whatever they else have; STOVE where it is named as
    one of any kind."""
    if meaning.intent is not Intent.OBSERVE or WENT_OUT not in meaning.signals:
        return meaning
    kinds = heats_said(scene) or ([STOVE] if scene.has("heat_not_bulb") else [])
    if len(kinds) != 1:
        return meaning
    return replace(meaning, slots=replace(meaning.slots, heat=kinds[0]))


def _of_carcasses(meaning: Meaning, doing: tuple[str, ...]) -> Meaning:
    """Where the dead lie and that dogs are near: no new deaths, and no beast that came for the
    living."""
    if DEAD not in doing:
        return meaning
    counted = any(one.slots.deaths for one in meaning.facts())
    gone = ("rats_or_predator", *(() if counted else ("sudden_many_deaths",)))
    kept = tuple(one for one in meaning.signals if one not in gone)
    many = tuple(one for one in meaning.many if one not in gone)
    parts = tuple(_of_carcasses(one, doing) for one in meaning.parts)
    return replace(meaning, signals=kept, many=many, parts=parts)


def _of_a_lamp(text: Text) -> bool:
    """ "two of three, the middle one is dead": said of a source of heat by its place."""
    return text.has("which_one", "heat")


def _unlike(text: Text) -> bool:
    """ "left 50 cm, right 30": two heights or readings that are not the same."""
    figures = [one.value for one in text.numbers if one.value > LEAST_MEASURE]
    return text.has("which_one") and len(figures) == 2 and figures[0] != figures[1]


def _without_place(meaning: Meaning, sign: str) -> Meaning:
    """ "one at each side; one is out": told of the lamps, and of no place of the birds."""
    if sign not in meaning.signals:
        return meaning
    kept = tuple(one for one in meaning.signals if one != CALM)
    return replace(meaning, signals=kept, many=tuple(one for one in meaning.many if one != CALM))


def _may_be_of_trade(meaning: Meaning) -> bool:
    """Nothing in it has to be taken down: no figure of a record, no sign, no answer."""
    slots = meaning.slots
    told = meaning.signals or meaning.not_signals or slots.answer is not None
    told = told or meaning.people
    counted = meaning.intent in _LEAVING and slots.count is not None
    return meaning.intent in (*_ROUTINE, *_LEAVING) and not told and not counted


def _of_another_matter(found: Meaning, said: Said) -> bool:
    """A record with a word in it that might be an answer ("50 kg of dry feed"), or deaths beside
    "better"."""
    other = [one.intent for one in found.parts if one.intent not in (Intent.OBSERVE, Intent.OTHER)]
    died = any(one.intent is Intent.DEATHS and one.slots.deaths != 0 for one in found.parts)
    if died and said.options == "better":
        return True
    return said.short and any(one is not Intent.DEATHS for one in other)


def compile_words(words: Words, learned: Learned | None = None) -> Reader:
    """Build the reader once; every later read is a look-up."""
    return Reader(build_index(words), learned)


def _understood(scene: Scene, signs: Signs) -> Meaning:
    if is_stop(scene):
        carried = tuple(sign for fact in find_facts(scene) for sign in fact.signals)
        present = tuple(dict.fromkeys((*carried, *signs.present)))
        return Meaning(Intent.STOP, signals=present, many=(*carried, *signs.many))
    reply = read_reply(scene)
    if reply is not None:
        return reply
    if bare_figure(scene) is not None:
        hung = hung_reading(scene)
        none = Meaning(Intent.OTHER, confidence=UNSURE)  # no open question asked for it
        return _part(hung[0]) if hung else none
    if len(scene.text.numbers) == 2 and (scene.has("crop") or _of_ten(scene)):
        crops = read_crops(scene)
        if crops is not None:
            return crops
    placed = by_place(scene)
    if placed is not None:
        signs = without_its_place(scene, signs, placed)
    going = before_they_go(scene, signs) if placed is None else None
    if going is not None:
        return going
    figure = wanted(scene, signs) if placed is None else None
    if figure is not None:
        return _with_deaths(figure, scene)
    wished = wish(scene, signs)
    if wished is not None:
        return _with_facts(wished, scene)
    told = setup(scene, signs)
    if told is not None:
        return told
    asked = question(scene, signs)
    if asked is not None and not told_before_asking(scene) and not hung_reading(scene):
        return asked
    told = _told(scene, signs)
    if told is not None:
        return told
    said = small_talk(scene) or figure_among_words(scene)
    return said or Meaning(Intent.OTHER, confidence=UNSURE)


def _of_ten(scene: Scene) -> bool:
    """ "3 sur 10", "4/10" and hardly a word more: so many crops of the ten that we ask to feel."""
    few = len(scene.text.words()) <= 4
    return few and scene.text.numbers[1].value == 10 and scene.has("@out_of", "full")


def _with_answer(scene: Scene, signs: Signs) -> Signs:
    """Words that are a sign only as an answer: a place to "where are they", "dry" of the litter."""
    if says_dry(scene) and "litter_wet" not in (*signs.present, *signs.absent):
        return replace(signs, absent=("litter_wet", *signs.absent))
    place = place_said(scene)
    if place is None or signs.absent or not HOW.issuperset(signs.present):
        return signs
    return replace(signs, present=(place, *signs.present), many=(place, *signs.many), at=0)


def _lies_quiet(scene: Scene) -> bool:
    """ "they lie quiet and do not wake": told of the flock, and no calm; the air may be bad."""
    text = scene.text
    down = scene.has("not_wake") or any(
        text.at("@neg", span.start - 1)
        for name in ("get_up", "stand_up")
        for span in text.spans.get(name, ())
    )
    other = ("@if", "@others", "@past", "@question", "@few", "few_only", "n", "person")
    return down and scene.has("quiet", "lying", "sleepy", "asleep") and not scene.has(*other)


def _rests_at_noon(scene: Scene) -> bool:
    """ "at noon they all lie down, mornings they eat and run": a rest, or the heat; one look at
    whether they get up tells it."""
    eat = [one for one in scene.text.clauses if one.has("eat")]
    feeds = any(not one.has("@neg", "@negafter", "@few", "@if") and not one.asked for one in eat)
    return (
        scene.has("midday")
        and feeds
        and not scene.has("dull", "dull_sure", "not_wake", "swollen", "blood", "gasp", "sneeze")
    )


def _without_calm(meaning: Meaning, *, spread: bool) -> Meaning:
    """ "the whole house is quiet, every bird dull": that it is quiet is no calm."""
    return _without(meaning, BENIGN - {CALM} if spread else BENIGN)


def _some_asleep(scene: Scene) -> bool:
    """ "some eat, others sleep, all over the floor": a rest, where nothing ill is told of."""
    rest = scene.has("eat", "drink") and scene.has("sleepy", "asleep", "others_rest", "@few")
    ill = ("dull", "dull_sure", "down", "not_wake", "sneeze", "droppings", "@neg", "dead", "sick")
    return rest and not scene.has(*ill)


def _without(meaning: Meaning, gone: frozenset[str]) -> Meaning:
    """Without some of the signs."""
    if gone.isdisjoint(meaning.signals):
        return meaning
    kept = tuple(one for one in meaning.signals if one not in gone)
    many = tuple(one for one in meaning.many if one in kept)
    parts = tuple(_without(one, gone) for one in meaning.parts)
    return replace(meaning, signals=kept, many=many, parts=parts)


def _of_other_beasts(scene: Scene) -> bool:
    """ "my goat coughs, what do i give it": another beast is named, and nothing of the birds."""
    return scene.has("other_beast") and not scene.has(*_OF_BIRDS)


def _stifled(meaning: Meaning) -> Meaning:
    """ "a little smoke but they are all drowsy": a flock that is dull where it smokes is dull of
    the smoke, in whatever clauses it is told."""
    if FLOCK_DOWN not in meaning.signals:
        return meaning
    signals = dict.fromkeys(DROWSY if one == FLOCK_DOWN else one for one in meaning.signals)
    many = dict.fromkeys((*(one for one in meaning.many if one != FLOCK_DOWN), DROWSY))
    parts = tuple(_stifled(one) for one in meaning.parts)
    return replace(meaning, signals=tuple(signals), many=tuple(many), parts=parts)


def _lying_still(meaning: Meaning) -> Meaning:
    """A flock that lies, and of which it is open whether it gets up."""
    kept = tuple(one for one in meaning.signals if one not in (FLOCK_DOWN, LIES))
    many = tuple(one for one in meaning.many if one in kept)
    parts = tuple(_lying_still(one) if FLOCK_DOWN in one.signals else one for one in meaning.parts)
    return replace(meaning, signals=(*kept, LIES), many=many, parts=parts)


def _not_waking(meaning: Meaning) -> Meaning:
    """What is told of birds that lie quiet and do not wake."""
    gone = (*BENIGN, FLOCK_DOWN, "lethargic")
    seen = (*(one for one in meaning.signals if one not in gone), FLOCK_DOWN)
    many = (*(one for one in meaning.many if one not in gone), FLOCK_DOWN)
    absent = tuple(one for one in meaning.not_signals if one not in gone)
    return Meaning(Intent.OBSERVE, signals=seen, not_signals=absent, many=many)


def _with_deaths(asked: Meaning, scene: Scene) -> Meaning:
    """Deaths told beside a question for a number are taken down, and a danger among them answered;
    the other figures belong to the question."""
    told = [one for one in find_facts(scene) if one.intent in (Intent.DEATHS, Intent.CULLED)]
    facts = [one for one in told if one.slots.deaths != 0]
    if not facts:
        return asked
    parts = (*(_part(fact) for fact in facts), asked)
    carried = tuple(dict.fromkeys(sign for fact in facts for sign in fact.signals))
    return Meaning(Intent.MULTI, Slots(), carried, many=carried, parts=parts)


def _with_facts(wished: Meaning, scene: Scene) -> Meaning:
    """ "call me, 12 died": the figures are taken down, and a danger among them is answered."""
    if wished.intent not in (Intent.CALL_ME, Intent.HELP, Intent.NEXT, Intent.STATUS, Intent.WHY):
        return wished
    facts = find_facts(scene)
    if not facts:
        return wished
    parts = (*(_part(fact) for fact in facts), wished)
    carried = tuple(dict.fromkeys(sign for fact in facts for sign in fact.signals))
    return Meaning(Intent.MULTI, Slots(), carried, many=carried, parts=parts)


def _told(scene: Scene, signs: Signs) -> Meaning | None:
    """Facts and signs together: one fact, one observe, or multi."""
    facts = find_facts(scene) or _one_dead(scene)
    for one in facts:
        if one.slots.way == "escaped" or where_they_lay(scene, one):  # "3 ran away": no heat
            signs = without_its_place(scene, signs, one)
    facts = [one for one in facts if not _counts_the_ill(one, signs, scene)]
    if signs.present:  # "not all, only 2 are dull" tells of birds, not of a slip
        facts = [one for one in facts if one.intent is not Intent.CORRECT]
    if IN_BOX.issuperset(signs.present) and not signs.absent:
        batch = find_batch(scene, other_facts=bool(facts) and not _of_the_box(scene, facts))
        if batch is not None:
            facts = [batch, *[one for one in facts if _beside(one, batch)]]
    elif _just_arrived(scene):
        count = batch_slots(scene).count if not facts else None
        facts = [Fact(Intent.ARRIVED, Slots(count=count, date_iso_offset=0), 0), *facts]
    facts.sort(key=lambda fact: fact.at)
    carried = tuple(sign for fact in facts for sign in fact.signals)
    present = tuple(dict.fromkeys((*carried, *signs.present)))
    absent = denied = tuple(one for one in signs.absent if one not in carried)
    if "sudden_many_deaths" in absent:
        today = any(day.offset == 0 for day in scene.days)
        if not (tells_of_then(scene) or today or scene.has("all_well", "~living")):
            facts = [one for one in facts if one.slots.deaths != 0]
        if any(one.intent is Intent.DEATHS for one in facts):  # "5 died, not many": one fact
            absent = tuple(one for one in absent if one != "sudden_many_deaths")
    if MISSING in signs.present:  # "fewer each morning, none dead": nobody knows that none died
        facts = [one for one in facts if one.slots.deaths != 0]
    seen = tuple(sign for sign in signs.present if sign not in carried)
    many = tuple(dict.fromkeys((*carried, *signs.many)))
    if not facts:
        if not seen and not signs.absent:
            return None
        sure = GUESSED if signs.guessed else SURE
        return Meaning(Intent.OBSERVE, Slots(), seen, signs.absent, signs.many, confidence=sure)
    parts = [_part(fact) for fact in facts]
    if absent or set(seen) - {OTHERS_WELL}:  # "2 died, the rest are ok" is one fact
        watch = Meaning(Intent.OBSERVE, Slots(), seen, absent, signs.many)
        at = next((i for i, fact in enumerate(facts) if fact.at > signs.at), len(parts))
        parts.insert(at, watch)
    if len(parts) == 1:
        return replace(parts[0], signals=present, not_signals=denied, many=many)
    return Meaning(Intent.MULTI, Slots(), present, denied, many, tuple(parts))


def _counts_the_ill(fact: Fact, signs: Signs, scene: Scene) -> bool:
    """ "heads are swollen, i counted about 9": so few are no flock that is left."""
    few = (fact.slots.count or 0) <= (scene.hearing.count or 0) * SO_FEW
    return fact.intent is Intent.COUNTED and few and not ILLNESS.isdisjoint(signs.present)


def _one_dead(scene: Scene) -> list[Fact]:
    """ "my biggest bird is dead all at once": one, though no figure was told."""
    for clause in scene.text.clauses:
        if clause.has("die_many") and clause.has("bird") and one_died(scene.text, clause):
            return [Fact(Intent.DEATHS, Slots(deaths=1), clause.start)]
    return []


def _just_arrived(scene: Scene) -> bool:
    """ "they came now, some are dull": told of chicks that were waited for today."""
    waited = scene.hearing.has_batch and scene.hearing.age_days in (0, None)
    return waited and any(
        one.has("arrived") and not one.has("@neg", "@if", "@others", "@past")
        for one in scene.text.clauses
    )


def _of_the_box(scene: Scene, facts: list[Fact]) -> bool:
    """Dead on arrival, told with the number that came: no deaths of a day."""
    only = all(one.intent is Intent.DEATHS for one in facts)
    waited = not scene.hearing.has_batch or (scene.hearing.age_days or 0) <= 0
    return only and waited and scene.has("arrived", "placed")


def _part(fact: Fact) -> Meaning:
    return Meaning(fact.intent, fact.slots, fact.signals, fact.not_signals, fact.signals)


def _beside(fact: Fact, batch: Fact) -> bool:
    """A fact that is not the batch's own figure read twice."""
    if fact.intent in (Intent.FEED, Intent.WATER, Intent.TEMPERATURE):
        return batch.intent is not Intent.PLAN
    return fact.intent is Intent.DEATHS and fact.slots.deaths not in (None, batch.slots.count)

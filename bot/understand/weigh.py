"""Acts on what words and likeness say together: a meaning by words and a `Verdict` in, a meaning
out. Pure; called by `read` last of all.

The words decide where they are plain: answers to an open question, orders, figures. Nobody is opted
out by likeness, no figure is given up for it, and a figure in words that nobody knew is asked about
before it is taken down. Lines were drawn on writers left out (DEVELOPERS.md, "Understanding").
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace

from bot.facts.talk import Intent, Meaning, Slots
from bot.understand.batches import batch_slots, with_day
from bot.understand.deaths import danger_of
from bot.understand.gone_by import RAIN_IN
from bot.understand.how_many import DEFAULT_COUNT, HEAVY, so_many_behind
from bot.understand.leave import CURE
from bot.understand.lookalikes import (
    DROWSY,
    ILLNESS,
    OF_DRINKING,
    UNWELL,
    shivers,
    swallows,
)
from bot.understand.masses import told_right
from bot.understand.plainly import (
    DENIES,
    TAKES_BACK,
    at_mine,
    befallen,
    begun_anew,
    by_denial,
    by_itself,
    denied_by_its_verb,
    denied_here,
    in_a_clause_apart,
    not_denied,
    of_heat,
    seen_again,
    since,
    told_apart,
)
from bot.understand.sales import guessed_sale
from bot.understand.scene import YOUNGEST_SOLD, Scene
from bot.understand.sign import Signs
from bot.understand.signs import FLOCK_DULL, INSIDE, PLANNED
from bot.understand.stores import only_other_goods
from bot.understand.talk import MOST_DEGREES, asked_slots, of_other_goods
from bot.understand.tally import of_today, tallied
from bot.understand.trust import MANY_DEAD, Verdict

# Chances from which another intent stands than the words found:
TURNED_NOTHING = 0.4  # where they found nothing
TURNED = 0.5  # where they found one
TURNED_FIGURES = 0.4  # and a figure would be taken down, which is asked first
HOW_MANY = 0.8  # from which birds died, and how many is asked
TURNED_DEATHS = 0.9  # and the one figure is of deaths, and taken down at once
TURNED_SIGNS, TURNED_DANGER = 0.8, 0.92  # where they found signs, or signs of danger
GIVEN_UP, NO_FIGURE = 0.9, 0.95  # where they took a figure down; and nothing else is told
TOLD = 0.5  # from which something is told of the birds, though no sign is known in it
BORNE_OUT = 0.6  # from which a sign that they found is answered before a question around it
# From which a sign stands:
SEEN, DENIED_TOO = 0.5, 0.18  # that the words did not find
LIKEST, LIKEST_DANGER = 0.25, 0.3  # the likeliest, where none stands; of a grave text
STAYS, PLAIN, STAYS_GRAVE = 0.4, 0.3, 0.2  # that they found; where nothing denies; of a grave text
PLAINER, MANY_WORDS = 0.2, 3  # that they found in so many words, where nothing denies
SPOKEN_OF = 0.5  # from which a sign is told of or denied, whichever
STAYS_DANGER, DENIED = 0.2, 0.1  # that they found and is of danger; that they found denied
HEAP_STAYS, HEAP_DENIED = 0.1, 0.3  # of a heap, if its denial is less likely than that
SURELY_DENIED = 0.9  # from which a danger that the words found is over, whatever else is told
DENIED_UNGRAVE = 0.6  # the same, in a text that is not grave
DENIED_PLAIN = 0.8  # and in which nothing denies
BY_DENIAL = 0.05  # of a sign that the words found and whose own words deny ("not the same size")
RULED_OUT = 0.1  # of danger, beside another that stands
WHOLE = 0.97  # of the whole flock, where the words found it of some
# From which a text is grave, and the signs of danger in it count:
GRAVE = 0.4
DOUBTED = 0.2  # below which a danger beside a question is only asked about
OF_MANY, STILL_GRAVE = 0.3, 0.3  # where it tells of many; where the words found one
GRAVE_IN_ONE, GRAVE_TOGETHER = 0.85, 1.0  # or the sign is so likely; or both together
SURELY_GRAVE = 0.93  # from which a sign that the words found of no number of birds is of many
HARMLESS = 0.03  # below it none of them is said of many
# Lame birds are not guessed beside a lamp that goes no more, where none of these is named.
OF_THE_LAME = ("bird", "@plural", "leg", "limp", "lying", "down", "get_up", "stand_up")
GRAVE_IN_MANY = frozenset(
    "unwell gasping lethargic sneezing_or_rattle white_or_green_diarrhoea eyes_swollen_or_closed "
    "limping_or_down navel_wet".split()
)
DULL, SMOKE = "lethargic", "smoke_or_fumes"
HOT, TOO_HOT = frozenset({"panting"}), frozenset({"panting", "wings_spread"})
AWAY = "away_from_heat"
DROWSES = frozenset({FLOCK_DULL, DROWSY})
HEAPS = ("piled_near_heat", "crowded_one_side")
# Where they stay; who lies somewhere is dull only where a word of it is told.
OF_PLACE = frozenset({*HEAPS, "away_from_heat", "at_edges_or_walls", "spread_evenly"})
THE_LIVING = ("others_rest", "own_birds")
OF_A_PLAN = frozenset(PLANNED)
UNLEARNED = frozenset(
    {
        "birds_missing",
        "dehydrated",
        "heat_together",
        "hole_shut",
        "kicks_on_side",
        "feed_new",
        "pecks_litter",
        "smothered",
        "water_changed",
        "birds_wet",
        "feed_salty",
        "feed_wetted",
        "crop_hard",
        "litter_thin",
        "hot_wall",
        "ring_tight",
        "air_from_floor",
        "water_line",
        "heat_unlike",
        "drinkers_few",
        "wet_again",
        "feet_cold",
        "shut_in_vain",
        "heat_even",
        "boxed",
        UNWELL,
    }
)  # signs of which nothing was learned
# What likeness does not add beside a sign that the words found: a question settles it.
ASKED_INSTEAD = {
    "swollen_head": ("feathers_ruffled",),
    "water_line": ("twisted_neck_or_paralysis", "gasping"),
    "hole_shut": ("pasty_vent",),
    "birds_wet": ("twisted_neck_or_paralysis", "sneezing_or_rattle", "navel_wet"),
    "hot_wall": ("smoke_or_fumes", "drowsy_people_or_birds_near_stove"),
    "air_from_floor": ("litter_cold", "piled_near_heat"),
    "drinkers_few": ("cannibalism_or_pecking", "piled_near_heat"),
    "feed_salty": ("feed_mouldy",),
    "crop_hard": ("litter_caked", "crop_empty"),
    "ring_tight": ("piled_near_heat",),
    "heat_together": ("sneezing_or_rattle", "crowded_one_side", "smoke_or_fumes"),
    "dehydrated": ("gasping", "panting", "limping_or_down", "twisted_neck_or_paralysis"),
    "own_eyes": ("smoke_or_fumes", "drowsy_people_or_birds_near_stove"),
    "not_drinking": ("twisted_neck_or_paralysis",),
    "heat_even": ("lethargic", "limping_or_down"),
    "shut_in_vain": ("lethargic", "piled_near_heat"),
    "feet_cold": ("piled_near_heat",),
    "sleeps_inside": (
        "piled_near_heat",
        "lethargic",
        "sleepy_all_birds",
        "drowsy_people_or_birds_near_stove",
    ),
    "birds_missing": ("bloody_droppings",),
    "feed_mouldy": ("ammonia_smell",),
    "lies_still": (
        *("twisted_neck_or_paralysis", MANY_DEAD, "spread_evenly"),
        *("sleepy_all_birds", "lethargic", "gasping"),
    ),
    "litter_caked": ("twisted_neck_or_paralysis",),
    "gets_up": ("sleepy_all_birds", "lethargic", "twisted_neck_or_paralysis"),
    "kicks_on_side": ("twisted_neck_or_paralysis", "limping_or_down", "crowded_one_side"),
    "rats_or_predator": (
        *("bloody_droppings", "twisted_neck_or_paralysis"),
        "drowsy_people_or_birds_near_stove",
    ),
    "droppings_brown": ("bloody_droppings", "white_or_green_diarrhoea"),
    "wounded": ("bloody_droppings", "twisted_neck_or_paralysis"),
}
# Blood is not guessed where neither it nor anything it could be in is named.
OF_BLOOD = ("blood", "red", "droppings", "diarrhoea", "passed", "vent", "litter", "liquid")
IN_DROPPINGS = tuple(one for one in OF_BLOOD if one != "red")
OF_BIRDS_BLOOD = ("bird", "@plural", *(one for one in IN_DROPPINGS if one != "blood"))
# Nor is smoke where nothing of the air, of a burning or of people's heads is named.
OF_SMOKE = (
    *("smoke", "smell", "sting", "headache", "dizzy", "vomit", "sneeze", "gasp", "eye"),
    *("dull", "sleepy", "not_wake", "ammonia", "generator"),
)
# Nor drowsiness beside a sign that the words found, where nobody is ill and nothing dulls them.
OF_DROWSY = (
    *("sleepy", "asleep", "dull", "dizzy", "headache", "vomit", "faint", "not_wake", "lying"),
    *("smoke", "drunk", "stupor", "down", "get_up", "feel", "patient", "child", "head"),
)
# What tells that all is well, and how likely it must be where the words deny it.
CALM, CALM_THOUGH_DENIED = ("spread_evenly", "quiet_content"), 0.9
BESIDE_THE_DEAD = 0.9  # a danger that nothing but likeness tells, beside deaths
_OF_WATER = ("water", "drink", "drank", "drinker", "thirst")
WELL, LAME = "others_well", "limping_or_down"
SO_SURE = 0.98  # from which a sign told of no number of birds is of many in a harmless text too
FEW = 2  # birds: one or two are not many
ENOUGH = 4  # words of a text that is weighed
GUESSED, UNSURE = 0.5, 0.2
# Without one of these in the text a sign of danger that the words found is not taken back.
_ACTED_ON = (Intent.OBSERVE, Intent.ASK, Intent.STATUS, Intent.NEXT, Intent.HELP)
_TURNED = (Intent.OTHER, Intent.OBSERVE, Intent.ASK, Intent.THANKS)
_IN_THERE = ("heat", "brooder", "house", "smoke", "bird")
_OF_BIRDS = (  # without one of them an unknown tale is of something else
    *("bird", "@plural", "own_birds", "droppings", "litter", "feed", "water", "smell", "breathe"),
    *("eye", "wing", "leg", "head", "neck", "beak", "heat", "smoke", "brooder", "house", "crop"),
)
_NOT_OURS = ("@others", "@earlier", "@no_birds", "game_word")
_TO_SELL = ("buyer", "market", "box", "trade")
_REACHED = frozenset(
    "plan register arrived observe temperature humidity deaths feed weight water treated sold "
    "status next ask undo start help other".split()
)


def weigh(meaning: Meaning, verdict: Verdict, signs: Signs, scene: Scene) -> Meaning:
    """The meaning that words and likeness together bear out."""
    aside = signs.aside
    if scene.has("@no_birds") and not meaning.signals:
        aside |= scene.index.danger
    verdict = _without(verdict, aside, scene)
    turned = _with_signs(_turned(meaning, verdict, signs, scene), verdict, scene)
    seen = turned.signals or turned.not_signals
    if aside and turned.intent is Intent.OBSERVE and not seen:
        told_first = meaning if meaning.intent is not Intent.OBSERVE else None
        return told_first or Meaning(Intent.OTHER, confidence=UNSURE)
    if meaning.intent is Intent.ASK and turned.intent is Intent.OBSERVE and not seen:
        return meaning  # a question is not given up for nothing
    if meaning.intent is Intent.OTHER and turned.intent is Intent.OBSERVE and not seen:
        free = scene.hearing.prompt is None  # an open question is asked again, not replaced
        told = free and verdict.intents["observe"] > TOLD and scene.has(*_OF_BIRDS)
        told = told and not scene.has("@no_birds")  # "our road is spoilt"
        return turned if told else meaning
    return turned


def _without(verdict: Verdict, aside: Collection[str], scene: Scene) -> Verdict:
    """What the words set aside, of others' birds or another time, likeness does not bring back; it
    is told as not here only where the own birds are named."""
    if not aside:
        return verdict
    kept = {name: chance for name, chance in verdict.seen.items() if name not in aside}
    denied = dict(verdict.denied)
    if not (scene.has("@now") or _own_birds_of_now(scene)):
        denied = {name: chance for name, chance in denied.items() if name not in aside}
    return replace(verdict, seen=kept, denied=denied)


def _own_birds_of_now(scene: Scene) -> bool:
    """The own birds are named, and not those of "last year my flock coughed"."""
    return any(one.has("own_birds") and not one.has("@earlier") for one in scene.text.clauses)


def settled(meaning: Meaning, scene: Scene) -> bool:
    """Whether the words alone decide: an answer, a question for a figure, fuel by its measure (of
    which nothing was learned), STOP, and a few words, which the words know or nobody does."""
    if any(one.intent is Intent.FUEL for one in meaning.facts()):
        return True
    plain = meaning.slots.answer is not None or meaning.slots.figure is not None
    plain = plain or meaning.intent in (Intent.SETUP, Intent.CLOSE, Intent.LANGUAGE)
    few = sum(token.kind == "word" for token in scene.text.tokens) < ENOUGH
    return plain or few or meaning.intent is Intent.STOP


def _turned(meaning: Meaning, verdict: Verdict, signs: Signs, scene: Scene) -> Meaning:
    """The likeliest intent, where the words may be overruled."""
    likeliest = max(verdict.intents, key=lambda one: verdict.intents[one])
    chance = verdict.intents[likeliest]
    if meaning.intent in (Intent.ASK, Intent.OTHER) and _grave_alone(verdict, scene):
        return _seen(signs)
    if meaning.signals and UNLEARNED.issuperset(meaning.signals):
        return meaning
    if not OF_A_PLAN.isdisjoint(meaning.signals):
        return meaning  # who asks who may sleep there is told
    line = TURNED_NOTHING if meaning.intent is Intent.OTHER else TURNED
    if likeliest == meaning.intent.value or chance < line or likeliest not in _REACHED:
        return meaning
    wanted = Intent(likeliest)
    if wanted is Intent.OTHER and meaning.intent.value not in _REACHED:
        return meaning  # birds eaten, a count, a slip: learned as none of the rest
    if meaning.intent not in _TURNED:
        return _given_up(meaning, wanted, chance, verdict, signs, scene)
    if wanted is Intent.ASK and scene.has("what_to_do") and _appealed(meaning, scene):
        return meaning
    if meaning.intent is Intent.OTHER and wanted is not Intent.OBSERVE and scene.has("@future"):
        return meaning  # told of what is to come
    if wanted is Intent.TEMPERATURE and _of_so_many(scene):
        return meaning  # "25 chicks under the lamp"
    if wanted is Intent.DEATHS and scene.has(*_NOT_OURS):
        return meaning  # others' dead, and the goals of a match
    if wanted is Intent.DEATHS and not scene.has("dead") and scene.has("distance"):
        return meaning  # "the shop is km 4"
    if wanted is Intent.DEATHS and not scene.has("dead") and scene.of_kind("money"):
        return meaning  # "lost 5000 shillings on that trader"
    if wanted is Intent.DEATHS and not scene.has("dead", "lost") and scene.has(*_TO_SELL):
        return meaning  # "7 left this morning with the buyer"
    if wanted is Intent.DEATHS and not scene.has("dead") and scene.has("minute_word"):
        return meaning  # "lost 20 minutes on the key"
    if meaning.intent is Intent.OTHER and scene.has("robot_word", "~misdialled"):
        return meaning  # "your balance is too low": nobody wrote it, or not to us
    if wanted is not Intent.OBSERVE and _answers_signs(meaning, wanted, chance, verdict, scene):
        return meaning
    if wanted is Intent.FEED and only_other_goods(scene):
        return meaning  # "3 bags of sawdust on top"
    if wanted is Intent.DEATHS and MANY_DEAD in meaning.signals:
        return meaning  # "many died d'un coup": no figure takes that back
    return _taken_for(wanted, meaning, chance, verdict, signs, scene)


def _appealed(meaning: Meaning, scene: Scene) -> set[str]:
    """ "their droppings are white, what do I do", "eyes swollen?": dangers told, and help wished
    with them in words or by a mark alone."""
    pleads = scene.has("what_to_do") or any(
        one.asked and not one.has("@question") for one in scene.text.clauses
    )
    if not pleads or scene.has(*_NOT_OURS, "@if"):
        return set()
    told = {
        reading.name
        for clause in scene.text.clauses
        if not clause.has("@question", "what_to_do")
        for reading in clause.readings
    }
    return told & (scene.index.danger | set(GRAVE_IN_MANY)) & set(meaning.signals)


def _of_so_many(scene: Scene) -> bool:
    """Whether a figure stands right before the birds that it counts, or what they do."""
    return any(
        scene.text.at(name, one.end)
        for one in scene.plain_numbers
        for name in ("bird", "count_verb")
    )


def _taken_for(
    wanted: Intent, meaning: Meaning, chance: float, verdict: Verdict, signs: Signs, scene: Scene
) -> Meaning:
    """The meaning with another intent than the words gave it."""
    if wanted is Intent.OBSERVE:
        return _seen(signs)
    asked = _asked(verdict, scene)
    if wanted is Intent.ASK and not of_other_goods(scene, asked.slots.topic):
        return asked
    if wanted in (Intent.ASK, Intent.OTHER):
        return Meaning(Intent.OTHER, confidence=UNSURE)
    return _figure(meaning, wanted, chance, scene)


def _answers_signs(
    meaning: Meaning, wanted: Intent, chance: float, verdict: Verdict, scene: Scene
) -> bool:
    """A sign that words and likeness bear out is answered, and any of danger or of illness in many,
    unless the text is as good as sure to be something else."""
    dangers = scene.index.danger.intersection(meaning.signals)
    if chance < TURNED_DANGER and dangers and not _only_asked(wanted, dangers, verdict, scene):
        return True
    if wanted is Intent.ASK and chance < TURNED_DANGER and _of_many_ill(meaning, scene):
        return True
    if scene.has("@here_too") or (wanted is Intent.ASK and _told_apart(meaning, scene)):
        return True
    if wanted is Intent.ASK and scene.leave:
        return True  # what is asked is answered beside
    borne_out = any(verdict.seen.get(one, 1.0) > BORNE_OUT for one in meaning.signals)
    return chance < TURNED_SIGNS and borne_out


def _only_asked(wanted: Intent, dangers: Collection[str], verdict: Verdict, scene: Scene) -> bool:
    """ "is there a vaccine against swollen heads": a question, of no birds of the farmer's own, and
    likeness knows nothing of a danger in it."""
    unlikely = all(verdict.seen.get(one, 1.0) < DOUBTED for one in dangers)
    own = any(
        clause.has("own_birds", "ones_who", "@many", "n")
        and any(one.name in dangers for one in clause.readings)
        for clause in scene.text.clauses
    )
    return wanted is Intent.ASK and unlikely and not own and verdict.danger < GRAVE


def _told_apart(meaning: Meaning, scene: Scene) -> bool:
    """ "when can i vaccinate? they are coughing, all": an illness of many, or a danger, in a
    sentence of its own beside one that asks."""
    clauses = scene.text.clauses
    asked = {one.sentence for one in clauses if one.asked or one.has("@question", "what_to_do")}
    apart = {
        reading.name
        for one in clauses
        if one.sentence not in asked and not one.has(*TAKES_BACK)
        for reading in one.readings
    }
    grave = scene.index.danger | (GRAVE_IN_MANY & set(meaning.many))
    return bool(asked) and bool(apart & grave & set(meaning.signals))


def _of_many_ill(meaning: Meaning, scene: Scene) -> bool:
    """An illness told of many, by a word or a figure beside it."""
    ill = set(meaning.many).intersection(GRAVE_IN_MANY)
    counts = ("@many", "@whole", "n")
    return any(
        clause.has(*counts) and any(one.name in ill for one in clause.readings)
        for clause in scene.text.clauses
    )


def _grave_alone(verdict: Verdict, scene: Scene) -> bool:
    """A sign of danger so plain that a question around it does not matter."""
    dangers = scene.index.danger - {MANY_DEAD}
    plain = any(verdict.seen.get(one, 0.0) > LIKEST_DANGER for one in dangers)
    return plain and verdict.danger > GRAVE


def _given_up(
    meaning: Meaning, wanted: Intent, chance: float, verdict: Verdict, signs: Signs, scene: Scene
) -> Meaning:
    """A figure that the words found is given up only where it is as good as sure to be none. Of
    several facts the likely one is kept; an order that is being planned stays an order."""
    if {meaning.intent, wanted} == {Intent.PLAN, Intent.REGISTER}:
        there = meaning.intent is Intent.REGISTER and (meaning.slots.age_days or 0) > 1
        return meaning if there or scene.has("signs_up") else replace(meaning, intent=wanted)
    if chance < GIVEN_UP or _may_be_a_reading(meaning, scene):
        return meaning
    for part in meaning.parts:
        if part.intent is wanted:
            return replace(part, signals=meaning.signals, many=meaning.many)
    if wanted is Intent.OTHER and meaning.intent is not Intent.UNDO and chance <= NO_FIGURE:
        return meaning
    return _taken_for(wanted, meaning, chance, verdict, signs, scene)


def _may_be_a_reading(meaning: Meaning, scene: Scene) -> bool:
    """ "it is 25 should i put more charcoal": what would be planned for may be degrees."""
    count = meaning.slots.count or 0
    return meaning.intent is Intent.PLAN and scene.hearing.has_batch and 0 < count <= MOST_DEGREES


def _seen(signs: Signs) -> Meaning:
    return Meaning(
        Intent.OBSERVE, Slots(), signs.present, signs.absent, signs.many, confidence=GUESSED
    )


def _asked(verdict: Verdict, scene: Scene) -> Meaning:
    topic = max(verdict.topics, key=lambda one: verdict.topics[one], default=None)
    return Meaning(Intent.ASK, asked_slots(scene, topic), confidence=GUESSED)


def _figure(meaning: Meaning, wanted: Intent, chance: float, scene: Scene) -> Meaning:
    """A wish, or a fact with its one figure, told in words that nobody knew. A fact is asked about
    before it is taken down; only deaths are not left waiting."""
    if wanted is Intent.ARRIVED and (scene.day(past=False) or 0) > 0:
        return meaning  # "they come on 21 march"
    if wanted is Intent.ARRIVED and scene.has("visitor") and not scene.has("bird", "box"):
        return meaning  # "the vet came this morning"
    if wanted is Intent.SOLD and scene.has("sold_to_me"):
        return meaning
    young = (scene.hearing.age_days or 0) < YOUNGEST_SOLD
    if wanted is Intent.SOLD and young and scene.has("@others"):
        return meaning  # "my neighbour bought 30 birds at 600"
    slots = _slots(wanted, scene)
    at_once = chance > TURNED_FIGURES and scene.has("die_many")  # "25 sont tombes d'un coup"
    if wanted is Intent.DEATHS and slots.deaths and (at_once or chance > TURNED_DEATHS):
        sign = danger_of(slots.deaths, scene.hearing.count)
        return Meaning(wanted, slots, sign, many=sign, confidence=GUESSED)
    if wanted in _ACTED_ON or (wanted is Intent.DEATHS and _died_uncounted(slots, chance, scene)):
        return Meaning(wanted, slots, confidence=GUESSED)  # of deaths it is asked how many
    return Meaning(wanted, slots, confidence=UNSURE) if chance > TURNED_FIGURES else meaning


def _died_uncounted(slots: Slots, chance: float, scene: Scene) -> bool:
    """Birds died, by the sound of it, and no figure says how many: that is asked."""
    return slots.deaths is None and chance > HOW_MANY and scene.has("dead", "bird")


_KIND = {Intent.FEED: "grams", Intent.WATER: "litres", Intent.HUMIDITY: "percent"}


def _measured(wanted: Intent, scene: Scene) -> Slots:
    """The one figure with the unit of feed, water or humidity; of a slip the one put right."""
    slip = scene.has("~put_right", "i_said", "in_truth", "wrong")
    told = [one.value for one in told_right(scene, scene.of_kind(_KIND[wanted]))]
    if wanted is Intent.HUMIDITY and not told:
        told = [one.value for one in scene.plain_numbers if not one.weak]
    if not told or (len(told) > 1 and not slip):
        return Slots()
    match wanted:
        case Intent.FEED:
            return Slots(kg=round(told[-1] / 1000, 3), feed_move="eaten")
        case Intent.WATER:
            return Slots(litres=round(told[-1], 2))
    return Slots(rh_pct=told[-1])


def _slots(wanted: Intent, scene: Scene) -> Slots:
    """The figures of a batch, or the one figure of the text, where the intent takes them; of a
    sale, feed, water or the air those with their unit."""
    if wanted in (Intent.FEED, Intent.WATER, Intent.HUMIDITY):
        return _measured(wanted, scene)
    if wanted in (Intent.PLAN, Intent.REGISTER):
        return with_day(scene, batch_slots(scene), past=False)
    if wanted is Intent.ARRIVED and scene.has("box") and scene.days:
        return with_day(scene, Slots(count=batch_slots(scene).count), past=True)
    if wanted is Intent.SOLD and (sale := guessed_sale(scene)) is not None:
        return with_day(scene, sale, past=True)
    figures = scene.plain_numbers
    told = tallied(scene, known=True) if wanted is Intent.DEATHS else []
    if len({one.day for one in told}) > 1 and (today := of_today(told)) is not None:
        return Slots(deaths=today.dead)  # "jana sita leo moja"
    if wanted is Intent.DEATHS:  # "we had 300, 22 are cold": the flock is none of the dead
        figures = [one for one in figures if not (scene.of_flock(one) or one.weak)]
    if len(figures) != 1:
        return Slots()
    value = figures[0].value
    if wanted is Intent.DEATHS and 2 * value > (scene.hearing.count or value * 2):
        return Slots()  # "300 went to sleep, 299 woke": those that live
    match wanted:
        case Intent.DEATHS:
            return Slots(deaths=round(value))
        case Intent.SOLD | Intent.ARRIVED:
            return Slots(count=round(value))
        case Intent.TEMPERATURE:
            return Slots(value_c=value)
    return Slots()


def _with_signs(meaning: Meaning, verdict: Verdict, scene: Scene) -> Meaning:
    """Signs added and taken back, in the whole and in the part that tells of them."""
    dangers = scene.index.danger - {MANY_DEAD}
    watches = any(one.intent is Intent.OBSERVE for one in meaning.facts())
    surely = befallen(scene) | _spoken_of(begun_anew(scene), verdict)
    present = _kept(meaning, verdict, scene, dangers, surely)
    absent = [
        one
        for one in meaning.not_signals
        if _stays_denied(one, verdict) or _no_calm(one, meaning, verdict)
    ]
    absent += _over(verdict.denied, DENIED_TOO)
    if watches:
        present += [
            one
            for one in _over(verdict.seen, SEEN)
            if (one not in dangers or _is_grave(one, verdict))
            and not _no_calm(one, meaning, verdict)
        ]
        if not present and not set(absent) & set(meaning.not_signals):
            likest = _over(verdict.seen, STAYS if absent else LIKEST)[:1]
            surer = [one for one in likest if verdict.seen[one] > verdict.denied.get(one, 0.0)]
            present += [one for one in surer if one not in dangers]
        if not present and not absent:  # something is told: better heard a little wrong than not
            present = [one for one in meaning.signals if one not in dangers]
        told = meaning.many or scene.index.danger.intersection(present)
        if verdict.danger > GRAVE and not told:
            grave = sorted(scene.index.danger)
            present += [
                one
                for one in grave
                if verdict.seen.get(one, 0.0) > LIKEST_DANGER
                and not (one in meaning.not_signals and verdict.denied[one] > verdict.seen[one])
            ]
    elif verdict.danger > GRAVE and not meaning.signals and meaning.intent is Intent.DEATHS:
        # "they lie by the fire and do not wake, 4 died": beside the dead only what is near sure
        present += [one for one in sorted(dangers) if verdict.seen.get(one, 0.0) > BESIDE_THE_DEAD]
    plainly_not = denied_by_its_verb(scene) - set(meaning.signals)
    found = [one for one in dict.fromkeys(present) if one not in plainly_not]
    present = [one for one in found if not _is_too_much(one, meaning, verdict, scene)]
    doubted = FLOCK_DULL in found and FLOCK_DULL not in present and dangers.isdisjoint(present)
    if doubted and DULL in meaning.signals and DULL not in present:
        present.append(DULL)  # "half are dull" is not "all of them", but it is told
    absent = [one for one in dict.fromkeys(absent) if one not in present]
    if "litter_caked" in present and "litter_wet" not in meaning.not_signals:
        absent = [one for one in absent if one != "litter_wet"]  # what is caked was wet
    if scene.has("on_top") and scene.has("litter"):
        absent = [one for one in absent if one not in ("litter_wet", "litter_caked")]
    many = [one for one in present if _is_of_many(one, meaning, verdict, scene)]
    if verdict.danger < HARMLESS:
        counted = _counted(scene)
        line = LIKEST if scene.has("what_to_do") else SEEN
        counted |= {one for one in _appealed(meaning, scene) if verdict.seen.get(one, 1.0) > line}
        counted |= {one for one in meaning.signals if verdict.seen.get(one, 0.0) > SO_SURE}
        counted |= surely
        many = [one for one in many if one in (MANY_DEAD, UNWELL) or one in counted]
    return _changed(meaning, tuple(present), tuple(absent), tuple(many))


def _counted(scene: Scene) -> set[str]:
    """Signs told of a tenth of the flock or more, by a figure ("over 50 have their eyes shut"), or
    of the own birds in so many words."""
    flock = scene.hearing.count or DEFAULT_COUNT
    found = set()
    for clause in scene.text.clauses:
        figures = scene.near(clause, scene.plain_numbers)
        counted = any(flock / 10 <= one.value < flock and not one.weak for one in figures)
        own = clause.has("own_birds") and not clause.has(*DENIES)
        many = so_many_behind(scene.text, clause) or (own and clause.has("@many", "@whole", "@now"))
        if counted or many:
            found |= {one.name for one in clause.readings}
    return found


def _spoken_of(signs: set[str], verdict: Verdict) -> set[str]:
    """Those that likeness too knows to be told or denied; which, the order of the words says."""
    seen, no = verdict.seen, verdict.denied
    return {one for one in signs if seen.get(one, 0.0) + no.get(one, 0.0) > SPOKEN_OF}


def _kept(
    meaning: Meaning,
    verdict: Verdict,
    scene: Scene,
    dangers: frozenset[str],
    surely: set[str],
) -> list[str]:
    """The signs that the words found, without those that likeness takes back. surely: signs that
    are told of whatever else the text says."""
    if scene.has("@still") and not scene.has(*DENIES):
        return list(meaning.signals)  # "yesterday and still today"
    if scene.has("@here_too", "@compared"):
        return list(meaning.signals)  # "the last batch had it, and now these too"
    plain = not scene.has(*TAKES_BACK)
    strong = {
        one.name
        for clause in scene.text.clauses
        for one in clause.readings
        if plain and one.weight >= MANY_WORDS
    }
    alone = by_itself(scene) & (dangers | GRAVE_IN_MANY - {DULL})
    if CURE in scene.leave:
        alone |= in_a_clause_apart(scene) & dangers
    wondered = plain and scene.has("what_to_do")  # "many have twisted necks, is this normal"
    denying = by_denial(scene)
    tried = denying & dangers if scene.has("wake_try", "not_wake") else set()
    alone_denying = {
        one
        for one in denying - dangers
        if len(meaning.signals) == 1
        or verdict.seen.get(one, 0.0) > max(LIKEST, verdict.denied.get(one, 0.0))
    }
    plainly = HEAVY & (denying | at_mine(scene))  # "we see nothing for smoke", "smoke in my house"
    plainly |= surely | seen_again(scene)
    plainly |= {RAIN_IN} & since(scene)
    plainly |= (of_heat(scene) | told_apart(scene) - dangers) - denied_here(scene)
    if not TOO_HOT.isdisjoint(meaning.signals) and not scene.has("@past", "@others", "@gone"):
        plainly |= {AWAY} - denied_here(scene)  # "under the lamp not a chick, they pant"
    if not UNLEARNED.isdisjoint(meaning.signals):
        plainly |= denying | not_denied(scene)  # of such a text nothing was learned
    if plain:
        # Fire is never added to birds that pant; "hawahemi" do not.
        plainly |= HOT - denied_here(scene)
        plainly |= {HEAPS[0]} if "panting" in meaning.signals else set()  # they have no room
    kept = [
        one
        for one in meaning.signals
        if one in plainly
        or (one in alone_denying and verdict.seen.get(one, 0.0) > BY_DENIAL)
        or one in alone
        or one in tried  # "when i clap nobody moves"
        or (WELL in meaning.signals and one == LAME)  # "one can't stand, the others do well"
        or (one in strong and verdict.seen.get(one, 0.0) > PLAINER)
        or _stays(one, verdict, dangers, plain)
        or (wondered and one in dangers and one in meaning.many)
    ]
    if any(verdict.seen.get(one, 0.0) > SEEN for one in dangers.intersection(kept)):
        # A second danger that is as good as ruled out helps nobody: the first is answered.
        kept = [one for one in kept if one not in dangers or verdict.seen.get(one, 1.0) > RULED_OUT]
    if plain and scene.has("@whole") and {SMOKE, DROWSY} <= set(meaning.signals):
        kept = list(dict.fromkeys((*kept, SMOKE, DROWSY)))  # "a little smoke, and all are drowsy"
    return kept


def _may_be_dulled(scene: Scene) -> bool:
    """Whether drowsiness, or somebody beside the farmer, is named at all."""
    me = {span.start for span in scene.text.spans.get("@me", ())}
    people = {span.start for span in scene.text.spans.get("person", ())}
    return scene.has(*OF_DROWSY) or bool(people - me)


def _dulls(scene: Scene) -> bool:
    return scene.has(*OF_DROWSY, "move", "stand_up", "walk", "sick")


def _is_grave(sign: str, verdict: Verdict) -> bool:
    """Whether a sign of danger that only likeness tells is told of: the text is grave, or the sign
    as good as sure, or the two bear each other out."""
    seen = verdict.seen[sign]
    return verdict.danger > GRAVE or seen > GRAVE_IN_ONE or seen + verdict.danger > GRAVE_TOGETHER


def _is_too_much(sign: str, meaning: Meaning, verdict: Verdict, scene: Scene) -> bool:
    """More than the words found ("lethargic" of some is no flock that is down), and not sure."""
    if sign in meaning.signals:
        return False
    if any(sign in ASKED_INSTEAD.get(one, ()) for one in meaning.signals):
        return not (sign == DROWSY and scene.has("person") and scene.has("not_wake"))
    if sign == "litter_caked" and not scene.has("litter", "caked", "leg"):
        return True
    if sign == "bloody_droppings" and "pasty_vent" in meaning.signals:
        return not scene.has("blood", "red")  # "poo dried on their bottoms"
    if sign == "bloody_droppings" and scene.has("green", "white"):
        return not scene.has("blood", "red", "blood_food")  # "green like grass, the poo of some"
    if sign == "bloody_droppings" and not scene.has(*OF_BLOOD):
        return True
    if sign == "bloody_droppings" and scene.has("heat") and not scene.has(*IN_DROPPINGS):
        return True  # "two stoves still red in there"
    if sign == "bloody_droppings" and scene.has("elsewhere") and not scene.has(*OF_BIRDS_BLOOD):
        return True  # "palm wine as red as blood"
    if sign == HEAPS[0] and HEAPS[1] in meaning.signals and not scene.has("heat", "feels_cold"):
        return True  # "they gather by the door"
    if sign == "gasping" and {"panting", HEAPS[0]} <= set(meaning.signals):
        return True  # those that lie on each other pant
    if sign == "at_edges_or_walls" and scene.has("knocked_wall"):
        return True  # who knocks on a wall tells of no place
    if sign == "limping_or_down" and scene.has("in_box") and not scene.has("leg", "down"):
        return True  # "half are still in their boxes"
    if sign in (*HEAPS, "heap") and scene.has("the_dead") and not scene.has(*THE_LIVING):
        return True  # where the dead were put
    if sign == "smoke_or_fumes" and not scene.has(*OF_SMOKE):
        return True
    if sign == "feed_mouldy" and scene.has("@no_birds"):
        return True  # "our road is spoilt"
    if sign == "twisted_neck_or_paralysis" and any(
        shivers(scene.text, one) for one in scene.text.clauses
    ):
        return True
    if sign in ILLNESS and scene.has("other_beast") and not scene.has("bird", "own_birds"):
        return True  # "my goat has diarrhoea with blood"
    if sign in (FLOCK_DULL, DULL) and LAME in meaning.not_signals:
        return not scene.has(*OF_DROWSY)  # "no limping, every bird stands and walks"
    if sign in OF_DRINKING and scene.has("eat", "feed") and not scene.has(*_OF_WATER):
        return True  # "they eat less than yesterday"
    if sign in OF_DRINKING and any(swallows(one) for one in scene.text.clauses):
        return not scene.has("breathe", "breath")
    if sign == DROWSY and meaning.signals and not _may_be_dulled(scene):
        return True  # birds pant under two heaters; the air stings in the morning
    if sign == DROWSY and scene.has("elsewhere") and not scene.has(*_IN_THERE):
        return True  # a headache at the office
    if sign in DROWSES and scene.has("people_well"):
        return True  # "nobody sleeps in there, our heads are fine"
    if sign == DROWSY and (scene.hearing.asked == "hang" or scene.has("thermometer")):
        return True  # a man's head is how high it hangs
    denied = sign in DROWSES and not DROWSES.isdisjoint(meaning.not_signals)
    if denied and verdict.seen[sign] < SEEN:
        return True  # "nobody drowsy at home" tells of no flock that is down
    if sign == "limping_or_down" and scene.has("heat", "power") and not scene.has(*OF_THE_LAME):
        return True  # "one lamp does not go any more"
    if sign == FLOCK_DULL and not OF_PLACE.isdisjoint(meaning.signals) and not _dulls(scene):
        return True  # "the whole flock sticks to the stove"
    if sign == FLOCK_DULL and scene.has("lights_off"):
        return not scene.has("dull", "not_wake", "down")  # they sleep, as they should
    if sign == "bloody_droppings" and scene.has("slaughter", "injury", "tear_off", "comb"):
        return not scene.has("droppings", "diarrhoea", "vent", "litter", "passed")
    inside = any(sign in INSIDE.get(one, ()) for one in meaning.signals)
    plain = scene.has("@whole") or (verdict.danger > GRAVE and sign != FLOCK_DULL)
    return inside and verdict.seen[sign] < (SEEN if plain else WHOLE)


def _is_of_many(sign: str, meaning: Meaning, verdict: Verdict, scene: Scene) -> bool:
    """Said of many birds, or of no number of birds in a text of danger."""
    if sign in meaning.many or sign == MANY_DEAD:
        return True
    if sign == UNWELL:
        return False  # how many are ill is told in words
    if sign in meaning.signals:
        return verdict.danger > SURELY_GRAVE and not _of_so_few(sign, scene)
    if scene.has("@few") and not scene.has("@many", "@whole", "@plural"):
        return verdict.danger > SURELY_GRAVE  # "dung of one or two looks like boiled leaves"
    return verdict.danger > (OF_MANY if scene.has("@many", "@whole") else GRAVE)


def _of_so_few(sign: str, scene: Scene) -> bool:
    """ "two are struggling to breathe": a figure right in the clause, and no more than two; "the
    stove smokes a little"."""
    if sign in HEAVY:
        smoke = scene.text.spans.get("smoke", ())
        return any(scene.text.at("less", at) for one in smoke for at in (one.start - 1, one.end))
    return any(
        any(one.name == sign for one in clause.readings)
        and any(
            not one.weak and 1 <= one.value <= FEW for one in scene.near(clause, scene.text.numbers)
        )
        and not clause.has("@many", "@whole")
        for clause in scene.text.clauses
    )


def _stays(sign: str, verdict: Verdict, dangers: frozenset[str], plain: bool) -> bool:
    """Whether a sign that the words found stands. plain: nothing in the text denies."""
    if sign == MANY_DEAD or sign not in verdict.seen:
        return True
    if sign in HEAPS and verdict.denied.get(sign, 0.0) < HEAP_DENIED:
        return verdict.seen[sign] > HEAP_STAYS  # a heap too many is parted in vain
    if sign in dangers:
        denied = verdict.denied[sign]
        unlikely = denied > (DENIED_PLAIN if plain else DENIED_UNGRAVE)
        if denied > SURELY_DENIED or (unlikely and verdict.danger < GRAVE):
            return False
        return plain or verdict.seen[sign] > STAYS_DANGER or verdict.danger > STILL_GRAVE
    if verdict.danger > GRAVE:
        return verdict.seen[sign] > STAYS_GRAVE
    return verdict.seen[sign] > (PLAIN if plain else STAYS)


def _no_calm(sign: str, meaning: Meaning, verdict: Verdict) -> bool:
    """ "they don't want to spread": a guess alone makes no calm of it."""
    denied = sign in CALM and sign in meaning.not_signals
    return denied and verdict.seen.get(sign, 0.0) < CALM_THOUGH_DENIED


def _stays_denied(sign: str, verdict: Verdict) -> bool:
    return sign == MANY_DEAD or verdict.denied.get(sign, 1.0) > DENIED


def _over(chances: Mapping[str, float], line: float) -> list[str]:
    """Signs likelier than that, the likeliest first; deaths are counted, not guessed."""
    found = [one for one, chance in chances.items() if chance > line and one != MANY_DEAD]
    return sorted(found, key=lambda one: -chances[one])


def _changed(
    meaning: Meaning, present: tuple[str, ...], absent: tuple[str, ...], many: tuple[str, ...]
) -> Meaning:
    if (present, absent, many) == (meaning.signals, meaning.not_signals, meaning.many):
        return meaning
    parts = meaning.parts
    if parts:
        told = [one for one in parts if one.intent is not Intent.OBSERVE]
        carried = {sign for one in told for sign in one.signals}
        own = tuple(one for one in present if one not in carried)
        parts = tuple(
            replace(one, signals=own, not_signals=absent, many=many)
            if one.intent is Intent.OBSERVE
            else one
            for one in parts
            if one.intent is not Intent.OBSERVE or own or absent
        )
        if len(parts) == 1:
            meaning, parts = parts[0], ()
    return replace(meaning, signals=present, not_signals=absent, many=many, parts=parts)

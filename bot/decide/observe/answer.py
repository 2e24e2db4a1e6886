"""What the chicks do, what the thermometer says, and the answers to what we asked about it.

In: OBSERVE, TEMPERATURE, HUMIDITY, or an answer to a sign question, the behaviour or litter menu,
"where does the thermometer hang", or a check-back. Out: an action with the time we look again, or
one question. Called by `turn.choose` and `decide.several`. Danger was looked for before.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from bot.decide.common import maybe, number, say
from bot.decide.observe.advise import advise_on, give, until_look
from bot.decide.observe.asking import behaviour, not_known
from bot.decide.observe.checking import checked
from bot.decide.observe.chicks import chicks_are_right, weighed_up
from bot.decide.observe.cuts import AIR_CAUSES, before_weighing
from bot.decide.observe.looks import settled_by_a_look
from bot.decide.observe.readings import bare_reading, hangs_elsewhere, humid
from bot.decide.observe.relief import after_alarm, no_blood, no_warmth, only_one, vet_first
from bot.decide.observe.scene import Scene, scene_of, taken
from bot.decide.observe.worry import after_the_worry
from bot.diagnosis.action import Advice
from bot.diagnosis.danger import CRYING, DIRTY_LITTER, FUMES, OWN_EYES, SMELL, SMOKE
from bot.diagnosis.explain import UNCLEAR
from bot.diagnosis.keep import events
from bot.diagnosis.question import SIGN
from bot.diagnosis.story import (
    BROWN_LOOK,
    CHECK,
    DEAD,
    FEED,
    FEED_LOOK,
    FIT,
    HANG,
    HEAP,
    HUDDLED,
    ILL_LOOK,
    LEGS,
    PEOPLE_MARK,
    POISONED,
    RATS,
    SNEEZE,
    SPOT,
    UNTOLD,
    WAKE,
    WARM,
    WHAT,
)
from bot.diagnosis.weigh import speaking
from bot.facts.farm import Case, OpenQuestion
from bot.facts.talk import Decision, Intent, Meaning, Why
from bot.facts.writes import CloseQuestion
from bot.handbook.shapes import Handbook

VENT, FREE_VENT = "pasty_vent", "sick_vent"
MILD = {*WARM, *HUDDLED, *UNTOLD, HEAP}  # where they are, their heat and noise: past with a word
BEAST, HOLE_SHUT, HOLE_CLOSED, MISSING = (
    "predator",
    "hole_shut",
    "predator_shut",
    "birds_missing",
)
SMOTHERED = "smothered"
NOT_BY_CALM = ("sick", "feed_problem", "predator", "fumes")
SPREAD = "spread_evenly"
CALM = (SPREAD, "quiet_content")
FED = ("not_eating", "not_drinking", "crop_empty")


def observe(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Weigh what was said with what was known; advise, or ask what settles most."""
    scene = scene_of(meaning, case, handbook)
    slots = meaning.slots
    impossible = _impossible(meaning, scene)
    decision = impossible or vet_first(scene, after_alarm(scene, _decide(meaning, scene)))
    decision = no_warmth(scene, decision)
    read = None if impossible else slots.value_c
    noted = events(scene.batch, case.today, scene.heard, read, slots.rh_pct)
    lines = decision.lines
    if scene.batch is None and decision.question is None:
        lines = (*lines, maybe("register_hint"))
    if _only_dark(meaning, scene) and decision.question is not None:
        lines = (maybe("power_dark"), *lines)
    writes = (*noted, *decision.writes)
    if decision.question is None and _told_in_words(case.question):
        writes = (*writes, CloseQuestion())
    return replace(decision, lines=lines, writes=writes)


def _told_in_words(question: OpenQuestion | None) -> bool:
    """Whether a question of one sign is open: an answer in words leaves nothing to ask of it, and a
    later digit must not be taken for its answer."""
    looks = (BROWN_LOOK, SNEEZE, LEGS, FEED_LOOK, WHAT, ILL_LOOK)
    names = (SIGN, DEAD, WAKE, HANG, SPOT, FIT, *looks, "litter")
    return question is not None and question.name.startswith(names)


def hang_in_words(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Words about where the thermometer hangs that name no yes or no."""
    return hangs_elsewhere(scene_of(meaning, case, handbook))


def _only_dark(meaning: Meaning, scene: Scene) -> bool:
    """The power is out where no bulb keeps them warm: it is dark, and nothing worse yet."""
    heat = scene.batch.heat if scene.batch else ()
    return "no_power" in meaning.signals and "bulb" not in heat


def _impossible(meaning: Meaning, scene: Scene) -> Decision | None:
    """A figure that can't be right is asked for again; nothing is stored."""
    slots = meaning.slots
    unclear = Why(cause=UNCLEAR)
    if meaning.intent is Intent.HUMIDITY and slots.rh_pct is None:
        again = number("humidity", "humid_again", "humidity", 1, 100)
        return Decision(question=again, why=unclear)
    bare = meaning.intent is Intent.TEMPERATURE and slots.value_c is None
    wild = slots.value_c is not None and scene.verdict is None
    if (bare or wild) and not scene.heard.signals:
        again = number("temperature", "temp_again", "temperature", 5, 50)
        return Decision(question=again, why=unclear)
    return None


def _decide(meaning: Meaning, scene: Scene) -> Decision:
    heard, story = scene.heard, scene.story
    if heard.worked is not None:
        return checked(scene, heard.worked)
    if heard.unsure:
        return not_known(scene)
    looked = settled_by_a_look(scene) or after_the_worry(scene)
    if looked is not None:
        return looked
    if _noise_after_cooling(scene):
        return behaviour(scene, taken(scene), Why(cause=UNCLEAR))
    if _hole_is_shut(scene):
        return give(scene, scene.weigh(), BEAST, Advice(HOLE_CLOSED, timedelta(days=1)))
    if _quiet_night(scene):
        return checked(scene, "better")
    if _gas_is_gone(scene):
        return checked(scene, "better")
    if _in_vain(scene):
        return checked(replace(scene, heard=replace(heard, taken=("same", ""))), "same")
    if heard.hang and scene.case.question and scene.case.question.about.get("chicks"):
        return chicks_are_right(scene, heard.hang)
    if meaning.intent is Intent.HUMIDITY and meaning.slots.rh_pct is not None:
        return humid(scene, meaning.slots.rh_pct)
    if scene.value_c is not None and (not story.signals or _right_after_action(scene)):
        return bare_reading(scene, scene.value_c)
    if _only_sharp(scene):
        return advise_on(scene, scene.weigh(), "ammonia")
    if _air_is_good(scene) or _eased(scene) or _told_by_the_birds(scene):
        return checked(scene, "better")
    one = only_one(scene) or _smothered_lately(scene)
    if one is not None:
        return one
    if heard.not_signals and not story.signals and story.cause:
        return _gone(scene)
    return (
        _vent_again(scene)
        or _dead_are_whole(scene)
        or no_blood(scene)
        or before_weighing(scene)
        or weighed_up(scene)
    )


def _vent_again(scene: Scene) -> Decision | None:
    """A stuck vent told of again, or one that was pulled and bled: how it is freed, again."""
    told = set(scene.heard.signals)
    vent = VENT in scene.story.signals and FREE_VENT in scene.story.tried
    if not vent or not told or not told <= {VENT, "wounded"}:
        return None
    why = Why(cause="sick", because=scene.heard.signals)
    return Decision((*taken(scene), say(FREE_VENT), *until_look(scene)), (), None, why)


def _hole_is_shut(scene: Scene) -> bool:
    """What we advised against a beast of the night is done, and nothing new is told."""
    told = set(scene.heard.signals)
    here = scene.story.cause == BEAST and bool(scene.story.tried)
    return here and HOLE_SHUT in told and told <= {HOLE_SHUT, RATS}


def _quiet_night(scene: Scene) -> bool:
    """None is missing and no track is seen, after what was done against a beast of the night."""
    denied = {MISSING, RATS}.intersection(scene.heard.not_signals)
    here = scene.story.cause == BEAST and bool(scene.story.tried)
    return here and bool(denied) and not scene.heard.signals


def _noise_after_cooling(scene: Scene) -> bool:
    """They only cry, after something was done against heat: still too hot, or too cold by now?"""
    return (
        scene.story.cause == "hot"
        and bool(scene.story.tried)
        and scene.heard.signals == (CRYING,)
        and scene.heard.taken is None
    )


def _in_vain(scene: Scene) -> bool:
    """The hour to look again has passed, and they tell of what was there before: as good as "the
    same", whether we asked or not."""
    look, cause, told = scene.story.look_at, scene.story.cause, scene.heard.signals
    asked = scene.case.question
    if look is None or scene.case.now < look or cause is None or not told or scene.batch is None:
        return False
    if asked is not None and asked.name != CHECK and scene.heard.taken:
        return False
    before = scene.batch.complaint.signals if scene.batch.complaint else ()
    evidence = replace(scene.evidence, signals=told)
    calm = any(
        scene.handbook.causes.signs[one].calm for one in told if one in scene.handbook.causes.signs
    )
    return not calm and bool(
        set(told) & {*before, *speaking(cause, evidence, scene.handbook.causes)}
    )


def _only_sharp(scene: Scene) -> bool:
    """Told after bad air that nobody is ill and nothing smokes, over wet litter that smells or
    stings: ammonia, which wants the litter out and no heat away."""
    told, denied = set(scene.story.signals), set(scene.heard.not_signals)
    ill = any(one.startswith(PEOPLE_MARK) for one in scene.story.asked)
    air = scene.story.cause == "fumes" and POISONED in scene.story.asked and not ill
    fine = bool({SMOKE, FUMES}.intersection(denied)) and SMOKE not in told
    return air and fine and bool(told.intersection((SMELL, OWN_EYES, *DIRTY_LITTER)))


def _air_is_good(scene: Scene) -> bool:
    """After bad air they only lift their heads, or there is no smoke any more: as good as
    "better"."""
    told, signs = scene.heard.signals, scene.handbook.causes.signs
    calm = bool(told) and all(one in signs and signs[one].calm for one in told)
    gone = not told and bool({SMOKE, FUMES}.intersection(scene.heard.not_signals))
    return scene.story.cause == "fumes" and POISONED in scene.story.asked and (calm or gone)


def _gas_is_gone(scene: Scene) -> bool:
    """Smoke or gas that hurt nobody is gone: as good as "better", whatever the cold birds do."""
    hurt = POISONED in scene.story.asked or SMOKE in scene.heard.signals
    gone = {SMOKE, SMELL}.intersection(scene.heard.not_signals)
    return scene.story.cause == "fumes" and bool(scene.story.tried and gone) and not hurt


def _eased(scene: Scene) -> bool:
    """After something was done a sign that spoke for the cause is gone, and nothing wrong is told:
    as good as "better"."""
    cause, told, signs = scene.story.cause, scene.heard.signals, scene.handbook.causes.signs
    looked = scene.story.checks > 0 and scene.story.look_at is not None
    if cause is None or not scene.story.tried or not looked or scene.heard.taken:
        return False
    calm = all(one in signs and signs[one].calm for one in told)
    complaint = scene.batch.complaint if scene.batch else None
    before = complaint.signals if complaint else ()
    return calm and bool(set(scene.heard.not_signals).intersection(before))


def _told_by_the_birds(scene: Scene) -> bool:
    """At the second look they are spread or quiet, or eat and drink, and at most a few are as
    before: as good as "better". Of illness, bad feed or beasts of the night calm says nothing."""
    heard, cause, signs = scene.heard, scene.story.cause, scene.handbook.causes.signs
    asked = scene.case.question is not None and scene.case.question.name == CHECK
    if not asked or heard.taken or not scene.story.tried or cause is None or cause in NOT_BY_CALM:
        return False
    wrong = {one for one in heard.signals if one in signs and not signs[one].calm}
    calm = [one for one in heard.signals if one in CALM]
    if wrong:
        return SPREAD in calm and wrong <= MILD
    return cause not in AIR_CAUSES and bool(calm or set(heard.not_signals) & set(FED))


def _smothered_lately(scene: Scene) -> Decision | None:
    """Those that died were crushed in a heap that is over: what keeps the next night from it."""
    now = scene.circumstances.night or CRYING in scene.story.signals
    if SMOTHERED not in scene.heard.signals or now or scene.alarm is not None:
        return None
    return Decision((say("look_heap"),), (), None, Why(cause="cold", because=(SMOTHERED,)))


def _right_after_action(scene: Scene) -> bool:
    """A good figure and no new sign once something was done: what was seen before is past."""
    told = scene.heard.signals or scene.heard.not_signals or scene.heard.hang
    return not told and bool(scene.story.tried) and scene.verdict == "right"


def _dead_are_whole(scene: Scene) -> Decision | None:
    """The dead have no bites and the feed is good: after an alarm illness until a vet has seen
    them; of a few, with lively birds round them, the next hours tell."""
    asked = scene.case.question
    if asked is None or asked.name != DEAD or not {RATS, FEED} <= set(scene.heard.not_signals):
        return None
    if scene.alarm is None:
        return Decision((say("look_lively"),), (), None, Why())
    return Decision((say("sick_vet"),), (), None, Why(cause="sick"), referred=True)


def _gone(scene: Scene) -> Decision:
    """The sign has gone: closed after one check-back, else only after "spread and quiet"."""
    if scene.story.checks:
        return checked(scene, "better")
    return behaviour(scene, taken(scene), Why(cause=UNCLEAR))

"""What the chicks show: the chicks first, the thermometer only where it does not speak against
them; nothing is called well while something that was told speaks against it."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from bot.decide.common import menu, say
from bot.decide.observe.advise import advise_on, give, go_on, is_heap, without_hour
from bot.decide.observe.asking import (
    air_first,
    ask,
    ask_where_it_hangs,
    asking,
    asks_first,
    behind,
    dead_first,
    hang_question,
    in_danger,
    leading,
    one_look,
    own_look,
    plainly,
)
from bot.decide.observe.cuts import LAST_SPOT_AGE
from bot.decide.observe.scene import Scene, taken
from bot.decide.observe.spot import at_the_spot
from bot.decide.observe.worry import what_worries
from bot.diagnosis.action import SMOTHER, Advice, actions
from bot.diagnosis.danger import ILLNESS, UNWELL, smothering
from bot.diagnosis.explain import UNCLEAR
from bot.diagnosis.keep import close
from bot.diagnosis.question import LITTER, LITTER_SIGNS
from bot.diagnosis.story import HANG, ONE_LOOK, RATS, UP, WAKE, denied_lately
from bot.diagnosis.thermometer import contradicts
from bot.diagnosis.weigh import COMFORTABLE, Weighed, speaking
from bot.facts.talk import Decision, Why

BELIEVE = {"cold": "believe_cold", "hot": "believe_hot"}
BELIEVED = (*BELIEVE.values(), "believe_cold_hang")
HANGING = {"gas", "bulb"}  # heat that is hung lower, where no fire is lit
BLOOD, LAME = "bloody_droppings", "limping_or_down"
LITTER_MENU = "litter"
# These tell that a bird is weak, not of what.
WEAK = (
    "lethargic",
    UNWELL,
    "feathers_ruffled",
    "not_eating",
    "wings_spread",
    "eyes_swollen_or_closed",
)
RUFFLED = ("feathers_ruffled", "eyes_swollen_or_closed")
AGAINST_CALM = 0.5  # a sign this much rarer where nothing is wrong speaks against that


def weighed_up(scene: Scene) -> Decision:
    """The one answer to what the chicks do."""
    smother = smothering(scene.story.signals, scene.circumstances)
    if smother and SMOTHER not in scene.story.tried:
        return advise_on(scene, scene.weigh(), "cold")
    weighed = scene.weigh()
    found = at_the_spot(scene, weighed)
    if found is not None:
        return found
    air = air_first(scene, weighed)
    if air is not None:
        return air
    first = leading(scene)
    if first is not None and scene.story.in_a_row < scene.handbook.causes.row:
        return asking(scene, first, taken(scene), scene.why(weighed, UNCLEAR))
    if _ill_in_danger(scene):
        return advise_on(scene, weighed, "sick")
    if _beast_again(scene):
        return advise_on(scene, weighed, "predator")
    plain = plainly(scene)
    if plain is not None:
        return advise_on(scene, weighed, plain)
    if _few_stay_down(scene):
        return _weak(scene, weighed)
    chicks = scene.weigh(replace(scene.evidence, verdict=None))
    told = f"advice:{chicks.top}" in scene.story.asked or scene.story.hang is not None
    spot = (scene.circumstances.age or 0) <= LAST_SPOT_AGE
    against = spot and chicks.sure and contradicts(scene.verdict, chicks.top)
    if against and not told:
        looks = chicks.top in BELIEVE and asks_first(scene, chicks)
        return ask(scene, chicks) if looks else _believe_chicks(scene, chicks)
    if against:
        weighed = chicks
    if scene.heard.hang and set(BELIEVED).intersection(scene.story.tried):
        return hung_right(scene, weighed)
    if _down_by_heat(scene):
        return advise_on(scene, weighed, "hot")
    if not weighed.sure and _one_weak(scene):
        return _weak(scene, weighed)
    if not weighed.sure:
        return _gone_quiet(scene, weighed) or ask(scene, weighed)
    if _only_the_thermometer(scene, weighed.top):
        return ask_where_it_hangs(scene, taken(scene), scene.why(weighed, UNCLEAR))
    if weighed.top == COMFORTABLE:
        return ask(scene, weighed, even=True) if _unsettled(scene) else _comfortable(scene, weighed)
    if weighed.top == "sick":
        return _weak(scene, weighed)
    if asks_first(scene, weighed):
        return ask(scene, weighed)
    look = own_look(scene, weighed.top)
    if look is not None:
        return asking(scene, look, taken(scene), scene.why(weighed, UNCLEAR))
    return _and_the_rest(scene, weighed)


def _beast_again(scene: Scene) -> bool:
    """More is told of a beast of the night against which something was begun; where they crowd is
    of the fear that was told."""
    story = scene.story
    return story.cause == "predator" and bool(story.tried) and RATS in scene.heard.signals


def _and_the_rest(scene: Scene, weighed: Weighed) -> Decision:
    """The action, and behind it the question that the rest of what was told asks for."""
    given = f"advice:{weighed.top}" in scene.story.asked
    question = None if given or scene.batch is None else behind(scene, weighed)
    if question is None:
        return advise_on(scene, weighed, weighed.top)
    marked = replace(scene, story=scene.story.marked(question.name))
    told = advise_on(marked, weighed, weighed.top)
    first = advise_on(scene, weighed, weighed.top)
    if told.question or told.more or told.referred or is_heap(scene, weighed.top):
        return first
    return replace(told, question=question)


def _weak(scene: Scene, weighed: Weighed) -> Decision:
    """Weak birds: first what they show in the hand, vent, navel or leg; with signs of their own, or
    once that was asked, what is done for them."""
    story = scene.story
    signs = scene.handbook.causes.signs
    told = [one for one in story.signals if one in signs and one not in WEAK]
    ill = [one for one in told if signs[one].kind == "illness"]
    asked = ONE_LOOK in story.asked or story.in_a_row >= scene.handbook.causes.row
    one = "others_well" in story.signals
    if LAME in ill and not one and not story.tried and not _litter_told(scene):
        return _lame(scene, weighed)
    if asked or story.tried or ill or scene.alarm is not None:
        return advise_on(scene, weighed, "sick")
    return asking(scene, one_look(scene), taken(scene), scene.why(weighed, UNCLEAR))


def _lame(scene: Scene, weighed: Weighed) -> Decision:
    """What is done for those that limp, and in a text behind it the litter, whose lumps on the feet
    lame them as well."""
    told = advise_on(replace(scene, story=scene.story.marked(LITTER_MENU)), weighed, "sick")
    question = menu(LITTER_MENU, "ask_litter", LITTER, LITTER_MENU)
    return told if scene.batch is None else replace(told, question=question)


def _litter_told(scene: Scene) -> bool:
    known = {*scene.story.signals, *scene.story.not_signals}
    return LITTER_MENU in scene.story.asked or bool(known.intersection(LITTER_SIGNS.values()))


def _down_by_heat(scene: Scene) -> bool:
    """They pant, and some lie: it is the heat that laid them down, unless something else is ill."""
    signs = scene.handbook.causes.signs
    told = scene.story.signals
    ill = {one for one in told if one in signs and signs[one].kind == "illness"}
    return "panting" in told and bool(ill) and ill <= {LAME} and not scene.story.tried


def _one_weak(scene: Scene) -> bool:
    """A weak bird is told of and nothing else: it is taken in the hand, whatever else may be."""
    signs = scene.handbook.causes.signs
    wrong = {one for one in scene.story.signals if one in signs and not signs[one].calm}
    return wrong <= set(WEAK) and (
        bool(wrong.intersection(("lethargic", UNWELL))) or set(RUFFLED) <= wrong
    )


def _few_stay_down(scene: Scene) -> bool:
    """A few did not get up when somebody clapped, and nothing else is wrong."""
    if WAKE not in scene.story.asked:
        return False
    signs = scene.handbook.causes.signs
    wrong = [one for one in scene.story.signals if one in signs and not signs[one].calm]
    return bool({"lethargic", UNWELL}.intersection(wrong)) and set(wrong) <= set(WEAK)


def _ill_in_danger(scene: Scene) -> bool:
    """Ill birds are told of while an alarm is open: no question comes before the vet."""
    return in_danger(scene) and bool(set(ILLNESS).intersection(scene.heard.signals))


def _unsettled(scene: Scene) -> bool:
    """Whether something was told that is not seen where all is well, and nothing done about it."""
    if scene.story.tried:
        return False
    causes, conditions = scene.handbook.causes, scene.circumstances.conditions()
    calm = causes.causes[COMFORTABLE].signs
    return any(
        sign in causes.signs and calm[sign].of(conditions) < AGAINST_CALM * causes.signs[sign].base
        for sign in scene.story.signals
    )


def _gone_quiet(scene: Scene, weighed: Weighed) -> Decision | None:
    """What worried the farmer was nothing: they get up, or the droppings have no blood, and no
    trouble was told."""
    told = scene.story.signals
    denied = BLOOD in scene.story.not_signals or denied_lately(scene.batch, scene.case.now, BLOOD)
    no_blood = "droppings_brown" in told and denied
    if not (UP in told or no_blood) or _unsettled(scene):
        return None
    return _comfortable(scene, weighed)


def _only_the_thermometer(scene: Scene, cause: str) -> bool:
    """Whether nothing that was seen speaks for too cold or too hot, only a reading of which we do
    not know where it was taken."""
    if cause not in BELIEVE or scene.verdict is None or scene.story.hang is not None:
        return False
    if scene.story.in_a_row >= scene.handbook.causes.row:
        return False
    return not speaking(cause, scene.evidence, scene.handbook.causes)


def _believe_chicks(scene: Scene, weighed: Weighed) -> Decision:
    """The chicks are right against the thermometer: act, and ask where it hangs."""
    cause = weighed.top
    if cause == COMFORTABLE and HANG in scene.story.asked:
        lines = (*taken(scene), say("comfortable"), say("hang_there"))
        return Decision(lines, close(scene.batch), None, scene.why(weighed))
    if cause == COMFORTABLE:
        question = hang_question(scene, c=scene.known, chicks=cause)
        return Decision(
            (*taken(scene), say("comfortable")), close(scene.batch), question, scene.why(weighed)
        )
    hung = cause == "cold" and HANGING.issuperset(scene.circumstances.heats)
    key = f"{BELIEVE[cause]}_hang" if hung else BELIEVE[cause]
    advice = Advice(key, timedelta(minutes=scene.handbook.causes.causes[cause].check_in))
    told = give(scene, weighed, cause, advice)
    if scene.story.in_a_row >= scene.handbook.causes.row:
        return told
    question = hang_question(scene, c=scene.known)
    return replace(told, lines=without_hour(told.lines), question=question, more=())


def hung_right(scene: Scene, weighed: Weighed) -> Decision:
    """The chicks were believed already: the thermometer is hung right, and what was begun goes
    on."""
    found = go_on(scene, weighed, scene.story.cause or weighed.top)
    if scene.heard.hang == "yes":
        return found
    first, *rest = found.lines
    return replace(found, lines=(first, say("hang_there"), *rest))


def chicks_are_right(scene: Scene, hang: str) -> Decision:
    """They are spread and quiet whatever it reads: leave the heat, hang it right."""
    lines = (say("hang_there"),) if hang == "no" else ()
    return Decision((*taken(scene), *lines, say("comfortable")), (), None, Why(cause=COMFORTABLE))


def _comfortable(scene: Scene, weighed: Weighed) -> Decision:
    """All is well, said of what worried the farmer where there is a word for it."""
    look = dead_first(scene)
    if look is not None:
        return asking(scene, look, taken(scene), scene.why(weighed, UNCLEAR))
    worry = what_worries(scene, weighed)
    if worry is not None:
        return worry
    content = scene.handbook.causes.causes[COMFORTABLE]
    key = actions(content, scene.story.signals, scene.circumstances)[0]
    why = scene.why(weighed, COMFORTABLE)
    return Decision((*taken(scene), say(key)), close(scene.batch), None, why)

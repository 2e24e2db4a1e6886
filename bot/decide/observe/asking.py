"""The question to put, and what is safest where none is left or nobody knows the answer."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from bot.decide.common import behaviour_menu, dead_question, maybe, menu, say
from bot.decide.observe.advise import acted_on, advise_on, give, next_action, part_heap
from bot.decide.observe.scene import Scene, taken, tell
from bot.diagnosis.action import Advice
from bot.diagnosis.danger import (
    DIRTY_LITTER,
    DRINKS_ON_NEW_FEED,
    FIRES,
    FOR_THE_VET,
    FUMES,
    HEAPS,
    ILLNESS,
    LEAST_DEAD,
    LOOSE,
    OF_THE_AIR,
    ON_THE_ROAD_AGE,
    PILING,
    SALTY,
    SMOKE,
)
from bot.diagnosis.explain import UNCLEAR
from bot.diagnosis.keep import keep
from bot.diagnosis.question import LITTER, SIGN, YES_NO, Query, best_question
from bot.diagnosis.stake import saved
from bot.diagnosis.story import (
    BROWN_LOOK,
    BROWNS,
    CHECK,
    DEAD,
    DOWN,
    DULL,
    FEED,
    FEED_LOOK,
    FEED_LOOKS,
    FIT,
    GROWN_LOOKS,
    HANG,
    HOW,
    ILL_LOOK,
    ILL_LOOKS,
    ONE_LOOK,
    ONE_LOOKS,
    OWN_EYES,
    PECKED,
    RATS,
    SNEEZE,
    SNEEZES,
    SNEEZING,
    UNSURE,
    UP,
    WAKE,
    WAKES,
    WHAT,
    WHATS,
    denied_lately,
)
from bot.diagnosis.thermometer import FAR
from bot.diagnosis.weigh import (
    COMFORTABLE,
    IN_NEW_HOUSE_FROM,
    MIDDAY_FROM,
    MIDDAY_TO,
    Weighed,
    has_a_sign,
    speaking,
)
from bot.facts.farm import Case, OpenQuestion
from bot.facts.talk import Decision, Line, Question, Why
from bot.facts.writes import AddEvent

# Heat is not changed for a cause that is only left over: the one look that tells says which way.
FEEL = {"cold": "feel_first", "hot": "feel_warm", "draught": "feel_wind"}
OWN_LOOK = {"cold": "litter_cold", "hot": "panting", "draught": "rain_or_wind_in"}
LEFT_OVER = 0.15  # a cause this likely counts when the safest action is sought
STANDS_OUT = 1.5  # times as likely as the next: then it is taken before a more dangerous one
WORTH_ASKING = 0.02  # bits; less is not worth a farmer's text
BLOOD, RUFFLED = "bloody_droppings", "feathers_ruffled"
FEED_OR_WATER = {"hunger", "thirst"}
LAST_NAVEL_AGE = 10  # sore navels show in the first days; common practice, no source
# Questions that can be put again with how to look.
OF_NO_PLACE = ("drinking", "eating", "feed", "litter", "air", "illness", "growth", "visitors")
LOOK_HOW = ("feed_mouldy", "litter", "rain_or_wind_in", "not_drinking", "rats_or_predator")
COLD_FLOOR, OFF_FEED = "litter_cold", ("not_eating", "crop_empty")
WHERE = ("piled_near_heat", "away_from_heat", "spread_evenly", "panting")
MISSING = "birds_missing"
COARSE, BLEEDS = "feed_coarse", "wounded"
WIND = "rain_or_wind_in"
TIGHT, SUN, WETTED = "ring_tight", "hot_wall", "feed_wetted"
# What makes them peck beside too little room, and is answered by itself.
ELSE_THAN_ROOM = (
    "panting",
    "feed_out_of_reach",
    "feed_finished",
    "crop_empty",
    "not_drinking",
    "no_water",
    "rats_or_predator",
)
COOL_TO, COOL_FROM = 8, 21  # hours between which the air may be warm; common practice, no source
# Not asked about while they lie in a heap: it is the cold that presses them.
OF_WARMTH = ("sign:panting", "sign:noisy_distress")  # who seeks the heat is not hot, and may cry
OF_FEED = ("sign:feed_out_of_reach", "sign:crop_empty", "sign:feed_mouldy", "sign:not_drinking")


def ask(scene: Scene, weighed: Weighed, *before: Line, even: bool = False) -> Decision:
    """The question most worth asking; after three in a row the safest action. even: one is put
    although little is expected of it."""
    story, causes = scene.story, scene.handbook.causes
    query = best_question(scene.evidence, _passed(scene), causes)
    worth = query is not None and (even or query.worth >= WORTH_ASKING)
    if query is None or not worth or story.in_a_row >= causes.row:
        return safest(scene, weighed)
    if query.name == "behaviour":
        return behaviour(scene, (*taken(scene), *before), scene.why(weighed, UNCLEAR))
    lines = (*taken(scene), *before)
    return asking(scene, _question(query), lines, scene.why(weighed, UNCLEAR))


def asks_first(scene: Scene, weighed: Weighed) -> bool:
    """Whether the action of the likeliest cause waits for a question; not once it was given."""
    return f"advice:{weighed.top}" not in scene.story.asked and doubts(scene, weighed)


def doubts(scene: Scene, weighed: Weighed) -> bool:
    """Whether that action may do harm that one question would save; of what was begun already twice
    as much of it."""
    story, causes = scene.story, scene.handbook.causes
    if story.in_a_row >= causes.row:
        return False
    query = best_question(scene.evidence, _passed(scene), causes)
    if query is None:
        return False
    doing = acted_on(scene, weighed)
    begun = 2 if f"advice:{weighed.top}" in story.asked else 1
    return saved(query, doing, weighed, scene.evidence, causes) >= begun * causes.asking


def _passed(scene: Scene) -> tuple[str, ...]:
    """What is not asked: what was put already; of feed and water while they lie in a heap; where
    they are while something is told that no place explains."""
    signs = scene.handbook.causes.signs
    told = [signs[one] for one in scene.story.signals if one in signs and not signs[one].calm]
    elsewhere = any(one.kind in OF_NO_PLACE for one in told)
    cold_house = set(scene.circumstances.heats) == {"none"}  # nothing there that could be out
    passed = (*scene.story.asked, *(("behaviour",) if elsewhere else ()))
    passed = (*passed, *((f"{SIGN}stove_out",) if cold_house else ()))
    passed = (*passed, *(OF_WARMTH if "piled_near_heat" in scene.story.signals else ()))
    return (*passed, *OF_FEED) if _heap(scene) else passed


def own_look(scene: Scene, cause: str) -> Question | None:
    """The one look that tells whether heat or curtains want a change, before they get one for no
    more than a place or a cry. None where something of its own was seen or read, a first try is
    over, or it was put."""
    sign, story = OWN_LOOK.get(cause), scene.story
    shown = scene.evidence.verdict or has_a_sign(cause, scene.evidence, scene.handbook.causes)
    if sign is None or shown or story.worked or story.in_a_row >= scene.handbook.causes.row:
        return None
    return None if _settled(scene, f"{SIGN}{sign}") else sign_question(sign)


def behind(scene: Scene, weighed: Weighed) -> Question | None:
    """The question that stands behind an action where something told speaks for none of the causes
    acted on: what was said second is not lost. None where nothing is left, or little to learn."""
    causes, evidence = scene.handbook.causes, scene.evidence
    doing = acted_on(scene, weighed)
    explained = {one for code in doing for one in speaking(code, evidence, causes)}
    advice = next_action(scene, weighed.top, weighed.also)
    chosen = causes.causes[weighed.top].instead if advice else ()
    explained |= {one.sign for one in chosen if advice and one.sign and one.action == advice.key}
    left = tuple(
        one for one in evidence.signals if one not in explained and _wants_word(scene, one)
    )
    if not left:
        return None
    passed = (*_passed(scene), "behaviour")
    query = best_question(replace(evidence, signals=left, verdict=None), passed, causes)
    return _question(query) if query is not None and query.worth >= WORTH_ASKING else None


def _wants_word(scene: Scene, sign: str) -> bool:
    """Whether a sign tells something wrong by itself: not a calm one, nor a cry that any trouble
    brings."""
    known = scene.handbook.causes.signs.get(sign)
    return known is not None and not known.calm and not known.alone_asks


def air_first(scene: Scene, weighed: Weighed) -> Decision | None:
    """The farmer's own eyes sting in there: out and air before all else, and is it smoke, or a
    head that aches? None where it does not, or that was answered."""
    if OWN_EYES not in scene.heard.signals or _settled(scene, f"{SIGN}{SMOKE}"):
        return None
    question = menu(f"{SIGN}{SMOKE}", "ask_smoke_head", YES_NO)
    lines = (*taken(scene), say("air_sharp"))
    return asking(scene, question, lines, scene.why(weighed, "ammonia"))


def leading(scene: Scene) -> Question | None:
    """The question that a sign leads to before anything is weighed, where it was not put yet."""
    signs, story = scene.handbook.causes.signs, scene.story
    if _fire_may_hurt(scene):
        return fire_question()
    if _first_days(scene):
        return sign_question(COLD_FLOOR)
    if set(story.signals) >= DRINKS_ON_NEW_FEED and not _settled(scene, f"{SIGN}{SALTY}"):
        return sign_question(SALTY)
    if _gapes_in_the_cool(scene):
        return sign_question(SNEEZING)
    if _ruffled_in_warmth(scene):
        return wake_question(scene)
    for code in story.signals:
        led = signs[code].leads_to if code in signs else ()
        name = next((one for one in led if not _settled(scene, one)), None)
        if name is None:
            continue
        others = [one for one in story.signals if one != code and not signs[one].calm]
        if others and signs[code].leads_alone:
            continue
        if any(one in signs[code].leads_not_with for one in others):
            continue
        if code in ILLNESS and in_danger(scene):
            continue
        return _led(scene, name)
    return (
        _dull_first(scene)
        or _blood_first(scene)
        or _look_at_feed(scene)
        or _sneeze_first(scene)
        or dead_first(scene)
    )


def _led(scene: Scene, name: str) -> Question:
    """The question of that name."""
    if name == WAKE:
        return wake_question(scene)
    if name == FIT:
        return menu(FIT, "ask_fit", YES_NO)
    if name == BROWN_LOOK:
        return menu(BROWN_LOOK, "ask_brown", BROWNS)
    return sign_question(name.removeprefix(SIGN))


def _look_at_feed(scene: Scene) -> Question | None:
    """They leave a feed that is there, or die on a day when they do not eat: is it bad, new, or too
    coarse for them?"""
    told, denied = set(scene.story.signals), set(scene.story.not_signals)
    there = {"feed_finished", "feed_out_of_reach"}.intersection(denied)
    known = {FEED, COARSE}.intersection((*told, *denied)) or FEED_LOOK in scene.story.asked
    if "not_eating" not in told or known or not (there or scene.dead):
        return None
    return menu(FEED_LOOK, "ask_feed_look", FEED_LOOKS)


def _sneeze_first(scene: Scene) -> Question | None:
    """They sneeze and no air explains it: dust, or illness? A minute's listening tells."""
    signs = scene.handbook.causes.signs
    wrong = {one for one in scene.story.signals if one in signs and not signs[one].calm}
    smell = f"{SIGN}ammonia_smell"
    alone = wrong == {SNEEZING} and _settled(scene, smell) and SNEEZE not in scene.story.asked
    return menu(SNEEZE, "ask_sneeze", SNEEZES) if alone else None


def _gapes_in_the_cool(scene: Scene) -> bool:
    """Open beaks before the day is warm, where nothing heats them: do they rattle?"""
    cool = not COOL_TO <= scene.case.local.hour < COOL_FROM
    heated = scene.verdict in FAR or set(scene.circumstances.heats) != {"none"}
    told = "panting" in scene.story.signals and not scene.story.tried
    return told and cool and not heated and not _settled(scene, f"{SIGN}{SNEEZING}")


def _ruffled_in_warmth(scene: Scene) -> bool:
    """Feathers stand up though the reading is right: ill rather than cold, so do they get up?"""
    told = set(scene.story.signals)
    ruffled = "feathers_ruffled" in told and scene.verdict == "right"
    return ruffled and not _settled(scene, WAKE) and not scene.story.tried and not in_danger(scene)


def _first_days(scene: Scene) -> bool:
    """They do not eat in their first hours: warmth comes before feed, so is the floor cold? Common
    practice, no source."""
    age, told = scene.circumstances.age, set(scene.story.signals)
    off_feed = bool(told.intersection(OFF_FEED)) and not told.intersection(WHERE)
    return (
        off_feed
        and age is not None
        and age <= ON_THE_ROAD_AGE
        and not _settled(scene, f"{SIGN}{COLD_FLOOR}")
    )


def plainly(scene: Scene) -> str | None:
    """A cause that needs no weighing: smoke is let out, however lively they are; a cold floor under
    chicks of the first hours that do not eat wants warmth first; those that peck till it bleeds
    want room, and the hurt taken out; too coarse a feed is crushed, which harms nothing, and one
    that tastes of salt taken out; sun on tin is shaded; those that pant in a ring that was made
    small, or on each other, want air and room."""
    age, told = scene.circumstances.age, set(scene.story.signals)
    if scene.story.tried:
        return None
    if SMOKE in scene.heard.signals:
        return "fumes"
    early = age is not None and age <= ON_THE_ROAD_AGE
    if early and COLD_FLOOR in told and told.intersection(OFF_FEED):
        return "cold"
    if {RATS, MISSING}.intersection(told) and told.intersection(PILING):
        return "predator"  # they crowd for fear
    if {WIND, "crowded_one_side"} <= told and "panting" not in told:
        return "draught"  # away from the wind, however many fires burn
    if {PECKED, BLEEDS} <= told and not told.intersection(ELSE_THAN_ROOM):
        return "crowding"
    sun = SUN in told and not scene.circumstances.night
    if sun or ("panting" in told and (TIGHT in told or _on_each_other(scene))):
        return "hot"
    refused = WETTED in told and "not_eating" in told  # dried in the sun it stays bad
    coarse = COARSE in told and FEED not in told
    return "feed_problem" if SALTY in told or refused or coarse else None


def _on_each_other(scene: Scene) -> bool:
    """Grown birds that lie on each other have no room: none of them seeks heat while they pant."""
    lying = set(HEAPS).intersection(scene.story.signals)
    return scene.circumstances.band == "big" and bool(lying)


def dead_first(scene: Scene) -> Question | None:
    """Some died and nothing that was told says of what: the dead are looked at before anybody asks
    where the living are, or calls them well. None behind an alarm, which asks by itself."""
    signs = scene.handbook.causes.signs
    wrong = [one for one in scene.story.signals if one in signs and not signs[one].calm]
    if not scene.dead or wrong or DEAD in scene.story.asked or scene.alarm is not None:
        return None
    return None if {RATS, FEED} <= set(scene.story.not_signals) else dead_question()


def _fire_may_hurt(scene: Scene) -> bool:
    """They sneeze or their eyes run where a fire burns, and nobody has told of its air yet."""
    fire = any(heat in FIRES for heat in scene.circumstances.heats)
    told = set(scene.story.signals)
    known = (
        _settled(scene, f"{SIGN}{SMOKE}")
        or FUMES in told
        or bool(scene.story.tried)
        or "others_well" in told
    )
    return fire and bool(told.intersection(OF_THE_AIR)) and not known and not in_danger(scene)


def fire_question() -> Question:
    """Is there smoke, or is a person ill of it? Before birds are thought of."""
    return menu(f"{SIGN}{SMOKE}", "ask_air_people", YES_NO)


def in_danger(scene: Scene) -> bool:
    """Whether an alarm that only a vet can take back is open: what looks ill is ill."""
    return scene.alarm is not None and scene.alarm.values.get("kind") in FOR_THE_VET


def _dull_first(scene: Scene) -> Question | None:
    """Ruffled birds that nothing tells to be cold, or in a heap though it is warm enough: are many
    dull, before the heat is changed?"""
    signs, told = scene.handbook.causes.signs, set(scene.story.signals)
    wrong = {one for one in told if one in signs and not signs[one].calm}
    warm = scene.verdict in ("right", "above", "far_above")
    by_cold = wrong - {RUFFLED, *(PILING if warm else ())}
    if RUFFLED not in wrong or by_cold or "others_well" in told or scene.story.tried:
        return None
    return None if _settled(scene, f"{SIGN}{DULL[0]}") else sign_question(DULL[0])


def _blood_first(scene: Scene) -> Question | None:
    """Loose droppings beside dirty litter: is there blood in them, before illness is named?"""
    told = set(scene.story.signals)
    if LOOSE not in told or SALTY in told or not told.intersection(DIRTY_LITTER):
        return None
    return None if _settled(scene, f"{SIGN}{BLOOD}") else sign_question(BLOOD)


def _settled(scene: Scene, name: str) -> bool:
    """Whether a question was put already, or its answer told."""
    return name in scene.story.asked or _known(scene, name)


def _known(scene: Scene, name: str) -> bool:
    sign = UP if name == WAKE else name.removeprefix(SIGN)
    told = (*scene.story.signals, *scene.story.not_signals)
    if name == WAKE and DOWN in scene.story.not_signals:
        return True
    return sign in told or denied_lately(scene.batch, scene.case.now, sign)


def wake_question(scene: Scene) -> Question:
    """Do they get up? Words of its own for the answers, so that no bare "no" is taken amiss. Where
    a fire burns, its air and people's heads come first, unless these were said to be well."""
    fire = any(heat in FIRES for heat in scene.circumstances.heats)
    air = fire and not _known(scene, f"{SIGN}{SMOKE}")
    return menu(WAKE, "ask_wake_fire" if air else "ask_wake", WAKES)


def one_look(scene: Scene) -> Question:
    """What does the weak one show in the hand, and do ten others? In grown birds the droppings are
    looked at in place of the navel."""
    if (scene.circumstances.age or 0) < LAST_NAVEL_AGE:
        return menu(ONE_LOOK, "ask_one_look", ONE_LOOKS)
    return menu(ONE_LOOK, "ask_one_look_grown", GROWN_LOOKS)


def bite_question(scene: Scene) -> Question | None:
    """Blood outside of the droppings: a beast's work, or each other's? None once both are known."""
    for sign in (RATS, PECKED):
        if not _settled(scene, f"{SIGN}{sign}"):
            return sign_question(sign)
    return None


def heat_of_the_day(told: Decision, case: Case) -> Decision:
    """Several grown birds died at midday, of which no number makes a danger: it may be the heat, so
    do the others pant? Common practice, no source."""
    hour = case.local.hour
    now = [one for one in told.writes if isinstance(one, AddEvent) and one.kind == "deaths"]
    batch = next((one for one in case.batches if now and one.id == now[0].batch_id), None)
    if batch is None or told.question is not None or told.referred:
        return told
    dead = batch.total("deaths", case.today) + sum(int(str(one.values.get("n", 0))) for one in now)
    grown = (batch.age(case.today) or 0) >= IN_NEW_HOUSE_FROM
    if dead < LEAST_DEAD or not grown or not MIDDAY_FROM <= hour < MIDDAY_TO:
        return told
    known = batch.complaint is not None and "panting" in batch.complaint.signals
    return told if known else replace(told, question=sign_question("panting"))


def put_again(scene: Scene, asked: OpenQuestion) -> Question | None:
    """The same question once more, in other words where there are some; None for one that is not
    ours to word."""
    how = asked.name.removeprefix(SIGN)
    if how in LOOK_HOW:
        return menu(asked.name, f"how_{how}", asked.options, asked.prompt)
    if asked.name.startswith(SIGN):
        return sign_question(how)
    made = {
        "behaviour": behaviour_menu(),
        "litter": menu("litter", "ask_litter", LITTER, "litter"),
        WAKE: menu(WAKE, "ask_wake", WAKES),
        ONE_LOOK: one_look(scene),
        HANG: menu(HANG, "ask_hang", YES_NO),
        WHAT: menu(WHAT, "ask_what", WHATS),
        ILL_LOOK: menu(ILL_LOOK, "ask_ill_look", ILL_LOOKS),
        FEED_LOOK: menu(FEED_LOOK, "ask_feed_look", FEED_LOOKS),
    }
    return made.get(asked.name)


def _question(query: Query) -> Question:
    if query.name == "litter":
        return menu("litter", "ask_litter", LITTER, "litter")
    assert query.sign is not None
    return sign_question(query.sign)


def sign_question(sign: str) -> Question:
    return menu(f"{SIGN}{sign}", f"ask_{sign}", YES_NO)


def behaviour(scene: Scene, lines: tuple[Line, ...], why: Why) -> Decision:
    """Where are the chicks?"""
    return asking(scene, behaviour_menu(), lines, why)


def asking(scene: Scene, question: Question, lines: tuple[Line, ...], why: Why) -> Decision:
    """Put the question, and keep what is known until its answer comes. A heap at night is parted
    before anybody looks for why."""
    if not scene.story.in_a_row:
        lines = (*lines, *_heap(scene), *_bleeding(scene))
    story = scene.story.marked(question.name)
    names_vet = question.name == FIT  # it may be a fit: the question itself says when to call
    if scene.batch is None:
        carried = replace(question, about=dict(story.carried()))
        return Decision(lines, (), carried, why, referred=names_vet)
    waiting = scene.batch.complaint.check_at if scene.batch.complaint else None
    writes = keep(scene.batch, story, cause=story.cause, check_at=waiting)
    return Decision(lines, writes, question, why, referred=names_vet)


def _bleeding(scene: Scene) -> tuple[Line, ...]:
    """Whoever bleeds is taken out before anybody looks for why: the others peck at it."""
    bleeds = "wounded" in scene.heard.signals and not scene.dead
    return (say("hurt_apart"),) if bleeds else ()


def _heap(scene: Scene) -> tuple[Line, ...]:
    """Hands first, where they press together while nobody knows why."""
    return part_heap(scene, scene.story.cause or "cold")


def hang_question(scene: Scene, **about: str) -> Question:
    """Does the thermometer hang at chick height? about: what its answer is to be read with."""
    question = menu(HANG, "ask_hang", YES_NO)
    carried = scene.story.carried() if scene.batch is None else {}
    return replace(question, about={**carried, **{key: one for key, one in about.items() if one}})


def ask_where_it_hangs(scene: Scene, lines: tuple[Line, ...], why: Why) -> Decision:
    """Ask it and keep the reading in the question, whose answer says what it is worth."""
    found = asking(scene, hang_question(scene), lines, why)
    assert found.question is not None
    about = {**found.question.about, "c": scene.known}
    return replace(found, question=replace(found.question, about=about))


def safest(scene: Scene, weighed: Weighed) -> Decision:
    """Nothing more to ask: the cause that stands out, else the most dangerous still likely, is
    acted on, and the adviser told. Only a cause that something seen speaks for is named."""
    order, evidence = scene.handbook.causes.causes, scene.evidence
    left = {
        code: share
        for code, share in weighed.ranked
        if share >= LEFT_OVER
        and code != COMFORTABLE
        and (speaking(code, evidence, scene.handbook.causes) or evidence.verdict)
    }
    told = tell(scene, "still unclear after our questions", "unclear")
    if not left or set(left) == FEED_OR_WATER:
        key = "feed_and_water" if left else "watch"
        writes = keep(scene.batch, scene.story.marked("advice:unclear"), cause=None)
        why = scene.why(weighed, UNCLEAR)
        return Decision((*taken(scene), say(key)), (*writes, told), None, why)
    first, *others = left
    stands_out = all(left[first] >= STANDS_OUT * left[other] for other in others)
    cause = first if stands_out else min(left, key=lambda code: order[code].danger)
    shown = evidence.verdict or has_a_sign(cause, evidence, scene.handbook.causes)
    if cause in FEEL and not shown:
        minutes = scene.handbook.causes.causes[cause].check_in
        found = give(scene, weighed, cause, Advice(FEEL[cause], timedelta(minutes=minutes)))
    else:
        found = advise_on(scene, weighed, cause, maybe("to_be_safe"))
    return replace(found, writes=(*found.writes, told))


def not_known(scene: Scene) -> Decision:
    """ "I don't know": how to look, where there is a way; else the next question. After three the
    safest action for what is left; with nothing seen, water is right and somebody is to look."""
    open_one = scene.case.question
    name = open_one.name if open_one else ""
    before = scene.story.asked.count(UNSURE)
    scene = replace(scene, story=scene.story.marked(UNSURE))
    weighed = scene.weigh()
    if before + 1 >= scene.handbook.causes.row and not scene.story.signals:
        return _nobody_looks(scene, weighed)
    if name == CHECK and open_one is not None:
        again = menu(CHECK, "q_worked", open_one.options, "worked")
        return Decision((say("let_look"),), (), replace(again, about=open_one.about))
    how = name.removeprefix(SIGN)
    if open_one is not None and how in LOOK_HOW and f"{HOW}{name}" not in scene.story.asked:
        return _say_how(scene, weighed, open_one, how)
    lines = (maybe("let_look"),) if name == "behaviour" else ()
    return ask(scene, weighed, *lines, even=True)


def _say_how(scene: Scene, weighed: Weighed, asked: OpenQuestion, how: str) -> Decision:
    """The same question in other words: where to put the hand, and what tells."""
    story = scene.story.marked(f"{HOW}{asked.name}")
    question = menu(asked.name, f"how_{how}", asked.options, asked.prompt)
    why = scene.why(weighed, UNCLEAR)
    if scene.batch is None:
        return Decision((), (), replace(question, about=dict(story.carried())), why)
    waiting = scene.batch.complaint.check_at if scene.batch.complaint else None
    writes = keep(scene.batch, story, cause=story.cause, check_at=waiting)
    return Decision((), writes, question, why)


def _nobody_looks(scene: Scene, weighed: Weighed) -> Decision:
    writes = keep(scene.batch, scene.story.marked("advice:unclear"), cause=scene.story.cause)
    told = tell(scene, "nobody can look just now", "unseen")
    return Decision((say("wait_look"),), (*writes, told), None, scene.why(weighed, UNCLEAR))

"""What the chicks do, what the thermometer says, and the answers to what we asked about it.

In: OBSERVE, TEMPERATURE, HUMIDITY, or an answer to a sign question, the behaviour or litter menu,
"where does the thermometer hang", or a check-back. Out: an action with the time we look again, or
one question. Called by `turn.choose` and `decide.several`. Danger was looked for before.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import timedelta

from bot.decide.common import asked_batch, behaviour_menu, maybe, menu, number, say
from bot.diagnosis.action import SMOTHER, Advice, advise, look_again
from bot.diagnosis.danger import AIR_AGAIN, smothering
from bot.diagnosis.explain import UNCLEAR, explain
from bot.diagnosis.keep import close, events, keep
from bot.diagnosis.question import LITTER, YES_NO, Query, best_question
from bot.diagnosis.story import (
    HANG,
    Heard,
    Story,
    circumstances_of,
    listen,
    story_of,
    with_heard,
)
from bot.diagnosis.thermometer import contradicts, last_reading, verdict
from bot.diagnosis.weigh import COMFORTABLE, Circumstances, Evidence, Weighed, speaking, weigh
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Intent, Line, Meaning, Question, Why
from bot.facts.writes import TellAdviser, Write
from bot.handbook.shapes import Handbook
from bot.husbandry.feed_water import water_ml
from bot.husbandry.limits import LAST_AGE
from bot.husbandry.stress import Level, heat_stress
from bot.husbandry.temperature import JUDGED_HUMIDITY_PCT

CHECKS = 4  # check-backs a complaint at most
WORSE_TELLS = 2  # so many times worse, and the adviser is told
LEFT_OVER = 0.15  # a cause this likely counts when the safest action is sought
STANDS_OUT = 1.5  # times as likely as the next: then it is taken before a more dangerous one
WORTH_ASKING = 0.02  # bits; less is not worth a farmer's text
DRY_PCT, WET_PCT = 30, 75  # HYLINE-RED p. 29: under 30 % too dry; above 75 % from memory
SAY_ADVISER = ("watch", "all_tried")  # these say by themselves that the adviser is told
REFERS = ("sick_more",)
BELIEVE = {"cold": "believe_cold", "hot": "believe_hot"}
SIDES = {"far_below": "cold", "below": "cold", "above": "hot", "far_above": "hot"}
# At night nobody asks: a text of its own says what to look for and what to do then.
NIGHT_WATCH = {
    "cold": "watch_cold",
    "draught": "watch_cold",
    "hot": "watch_hot",
    "ammonia": "watch_hot",
    "fumes": "watch_air",
}
HEAT_PLAIN = "hot_open"
HEAT_DANGER, HEAT_CHECK = "heat_danger", timedelta(minutes=30)
AIR_CAUSES = ("cold", "hot", "draught")
LAST_SPOT_AGE = 20  # from 21 no warm spot is needed, so no day's figure is named


@dataclass(frozen=True, slots=True)
class Scene:
    """All that one answer is decided on. value_c: a reading in this text, or in the question that
    it answers. verdict: the reading to go by, None where none is believed."""

    case: Case
    batch: Batch | None
    handbook: Handbook
    heard: Heard
    story: Story
    circumstances: Circumstances
    value_c: float | None
    verdict: str | None

    @property
    def evidence(self) -> Evidence:
        return Evidence(
            self.story.signals,
            self.story.not_signals,
            self.circumstances,
            None if self.story.hang == "no" else self.verdict,
            self.story.worked,
        )

    @property
    def known(self) -> str:
        """The reading in words of a question's `about`; empty where none was given."""
        return "" if self.value_c is None else f"{self.value_c:g}"

    def weigh(self, evidence: Evidence | None = None) -> Weighed:
        return weigh(evidence or self.evidence, self.handbook.causes)

    @property
    def heat(self) -> Level:
        """How hard the reading is on grown birds, by the published index; "none" below its age."""
        age = self.circumstances.age
        if self.value_c is None or self.verdict is None or age is None:
            return "none"
        book = self.handbook.husbandry
        if not book.stress_from_age.value <= age <= LAST_AGE:
            return "none"
        return heat_stress(self.value_c, JUDGED_HUMIDITY_PCT, age, book).level

    def why(self, weighed: Weighed, cause: str | None = None) -> Why:
        return explain(self.evidence, weighed, self.handbook.causes, cause)


def observe(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Weigh what was said with what was known; advise, or ask what settles most."""
    scene = _scene(meaning, case, handbook)
    slots = meaning.slots
    impossible = _impossible(meaning, scene)
    decision = impossible or _decide(meaning, scene)
    read = None if impossible else slots.value_c
    noted = events(scene.batch, case.today, scene.heard, read, slots.rh_pct)
    lines = decision.lines
    if scene.batch is None and decision.question is None:
        lines = (*lines, maybe("register_hint"))
    if _only_dark(meaning, scene) and decision.question is not None:
        lines = (maybe("power_dark"), *lines)
    return replace(decision, lines=lines, writes=(*noted, *decision.writes))


def _only_dark(meaning: Meaning, scene: Scene) -> bool:
    """The power is out where no bulb keeps them warm: it is dark, and nothing worse yet."""
    heat = scene.batch.heat if scene.batch else ()
    return "no_power" in meaning.signals and "bulb" not in heat


def _scene(meaning: Meaning, case: Case, handbook: Handbook) -> Scene:
    batch = asked_batch(case)
    heard = listen(meaning, case.question)
    circumstances = circumstances_of(case, batch)
    value_c = meaning.slots.value_c
    if value_c is None and heard.hang and case.question is not None:
        carried = case.question.about.get("c")
        value_c = float(carried) if carried else None
    reading = value_c if value_c is not None else last_reading(batch, case.now)
    story = with_heard(story_of(case, batch), heard, handbook.causes)
    judged = None if reading is None else verdict(reading, circumstances, handbook.husbandry)
    return Scene(case, batch, handbook, heard, story, circumstances, value_c, judged)


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
        return _checked(scene, heard.worked)
    if heard.hang and scene.case.question and scene.case.question.about.get("chicks"):
        return _chicks_are_right(scene, heard.hang)
    if meaning.intent is Intent.HUMIDITY and meaning.slots.rh_pct is not None:
        return _humid(scene, meaning.slots.rh_pct)
    if scene.value_c is not None and (not story.signals or _right_after_action(scene)):
        return _bare_reading(scene, scene.value_c)
    if heard.not_signals and not story.signals and story.cause:
        return _gone(scene)
    if _calm_again(scene):
        return _comfortable(scene, scene.weigh(replace(scene.evidence, signals=heard.signals)))
    if heard.taken == ("dry", "") and not story.signals:
        return Decision((*_taken(scene), say("litter_good")), close(scene.batch))
    if _is_cut(scene, "no_water", "not_drinking"):
        return _water_cut(scene)
    if _is_cut(scene, "no_power") and "bulb" in scene.circumstances.heats:
        return _advise(scene, scene.weigh(), "cold")
    if _is_cut(scene, "no_power") and (scene.circumstances.age or 0) > LAST_SPOT_AGE:
        return Decision((say("power_dark"),))
    return _weighed(scene)


def _calm_again(scene: Scene) -> bool:
    """Spread and quiet after what was done against too hot or too cold: it is over, whatever was
    seen before."""
    signs = scene.handbook.causes.signs
    told = scene.heard.signals
    calm = bool(told) and all(one in signs and signs[one].calm for one in told)
    return calm and bool(scene.story.tried) and scene.story.cause in AIR_CAUSES


def _is_cut(scene: Scene, cut: str, *beside: str) -> bool:
    """Whether a cut is all that is wrong, with nothing seen of the birds but what it brings."""
    return cut in scene.heard.signals and set(scene.story.signals) <= {cut, *beside}


def _water_cut(scene: Scene) -> Decision:
    """The water supply is cut: what they need today, and from where."""
    age, batch = scene.circumstances.age, scene.batch
    why = Why(cause="thirst", because=("no_water",))
    if age is None or batch is None or age > LAST_AGE:
        return Decision((say("water_cut_plain"),), why=why)
    litres = water_ml(age, scene.handbook.husbandry).value_ml * batch.alive / 1000
    return Decision((say("water_cut", litres=max(1, round(litres))),), why=why)


def _right_after_action(scene: Scene) -> bool:
    """A good figure and no new sign once something was done: what was seen before is past."""
    told = scene.heard.signals or scene.heard.not_signals or scene.heard.hang
    return not told and bool(scene.story.tried) and scene.verdict == "right"


# What the chicks show


def _weighed(scene: Scene) -> Decision:
    """The chicks first; the thermometer only where it does not speak against them."""
    smother = smothering(scene.story.signals, scene.circumstances)
    if smother and SMOTHER not in scene.story.tried:
        return _advise(scene, scene.weigh(), "cold")
    chicks = scene.weigh(replace(scene.evidence, verdict=None))
    spot = (scene.circumstances.age or 0) <= LAST_SPOT_AGE
    against = spot and chicks.sure and contradicts(scene.verdict, chicks.top)
    if against and scene.story.hang is None:
        return _believe_chicks(scene, chicks)
    weighed = scene.weigh()
    if against:
        weighed = chicks
    if not weighed.sure:
        return _ask(scene, weighed)
    if _only_the_thermometer(scene, weighed.top):
        return _ask_where_it_hangs(scene, _taken(scene), scene.why(weighed, UNCLEAR))
    if weighed.top == COMFORTABLE:
        return _comfortable(scene, weighed)
    return _advise(scene, weighed, weighed.top)


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
    if cause == COMFORTABLE:
        question = _hang_question(scene, c=scene.known, chicks=cause)
        return Decision(
            (*_taken(scene), say("comfortable")), close(scene.batch), question, scene.why(weighed)
        )
    key = BELIEVE[cause]
    advice = Advice(key, timedelta(minutes=scene.handbook.causes.causes[cause].check_in))
    told = _advice(scene, weighed, cause, advice)
    question = _hang_question(scene, c=scene.known)
    lines = _without_hour(told.lines)
    return replace(told, lines=lines, question=question, more=())


def _hang_question(scene: Scene, **about: str) -> Question:
    question = menu(HANG, "ask_hang", YES_NO)
    carried = scene.story.carried() if scene.batch is None else {}
    return replace(question, about={**carried, **{key: one for key, one in about.items() if one}})


def _ask_where_it_hangs(scene: Scene, lines: tuple[Line, ...], why: Why) -> Decision:
    """Ask it and keep the reading in the question, whose answer says what it is worth."""
    asking = _asking(scene, _hang_question(scene), lines, why)
    assert asking.question is not None
    about = {**asking.question.about, "c": scene.known}
    return replace(asking, question=replace(asking.question, about=about))


def _chicks_are_right(scene: Scene, hang: str) -> Decision:
    """They are spread and quiet whatever it reads: leave the heat, hang it right."""
    lines = (say("hang_there"),) if hang == "no" else ()
    return Decision((*_taken(scene), *lines, say("comfortable")), (), None, Why(cause=COMFORTABLE))


def _comfortable(scene: Scene, weighed: Weighed) -> Decision:
    return Decision(
        (*_taken(scene), say("comfortable")), close(scene.batch), None, scene.why(weighed)
    )


def _gone(scene: Scene) -> Decision:
    """The sign has gone: closed after one check-back, else only after "spread and quiet"."""
    if scene.story.checks:
        return Decision((say("better"),), close(scene.batch), None, Why(cause=COMFORTABLE))
    return _behaviour(scene, _taken(scene), Why(cause=UNCLEAR))


# Asking and advising


def _ask(scene: Scene, weighed: Weighed) -> Decision:
    """The question most worth asking; after three in a row the safest action."""
    story, causes = scene.story, scene.handbook.causes
    query = best_question(scene.evidence, story.asked, causes)
    if query is None or query.worth < WORTH_ASKING or story.in_a_row >= causes.row:
        return _safest(scene, weighed)
    if query.name == "behaviour":
        return _behaviour(scene, _taken(scene), scene.why(weighed, UNCLEAR))
    return _asking(scene, _question(query), _taken(scene), scene.why(weighed, UNCLEAR))


def _question(query: Query) -> Question:
    if query.name == "litter":
        return menu("litter", "ask_litter", LITTER, "litter")
    return menu(query.name, f"ask_{query.sign}", YES_NO)


def _behaviour(scene: Scene, lines: tuple[Line, ...], why: Why) -> Decision:
    return _asking(scene, behaviour_menu(), lines, why)


def _asking(scene: Scene, question: Question, lines: tuple[Line, ...], why: Why) -> Decision:
    """Put the question, and keep what is known until its answer comes."""
    story = scene.story.marked(question.name)
    if scene.batch is None:
        return Decision(lines, (), replace(question, about=dict(story.carried())), why)
    waiting = scene.batch.complaint.check_at if scene.batch.complaint else None
    writes = keep(scene.batch, story, cause=story.cause, check_at=waiting)
    return Decision(lines, writes, question, why)


def _safest(scene: Scene, weighed: Weighed) -> Decision:
    """Nothing more to ask: the cause that stands out, else the most dangerous still likely, is
    acted on, and the adviser told."""
    order = scene.handbook.causes.causes
    left = {
        code: share for code, share in weighed.ranked if share >= LEFT_OVER and code != COMFORTABLE
    }
    tell = _tell(scene, "still unclear after our questions")
    if not left:
        writes = keep(scene.batch, scene.story, cause=None)
        why = scene.why(weighed, UNCLEAR)
        return Decision((*_taken(scene), say("watch")), (*writes, tell), None, why)
    first, *others = left
    stands_out = all(left[first] >= STANDS_OUT * left[other] for other in others)
    cause = first if stands_out else min(left, key=lambda code: order[code].danger)
    told = _advise(scene, weighed, cause, maybe("to_be_safe"))
    return replace(told, writes=(*told.writes, tell))


def _advise(scene: Scene, weighed: Weighed, cause: str, *before: Line) -> Decision:
    """The next action for a cause; when all were tried, the adviser. A text that tells nothing new
    before we look again is no word that the last one failed."""
    waiting = _still_waiting(scene, cause)
    if waiting is not None:
        return waiting
    advice = _left(scene, cause)
    if advice is None:
        return _all_tried(scene, weighed, cause)
    return _advice(scene, weighed, cause, advice, *before)


def _still_waiting(scene: Scene, cause: str) -> Decision | None:
    """Go on as said: the action for this cause was just given, and no further sign was told."""
    complaint = scene.batch.complaint if scene.batch else None
    if complaint is None or complaint.check_at is None or complaint.cause != cause:
        return None
    known = set(scene.heard.signals) <= set(complaint.signals)
    answered = scene.heard.worked or scene.heard.hang or scene.value_c is not None
    if not known or answered or not complaint.tried or scene.case.now >= complaint.check_at:
        return None
    writes = keep(scene.batch, scene.story, cause=cause, check_at=complaint.check_at)
    at = complaint.check_at.astimezone(scene.case.cooperative.zone)
    key = "go_on_one" if cause == "sick" else "go_on"
    return Decision((*_taken(scene), say(key, at=at)), writes, None, Why(cause=cause))


def _left(scene: Scene, cause: str) -> Advice | None:
    """The first action that is left for a cause. A deadly reading has its own; after it the plain
    one of heat would say less."""
    tried = scene.story.tried
    if cause == "hot" and scene.heat == "danger" and HEAT_DANGER not in tried:
        return Advice(HEAT_DANGER, HEAT_CHECK)
    done = (*tried, HEAT_PLAIN) if HEAT_DANGER in tried else tried
    causes = scene.handbook.causes
    return advise(cause, scene.story.signals, scene.circumstances, done, causes)


def _advice(scene: Scene, weighed: Weighed, cause: str, advice: Advice, *before: Line) -> Decision:
    why = scene.why(weighed, cause)
    first = [sign for sign in why.because if sign in scene.story.signals]
    others = [sign for sign in scene.story.signals if sign not in first]
    story = replace(scene.story, signals=(*first, *others)).marked(f"advice:{cause}")
    after: tuple[Line, ...] = ()
    night: tuple[tuple[Line, ...], ...] = ()
    check_at = None
    if advice.check_in and story.checks < CHECKS and scene.batch is not None:
        local = scene.case.local
        check_at, waits = look_again(local, advice, scene.case.cooperative.routine_at)
        if waits:
            watch = NIGHT_WATCH.get(cause, "watch_else")
            night = ((say(watch, look=local + advice.check_in, at=check_at),),)
        else:
            after = (maybe("after_at", at=check_at),)
    writes = keep(scene.batch, story, cause=cause, action=advice.key, check_at=check_at)
    lines = (*_taken(scene), *before, say(advice.key), *after)
    return Decision(lines, writes, None, why, referred=advice.key in REFERS, more=night)


def _all_tried(scene: Scene, weighed: Weighed, cause: str) -> Decision:
    writes = keep(scene.batch, scene.story, cause=cause)
    tell = _tell(scene, f"{cause} is not better after all we know to try")
    lines = (*_taken(scene), say("all_tried"))
    return Decision(lines, (*writes, tell), None, scene.why(weighed, cause))


def _tell(scene: Scene, reason: str) -> Write:
    seen = ", ".join(scene.story.signals) or "no signs told"
    return TellAdviser("worse", f"{reason} ({seen})", scene.batch.id if scene.batch else None)


def _taken(scene: Scene) -> tuple[Line, ...]:
    """What an answer to our question was taken for."""
    taken = scene.heard.taken
    if taken is None:
        return ()
    how, sign = taken
    return (maybe(f"taken_{how}", sign=sign),) if sign else (maybe(f"taken_{how}"),)


def _without_hour(lines: tuple[Line, ...]) -> tuple[Line, ...]:
    """The lines but for when we look again, where something else needs the room."""
    return tuple(line for line in lines if not line.key.startswith("after_"))


# Checking back


def _checked(scene: Scene, worked: str) -> Decision:
    """Better: kept on, or closed when we had looked. Same or worse: what comes next."""
    if worked == "better":
        other = _second_trouble(scene)
        if other is not None:
            return _advise(*other)
        over = scene.story.checks > 0 or scene.story.complaint_id is None
        writes = close(scene.batch) if over else ()
        key = "better_air" if scene.story.cause == "fumes" else "better"
        return Decision((*_taken(scene), say(key)), writes, None, Why(cause=COMFORTABLE))
    if scene.story.cause == "fumes":
        return _still_bad_air(scene, worked)
    if smothering(scene.story.signals, scene.circumstances):
        return _advise_again(scene, worked)
    cause = scene.story.cause
    if cause is None:
        return _behaviour(scene, _taken(scene), Why(cause=UNCLEAR))
    scene = replace(scene, story=scene.story.marked(f"worked:{cause}:{worked}"))
    told = _next(scene, cause)
    worse = sum(answer == "worse" for _, answer in scene.story.worked)
    if worse < WORSE_TELLS and scene.story.checks < CHECKS:
        return told
    tell = _tell(scene, f"{cause} is {worked} after {len(scene.story.worked)} tries")
    lines = _without_hour(told.lines)
    if all(line.key not in SAY_ADVISER for line in lines):
        lines = (*lines, maybe("to_adviser"))
    return replace(told, lines=lines, writes=(*told.writes, tell))


def _second_trouble(scene: Scene) -> tuple[Scene, Weighed, str] | None:
    """What is left once the signs of the cause that was treated are gone: another cause that they
    name, where it was not treated yet."""
    cause = scene.story.cause
    if cause is None or scene.heard.signals:
        return None
    gone = speaking(cause, scene.evidence, scene.handbook.causes)
    left = tuple(one for one in scene.story.signals if one not in gone)
    rest = replace(scene, story=replace(scene.story, signals=left), verdict=None)
    weighed = rest.weigh()
    known = weighed.top in (cause, COMFORTABLE) or f"advice:{weighed.top}" in scene.story.asked
    return None if known or not left or not weighed.sure else (rest, weighed, weighed.top)


def _still_bad_air(scene: Scene, worked: str) -> Decision:
    """The air is no better: people out is said again in full, whatever else was tried."""
    at = scene.case.now + AIR_AGAIN
    writes = keep(scene.batch, scene.story, cause="fumes", check_at=at)
    tell = _tell(scene, f"bad air is {worked}")
    why = Why(cause="fumes")
    return Decision((say("danger_fumes"),), (*writes, tell), None, why, referred=True)


def _advise_again(scene: Scene, worked: str) -> Decision:
    """Still piled up: hands first, whatever else was tried."""
    again = replace(scene.story, tried=tuple(one for one in scene.story.tried if one != SMOTHER))
    scene = replace(scene, story=again.marked(f"worked:cold:{worked}"))
    told = _advise(scene, scene.weigh(), "cold")
    if scene.story.checks < CHECKS and worked == "same":
        return told
    tell = _tell(scene, "they still pile up and may smother")
    return replace(told, writes=(*told.writes, tell))


def _next(scene: Scene, cause: str) -> Decision:
    """The next action while the cause still leads, else the next cause, or a question."""
    weighed = scene.weigh()
    left = _left(scene, cause)
    if weighed.top == cause and left is not None:
        return _advice(scene, weighed, cause, left)
    if weighed.sure and weighed.top not in (COMFORTABLE, cause):
        return _advise(scene, weighed, weighed.top)
    if weighed.top == cause:
        return _all_tried(scene, weighed, cause)
    return _ask(scene, weighed)


# Readings alone


def _bare_reading(scene: Scene, value_c: float) -> Decision:
    """A figure and nothing else: right, far off, or between (then: where does it hang?)."""
    weighed = scene.weigh()
    if scene.heat == "watch" and not scene.story.tried:
        return Decision((say("heat_watch", c=value_c),), (), None, Why(cause=COMFORTABLE))
    judged = scene.verdict or "right"
    if judged == "right":
        return _right(scene, value_c)
    cause = SIDES[judged]
    shown = () if scene.heard.hang else (say("temp_is", c=value_c),)
    if scene.story.hang == "no":
        lines = (*_taken(scene), say("hang_there"))
        return _behaviour(scene, lines, Why(cause=UNCLEAR))
    if judged in ("below", "above") and scene.story.hang is None:
        return _ask_where_it_hangs(scene, shown, scene.why(weighed, UNCLEAR))
    return _advise(scene, weighed, cause, *shown)


def _right(scene: Scene, value_c: float) -> Decision:
    """The reading is right. After an action the chicks have the last word."""
    age = scene.circumstances.age
    right = say("temp_good", c=value_c)
    if age is not None and age <= LAST_SPOT_AGE:
        right = say("temp_right", c=value_c, day=age + 1)
    why = Why(cause=COMFORTABLE, because=("temperature",))
    if scene.story.tried:
        return _behaviour(scene, (right,), why)
    return Decision((right,), (), None, why)


def _humid(scene: Scene, rh_pct: float) -> Decision:
    """Humidity alone: dry air or wet litter; between, good."""
    shown = say("humid_is", rh=rh_pct)
    if rh_pct < DRY_PCT:
        return Decision((shown, say("humid_dry")), why=Why(cause=UNCLEAR))
    if rh_pct > WET_PCT and not scene.story.signals:
        question = menu("litter", "ask_litter", LITTER, "litter")
        return _asking(scene, question, (shown,), Why(cause=UNCLEAR))
    if scene.story.signals and scene.heard.signals:
        return _weighed(scene)
    return Decision((shown, say("humid_good")), why=Why(cause=COMFORTABLE))

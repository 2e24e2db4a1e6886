"""What a farmer has told us of one trouble so far: gathered over several texts.

In: the case, a meaning, the open question. Out: `Heard` (this text, with the answer to our question
in it) and `Story` (everything so far). Called by `decide.observe` and `decide.danger`.

A story lives in the batch's open complaint; without a batch it travels in the question (about).
`asked` holds the names of the questions put and, between them, marks of what followed:
"look:<moment>" (when the farmer is to look again), "advice:<cause>",
"worked:<cause>:<same or worse>", "hang:<yes or no>", "unsure", "how:<question>" (it was said how to
look), "poisoned" (people or birds lay in bad air), "people:<ill, well ...>" (how people were then),
"worried" (a worry was told that we did not read).
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from bot.diagnosis.question import BEHAVIOUR, LITTER_SIGNS, SIGN
from bot.diagnosis.weigh import Circumstances
from bot.facts.farm import Batch, Case, Event, OpenQuestion
from bot.facts.talk import Intent, Meaning
from bot.handbook.shape_causes import Causes

STALE = timedelta(hours=36)
LATELY = timedelta(hours=6)
GUESS = 0.5  # so sure is a meaning that rests on likeness
CHECK = "check_back"
HANG = "hang"
WORKED = ("better", "same", "worse")
QUESTION = ("behaviour", "litter")
WAKE, WAKES = "wake", ("down", "few", "up")  # when somebody claps at the door
OF_WAKING = ("at_edges_or_walls", "drinking_more")  # the wall was knocked on, they run to drink
DOWN, UP = "sleepy_all_birds", "gets_up"
UNSURE = "unsure"
HOW = "how:"  # the same question again, with how to look
POISONED = "poisoned"
PEOPLE_MARK = "people:"  # how the people were, as last told: "people:ill", "people:well", ...
# What a weak bird shows in the hand: asked before illness is named.
ONE_LOOK, ONE_LOOKS = "one_look", ("look_vent", "look_navel", "look_leg", "look_none")
GROWN_LOOKS = ("look_blood", "look_vent", "look_leg", "look_none")
LOOK_SIGNS = {
    "look_blood": "bloody_droppings",
    "look_vent": "pasty_vent",
    "look_navel": "navel_wet",
    "look_leg": "limping_or_down",
}
LOOK_AT = "look:"
# Where they huddle although something was done: what is wrong at that spot?
SPOT, SPOTS = "cold_spot", ("spot_wet", "spot_out", "spot_wind", "spot_none")
SPOT_SIGNS = {"spot_wet": "litter_wet", "spot_out": "stove_out", "spot_wind": "rain_or_wind_in"}
# What may have killed them, beside illness: asked behind an alarm on deaths.
DEAD, DEADS = "dead_look", ("dead_bitten", "dead_feed", "dead_heap", "dead_whole")
RATS = "rats_or_predator"
PECKED = "cannibalism_or_pecking"
WARM = {"panting", "wings_spread", "away_from_heat"}
HUDDLED = {"piled_near_heat", "crowded_one_side"}
UNTOLD = {"at_edges_or_walls", "noisy_distress"}  # of either; over with what it was told beside
DULL = ("lethargic", "sleepy_all_birds", "lies_still")
FEED, SMELL = "feed_mouldy", "ammonia_smell"
TWISTED, BLOOD, SNEEZING, LAME = (
    "twisted_neck_or_paralysis",
    "bloody_droppings",
    "sneezing_or_rattle",
    "limping_or_down",
)
# One look each: does a bird that kicks get up, how many droppings are brown, do they rattle, what
# do they stand on?
FIT = "fit"
BROWN_LOOK, BROWNS = "brown", ("brown_few", "brown_red", "brown_most")
SNEEZE, SNEEZES = "sneeze", ("sneeze_few", "sneeze_ill")
FEED_LOOK = "feed_look"
FEED_LOOKS = ("feed_bad", "feed_big", "feed_fresh", "feed_good")
LEGS, LEGS_ON = "legs", ("legs_slip", "legs_lumps", "legs_dry")
LOOSE = "white_or_green_diarrhoea"
# What an answer to such a look tells, and which signs of it of many.
TELLS = {
    "brown_red": (BLOOD,),
    "brown_most": (LOOSE,),
    "sneeze_ill": (SNEEZING, "lethargic"),
    "legs_lumps": ("litter_caked",),
    "feed_bad": ("feed_mouldy",),
    "feed_big": ("feed_coarse",),
    "feed_fresh": ("feed_new",),
}
DENIES = {
    "brown_few": (BLOOD, LOOSE),
    "sneeze_few": ("lethargic",),
    "legs_lumps": (TWISTED,),
    "legs_dry": (TWISTED, "litter_caked"),
    "legs_slip": (TWISTED,),
    "feed_big": ("feed_mouldy",),
    "feed_fresh": ("feed_mouldy", "feed_coarse"),
    "feed_good": ("feed_mouldy", "feed_coarse"),
}
# They are spread, and what worried the farmer was not understood: what is it about, and which sign
# of illness is there?
WORRIED = "worried"
WHAT, WHATS = "what", ("what_litter", "what_feed", "what_water", "what_ill", "what_well")
ILL_LOOK = "ill_look"
ILL_LOOKS = ("ill_blood", "ill_loose", "ill_breath", "ill_eyes", "ill_none")
ILL_SIGNS = {
    "ill_blood": BLOOD,
    "ill_loose": LOOSE,
    "ill_breath": SNEEZING,
    "ill_eyes": "eyes_swollen_or_closed",
}
NEW_FEED = "feed_new"
OWN_EYES, SMOKE = "own_eyes", "smoke_or_fumes"  # it is the farmer whose eyes sting
FUMES, WELL = "drowsy_people_or_birds_near_stove", "well"  # told of people: none is ill of the air
BROWN, OF_LITTER = "droppings_brown", ("litter_wet", "litter_caked", "own_eyes")
AT_HEAT, HEAP = "piled_near_heat", "heap"
DEAD_SIGNS = {"dead_bitten": RATS, "dead_feed": FEED, "dead_heap": HEAP}
# The sign that an answer tells by itself, and those that "none of these" denies.
SIGN_OF = {
    **SPOT_SIGNS,
    **DEAD_SIGNS,
    **LOOK_SIGNS,
    **ILL_SIGNS,
    **LITTER_SIGNS,
    "what_litter": "litter_wet",
}
NONE_OF = {
    ONE_LOOKS[-1]: LOOK_SIGNS,
    DEADS[-1]: DEAD_SIGNS,
    SPOTS[-1]: SPOT_SIGNS,
    ILL_LOOKS[-1]: ILL_SIGNS,
}
ONE_SIDE, HERE_AND_THERE = "crowded_one_side", "here_and_there"
ONLY_SEEN = ("gets_up", "others_well")  # good news that is not told is no bad news
UNASKED = (UNSURE, POISONED, WORRIED)  # marks that are no question
REACH, EDGE = "feed_out_of_reach", "at_edges_or_walls"
# Our questions ask these "of many"; smoke is asked for together with a sore head or eyes.
ASKED_OF_MANY = (
    "lethargic",
    "sneezing_or_rattle",
    "white_or_green_diarrhoea",
    "eyes_swollen_or_closed",
    "smoke_or_fumes",
)


@dataclass(frozen=True, slots=True)
class Heard:
    """One text. worked: better, same or worse. hang: whether the thermometer hangs at chick height
    ("yes" or "no"). taken: what an answer was taken for: ("yes", sign), ("no", sign),
    ("sign", sign), ("dry", ""), ("better", "") ...; None where no question of ours was answered.
    unsure: the farmer can't tell what we asked."""

    signals: tuple[str, ...] = ()
    not_signals: tuple[str, ...] = ()
    many: tuple[str, ...] = ()
    worked: str | None = None
    hang: str | None = None
    taken: tuple[str, str] | None = None
    unsure: bool = False


def _guessed(meaning: Meaning) -> bool:
    """Whether the signs rest on likeness and not on words that we know."""
    return meaning.intent is Intent.OBSERVE and meaning.confidence <= GUESS


def not_by_guess(heard: Heard, meaning: Meaning, story: Story, causes: Causes) -> Heard:
    """A calm that is only guessed takes back nothing that was told in plain words."""
    if not _guessed(meaning):
        return heard
    kept = tuple(
        one
        for one in heard.signals
        if one not in causes.signs
        or not causes.signs[one].calm
        or not set(causes.signs[one].contradicts).intersection(story.signals)
    )
    return replace(heard, signals=kept)


def listen(meaning: Meaning, question: OpenQuestion | None) -> Heard:
    """The signs of a text, those that answer our open question included."""
    facts = meaning.facts() if not meaning.signals else (meaning,)
    heard = Heard(
        _joined(one.signals for one in (meaning, *facts)),
        _joined(one.not_signals for one in (meaning, *facts)),
        _joined(one.many for one in (meaning, *facts)),
    )
    if NEW_FEED in heard.not_signals:  # "they do not touch the new feed"
        left = tuple(one for one in heard.not_signals if one != NEW_FEED)
        heard = replace(heard, signals=_joined((heard.signals, (NEW_FEED,))), not_signals=left)
    if REACH in heard.signals:  # the edge of a feeder, not that of the brooder
        places = tuple(one for one in heard.signals if one != EDGE)
        heard = replace(heard, signals=places)
    denied = tuple(one for one in heard.not_signals if one not in ONLY_SEEN)
    if meaning.people[:1] == (WELL,) and FUMES not in denied:
        denied = (*denied, FUMES)
    heard = replace(heard, signals=_plain(heard.signals), not_signals=denied)
    answer = meaning.slots.answer
    if answer in WORKED:
        return replace(heard, worked=answer, taken=(answer, ""))
    if question is None:
        return heard
    if answer is None:
        return _in_words(heard, question.name)
    for one in answer.split("+"):
        heard = _answered(heard, question.name, one)
    return heard


def _joined(lists: Iterable[Iterable[str]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one for found in lists for one in found))


def _plain(signals: tuple[str, ...]) -> tuple[str, ...]:
    """One thing told in two ways counts once: air that stings the farmer's eyes is sharp, a bad
    smell beside brown droppings is theirs, a heap at the heat is one heap; at one side it may be
    the heat or the wind that they seek or flee."""
    if OWN_EYES in signals and SMOKE not in signals:
        signals = _joined((signals, (SMELL,)))
    if BROWN in signals and not set(OF_LITTER).intersection(signals):
        signals = tuple(one for one in signals if one != SMELL)
    if ONE_SIDE in signals and HERE_AND_THERE not in signals:
        signals = _instead(signals, AT_HEAT, HEAP)
    return tuple(one for one in signals if one != HEAP or AT_HEAT not in signals)


def _in_words(heard: Heard, name: str) -> Heard:
    """An answer in words: a standing menu's digit arrives as a sign, and is said back; a smell is
    of what we asked to smell, wounds of the dead are bites; that they are not dull tells that they
    get up."""
    if name in QUESTION and len(heard.signals) == 1:
        return replace(heard, taken=("sign", heard.signals[0]))
    if name == f"{SIGN}{FEED}":
        return replace(heard, signals=_instead(heard.signals, SMELL, FEED))
    if name == DEAD:
        return replace(heard, signals=_instead(heard.signals, PECKED, RATS))
    if name == FIT and UP in heard.signals and TWISTED not in heard.signals:
        return _fits(heard, "yes")
    if name == WAKE and not heard.signals and set(heard.not_signals).intersection(DULL):
        return _wakes(heard, "up")
    if name == WAKE and UP in heard.signals and not set(DULL).intersection(heard.signals):
        return _wakes(heard, "up")
    return heard


def _instead(signals: tuple[str, ...], old: str, new: str) -> tuple[str, ...]:
    return _joined((tuple(new if one == old else one for one in signals),))


def _fits(heard: Heard, answer: str) -> Heard:
    """A bird that kicks on its side: it gets up by itself, or it does not."""
    if answer == "no":
        return replace(heard, signals=_joined((heard.signals, (TWISTED,))))
    denied = _joined((heard.not_signals, (TWISTED,)))
    signals = tuple(one for one in heard.signals if one not in (TWISTED, LAME))
    return replace(heard, signals=_joined((signals, (UP,))), not_signals=denied)


def _wakes(heard: Heard, answer: str) -> Heard:
    """What they do when somebody claps: most stay down, a few do, all get up."""
    if answer == "down":
        return _with_sign(heard, DOWN)
    if answer == "few":
        return replace(heard, signals=_joined((heard.signals, (DULL[0],))))
    denied = _joined((heard.not_signals, DULL))
    over = (*DULL, *OF_WAKING)
    signals = (*(one for one in heard.signals if one not in over), UP)
    return replace(heard, signals=_joined((signals,)), not_signals=denied)


def _answered(heard: Heard, name: str, answer: str) -> Heard:
    if answer == UNSURE:
        return replace(heard, unsure=not (heard.signals or heard.not_signals))
    if name == WAKE and answer in WAKES:
        return _wakes(heard, answer)
    if name == FIT and answer in ("yes", "no"):
        return _fits(heard, answer)
    if answer in TELLS or answer in DENIES:
        told = TELLS.get(answer, ())
        return replace(
            heard,
            signals=_joined((heard.signals, told)),
            many=_joined((heard.many, told)),
            not_signals=_joined((heard.not_signals, DENIES.get(answer, ()))),
        )
    if answer in SIGN_OF:
        return _with_sign(heard, SIGN_OF[answer])
    if answer in NONE_OF:
        denied = _joined((heard.not_signals, NONE_OF[answer].values()))
        return replace(heard, not_signals=denied)
    if name.startswith(SIGN) and answer in ("yes", "no"):
        return _yes_or_no(heard, name.removeprefix(SIGN), answer)
    if name == HANG and answer in ("yes", "no"):
        return replace(heard, hang=answer, taken=(f"hang_{answer}", ""))
    if answer == "dry":
        dry = _joined((heard.not_signals, ("litter_wet", "litter_caked")))
        return replace(heard, not_signals=dry, taken=("dry", ""))
    if answer in BEHAVIOUR:
        return _with_sign(heard, answer)
    return heard


def _with_sign(heard: Heard, sign: str) -> Heard:
    return replace(heard, signals=_joined((heard.signals, (sign,))), taken=("sign", sign))


def _yes_or_no(heard: Heard, sign: str, answer: str) -> Heard:
    """A plain yes or no, unless the words beside it say otherwise."""
    if sign == FEED:
        heard = replace(heard, signals=_instead(heard.signals, SMELL, FEED))
    if answer == "yes" and sign not in heard.not_signals:
        many = (sign,) if sign in ASKED_OF_MANY else ()
        return replace(
            heard,
            signals=_joined((heard.signals, (sign,))),
            many=_joined((heard.many, many)),
            taken=("yes", sign),
        )
    if answer == "no" and sign not in heard.signals:
        return replace(heard, not_signals=_joined((heard.not_signals, (sign,))), taken=("no", sign))
    return heard


@dataclass(frozen=True, slots=True)
class Story:
    """All that was said of one trouble. complaint_id: None while nothing is kept. checks: how many
    check-backs went out. cause: what was named last."""

    signals: tuple[str, ...] = ()
    not_signals: tuple[str, ...] = ()
    asked: tuple[str, ...] = ()
    tried: tuple[str, ...] = ()
    cause: str | None = None
    checks: int = 0
    complaint_id: int | None = None

    def marked(self, *marks: str) -> Story:
        """The same story with questions or marks added."""
        return replace(self, asked=(*self.asked, *marks))

    @property
    def in_a_row(self) -> int:
        """Questions put since the last advice."""
        count = 0
        for one in reversed(self.asked):
            if one.startswith(("advice:", "worked:")):
                break
            if not one.startswith((f"{HANG}:", HOW, PEOPLE_MARK)) and one not in UNASKED:
                count += 1
        return count

    @property
    def worked(self) -> tuple[tuple[str, str], ...]:
        """(cause treated, "same" or "worse"), in order."""
        marks = [one.split(":") for one in self.asked if one.startswith("worked:")]
        return tuple((one[1], one[2]) for one in marks)

    @property
    def look_at(self) -> datetime | None:
        """When the farmer was to look whether the last action helped (aware, UTC); None where
        nothing was advised since it was last told."""
        for one in reversed(self.asked):
            if one.startswith("worked:"):
                return None
            if one.startswith(LOOK_AT):
                return datetime.fromisoformat(one.removeprefix(LOOK_AT))
        return None

    @property
    def hang(self) -> str | None:
        """Whether the thermometer hangs at chick height, as last said: "yes", "no" or None."""
        said = [one for one in self.asked if one in (f"{HANG}:yes", f"{HANG}:no")]
        return said[-1].removeprefix(f"{HANG}:") if said else None

    def carried(self) -> Mapping[str, str]:
        """The story as plain strings, for a question that has no complaint to stand in."""
        lists = {"signals": self.signals, "not": self.not_signals, "asked": self.asked}
        return {name: ",".join(found) for name, found in lists.items() if found}


def story_of(case: Case, batch: Batch | None) -> Story:
    """What is known of the trouble at hand. A complaint older than a day and a half is over."""
    complaint = batch.complaint if batch else None
    if complaint is not None and case.now - complaint.opened_at < STALE:
        return Story(
            complaint.signals,
            complaint.not_signals,
            complaint.asked,
            complaint.tried,
            complaint.cause,
            complaint.checks,
            complaint.id,
        )
    if batch is None and case.question is not None:
        about = case.question.about
        return Story(
            _list(about.get("signals")), _list(about.get("not")), _list(about.get("asked"))
        )
    return Story()


def denied_lately(batch: Batch | None, now: datetime, sign: str) -> bool:
    """Whether a sign was said to be absent in the last hours, in whichever trouble."""
    found = batch.live_events("observed") if batch else ()
    lately = [one for one in found if now - one.at <= LATELY]
    return any(sign in _denied(one) for one in lately)


def _denied(event: Event) -> Collection[object]:
    told = event.values.get("not_signals")
    return told if isinstance(told, list | tuple) else ()


def _list(joined: str | None) -> tuple[str, ...]:
    return tuple(joined.split(",")) if joined else ()


def with_heard(story: Story, heard: Heard, causes: Causes) -> Story:
    """The story after one more text: what was said last takes back what it contradicts. Two
    troubles of one text both stand: some here, some there."""
    signals, denied = list(story.signals), list(story.not_signals)
    for sign in heard.signals:
        gone = causes.signs[sign].contradicts if sign in causes.signs else ()
        gone = tuple(one for one in gone if one not in heard.signals or _calm(sign, one, causes))
        signals = [one for one in signals if one not in gone and one != sign]
        signals.append(sign)
        denied = [one for one in denied if one != sign]
    for sign in heard.not_signals:
        signals = [one for one in signals if one != sign]
        if sign not in denied:
            denied.append(sign)
    told = replace(story, signals=tuple(signals), not_signals=tuple(denied))
    return told.marked(f"{HANG}:{heard.hang}") if heard.hang else told


def _calm(sign: str, other: str, causes: Causes) -> bool:
    return any(causes.signs[one].calm for one in (sign, other))


def past_the_mark(story: Story, heard: Heard) -> Story:
    """What is told after an action against heat or cold shows the other: the old signs are over,
    and what was done is no longer waited for."""
    for cause, over, other in (("hot", WARM, HUDDLED), ("cold", HUDDLED, WARM)):
        told = set(heard.signals)
        if story.cause == cause and story.tried and told & other and not told & over:
            left = tuple(one for one in story.signals if one not in (over | UNTOLD - told))
            return replace(story, signals=left, cause=None)
    return story


def circumstances_of(case: Case, batch: Batch | None) -> Circumstances:
    """Age, hour, house and heat of a batch; brooder and charcoal until it was said otherwise."""
    hour = case.local.hour
    if batch is None:
        return Circumstances(None, hour)
    age = batch.age(case.today)
    house = "open" if batch.moved_on is not None and batch.moved_on <= case.today else batch.house
    return Circumstances(
        None if age is None or age < -1 else max(0, age),
        hour,
        house,
        batch.heat or ("charcoal",),
        None if not batch.heat_count else "one" if batch.heat_count == 1 else "many",
    )

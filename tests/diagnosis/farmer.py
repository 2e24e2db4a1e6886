"""A farmer beside the brooder: sees part of it, errs in one statement of ten, skips one in five,
and words it as the examples of the languages do. Holds whole complaints with the real reader and
the real turn, and counts what came of them.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from random import Random

from bot.diagnosis.question import BEHAVIOUR, LITTER_SIGNS
from bot.diagnosis.story import ILL_SIGNS
from bot.diagnosis.weigh import Circumstances, Evidence, weigh
from bot.facts.talk import Decision
from bot.handbook.shape_causes import Cause, Causes, Chance
from bot.handbook.words import EXAMPLE_CONTEXT, load_examples
from bot.wiring import Thinking
from tests.diagnosis.brooder import (
    PLANTED,
    UNDER,
    Brooder,
    carry_out,
    holding,
    planted,
    showing,
)
from tests.diagnosis.talking import CONTENT, Farm

ERRS, SKIPS = 0.10, 0.20
THERMOMETER, HANGS_RIGHT = 0.3, 0.75  # shares of the farms
# What is mistaken for what.
MILD = ("noisy_distress", "drinking_less", "feathers_ruffled", "uneven_size", "litter_caked")
LANGUAGES = ("en", "fr", "sw")
HOURS = (7, 9, 13, 17)
MOST_QUESTIONS = 6
# What a worry is about, by what is seen, the first that holds.
WORRIES = (
    ("what_ill", set(ILL_SIGNS.values())),
    ("what_litter", {"litter_wet", "litter_caked"}),
    ("what_feed", {"feed_mouldy", "not_eating", "crop_empty", "feed_finished"}),
    ("what_water", {"not_drinking", "drinking_less"}),
)
BAND_C = 1.5  # within this of the line the air is right (practice.md)

Words = Mapping[str, Sequence[tuple[str, str]]]


@cache
def words() -> Words:
    """For each sign the texts of the examples that tell of it and of nothing else: (language,
    text)."""
    found: dict[str, list[tuple[str, str]]] = defaultdict(list)
    for language in LANGUAGES:
        for one in load_examples(CONTENT / "languages" / language):
            alone = len(one.signals) == 1 and not (one.not_signals or one.red_flag or one.slots)
            if alone and one.intent == "observe" and dict(one.context) == dict(EXAMPLE_CONTEXT):
                found[one.signals[0]].append((language, one.text))
    return found


@dataclass
class Farmer:
    """Someone who looks at a brooder. `sees` is what could be seen at this moment."""

    state: Brooder
    chance: Random
    language: str

    def __post_init__(self) -> None:
        self.sees = showing(self.state, self.chance)
        self.hangs_right = self.chance.random() < HANGS_RIGHT
        self.reading: float | None = None
        if self.chance.random() < THERMOMETER:
            wrong = 0.0 if self.hangs_right else self.chance.choice((-5.0, 5.0))
            beside = self.state.air_c + UNDER + wrong
            self.reading = round(beside + self.chance.gauss(0, 0.5), 1)

    def first_text(self, told: Sequence[str]) -> str:
        """What is texted first, with the thermometer where there is one."""
        parts = [self.worded(sign) for sign in told]
        return ", ".join([*parts, f"{self.reading:g} C"] if self.reading is not None else parts)

    def worded(self, sign: str) -> str:
        """The sign in this farmer's language, or in any where the language has no example of it."""
        own = [text for language, text in words()[sign] if language == self.language]
        return self.chance.choice(own or [text for _, text in words()[sign]])

    def first(self) -> tuple[str, ...]:
        """The signs of the first text: at most two of what is wrong, some skipped, some wrong."""
        troubles = sorted(self.sees - {"spread_evenly", "quiet_content"})
        pool = troubles or sorted(self.sees)
        kept = [sign for sign in pool if self.chance.random() > SKIPS] or [self.chance.choice(pool)]
        chosen = self.chance.sample(kept, min(2, len(kept)))
        return tuple(dict.fromkeys(map(self.mistaken, chosen)))

    def mistaken(self, sign: str) -> str:
        if self.chance.random() >= ERRS:
            return sign
        if sign in BEHAVIOUR:
            return self.chance.choice([one for one in BEHAVIOUR if one != sign])
        return self.chance.choice(MILD)

    def skips(self) -> str | None:
        """Another sign told instead of an answer, one time in five, where there is one."""
        others = sorted(self.sees - {"spread_evenly", "quiet_content"})
        return self.chance.choice(others) if others and self.chance.random() < SKIPS else None

    def option(self, name: str, options: Sequence[str], errs: float = ERRS) -> str:
        """The answer to a question of ours; one in ten is wrong."""
        if self.chance.random() < errs:
            return self.chance.choice(options)
        if name == "hang":
            return "yes" if self.hangs_right else "no"
        if name == "behaviour":
            return next(one for one in options if one in self.sees)
        if name == "wake":
            down = "down" if "sleepy_all_birds" in self.sees else "few"
            return "up" if self.sees.isdisjoint(("lethargic", "sleepy_all_birds")) else down
        if name == "one_look":
            return "look_none"
        if name == "sneeze":
            return "sneeze_ill" if "lethargic" in self.sees else "sneeze_few"
        if name == "brown":
            return "brown_few"
        if name == "feed_look":
            return "feed_bad" if "feed_mouldy" in self.sees else "feed_good"
        if name == "what":
            return next((one for one, signs in WORRIES if self.sees & signs), "what_well")
        if name == "ill_look":
            return next((one for one, sign in ILL_SIGNS.items() if sign in self.sees), "ill_none")
        if name == "litter":
            seen = ("smells", "wet", "caked")
            return next((one for one in seen if LITTER_SIGNS[one] in self.sees), "dry")
        if name == "sign:feed_out_of_reach":
            name = "sign:feed_finished"
        return "yes" if name.removeprefix("sign:") in self.sees else "no"

    def reply(self, found: Decision) -> str:
        """What is texted to a question: a digit, or something else that is seen."""
        assert found.question is not None
        other = self.skips()
        if other is not None:
            return self.worded(other)
        options = found.question.options
        return str(options.index(self.option(found.question.name, options)) + 1)


@dataclass(frozen=True)
class Complaint:
    """One complaint played. named: the first cause named, None for none. exact: what exact
    inference says with every question answered, as wrongly as the farmer answers; informed: the
    same with every answer true. worst_min: the longest that an action left the air
    further from right than before without our asking [minutes]. in_a_row: the most questions
    without an action between them."""

    truth: str
    holding: frozenset[str]
    named: str | None
    questions: int
    exact: str
    informed: str
    worst_min: int
    in_a_row: int

    @property
    def right(self) -> bool:
        return self.named in self.holding


def play(truth: str, chance: Random, thinking: Thinking) -> Complaint:
    """One complaint from the first text to the first cause named, and what its action does."""
    state = planted(truth, chance)
    farmer = Farmer(state, chance, chance.choice(LANGUAGES))
    hour = chance.choice(HOURS)
    farm = Farm(
        state.age,
        heat=(state.heat,),
        hour=hour,
        language=farmer.language,
        book=thinking.handbook,
    )
    held, told = frozenset(holding(state)), farmer.first()
    causes = thinking.handbook.causes
    exact = all_answered(farmer, told, hour, causes, ERRS)
    informed = all_answered(farmer, told, hour, causes, 0.0)
    found = farm.text(farmer.first_text(told), thinking.reader)
    asked = run = longest = 0
    while looks(found) and asked < MOST_QUESTIONS:
        asked += 1
        behind = found.why is not None and found.why.cause in causes.causes  # an action
        run = 1 if behind else run + 1
        longest = max(longest, run)
        found = farm.text(farmer.reply(found), thinking.reader)
    named = found.why.cause if found.why else None
    worst = unasked_minutes(state, farm)
    return Complaint(truth, held, named, asked, exact, informed, worst, longest)


def looks(found: Decision) -> bool:
    """Whether it asks what is to be seen; other questions belong to other words of the text."""
    name = found.question.name if found.question else ""
    asked = ("hang", "behaviour", "litter", "wake", "one_look", "sneeze", "brown", "feed_look")
    return name in asked or name.startswith("sign:")


def all_answered(
    farmer: Farmer, told: tuple[str, ...], hour: int, causes: Causes, errs: float
) -> str:
    """The likeliest cause by the engine's own tables once every question of ours is answered, so
    many of them wrongly."""
    yes, no = list(told), list[str]()
    for code, sign in causes.signs.items():
        if sign.ask and code not in yes:
            answer = farmer.option(f"sign:{code}", ("yes", "no"), errs)
            (yes if answer == "yes" else no).append(code)
    if not set(yes).intersection(BEHAVIOUR):
        yes.append(farmer.option("behaviour", BEHAVIOUR, errs))
    litter = farmer.option("litter", ("dry", *LITTER_SIGNS), errs)
    yes += [LITTER_SIGNS[litter]] if litter in LITTER_SIGNS else []
    no += ["litter_wet", "litter_caked"] if litter == "dry" else []
    here = Circumstances(farmer.state.age, hour, "brooder", (farmer.state.heat,))
    signals = tuple(dict.fromkeys(yes))
    denied = tuple(one for one in no if one not in signals)
    return weigh(Evidence(signals, denied, here), causes).ranked[0][0]


def unasked_minutes(state: Brooder, farm: Farm) -> int:
    """The longest stretch after the advised action in which the air was out of the band, further
    from right than before, and we had not asked again."""
    complaint = farm.complaint
    if complaint is None or not complaint.tried or complaint.check_at is None:
        return 0
    before, away, worst = max(abs(state.off_c), BAND_C), 0, 0
    for action in complaint.tried:
        carry_out(state, action)
    for _ in range(int((complaint.check_at - farm.case.now).total_seconds() // 60)):
        state.minute()
        away = away + 1 if abs(state.off_c) > before + 1e-6 else 0
        worst = max(worst, away)
    return worst


def season(number: int, seed: int, thinking: Thinking) -> list[Complaint]:
    """Many complaints, each with a chance of its own, so that one can be played again alone."""
    causes = [cause for cause, _ in PLANTED]
    weights = [weight for _, weight in PLANTED]
    drawn = Random(seed).choices(causes, weights, k=number)
    return [play(truth, Random(f"{seed}:{at}"), thinking) for at, truth in enumerate(drawn)]


def confusion(played: Sequence[Complaint]) -> Counter[tuple[str, str]]:
    """How often each truth was named what."""
    return Counter((one.truth, one.named or "none") for one in played)


def flattened(causes: Causes, by: float) -> Causes:
    """Every figure moved towards what the sign is without a cause, by a share."""

    def flat(cause: Cause) -> Cause:
        signs = {
            code: Chance(
                base + (1 - by) * (chance.otherwise - base),
                {when: base + (1 - by) * (one - base) for when, one in chance.when.items()},
            )
            for code, chance in cause.signs.items()
            for base in (causes.signs[code].base,)
        }
        return replace(cause, signs=signs)

    return replace(causes, causes={code: flat(one) for code, one in causes.causes.items()})

"""A small brooder of its own: heat, air and litter as plain physics-like state, chicks placed by
warmth and draught, and a farmer who sees part of it. It shares no table with content/; its figures
are invented for the test."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from random import Random

from bot.facts.talk import Decision
from bot.handbook.shapes import Handbook
from tests.diagnosis.talking import Farm, answers, seen

TROUBLES = (
    ("cold", 18),
    ("hot", 16),
    ("draught", 9),
    ("uneven_heat", 5),
    ("damp_litter", 11),
    ("ammonia", 8),
    ("thirst", 6),
    ("hunger", 7),
    ("crowding", 4),
    ("fumes", 3),
    ("sick", 8),
    ("predator", 2),
    ("feed_problem", 3),
    ("comfortable", 12),
)
ERRS, SKIPS = 0.10, 0.20
MILD = ("noisy_distress", "drinking_less", "feathers_ruffled", "uneven_size", "litter_caked")


@dataclass
class Brooder:
    """off_c: warmth at chick height against what they need. wind: metres a second on them.
    lean: how much warmer one side is [C]. wet: litter moisture [0-1]. sharp: ammonia [ppm].
    dry_h, empty_h: hours without water or feed in reach. mould, smoke, ill: shares 0-1. dense:
    birds against the room they need. tracks: of animals."""

    off_c: float = 0.0
    wind: float = 0.05
    lean: float = 0.5
    wet: float = 0.25
    sharp: float = 4.0
    dry_h: float = 0.0
    empty_h: float = 0.0
    mould: float = 0.0
    dense: float = 0.7
    smoke: float = 0.0
    ill: float = 0.0
    tracks: bool = False


def troubled(cause: str, chance: Random) -> Brooder:
    """A brooder with one thing wrong; the rest varies a little."""
    made = Brooder(off_c=chance.gauss(0, 0.7), wet=chance.uniform(0.15, 0.4))
    if cause == "cold":
        made.off_c = chance.uniform(-9, -4)
    elif cause == "hot":
        made.off_c = chance.uniform(4, 8)
    elif cause == "draught":
        made.wind = chance.uniform(0.5, 1.5)
    elif cause == "uneven_heat":
        made.lean = chance.uniform(5, 9)
    elif cause == "damp_litter":
        made.wet = chance.uniform(0.6, 0.9)
    elif cause == "ammonia":
        made.wet, made.sharp = chance.uniform(0.35, 0.6), chance.uniform(25, 70)
    elif cause == "thirst":
        made.dry_h = chance.uniform(3, 10)
    elif cause == "hunger":
        made.empty_h = chance.uniform(4, 12)
    elif cause == "crowding":
        made.dense = chance.uniform(1.4, 2.2)
    elif cause == "fumes":
        made.smoke = chance.uniform(0.5, 1)
    elif cause == "sick":
        made.ill = chance.uniform(0.02, 0.2)
    elif cause == "predator":
        made.tracks = True
    elif cause == "feed_problem":
        made.mould = chance.uniform(0.5, 1)
    return made


def showing(state: Brooder, chance: Random) -> set[str]:
    """What could be seen by someone who looks at everything."""
    found = {_place(state, chance)}

    def maybe(sign: str, likely: float) -> None:
        if chance.random() < likely:
            found.add(sign)

    if state.off_c > 3:
        maybe("panting", 0.9)
        maybe("wings_spread", 0.6)
        maybe("drinking_more", 0.3)
    if state.off_c < -3:
        maybe("noisy_distress", 0.7)
        maybe("litter_cold", 0.4)
    if state.wind > 0.4:
        maybe("rain_or_wind_in", 0.9)
        maybe("noisy_distress", 0.3)
    if state.wet > 0.5:
        found.add("litter_wet")
        maybe("litter_caked", 0.4)
    if state.sharp > 20:
        found.add("ammonia_smell")
        maybe("eyes_swollen_or_closed", (state.sharp - 20) / 100)
    if state.dry_h > 2:
        maybe("not_drinking", 0.6)
        maybe("drinking_less", 0.7)
        maybe("noisy_distress", 0.6)
    if state.empty_h > 3:
        maybe("feed_finished", 0.6)
        maybe("crop_empty", 0.85)
        maybe("noisy_distress", 0.6)
    if state.mould > 0.4:
        found.add("feed_mouldy")
        maybe("not_eating", 0.6)
    if state.dense > 1.3:
        maybe("uneven_size", 0.6)
        maybe("cannibalism_or_pecking", 0.7)
    if state.smoke > 0.4:
        found.add("smoke_or_fumes")
        maybe("lethargic", 0.2)
    if state.ill > 0:
        maybe("lethargic", 0.7)
        maybe("white_or_green_diarrhoea", 0.5)
        maybe("sneezing_or_rattle", 0.4)
        maybe("feathers_ruffled", 0.4)
        maybe("not_eating", 0.3)
    if state.tracks:
        found.add("rats_or_predator")
    if "noisy_distress" not in found and found == {"spread_evenly"}:
        maybe("quiet_content", 0.8)
    return found


def _place(state: Brooder, chance: Random) -> str:
    """Where chicks go: to warmth, away from it, out of the wind, off the wet."""
    if state.off_c < -3:
        return "piled_near_heat"
    if state.off_c > 3:
        return "away_from_heat" if chance.random() < 0.6 else "at_edges_or_walls"
    if state.wind > 0.4 or state.lean > 4:
        return "crowded_one_side"
    if state.wet > 0.55:
        return "at_edges_or_walls" if chance.random() < 0.6 else "spread_evenly"
    return "spread_evenly"


def told_first(showing_now: set[str], chance: Random) -> tuple[str, ...]:
    """The farmer's first text: at most two signs, some skipped, some wrong."""
    troubles = sorted(showing_now - {"spread_evenly", "quiet_content"})
    pool = troubles or sorted(showing_now)
    kept = [sign for sign in pool if chance.random() > SKIPS] or [chance.choice(pool)]
    chosen = chance.sample(kept, min(2, len(kept)))
    return tuple(chance.choice(MILD) if chance.random() < ERRS / 2 else sign for sign in chosen)


def reply(found: Decision, showing_now: set[str], chance: Random) -> str:
    """The digit a farmer answers with; one in ten is wrong."""
    assert found.question is not None
    options = found.question.options
    if chance.random() < ERRS:
        return chance.choice(options)
    if found.question.name == "behaviour":
        return next(one for one in options if one in showing_now)
    if found.question.name == "litter":
        for option, sign in (
            ("smells", "ammonia_smell"), ("wet", "litter_wet"), ("caked", "litter_caked")
        ):  # fmt: skip
            if sign in showing_now:
                return option
        return "dry"
    return "yes" if found.question.name.removeprefix("sign:") in showing_now else "no"


def play(cause: str, chance: Random, book: Handbook) -> tuple[str | None, int]:
    """One complaint from the first text to the first cause named: (cause, questions asked)."""
    farm = Farm(chance.randint(1, 12), hour=chance.choice((7, 9, 13, 17)), book=book)
    showing_now = showing(troubled(cause, chance), chance)
    found = farm.tell(seen(*told_first(showing_now, chance)))
    asked = 0
    while found.question is not None and asked < 6:
        asked += 1
        found = farm.tell(answers(reply(found, showing_now, chance)))
    return (found.why.cause if found.why else None), asked


def season(
    number: int, seed: int, book: Handbook
) -> tuple[float, float, Counter[tuple[str, str | None]]]:
    """Many complaints: share named right, questions on average, the confusion table."""
    chance = Random(seed)
    causes = [cause for cause, _ in TROUBLES]
    weights = [weight for _, weight in TROUBLES]
    table: Counter[tuple[str, str | None]] = Counter()
    questions = 0
    for _ in range(number):
        truth = chance.choices(causes, weights)[0]
        named, asked = play(truth, chance, book)
        questions += asked
        table[truth, named] += 1
    right = sum(count for (truth, named), count in table.items() if truth == named)
    return right / number, questions / number, table

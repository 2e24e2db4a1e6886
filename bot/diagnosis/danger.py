"""Danger: fixed rules, no weighing. What goes to a vet, an authority or for medical help at once.

In: the signs of a text, which of them were said of many, the deaths of the day, the circumstances.
Out: a `Danger` or None; for deaths a verdict. Called by `decide.danger`. The rules are common
practice, without a source, except where a row names one.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import timedelta
from typing import Literal

from bot.diagnosis.weigh import Circumstances

# Even in one bird (T09-012, T09-013: North Dakota Department of Agriculture; chicken.vet).
NOTIFIABLE = ("twisted_neck_or_paralysis", "swollen_head")
FUMES = "drowsy_people_or_birds_near_stove"
SMOKE = "smoke_or_fumes"
UNWELL = "unwell"  # told by that word alone
# Illness counts as danger where it was said of many, most or all.
ILLNESS = (
    "gasping",
    "lethargic",
    "sneezing_or_rattle",
    "white_or_green_diarrhoea",
    "eyes_swollen_or_closed",
    "limping_or_down",
    "navel_wet",
    UNWELL,
)
RATTLE, BLOOD = "sneezing_or_rattle", "bloody_droppings"
BREATH = ("gasping", RATTLE)
DULL = "lethargic"
SILENT = ("sleepy_all_birds", DULL, "limping_or_down")
# What explains dull birds, sore eyes or sudden deaths without a notifiable disease.
HEAT_SIGNS = ("panting", "wings_spread")
SALTY, DRINKS_ON_NEW_FEED = "feed_salty", {"feed_new", "drinking_more"}
LOOSE, DIRTY_LITTER = "white_or_green_diarrhoea", ("litter_wet", "litter_caked")
SMELL, OWN_EYES, OWN_COUGH = "ammonia_smell", "own_eyes", "own_cough"
OF_THE_AIR = ("eyes_swollen_or_closed", "sneezing_or_rattle")  # sharp air brings them as well
EXPLAINED = (
    "rats_or_predator",
    "piled_near_heat",
    "panting",
    "stove_out",
    "no_power",
    "rain_or_wind_in",
    SMOKE,
    FUMES,
)
FIRES = ("charcoal", "gas", "kerosene", "wood")
LEAST_DEAD = 3
FOR_THE_VET = ("notifiable", "deaths", "blood", "ill")  # alarms that a calm flock leaves open
TO_LOOK = "look"  # an alarm that one look settles: the air, the floor
OVER = "over"  # the kind of an alarm that takes the last one back
AIR_AGAIN = timedelta(minutes=30)  # after bad air the air is asked about again, also at night
DANGER_SHARE = 0.02
QUIET_SHARE = 0.008
UNKNOWN_DANGER = 10  # without a known count: 2 % of 500, a common size of batch
NEW_HOUSE_AGE = 14
HEAPS = ("piled_near_heat", "heap")
PILING = (*HEAPS, "crowded_one_side")
CRYING = "noisy_distress"
CHILLING = ("cold", "uneven_heat", "draught", "damp_litter")  # what makes them press together
# Told with the arrival: chill, thirst and the road, which water and warmth answer first.
FROM_THE_ROAD = ("lethargic", "eyes_swollen_or_closed", "not_eating", "limping_or_down", UNWELL)
CHILLED = ("piled_near_heat", "litter_cold", "feathers_ruffled")  # limp from the road, not ill
ON_THE_ROAD_AGE = 1  # so long limp chicks with cold feet are chilled and dry before they are ill
FIRST_WEEK = 7  # deaths before this age are mostly chick quality, chill or thirst

Kind = Literal["fumes", "notifiable", "deaths", "blood", "ill", "dull"]
Verdict = Literal["danger", "doubt", "quiet"]


@dataclass(frozen=True, slots=True)
class Danger:
    """kind: which text. people_first: people are out before birds are thought of. notifiable: the
    batch is held. because: the signs it rests on ("deaths" for a number)."""

    kind: Kind
    people_first: bool
    notifiable: bool
    because: tuple[str, ...]


def find_danger(
    signals: Collection[str],
    many: Collection[str],
    circumstances: Circumstances,
    deaths: Verdict = "quiet",
) -> Danger | None:
    """The gravest danger in a text, people before birds. None: nothing that must be told now."""
    seen = set(signals)
    if FUMES in seen or (SMOKE in seen and SMOKE in many) or _people_cough(seen, circumstances):
        told = (FUMES, SMOKE, OWN_COUGH)
        return Danger("fumes", True, False, tuple(one for one in told if one in seen))
    if _chilled(seen, circumstances):
        many = tuple(one for one in many if one not in FROM_THE_ROAD)
    if _silent_at_night(seen, set(many), circumstances):
        return Danger("fumes", True, False, tuple(one for one in SILENT if one in seen))
    found = tuple(one for one in NOTIFIABLE if one in seen) or _newcastle(seen, set(many))
    if found and OWN_EYES in seen and set(circumstances.heats).intersection(FIRES):
        return Danger("fumes", True, False, (OWN_EYES,))  # whoever enters is harmed: people first
    if found:
        return Danger("notifiable", False, True, found)
    if "sudden_many_deaths" in seen or deaths == "danger":
        return Danger("deaths", False, _unexplained(seen, circumstances), ("sudden_many_deaths",))
    if BLOOD in seen:
        return Danger("blood", False, False, (BLOOD,))
    if "sleepy_all_birds" in seen and not screaming_heap(seen):
        fire = any(heat in FIRES for heat in circumstances.heats)
        return Danger("dull", fire, False, ("sleepy_all_birds",))
    ill = _many_ill(seen, set(many))
    return Danger("ill", False, False, ill) if ill else None


def _people_cough(seen: set[str], circumstances: Circumstances) -> bool:
    """Beside a fire people's eyes burn and they cough: smoke, by whatever name."""
    fire = any(heat in FIRES for heat in circumstances.heats)
    return fire and {OWN_EYES, OWN_COUGH} <= seen


def by_heat(seen: Collection[str]) -> bool:
    """They pant, or hold their wings off; wings that hang beside illness are of it, and so are open
    beaks with a noise in the breath."""
    told = set(seen)
    if RATTLE in told:
        return False
    ill = told.intersection((*ILLNESS, BLOOD, "feathers_ruffled"))
    return "panting" in told or (bool(told.intersection(HEAT_SIGNS)) and not ill)


def _chilled(seen: set[str], circumstances: Circumstances) -> bool:
    """Limp and cold in the first hours, by no smoke: warmth and water come first. Common practice,
    no source."""
    young = circumstances.age is not None and circumstances.age <= ON_THE_ROAD_AGE
    return young and bool(seen.intersection(CHILLED)) and SMOKE not in seen


def _newcastle(seen: set[str], many: set[str]) -> tuple[str, ...]:
    """Breathing signs in many together with green or white droppings: suspect (T09-012)."""
    breath = tuple(one for one in BREATH if one in seen and one in many)
    return (*breath, LOOSE) if breath and LOOSE in seen else ()


def _unexplained(seen: set[str], circumstances: Circumstances) -> bool:
    """Whether many deaths make a notifiable disease a suspicion: past the first week, with nothing
    seen that explains them."""
    grown = circumstances.age is None or circumstances.age >= FIRST_WEEK
    return grown and not seen.intersection(EXPLAINED)


def _silent_at_night(seen: set[str], many: set[str], circumstances: Circumstances) -> bool:
    """A flock that does not wake beside a fire at night: bad air until it is known to be none, for
    people may sleep there too. Common practice, no source."""
    fire = any(heat in FIRES for heat in circumstances.heats)
    ill = seen.intersection(ILLNESS).difference(SILENT, {UNWELL})
    silent = "sleepy_all_birds" in seen or bool(many.intersection(SILENT))
    return fire and circumstances.night and silent and not ill and not screaming_heap(seen)


def _many_ill(seen: set[str], many: set[str]) -> tuple[str, ...]:
    ill = [one for one in ILLNESS if one in seen and one in many]
    if screaming_heap(seen) and set(ill) <= set(SILENT):
        return ()
    if seen.intersection(HEAT_SIGNS) and ill == [DULL]:
        return ()
    if ill == [LOOSE] and seen.intersection(DIRTY_LITTER):
        return ()  # dirt on feet and bellies is of the litter first: asked about
    if ill == [LOOSE] and (SALTY in seen or seen >= DRINKS_ON_NEW_FEED):
        return ()  # salt runs through them: the feed first
    if SMELL in seen and ill == ["eyes_swollen_or_closed"]:
        return ()
    if OWN_EYES in seen and set(ill) <= set(OF_THE_AIR):
        return ()  # what stings the farmer's eyes stings theirs: air first
    return tuple(ill)


def judge_deaths(dead: int, alive: int | None) -> Verdict:
    """Deaths of one day against the birds alive that morning. Danger at 3 or 2 %, whichever is
    more; quiet below 3 or up to 0.8 %; between them a question. alive None: the count is unknown.
    Common practice, no source."""
    if dead < LEAST_DEAD:
        return "quiet"
    if not alive:
        return "danger" if dead >= UNKNOWN_DANGER else "doubt"
    if dead >= max(LEAST_DEAD, DANGER_SHARE * alive):
        return "danger"
    return "quiet" if dead <= QUIET_SHARE * alive else "doubt"


def screaming_heap(signals: Collection[str]) -> bool:
    """They cry in a heap: those below that do not move are pressed, not ill, and no bad air makes
    them silent. Common practice, no source."""
    return CRYING in signals and any(one in signals for one in PILING)


def smothering(signals: Collection[str], circumstances: Circumstances) -> bool:
    """Piling at night in the new house, at the heat or in a corner: they smother each other.
    Urgent, but not for a vet. Those that pant want air and room, no heat."""
    grown = circumstances.age is not None and circumstances.age >= NEW_HOUSE_AGE
    here = grown and circumstances.open_house and circumstances.night
    return here and "panting" not in signals and any(one in signals for one in PILING)


def pressed(signals: Collection[str], cause: str | None, *, failed: bool) -> bool:
    """Whether they press together for want of warmth, at any age: at night those below may
    smother. failed: something was done and did not help; then crying is enough. Common practice,
    no source."""
    telling = (*PILING, CRYING) if failed else PILING
    return cause in CHILLING and any(one in signals for one in telling)

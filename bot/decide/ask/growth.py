"""Weights: at an age, when one is reached, how many to weigh; deaths that are usual. Pure; called
by `answer`."""

from __future__ import annotations

from datetime import timedelta

from bot.decide.ask.asked import Answer, Asked, tell
from bot.decide.common import say
from bot.facts.farm import Batch
from bot.facts.talk import Decision
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.forecast import Weighing, age_of_weight, forecast_weight, published_prior
from bot.husbandry.growth import HOT_STRAIN, sample_error_pct, sample_size, weight_g
from bot.husbandry.losses import expected_deaths

FEW, MANY, MANY_BIRDS = 10, 20, 500  # birds weighed together (common practice)
CLOSE_PCT = 5.0


def weighings(batch: Batch | None) -> tuple[Weighing, ...]:
    """The weights told of a batch, as the forecast takes them."""
    found = []
    for one in batch.live_events("weight") if batch else ():
        age = batch.age(one.on_date) if batch else None
        if age is not None and 1 <= age <= 49:
            single = one.values.get("weights_g")
            birds = len(single) if isinstance(single, list | tuple) and single else FEW
            found.append(Weighing(age, float(str(one.values["avg_g"])), birds))
    return tuple(found)


def weight_on(batch: Batch | None, age_days: int, h: Husbandry) -> float:
    """The likely weight [g] at an age, by the batch's weighings where there are any."""
    age = min(49, max(0, age_days))
    return forecast_weight(weighings(batch), age, published_prior(h)).value_g


def _weight(asked: Asked, h: Husbandry) -> Decision:
    if asked.age is None or asked.age < 0:
        return tell(say("on_weight"))
    known = weighings(asked.batch) if asked.slots.count is None else ()
    if known:
        found = forecast_weight(known, asked.age, published_prior(h))
        return tell(
            say(
                "weight_foretold",
                day=asked.age + 1,
                g=round(found.value_g),
                low=round(found.low_g),
                high=round(found.high_g),
            )
        )
    if asked.age < 7 or asked.age > 42:
        found = forecast_weight((), asked.age, published_prior(h))
        return tell(say("weight_usual", day=asked.age + 1, g=round(found.value_g)))
    grams = weight_g(asked.age, h, HOT_STRAIN).value_g
    return tell(say("weight_usual", day=asked.age + 1, g=round(grams)))


def _reach(asked: Asked, h: Husbandry) -> Decision:
    target = asked.slots.avg_g
    if target is None:
        return tell(say("on_weight"))
    known = weighings(asked.batch)
    found = age_of_weight(known, target, published_prior(h))
    if found.value is None or found.earliest is None:
        return tell(say("reach_never", g=round(target)))
    latest = found.latest if found.latest is not None else 49
    told = {"g": round(target), "day": found.value + 1}
    told |= {"low": found.earliest + 1, "high": latest + 1}
    if asked.batch is None or asked.batch.placed_on is None:
        return tell(say("reach_usual", **told))
    on = asked.batch.placed_on + timedelta(days=found.value)
    return tell(say("reach_by_weight" if known else "reach_guess", **told, date=on))


def _sample(asked: Asked, h: Husbandry) -> Decision:
    birds = MANY if (asked.count or 0) > MANY_BIRDS else FEW
    return tell(
        say(
            "sample_for",
            n=birds,
            pct=round(sample_error_pct(birds, h.bird_cv.value, h)),
            more=sample_size(h.bird_cv.value, CLOSE_PCT, h),
        )
    )


def _deaths(asked: Asked, h: Husbandry) -> Decision:
    if asked.count is None:
        return tell(say("on_mortality"))
    week = sum(expected_deaths(asked.count, age, h) for age in range(7))
    danger = max(3, -(-asked.count * 2 // 100))
    return tell(say("mortality_at", n=asked.count, week=max(1, round(week)), danger=danger))


FIGURES: dict[str, Answer] = {
    "weight": _weight,
    "reach": _reach,
    "sample": _sample,
    "deaths": _deaths,
}

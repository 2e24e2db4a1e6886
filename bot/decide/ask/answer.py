"""A question of the farmer's: answered with a figure for this batch where there is one.

In: ASK (or PLAN) with a figure or a topic, or NEXT. Out: one part. Called by `turn.choose`.
"""

from __future__ import annotations

from dataclasses import replace

from bot.decide.ask import feed, fuel, growth, house, money, sale
from bot.decide.ask.asked import Answer, Asked, asked_of, impossible
from bot.decide.ask.heating import heat_in_trouble, place_known
from bot.decide.common import about, answer, behaviour_menu, number, open_trouble, say
from bot.errors import OutsideRange
from bot.facts.farm import Case
from bot.facts.talk import Decision, Line, Meaning, Question, Slots
from bot.facts.writes import CloseQuestion
from bot.handbook.shapes import Handbook
from bot.husbandry.limits import MOST_BIRDS
from bot.ledger.withdrawal import may_sell

HELD_TOPICS = ("sale_age", "price", "move", "withdrawal")  # while a disease is suspected
OF_THE_DEAD = ("carcass", "mortality")
SELLING = ("sale_day", "crates", "feed_off", "catching")
AIR_TOPICS = (
    "heating",
    "fumes",
    "ventilation",
    "temperature",
    "light",
    "move",
    "biosecurity",
    "behaviour",
    "other",
)  # what may lead somebody back into bad air
HANDLING = ("weight", "move", "sale_age", "vaccination")  # of birds that pant
LAST_BROODED = 20  # days; common practice
FIGURES: dict[str, Answer] = {
    **house.FIGURES,
    **fuel.FIGURES,
    **feed.FIGURES,
    **growth.FIGURES,
    **sale.FIGURES,
    **money.FIGURES,
}
OF_BIRDS = (
    "floor",
    "ring",
    "drinkers",
    "feeders",
    "fuel_night",
    "fuel_until",
    "feed_until",
    "feed_left",
    "water",
)  # figures that nobody can count without the number of birds
_NUMBERS = ("value_c", "kg", "bags", "width_m")
KEPT = ("figure", "topic", "heat", "age_days", *_NUMBERS)
# The figure that a topic is answered with, where the text named none.
OF_TOPIC = {
    "temperature": "temperature",
    "space": "floor",
    "feed_type": "feed_type",
    "feed_amount": "feed_day",
    "water": "water",
    "drinkers": "drinkers",
    "feeders": "feeders",
    "light": "light",
    "weight": "weight",
    "mortality": "deaths",
    "withdrawal": "withdrawal",
}


def ask(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The figure asked for; general words on the topic where there is none, or where it has no
    value for this age; and where a figure of the question can't be, what is wrong with it."""
    slots = meaning.slots
    batch = case.batch
    topic = slots.topic or "other"
    figure = slots.figure or ("capacity" if slots.house_m2 and topic == "space" else None)
    if topic == "sale_age" and batch is not None and not may_sell(batch, case.today):
        figure, slots = "sale_day", replace(slots, count=None)
    if batch is not None and batch.held:
        told = _while_held(topic, figure)
        if told is not None:
            return replace(answer(told), referred=True)
    trouble = _not_now(topic, figure, case)
    if trouble is not None:
        return answer(trouble)
    if topic == "behaviour" and batch is not None and batch.state == "running":
        return Decision(question=behaviour_menu())
    if topic == "heating" and figure is None and _brooding(case):
        return _heating(case)
    if topic == "other" and figure is None and _brooding(case):
        return Decision((), (), behaviour_menu())
    programme = _programme(case) if topic == "vaccination" and figure is None else None
    if programme is not None:
        return answer(programme)
    asked = asked_of(slots, case)
    wrong = impossible(asked)
    if wrong is not None:
        return answer(wrong)
    return _counted(asked, figure or OF_TOPIC.get(topic, ""), topic, handbook)


def _heating(case: Case) -> Decision:
    """Of a stove: where it goes while something is wrong; else what the chicks do comes first, and
    where that is known it is not asked again."""
    told = heat_in_trouble(case)
    if told is not None:
        return answer(told)
    asked = None if place_known(case) else behaviour_menu()
    return Decision((say("heat_first"),), (), asked, more=((say("on_heating"),),))


def _while_held(topic: str, figure: str | None) -> Line | None:
    """What goes before all routine while a disease is suspected: nothing leaves, nobody comes in,
    and where the dead go."""
    if figure is None and topic in OF_THE_DEAD:
        return say("held_dead")
    held = topic in (*HELD_TOPICS, "biosecurity") if figure is None else figure in SELLING
    return say("held_no_sale") if held else None


def _programme(case: Case) -> Line | None:
    """What the vet's programme has next for these birds, where the cooperative keeps one; a batch
    that is held has nothing of it."""
    batch = case.batch
    if batch is not None and batch.held:
        return None
    today = batch.age(case.today) if batch is not None else None
    days = case.cooperative.programme
    coming = [one for one in days if today is None or one.age >= today]
    if not coming:
        return None
    return say("on_programme", age=coming[0].age + 1, programme=coming[0].words)


def _brooding(case: Case) -> bool:
    """Whether chicks are kept warm just now: what they do says more than words about heat."""
    batch = case.batch
    age = batch.age(case.today) if batch is not None and batch.state == "running" else None
    return age is not None and 0 <= age <= LAST_BROODED


def _not_now(topic: str, figure: str | None, case: Case) -> Line | None:
    """What the trouble at hand forbids: going into bad air, weighing or catching birds that pant,
    selling birds that are ill."""
    batch = case.batch
    selling = topic in HELD_TOPICS or figure in SELLING
    if batch is not None and selling and batch.open_alarm(case.today) is not None:
        return say("ill_no_sale")
    complaint = open_trouble(case)
    if complaint is None:
        return None
    if complaint.cause == "fumes" and topic in AIR_TOPICS:
        aired = heat_in_trouble(case) if topic == "heating" and figure is None else None
        return aired or say("air_first")
    handling = topic in HANDLING or figure in SELLING
    if complaint.cause == "hot" and handling:
        return say("not_in_heat")
    if complaint.cause == "sick" and selling:
        return say("ill_no_sale")
    return None


def _counted(asked: Asked, figure: str, topic: str, handbook: Handbook) -> Decision:
    if figure not in FIGURES:
        return answer(_plain(topic))
    if asked.count is None and figure in OF_BIRDS and asked.slots.figure is not None:
        return Decision(question=_ask_birds(asked.slots))
    try:
        return FIGURES[figure](asked, handbook.husbandry)
    except OutsideRange:
        return answer(_plain(topic))


def _ask_birds(slots: Slots) -> Question:
    """For how many birds? What else was said is kept for the answer."""
    kept = {name: str(getattr(slots, name)) for name in KEPT if getattr(slots, name) is not None}
    return about(number("birds", "ask_birds", "count", 1, MOST_BIRDS), **kept)


def answer_birds(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The number of birds that a question was about: the figure it asked for."""
    kept = case.question.about if case.question else {}
    if meaning.slots.count is None or "figure" not in kept:
        return answer(say("on_other"))
    said = {name: float(kept[name]) for name in _NUMBERS if name in kept}
    slots = Slots(
        figure=kept["figure"],
        topic=kept.get("topic"),
        heat=kept.get("heat"),
        count=meaning.slots.count,
        age_days=int(kept["age_days"]) if "age_days" in kept else None,
        value_c=said.get("value_c"),
        kg=said.get("kg"),
        bags=said.get("bags"),
        width_m=said.get("width_m"),
    )
    found = ask(replace(meaning, slots=slots), case, handbook)
    return found if found.question else replace(found, writes=(*found.writes, CloseQuestion()))


def answer_price(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The one price that was asked for: noted, and the sum made with it."""
    return money.answer_price(meaning, case, handbook.husbandry)


def answer_feed_left(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The kilos of feed that are left: how long they last."""
    return feed.answer_left(meaning, case, handbook.husbandry)


def next_(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """What comes next: today's heat, the next widening or the move."""
    del meaning
    batch = case.batch
    if batch is None or batch.placed_on is None:
        return answer(say("register_first"))
    age = (case.today - batch.placed_on).days
    if age < 0:
        return answer(say("status_planned", n=batch.count or 0, date=batch.placed_on))
    for ahead, key in ((3, "next_paper"), (7, "next_widen"), (14, "next_move"), (21, "next_grown"),
                       (28, "next_last"), (35, "next_sale")):  # fmt: skip
        if age < ahead:
            return answer(say(key, day=ahead + 1))
    del handbook
    return answer(say("next_close"))


def _plain(topic: str) -> Line:
    """The general words on a topic."""
    return say(f"on_{topic}" if topic in PLAIN else "on_other")


PLAIN = (
    "temperature",
    "humidity",
    "space",
    "feed_type",
    "feed_amount",
    "water",
    "drinkers",
    "feeders",
    "litter",
    "light",
    "ventilation",
    "heating",
    "move",
    "weight",
    "sale_age",
    "vaccination",
    "treatment",
    "withdrawal",
    "disease",
    "mortality",
    "behaviour",
    "cleaning",
    "biosecurity",
    "carcass",
    "fumes",
    "reminders",
    "price",
)

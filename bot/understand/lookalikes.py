"""What sounds like a sign of the birds and is none. Pure; called by `signs`.

People's own illness, blood of a slaughter or a scratch, smoke outside, birds that sleep in a warm
heap, one bird in a corner, a thermometer at the edge.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from bot.understand.annotate import Clause, Text
from bot.understand.patterns import Match, Span

ILLNESS = frozenset(
    "sneezing_or_rattle white_or_green_diarrhoea bloody_droppings lethargic limping_or_down "
    "swollen_head eyes_swollen_or_closed gasping twisted_neck_or_paralysis panting "
    "sleepy_all_birds not_eating not_drinking sudden_many_deaths noisy_distress "
    "feathers_ruffled unwell".split()
)
FLOCK = frozenset(
    "piled_near_heat away_from_heat at_edges_or_walls crowded_one_side spread_evenly".split()
)
DROPPINGS = ("droppings", "diarrhoea", "vent", "litter", "liquid")
UNWELL = "unwell"
# Who is ill: without one of these in the clause it is a thing, or a person.
OF_BIRDS = (
    *("bird", "a_bird", "own_birds", "others_rest", "few_only", "n"),
    *("@plural", "@many", "@few", "@whole"),
)
PEOPLE = ("person", "child", "home_use")
DROWSY = "drowsy_people_or_birds_near_stove"
# Beside one of these nothing is heard of fumes in birds that sleep.
SLEEPS_WELL = (
    *("spread_evenly", "quiet_content", "piled_near_heat", "noisy_distress"),
    *("at_edges_or_walls", "away_from_heat", "crowded_one_side"),
)
ILL_BY_AIR = ("dizzy", "headache", "vomit", "faint", "smoke", "sleepy", "not_wake")
# A flock that lies stretched out may sleep: legs and necks are told of as they lie, unless one of
# these stands there as well.
TRULY = {
    "limping_or_down": ("limp", "few_only", "@few", "n"),
    "gasping": ("breathe", "gasp", "beak"),
    "crop_empty": ("crop",),
    "lethargic": ("dull", "not_wake", "eye", "few_only", "n"),
}
LYING = tuple(TRULY)
# A neck stretched up to swallow: with one of these it is for air.
OF_DRINKING, BREATHES = ("gasping", "twisted_neck_or_paralysis"), ("breathe", "breath", "for_air")

_OF_ANOTHER = ("@joins", "fellow", "n")  # between the two: it was another that died
NEAR_ITS_DEATH = 3  # words between which one it was and that it died

HEAPED = ("piled_near_heat", "crowded_one_side", "heap")
SO_MANY_DEAD = ("@many", "@whole", "@plural", "die_many")
LAIN = ("at_edges_or_walls", "crowded_one_side")
OF_LIMBS = ("twisted_neck_or_paralysis", "limping_or_down")
LAY_SO = ("limping_or_down", "lethargic", "lies_still")
PLACES = ("at_edges_or_walls", "crowded_one_side", "piled_near_heat", "away_from_heat")


def _of_the_thermometer(text: Text, clause: Clause, match: Match) -> bool:
    """ "near the door shows 22", "on the wall says humidity 72": the place of what is read off."""
    figures = {one.start for one in text.numbers}
    shown = (
        span
        for span in clause.spans.get("~shows", ())
        if span.end in figures or (span.end + 1 in figures and _is_read(text, span.end))
    )
    return any(match.start < span.start for span in shown)


def _is_read(text: Text, at: int) -> bool:
    return text.at("humidity", at) or text.at("temperature", at)


def _of_the_dead(clause: Clause, match: Match) -> bool:
    """ "2 were lying dead by the wall", "2 dead under the stove", "found one lifeless": where a
    dead bird lay, or how."""
    dead = clause.spans.get("dead", ())
    if match.name in LAY_SO and any(_right_behind(span, match) for span in dead):
        return True
    if match.name == "lethargic":
        if _weak_one_died(clause, match):
            return True
        gone = {at for span in dead for at in range(span.start, span.end)}
        dull = [span.start for span in clause.spans.get("dull", ())]
        return clause.has("n") and bool(dull) and gone.issuperset(dull)
    if match.name == DROWSY:
        me = {span.start for span in clause.spans.get("@me", ())}
        others = any(span.start not in me for name in PEOPLE for span in clause.spans.get(name, ()))
        return bool(dead) and clause.has("n") and not (others or clause.has(*ILL_BY_AIR))
    lay = any(
        span.end <= match.start <= span.end + 1 or span.start < match.end - 1 < span.end
        for span in dead
    )
    return match.name in LAIN and lay and not clause.has("pile")


def _only_sleep(text: Text, clause: Clause) -> bool:
    """Nothing is told but that birds sleep: no person, no smoke, and none that are hard to wake."""
    asleep = {one.start for one in clause.spans.get("asleep", ())}
    dulled = any(one.start not in asleep for one in clause.spans.get("sleepy", ()))
    ill = [one for one in ILL_BY_AIR if one != "sleepy"]
    return bool(asleep) and not dulled and not text.has(*ill, "dull", "person", "kin", "drunk")


def _dead_beasts(clause: Clause) -> bool:
    """ "a bucket of dead rats", "un seau plein de souris mortes": the word right beside it."""
    beasts = clause.spans.get("predator", ())
    dead = clause.spans.get("dead", ())
    beside = any(one.end == of.start or of.end == one.start for one in beasts for of in dead)
    return beside and not clause.has("bird", "own_birds")


def _lay_dead(text: Text, clause: Clause) -> bool:
    """ "three dead, the biggest, lying on the back": how the dead of the clauses before lay."""
    living = ("bird", "n", "@plural", "@many", "@whole", "others_rest", "@few", "leg", "walk")
    before = [one for one in text.clauses if one.end <= clause.start]
    same = [one for one in before if one.sentence == clause.sentence]
    return any(one.has("dead") for one in same) and not clause.has(*living)


def _right_behind(dead: Span, match: Match) -> bool:
    """ "40 dead flat", "3 morts couches a plat": the words of a sign that stand behind the dead
    stand right there."""
    return min((at for at in match.used if at >= dead.end), default=None) == dead.end


def _weak_one_died(clause: Clause, match: Match) -> bool:
    """ "ile dhaifu ilikufa", "the weak one died": which one it was, and none that is ill now."""
    if not clause.has("a_bird") or clause.has("@many", "@plural", "others_rest"):
        return False
    joined = {one.start for name in _OF_ANOTHER for one in clause.spans.get(name, ())}
    return any(
        0 <= span.start - match.end <= NEAR_ITS_DEATH
        and joined.isdisjoint(range(match.end, span.start))
        for span in clause.spans.get("dead", ())
    )


def _all_sold(text: Text, clause: Clause) -> bool:
    """ "my broilers are finished, all sold to one hotel"."""
    sold = any(one.has("sold") and not one.has("@neg", "~nobody") for one in text.clauses)
    return sold and not text.has("sick") and not clause.has("dead", "lost")


def is_lookalike(text: Text, clause: Clause, match: Match, others: Iterable[str]) -> bool:
    """Whether a match is no sign after all. others: the signs found in the same clause."""
    name = match.name
    if told_of_no_bird(clause, match):
        return True
    if name in ILLNESS and (_of_people(text, clause, match) or _product(text, clause, match)):
        return True
    if (
        clause.has("not_birds")
        and not clause.has("bird", "own_birds")
        and not _after_that(clause, match)
        and name not in ("rats_or_predator", "rain_or_wind_in", "generator_inside", DROWSY)
    ):
        return True
    if name in OF_LIMBS and "rats_or_predator" in others and clause.has("dead"):
        return True  # "2 dead with the legs bitten off"
    if name == "twisted_neck_or_paralysis" and clause.has("pipe_line"):
        # They look up to where the water should come, or bend the neck to drink there.
        return not clause.has("neck", "head") or (clause.has("drink") and not clause.has("@neg"))
    if name == "sudden_many_deaths" and _dead_beasts(clause):
        return True
    if name in ILLNESS and clause.has("other_beast") and not clause.has("bird", "own_birds"):
        return True  # "aunt's duck has a twisted neck"
    if name == DROWSY and text.has("pile") and _only_sleep(text, clause):
        return True  # "they sleep beside the stove, all in a heap": pressed for warmth
    if name == "bloody_droppings" and clause.has("mesh") and not clause.has("droppings", "vent"):
        return True  # "blood and hair on the wire": a beast's work
    if name == "bloody_droppings" and "rats_or_predator" in others:
        return not clause.has("droppings", "vent", "diarrhoea", "passed", "litter")
    if name == "limping_or_down" and _lay_dead(text, clause):
        return True
    if name == "spread_evenly" and text.has("lies_flat") and not text.has("crop"):
        return True  # "lying everywhere, flat" tells of no calm
    if name == "birds_missing" and text.has("pile") and not clause.has("n"):
        return True  # "they climb on each other till some can't be seen"
    if name in OF_DRINKING and swallows(clause):
        return True
    if name == UNWELL and _of_no_birds(text, clause, match):
        return True
    if name in PLACES and _of_the_thermometer(text, clause, match):
        return True
    if _of_the_dead(clause, match):
        return True
    if name == "at_edges_or_walls" and clause.has("knocked_wall"):
        return True  # "i knocked on the wall and they ran"
    if name in ("crowded_one_side", "at_edges_or_walls") and "heat_together" in others:
        return not clause.has("bird", "pile")  # where the stoves stand
    if name == "piled_near_heat" and match.weight == 1 and "crowded_one_side" in others:
        return not text.has("heat", "feels_cold")  # "they crowd at the left"
    if name == "no_power" and any(text.at("wind", at) for at in match.used):
        return True  # "pas de courant d'air": of no electricity
    if name in HEAPED and _put_there(clause, match):
        return True
    if name in PLACES and clause.has("mesh") and not clause.has("bird"):
        return True  # "the mesh is torn in the corner of the window"
    if name == "ammonia_smell" and clause.has("bag_word", "@unit:bag"):
        return not clause.has("ammonia", "litter", "eye")  # it is the feed that smells
    if name == "ammonia_smell":
        return text.has("smoke") and not clause.has("ammonia", "smell")
    if name == "sleepy_all_birds" and text.has("lights_off"):
        return not text.has("dull", "not_wake", "down")  # they sleep, as they should
    if name == "twisted_neck_or_paralysis" and shivers(text, clause):
        return True
    if name == "twisted_neck_or_paralysis" and clause.has("pipe", "drinker"):
        return not clause.has("neck", "paralysed")  # they reach up for water
    if name == "litter_caked" and clause.has("tear_off", "crop"):
        return not clause.has("litter")  # what was pulled off a vent
    if name == "bloody_droppings" and not match.denied and not match.deniers:
        if _pulled(text, clause):
            return True
        if "droppings_brown" in others and _disease_of_blood(text, clause):
            return True
        beside = {"birds_missing", "wounded"}.intersection(others)
        passed = clause.has(*DROPPINGS, "defecate")
        return (bool(beside) and not passed) or _other_blood(text, clause)
    if name == "sudden_many_deaths":
        if _all_sold(text, clause):
            return True
        looks = _like_dead(text, match) or one_died(text, clause)
        return looks or _feared(text, clause, match) or _fire_died(text, clause, match)
    if name in LYING and ("lies_still" in others or text.has("lies_flat")):
        kicks = name == "lethargic" and "kicks_on_side" in others  # no sleeper kicks
        return not (kicks or clause.has(*TRULY[name]))
    if name in ("cannibalism_or_pecking", "pecks_litter") and "dehydrated" in others:
        return not clause.has("blood", "injury", "feather")  # at drops and what shines
    if name == "lethargic" and "sleeps_inside" in others:
        return not clause.has("dull")  # it is a person who sleeps there
    if name == "smoke_or_fumes":
        return _outside(text, clause, match)
    if name == "gasping" and clause.has("me_breathless"):
        return not clause.has("bird", "@plural")  # "you cannot breathe in there": whoever enters
    if name == DROWSY and "sleeps_inside" in others:
        return not clause.has("dizzy", "headache", "vomit", "faint", "not_wake", "down")
    if name == DROWSY:
        return _asleep_only(text, clause, match, set(others))
    if name == "feed_finished" and _ate_so_much(text, clause):
        return True
    if name == "uneven_size" and _one_weighed(text, clause):
        return True
    if name in FLOCK:
        hung = name == "at_edges_or_walls" and _thermometer(text, clause)
        return hung or _lone(text, clause, match)
    weak = name in ("lethargic", "uneven_size", UNWELL)  # the reason why it was culled
    return weak and clause.has("culled", "slaughter") and not clause.has("dead")


def _ate_so_much(text: Text, clause: Clause) -> bool:
    """ "they finished 25 kilos", "ont fini 2 sacs": what was eaten, with its measure right behind
    the verb, and no word that nothing is left."""
    measured = {one.start for one in text.numbers if _is_mass(text, one.end)}
    places = clause.spans.get("finished", ())
    fed = [span.start for span in clause.spans.get("feed", ())]
    sized = _sized(text, clause)
    return bool(places) and all(
        (span.end in measured and not any(at < span.start for at in fed)) or span.start in sized
        for span in places
    )


def _sized(text: Text, clause: Clause) -> set[int]:
    """ "demi sac de 50 fini", "2 sacs de 25 kg finis": behind so many bags of a size, which open
    the clause; "le sac de 50 est fini" is the one there was."""
    figures = [one for one in text.numbers if clause.start <= one.start < clause.end]
    if len(figures) != 2 or figures[0].start != clause.start:
        return set()
    first, size = figures
    if not text.at("@unit:bag", first.end) or size.start - first.end > 2:
        return set()
    end = size.end + _is_mass(text, size.end)
    linked = end < clause.end and text.is_little(text.tokens[end].text, "is")
    return {end, end + linked}


def _is_mass(text: Text, at: int) -> bool:
    return any(text.at(f"@unit:{name}", at) for name in ("kg", "gram", "bag"))


def _one_weighed(text: Text, clause: Clause) -> bool:
    """ "the smallest I weighed is 900 g": what one of them weighs, and no flock that grew apart."""
    ones = [at for name in ("in_turn", "a_bird") for at in clause.spans.get(name, ())]
    small = clause.spans.get("smaller", ())
    weighed = text.has("@unit:gram", "@unit:kg")
    return bool(weighed and small) and all(
        any(one.start < span.start and span.end <= one.end for one in ones) for span in small
    )


def swallows(clause: Clause) -> bool:
    """ "they drink with the neck stretched up": no want of air, and no neck that is twisted."""
    ill = (*BREATHES, "twist", "paralysed", "@neg", "@negafter")
    return clause.has("drink") and clause.has("neck") and not clause.has(*ill)


def shivers(text: Text, clause: Clause) -> bool:
    """ "20 are soaked and tremble": chilled, where nothing more than the trembling is told."""
    nerves = [one for name in ("twist", "paralysed") for one in clause.spans.get(name, ())]
    only = all(text.at("tremble", one.start) for one in nerves)
    plain = clause.has("tremble") and not text.has(
        "neck", "head", "leg", "limp", "dizzy", "falls_over", "@neg"
    )
    return only and plain and text.has("wet", "rain", "cold", "feels_cold", "pant")


def _after_that(clause: Clause, match: Match) -> bool:
    """ "i slept at my uncle's, today i find blood": what is found now is no longer told of him."""
    told = max((one.end for one in clause.spans.get("not_birds", ())), default=0)
    now = any(told <= one.start < match.start for one in clause.spans.get("@now", ()))
    return now and any(told <= one.start < match.start for one in clause.spans.get("see", ()))


def told_of_no_bird(clause: Clause, match: Match) -> bool:
    """ "the road is paralysed", "wife gasps at the price": inside what is told of no bird."""
    return any(
        not match.used.isdisjoint(range(span.start, span.end))
        for span in clause.spans.get("@no_birds", ())
    )


def _of_people(text: Text, clause: Clause, match: Match) -> bool:
    """A person stands right before the sign, and no bird is named in the clause.

    "my boy has diarrhoea", "i am dying of work"; but "i see blood", "we have coughing birds",
    "ninapoteza kuku", I lose birds.
    """
    me = {span.start for span in clause.spans.get("@me", ())} & match.used
    if any(not (text.at("@sees", at) or text.at("lost", at)) for at in me):
        return True
    if _right_behind_person(text, clause, match):
        return True
    if clause.has("bird", "@plural", "droppings", "litter"):
        return False
    if any(span.start in match.used for span in clause.spans.get("person", ())):
        return True
    for name in ("person", "@me"):
        for span in clause.spans.get(name, ()):
            if match.used and span.start < min(match.used) and max(match.used) < span.end:
                return True  # inside the name of the product
            between = range(span.end, match.start)
            if not 0 <= match.start - span.end <= 3:
                continue
            if any(text.at(one, at) for at in between for one in ("@sees", "@neg")):
                continue  # "i see a cough", "i moved it, nobody coughs"
            some = clause.has("n", "@few", "@many")  # "i have 3 coughing", but "i have a cough"
            has = any(text.at("have", at) for at in range(span.start, match.start))
            if not (some and has):
                return True
    return False


def _of_no_birds(text: Text, clause: Clause, match: Match) -> bool:
    """ "my children are sick", "business is sick", "a medicine for sick chickens": the word alone
    tells of the flock only where birds, or so many of them, are named with it."""
    if not clause.has(*OF_BIRDS) or clause.has("sell", "bought"):
        return True  # "somebody sells sick birds cheap"
    if clause.has("dead", "lost") and not clause.has("@many", "@whole", "others_rest"):
        return True  # "the sick one died"
    if _none_before(text, clause, match.start) or _asked_before(text, clause, match.start):
        return True
    people = (span for name in PEOPLE for span in clause.spans.get(name, ()))
    others = [one for one in people if one.end <= match.start and not text.at("@me", one.start)]
    if not clause.has("bird", "own_birds"):
        return bool(others)
    if clause.has("@many", "@whole", "own_birds"):
        return False
    return any(
        text.tokens[span.end].text in text.little["product_for"]
        and all(text.at("bird", at) for at in range(span.end + 1, match.start))
        for name in ("medicine", "vaccine")
        for span in clause.spans.get(name, ())
        if span.end < match.start
    )


def _asked_before(text: Text, clause: Clause, at: int) -> bool:
    """ "they sleep too much are they sick": asked, with the verb before them."""
    return any(
        text.at("@asks", span.start) and span.end <= at <= span.end + 1
        for span in clause.spans.get("@question", ())
    )


def _none_before(text: Text, clause: Clause, at: int) -> bool:
    """ "0 dead 0 sick", "no sick bird", "no others are sick": a nought right before the word, or
    before its clause."""
    zero = any(one.value == 0 and one.end == at for one in text.numbers)
    return zero or any(
        text.at(name, near - 1)
        for name in ("@neg", "@negafter", "@answer:no", "zero")
        for near in (at, clause.start)
        if near
    )


def _right_behind_person(text: Text, clause: Clause, match: Match) -> bool:
    """ "mama is crying, the chicks ...", "mes gosses pleurent, ils ...": whoever else is named in
    the clause."""
    people = [one for one in clause.spans.get("person", ()) if not text.at("@me", one.start)]
    return match.end - match.start == 1 and any(
        match.start == span.end or (match.start == span.end + 1 and text.at("copula", span.end))
        for span in people
    )


def _product(text: Text, clause: Clause, match: Match) -> bool:
    """ "the medicine for cough", "cough powder", "dawa ya kuhara": what a product is for."""
    if text.has("@here_too"):
        return False  # "which drug for bloody stool, i have it in my birds"
    for name in ("medicine", "vaccine"):
        for span in clause.spans.get(name, ()):
            if span.end - span.start > 1 and match.used <= set(range(span.start, span.end)):
                return True
            between = [text.tokens[at].text for at in range(span.end, match.start)]
            if len(between) == 1 and between[0] in text.little["product_for"]:
                return True
    return False


def _pulled(text: Text, clause: Clause) -> bool:
    """Blood where something dry was pulled off, in these words or right before them; or of the
    writer's own cut, told right before."""
    if clause.has("tear_off"):
        return True
    before = [one for one in text.clauses if one.end <= clause.start]
    own = bool(before) and before[-1].has("cut_self") and not clause.has("bird", "see")
    torn = bool(before) and before[-1].has("tear_off")
    return (torn or own) and not clause.has(*DROPPINGS, "defecate")


def _other_blood(text: Text, clause: Clause) -> bool:
    """Blood of a slaughter, or of a leg, comb or wing, not of droppings; a knife that opens what
    they passed is no wound."""
    if clause.has(*DROPPINGS) or (clause.has("passed") and not text.has("slaughter")):
        return False
    if clause.has("others_rest"):
        return False  # "the one i slaughtered was ok, the rest pass blood"
    if text.has("slaughter", "culled", "sold", "injury") and not text.has("droppings", "diarrhoea"):
        return True
    return clause.has("leg", "wing", "feather", "peck", "comb", "toe")


def _disease_of_blood(text: Text, clause: Clause) -> bool:
    """ "it is brown, is it the blood disease": a name that is feared, and no blood seen."""
    blood = [at for span in clause.spans.get("blood", ()) for at in range(span.start, span.end)]
    near = [text.tokens[one].text for at in blood for one in range(max(0, at - 2), at + 3)
            if one < len(text.tokens)]  # fmt: skip
    return bool(blood) and any(word in text.little["feared"] for word in near)


def bathes(text: Text) -> bool:
    """A bird that kicks on its side, shakes off dust or gets up by itself: a bath, no fit."""
    rises = text.has("dust_bath", "get_up") or any(
        one.text in text.little["rises"] for one in text.tokens
    )
    twisted = text.has("twist") and text.has("neck", "head")
    return rises and not twisted and not text.has("paralysed")


def one_died(text: Text, clause: Clause) -> bool:
    """ "mon plus gros est mort d un coup": one bird; what kills a flock is no such. That it died
    all at once tells of one as well, where one is named."""
    at_once = {at for span in clause.spans.get("at_once", ()) for at in range(span.start, span.end)}
    figures = [one for one in text.numbers if one.start not in at_once]
    several = any(
        span.start not in at_once for name in SO_MANY_DEAD for span in clause.spans.get(name, ())
    )
    if several or any(one.value > 1 for one in figures):
        return False
    if at_once:
        counted = [one.end for one in figures if one.value == 1]
        one_bird = any(text.at(name, end) for name in ("bird", "dead") for end in counted)
        return (one_bird or clause.has("a_bird")) and not clause.has("each")
    return any(
        text.tokens[at].text in text.little["one_dead"] for at in range(clause.start, clause.end)
    )


def _fire_died(text: Text, clause: Clause, match: Match) -> bool:
    """ "the jiko is nearly dead": what died stands before it, and no bird is named."""
    things = [one.end for name in ("heat", "power") for one in clause.spans.get(name, ())]
    dead = [at for at in match.used if text.at("dead", at)]
    near = any(0 <= at - end <= 3 for at in dead for end in things)
    return near and not clause.has("bird", "own_birds", "a_bird", "@plural", "n")


def _feared(text: Text, clause: Clause, match: Match) -> bool:
    """ "they lie flat, i fear they are dying??": asked, or of birds that lie; no number is told."""
    if clause.has("@many", "@whole", "die_many", "n") or not (
        clause.asked or text.has("lies_flat")
    ):
        return False
    dying = [at for at in match.used if text.at("dead", at)]
    fears = [span.end for span in clause.spans.get("fears", ())]
    return any(0 <= at - end <= 2 for at in dying for end in fears)


def _like_dead(text: Text, match: Match) -> bool:
    """ "many lie flat like dead", "couches comme des morts": a look, not a death."""
    dead = [at for at in match.used if text.at("dead", at)]
    return bool(dead) and all(
        any(text.tokens[near].text in text.little["likens"] for near in range(max(0, at - 2), at))
        for at in dead
    )


def _outside(text: Text, clause: Clause, match: Match) -> bool:
    """Smoke outside, or until which something is done, with nobody harmed by it."""
    if text.has("dizzy", "headache", "sneeze", "sting", "gasp"):
        return False
    if clause.has("enter") and not clause.has("@outside"):
        return False
    if clause.has("@outside") and not none_inside(clause):
        return True
    return any(span.end <= match.start for span in clause.spans.get("@until", ()))


def _put_there(clause: Clause, match: Match) -> bool:
    """ "the dead are in a heap at the door": where they were put, and no heap of the living."""
    dead = [span for span in clause.spans.get("the_dead", ()) if span.start < match.end]
    if not dead:
        return False
    living = (*clause.spans.get("others_rest", ()), *clause.spans.get("own_birds", ()))
    return not any(dead[-1].end <= one.start < match.end for one in living)


def none_inside(clause: Clause) -> bool:
    """ "it smokes outside when lit, inside no smoke": one clause tells both."""
    return clause.has("@outside") and any(one.denied for one in clause.spans.get("smoke", ()))


def _asleep_only(text: Text, clause: Clause, match: Match, others: set[str]) -> bool:
    """Birds that sleep under a bulb, spread out, away from the fire, or in a heap for warmth, and
    who fell asleep by a fire that is out: no fumes are told of."""
    if _ill_elsewhere(text, clause, match):
        return True
    out = clause.has("out_fire") and clause.has("heat") and not clause.has("dead")
    if out and not text.has("dizzy", "headache", "vomit", "faint", "smoke", "not_wake"):
        return True
    if text.has("dizzy", "headache", "smoke", "person") or clause.has("dead", "down", "not_wake"):
        return False
    if not clause.has("sleepy", "asleep", "dull", "lying"):
        return False  # "by the stove they stagger"
    heaped = text.has("pile") and clause.has("sleepy") and not text.has("@gone", "limp", "faint")
    if heaped or not others.isdisjoint(SLEEPS_WELL):
        return not clause.has("dull")
    burning = any(
        name.startswith("@heat:") and name != "@heat:bulb" for name in clause.spans
    ) or clause.has("heat_not_bulb")
    return clause.has("@heat:bulb") and not burning


def _ill_elsewhere(text: Text, clause: Clause, match: Match) -> bool:
    """A headache of work, beer or malaria: told with another place, and with no fire or brooder."""
    by_fire = text.has("heat", "brooder", "smoke", "inside")
    of_birds = any(span.start < match.end for span in clause.spans.get("bird", ()))
    return text.has("elsewhere") and not by_fire and not of_birds


def _lone(text: Text, clause: Clause, match: Match) -> bool:
    """One bird alone is no heap and no crowd; "not one is piled" tells of all."""
    if match.denied or clause.has("@neg"):
        return False
    ones = clause.spans.get("a_bird", ())
    plural = [one for one in clause.spans.get("@plural", ()) if not _verb_of_one(one, ones)]
    if ones:  # "one is dull in the corner, others they eat well"
        plural = [one for one in plural if one.start < match.end]
    if plural or clause.has("@many") or (clause.has("@whole") and not ones):
        return False
    figures = [
        one
        for one in text.numbers
        if clause.start <= one.start < clause.end and one.start not in match.used
    ]
    one_figure = len(figures) == 1 and figures[0].value == 1
    return bool(ones) or (one_figure and clause.has("bird"))


def _verb_of_one(plural: Span, ones: Sequence[Span]) -> bool:
    """ "one small one dey dull": right behind one bird it is the verb, not "they"."""
    return any(one.end == plural.start for one in ones)


def _thermometer(text: Text, clause: Clause) -> bool:
    """ "28 degrees by the edge", "thermometer hung on the wall": where the thermometer hangs."""
    if clause.has("bird", "@plural"):
        return False
    read_off = clause.has("n") or (text.has("n") and not clause.has("pile"))
    return clause.has("@unit:celsius", "temperature") and read_off

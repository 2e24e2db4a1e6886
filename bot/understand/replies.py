"""Bare answers to the open question. In: a `Scene`. Out: a `Meaning`, or None where it is none.

A bare answer holds nothing but a figure, an answer word or the little words round them. NUMBER
questions take a figure literally; MENU questions take one digit, in every shape (1, 1., (1), no 1,
one, moja, l, I). Pure; called by `read`.
"""

from __future__ import annotations

from bot.facts.talk import Hearing, Intent, Meaning, Slots
from bot.understand.annotate import Text
from bot.understand.batches import heats_said
from bot.understand.dates import nearest_of_month
from bot.understand.deaths import danger_of
from bot.understand.masses import plausible
from bot.understand.numbers import Number
from bot.understand.readings import LOWEST_C, read_degrees, temperature_slots
from bot.understand.scene import Scene

BEHAVIOUR = {
    1: ("spread_evenly",),
    2: ("piled_near_heat",),
    3: ("away_from_heat",),
    4: ("crowded_one_side",),
    5: ("at_edges_or_walls",),
}
PLACES = (  # where the chicks are, in the words of a short answer: all classes of a row are said
    ("spread_evenly", ("everywhere",)),
    ("away_from_heat", ("away", "heat")),
    ("piled_near_heat", ("near", "heat")),
    ("at_edges_or_walls", ("wall",)),
    ("at_edges_or_walls", ("edge",)),
    ("crowded_one_side", ("side",)),
)
LITTER = {1: "dry", 2: "wet", 3: "caked", 4: "smells"}
LITTER_SIGNS = {"wet": ("litter_wet",), "caked": ("litter_caked",), "smells": ("ammonia_smell",)}
HEATS = ("charcoal", "gas", "bulb", "kerosene", "wood")
DEFAULT_OPTIONS = {
    "yes_no": ("yes", "no"),
    "worked": ("better", "same", "worse"),
    "done": ("done", "not_yet"),
    "feathers": ("yes", "no"),
    "nights": ("warm", "cool", "cold"),
    "heat": HEATS,
}
NUMBER_PROMPTS = ("temperature", "humidity", "deaths", "weight", "feed", "water", "crop", "count")
UNSURE_OF = ("yes_no", "behaviour", "litter", "worked")
CALL_DIGIT, NOT_ME_DIGIT = 8, 9
_IN_GOES = ("deaths", "feed", "water")  # what a day may bring in several goes
MANY_BIRDS = 500  # above: 20 birds are weighed instead of 10
FELT = 10.0  # crops that we ask to feel
LONG = 9  # words of an answer that tells a place more closely
SHORT = 5  # words of an answer that names no more than a place
_ONES = frozenset({"l", "i"})
_OF_NONE = (
    *("zero", "@answer:no", "~nobody", "~so_far", "~even", "@neg", "@now", "@still"),
    *("@day:0", "@answer:not_yet", "@polite", "@pronouns", "@common", "bird", "batch", "copula"),
    *("@whole", "whole_all", "@many", "hour_word", "dead", "lost"),
)
_AMONG = ("@now", "@few", "@many", "bird", "well", "litter", "@day:0")
_WHOLE = ("@polite", "ok", "@pronouns")
_NO_ANSWER = ("@question", "@if", "@neg", "@negafter", "game_word")


def _beside(text: Text, word: str) -> bool:
    """What may stand beside a bare answer."""
    return text.is_little(word, "beside_answer", ".,():=-+#")


def bare_figure(scene: Scene) -> float | None:
    """The one figure a text consists of, apart from little words; None where there is more."""
    text = scene.text
    if len(text.tokens) == 1 and text.tokens[0].text in _ONES:
        return 1.0
    if len(text.tokens) == 1 and text.tokens[0].text == "o":
        return 0.0
    if len(text.numbers) != 1 or scene.quantities:
        return None
    number = text.numbers[0]
    for at, token in enumerate(text.tokens):
        inside = number.start <= at < number.end
        if inside or token.kind == "mark" or _beside(text, token.text):
            continue
        if not any(text.at(name, at) for name in (*_WHOLE, "count_word")):
            return None
        if text.at("dead", at) and scene.hearing.prompt != "deaths":
            return None  # "5 creves" says what died, whatever is asked
    return number.value


def read_reply(scene: Scene) -> Meaning | None:
    """What a bare answer means to the open question."""
    prompt = scene.hearing.prompt
    if prompt is None:
        return None
    figure = bare_figure(scene)
    if prompt in NUMBER_PROMPTS:
        return _number_reply(scene, prompt, figure)
    if prompt in ("date", "house"):
        return _batch_reply(scene, prompt)
    return _menu_reply(scene, prompt, figure)


def figure_among_words(scene: Scene) -> Meaning | None:
    """ "3 wameenda leo" to the question how many died: the one figure of a short answer whose other
    words say nothing else."""
    prompt, text = scene.hearing.prompt, scene.text
    figures = scene.plain_numbers
    if prompt not in NUMBER_PROMPTS or len(figures) != 1 or scene.quantities:
        return None
    told_by_others = any(  # but "j'ai lu trente"
        one.end != figures[0].start for one in text.spans.get("@others", ())
    )
    if len(text.words()) > SHORT + 1 or told_by_others or scene.has(*_NO_ANSWER):
        return None
    return _number_reply(scene, prompt, figures[0].value)


def _number_reply(scene: Scene, prompt: str, figure: float | None) -> Meaning | None:
    if prompt == "deaths":
        figure = _of_the_dead(scene, figure)
    if figure is None and prompt in _IN_GOES:
        figure = _in_goes(scene)
    if figure is None:
        return _unit_reply(scene, prompt)
    if figure != int(figure) and prompt in ("deaths", "count"):
        return None
    whole = round(figure)
    if prompt == "temperature":
        slots = read_degrees(figure) if figure > 60 else temperature_slots(max(figure, LOWEST_C))
        return Meaning(Intent.TEMPERATURE, slots)
    if prompt == "humidity":
        return Meaning(Intent.HUMIDITY, Slots(rh_pct=figure if figure <= 100 else None))
    if prompt == "deaths":
        sign = danger_of(whole, scene.hearing.count)
        return Meaning(Intent.DEATHS, Slots(deaths=whole), signals=sign, many=sign)
    if prompt == "weight":
        return Meaning(Intent.WEIGHT, Slots(avg_g=average_g(figure, scene)))
    if prompt == "feed":
        k = scene.text.tokens[-1].text[-1:] == "k" and figure >= 1000
        return Meaning(Intent.FEED, Slots(kg=figure / 1000 if k else figure, feed_move="eaten"))
    if prompt == "water":
        return Meaning(Intent.WATER, Slots(litres=figure))
    if prompt == "count":
        return Meaning(Intent.REGISTER, Slots(count=whole))
    return Meaning(Intent.CROP_CHECK, Slots(crops_full=whole))


def _of_the_dead(scene: Scene, figure: float | None) -> float | None:
    """The bare figure of the dead; none, and "no one", are nought."""
    only = only_so_many(scene.text)
    if only is not None:
        return only
    none = [span for name in ("zero", "~nobody") for span in scene.text.spans.get(name, ())]
    of_it = any(span.start <= one.start < span.end for one in scene.text.numbers for span in none)
    if figure is not None:
        return 0.0 if of_it or (figure == 1 and scene.has("@neg")) else figure
    return 0.0 if _bare(scene, "no") or _bare(scene, "zero") or _none_of_them(scene) else None


def _none_of_them(scene: Scene) -> bool:
    """ "none so far", "not any", "all alive": short, and of nothing but how many."""
    text = scene.text
    if len(text.words()) > SHORT or any(not one.weak for one in text.numbers):
        return False
    told = {at for one in text.numbers for at in range(one.start, one.end)}
    plain = all(
        token.kind == "mark" or at in told or any(text.at(name, at) for name in _OF_NONE)
        for at, token in enumerate(text.tokens)
    )
    if scene.has("all_alive"):
        return not scene.has("@neg", "@if", "@question")
    return plain and any(text.at(name, 0) for name in ("zero", "@answer:no", "~nobody", "@neg"))


def only_so_many(text: Text) -> float | None:
    """ "no, just 1", "hapana wawili tu": behind the no stands nothing but how many; None where
    something else does."""
    end = max((one.end for one in text.spans.get("@answer:no", ()) if one.start == 0), default=None)
    if end is None or len(text.numbers) != 1:
        return None
    one = text.numbers[0]
    figure = range(one.start, one.end)
    rest = [at for at in range(end, len(text.tokens)) if at not in figure]
    only = [at for at in rest if text.at("~only", at)]
    set_off = bool(only) or end < one.start
    bare = all(at in only or text.tokens[at].kind == "mark" for at in rest)
    return one.value if bare and set_off and one.start >= end else None


def _in_goes(scene: Scene) -> float | None:
    """ "morning 5 evening 6", "5 + 6": the figures of a day told one by one, nothing else beside
    them."""
    text = scene.text
    figures = [one for one in text.numbers if not one.weak or one.spelt]
    if len(figures) < 2 or scene.quantities:
        return None
    told = {at for one in figures for at in range(one.start, one.end)}
    hours = [span.start for span in text.spans.get("hour_word", ())]
    rest = [at for at in range(len(text.tokens)) if at not in told]
    added = [at for at in rest if text.tokens[at].text in "+&" or text.at("@and", at)]
    said = len(hours) == len(figures) or len(added) == len(figures) - 1
    plain = all(
        text.tokens[at].kind == "mark"
        or at in added
        or any(text.at(name, at) for name in ("hour_word", "@day:0", "@now", *_WHOLE))
        or text.at("~beside_time", at)
        for at in rest
    )
    return sum(one.value for one in figures) if said and plain else None


def _unit_reply(scene: Scene, prompt: str) -> Meaning | None:
    """A figure with its unit and no other word: "6kg" to the weight question is a total."""
    if prompt == "crop":
        return read_crops(scene)
    if prompt == "count" and len(scene.ages) == 1 and len(scene.text.words()) <= 3:
        return Meaning(Intent.REGISTER, Slots(count=scene.ages[0].days))
    if prompt == "water" and len(scene.text.words()) <= 3 and scene.text.has("@unit:bucket"):
        return Meaning(Intent.WATER)
    if len(scene.quantities) != 1:
        return None
    one = scene.quantities[0]
    if len(scene.text.words()) > max(3, one.end - one.start):
        return None
    if prompt == "count" and one.kind == "money":
        return Meaning(Intent.REGISTER, Slots(count=round(one.value)))
    if prompt == "feed" and one.kind == "grams":
        return Meaning(Intent.FEED, Slots(kg=one.value / 1000, feed_move="eaten"))
    if prompt == "weight" and one.kind == "grams":
        return Meaning(Intent.WEIGHT, Slots(avg_g=average_g(one.value, scene, grams=True)))
    return None


def read_crops(scene: Scene) -> Meaning | None:
    """ "6 of 10", "8/10", "all full", "6 full, 4 empty"; no answer is "two bags of fifty kilos"."""
    if scene.of_kind("grams", "bags", "litres"):
        return None
    told = _crops_apart(scene)
    if told is not None:
        return told
    numbers = [round(one.value) for one in scene.text.numbers if one.value == int(one.value)]
    if len(numbers) == 2 and numbers[0] <= numbers[1] and len(scene.text.words()) <= 6:
        return Meaning(Intent.CROP_CHECK, Slots(crops_full=numbers[0], crops_of=numbers[1]))
    if len(numbers) == 1 and scene.has("full", "crop") and len(scene.text.words()) <= 5:
        return Meaning(Intent.CROP_CHECK, Slots(crops_full=numbers[0]))
    return None


def _crops_apart(scene: Scene) -> Meaning | None:
    """ "4 hard and dry, 6 empty": so many of each, of as many as both together; "4 empty": of the
    ten that we asked to feel."""
    text = scene.text
    figures = [one for one in text.numbers if one.value == int(one.value)]
    none = text.spans.get("empty", ())
    if not none or not 1 <= len(figures) <= 2 or len(text.words()) > LONG:
        return None
    if any(text.at("@out_of", at) for one in figures for at in (one.end, one.start - 1)):
        return None
    at = none[0].start
    if len(figures) == 1:
        if text.has("full"):
            return None
        of, empty = FELT, figures[0].value
    else:
        of = sum(one.value for one in figures)
        behind = [one for one in figures if one.end <= at]
        between = text.tokens[behind[-1].end : at] if behind else []
        near = bool(behind) and all(token.kind != "mark" for token in between)
        empty = (behind[-1] if near else figures[-1]).value
    if not 0 <= empty <= of:
        return None
    return Meaning(Intent.CROP_CHECK, Slots(crops_full=round(of - empty), crops_of=round(of)))


def average_g(figure: float, scene: Scene, *, grams: bool = False) -> float:
    """A total of 10 birds (20 above 500): kilograms below 60, grams above; else one bird's."""
    birds = 20 if (scene.hearing.count or 0) > MANY_BIRDS else 10
    total = figure if grams or figure >= 60 else figure * 1000
    age = scene.hearing.age_days
    low, high = plausible(age)
    if not low <= total / birds <= high and low <= total <= high:
        return round(total, 1)
    return round(total / birds, 1)


def _batch_reply(scene: Scene, prompt: str) -> Meaning | None:
    few = len(scene.text.words()) <= 7
    if prompt == "date" and scene.days and few and not scene.plain_numbers:
        past = scene.has("placed", "arrived", "hatch", "@past")
        return Meaning(Intent.REGISTER, Slots(date_iso_offset=scene.day(past=past)))
    day = _day_of_the_month(scene) if prompt == "date" and few else None
    if day is not None:
        return Meaning(Intent.REGISTER, Slots(date_iso_offset=day))
    if prompt == "house":
        areas = scene.of_kind("area")
        if areas:
            return Meaning(Intent.REGISTER, Slots(house_m2=round(areas[0].value, 1)))
        figure = bare_figure(scene) or _sides(scene)
        if figure is not None:
            return Meaning(Intent.REGISTER, Slots(house_m2=figure))
        if len(scene.text.words()) <= SHORT and scene.has("house", "brooder", "@outside"):
            return Meaning(Intent.REGISTER)
        if _only_a_place(scene):
            return Meaning(Intent.REGISTER)
    return None


def _day_of_the_month(scene: Scene) -> int | None:
    """ "le 12", "le 12 du mois": the figure alone behind the word that makes it a day."""
    text = scene.text
    figure = next((one for one in text.numbers), None)
    if figure is None or len(text.numbers) > 1 or scene.quantities or figure.start == 0:
        return None
    if text.tokens[figure.start - 1].text not in text.little["the_day"]:
        return None
    inside = (figure.start - 1, figure.start)
    names = ("@polite", "@common", "this_month", "~beside_time")
    if not all(
        at in inside or token.kind == "mark" or any(text.at(name, at) for name in names)
        for at, token in enumerate(text.tokens)
    ):
        return None
    return nearest_of_month(figure.value, scene.hearing.today)


def _only_a_place(scene: Scene) -> bool:
    """ "ds un enclos au coin de la chambre": where they are kept, in more words."""
    told = any(not one.weak for one in scene.text.numbers) or scene.has(
        "@question", "@if", "@neg", "dead", "bird", "heat"
    )
    kept = scene.has("brooder", "house", "box") and not scene.has("arrived")
    return kept and not told and len(scene.text.words()) <= LONG


def _sides(scene: Scene) -> float | None:
    """ "6 kwa 5": two sides in metres, with one word between and hardly any other."""
    sides = scene.text.numbers
    if len(sides) != 2 or len(scene.text.words()) > SHORT:
        return None
    return sides[0].value * sides[1].value if sides[1].start - sides[0].end == 1 else None


def _menu_reply(scene: Scene, prompt: str, figure: float | None) -> Meaning | None:
    digit = round(figure) if figure is not None and figure == int(figure) else None
    if digit is not None and any(counts(scene.text, one) for one in scene.text.numbers):
        digit = None
    if digit == CALL_DIGIT:
        return Meaning(Intent.CALL_ME)
    if digit == NOT_ME_DIGIT:
        return Meaning(Intent.NOT_ME)
    if prompt == "behaviour":
        signs = BEHAVIOUR.get(digit or 0)
        if signs:
            return Meaning(Intent.OBSERVE, signals=signs, many=signs)
        return _unsure(scene)
    if prompt == "litter":
        return _litter(scene, digit)
    options = options_of(scene.hearing)
    answer = options[digit - 1] if digit is not None and 1 <= digit <= len(options) else None
    if answer is None:
        answer = _answer_word(scene, options)
    if answer is None:
        return _unsure(scene)
    if prompt == "worked":
        return Meaning(Intent.OBSERVE, Slots(answer=answer))
    if prompt == "heat":
        return Meaning(Intent.REGISTER, Slots(heat=answer))
    return Meaning(Intent.OTHER, Slots(answer=answer))


def counts(text: Text, number: Number) -> bool:
    """Whether a figure counts something and is no digit of a menu: "2 of them", or a number word in
    the form that agrees with what it counts ("wanne", four chicks, where the digit is "nne")."""
    return text.at("@out_of", number.end) or text.at("agreeing", number.start)


def options_of(hearing: Hearing) -> tuple[str, ...]:
    """The codes of the open menu, first for 1; () where none is open."""
    return hearing.options or DEFAULT_OPTIONS.get(hearing.prompt or "", ())


def _unsure(scene: Scene) -> Meaning | None:
    """ "I don't know": an answer too, so that the next thing can be asked."""
    if scene.hearing.prompt in UNSURE_OF and _bare(scene, "unsure"):
        return Meaning(Intent.OTHER, Slots(answer="unsure"))
    return None


def place_said(scene: Scene) -> str | None:
    """The sign that a place alone stands for, as an answer to where the chicks are: "at the stove",
    "partout, calmes". None where it is denied, asked, or the text says more."""
    text = scene.text
    if scene.hearing.prompt != "behaviour" or len(text.words()) > SHORT:
        return None
    if any(not one.weak for one in text.numbers) or scene.has(
        "@neg", "@negafter", "@question", "@others", "@gone", "@past", "lies_flat"
    ):
        return None
    return next((sign for sign, names in PLACES if all(text.has(name) for name in names)), None)


def says_dry(scene: Scene) -> bool:
    """ "dry and no bad smell" to the question how the litter is."""
    dry = scene.text.spans.get("@answer:dry", ())
    short = len(scene.text.words()) <= 2 * SHORT
    denied = any(scene.text.at("@neg", span.start - 1) for span in dry)
    return scene.hearing.prompt == "litter" and bool(dry) and short and not denied


def _litter(scene: Scene, digit: int | None) -> Meaning | None:
    state = LITTER.get(digit or 0) or _answer_word(scene, tuple(LITTER.values()))
    if state is None:
        return _unsure(scene)
    if state == "dry":
        return Meaning(Intent.OBSERVE, Slots(answer=state), not_signals=("litter_wet",))
    return Meaning(Intent.OBSERVE, Slots(answer=state), signals=LITTER_SIGNS[state])


def _answer_word(scene: Scene, options: tuple[str, ...]) -> str | None:
    """The option whose word the text consists of."""
    if "charcoal" in options:
        said = heats_said(scene)
        return "+".join(said) if said and len(scene.text.words()) <= 6 else None
    for option in sorted(options, key=lambda one: one in ("yes", "no", "done")):
        if _bare(scene, option):
            return option
    return None


def _bare(scene: Scene, answer: str) -> bool:
    """The text is an answer word, with polite and little words at most."""
    text = scene.text
    if len(text.words()) > 8:
        return False
    names = (f"@answer:{answer}", answer, *(("@lacks", "zero") if answer == "no" else ()))
    if not text.has(*names):
        return False
    beside = () if answer in ("yes", "no") else ("@answer:yes",)  # "yes, better"
    covered = {
        at
        for name in (*names, *beside)
        for span in text.spans.get(name, ())
        for at in range(span.start, span.end)
    }
    left = [
        at
        for at, token in enumerate(text.tokens)
        if token.kind != "mark" and at not in covered and not _beside(text, token.text)
    ]
    return all(any(text.at(name, at) for name in (*_WHOLE, *_AMONG)) for at in left)

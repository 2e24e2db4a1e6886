"""An answer in a text, and what stands beside it: "yes many", "no the litter is wet", "1 wind came
up", "i dont know i am in town"; "the drinkers are full" to whether one is dry. Pure.

Called by `read` while a menu is open. What follows is read by itself; where it tells nothing ("yes,
a lot of them") the text is the answer alone.
"""

from __future__ import annotations

from collections.abc import Callable, Container
from dataclasses import dataclass, replace

from bot.facts.talk import Hearing, Intent, Meaning, Slots
from bot.understand.annotate import Text
from bot.understand.denial import BENIGN
from bot.understand.replies import (
    BEHAVIOUR,
    LITTER,
    LITTER_SIGNS,
    NUMBER_PROMPTS,
    UNSURE_OF,
    only_so_many,
    options_of,
)
from bot.understand.scene import THINGS
from bot.understand.sign import Signs
from bot.understand.spoken import BETTER, SAME, WORSE, Said
from bot.understand.tidy import BREAKS
from bot.understand.weigh import GRAVE_IN_MANY

SHORT = 6  # words behind a yes or no that may be left unread
SIGHS = (None, "other", "disease", "behaviour", "treatment")  # "yes, what do I do?"
# Where they are, their heat and their noise: of a few these tell no new trouble.
MILD = frozenset(
    {
        *("piled_near_heat", "crowded_one_side", "heap", "at_edges_or_walls", "away_from_heat"),
        *("noisy_distress", "panting", "wings_spread"),
    }
)
THIRST = "crowd_at_water"  # they do what cool water was set there for
PLACES = tuple(signs[0] for signs in BEHAVIOUR.values())
MENUS = ("yes_no", "behaviour", "litter", "worked", "done")
# A figure before one of these counts something, and is no digit of a menu.
_COUNTED = (
    *("bird", "dead", "lost", "culled", "@days", "@weeks", "n", "@out_of", "person", "count_verb"),
    *THINGS,
)


@dataclass(frozen=True, slots=True)
class Led:
    """answer: the code chosen ("yes", "wet", ...) or, for where the chicks are, its sign. rest: the
    words behind it. digit: chosen by a digit, beside which every word may be told."""

    answer: str
    rest: tuple[str, ...]
    digit: bool = False


def opening_answer(text: Text, hearing: Hearing) -> Led | None:
    """The answer that opens the text, None where there is none or where it denies what follows it
    ("no smell")."""
    prompt, options = hearing.prompt, options_of(hearing)
    start = _after_little(text, 0)
    led = _by_digit(text, prompt, options, start)
    if led is not None:
        return led
    words = (("unsure",) if prompt in UNSURE_OF else ()) + (  # "no idea" is no no
        ("yes", "no") if {"yes", "no"}.issubset(options) else ()
    )
    for answer in words:
        ends = [span.end for span in text.spans.get(f"@answer:{answer}", ()) if span.start == start]
        if not ends or text.at("@if", start):
            continue
        end = max(ends)
        if answer == "no" and not _stands_alone(text, start, end):
            return None
        return _led(text, answer, end)
    return None


@dataclass(frozen=True, slots=True)
class Figured:
    """An answer in figures that opens a text: its words, and the words behind it."""

    figure: tuple[str, ...]
    rest: tuple[str, ...]


def opening_figure(text: Text, hearing: Hearing) -> Figured | None:
    """ "0, the one I thought dead got up", "32 and they pant": the figure that was asked for, set
    off from what follows by a mark or a joining word."""
    if hearing.prompt not in NUMBER_PROMPTS:
        return None
    start = _after_little(text, 0)
    end = next((one.end for one in text.numbers if one.start == start and not one.weak), None)
    if end is None and hearing.prompt == "deaths":
        none = (*text.spans.get("@answer:no", ()), *text.spans.get("zero", ()))
        end = max((span.end for span in none if span.start == start), default=None)
        if end is not None and only_so_many(text) is not None:
            return None
    if end is None or end >= len(text.tokens):
        return None
    joined = text.at("@joins", end) or text.at("@clause", end)
    set_off = text.tokens[end].text in BREAKS or joined
    rest = tuple(token.text for token in text.tokens[_after_little(text, end) :])
    alone = end + 1 < len(text.tokens) and not any(one.start == end + 1 for one in text.numbers)
    if not (set_off and alone and rest):
        return None
    return Figured(tuple(token.text for token in text.tokens[start:end]), rest)


def read_figured(
    found: Figured, answer: Callable[[str], Meaning], free: Callable[[str], Meaning]
) -> Meaning | None:
    """The figure with what was told behind it; None where that is for the whole text to say."""
    head = answer(" ".join(found.figure))
    told = free(" ".join(found.rest))
    if head.intent is Intent.OTHER or told.intent in (Intent.STOP, Intent.ASK):
        return None
    kept = tuple(one for one in told.facts() if one.intent is not head.intent and _tells(one))
    if not kept:
        return head
    signals = tuple(dict.fromkeys((*head.signals, *(s for one in kept for s in one.signals))))
    many = tuple(dict.fromkeys((*head.many, *(s for one in kept for s in one.many))))
    denied = told.not_signals
    return Meaning(Intent.MULTI, Slots(), signals, denied, many, (head, *kept))


def _tells(one: Meaning) -> bool:
    return bool(one.signals or one.not_signals or one.slots != Slots())


def _by_digit(text: Text, prompt: str | None, options: tuple[str, ...], start: int) -> Led | None:
    """ "1 wind came up", "2, the goat tore the sack"; but "2 dead" and "3 chicks limp" count."""
    codes = _codes(prompt, options)
    number = next((one for one in text.numbers if one.start == start), None)
    if number is None or number.weak or number.value not in range(1, len(codes) + 1):
        return None
    end = counted = number.end
    while text.at("@answer:more", counted):
        counted += 1  # "3 more dead", "3 de plus sont morts"
    counts = any(text.at(name, counted) for name in _COUNTED) or any(
        name.startswith("@unit:") and text.at(name, end) for name in text.spans
    )
    counts = counts or (counted > end and text.has("dead", "lost"))
    told = number.spelt and end < len(text.tokens) and text.tokens[end].kind != "mark"
    counts = counts or told  # "two look sleepy"
    return None if counts else _led(text, codes[int(number.value) - 1], end, digit=True)


def _codes(prompt: str | None, options: tuple[str, ...]) -> tuple[str, ...]:
    if prompt == "behaviour":
        return tuple(signs[0] for signs in BEHAVIOUR.values())
    if prompt == "litter":
        return tuple(LITTER.values())
    return options if prompt in MENUS else ()


def _led(text: Text, answer: str, end: int, *, digit: bool = False) -> Led | None:
    rest = tuple(token.text for token in text.tokens[_after_little(text, end) :])
    return Led(answer, rest, digit) if rest else None


def in_words(led: Led | None, said: Said, text: Text) -> Led:
    """The answer with the options that were told in words. A digit stands, and others beside it
    where several may hold; words say more than a yes or no before them."""
    at = len(text.tokens) - len(led.rest) if led else 0
    used = () if said.tells_all else said.used
    rest = tuple(
        token.text for place, token in enumerate(text.tokens) if place >= at and place not in used
    )
    if led is None or not led.digit:
        return Led(said.options, rest, digit=True)
    several = dict.fromkeys((led.answer, *said.options.split("+"))) if said.several else ()
    return Led("+".join(several) or led.answer, rest, digit=True)


def read_led(led: Led, read: Callable[[str], Meaning]) -> Meaning | None:
    """The answer with what was told behind it; None where that is for the whole text to say."""
    told = read(" ".join(led.rest)) if led.rest else Meaning(Intent.OTHER)
    if told.intent is Intent.OBSERVE:
        return _with(led.answer, told)
    sigh = told.intent is Intent.ASK and told.slots.topic in SIGHS and told.slots.figure is None
    unread = told.intent in (Intent.OTHER, Intent.THANKS) and told.slots == Slots()
    short = sum(word.isalpha() for word in led.rest) <= SHORT or led.digit or led.answer == "unsure"
    if sigh or (unread and short):
        return _with(led.answer, Meaning(Intent.OTHER))
    if led.digit and told.intent is not Intent.STOP:
        return _both(led.answer, told)
    return None


def borne_out(told: Meaning, signs: Signs) -> Meaning:
    """What a piece of a text tells, without the signs that the whole does not: "in the wall" of a
    hole is no place of theirs."""
    found = _only(told, signs.present, signs.absent)
    return Meaning(Intent.OTHER) if found == Meaning(Intent.OTHER, found.slots) else found


def _only(told: Meaning, present: Container[str], absent: Container[str]) -> Meaning:
    """A meaning with no other signs than these."""
    parts = tuple(_only(one, present, absent) for one in told.parts)
    kept = tuple(one for one in told.signals if one in present)
    denied = tuple(one for one in told.not_signals if one in absent)
    if told.intent is Intent.OBSERVE and not (kept or denied or parts):
        return Meaning(Intent.OTHER, Slots(answer=told.slots.answer))
    return replace(
        told,
        signals=kept,
        not_signals=denied,
        many=tuple(one for one in told.many if one in kept),
        parts=parts,
    )


def of_change(found: Meaning, said: Said, beside: Meaning) -> Meaning:
    """What came of an advice, told in words: worse, none of its signs is gone ("crient plus fort");
    better, they show only what is told beside that, and calm ("less noise")."""
    if said.options == WORSE:
        return _only(found, found.signals, ())
    if said.options == BETTER:
        return _only(found, (*beside.signals, *BENIGN), found.not_signals)
    return found


def only_of_few(found: Meaning, text: Text) -> bool:
    """Whether all that is still wrong is told of a few, and of no new trouble: "better, some go
    back to the corner"."""
    few = {one.name for clause in text.clauses if clause.has("@few") for one in clause.readings}
    return {*(MILD & few), THIRST}.issuperset(set(found.signals) - BENIGN)


def with_danger(found: Meaning, signs: Signs, said: Said, danger: Container[str]) -> Meaning:
    """The answer, and the signs of danger that the whole text tells, illness of many among them;
    not where it only says that they get up. A no to what we asked takes no other illness away."""
    if said.options == "up":
        return found
    of_change_only = said.options in (BETTER, WORSE, SAME)
    grave = set() if of_change_only else {one for one in signs.many if one in GRAVE_IN_MANY}
    wanted = [
        one for one in signs.present if one in grave or (one in danger and said.options != "no")
    ]
    more = tuple(one for one in wanted if one not in found.signals)
    if not more:
        return found
    many = tuple(one for one in more if one in signs.many)
    return replace(found, signals=(*found.signals, *more), many=(*found.many, *many))


def _with(answer: str, told: Meaning) -> Meaning:
    options = answer.split("+")
    sign = tuple(
        sign for one in options for sign in LITTER_SIGNS.get(one, (one,) if one in PLACES else ())
    )
    if answer == "dry" and "litter_wet" not in told.signals:
        denied = tuple(dict.fromkeys(("litter_wet", *told.not_signals)))
        told = replace(told, intent=Intent.OBSERVE, not_signals=denied)
    if sign:
        signals = tuple(dict.fromkeys((*sign, *told.signals)))
        many = tuple(dict.fromkeys((*sign, *told.many)))
        told = replace(told, intent=Intent.OBSERVE, signals=signals, many=many)
    if options[0] in PLACES:
        return told
    return replace(told, slots=replace(told.slots, answer=answer))


def _both(answer: str, told: Meaning) -> Meaning:
    """The answer, and a fact of another kind behind it: "1, and two have died"."""
    chosen = _with(answer, Meaning(Intent.OTHER))
    signals = tuple(dict.fromkeys((*chosen.signals, *told.signals)))
    many = tuple(dict.fromkeys((*chosen.many, *told.many)))
    return replace(
        told,
        intent=Intent.MULTI,
        slots=chosen.slots,
        signals=signals,
        many=many,
        parts=(chosen, *told.facts()),
    )


def _after_little(text: Text, at: int) -> int:
    while at < len(text.tokens) and (
        text.tokens[at].kind == "mark" or text.at("@polite", at) or text.at("@joins", at)
    ):
        at += 1
    return at


def _stands_alone(text: Text, start: int, end: int) -> bool:
    """Whether a no only answers: a break behind it, or the beginning of a new statement."""
    if text.ends_at(end) or not text.at("@neg", start):
        return True
    if text.at("@few", end) and (text.at("@weak", end) or text.at("@verb", end)):
        return False  # "no one is coughing", "hakuna anayekohoa"
    return any(text.at(name, end) for name in ("@pronouns", "@article", "@few", "@neg", "litter"))

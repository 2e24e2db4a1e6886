"""Weighs what the words of a text say against what it is like: a meaning and an `Opinion` in, a
meaning out. Pure; called by `read` last of all.

The words decide where they are plain: answers to an open question, orders, figures. What the
examples say decides where the words found nothing or the examples are far apart, adds signs that no
pattern knows, and takes back those that a pattern found and no example bears out. Lines were drawn
on texts whose writers had not seen the words (DEVELOPERS.md, "Understanding").
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bot.facts.talk import Intent, Meaning, Slots
from bot.understand.deaths import danger_of
from bot.understand.likeness import Opinion
from bot.understand.scene import Scene
from bot.understand.signs import Signs

AHEAD = 0.3  # how far the likeliest intent must lead to stand against the words
AHEAD_FIGURES = 0.2  # and where figures would be taken down, which is asked first
AHEAD_DEATHS = 0.6  # and where the one figure is of deaths, and taken down at once
BORNE_OUT = -0.6  # a sign found by words stays above this; the only one above the next
BORNE_OUT_ONLY = -0.85
LIKE = 0.0  # a sign is taken above this where the words found none; beside others above the next
LIKE_TOO = 0.3
LIKEST = -0.45  # the likeliest sign of a text that tells what is seen and has no other
LIKEST_DANGER = -0.3
DENIED = -0.5  # a sign is denied above this; one that the words found above the next
DENIED_AGAINST = -0.1
TRUE_AFTER_ALL = -0.1  # a sign that the words found denied is seen above this
GRAVE = 0.15  # danger above this, though the words told of none
HARMLESS = -0.3  # a sign of danger that words found is doubted below this only
MANY_DEAD = "sudden_many_deaths"  # the figure decides, not the wording
ENOUGH = 4  # words of a text that is weighed
GUESSED, UNSURE = 0.5, 0.2
_ACTED_ON = (Intent.OBSERVE, Intent.ASK, Intent.STATUS, Intent.NEXT, Intent.HELP)
_TURNED = (Intent.OTHER, Intent.OBSERVE, Intent.ASK, Intent.THANKS)
_REACHED = frozenset(
    "plan register arrived observe temperature humidity deaths feed weight water treated sold "
    "status next ask undo start help".split()
)


def weigh(meaning: Meaning, opinion: Opinion, signs: Signs, scene: Scene) -> Meaning:
    """The meaning that words and likeness together bear out."""
    turned = _with_signs(_turned(meaning, opinion, signs, scene), opinion, scene)
    seen = turned.signals or turned.not_signals
    if meaning.intent is Intent.OTHER and turned.intent is Intent.OBSERVE and not seen:
        return meaning
    return turned


def settled(meaning: Meaning, scene: Scene) -> bool:
    """Whether the words alone decide: an answer, a question for a figure, STOP, and a few words,
    which the words know or nobody does."""
    plain = meaning.slots.answer is not None or meaning.slots.figure is not None
    few = sum(token.kind == "word" for token in scene.text.tokens) < ENOUGH
    return plain or few or meaning.intent is Intent.STOP


def _turned(meaning: Meaning, opinion: Opinion, signs: Signs, scene: Scene) -> Meaning:
    """The intent the examples stand for, where they are far enough ahead."""
    likeliest, ahead = opinion.likeliest()
    if meaning.intent in (Intent.ASK, Intent.OTHER) and _grave_alone(opinion, scene):
        return _seen(signs)
    nothing = meaning.intent is Intent.OTHER
    if likeliest == meaning.intent.value or (ahead <= AHEAD and not nothing):
        return meaning
    # A figure that was found, and one of several facts, is not given up.
    if meaning.intent not in _TURNED or likeliest not in _REACHED:
        return meaning
    wanted = Intent(likeliest)
    if nothing and wanted is not Intent.OBSERVE and scene.has("@future"):
        return meaning  # told of what is to come
    if wanted is Intent.OBSERVE:
        return _seen(signs)
    if wanted is Intent.ASK:
        return _asked(opinion)
    return _figure(meaning, wanted, ahead, scene)


def _grave_alone(opinion: Opinion, scene: Scene) -> bool:
    """A sign of danger so plain that a question around it does not matter."""
    return any(opinion.signs.get(one, -1.0) > GRAVE for one in scene.index.danger - {MANY_DEAD})


def _seen(signs: Signs) -> Meaning:
    return Meaning(
        Intent.OBSERVE, Slots(), signs.present, signs.absent, signs.many, confidence=GUESSED
    )


def _asked(opinion: Opinion) -> Meaning:
    topic = max(opinion.topics, key=lambda one: opinion.topics[one], default=None)
    return Meaning(Intent.ASK, Slots(topic=topic), confidence=GUESSED)


def _figure(meaning: Meaning, wanted: Intent, ahead: float, scene: Scene) -> Meaning:
    """A fact told in words that nobody knew, with its one figure. It is asked about before it is
    taken down; only deaths are not left waiting."""
    if meaning.intent is not Intent.OTHER:
        return meaning
    slots = _slots(wanted, scene)
    if wanted is Intent.DEATHS and slots.deaths and ahead > AHEAD_DEATHS:
        sign = danger_of(slots.deaths, scene.hearing.count)
        return Meaning(wanted, slots, sign, many=sign, confidence=GUESSED)
    if ahead <= AHEAD_FIGURES:
        return meaning
    return Meaning(wanted, slots, confidence=GUESSED if wanted in _ACTED_ON else UNSURE)


def _slots(wanted: Intent, scene: Scene) -> Slots:
    """The one figure of the text, where the intent takes one."""
    if len(scene.plain_numbers) != 1:
        return Slots()
    value = scene.plain_numbers[0].value
    match wanted:
        case Intent.DEATHS:
            return Slots(deaths=round(value))
        case Intent.REGISTER | Intent.PLAN | Intent.SOLD:
            return Slots(count=round(value))
        case Intent.TEMPERATURE:
            return Slots(value_c=value)
        case Intent.HUMIDITY:
            return Slots(rh_pct=value)
    return Slots()


def _with_signs(meaning: Meaning, opinion: Opinion, scene: Scene) -> Meaning:
    """Signs added and taken back, in the whole and in the part that tells of them."""
    watches = any(one.intent is Intent.OBSERVE for one in meaning.facts())
    dangers = scene.index.danger
    kept = dangers & set(meaning.signals) if opinion.danger > HARMLESS else frozenset()
    denied = [
        one
        for one, margin in opinion.denied.items()
        if margin > DENIED and one not in kept and _is_denied(one, opinion, meaning.signals)
    ]
    several = len(meaning.signals) > 1
    present = [
        one for one in meaning.signals if one in kept or _stays(one, opinion, denied, several)
    ]
    wrongly = [one for one in meaning.not_signals if watches and _is_true(one, opinion)]
    absent = [one for one in (*meaning.not_signals, *denied) if one not in wrongly]
    if watches:
        present += wrongly
        present += [one for one in _like(opinion, present) if one not in (*present, *absent)]
        if not present and not absent:
            present += _likest(opinion, dangers)
    many = [one for one in meaning.many if one in present]
    if watches and opinion.danger > GRAVE:
        if not dangers & set(present):
            present += [one for one in _likest(opinion, dangers) if one in dangers - set(absent)]
        many += [one for one in present if one not in many]
    absent = [one for one in dict.fromkeys(absent) if one not in present]
    return _changed(meaning, tuple(present), tuple(absent), tuple(many))


def _is_denied(sign: str, opinion: Opinion, found: Sequence[str]) -> bool:
    line = DENIED_AGAINST if sign in found else DENIED
    return opinion.denied[sign] > max(line, opinion.signs.get(sign, -1.0))


def _is_true(sign: str, opinion: Opinion) -> bool:
    """Denied by the words, and by nothing that it is like."""
    seen = opinion.signs.get(sign, -1.0) > TRUE_AFTER_ALL
    return seen and opinion.denied.get(sign, -1.0) < DENIED


def _stays(sign: str, opinion: Opinion, denied: Sequence[str], many: bool) -> bool:
    if sign == MANY_DEAD or sign not in opinion.signs:
        return True
    line = BORNE_OUT if many else BORNE_OUT_ONLY
    return opinion.signs[sign] > line and sign not in denied


def _like(opinion: Opinion, present: Sequence[str]) -> list[str]:
    """Signs that no words found, likeliest first."""
    line = LIKE_TOO if present else LIKE
    found = [one for one in opinion.signs if opinion.signs[one] > line and one != MANY_DEAD]
    return sorted(found, key=lambda one: -opinion.signs[one])


def _likest(opinion: Opinion, dangers: frozenset[str]) -> list[str]:
    """The likeliest sign of all, where a text that tells what is seen has none."""
    known = {one: at for one, at in opinion.signs.items() if one != MANY_DEAD}
    best = max(known, key=lambda one: known[one])
    denied = opinion.denied.get(best, -1.0) > known[best]
    line = LIKEST_DANGER if best in dangers else LIKEST
    return [best] if known[best] > line and not denied else []


def _changed(
    meaning: Meaning, present: tuple[str, ...], absent: tuple[str, ...], many: tuple[str, ...]
) -> Meaning:
    if (present, absent, many) == (meaning.signals, meaning.not_signals, meaning.many):
        return meaning
    parts = meaning.parts
    if parts:
        told = [one for one in parts if one.intent is not Intent.OBSERVE]
        carried = {sign for one in told for sign in one.signals}
        own = tuple(one for one in present if one not in carried)
        parts = tuple(
            replace(one, signals=own, not_signals=absent, many=many)
            if one.intent is Intent.OBSERVE
            else one
            for one in parts
        )
    return replace(meaning, signals=present, not_signals=absent, many=many, parts=parts)

"""Words the lines of a decision into one plain text of one part.

In: lines, a question, a voice (language, signer, vet). Out: text. Called by `turn` and `day.run`.
A value placed in a template is never expanded again.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time

from bot.facts.talk import Line, Question, Value
from bot.handbook.shape_texts import Texts, TextShape, Tongue
from bot.say.plain import plain
from bot.say.segments import measure

ONE_PART = 160
WEEK = 7
MOST_WORDED = 5_000  # lines whose wording is kept, some 300 bytes each
FACT = "fact"  # the role of a short piece of "Noted: 3 dead, 9 kg feed."


@dataclass(frozen=True, slots=True)
class Voice:
    """How to speak: the language code, the name that signs pushed texts, the vet's number. today:
    the farm's date, from which days are told; None: each day is told with its month."""

    language: str
    signer: str = ""
    vet_number: str | None = None
    today: date | None = None


def compose(
    lines: Sequence[Line], question: Question | None, voice: Voice, texts: Texts, *, pushed: bool
) -> str:
    """One text: signer (pushed only), lines, question. Lines that are not essential are left out,
    last first, when the whole does not fit in one part; then the facts noted are only counted."""
    kept = list(lines)
    while True:
        text = _join(kept, question, voice, texts, pushed=pushed, count_facts=False)
        if measure(text).parts <= 1:
            return text
        spare = [at for at, line in enumerate(kept) if not line.essential]
        if not spare:
            break
        del kept[spare[-1]]
    return _join(kept, question, voice, texts, pushed=pushed, count_facts=True)


def compose_all(
    lines: Sequence[Line], question: Question | None, voice: Voice, texts: Texts
) -> tuple[str, ...]:
    """The answer in one text; where what must be said does not fit in one part, in two, cut
    between two lines, the question at the end of the second; at the last it stands there alone.
    Where two are too few, as much as fits in the first, and the rest so again."""
    whole = compose(lines, question, voice, texts, pushed=False)
    if measure(whole).parts <= 1:
        return (whole,)
    cuts = [*range(len(lines) - 1, 0, -1), *([len(lines)] if lines and question else [])]
    for at in cuts:
        first = compose(lines[:at], None, voice, texts, pushed=False)
        second = compose(lines[at:], question, voice, texts, pushed=False)
        if measure(first).parts <= 1 and measure(second).parts <= 1:
            return (first, second)
    for at in cuts:
        first = compose(lines[:at], None, voice, texts, pushed=False)
        if measure(first).parts <= 1:
            return (first, *compose_all(lines[at:], question, voice, texts))
    return (whole,)


def word(line: Line, voice: Voice, texts: Texts) -> str:
    """The wording of one line with its values in place, all of it in one language."""
    known, key = texts.worded, (line.key, voice, *line.values.items())
    found = known.get(key)
    if found is None:
        if len(known) >= MOST_WORDED:
            known.clear()
        found = known[key] = _word(line, voice, texts)
    return found


def _word(line: Line, voice: Voice, texts: Texts) -> str:
    shape = texts.shapes[line.key]
    tongue = texts.speaker(line.key, voice.language)
    placed = {
        name: _value(kind, line.values.get(name, ""), voice, tongue)
        for name, kind in shape.values.items()
    }
    return plain(_form(shape, line, tongue).format_map(placed))


def _join(
    lines: Sequence[Line],
    question: Question | None,
    voice: Voice,
    texts: Texts,
    *,
    pushed: bool,
    count_facts: bool,
) -> str:
    facts = [line for line in lines if texts.shapes[line.key].role == FACT]
    pieces = [f"{voice.signer}:"] if pushed and voice.signer else []
    if facts:
        pieces.append(_noted(facts, voice, texts, count_facts))
    pieces += [word(line, voice, texts) for line in lines if line not in facts]
    if question is not None:
        pieces.append(word(question.line, voice, texts))
    return " ".join(piece for piece in pieces if piece)


def _noted(facts: Sequence[Line], voice: Voice, texts: Texts, count_facts: bool) -> str:
    if count_facts and len(facts) > 1:
        return word(Line("noted_all", {"n": len(facts)}), voice, texts)
    listed = ", ".join(word(line, voice, texts) for line in facts)
    return word(Line("noted", {"list": listed}), voice, texts)


def _form(shape: TextShape, line: Line, tongue: Tongue) -> str:
    wording = tongue.wordings[shape.key]
    if isinstance(wording, str):
        return wording
    number = line.values.get("n", 0)
    single = isinstance(number, int | float) and (
        abs(number) < tongue.one_below if tongue.one_below else number == 1
    )
    return wording["one" if single else "other"]


def _value(kind: str, value: Value, voice: Voice, tongue: Tongue) -> str:
    if kind.startswith("word:"):
        return tongue.terms[kind.removeprefix("word:")].get(str(value), str(value))
    if kind == "signer":
        return voice.signer
    if kind == "vet":
        return vet(voice, tongue.terms)
    if kind == "date" and isinstance(value, date):
        return day_name(value, tongue.terms, voice.today)
    if kind == "hour" and isinstance(value, datetime | time):
        return clock(value, tongue.terms)
    if kind == "phone":
        return str(value or voice.vet_number or "")
    return figure(value)


def vet(voice: Voice, terms: Mapping[str, Mapping[str, str]]) -> str:
    """The vet with the number to call, or the language's word where no number is set."""
    words = terms["vet"]
    if voice.vet_number:
        return words["with_number"].replace("{number}", voice.vet_number)
    return words["plain"]


def day_name(day: date, terms: Mapping[str, Mapping[str, str]], today: date | None) -> str:
    """ "Wednesday 4" in this month or within a week, where no other day has that name and number;
    else the number and the month, "20 May"."""
    near = today is not None and abs((day - today).days) <= WEEK
    if near or (today is not None and (day.year, day.month) == (today.year, today.month)):
        return f"{terms['weekday'][str(day.weekday())]} {day.day}"
    return f"{day.day} {terms['month'][str(day.month)]}"


def clock(at: datetime | time, terms: Mapping[str, Mapping[str, str]]) -> str:
    """The hour to five minutes, as the language counts it: where `terms.clock.sunrise` is 6, the
    day's hours are counted from six in the morning and the night's from six in the evening."""
    minutes = round((at.hour * 60 + at.minute) / 5) * 5 % (24 * 60)
    hour, minute = divmod(minutes, 60)
    sunrise = int(terms.get("clock", {}).get("sunrise", "0"))
    if not sunrise:
        return f"{hour:02d}:{minute:02d}"
    return f"{(hour - sunrise) % 12 or 12}:{minute:02d}"


def figure(value: Value) -> str:
    """A number as a farmer reads it: no needless decimals, no signs that cost a second part."""
    if isinstance(value, datetime):
        return value.strftime("%H:%M")
    if isinstance(value, float):
        return f"{round(value, 1):g}" if abs(value) < 100 else f"{round(value)}"
    if isinstance(value, time):
        return value.strftime("%H:%M")
    return str(value)

"""How much is answered, and to whom: every limit with its default. Read from the settings
(BROODPOST_LIMITS), kept to by turn.choose and turn.caps, shown in /metrics.

STOP and danger come before all of them.
"""

from __future__ import annotations

from dataclasses import dataclass, field

# What a cooperative may set lower for its own phones.
OWN_LIMITS = ("answers_hour", "answers_talking", "answers_day")
MOST_ANSWERS = 400  # a phone and day that are counted: no limit of a phone's answers lies above


@dataclass(frozen=True, slots=True)
class Limits:
    """answers_hour, answers_talking, answers_day: answers a phone, an hour (the second while a talk
    advances) and a day. stranger_day: answers to one number that has not joined. same_texts: this
    often within ten minutes, none of them an answer, and the phone is muted. aimless_minute: so
    many texts a minute that are not understood mute it too. mute_hours: for how long.
    strangers_day, joins_day: answers a day to all numbers that have not joined, and how many may
    join. misses_minute: "not understood" a minute to all phones together; beyond it nobody is told
    so (two services that answer each other through many phones). caretakers_day: phones that one
    phone may name a day. dials_day: sessions of the phone's own menu (USSD) that
    one phone is served a day; whoever pays for them pays no more."""

    answers_hour: int = 10
    answers_talking: int = 20
    answers_day: int = 30
    stranger_day: int = 15
    same_texts: int = 3
    aimless_minute: int = 5
    mute_hours: int = 6
    strangers_day: int = 300
    joins_day: int = 500
    misses_minute: int = 120
    caretakers_day: int = 3
    dials_day: int = 30


@dataclass(frozen=True, slots=True)
class House:
    """What a turn keeps to beside the handbook. key: of the hashes that stand for forgotten
    numbers. countries: calling codes ("254") of unknown numbers that may be answered, beside that
    of our own number and of the cooperative's region; "all" among them: every one."""

    limits: Limits = field(default_factory=Limits)
    key: bytes = b""
    countries: tuple[str, ...] = ()

"""Deaths told by nothing but two figures and a time, or that they are gone: "9 out of 200 in one
night", "4 gone of my 300". In: a `Scene`.
Out: how many died, 0 where it is no such text. Pure; called by `read` where nothing else was found.
"""

from __future__ import annotations

from bot.understand.scene import Scene

OF_THE_TIME = ("hour_word", "die_many", "@harmless", "@day:0", "@day:-1")
BETWEEN = ("@out_of", "~gone", "~are")  # "4 are gone of my 300"
LITTLE = (*OF_THE_TIME, "@common", "before_rest", "near", "@few", "@polite", "@article", "~this")


def gone_of_flock(scene: Scene) -> int:
    """The first figure, where it is out of the second and only a time is told beside them, or that
    they are gone."""
    text = scene.text
    figures = [one for one in scene.plain_numbers if not one.weak]
    if len(figures) != 2 or any(one.asked for one in text.clauses):
        return 0
    part, flock = figures
    between = range(part.end, flock.start)
    if not 0 < 2 * part.value <= flock.value or not between:
        return 0
    gone = any(text.at("~gone", at) for at in between)
    if not all(any(text.at(name, at) for name in BETWEEN) for at in between):
        return 0
    rest = [
        at
        for at, token in enumerate(text.tokens)
        if token.kind != "mark" and not part.start <= at < flock.end
    ]
    timed = gone or any(text.at(name, at) for name in OF_THE_TIME for at in rest)
    plain = all(any(text.at(name, at) for name in LITTLE) for at in rest)
    return round(part.value) if timed and plain else 0

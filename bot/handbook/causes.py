"""Loads content/signs.yaml and content/causes/*.yaml. In: the content folder. Out: `Causes`.

Called by `handbook.load`. Refused: an unknown sign or condition, a figure that is no probability,
a temperature row that does not add up to one, a heat or house without an action.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path

from bot.handbook.shape_causes import (
    BANDS,
    CONDITIONS,
    HEATS,
    HOURS,
    HOUSES,
    OTHERWISE,
    STOVES,
    VERDICTS,
    Cause,
    Causes,
    Chance,
    Instead,
    Sign,
)
from bot.handbook.strict import Section, read_section

CAUSES = (
    "cold",
    "hot",
    "draught",
    "uneven_heat",
    "damp_litter",
    "ammonia",
    "thirst",
    "hunger",
    "crowding",
    "fumes",
    "sick",
    "predator",
    "feed_problem",
    "comfortable",
)
WORKED = ("same", "worse")
ANY = "any"
MOST_HARM = 10


def load_causes(content: Path, sources: Collection[str]) -> Causes:
    """The evidence model. sources: the ids of content/sources.yaml. Raises HandbookError naming
    the file and the key."""
    top = read_section(content / "signs.yaml")
    weighing = top.section("weighing")
    signs = _signs(top.section("signs"))
    worked = weighing.section("worked")
    _sources(top, sources)
    found = Causes(
        signs=signs,
        causes={code: _cause(content, code, signs, sources) for code in CAUSES},
        accept=_chance(weighing, "accept"),
        also=_chance(weighing, "also"),
        either=_chance(weighing, "either"),
        worked={answer: _chance(worked, answer) for answer in WORKED},
        row=weighing.whole("questions_in_a_row"),
        asking=_harm(weighing, "question_costs"),
    )
    for section in (worked, weighing, top):
        section.done()
    _refuse_strangers(content)
    return found


def _refuse_strangers(content: Path) -> None:
    for path in sorted((content / "causes").glob("*.yaml")):
        if path.stem not in CAUSES:
            read_section(path).refuse("", "is not a cause")


def _chance(section: Section, key: str) -> float:
    figure = section.number(key)
    if not 0 < figure < 1:
        section.refuse(key, "must lie between 0 and 1, neither included")
    return figure


def _sources(section: Section, sources: Collection[str]) -> tuple[str, ...]:
    """Where the figures come from; every id must stand in sources.yaml."""
    found = section.texts("source")
    for one in found:
        if one not in sources:
            section.refuse("source", f"{one} is not in sources.yaml")
    return found


def _signs(section: Section) -> dict[str, Sign]:
    found = {code: _sign(section.section(code), code) for code in section.keys()}
    for code, sign in found.items():
        for other in sign.contradicts:
            if other not in found:
                section.refuse(f"{code}.contradicts", f"{other!r} is not a sign")
    return found


def _sign(section: Section, code: str) -> Sign:
    ease = section.number("ease")
    danger = section.whole("danger")
    if not 0 < ease <= 1:
        section.refuse("ease", "must lie above 0, up to 1")
    if danger not in range(4):
        section.refuse("danger", "must be 0, 1, 2 or 3")
    sign = Sign(
        code=code,
        kind=section.text("kind"),
        ease=ease,
        danger=danger,
        base=_chance(section, "base"),
        ask=section.flag("ask", False),
        alone_asks=section.flag("alone_asks", False),
        calm=section.flag("calm", False),
        contradicts=section.texts("contradicts", ()),
        leads_to=section.texts("leads_to", ()),
        leads_alone=section.flag("leads_alone", False),
        leads_not_with=section.texts("leads_not_with", ()),
        ours=section.flag("ours", False),
    )
    section.done()
    return sign


def _cause(content: Path, code: str, signs: Mapping[str, Sign], sources: Collection[str]) -> Cause:
    section = read_section(content / "causes" / f"{code}.yaml")
    cause = Cause(
        code=code,
        prior=_conditional(section, "prior", 0.0),
        times=_factors(section.section("times")),
        danger=section.whole("danger"),
        check_in=section.whole("check_in"),
        temperature=_temperature(section.section("temperature")),
        signs=_likelihoods(section.section("signs"), signs),
        actions=_actions(section.section("actions")),
        harm=_harms(section.section("harm"), code),
        instead=tuple(_instead(one, signs) for one in section.sections("instead")),
        source=_sources(section, sources),
    )
    section.done()
    return cause


def _conditional(section: Section, key: str, base: float) -> Chance:
    """A figure, or a mapping of conditions to figures; `base` where `otherwise` is not said."""
    if not isinstance(section.take(key), dict):
        return Chance(_chance(section, key), {})
    inner = section.section(key)
    when = {one: _chance(inner, one) for one in inner.keys() if one != OTHERWISE}
    otherwise = _chance(inner, OTHERWISE) if inner.has(OTHERWISE) else base
    _only_conditions(inner, when)
    if OTHERWISE not in inner.keys() and not base and not set(BANDS) <= set(when):
        inner.refuse(OTHERWISE, "is missing, and not every age has a figure")
    # Without a known age, the middle of what the bands say.
    return Chance(otherwise or sorted(when.values())[len(when) // 2], when)


def _only_conditions(section: Section, when: Mapping[str, float]) -> None:
    for one in when:
        if one not in CONDITIONS:
            section.refuse(one, "is not a condition")


def _factors(section: Section) -> dict[str, float]:
    found = {one: section.number(one) for one in section.keys()}
    _only_conditions(section, found)
    for one, figure in found.items():
        if figure <= 0:
            section.refuse(one, "must be above 0")
    return found


def _temperature(section: Section) -> dict[str, float]:
    found = {verdict: _chance(section, verdict) for verdict in VERDICTS}
    section.done()
    if abs(sum(found.values()) - 1) > 1e-9:
        section.refuse("", "does not add up to 1")
    return found


def _likelihoods(section: Section, signs: Mapping[str, Sign]) -> dict[str, Chance]:
    for code in section.keys():
        if code not in signs:
            section.refuse(code, "is not a sign of signs.yaml")
    return {
        code: _conditional(section, code, sign.base) if section.has(code) else Chance(sign.base, {})
        for code, sign in signs.items()
    }


def _harms(section: Section, code: str) -> dict[str, float]:
    """What the action for a cause harms under each of the others; none under its own."""
    for one in section.keys():
        if one not in (*CAUSES, OTHERWISE) or one == code:
            section.refuse(one, "is not another cause")
    otherwise = _harm(section, OTHERWISE)
    found = {one: _harm(section, one) if section.has(one) else otherwise for one in CAUSES}
    return {**found, code: 0.0}


def _harm(section: Section, key: str) -> float:
    figure = section.number(key)
    if not 0 <= figure <= MOST_HARM:
        section.refuse(key, "must lie between 0 and 10")
    return figure


def _actions(section: Section) -> dict[tuple[str, str], tuple[str, ...]]:
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for house in HOUSES:
        inner = section.section(house)
        for heat in HEATS:
            keys = inner.texts(ANY) if inner.has(ANY) else inner.texts(heat)
            if not keys:
                inner.refuse(heat, "has no action")
            found[house, heat] = keys
        inner.done()
    section.done()
    return found


def _instead(section: Section, signs: Mapping[str, Sign]) -> Instead:
    found = Instead(
        action=section.text("action"),
        sign=_text(section, "sign"),
        heats=section.texts("heat", ()),
        bands=section.texts("band", ()),
        house=_text(section, "house"),
        also=_text(section, "also"),
        hours=section.texts("hour", ()),
        stoves=_text(section, "stoves"),
        then=_text(section, "then"),
    )
    section.done()
    for key, said, known, what in (
        ("sign", _one(found.sign), tuple(signs), "a sign of signs.yaml"),
        ("heat", found.heats, HEATS, "a kind of heat"),
        ("band", found.bands, BANDS, "an age band"),
        ("house", _one(found.house), HOUSES, "a house"),
        ("also", _one(found.also), CAUSES, "a cause"),
        ("hour", found.hours, HOURS, "an hour of the day"),
        ("stoves", _one(found.stoves), STOVES, "one or many"),
    ):
        if not set(said) <= set(known):
            section.refuse(key, f"is not {what}")
    return found


def _text(section: Section, key: str) -> str | None:
    return section.text(key) if section.has(key) else None


def _one(said: str | None) -> tuple[str, ...]:
    return () if said is None else (said,)

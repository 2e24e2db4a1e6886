"""What the words of a text tell plainly, so that likeness takes nothing back of it. In: a `Scene`.
Out: names of signs. Pure; called by `weigh`.
"""

from __future__ import annotations

from collections.abc import Iterable

from bot.understand.annotate import Clause
from bot.understand.how_many import so_many_behind
from bot.understand.scene import Scene
from bot.understand.supposed import told_at_mine

DENIES = ("@neg", "@negafter", "@gone", "@others", "@if", "@maybe_if", "@answer:no")
TAKES_BACK = (*DENIES, "@past")
OWN_DENIAL = ("@neg", "@negafter", "@gone")  # where these are words of the sign itself
FAR = frozenset({"at_edges_or_walls", "away_from_heat"})
OF_HEAT = FAR | {"panting", "wings_spread"}
CLOSE = 4  # words from "it is" to what it is


def _read_in(clauses: Iterable[Clause]) -> set[str]:
    return {one.name for clause in clauses for one in clause.readings}


def denied_by_its_verb(scene: Scene) -> set[str]:
    """ "kuku wangu hawaharishi damu kabisa": a verb that denies, what it denies right behind it,
    and no word more that tells of anything."""
    found: set[str] = set()
    for clause in scene.text.clauses:
        for one in clause.readings:
            close = one.denied and not one.deniers and one.end - one.start == len(one.used)
            if close and all(_idle(scene, at) for at in range(one.end, clause.end)):
                found.add(one.name)
    return found - _told(scene)


def denied_here(scene: Scene) -> set[str]:
    """Signs that are denied in some reading."""
    return {one.name for clause in scene.text.clauses for one in clause.readings if one.denied}


def _told(scene: Scene) -> set[str]:
    return {one.name for clause in scene.text.clauses for one in clause.readings if not one.denied}


def _idle(scene: Scene, at: int) -> bool:
    names = ("@polite", "@common", "@now", "@day:0", "~again")
    return any(scene.text.at(name, at) for name in names)


def since(scene: Scene) -> set[str]:
    """ "there is wind since last night": what began then and is not denied is so now."""
    return _read_in(one for one in scene.text.clauses if one.has("@since") and not one.has(*DENIES))


def not_denied(scene: Scene) -> set[str]:
    """Signs in clauses in which nothing denies ("kama" is an "if" or a mere "like")."""
    denies = [name for name in DENIES if name != "@maybe_if"]
    return _read_in(one for one in scene.text.clauses if not one.has(*denies))


def at_mine(scene: Scene) -> set[str]:
    """Signs told of the own house in so many words."""
    return _read_in(one for one in scene.text.clauses if told_at_mine(one))


def befallen(scene: Scene) -> set[str]:
    """ "diarrhoea has seized them": told of as there, whatever is asked behind it."""
    return _read_in(
        one for one in scene.text.clauses if one.has("befallen") and not one.has(*DENIES)
    )


def seen_again(scene: Scene) -> set[str]:
    """ "wamevimba macho tena", "wameanza tena kulia": right behind what is so, or that it began."""
    found = set()
    for clause in scene.text.clauses:
        places = clause.spans.get("~again", ()) if not clause.has(*DENIES) else ()
        if places and any(one.denied for spans in clause.spans.values() for one in spans):
            continue  # "hawapumui kwa mdomo wazi tena": no more
        for again in places:
            begun = scene.text.at("~begun", again.start - 1)
            found |= {
                one.name
                for one in clause.readings
                if not (one.denied or one.past) and (begun or again.start - 1 in one.used)
            }
    return found


def begun_anew(scene: Scene) -> set[str]:
    """ "no rain today they are panting", "yesterday well now they all cough", "not diarrhoea, it is
    blood": signs of a statement that begins behind a denial, or of now behind one of then."""
    found = set()
    then = False
    for clause in scene.text.clauses:
        spans = clause.spans
        deniers = [one for name in OWN_DENIAL for one in spans.get(name, ())]
        past = [one.start for one in spans.get("@past", ())]
        birds = {one.start for name in ("@plural", "@whole") for one in spans.get(name, ())}
        begun = [at for at in clause.anew if any(one.end <= at for one in deniers)]
        now = [
            one.start for one in spans.get("@now", ()) if then or any(at < one.start for at in past)
        ]
        then = then or bool(past)
        if clause.has("@others", "@if", "@maybe_if", "@question"):
            continue
        over = max((*past, *(one.start for one in deniers)), default=-1)
        for start in (at for at in (*begun, *now) if at > over):
            far = clause.end if start in birds or start in now else start + CLOSE
            found |= {
                one.name
                for one in clause.readings
                if not one.denied and start <= max(one.used, default=one.start) <= far
            }
    return found


def in_a_clause_apart(scene: Scene) -> set[str]:
    """ "blood in the droppings, I have a drug of the last batch, how much do I mix?": of the last
    batch is the drug, and not the blood."""
    return _read_in(one for one in scene.text.clauses if not one.has(*TAKES_BACK))


def told_apart(scene: Scene) -> set[str]:
    """ "the strong ones eat the toes of the weak, they are not alike": told in several words, in a
    clause in which nothing denies; what another denies is not that."""
    plain = [one for one in scene.text.clauses if not one.has(*TAKES_BACK, "@question")]
    if len(plain) == len(scene.text.clauses):
        return set()
    told = (one for clause in plain if not clause.asked for one in clause.readings)
    return {one.name for one in told if one.weight > 1}


def of_heat(scene: Scene) -> set[str]:
    """ "colles aux murs, ailes ouvertes": what chicks do that are too hot, two such signs by each
    other in one clause in which nothing denies."""
    found = set()
    for clause in scene.text.clauses:
        read = _read_in([clause]) & OF_HEAT
        if len(read) > 1 and not read <= FAR and not clause.has(*TAKES_BACK):
            found |= read
    return found


def by_itself(scene: Scene) -> set[str]:
    """Signs of many birds in a sentence in which nothing denies: what the next one says of a
    neighbour or of yesterday takes nothing back."""
    found = set()
    for clause in scene.text.clauses:
        if so_many_behind(scene.text, clause) and not clause.has(*DENIES):
            found |= {one.name for one in clause.readings}
        if clause.readings and clause.has("@many", "@whole", "others_rest"):
            alone = clause.has("others_rest")  # what was told of one before is not of these
            sentence = [one for one in scene.text.clauses if one.sentence == clause.sentence]
            if not any(one.has(*TAKES_BACK) for one in ([clause] if alone else sentence)):
                found |= {one.name for one in clause.readings}
    return found


def by_denial(scene: Scene) -> set[str]:
    """Signs whose words hold the negator themselves ("ils n'ont pas la meme taille", "the feed is
    finished"): it takes nothing back."""
    found = set()
    for clause in scene.text.clauses:
        spans = [span for name in OWN_DENIAL for span in clause.spans.get(name, ())]
        negators = {span.start for span in spans}
        if negators:
            found |= {one.name for one in clause.readings if not negators.isdisjoint(one.used)}
    return found

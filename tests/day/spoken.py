"""What a text tells to do, read off its words in each language, as a farmer would: this knows
nothing of rows, keys or `does`. Used by the tests of whole days and their conversations.

A sentence behind "Piled up?" or "Still open beaks:" tells what to do in that case only, and does
not count. Nor does "the top stays open on two sides", which goes with every fire.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from bot.proof.phrases import found, without

OPPOSITES = (
    ("heat_more", "heat_less"),
    ("open", "close"),
    ("wider", "tighter"),
    ("move", "stay"),
    ("sell", "hold"),
)
ACTS: dict[str, dict[str, tuple[str, ...]]] = {
    "en": {
        "heat_more": (
            "one|another more stove",
            "more heat",
            "stove*|bulb*|heater* lit|on",
            "light a stove",
            "light stove*",
            "fire lit outside",
            "relight stove*",
            "turn gas higher",
            "bulb lower",
            "bulb* there",
            "one stove",
            "stove* fuel",
            "then heat",
            "heat on",
            "relight",
            "light the gas",
            "burn wood",
            "hang bulbs on",
            "bulb|heater a hand lower",
            "embers",
        ),
        "heat_less": (
            "less heat",
            "stove* out",
            "hang bulbs hand higher",
            "one out by handle",
            "heat ends",
            "no more heat",
            "bulb* off",
            "gas lower",
            "heat|gas|heater off",
            "switch off",
            "nothing more on fire",
            "no fire in",
            "power off",
        ),
        "open": (
            "open one|a|both|all side*|curtain*",
            "side* wide open",
            "curtain* open",
            "let* air in",
            "curtain* fully|wide open",
            "both sides open",
            "open up",
            "leave it open",
        ),
        "close": (
            "close windward|windy|curtain*",
            "curtain*|side closed",
            "windy curtain",
            "stop that hole",
            "sack or board",
            "sack windy side",
        ),
        "wider": ("widen", "open it to", "more floor|room"),
        "tighter": ("tighter ring", "smaller pen|ring", "less room"),
        "move": ("move today", "move tomorrow", "new house today"),
        "stay": ("no moving", "slaughter moving"),
        "sell": (
            "find your buyer",
            "may sell",
            "catching at dawn",
            "catch calmly",
            "sell as before",
        ),
        "hold": ("no sale", "not sell", "sell and eat none"),
    },
    "fr": {
        "heat_more": (
            "feu*|fourneau* de plus",
            "plus de chaleur",
            "feu*|ampoule* allume*",
            "feu allume dehors",
            "combustible",
            "allumez dehors",
            "rallumez",
            "ouvrez plus gaz",
            "main plus bas",
            "ampoule* la-bas",
            "un feu combustible",
            "un fourneau",
            "feu* combustible",
            "puis chaleur",
            "allumez radiant|gaz|rechaud",
            "ampoules de chauffage",
            "chauffage oui",
            "ampoules et reserve",
            "brulez le bois",
            "portez braises",
            "ampoules sur chaine",
        ),
        "heat_less": (
            "moins de chaleur",
            "sortez un|le fourneau|feu",
            "sortez-en|sortez-le",
            "fin du feu",
            "sans chauffage|feu",
            "eteignez",
            "coupez un|le radiant|chauffage",
            "moins de gaz",
            "plus haut",
            "une eteinte",
            "gaz coupe",
            "ampoules eteintes",
            "rien au feu",
            "pas de feu dedans",
            "sans courant",
            "pas plus de chaleur",
            "courant coupe",
        ),
        "open": (
            "ouvrez plus un cote",
            "rideaux ouverts",
            "ouvrez tous les rideaux",
            "ouvrez 2 cotes",
            "cotes grands ouverts",
            "ouvrez les rideaux",
            "ouvrez plus en haut",
            "aerez",
            "laissez ouvert",
            "ouvrez attendez",
        ),
        "close": (
            "fermez rideau*|les",
            "rideau* ferme*",
            "rideau du vent",
            "bouchez ce trou",
            "sac ou planche",
            "sac cote du vent",
        ),
        "wider": ("agrandissez", "cercle plus grand", "plus de place", "ouvrez a"),
        "tighter": ("cercle serre", "parc plus petit", "moins de place"),
        "move": ("transfert", "nouveau local"),
        "stay": ("abattage transport", "ne pas deplacer"),
        "sell": ("cherchez acheteur", "vente possible", "ramassage", "ramassez"),
        "hold": ("ni vente", "pas vendre", "pas de vente"),
    },
    "sw": {
        "heat_more": (
            "washa jiko|majiko jingine|nje",
            "jiko|majiko moja|mkaa|liwake|yawake",
            "yawake|liwake",
            "joto zaidi",
            "ongeza joto",
            "zidisha gesi",
            "taa za joto",
            "taa ziwake|zote ziwake",
            "kisha joto",
            "pasha joto",
            "mkaa karibu",
            "makaa",
            "sogeza taa karibu",
            "ongeza moja",
            "washa jiko la gesi",
            "tundika taa",
            "choma kuni",
        ),
        "heat_less": (
            "punguza joto|gesi|moto",
            "taa mbali nao",
            "zima moja",
            "toa jiko|moja",
            "joto basi",
            "bila joto",
            "zima taa|jiko|joto",
            "usiongeze moto|joto",
            "funga gesi",
            "libaki|likae nje",
            "umezimwa",
            "zima umeme",
        ),
        "open": ("fungua mapazia|pande|tena", "panua wazi", "mapazia wazi", "fungua subiri"),
        "close": (
            "funga pazia",
            "pazia lifungwe",
            "kisha pazia",
            "ziba tundu hilo",
            "gunia|ubao upande wa upepo",
        ),
        "wider": ("panua hadi", "panua duara", "panua m2", "nafasi kubwa"),
        "tighter": ("duara dogo", "nafasi ndogo"),
        "move": ("hamisha", "wanahama", "banda jipya"),
        "stay": ("usihamishe",),
        "sell": ("tafuta mnunuzi", "waweza kuuza", "kukamata", "kamata"),
        "hold": ("usiuze", "wala kula"),
    },
}
# Said of the gap above every fire, of how a fire is lit, and of what is wrong.
ASIDE = {
    "en": (
        "top stays|open on two sides",
        "leave the top open",
        "ask again at",
        "power off new bulb",
        "others off",
    ),
    "fr": ("haut ouvert sur 2 cotes", "coupez changez-la"),
    "sw": (
        "wazi juu pande mbili",
        "juu wazi pande mbili",
        "labda nafasi ndogo",
        "njaa na nafasi ndogo",
        "zima umeme weka taa mpya",
    ),
}
AS_IT_IS = {
    "en": ("no less heat", "heat of last night or more"),
    "fr": ("pas moins de chaleur",),
    "sw": ("usipunguze joto", "joto lisiwe chini"),
}
NIGHT = {
    "en": r"at night|tonight|^tonight",
    "fr": r"la nuit|ce soir",
    "sw": r"usiku",
}
NIGHT_TEXTS = {
    "en": r"night:|tonight\b|at -?\d+ c outside",
    "fr": r"nuit:|chez (vous|la plupart)|a -?\d+ c dehors",
    "sw": r"usiku:|usiku \w+ (hu|ya|ku)|usiku mabanda|usiku banda|nje -?\d+ c",
}
ONLY_IF = {
    "en": r"\b(open beaks|piled( up)?|spread|cold feet)\b[^.]*:|^if\b|^before you|^fire:|^gas:",
    "fr": r"\b(becs? ouverts?|en tas|repartis)\b[^.]*:|^s'il|^feu:|^gaz:|^l'air du feu"
    r"|^ouvrez, attendez|quand ils se serrent",
    "sw": r"\b(midomo wazi|wamerundikana|wametawanyika|rundo)\b[^.]*:"
    r"|\bwaki(kusanyika|rundikana|lia)|^moto:|^gesi:|^kabla ya kuingia",
}


@dataclass(frozen=True)
class Told:
    """What a text tells to do now, and what in the night."""

    now: frozenset[str]
    night: frozenset[str]


def told_by(text: str, language: str) -> Told:
    """Read one text, with or without its signer."""
    text = re.sub(r"^mkulima: |^broodpost: |^m+: ", "", text.lower())
    whole_night = re.match(r"(\w+ ?\w*: )?(" + NIGHT_TEXTS[language] + ")", text) is not None
    now: set[str] = set()
    night: set[str] = set()
    for sentence in _plain(text, language):
        at_night = whole_night or re.search(NIGHT[language], sentence)
        (night if at_night else now).update(_acts(sentence, language))
    return Told(frozenset(now), frozenset(night))


def _plain(text: str, language: str) -> Iterable[str]:
    """The sentences that hold in any case."""
    asked = False
    for sentence in re.split(r"(?<=[.?!])\s+", text):
        if not asked and not sentence.endswith("?") and not re.search(ONLY_IF[language], sentence):
            yield sentence
        asked = sentence.endswith("?")


def _acts(sentence: str, language: str) -> set[str]:
    """ "No less heat than now" is no less heat, and "carry one stove out" is no stove more."""
    words = ACTS[language]
    left = without(ASIDE[language], sentence)
    kept = without(AS_IT_IS[language], left)
    acts = {"heat_more"} if kept != left else set()
    less = without(words["heat_less"], kept)
    return acts | {
        act
        for act, phrases in words.items()
        if found(phrases, less if act == "heat_more" else kept)
    }


def against(some: frozenset[str], others: frozenset[str]) -> list[tuple[str, str]]:
    """The pairs in which these tell the opposite of those."""
    return [
        (a, b) for pair in OPPOSITES for a, b in (pair, pair[::-1]) if a in some and b in others
    ]

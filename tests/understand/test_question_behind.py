"""A sign of danger in many is referred whatever is asked behind it; the same words in a general
question are none. Worded for this test: each sign with each ending, in each language."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

OF_MANY = {
    "en": (
        "most of my chicks are gasping",
        "there is blood in their droppings",
        "all of them are sick",
        "many have swollen heads",
        "several have twisted necks",
        "half of the flock is dull",
        "30 of them have white diarrhoea",
        "all the birds are weak and cannot stand",
        "many have closed swollen eyes",
        "most are coughing and sneezing",
        "the brooder is full of smoke",
        "25 died this morning",
    ),
    "fr": (
        "la plupart cherchent l'air",
        "il y a du sang dans leurs fientes",
        "ils sont tous malades",
        "beaucoup ont la tete enflee",
        "plusieurs ont le cou tordu",
        "la moitie du lot est abattue",
        "30 ont la diarrhee blanche",
        "tous sont faibles et ne se levent pas",
        "beaucoup ont les yeux fermes et gonfles",
        "la plupart toussent et eternuent",
        "la poussiniere est pleine de fumee",
        "25 sont morts ce matin",
    ),
    "sw": (
        "wengi wanahema kwa shida",
        "wana damu kwenye kinyesi",
        "wote wanaumwa",
        "wengi wamevimba vichwa",
        "kadhaa wamepinda shingo",
        "nusu ya kundi wamezubaa",
        "30 wanaharisha nyeupe",
        "wote wamelegea hawawezi kusimama",
        "wengi wamefumba macho yamevimba",
        "wengi wanakohoa na kupiga chafya",
        "banda limejaa moshi",
        "25 wamekufa asubuhi",
    ),
}
BEHIND = {
    "en": (
        "what do i do?",
        "what should i do",
        "help",
        "please help me",
        "is it serious?",
        "is this normal",
        "why?",
        "what is the problem?",
        "what can i give them?",
        "will they die?",
        "which disease is this?",
        "should i call someone?",
    ),
    "fr": (
        "je fais quoi ?",
        "que faire",
        "aidez moi",
        "au secours",
        "c'est grave ?",
        "est ce normal ?",
        "pourquoi ?",
        "quel est le probleme ?",
        "je leur donne quoi ?",
        "vont ils mourir ?",
        "c'est quelle maladie ?",
        "dois je appeler quelqu'un ?",
    ),
    "sw": (
        "nifanyeje?",
        "nifanye nini",
        "nisaidieni",
        "naomba msaada",
        "je ni hatari?",
        "ni kawaida?",
        "kwa nini?",
        "shida ni nini?",
        "niwape nini?",
        "je watapona?",
        "ni ugonjwa gani?",
        "nimpigie nani?",
    ),
}
IN_GENERAL = {
    "en": (
        "what do i do if my chicks start gasping?",
        "how do i know blood in droppings?",
        "which disease makes all birds sick?",
        "what causes swollen heads in chickens?",
        "can twisted neck be treated?",
        "what makes chicks dull?",
        "how to prevent white diarrhoea?",
        "when birds cannot stand what should i give them",
        "is coughing in chicks dangerous?",
        "what if there is smoke in the brooder?",
        "how many deaths a day are normal?",
        "what are the signs of sick chicks?",
    ),
    "fr": (
        "que faire si les poussins cherchent l'air ?",
        "comment reconnaitre le sang dans les fientes ?",
        "quelle maladie rend tout le lot malade ?",
        "qu'est ce qui fait enfler la tete des poulets ?",
        "le cou tordu se soigne ?",
        "comment eviter que les poussins soient abattus ?",
        "comment prevenir la diarrhee blanche ?",
        "si des poulets ne se levent pas on donne quoi ?",
        "la toux est elle dangereuse chez les poussins ?",
        "et s'il y a de la fumee dans la poussiniere ?",
        "combien de morts par jour est normal ?",
        "quels sont les signes d'un poussin malade ?",
    ),
    "sw": (
        "vifaranga wakihema kwa shida nifanye nini?",
        "nitajuaje kinyesi chenye damu?",
        "ugonjwa gani hufanya kuku wote waumwe?",
        "nini husababisha vichwa kuvimba?",
        "shingo kupinda inatibika?",
        "nini hufanya kuku wazubae?",
        "nizuie vipi kuharisha nyeupe?",
        "kuku wakishindwa kusimama niwape nini?",
        "je kukohoa kwa vifaranga ni hatari?",
        "je kukiwa na moshi bandani nifanye nini?",
        "vifo vingapi kwa siku ni kawaida?",
        "dalili za kuku mgonjwa ni zipi?",
    ),
}
TEXTS = [
    (lang, f"{told}{link}{asked}")
    for lang, signs in OF_MANY.items()
    for told in signs
    for at, asked in enumerate(BEHIND[lang])
    for link in ((" ", ", ")[at % 2],)
]


@pytest.mark.parametrize("lang", OF_MANY)
def test_a_question_behind_takes_no_danger_back(thinking: Thinking, lang: str) -> None:
    told = [text for here, text in TEXTS if here == lang]
    assert [
        one for one in told if not read(thinking, one, lang=lang, age_days=12)["red_flag"]
    ] == []


@pytest.mark.parametrize("lang", OF_MANY)
def test_the_link_before_the_question_changes_nothing(thinking: Thinking, lang: str) -> None:
    joined = [f"{one} {asked}" for one in OF_MANY[lang] for asked in BEHIND[lang][1::4]]
    apart = [f"{one}. {asked}" for one in OF_MANY[lang] for asked in BEHIND[lang][::4]]
    told = [*joined, *apart]
    assert [
        one for one in told if not read(thinking, one, lang=lang, age_days=12)["red_flag"]
    ] == []


@pytest.mark.parametrize(
    ("lang", "text"), [(lang, text) for lang, texts in IN_GENERAL.items() for text in texts]
)
def test_the_same_asked_in_general_is_no_danger(thinking: Thinking, lang: str, text: str) -> None:
    assert not read(thinking, text, lang=lang, age_days=12)["red_flag"]

"""Of whom a text tells, and of which time: others' birds, an earlier batch or no bird at all raise
no danger; the same words told of this flock do."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

OTHERS = {
    "en": (
        "a man I met tells me all his layers have blood in the droppings",
        "that trader told us the birds at his place have swollen heads",
        "somebody posted in the farmers group that 300 of theirs are dead",
        "the family across the valley has birds gasping and falling",
        "a farmer across the road buried 90 yesterday",
        "my uncle own birds are all paralysed since monday",
        "the newspaper says chickens with swollen heads were found in the lake region",
        "I had a nightmare that every chick was dead",
        "the exam question for pupils: 40 of 400 birds died, how many are left",
        "the television showed birds twisting their necks in asia",
    ),
    "fr": (
        "un vieil ami me raconte que ses poules font du sang",
        "le chauffeur nous racontait 150 morts en une nuit a Bobo",
        "la television a montre des poules au cou tordu",
        "exercice pour ma classe : 20 poulets meurent sur 200, combien restent",
        "cauchemar cette nuit, tous les poussins etaient morts",
        "en chine les poulets ont la tete gonflee et meurent par milliers",
        "le prof dit que la coccidiose donne des fientes de sang",
        "le journal parle de poulets qui ont la tete enflee",
        "la famille du quartier derriere ses poules sont toutes paralysees",
        "un marchand raconte que toute une ferme a le cou tordu",
    ),
    "sw": (
        "kwa mzee Otieno kuku wote wamepooza miguu",
        "jamaa wa mtaa wa pili kuku zake zinahara damu",
        "msee wa nyumba ya tatu zake zimevimba vichwa",
        "televisheni imeonyesha kuku wenye vichwa vilivyovimba",
        "nimeota jana usiku kuku wote wamekufa",
        "swali la mtihani kwa wanafunzi: kuku 40 wamekufa kati ya 400",
        "mwalimu alituambia kinyesi cha damu ni ugonjwa mbaya",
        "kwa mama Njeri vifaranga wamelala wote hawaamki",
        "dereva ameniambia huko Moshi kuku wamepinda shingo",
        "kwa chifu kuku wake wote wanaharisha damu",
    ),
}
THEN = {
    "en": (
        "when we were small all my father's hens had twisted necks",
        "in those days the birds passed blood and nobody knew why",
        "the october batch had blood in the droppings every week",
        "last time I kept birds all of them were paralysed by week 4",
        "those we sold in may had swollen heads",
        "before I was trained I closed everything and woke up with a headache",
        "back in 94 the whole house was gasping",
        "the christmas lot had swollen heads and I lost plenty",
        "when I was a student our broilers passed blood",
        "last season my chicks were gasping by the second week",
    ),
    "fr": (
        "en 96 toute la bande avait le cou tordu",
        "quand j'etais petit les poules de la cour avaient du sang dans les fientes",
        "la bande de decembre avait la tete gonflee",
        "le lot de tabaski faisait des fientes de sang",
        "avant de suivre la formation mes poussins etaient tous paralyses",
        "a notre epoque les poulets avaient le cou tordu et on priait",
        "ceux que j'ai vendus avaient la tete enflee",
        "le lot de mars avait du sang dans les crottes",
        "dans mon enfance les poules mouraient toutes en une nuit",
        "la bande de noel etait toute paralysee",
    ),
    "sw": (
        "batch ya agosti zote zilipooza miguu",
        "kundi la pasaka lilikuwa na damu kwenye kinyesi",
        "last time nilifuga zote zilivimba vichwa",
        "wale niliouza walikuwa wamevimba vichwa",
        "nilipokuwa mdogo kuku wa nyumbani walipinda shingo",
        "kabla ya mafunzo nilikuwa nafunga banda na kichwa kinauma",
        "kundi lililoisha lilikuwa na kinyesi cha damu",
        "batch ya krismasi ilikuwa inapumua kwa shida wote",
        "mara ya mwisho kuku walikuwa na vichwa vilivyovimba",
        "nikiwa shuleni kuku wa shule walipooza wote",
    ),
}
NO_BIRD = {
    "en": (
        "my husband gasps at the price of feed",
        "the bus fare makes me dizzy these days",
        "the whole town is paralysed by the strike",
        "our family is down with flu this week",
        "the speaker fell asleep during his own speech about stoves",
        "my daughter cut her finger, that blood is hers",
        "the lorry outside smokes like a volcano",
        "blood of the lamb protect this farm",
        "my maize is wilting and dying in the field",
        "I gave blood at the hospital today",
    ),
    "fr": (
        "la facture du courant me donne des vertiges",
        "la route est paralysee par la greve",
        "toute la famille a la grippe, cloue au lit",
        "le directeur a dormi pendant toute la reunion sur les foyers",
        "mon fils s'est coupe la main et il y a du sang partout sur la table",
        "le camion du patron fume noir au garage",
        "le sang de Jesus protege ma ferme",
        "mes tomates fanent et meurent toutes",
        "le commerce est mort ici",
        "le prix de l'aliment me tue",
    ),
    "sw": (
        "bei ya chakula inanipa kizunguzungu",
        "barabara imepooza kwa sababu ya maandamano",
        "familia yote tunaumwa homa wiki hii",
        "mwenyekiti alilala kwenye mkutano wa wafugaji",
        "mtoto amejikata damu imetapakaa sakafuni",
        "lori la jirani linatoa moshi barabarani",
        "damu ya yesu itulinde na kuku wangu",
        "mahindi yamekauka yanakufa shambani",
        "usingizi umenishika leo kazini",
        "nimetoka kuchangia damu hospitali",
    ),
}
HERE = {
    "en": (
        "mum says the chicks gasp",
        "my wife saw blood in the droppings",
        "last batch had blood in the droppings and now these too",
        "my husband told me all of them are paralysed",
        "the neighbour lost all and now mine have swollen heads",
        "as in the december batch, their heads are swollen",
        "my worker says the whole flock is dull and does not move",
        "my sister fell asleep by the stove and will not wake",
        "the truck left its engine on inside the brooder and the house is full of smoke",
        "they are gasping just like last time",
        "my boy cut himself free of the net, blood in their droppings since morning",
        "the market is shut and my chicks are passing blood",
    ),
    "fr": (
        "maman dit que les poussins cherchent l'air tous le bec ouvert",
        "ma femme a vu du sang dans les fientes",
        "la bande de mars avait du sang dans les fientes et maintenant ceux ci aussi",
        "mon mari dit que tous les poulets sont paralyses",
        "le voisin a tout perdu et maintenant les miens ont la tete gonflee",
        "le gardien dit que tout le lot est couche et ne se leve pas",
        "ma soeur s'est evanouie pres du foyer",
        "la bache fume, la poussiniere est pleine de fumee et mes yeux piquent",
        "comme la bande de noel ils ont le cou tordu",
        "le marche est ferme et mes poussins font du sang",
    ),
    "sw": (
        "mama anasema vifaranga wanatafuta hewa wengi",
        "mke wangu ameona damu kwenye kinyesi",
        "kundi la machi lilikuwa na damu kwenye kinyesi na sasa hawa pia",
        "mume wangu anasema kuku wote wamepooza",
        "jirani amepoteza wote na sasa wangu pia wamevimba vichwa",
        "kijana wa kazi anasema kundi lote limezubaa",
        "dada amezimia karibu na jiko",
        "usingizi umenishika nikiwa karibu na jiko la mkaa bandani",
        "kama batch ya krismasi hawa wangu wamepinda shingo",
        "soko limefungwa na kuku wangu wanaharisha damu",
    ),
}


def _texts(*kinds: Mapping[str, tuple[str, ...]]) -> list[tuple[str, str]]:
    return [(lang, text) for kind in kinds for lang, texts in kind.items() for text in texts]


@pytest.mark.parametrize(("lang", "text"), _texts(OTHERS, THEN, NO_BIRD))
def test_what_is_told_of_others_of_then_or_of_no_bird_raises_no_danger(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert not read(thinking, text, lang=lang, age_days=20)["red_flag"]


@pytest.mark.parametrize(("lang", "text"), _texts(HERE))
def test_the_same_told_of_this_flock_is_danger(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang=lang, age_days=20)["red_flag"]

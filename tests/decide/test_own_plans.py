"""What a farmer means to do with well-meant harm is answered before the rest: a blanket over the
chicks, every opening shut, lime or washing with birds inside, mouldy feed kept in use, kitchen
mixtures in the water, water forced into a beak, beaks cut. Texts of three languages through the
whole turn. Rules: practice (Heat and air; Texts), common practice of the trade."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

PLANS = {
    "blanket_off": [
        ("en", "they are crowding by the stove, i have thrown a duvet on top of them"),
        ("en", "can i cover the small ones with an old sheet tonight"),
        ("en", "is it good to wrap the chicks in a sack"),
        ("en", "shall i leave the blanket"),
        ("fr", "je les couvre avec un pagne pour la nuit?"),
        ("fr", "ils sont en tas pres du feu, j'ai mis une couverture sur les poussins"),
        ("fr", "on peut mettre un drap sur eux?"),
        ("sw", "naweza kuwafunika vifaranga kwa shuka usiku"),
        ("sw", "wamerundikana kwenye jiko, nimeweka gunia juu yao"),
        ("sw", "niache blanketi?"),
    ],
    "own_seal": [
        ("en", "should i shut all the windows with plastic so no wind gets in"),
        ("en", "we want to seal the room tonight, ok?"),
        ("en", "i will close everything so that no air comes in"),
        ("fr", "je bouche toutes les ouvertures avec du plastique cette nuit?"),
        ("fr", "faut il tout fermer pour que l'air n'entre pas"),
        ("sw", "nizibe madirisha yote na nailoni ili hewa isiingie?"),
        ("sw", "naweza kuziba kila tundu usiku"),
    ],
    "own_lime": [
        ("en", "can i sprinkle ash on the floor under the birds"),
        ("en", "should i wash the floor with water while the birds are in"),
        ("en", "want to spray disinfectant inside, chicks are there"),
        ("fr", "je peux repandre de la chaux sous les poulets?"),
        ("fr", "est ce que je lave le sol a grande eau avec les poulets dedans"),
        ("sw", "naweza kunyunyiza chokaa sakafuni kuku wakiwa ndani"),
        ("sw", "nioshe sakafu kwa maji kuku wakiwemo?"),
    ],
    "own_feed": [
        ("en", "the feed has mould, can i sieve it and dry it in the sun"),
        ("en", "mash went mouldy. if i mix it half half with the new one?"),
        ("en", "there is mould in the bag, can my goats eat it"),
        ("fr", "l'aliment a moisi, je le tamise et je le seche au soleil?"),
        ("fr", "aliment moisi, je le melange avec du bon?"),
        ("fr", "le sac est moisi, je peux donner aux cochons"),
        ("sw", "chakula kina ukungu, nikianike juani halafu nikitumie?"),
        ("sw", "chakula kimeota ukungu, nichanganye na kizuri nusu kwa nusu"),
        ("sw", "kina ukungu, niwape mbuzi?"),
    ],
    "own_brew": [
        ("en", "i put vinegar and pepper into their drinking water"),
        ("en", "i mixed garlic and ash in their drinking water to clean them"),
        ("en", "can i mix bitter leaves with the water"),
        ("en", "my aunt says onion water, i add to the drinkers?"),
        ("fr", "j'ai mis du vinaigre et du piment dans leur eau"),
        ("fr", "je peux ajouter des feuilles ameres dans les abreuvoirs?"),
        ("sw", "nimeweka siki na pilipili kwenye maji yao"),
        ("sw", "naweza kuchanganya majani machungu na maji ya kunywa"),
    ],
    "own_force": [
        ("en", "should i force them to drink with a syringe"),
        ("en", "can i pour water into the beaks"),
        ("fr", "je les force a boire avec une seringue?"),
        ("fr", "je peux verser l'eau dans le bec"),
        ("sw", "niwalazimishe kunywa kwa sindano?"),
        ("sw", "naweza kuwamwagia maji mdomoni"),
    ],
    "own_beak": [
        ("en", "they peck each other, should i cut the beaks"),
        ("en", "is it good to burn their beak tips"),
        ("fr", "ils se piquent, je coupe les becs?"),
        ("fr", "faut il bruler le bec"),
        ("sw", "wanadonoana, nikate midomo?"),
        ("sw", "naweza kuchoma midomo yao"),
    ],
}


@pytest.mark.parametrize(
    ("key", "language", "text"),
    [(key, language, text) for key, texts in PLANS.items() for language, text in texts],
)
def test_a_harmful_plan_of_ones_own_is_answered_first(
    rehearsal: Rehearsal, key: str, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=9, heat="charcoal")
    said = keys(rehearsal, text)
    assert key in said
    assert said[0] in (key, "treated")  # given already: taken down, then refused


def test_the_trouble_told_beside_a_plan_is_still_treated(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", age_days=4, heat="charcoal")
    said = keys(rehearsal, "chicks piled at the stove crying, i put a blanket on top of them")
    assert said[0] == "blanket_off"
    assert len(said) > 2


def test_feed_found_mouldy_is_for_no_other_animal(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", age_days=20, house="open", heat="none")
    keys(rehearsal, "the feed smells mouldy and they leave it")
    assert "own_feed" in keys(rehearsal, "can i give it to the goats and the pig")


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "i have put no blanket on them"),
        ("en", "cover the windows with sacks on the windy side?"),
        ("en", "i covered the floor with new sawdust"),
        ("en", "closed the curtain on the windy side"),
        ("en", "washed the drinkers today"),
        ("en", "gave them clean water and feed"),
        ("en", "mixed starter and grower feed"),
        ("en", "they are using their beaks to scratch"),
        ("en", "feed is dry and good"),
        ("fr", "j'ai ferme le rideau du cote du vent"),
        ("fr", "j'ai lave les abreuvoirs ce matin"),
        ("fr", "j'ai couvert le sol de copeaux"),
        ("fr", "l'aliment est bon, ils mangent bien"),
        ("fr", "bec ouvert, ils halètent"),
        ("sw", "nimefunga pazia upande wa upepo"),
        ("sw", "nimeosha vyombo vya maji"),
        ("sw", "nimewapa maji safi na chakula"),
        ("sw", "midomo wazi wanahema"),
        ("sw", "nimeweka maranda mapya sakafuni"),
    ],
)
def test_what_is_no_such_plan_gets_no_such_text(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, age_days=9, heat="charcoal")
    assert not any(one.startswith(("own_", "blanket_off")) for one in keys(rehearsal, text))


@pytest.mark.parametrize(
    "text", ["chicks come next week, i wash the floor with water and put lime on it"]
)
def test_an_empty_house_may_be_washed(rehearsal: Rehearsal, text: str) -> None:
    stand(rehearsal, "en", age_days=-7, heat="charcoal")
    assert "own_lime" not in keys(rehearsal, text)

"""A farmer's question that a rule of the trade answers gets that answer, and neither a menu nor
something beside the point; what only sounds like it stays what it is. Texts of three languages
through the whole turn. Rules: practice (Fire and air; The move; Calendar rows), common practice."""

from __future__ import annotations

import pytest

from bot.doors.rehearsal import Rehearsal
from bot.facts.writes import AddEvent
from tests.decide.scene import NOON, keys, stand

FEW: dict[str, object] = {"heat": "charcoal", "age_days": 4}
FORTNIGHT: dict[str, object] = {"heat": "charcoal", "age_days": 14}
GROWN: dict[str, object] = {"heat": "none", "age_days": 38}
COMING: dict[str, object] = {"heat": "charcoal", "age_days": 0}

ASKED: dict[str, list[tuple[str, str, dict[str, object]]]] = {
    "ruled_fire_young": [
        ("en", "till when must i keep the jiko burning for them", FEW),
        ("en", "how many days do they need the gas heater", FEW),
        ("fr", "jusqu'a quel age faut il le radiant", FEW),
        ("sw", "wanahitaji jiko mpaka lini", FEW),
    ],
    "ruled_fire_night": [
        ("en", "2 weeks old, may i put off the fire tonight?", FORTNIGHT),
        ("fr", "on peut arreter le fourneau cette nuit?", FORTNIGHT),
        ("sw", "wana wiki mbili naweza kuzima moto usiku wa leo?", FORTNIGHT),
    ],
    "ruled_fire_grown": [("en", "when should we stop the charcoal", {**FORTNIGHT, "age_days": 23})],
    "ruled_before": [
        ("en", "chicks come at 4pm, what time do i light the stoves", COMING),
        ("fr", "a quelle heure j'allume les fourneaux, ils arrivent a 15h", COMING),
        ("sw", "niwashe jiko masaa mangapi kabla vifaranga kufika", COMING),
    ],
    "ruled_grower_wait": [("en", "can i start them on grower feed now?", FEW)],
    "ruled_grower": [
        ("fr", "je passe a l'aliment croissance maintenant?", FORTNIGHT),
        ("sw", "nibadilishe kwenda grower sasa?", FORTNIGHT),
    ],
    "ruled_wrong_feed": [
        ("en", "the shop sent layers mash instead of starter can i use it", FEW),
        ("fr", "on m'a livre de l'aliment pondeuse a la place du demarrage je peux donner", FEW),
        ("sw", "duka wameleta finisher badala ya starter niwape tu?", FEW),
    ],
    "ruled_night_water": [
        ("en", "my uncle tells me to remove the drinkers at night, good?", FORTNIGHT),
        ("fr", "mon frere dit pas d'eau la nuit pour une litiere seche c'est vrai?", FORTNIGHT),
        ("sw", "jirani anasema nisiwape maji usiku ili maranda yawe makavu ni kweli?", FORTNIGHT),
    ],
    "ruled_visitors": [
        ("en", "our teacher wants to bring 25 students on friday, can they enter", FEW),
        ("en", "neighbours want to come in and see the chicks is it ok", FEW),
        ("fr", "le professeur veut amener sa classe voir les poussins, ils peuvent entrer?", FEW),
        ("sw", "mwalimu anataka kuleta wanafunzi 25 kesho waone vifaranga waingie?", FEW),
    ],
    "ruled_handled": [
        ("fr", "les enfants du quartier entrent et prennent les poussins dans la main", FEW),
    ],
    "ruled_trader": [
        ("en", "the buyer wants to walk in and choose himself, may he?", GROWN),
        ("sw", "mnunuzi anataka kuingia ndani achague mwenyewe nimruhusu?", GROWN),
    ],
    "ruled_bare": [
        ("en", "all fine but back is still bare, is this normal", FORTNIGHT),
        ("fr", "ils vont bien mais pas de plumes sur le dos c'est normal?", FORTNIGHT),
        ("sw", "wanakula vizuri ila hawana manyoya mgongoni, kawaida?", FORTNIGHT),
    ],
    "ruled_pond": [
        ("en", "can i give them river water to drink", FORTNIGHT),
        ("fr", "je leur donne l'eau de la riviere", FORTNIGHT),
        ("sw", "niwape maji ya bwawa?", FORTNIGHT),
    ],
    "sleep_out": [
        ("en", "our nephew sleeps with the chicks to mind the fire, is it good", FEW),
        ("fr", "mon fils dort avec les poussins pour le feu, c'est bon?", FEW),
        ("sw", "binti yangu analala na vifaranga kulinda jiko ni vizuri?", FEW),
    ],
    "ruled_shift": [
        ("en", "can i shift them tonight?", FORTNIGHT),
        ("fr", "je peux les transferer cette nuit?", FORTNIGHT),
        ("sw", "niwahamishe leo usiku?", FORTNIGHT),
    ],
    "ruled_ages": [("en", "i bought day-olds, can i put them with the older ones", FORTNIGHT)],
    "ruled_seller": [
        ("en", "neighbour is selling me 80 birds should i take", FORTNIGHT),
        ("fr", "un voisin veut me vendre 40 poulets", FORTNIGHT),
        ("sw", "rafiki yangu ananiuzia kuku 30", FORTNIGHT),
    ],
}  # fmt: skip
ALIKE: list[tuple[str, str, dict[str, object]]] = [
    ("en", "visitors came yesterday, 2 chicks died", FEW),
    ("en", "river water came into the house last night", FORTNIGHT),
    ("en", "heavy rain last night, water to the knee, birds stand in it", GROWN),
    ("en", "sold 12 birds at 700", GROWN),
    ("en", "fire went out at night and they are all in a heap", FEW),
    ("en", "can we take them to the market tonight", GROWN),
    ("fr", "combien de chaleur pour 6 jours", FEW),
    ("fr", "on allume la lampe la nuit?", FORTNIGHT),
    ("fr", "ils sont sortis, pas de plumes au dos, je dois les remettre?", FORTNIGHT),
    ("sw", "nimeuza kuku 50 kwa jirani", GROWN),
    ("sw", "joto la siku ya kwanza liwe ngapi", FEW),
    ("sw", "walikuwa wanalala karibu na jiko sasa wametawanyika", FEW),
]


@pytest.mark.parametrize(
    ("key", "language", "text", "farm"),
    [(key, *one) for key, told in ASKED.items() for one in told],
)
def test_the_rule_answers(
    rehearsal: Rehearsal, key: str, language: str, text: str, farm: dict[str, object]
) -> None:
    """First and alone: no menu, and nothing put down that was not told."""
    stand(rehearsal, language, NOON, **farm)
    decision = rehearsal.say(text)[0].decision
    assert decision.lines[0].key == key
    assert decision.question is None
    assert not any(isinstance(one, AddEvent) for one in decision.writes)


@pytest.mark.parametrize(("language", "text", "farm"), ALIKE)
def test_what_only_sounds_like_it(
    rehearsal: Rehearsal, language: str, text: str, farm: dict[str, object]
) -> None:
    stand(rehearsal, language, NOON, **farm)
    assert not [one for one in keys(rehearsal, text) if one.startswith(("ruled", "sleep_out"))]


def test_a_bare_back_beside_pecking_is_not_called_normal(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", NOON, **FORTNIGHT)
    said = keys(rehearsal, "backs are bare and bleeding, they peck each other, is it normal?")
    assert "ruled_bare" not in said


def test_the_fire_in_a_trouble_goes_by_what_is_wrong(rehearsal: Rehearsal) -> None:
    """Who was told that they are cold is not told that the fire may go out."""
    stand(rehearsal, "en", NOON, **FORTNIGHT)
    rehearsal.say("all in a heap under the heat and shouting")
    assert "ruled_fire_night" not in keys(rehearsal, "may i put off the fire tonight?")

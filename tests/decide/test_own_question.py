"""A farmer's own "should I ...?" beside what the birds do is answered first: yes, no, or not before
the look that is asked for; then what was found follows. Texts of three languages through the whole
turn. Rules: practice (Heat and air; The first day; Texts), common practice of the trade."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import NIGHT, NOON, keys, stand

BROODED: dict[str, object] = {"heat": "charcoal"}
GROWN: dict[str, object] = {"age_days": 33, "heat": "none"}
NEW: dict[str, object] = {"age_days": 0, "heat": "gas"}

ASKED: dict[str, list[tuple[str, str, dict[str, object]]]] = {
    "leave_more_yes": [
        ("en", "they are all piled at the jiko crying. should i put a second one?", BROODED),
        ("fr", "ils sont en tas sous le radiant et crient, j'allume un autre fourneau?", BROODED),
        ("sw", "wamerundikana kwenye jiko wanalia, niwashe lingine?", BROODED),
    ],
    "leave_more_no": [
        ("en", "beaks open, panting, far from the fire. do i add more charcoal?", BROODED),
        ("fr", "becs ouverts ils halettent loin du feu, faut il augmenter le gaz", BROODED),
        ("sw", "wanahema midomo wazi wako mbali na jiko, niongeze makaa?", BROODED),
    ],
    "leave_less_no": [
        ("en", "all in a heap under the bulbs and shouting, can i switch off one bulb", BROODED),
        ("fr", "ils sont en tas pres du feu et crient fort, je retire un fourneau?", BROODED),
        ("sw", "vifaranga wamelaliana kwenye jiko wanalia sana, nipunguze moto?", BROODED),
    ],
    "leave_less_yes": [
        ("en", "they pant beaks open far from the stove, shall we take one jiko out?", BROODED),
        ("fr", "ils halettent tous loin du poele, on enleve un poele?", BROODED),
        ("sw", "wote wanahema mbali na jiko, tuzime moja?", BROODED),
    ],
    "leave_heat_look": [
        ("en", "the chicks stand along the walls. must i lower the gas?", BROODED),
        ("fr", "les poussins sont le long des murs, dois je baisser le feu", BROODED),
        ("sw", "vifaranga wako pembeni ukutani, nizime jiko?", BROODED),
    ],
    "leave_water_stays": [
        ("en", "they drink very much, droppings like water, should i cut the water?", GROWN),
        ("fr", "ils boivent beaucoup et la litiere est mouillee, ma soeur dit d'enlever les "
               "abreuvoirs. que faire", GROWN),
        ("sw", "wanakunywa sana maranda yamelowa, nikate maji usiku?", GROWN),
    ],
    "leave_water_first": [
        ("en", "they arrived hot, beaks open, 37 degrees. do i give feed now?", NEW),
        ("fr", "arrives ce midi, becs ouverts, le thermometre dit 37. je mets l'aliment?", NEW),
        ("sw", "wamefika wanahema, kipima joto 37. niwape chakula sasa?", NEW),
    ],
    "leave_return_wait": [
        ("en", "since the new bag they leave the feed. should i take it back to the shop?", GROWN),
        ("fr", "ils ne mangent plus depuis hier, je rends l'aliment au vendeur?", GROWN),
        ("sw", "tangu jana hawali, nirudishe chakula dukani?", GROWN),
    ],
    "leave_return_yes": [
        ("en", "the feed has mould and smells, they refuse. should i return the bag?", GROWN),
        ("fr", "l'aliment sent le moisi, ils le refusent. je ramene le sac au magasin?", GROWN),
        ("sw", "chakula kina ukungu na harufu, hawali. nirudishe mfuko dukani?", GROWN),
    ],
    "leave_catch_hot": [
        ("en", "terrible heat, all panting wings open. the lorry comes at 2pm for 300", GROWN),
        ("en", "they pant hard in this sun, can we load them now?", GROWN),
        ("fr", "grosse chaleur ils halettent ailes ecartees, le camion arrive a 13h", GROWN),
        ("fr", "ils halettent tous, on les attrape maintenant?", GROWN),
        ("sw", "joto kali wote wanahema, gari linakuja saa nane kuchukua 200", GROWN),
        ("sw", "wanahema sana mabawa wazi, tuwapakie sasa?", GROWN),
    ],
    "leave_close_no": [
        ("en", "the smell of urine burns my nose in there, do i shut the curtains?", BROODED),
        ("fr", "ca pique le nez odeur d'urine forte, je ferme les rideaux pour la nuit?", BROODED),
        ("sw", "harufu kali ya mkojo inachoma pua, nifunge mapazia?", BROODED),
    ],
    "leave_maize": [
        ("en", "feed finished yesterday no money, can i give them maize?", GROWN),
        ("fr", "l'aliment est fini depuis hier, je donne du mais?", GROWN),
        ("sw", "chakula kimekwisha jana, niwape mahindi?", GROWN),
        ("sw", "chakula kimeisha na duka limefungwa, naweza kuwapa unga wa ugali leo?", GROWN),
    ],
    "leave_litter": [
        ("en", "the floor is wet at the drinkers, can i spread new shavings over it?", BROODED),
        ("fr", "la litiere est mouillee, j'ajoute de la sciure seche dessus?", BROODED),
        ("sw", "maranda yamelowa, niweke makavu juu yake?", BROODED),
    ],
    "leave_no_pet": [
        ("en", "rats took two chicks last night, can the cat stay with them inside?", BROODED),
        ("fr", "un rat a pris deux poussins, je laisse le chat avec eux?", BROODED),
        ("sw", "panya amekula vifaranga wawili, paka alale ndani nao?", BROODED),
    ],
    "leave_boxes": [
        ("en", "no power and they pile up crying. can i put them in cartons tonight?",
         {"heat": "bulb"}),
        ("fr", "coupure de courant ils crient en tas, je les mets dans des cartons?",
         {"heat": "bulb"}),
        ("sw", "umeme umekatika wamerundikana wanalia, niwaweke kwenye maboksi?",
         {"heat": "bulb"}),
    ],
    "leave_not_hunger": [
        ("en", "is it hunger? they lie in a heap under the bulb and cry", BROODED),
        ("fr", "ils halettent bec ouvert loin du feu, c'est la faim?", BROODED),
        ("sw", "wanahema wako mbali na jiko, ni njaa?", BROODED),
    ],
    "leave_so": [
        ("en", "all in a heap at the stove crying, is it the cold?", BROODED),
        ("fr", "ils halettent loin du poele, c'est trop chaud ou quoi", BROODED),
        ("sw", "wamerundikana kwenye jiko wanalia, ni baridi?", BROODED),
    ],
    "leave_cure": [
        ("en", "they sneeze a little since yesterday, should i buy tablets?", GROWN),
        ("fr", "ils eternuent un peu, je donne quel antibiotique?", GROWN),
        ("sw", "wanapiga chafya kidogo, niwape dawa gani?", GROWN),
    ],
}  # fmt: skip


@pytest.mark.parametrize(
    ("key", "language", "text", "farm"),
    [(key, *one) for key, asked in ASKED.items() for one in asked],
)
def test_the_question_is_answered_before_the_rest(
    rehearsal: Rehearsal, key: str, language: str, text: str, farm: dict[str, object]
) -> None:
    stand(rehearsal, language, NOON, **farm)
    said = keys(rehearsal, text)
    assert said[0] == key
    assert len([one for one in said if one]) > 1  # what was found, or the look, stands behind it


@pytest.mark.parametrize(
    ("language", "text", "farm"),
    [
        ("en", "how many stoves should i add? they pile at the fire", BROODED),
        ("en", "i added another jiko and they still pile and cry", BROODED),
        ("en", "should i add another drinker? they crowd at the water", BROODED),
        ("fr", "j'ai baisse le gaz et ils crient encore en tas", BROODED),
        ("fr", "combien d'aliment je donne? ils crient devant les mangeoires vides", GROWN),
        ("sw", "nimewasha jiko lingine lakini bado wamerundikana", BROODED),
        ("sw", "niwape chakula gani? hawali cha jana", GROWN),
        ("en", "the buyer comes tomorrow, they are spread and quiet", GROWN),
    ],
)
def test_what_asks_for_more_than_a_yes_is_none(
    rehearsal: Rehearsal, language: str, text: str, farm: dict[str, object]
) -> None:
    stand(rehearsal, language, NOON, **farm)
    assert not [one for one in keys(rehearsal, text) if one.startswith("leave_")]


def test_asked_again_it_is_answered_by_what_was_found(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "sw", NOON, **GROWN)
    rehearsal.say("kuku wanahema sana mabawa wazi")
    assert keys(rehearsal, "tusubiri gari hadi usiku?")[0] == "leave_catch_hot"


def test_without_a_trouble_a_question_keeps_its_own_answer(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", NOON, **BROODED)
    assert not [
        one for one in keys(rehearsal, "should i open the curtain at noon") if "leave" in one
    ]
    assert keys(rehearsal, "can i cut the water at night?")[0] == "ruled_night_water"
    assert keys(rehearsal, "can i cut the water at noon?")[0] == "leave_water_stays"


def test_behind_an_alarm_what_it_leaves_open_is_answered(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", NIGHT, age_days=20, heat="gas")
    said = keys(rehearsal, "twenty have twisted necks and shake. should i cut the water?")
    assert said[0].startswith("danger_")
    assert "leave_water_stays" in said


def test_a_good_reading_beside_it_answers_it(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", NOON, age_days=12, heat="charcoal", thermometer=True)
    text = "thermometer shows 25, all spread and quiet, can i light another jiko?"
    assert keys(rehearsal, text)[0] == "leave_more_warm"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "blood in the droppings of many. a powder is left from my goats, can i mix it?"),
        (
            "fr",
            "du sang dans les fientes, il me reste un produit, je mets combien?",
        ),
        ("sw", "damu kwenye mavi ya wengi, niwape dawa iliyobaki?"),
    ],
)
def test_a_cure_asked_about_in_danger_is_refused_at_once(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, NOON, **GROWN)
    said = keys(rehearsal, text)
    assert said[0].startswith("danger_")
    assert {"leave_cure", "no_cure"}.intersection(said)


def test_a_room_beside_is_taken_where_they_are_crowded(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "sw", NOON, age_days=14, heat="none")
    rehearsal.say("wamebanana hakuna nafasi, wanadonoana mpaka damu")
    assert keys(rehearsal, "kuna chumba kingine, niwahamishie nusu?")[0] == "leave_move_room"


@pytest.mark.parametrize(
    ("language", "ill", "text"),
    [
        ("en", "many are gasping and heads are swollen", "should i separate them?"),
        ("fr", "beaucoup ont la tete enflee et suffoquent", "je les isole?"),
        ("sw", "wengi vichwa vimevimba wanahangaika kupumua", "niwatenge?"),
    ],
)
def test_after_an_alarm_a_question_is_answered(
    rehearsal: Rehearsal, language: str, ill: str, text: str
) -> None:
    stand(rehearsal, language, NOON, **GROWN)
    rehearsal.say(ill)
    assert keys(rehearsal, text)[0] == "leave_apart"


def test_who_lost_some_and_asks_to_sell_is_told_to_wait(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "sw", NOON, age_days=30, count=450, heat="none")
    text = "watatu wamekufa leo, wengine wako sawa, niwauze wote haraka?"
    assert keys(rehearsal, text)[0] == "leave_sell_wait"


def test_one_more_gone_at_the_second_look_is_as_before(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", "2026-09-17T06:10:00+03:00", age_days=19, heat="none")
    rehearsal.say("a mongoose takes one every night")
    rehearsal.sleep_through(timedelta(hours=25))
    assert "predator_more" in keys(rehearsal, "still one gone this morning")


def test_more_room_that_was_advised_beside_feed_is_more_room(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "sw", NOON, age_days=13, heat="charcoal")
    rehearsal.say("kuku wanadonoana mkia wengine wadogo sana wengine wakubwa")
    rehearsal.say("1")
    assert keys(rehearsal, "chumba cha pili kipo tupu, niwahamishie nusu?")[0] == "leave_move_room"


@pytest.mark.parametrize(
    ("language", "ill", "text"),
    [
        ("en", "droppings have blood, many", "so no goat powder for them?"),
        ("fr", "du sang dans les crottes de beaucoup", "et le vieux produit, j'en mets ou pas?"),
        ("sw", "damu kwenye mavi ya wengi", "hata dawa iliyobaki nisiwape?"),
    ],
)
def test_a_cure_asked_about_again_is_refused_again(
    rehearsal: Rehearsal, language: str, ill: str, text: str
) -> None:
    stand(rehearsal, language, NOON, **GROWN)
    rehearsal.say(ill)
    assert {"leave_cure", "no_cure", "on_treatment"}.intersection(keys(rehearsal, text))


def test_where_a_look_is_asked_for_nothing_is_called_warm_enough(rehearsal: Rehearsal) -> None:
    stand(rehearsal, "en", NOON, age_days=10, heat="gas", thermometer=True)
    said = keys(rehearsal, "thermometer 25 and they ran to the far end, do i add a second heater?")
    assert "leave_more_warm" not in said

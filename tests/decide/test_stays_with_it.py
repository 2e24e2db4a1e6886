"""What is told or asked once an advice was given is answered by the trouble at hand: where a stove
goes, a second trouble, wounds, holes, wet litter; and what was promised comes. Texts of three
languages through the whole turn. Common practice, no source."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from tests.decide.scene import keys, stand

EVENING, NIGHT = "2026-07-09T20:10:00+03:00", "2026-07-09T02:10:00+03:00"
MORNING, MIDDAY = "2026-07-09T09:10:00+03:00", "2026-07-09T12:10:00+03:00"
COLD = {
    "en": "the stove is almost dead and they are piled at it crying",
    "fr": "le fourneau est presque eteint, ils sont en tas dessus et crient",
    "sw": "jiko linakaribia kuzima, wamerundikana kwenye jiko wanalia",
}
HOT = {
    "en": "they pant with open beaks far from the heat",
    "fr": "ils soufflent bec ouvert loin de la chaleur",
    "sw": "wanahema midomo wazi mbali na joto",
}
ONE_SIDE = {"en": "all on one side", "fr": "tous d'un cote", "sw": "wote upande mmoja"}
BEAST = {
    "en": "something came by night, one chick without a head, feathers at the window",
    "fr": "une bete est venue cette nuit, un poussin sans tete, des traces pres du mur",
    "sw": "mnyama ameingia usiku, kifaranga mmoja hana kichwa, kuna nyayo ukutani",
}


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "i have a second stove in the store, where do i light it?"),
        ("en", "should i add another jiko"),
        ("fr", "j'ai un autre fourneau, je l'allume ou?"),
        ("fr", "je mets un deuxieme feu?"),
        ("sw", "nina jiko jingine, niliwashe wapi?"),
        ("sw", "niongeze jiko jingine?"),
    ],
)
def test_a_stove_asked_about_in_the_cold_is_lit_outside_and_brought_where_they_lie(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, EVENING, heat="charcoal")
    assert rehearsal.say(COLD[language])[0].decision.why.cause == "cold"  # type: ignore[union-attr]
    assert keys(rehearsal, text) == ["heat_cold_fire", ""]


@pytest.mark.parametrize(
    ("language", "text", "heat", "key"),
    [
        ("en", "should i add the second heater?", "gas", "heat_hot_other"),
        ("en", "do i take the stove out?", "charcoal", "heat_hot_fire"),
        ("fr", "je mets le deuxieme radiant?", "gas", "heat_hot_other"),
        ("fr", "je sors le fourneau?", "charcoal", "heat_hot_fire"),
        ("sw", "jiko nilitoe?", "charcoal", "heat_hot_fire"),
        ("sw", "niongeze joto?", "bulb", "heat_hot_other"),
    ],
)
def test_where_it_is_too_hot_no_heat_is_added(
    rehearsal: Rehearsal, language: str, text: str, heat: str, key: str
) -> None:
    stand(rehearsal, language, MIDDAY, heat=heat)
    rehearsal.say(HOT[language])
    assert keys(rehearsal, text)[0] == key


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_in_a_wind_the_hole_comes_before_a_second_stove(
    rehearsal: Rehearsal, language: str
) -> None:
    stand(rehearsal, language, NIGHT, heat="charcoal")
    assert rehearsal.say(ONE_SIDE[language])[0].decision.question is not None
    rehearsal.say("1")
    text = {"en": "i add another stove?", "fr": "j'ajoute un fourneau?", "sw": "niongeze jiko?"}
    assert keys(rehearsal, text[language])[0] == "heat_wind"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "should i take the stove out?"),
        ("fr", "je sors le fourneau?"),
        ("sw", "jiko nilitoe nje?"),
    ],
)
def test_a_stove_that_only_smokes_is_taken_out_once_it_has_aired(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    little = {"en": "the stove smokes a little", "fr": "le fourneau fume un peu"}
    stand(rehearsal, language, EVENING, heat="charcoal")
    rehearsal.say(little.get(language, "jiko linatoa moshi kidogo"))
    assert keys(rehearsal, text)[0] == "heat_smoky"


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_after_poisoned_air_nobody_is_sent_in_for_a_stove(
    rehearsal: Rehearsal, language: str
) -> None:
    ill = {
        "en": "my worker has a headache and vomits in the brooder",
        "fr": "mon ouvrier a mal a la tete et vomit dans la poussiniere",
        "sw": "kijana kichwa kinamuuma na anatapika bandani",
    }
    out = {"en": "do i take the stove out?", "fr": "je sors le fourneau?", "sw": "nitoe jiko nje?"}
    stand(rehearsal, language, EVENING, heat="charcoal")
    assert keys(rehearsal, ill[language])[0] == "danger_fumes"
    assert not {"heat_smoky", "heat_hot_fire"}.intersection(keys(rehearsal, out[language]))


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "the jiko went off and they are piled up crying"),
        ("en", "stove went off, they huddle"),
        ("fr", "le fourneau s'est eteint et ils sont en tas"),
        ("sw", "jiko limezima wamerundikana wanalia"),
        ("sw", "jiko limezimika vifaranga wanalia wamebanana"),
    ],
)
def test_the_stove_that_went_out_is_lit_where_the_record_knows_of_bulbs(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, EVENING, heat="bulb")
    assert "relight_fire" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "a bulb went off and they are piled up crying"),
        ("fr", "une ampoule s'est eteinte et ils sont en tas"),
        ("sw", "taa imezima wamerundikana wanalia"),
    ],
)
def test_a_bulb_that_went_out_is_changed(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, EVENING, heat="bulb")
    assert "relight_bulb" in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "some of them pant now since i lit the stove"),
        ("en", "now a few have open beaks"),
        ("fr", "maintenant quelques uns soufflent bec ouvert"),
        ("sw", "sasa wachache wanahema midomo wazi"),
        ("sw", "wanahema tangu niwashe jiko"),
    ],
)
def test_open_beaks_told_after_hunger_have_their_own_answer(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    empty = {
        "en": "feed is finished since yesterday",
        "fr": "l'aliment est fini depuis hier",
        "sw": "chakula kimeisha tangu jana",
    }
    stand(rehearsal, language, "2026-01-16T11:00:00+03:00", heat="charcoal", age_days=15)
    assert rehearsal.say(empty[language])[0].decision.why.cause == "hunger"  # type: ignore[union-attr]
    found = rehearsal.say(text)[0].decision
    assert found.why is not None
    assert found.why.cause == "hot"


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_told_again_that_they_are_hungry_it_is_no_other_trouble(
    rehearsal: Rehearsal, language: str
) -> None:
    empty = {
        "en": "feed is finished since yesterday",
        "fr": "l'aliment est fini depuis hier",
        "sw": "chakula kimeisha tangu jana",
    }
    cry = {"en": "they cry much", "fr": "ils crient beaucoup", "sw": "wanalia sana"}
    stand(rehearsal, language, MORNING, heat="charcoal", age_days=15)
    rehearsal.say(empty[language])
    assert "go_on" in keys(rehearsal, cry[language])


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "the mesh is torn at the window, a fist goes through"),
        ("en", "there is a hole under the wall"),
        ("fr", "il y a un trou dans le grillage"),
        ("sw", "wavu umetoboka kwenye dirisha"),
        ("sw", "kuna tundu chini ya ukuta"),
    ],
)
def test_a_hole_told_after_a_beast_is_of_the_beast(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, heat="none", age_days=27)
    assert "predator" in keys(rehearsal, BEAST[language])
    assert keys(rehearsal, text)[0] == "predator_hole"


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_what_is_looked_at_tomorrow_is_told_by_its_day_and_in_no_minutes(
    rehearsal: Rehearsal, language: str
) -> None:
    stand(rehearsal, language, MORNING, heat="none", age_days=27)
    rehearsal.say(BEAST[language])
    text = {"en": "they are calm", "fr": "ils sont calmes", "sw": "wametulia"}
    taken, _ = rehearsal.say(text[language])
    day = {"en": "tomorrow", "fr": "demain", "sw": "kesho"}[language]
    assert day in taken.texts[0]
    assert "14" not in taken.texts[0]


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "can i put rat poison inside tonight?"),
        ("en", "i will lay poison for the rats near the feeders"),
        ("fr", "je mets du poison pour les rats dedans?"),
        ("fr", "de la mort aux rats dans le poulailler, c'est bon?"),
        ("sw", "niweke sumu ya panya bandani?"),
    ],
)
def test_poison_for_a_beast_is_no_cure_and_is_kept_from_the_birds(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, heat="none", age_days=27)
    rehearsal.say(BEAST[language])
    said = keys(rehearsal, text)
    assert said[0] == "own_poison"
    assert "no_cure" not in said


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "no poison was used"),
        ("fr", "le poisson du marche est cher"),
        ("sw", "hakuna sumu ya panya hapa"),
    ],
)
def test_no_poison_is_heard_where_none_is_meant(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, heat="none", age_days=27)
    assert "own_poison" not in keys(rehearsal, text)


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "36 inside. they pant. i hosed the litter with water but it is worse"),
        ("fr", "36 dedans, ils soufflent. j'ai arrose la litiere au tuyau mais c'est pire"),
        ("sw", "joto 36, wanahema. nimemwaga maji kwenye maranda lakini ni mbaya zaidi"),
    ],
)
def test_water_thrown_on_the_litter_in_the_heat_is_refused(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MIDDAY, heat="none", age_days=30, count=900)
    said = keys(rehearsal, text)
    assert "own_wet" in said or "hot_open" in said


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "and the litter is wet, what do i do with it"),
        ("fr", "et la litiere est mouillee, j'en fais quoi"),
        ("sw", "na maranda yamelowa, nifanyeje nayo"),
    ],
)
def test_nobody_carries_litter_among_birds_that_pant(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MIDDAY, heat="none", age_days=30, count=900)
    rehearsal.say(HOT[language].split(" loin")[0].split(" far")[0].split(" mbali")[0])
    assert keys(rehearsal, text)[0] == "litter_evening"


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "6 are pecked and one bleeds, do i take them apart?"),
        ("fr", "6 sont piques et un saigne, je les separe?"),
        ("sw", "6 wamedonolewa na mmoja anatoka damu, niwatenge?"),
    ],
)
def test_the_pecked_are_set_apart_whatever_else_is_being_done(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MIDDAY, heat="charcoal", age_days=13, count=500)
    rehearsal.say(HOT[language])
    said = keys(rehearsal, text)
    assert {"pecked_apart", "crowding", "hurt_apart"}.intersection(said)


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_the_hour_that_was_promised_at_night_comes_though_only_a_few_are_left(
    rehearsal: Rehearsal, language: str
) -> None:
    few = {
        "en": "they have spread near the stove, quiet, few still calling",
        "fr": "ils se sont repartis pres du fourneau, calmes, quelques uns crient encore",
        "sw": "wametawanyika karibu na jiko, wametulia, wachache bado wanalia",
    }
    stand(rehearsal, language, NIGHT, heat="charcoal", age_days=3)
    rehearsal.say(COLD[language])
    rehearsal.wait(timedelta(minutes=25))
    rehearsal.heard()
    said = keys(rehearsal, few[language])
    assert "better_some_cold" in said
    rehearsal.heard()
    rehearsal.wait(timedelta(minutes=31))
    assert rehearsal.heard()


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "now they all eat and drink"),
        ("fr", "ils mangent maintenant"),
        ("fr", "ils mangent tous, le bruit a baisse"),
        ("sw", "wanakula sasa"),
    ],
)
def test_told_before_we_ask_that_it_helped_it_is_heard(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, heat="none", age_days=27)
    rehearsal.say(BEAST[language])
    assert not {"not_understood", "not_understood_plain"}.intersection(keys(rehearsal, text))
    assert rehearsal.case().recent.misses == 0


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("fr", "l'aliment est fini depuis hier"),
        ("fr", "l'aliment est termine"),
        ("en", "the feed is finished since yesterday"),
        ("sw", "chakula kimeisha tangu jana"),
    ],
)
def test_feed_that_is_finished_is_no_trouble_that_is_over(
    rehearsal: Rehearsal, language: str, text: str
) -> None:
    stand(rehearsal, language, MORNING, heat="none", age_days=27)
    found = rehearsal.say(text)[0].decision.why
    assert found is not None
    assert found.cause == "hunger"


@pytest.mark.parametrize(
    ("language", "text"),
    [("en", "the noise is over"), ("fr", "les cris sont finis"), ("sw", "kelele zimeisha")],
)
def test_noise_that_is_over_is_no_noise(rehearsal: Rehearsal, language: str, text: str) -> None:
    stand(rehearsal, language, MORNING, heat="none", age_days=27)
    assert "noisy_distress" not in rehearsal.say(text)[0].meaning.signals


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_a_house_without_heat_is_told_no_degrees_under_it(
    rehearsal: Rehearsal, language: str
) -> None:
    stand(rehearsal, language, "2026-07-09T05:40:00+03:00", heat="none", age_days=17)
    rehearsal.heard()
    rehearsal.wait(timedelta(hours=2))
    said = [one.text for one in rehearsal.heard()]
    assert said
    assert not any("27 C" in one for one in said)

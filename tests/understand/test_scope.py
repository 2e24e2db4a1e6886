"""How far words reach: denial, other people's birds, suppositions, questions, now and then."""

from __future__ import annotations

import pytest

from bot.facts.talk import Intent
from bot.wiring import Thinking
from tests.understand.reading import heard, read


@pytest.mark.parametrize(
    ("text", "absent"),
    [
        ("no smell and the litter is dry", {"ammonia_smell", "litter_wet"}),
        ("hakuna harufu na maranda ni kavu", {"ammonia_smell", "litter_wet"}),
        ("no cough, sneezing or blood", {"sneezing_or_rattle", "bloody_droppings"}),
        ("not loud and not piled", {"noisy_distress", "piled_near_heat"}),
        ("panting but ok now", {"panting"}),
    ],
)
def test_a_denial_reaches_over_a_list_and_no_further(
    thinking: Thinking, text: str, absent: set[str]
) -> None:
    got = read(thinking, text)
    assert set(got["not_signals"]) == absent
    assert got["signals"] == []


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("feed is finished since last night", "feed_finished"),
        ("they were panting yesterday and still today", "panting"),
        ("wawili hawana nguvu wako dull", "lethargic"),
        ("they are not panting and not drinking much", "drinking_less"),
    ],
)
def test_what_goes_on_until_now_or_denies_itself_is_a_sign(
    thinking: Thinking, text: str, sign: str
) -> None:
    assert sign in read(thinking, text)["signals"]


def test_a_sign_asked_about_and_answered_no_is_denied(thinking: Thinking) -> None:
    got = read(thinking, "they were gasping? no it was just panting, it is hot", age_days=25)
    assert (got["signals"], got["not_signals"]) == (["panting"], ["gasping"])
    assert not got["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "my boy has diarrhoea so we are at clinic",
        "i have diarrhoea",
        "my cow is limping",
        "one of the goats died",
        "3 people died in an accident",
        "my wife has a headache, she did not go to the market",
    ],
)
def test_illness_of_people_and_other_animals_is_none_of_the_birds(
    thinking: Thinking, text: str
) -> None:
    got = read(thinking, text)
    assert (got["signals"], got["red_flag"], got["intent"]) == ([], False, "other")


@pytest.mark.parametrize(
    "text",
    [
        "kaka yangu amezimia karibu na jiko",
        "mon frere est tombe evanoui pres du foyer a charbon",
        "diarrhee avec sang kes ke je fais",
        "we have bloody droppings",
        "i found blood in the droppings",
        "there is smoke and i am coughing",
        "my wife fainted near the stove",
        "we slept in the brooder, now the boy is vomiting",
        "stop i have a headache and the chicks are asleep near the stove",
        "please my chicks they are passing blood what do I give",
        "mes poulets font le caca avec du sang je donne quoi",
        "call me 12 died",
        "how much water should they take? also 11 died since morning",
        "i buried 14 today",
        "all my birds are dull",
        "bloodydroppings",
    ],
)
def test_danger_is_found_beside_people_questions_and_wishes(thinking: Thinking, text: str) -> None:
    assert read(thinking, text)["red_flag"]


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("chicks flat asleep evenly round the bulb after eating", 300),
        ("slaughtered 5 for visitors, blood everywhere lol", 300),
        ("one chick is sleepy, eyes closed", 300),
        ("the birds were breeding", 300),
        ("4 dead out of the 1000 today", 1000),
        ("leo wanne wamekufa kati ya elfu moja", 1000),
        ("4 morts sur les mille aujourd'hui", 1000),
    ],
)
def test_what_only_sounds_like_danger_raises_none(
    thinking: Thinking, text: str, count: int
) -> None:
    assert not read(thinking, text, age_days=22, count=count)["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "why do chicks pile?",
        "does rain affect chicks",
        "can smoke kill chicks?",
        "is bloody droppings dangerous?",
        "if they pant what do i do",
        "when they pant what should i do",
    ],
)
def test_a_question_about_a_sign_is_a_question(thinking: Thinking, text: str) -> None:
    got = read(thinking, text)
    assert (got["intent"], got["signals"], got["red_flag"]) == ("ask", [], False)


def test_when_tells_the_moment_and_asks_before_a_verb(thinking: Thinking) -> None:
    assert read(thinking, "when i enter they run to the walls")["signals"]
    assert read(thinking, "when do i sell")["intent"] == "ask"


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("3 died this morning and 2 tonight", 5),
        ("3 died yesterday and 1 today", 1),
        ("hier 2 morts, aujourd'hui zéro", 0),
        ("tangu mwanzo wamekufa watatu leo hakuna", 0),
        ("one was dead this morning and my wife stepped on another, so 2", 2),
        ("total mortalité du jour: 35 sujets", 35),
        ("2 dead today no smell", 2),
    ],
)
def test_the_dead_of_today_are_counted_once(thinking: Thinking, text: str, dead: int) -> None:
    slots = read(thinking, text)["slots"]
    told = [slots, *(part["slots"] for part in slots.get("parts", ()))]
    assert [one["deaths"] for one in told if "deaths" in one] == [dead]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("rats killed 3 chicks", ["observe", "deaths"]),
        ("gave zakivor yesterday and bought 2 bags of 50 kg", ["treated", "feed"]),
        ("avg weight 800g, feed 30kg", ["weight", "feed"]),
        ("sold 10 at 600, feed 5kg", ["sold", "feed"]),
    ],
)
def test_several_facts_of_one_text_are_all_kept(
    thinking: Thinking, text: str, parts: list[str]
) -> None:
    got = read(thinking, text, age_days=23)
    assert [one["intent"] for one in got["slots"]["parts"]] == parts


def test_a_batch_told_with_a_question_is_registered_and_the_question_answered(
    thinking: Thinking,
) -> None:
    text = "got 200 chicks today, how much heat do they need"
    got = read(thinking, text, has_batch=False, age_days=None, count=None)
    assert [one["intent"] for one in got["slots"]["parts"]] == ["register", "ask"]


def test_the_dead_of_the_box_are_no_deaths_of_the_day(thinking: Thinking) -> None:
    text = "the hatchery box had 2 dead, i received 300 live"
    got = read(thinking, text, has_batch=False, age_days=None, count=None)
    assert got["intent"] != "deaths"
    assert not got["red_flag"]


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("birdspiling under the bulb", "piled_near_heat"),
        ("nopower since morning", "no_power"),
        ("wamerundkana kwa jiko", "piled_near_heat"),
        ("they are gasipng, many", "gasping"),
    ],
)
def test_missing_spaces_and_swapped_letters_are_read(
    thinking: Thinking, text: str, sign: str
) -> None:
    assert sign in read(thinking, text)["signals"]


def test_a_date_beside_its_weekday_says_the_day(thinking: Thinking) -> None:
    text = "new batch 300 on monday 23 february"
    got = read(thinking, text, has_batch=False, age_days=None, count=None)
    assert got["slots"]["date_iso_offset"] == -9


def test_a_word_for_better_says_how_it_goes_before_we_ask(thinking: Thinking) -> None:
    got = heard(thinking, "better")
    assert (got.intent, got.slots.answer) == (Intent.OBSERVE, "better")


@pytest.mark.parametrize(
    ("prompt", "text", "signs"),
    [
        ("litter", "3", ["litter_caked"]),
        ("litter", "two", ["litter_wet"]),
        ("worked", "2", []),
        ("worked", "much better", []),
    ],
)
def test_an_answer_of_litter_or_of_how_it_went_is_seen_by_its_signs_alone(
    thinking: Thinking, prompt: str, text: str, signs: list[str]
) -> None:
    got = read(thinking, text, last_prompt=prompt)
    assert (got["intent"], got["slots"], got["signals"]) == ("observe", {}, signs)


def test_a_half_bag_is_half_of_its_weight(thinking: Thinking) -> None:
    assert read(thinking, "used half a bag of 50kg")["slots"]["kg"] == 25


def test_not_one_dead_is_no_death(thinking: Thinking) -> None:
    for text in ("not 1 died today", "leo sijapoteza hata 1"):
        got = read(thinking, text)
        assert (got["intent"], got["slots"].get("deaths")) == ("deaths", 0), text


def test_what_a_neighbour_lost_is_no_batch_and_no_death(thinking: Thinking) -> None:
    got = read(thinking, "my neighbour lost 20 yday mine r ok")
    assert got["intent"] not in ("register", "deaths")


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("my neighbours birds have twisted necks not mine", "twisted_neck_or_paralysis"),
        ("la poule du voisin a le cou tordu pas les miens", "twisted_neck_or_paralysis"),
        ("i looked, heads are not swollen", "swollen_head"),
        ("one has puffy eye i removed it to a carton nobody is sneezing", "sneezing_or_rattle"),
    ],
)
def test_what_the_farmer_says_their_own_birds_do_not_have_is_denied(
    thinking: Thinking, text: str, sign: str
) -> None:
    assert sign in read(thinking, text)["not_signals"]


def test_dry_answers_how_the_litter_is(thinking: Thinking) -> None:
    got = read(thinking, "dry n no bad smell", last_prompt="litter")
    assert got["not_signals"] == ["litter_wet", "ammonia_smell"]


@pytest.mark.parametrize(
    ("text", "intent"),
    [
        ("when they breathe there is a whistling noise", "observe"),
        ("when they pant what should i do", "ask"),
        ("neighbours chickens are shitting blood should we lock our gate", "ask"),
        ("25 died today God why", "deaths"),
        ("why do chicks die at night", "ask"),
        ("why are 12 dead today", "deaths"),
    ],
)
def test_a_report_that_only_sighs_is_a_report_and_a_question_a_question(
    thinking: Thinking, text: str, intent: str
) -> None:
    assert read(thinking, text)["intent"] == intent


@pytest.mark.parametrize(
    ("text", "slots"),
    [
        ("un sac et demi de 50", {"kg": 75}),
        ("2 bidons et demi", {"litres": 50}),
        ("hier 3 morts aujourdhui 2", {"deaths": 2}),
        ("un client a achete 15 poulets", {"count": 15}),
    ],
)
def test_halves_days_and_buyers_are_counted_as_meant(
    thinking: Thinking, text: str, slots: dict[str, float]
) -> None:
    assert slots.items() <= read(thinking, text)["slots"].items()


def test_chicks_asleep_with_the_lights_off_are_no_danger(thinking: Thinking) -> None:
    assert not read(thinking, "all are sleeping now, lights off")["red_flag"]
    assert read(thinking, "all are dull and not waking, lights off")["red_flag"]


def test_deaths_told_with_a_stop_are_a_danger_all_the_same(thinking: Thinking) -> None:
    got = read(thinking, "STOP. 10 died")
    assert (got["intent"], got["signals"]) == ("stop", ["sudden_many_deaths"])

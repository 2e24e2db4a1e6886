"""What a tired farmer types, and what must never be read into it."""

from __future__ import annotations

from datetime import date
from time import process_time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.facts.talk import Hearing, Intent
from bot.wiring import Thinking, build_thinking
from tests.understand.reading import heard, read

READER = build_thinking().reader
TODAY = date(2026, 3, 4)


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("2 dead", 2),
        ("3 chicks dead", 3),
        ("none died", 0),
        ("no deaths today", 0),
        ("wamekufa 2", 2),
        ("hakuna kifo", 0),
        ("2 morts", 2),
        ("aucun mort", 0),
        ("mmoja amekufa", 1),
    ],
)
def test_deaths_are_counted(thinking: Thinking, text: str, dead: int) -> None:
    got = read(thinking, text)
    assert (got["intent"], got["slots"].get("deaths")) == ("deaths", dead)


@pytest.mark.parametrize(
    ("text", "seen", "denied"),
    [
        ("bakuku banakoroma", ["sneezing_or_rattle"], []),
        ("kuku zinakoroma usiku", ["sneezing_or_rattle"], []),
        ("waliokoroma ni watatu", ["sneezing_or_rattle"], []),
        ("hakuna anayekoroma", [], ["sneezing_or_rattle"]),
        ("hawajawahi kukoroma", [], ["sneezing_or_rattle"]),
        ("macho yanatuchoma kwa moshi", ["smoke_or_fumes"], []),
    ],
)
def test_a_swahili_verb_is_read_in_every_person_and_tense(
    thinking: Thinking, text: str, seen: list[str], denied: list[str]
) -> None:
    got = read(thinking, text)
    assert (got["signals"], got["not_signals"]) == (seen, denied)


@pytest.mark.parametrize(
    ("text", "price", "dead"),
    [("sold 30 @650 one dead", 650, 1), ("vendu 30 à 2500 un mort", 2500, 1)],
)
def test_a_price_and_the_figure_behind_it_are_two_figures(
    thinking: Thinking, text: str, price: float, dead: int
) -> None:
    sold, died = read(thinking, text)["slots"]["parts"]
    assert (sold["slots"]["price"], died["slots"]["deaths"]) == (price, dead)


@pytest.mark.parametrize(
    ("text", "kg"),
    [
        ("i bought three 50kg bags", 150),
        ("2 50kg bags mash eaten", 100),
        ("nimenunua mifuko mi4 ya kilo 50", 200),
    ],
)
def test_bags_are_counted_by_their_size(thinking: Thinking, text: str, kg: float) -> None:
    assert read(thinking, text)["slots"]["kg"] == kg


@pytest.mark.parametrize(
    ("text", "signs"),
    [
        ("lé poussin son tous kolé o mur", ["at_edges_or_walls"]),
        ("ils son en tas kontre le rechau", ["piled_near_heat"]),
        ("mosh umejaa bandani macho yanatuchoma", ["smoke_or_fumes"]),
    ],
)
def test_words_written_by_ear_are_understood(
    thinking: Thinking, text: str, signs: list[str]
) -> None:
    assert read(thinking, text)["signals"] == signs


def test_a_spelling_that_could_be_blood_or_without_is_not_taken_for_blood(
    thinking: Thinking,
) -> None:
    assert "bloody_droppings" not in read(thinking, "ils sont san odeur")["signals"]


@pytest.mark.parametrize("text", ["today 3, yesterday 5 died", "yesterday 5 died, today 3"])
def test_of_two_days_the_deaths_of_today_count(thinking: Thinking, text: str) -> None:
    assert read(thinking, text)["slots"]["deaths"] == 3


@pytest.mark.parametrize(
    ("text", "signs"),
    [
        ("walls", ["at_edges_or_walls"]),
        ("one side", ["crowded_one_side"]),
        ("partout, calmes", ["spread_evenly", "quiet_content"]),
        ("pres du feu", ["piled_near_heat"]),
        ("karibu na jiko", ["piled_near_heat"]),
        ("dead near the stove", ["drowsy_people_or_birds_near_stove"]),
    ],
)
def test_asked_where_they_are_a_place_alone_is_an_answer(
    thinking: Thinking, text: str, signs: list[str]
) -> None:
    assert read(thinking, text, last_prompt="behaviour")["signals"] == signs


def test_a_place_nobody_asked_for_is_no_answer(thinking: Thinking) -> None:
    assert read(thinking, "near the stove")["signals"] == []


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("not piling any more", "piled_near_heat"),
        ("they are no longer panting", "panting"),
        ("no smell", "ammonia_smell"),
        ("hawahemi", "panting"),
        ("pas de sang dans les fientes", "bloody_droppings"),
    ],
)
def test_a_denied_sign_is_no_sign_but_evidence(thinking: Thinking, text: str, sign: str) -> None:
    got = read(thinking, text)
    assert sign in got["not_signals"]
    assert sign not in got["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "my neighbour's birds have blood, mine are fine",
        "i need a blood test",
        "red feeder broke",
        "dead battery",
        "stop giving mash?",
        "if they pant what do i do?",
    ],
)
def test_a_harmless_look_alike_raises_no_alarm_and_stops_nothing(
    thinking: Thinking, text: str
) -> None:
    got = read(thinking, text)
    assert not got["red_flag"]
    assert got["intent"] != "stop"


@pytest.mark.parametrize(
    "text",
    [
        "blood in droppings",
        "twisted necks",
        "many are sneezing and gasping",
        "my head is paining since i lit the charcoal",
        "12 died overnight",
        "kinyesi kina damu",
        "du sang dans les fientes",
    ],
)
def test_danger_is_sent_to_a_vet_in_the_same_turn(thinking: Thinking, text: str) -> None:
    assert read(thinking, text)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "dont call me plz im in class till 5, u can text"),
        ("en", "dont send texts at night"),
        ("en", "do not text me after 8 pm"),
        ("fr", "ne m'envoyez pas de messages la nuit"),
        ("sw", "msinitumie sms usiku"),
    ],
)
def test_a_wish_about_the_hour_or_about_calls_opts_nobody_out(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert read(thinking, text, lang=lang)["intent"] != "stop"


@pytest.mark.parametrize("text", ["stop", "STOP please", "please stop sending me messages", "acha"])
def test_stop_is_honoured_by_meaning(thinking: Thinking, text: str) -> None:
    assert read(thinking, text)["intent"] == "stop"


@pytest.mark.parametrize("shape", ["2", "2.", "(2)", " 2 ", "no 2", "two", "mbili", "deux"])
def test_a_menu_digit_is_taken_in_every_shape(thinking: Thinking, shape: str) -> None:
    got = read(thinking, shape, last_prompt="behaviour")
    assert got["signals"] == ["piled_near_heat"]


@pytest.mark.parametrize("prompt", ["deaths", "crop", "feed", "water", "count", "temperature"])
@pytest.mark.parametrize("figure", range(21))
def test_a_figure_for_a_number_question_is_never_a_menu_digit(prompt: str, figure: int) -> None:
    meaning = READER.read(str(figure), Hearing(TODAY, "en", True, 5, 300, prompt))
    slots = meaning.slots
    said = {
        "deaths": slots.deaths,
        "crop": slots.crops_full,
        "feed": slots.kg,
        "water": slots.litres,
        "count": slots.count,
    }
    assert meaning.slots.answer is None
    assert meaning.intent not in (Intent.CALL_ME, Intent.NOT_ME, Intent.OBSERVE)
    if prompt in said and not (prompt == "crop" and figure > 10):
        assert said[prompt] == figure


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=200))
def test_no_text_breaks_the_reader(text: str) -> None:
    assert READER.read(text, Hearing(TODAY)).intent in Intent


def test_a_very_long_text_is_cut_and_said_so() -> None:
    assert READER.read("chicks pile at the stove " * 400, Hearing(TODAY, has_batch=True)).cut


@pytest.mark.parametrize("bait", ["a", "no ", "1 ", "not piled ", "kumi na ", "dead and 3 ", "(("])
def test_bait_for_slow_patterns_is_read_with_bounded_work(bait: str) -> None:
    """Four times the text takes some four times the work of this process; squared it were 16."""

    def seconds(letters: int) -> float:
        text = (bait * letters)[:letters]
        begun = process_time()
        READER.read(text, Hearing(TODAY, has_batch=True, age_days=5, count=300))
        return process_time() - begun

    assert min(seconds(1600) for _ in range(3)) < 10 * min(seconds(400) for _ in range(3)) + 0.005


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("kuku 10 kilo 4.5", 450.0),
        ("kuku 10 kilo 13", 1300.0),
        ("10 sujets 4,5 kg", 450.0),
        ("10 birds 4.5 kg", 450.0),
    ],
)
def test_a_weighing_is_read_as_our_own_texts_ask_for_it(
    thinking: Thinking, text: str, grams: float
) -> None:
    got = read(thinking, text)
    assert (got["intent"], got["slots"].get("avg_g")) == ("weight", grams)


@pytest.mark.parametrize("text", ["2500 for feed", "2500 ya chakula", "2500 pour aliment"])
def test_a_cost_is_read_as_our_own_texts_ask_for_it(thinking: Thinking, text: str) -> None:
    got = read(thinking, text)
    assert (got["intent"], got["slots"]) == ("expense", {"price": 2500.0, "spent_on": "feed"})


@pytest.mark.parametrize(
    ("text", "slots"),
    [
        ("hotel took 40 at 900 each", {"count": 40, "price": 900.0, "price_per": "bird"}),
        ("50 went at 230 per kilo", {"count": 50, "price": 230.0, "price_per": "kg"}),
    ],
)
def test_a_sale_told_by_what_the_buyer_did_is_a_sale(
    thinking: Thinking, text: str, slots: dict[str, object]
) -> None:
    got = read(thinking, text)
    assert got["intent"] == "sold"
    assert {name: got["slots"].get(name) for name in slots} == slots


def test_the_weekday_before_is_meant_by_last_whatever_is_asked(thinking: Thinking) -> None:
    got = read(thinking, "last monday", has_batch=False, last_prompt="date")
    assert got["slots"]["date_iso_offset"] == -2  # today is Wednesday


def test_the_figure_beside_today_counts_and_not_the_sum_until_now(thinking: Thinking) -> None:
    assert read(thinking, "12 have died since day one none today")["slots"] == {"deaths": 0}
    assert read(thinking, "4 dead of the 1000 today", count=1000)["slots"]["deaths"] == 4


def test_all_with_the_number_of_the_flock_is_the_whole_flock(thinking: Thinking) -> None:
    assert "sleepy_all_birds" in read(thinking, "all 290 are dull today")["signals"]
    assert "sleepy_all_birds" not in read(thinking, "all 3 weak ones are dull today")["signals"]


def test_smoke_outside_and_none_inside_is_no_smoke_in_the_brooder(thinking: Thinking) -> None:
    got = read(thinking, "it smokes outside when i light it inside the room no smoke")
    assert (got["signals"], got["not_signals"]) == ([], ["smoke_or_fumes"])


def test_a_word_of_asking_before_its_subject_asks_and_behind_it_tells(thinking: Thinking) -> None:
    assert read(thinking, "is rice husk ok for the floor")["intent"] == "ask"
    assert read(thinking, "the rice husk is ok on the floor")["intent"] != "ask"


YES_OR_NO = {
    "yes many": "yes",
    "yes all of them since morning": "yes",
    "oui beaucoup": "yes",
    "ndio wengi sana": "yes",
    "no just a few": "no",
    "non aucun": "no",
    "hapana hata mmoja": "no",
    "i dont know": "unsure",
    "je ne sais pas": "unsure",
    "sijui": "unsure",
}


@pytest.mark.parametrize("text", YES_OR_NO)
def test_a_yes_or_no_is_heard_with_the_words_that_follow_it(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, last_prompt="yes_no")
    assert got["slots"] == {"answer": YES_OR_NO[text]}


@pytest.mark.parametrize(
    "text",
    ["no the litter is wet", "no litter soaked", "non la litiere est mouillee",
     "non litiere trempee", "hapana maranda yamelowa"],
)  # fmt: skip
def test_what_stands_behind_a_no_is_told_not_denied(thinking: Thinking, text: str) -> None:
    got = heard(thinking, text, last_prompt="yes_no")
    assert (got.signals, got.slots.answer) == (("litter_wet",), "no")


@pytest.mark.parametrize("text", ["no smell", "no one is coughing", "hakuna kikohozi"])
def test_a_no_that_denies_is_no_answer_to_something_else(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, last_prompt="yes_no")
    assert (got["signals"], got["slots"]) == ([], {})


@pytest.mark.parametrize(
    "text",
    ["i will sell 20 tomorrow", "nitauza 20 kesho", "je vais vendre 20 demain",
     "kesho nitanunua chakula mfuko mmoja", "je donnerai des vitamines ce soir",
     "if i lose 20 i will call you", "nikipoteza 10 nitakupigia",
     "si je perds plus de 10 je vous appelle"],
)  # fmt: skip
def test_what_will_be_done_or_may_happen_is_not_taken_down(thinking: Thinking, text: str) -> None:
    got = read(thinking, text)
    assert (got["intent"], got["red_flag"]) == ("other", False)


DENIED_BESIDE = {
    "green diarrhoea but no blood": (["white_or_green_diarrhoea"], ["bloody_droppings"]),
    "un seul a la diarrhee verte sans sang": (["white_or_green_diarrhoea"], ["bloody_droppings"]),
    "ni sang ni diarrhee": ([], ["bloody_droppings", "white_or_green_diarrhoea"]),
    "mon coq avance pas il tourne sur lui meme": (["twisted_neck_or_paralysis"], []),
    "no cough they are limping": (["limping_or_down"], ["sneezing_or_rattle"]),
    "i dont think they cough": ([], ["sneezing_or_rattle"]),
}  # fmt: skip


@pytest.mark.parametrize("text", DENIED_BESIDE)
def test_a_denial_reaches_what_it_denies_and_no_further(thinking: Thinking, text: str) -> None:
    got = read(thinking, text)
    assert (got["signals"], got["not_signals"]) == DENIED_BESIDE[text]


TODAYS_DEAD = {
    "2 morts hier 0 aujourdhui": 0, "hier 2 ojd 1 mort": 1, "leo 3 jana 2 wamekufa": 3,
    "2 dead yesterday 1 today": 1, "my neighbour lost 20 birds me none": 0,
    "le voisin a perdu 20 poulets moi zero": 0, "jirani amepoteza 20 mimi hakuna": 0,
}  # fmt: skip


@pytest.mark.parametrize("text", TODAYS_DEAD)
def test_the_dead_of_today_and_of_this_flock_are_counted(thinking: Thinking, text: str) -> None:
    assert read(thinking, text)["slots"]["deaths"] == TODAYS_DEAD[text]


@pytest.mark.parametrize(
    "text",
    ["I feel dizzy when I go in to the charcoal stove what do i do?",
     "habari, wana tumbo la kuendesha nifanye nini?",
     "all lying down, dont wake when i clap what do i do?"],
)  # fmt: skip
def test_danger_with_a_cry_for_help_behind_it_is_danger(thinking: Thinking, text: str) -> None:
    assert read(thinking, text)["red_flag"]


@pytest.mark.parametrize(
    "text", ["if they gasp what do i do?", "wakihema nifanye nini", "quand ils toussent que faire"]
)
def test_what_may_happen_with_what_to_do_behind_it_is_a_question(
    thinking: Thinking, text: str
) -> None:
    got = read(thinking, text)
    assert (got["intent"], got["red_flag"]) == ("ask", False)


def test_only_the_slots_of_the_contract_are_printed(thinking: Thinking) -> None:
    """contracts.md, part 1: heat is asked for with `heat` and is no slot; a house is its m2."""
    house = read(thinking, "how many chicks fit in 4 by 5 m", "en", has_batch=False)
    heat = read(thinking, "gas and charcoal", "en", last_prompt="heat")
    assert house["slots"].keys() <= {"house_m2", "topic"}
    assert house["slots"]["house_m2"] == 20
    assert heat["intent"] == "register"
    assert heat["slots"] == {}

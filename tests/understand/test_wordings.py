"""Kinds of wording that six writers taught: measures, sales, slips, others' birds, denials.

Each kind in fresh words of three languages; every one of them was read wrongly once.
"""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

SELLING = {"age_days": 40, "count": 430}
AWAITED = {"has_batch": False, "age_days": None, "count": None}


@pytest.mark.parametrize(
    ("lang", "text", "kg"),
    [
        ("sw", "nimenunua mifuko miwili ya kilo 70", 140),
        ("en", "bought two bags of fifty kilos", 100),
        ("fr", "achete deux sacs de cinquante kilos", 100),
    ],
)
def test_bags_that_were_bought_are_no_crops_that_were_felt(
    thinking: Thinking, lang: str, text: str, kg: float
) -> None:
    got = read(thinking, text, lang, last_prompt="crop")
    slots = got["slots"]
    assert (got["intent"], slots["kg"], slots["feed_move"]) == ("feed", kg, "in")


@pytest.mark.parametrize(
    ("lang", "text", "kg"),
    [
        ("fr", "on a mis 3 seaux de 9 kg dans les mangeoires", 27),
        ("fr", "donne ce matin deux seaux de 10 kilos d'aliment", 20),
        ("en", "we put 3 buckets of 6 kg in the trays today", 18),
    ],
)
def test_a_bucket_of_kilos_holds_feed(thinking: Thinking, lang: str, text: str, kg: float) -> None:
    got = read(thinking, text, lang)
    assert (got["intent"], got["slots"]["kg"]) == ("feed", kg)


@pytest.mark.parametrize(
    ("lang", "text", "litres"),
    [
        ("fr", "labreuvoir de 10 litre rempli 3 foi", 30),
        ("fr", "jai rempli 2 fois le bidon de 25l", 50),
        ("sw", "ndoo ya lita 10 tumejaza mara 4", 40),
        ("sw", "jerikeni ya lita 20 imeisha mara 3 leo", 60),
        ("en", "the 10l drinker refilled 3 times", 30),
    ],
)
def test_a_vessel_filled_several_times_gives_all_its_water(
    thinking: Thinking, lang: str, text: str, litres: float
) -> None:
    got = read(thinking, text, lang)
    assert (got["intent"], got["slots"]["litres"]) == ("water", litres)


@pytest.mark.parametrize(
    ("lang", "text", "count", "price", "per"),
    [
        ("sw", "kuku 90 wote wameuzika laki saba", 90, 700_000, "all"),
        ("sw", "kuku hamsini wameuzika elfu kumi kila mmoja", 50, 10_000, "bird"),
        ("en", "buyer took 60 n paid 1.5m for all", 60, 1_500_000, "all"),
        ("en", "sold 80 birds for 1.5 million all", 80, 1_500_000, "all"),
        ("en", "sold 100 all for 3m", 100, 3_000_000, "all"),
        ("fr", "vendu 80 poulets 1,5 million le tout", 80, 1_500_000, "all"),
        ("fr", "un client a pris 60 et a paye 2 millions pour tout", 60, 2_000_000, "all"),
    ],
)
def test_a_sale_is_told_in_millions_and_in_all(
    thinking: Thinking, lang: str, text: str, count: int, price: float, per: str
) -> None:
    got = read(thinking, text, lang, **SELLING)
    slots = got["slots"]
    assert (got["intent"], slots["count"], slots["price"]) == ("sold", count, price)
    assert slots["price_per"] == per


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "i typed 15 dead by mistake please delete"),
        ("en", "the 20 dead i sent was a mistake cancel it"),
        ("fr", "jai ecrit 12 morts par erreur enlevez"),
        ("fr", "j'ai tape 20 morts par erreur supprimez svp"),
        ("sw", "niliandika 12 wamekufa kwa makosa futa"),
        ("sw", "nilikosea kuandika wamekufa 15 naomba futa"),
    ],
)
def test_dead_written_by_mistake_are_taken_back_and_no_danger(
    thinking: Thinking, lang: str, text: str
) -> None:
    got = read(thinking, text, lang)
    assert (got["intent"], got["signals"], got["red_flag"]) == ("undo", [], False)


@pytest.mark.parametrize(
    ("lang", "text", "celsius"),
    [
        ("en", "thermometer was in the sun it showed 42 now in shade its 31", 31),
        ("en", "it said 40 coz sun was on it, in the shade now 29", 29),
        ("fr", "thermometre au soleil marquait 41 a lombre maintenant 30", 30),
        ("fr", "il faisait 26 ce matin maintenant 33", 33),
        ("sw", "kipima joto kilikuwa juani kilisoma 42 sasa kivulini ni 31", 31),
        ("sw", "joto lilikuwa 26 asubuhi sasa ni 33", 33),
    ],
)
def test_of_two_readings_the_one_of_now_counts(
    thinking: Thinking, lang: str, text: str, celsius: float
) -> None:
    got = read(thinking, text, lang)
    assert (got["intent"], got["slots"].get("value_c")) == ("temperature", celsius)


@pytest.mark.parametrize(
    ("lang", "text", "days"),
    [
        ("fr", "jai reserve 500 au couvoir on me livre vendredi", 2),
        ("fr", "jai paye 500 poussins au couvoir ils viennent vendredi", 2),
    ],
)
def test_chicks_paid_at_the_hatchery_come_on_the_day_said(
    thinking: Thinking, lang: str, text: str, days: int
) -> None:
    got = read(thinking, text, lang)
    assert (got["intent"], got["slots"]["date_iso_offset"]) == ("register", days)


@pytest.mark.parametrize(
    ("lang", "text", "days"),
    [("en", "last sato", -4), ("fr", "samdi passe", -4), ("sw", "j2 iliyopita", -3)],
)
def test_a_weekday_as_it_is_texted_answers_when_they_came(
    thinking: Thinking, lang: str, text: str, days: int
) -> None:
    got = read(thinking, text, lang, last_prompt="date", **AWAITED)
    assert (got["intent"], got["slots"]["date_iso_offset"]) == ("register", days)


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "how many deaths in week 1 is ok"),
        ("fr", "combien peuvent mourir en semaine 1"),
        ("sw", "wangapi hufa kawaida wiki ya 1"),
    ],
)
def test_a_week_in_a_question_about_deaths_is_no_age(
    thinking: Thinking, lang: str, text: str
) -> None:
    got = read(thinking, text, lang)
    assert (got["intent"], got["slots"].get("age_days")) == ("ask", None)


@pytest.mark.parametrize(
    ("lang", "text", "days"),
    [
        ("en", "planning 300 chicks on 20 march, room 6x5 m will they fit", 16),
        ("sw", "natarajia kuleta 300 ijumaa banda mita 6 kwa 5 litatosha?", 2),
    ],
)
def test_a_plan_with_its_floor_keeps_its_day(
    thinking: Thinking, lang: str, text: str, days: int
) -> None:
    got = read(thinking, text, lang, **AWAITED)
    slots = got["slots"]
    assert (got["intent"], slots["date_iso_offset"], slots["house_m2"]) == ("plan", days, 30)


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "nabours birds dying in plenty, mine ok"),
        ("en", "12 layers of my brother died"),
        ("en", "my sisters 10 hens died she lives far"),
        ("fr", "les 9 morts c'etait l'ancienne bande pas celle ci"),
        ("sw", "wale 7 waliokufa ni wa kundi la zamani sio hili"),
    ],
)
def test_the_dead_of_others_and_of_an_old_batch_are_no_danger(
    thinking: Thinking, lang: str, text: str
) -> None:
    got = read(thinking, text, lang, last_prompt="deaths")
    assert (got["red_flag"], got["slots"].get("deaths")) == (False, None)


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "old batch of 2024 died in mass this one no loss"),
        ("fr", "en 2025 la bande etait morte en masse celle ci rien"),
        ("sw", "kundi la mwaka 2024 lilikufa wengi hili hakuna"),
    ],
)
def test_none_of_this_batch_died_beside_many_of_the_old_one(
    thinking: Thinking, lang: str, text: str
) -> None:
    got = read(thinking, text, lang)
    assert (got["intent"], got["slots"]["deaths"], got["red_flag"]) == ("deaths", 0, False)


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "arsenal won 3 0 yesterday what a match"),
        ("fr", "les lions ont gagne 3 a 1 hier quel match"),
        ("sw", "simba wameshinda 2 0 jana mechi kali"),
        ("en", "dear customer 500 units sent to 0700000000 ref 2212 balance 30"),
    ],
)
def test_a_match_and_a_robot_tell_of_no_birds(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang, last_prompt="deaths")["intent"] == "other"


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "kwa bibi kuku wanakohoa je wangu wataambukizwa"),
        ("en", "grandpas hens twist necks can mine catch it"),
        (
            "fr",
            "chez mon grand pere les poulets ont la tete enflee est ce que ca va contaminer "
            "les miens",
        ),
    ],
)
def test_whether_others_illness_comes_over_is_a_question(
    thinking: Thinking, lang: str, text: str
) -> None:
    got = read(thinking, text, lang)
    assert (got["intent"], got["red_flag"]) == ("ask", False)


def test_the_birds_that_another_lost_are_no_flock_asked_about(thinking: Thinking) -> None:
    got = read(thinking, "a man nearby lost 200 to newcastle how do i keep it out", "en")
    assert (got["intent"], got["slots"].get("count")) == ("ask", None)


def test_when_a_vaccine_is_given_is_asked(thinking: Thinking) -> None:
    got = read(thinking, "wen is newcastle vaccine given", "en")
    assert (got["intent"], got["slots"]["topic"]) == ("ask", "vaccination")


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "mama brian call me when you get home"),
        ("fr", "cest marie? appelle moi kan tu sors"),
        ("sw", "nipigie ukifika mjini"),
        ("en", "pls dont stop these messages they help me"),
    ],
)
def test_what_is_said_to_somebody_else_is_no_wish(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang)["intent"] == "other"


@pytest.mark.parametrize(
    ("lang", "text", "wished"),
    [
        ("en", "french is difficult send in english", "en"),
        ("en", "i dont understand french, english please", "en"),
        ("fr", "l anglais c est dur francais svp", "fr"),
        ("fr", "je comprends pas anglais ecrivez en francais", "fr"),
        ("sw", "kiingereza ni kigumu tumia kiswahili", "sw"),
        ("sw", "sielewi kiingereza andika kiswahili", "sw"),
    ],
)
def test_the_language_that_is_hard_is_not_the_one_wished(
    thinking: Thinking, lang: str, text: str, wished: str
) -> None:
    got = read(thinking, text, lang)
    assert (got["intent"], got["slots"]["lang"]) == ("language", wished)


@pytest.mark.parametrize(
    ("lang", "text", "sign"),
    [
        ("sw", "mmoja amelegea wengine hawasinzii", "sleepy_all_birds"),
        ("fr", "courant parti puis rvenu", "no_power"),
        ("sw", "umeme ulizima ila ulirejea", "no_power"),
        ("en", "light went off but don come back", "no_power"),
        ("en", "green water in the droppings not blood", "bloody_droppings"),
        ("fr", "pas de gonflement pas de toux", "swollen_head"),
        ("sw", "hakuna uvimbe wala kikohozi", "swollen_head"),
        ("en", "green droppings finished", "white_or_green_diarrhoea"),
        ("en", "smoke no dey", "smoke_or_fumes"),
        ("fr", "ils mangent tous sauf que les plumes sont herissees", "not_eating"),
        ("sw", "panya hawakuja usiku", "rats_or_predator"),
    ],
)
def test_what_is_said_to_be_over_or_only_of_one_is_denied(
    thinking: Thinking, lang: str, text: str, sign: str
) -> None:
    got = read(thinking, text, lang)
    assert (sign in got["not_signals"], sign in got["signals"]) == (True, False)


@pytest.mark.parametrize(
    ("lang", "text", "sign"),
    [
        ("fr", "ils n'ont pas la meme taille", "uneven_size"),
        ("en", "not drinking as they used to", "drinking_less"),
        ("en", "drinkers dry up before noon", "drinking_more"),
        ("fr", "abreuvoirs vides avant midi", "drinking_more"),
        ("sw", "maji yanamalizika upesi", "drinking_more"),
        ("fr", "litiere en gros morceaux", "litter_caked"),
        ("fr", "un seul suffoque les autre respire bien", "gasping"),
        ("fr", "ca boit san aret", "drinking_more"),
        ("fr", "les 300 sont abattus", "sleepy_all_birds"),
        ("sw", "hawnywi maji", "not_drinking"),
        ("sw", "bakuku banatousser", "sneezing_or_rattle"),
        ("sw", "macho yananata", "eyes_swollen_or_closed"),
        ("sw", "hawajakua sawa", "uneven_size"),
        ("sw", "taa zimezimika eneo lote", "no_power"),
    ],
)
def test_a_sign_is_heard_in_other_words(
    thinking: Thinking, lang: str, text: str, sign: str
) -> None:
    got = read(thinking, text, lang)
    assert (sign in got["signals"], sign in got["not_signals"]) == (True, False)


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "jiko la makaa limejaza mosho bandani macho yanatuwasha"),
        ("fr", "plus de 70 ont les yeux colles ki souvre plus"),
    ],
)
def test_a_danger_spelt_by_ear_is_a_danger(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "tete lourde a cause du whisky d'hier"),
        ("en", "my head pains bcoz of palm wine yesterday"),
        ("en", "comb torn small blood, their poop is clean"),
        ("sw", "hakuna kifaranga anaesinzia karibu na jiko"),
    ],
)
def test_a_hangover_a_scratch_and_a_denial_are_no_danger(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert not read(thinking, text, lang)["red_flag"]

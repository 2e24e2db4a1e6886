"""Danger told in a sentence of its own is heard, whatever is said around it: a cry for help,
a question whether it is normal, how many of them only at the end, one that was well. And what uses
the same words of no bird that is ill. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "chicks cough at night what do i do?"),
        ("en", "my birds wheeze in the night, what can i do"),
        ("en", "DEM DEY COUGH WETIN I GO DO?"),
        ("en", "chicks sneezing since monday help me what should i do"),
        ("fr", "les poussins toussent la nuit que faire"),
        ("fr", "mes poulets eternuent, je fais quoi?"),
        ("sw", "vifaranga wanakoroma usiku nifanye nini"),
        ("sw", "kuku wanakohoa usiku nifanyeje?"),
        ("sw", "habari, navel iko wet!!"),
        ("en", "chicks snore at night what do i do?"),
    ],
)
def test_what_to_do_behind_an_illness_of_many_leaves_it_of_many(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert read(thinking, text, lang, age_days=20)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "one chick coughs at night what do i do?"),
        ("en", "the neighbour's birds cough, what do i do?"),
        ("en", "if they cough what do i do?"),
        ("fr", "un seul tousse la nuit que faire"),
        ("sw", "mmoja anakohoa usiku nifanye nini"),
    ],
)
def test_what_to_do_makes_no_danger(thinking: Thinking, lang: str, text: str) -> None:
    assert not read(thinking, text, lang, age_days=20)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "i could hear them rattling, more than half"),
        ("en", "their eyes are swollen, nearly all"),
        ("en", "more thn half are coughing"),
        (
            "en",
            "neighbour says gumboro. mine have white diarrhoea and sit with feathers up, many",
        ),
        ("fr", "j'entends un rale dans leur poitrine, presque tous"),
        ("fr", "les miens ont une diarrhee blanche, beaucoup"),
        ("sw", "nasikia wanakoroma, karibu wote"),
        ("sw", "macho yamevimba, wengi"),
        ("en", "does rice water stop green droppings? most have it"),
        ("en", "only 1 sneezed yesterday, now it is the whole house"),
        ("fr", "un seul eternuait hier, maintenant c'est toute la maison"),
        ("sw", "mmoja tu alipiga chafya jana, sasa ni banda zima"),
        ("en", "when can i vaccinate? they are coughing, all of them"),
        ("fr", "quand puis je vacciner ? ils toussent, tous"),
        ("sw", "lini nichanje? wanakohoa, wote"),
    ],
)
def test_how_many_may_stand_behind_the_sign(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang, age_days=20)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "one has a swollen eye, not many"),
        ("en", "two cough, all are well"),
        ("fr", "un seul tousse, tous mangent bien"),
        ("fr", "un seul poussin boite tous les autres courent"),
        ("en", "two are struggling to breathe"),
        ("sw", "mmoja anakohoa, wote wanakula vizuri"),
    ],
)
def test_what_all_do_behind_a_few_ill_ones_is_not_how_many(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert not read(thinking, text, lang, age_days=20)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "i read the leaflet you gave, mine have swollen heads"),
        ("en", "when i slaughtered one it was ok but the rest pass blood"),
        ("en", "the one i ate was fine, the others shit blood"),
        ("fr", "celui que j'ai egorge etait bon mais les autres font du sang"),
        ("fr", "le premier etait sain, les autres chient du sang"),
        ("sw", "niliyemchinja alikuwa sawa lakini wengine wanaharisha damu"),
        ("en", "lots of the chicks have open belly buttons with pus"),
        ("en", "navels open and discharge comes out, many"),
        ("en", "most of them stand heads down, not interested in anything"),
        ("fr", "tout l'elevage est malade"),
        ("fr", "ce matin sous les poussins le journal etait tache de rouge"),
        ("fr", "mon garcon a dormi pres des poussins, on avait du mal a le reveiller"),
        ("sw", "kijana wangu alilala na vifaranga na asubuhi ilikuwa shida kumwamsha"),
        ("en", "they stretch the neck up to drink but cannot breathe"),
        ("fr", "le cou tordu ils n'arrivent plus a boire"),
    ],
)
def test_danger_beside_something_that_is_well(thinking: Thinking, lang: str, text: str) -> None:
    found = read(thinking, text, lang, age_days=20)
    assert found["red_flag"]
    assert found["intent"] != "stop"


@pytest.mark.parametrize(
    ("lang", "text", "dead"),
    [
        ("en", "is it normal that 10 died in one night?", 10),
        ("en", "is it ok that 8 died since yesterday", 8),
        ("en", "there were 300 last night and this morning 22 are not breathing", 22),
        ("fr", "est ce normal que 12 poussins soient morts cette nuit ?", 12),
        ("sw", "ni kawaida 10 kufa usiku mmoja?", 10),
    ],
)
def test_the_dead_are_told_though_it_is_asked_whether_that_is_normal(
    thinking: Thinking, lang: str, text: str, dead: int
) -> None:
    found = read(thinking, text, lang, age_days=12)
    assert found["slots"].get("deaths") == dead
    assert found["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "they twist the neck to drink from the new nipple, is it too high?"),
        ("en", "my knee is paralysed from sitting all day with chicks"),
        ("en", "my head is big with worry about school fees"),
        ("en", "the feed seller coughs a lot, can he infect my chicks?"),
        ("fr", "je me suis coupe la main sur la mangeoire, du sang partout sur ma chemise"),
        ("fr", "ils tordent le cou pour boire a la nouvelle pipette, trop haute ?"),
        ("fr", "mon genou est paralyse depuis hier a cause du travail"),
        ("fr", "perdu 3000 francs sur l'aliment"),
        ("sw", "wanageuza shingo kunywa kwenye nipple mpya, iko juu sana?"),
        ("sw", "goti langu limepooza kwa kukaa siku nzima na vifaranga"),
        ("sw", "tumepoteza dakika 20 kutafuta ufunguo"),
        ("en", "is it normal that some die in the first week?"),
        ("en", "they drink with the neck stretched up and swallow"),
        ("fr", "ils boivent le cou tendu vers le haut et avalent"),
        ("sw", "wanakunywa wakinyoosha shingo juu na kumeza"),
        ("en", "lost 10 eggs of the layers"),
        ("fr", "perdu 10 oeufs des pondeuses"),
        ("sw", "nimepoteza mayai 10 ya kuku wa mayai"),
        ("sw", "vifaranga wanalala kichwa chini ya bawa, ni sawa?"),
        ("sw", "damu kwenye kinyesi hutibiwaje, nataka kujua tu"),
    ],
)
def test_the_same_words_of_no_ill_bird(thinking: Thinking, lang: str, text: str) -> None:
    assert not read(thinking, text, lang, age_days=20)["red_flag"]


@pytest.mark.parametrize(
    "text", ["not interested", "im not interested", "Not interested in these messages"]
)
def test_who_is_not_interested_in_our_texts_is_left_alone(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "en")["intent"] == "stop"


@pytest.mark.parametrize(
    ("lang", "text", "dead"),
    [
        ("en", "no only one", 1),
        ("en", "no, just 1", 1),
        ("en", "nope only two", 2),
        ("fr", "non, un seul", 1),
        ("fr", "non, 2 seulement", 2),
        ("sw", "hapana mmoja tu", 1),
        ("sw", "hapana, wawili tu", 2),
        ("en", "no", 0),
        ("en", "no one", 0),
        ("fr", "non aucun", 0),
        ("fr", "pas un seul", 0),
        ("sw", "hakuna hata mmoja", 0),
    ],
)
def test_a_no_with_a_figure_behind_it_is_the_figure(
    thinking: Thinking, lang: str, text: str, dead: int
) -> None:
    found = read(thinking, text, lang, last_prompt="deaths", age_days=12)
    assert found["intent"] == "deaths"
    assert found["slots"] == {"deaths": dead}


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "3 died 1 culled"),
        ("en", "3 dead 1 culled today"),
        ("fr", "3 morts 1 elimine"),
        ("en", "1 culled 3 died"),
    ],
)
def test_the_culled_are_counted_apart_without_a_comma(
    thinking: Thinking, lang: str, text: str
) -> None:
    parts = read(thinking, text, lang, age_days=12)["slots"]["parts"]
    told = {one["intent"]: one["slots"] for one in parts}
    assert told["deaths"] == {"deaths": 3}
    assert told["culled"]["count"] == 1


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "can i eat the ones with swollen heads?"),
        ("en", "which drug for blood stool, i have it in my birds now"),
        ("fr", "je peux manger ceux qui ont la tete gonflee ?"),
        ("fr", "quel produit pour le sang dans les selles, j'en ai chez moi maintenant"),
        ("en", "when i was cleaning i noticed red in the poop what do i do?"),
        ("en", "leg stretched in front n d oda back"),
        ("fr", "rien a dire sauf du sang dans la crotte de quelques uns"),
        ("en", "when i shine the torch nobody moves, usually they run"),
        ("sw", "mke amelala kando ya brooder na hanijibu"),
        ("en", "wife is sleeping beside the brooder and does not answer me"),
    ],
)
def test_what_is_asked_of_ill_birds_tells_that_they_are_there(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert read(thinking, text, lang, age_days=20)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "can birds with swollen heads be eaten?"),
        ("en", "which drug is for blood stool?"),
        ("en", "when they shine the torch do birds get up?"),
        ("en", "when i clean the house should i look for blood?"),
        ("en", "wife is sleeping at her mother's and does not answer the phone"),
        ("fr", "quel produit pour le sang dans les selles ?"),
    ],
)
def test_what_is_asked_in_general_tells_nothing(thinking: Thinking, lang: str, text: str) -> None:
    assert not read(thinking, text, lang, age_days=20)["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "STOP. when they shit blood comes out?"),
        ("en", "STOP. what troubles me is the way they twist the neck"),
        ("fr", "STOP. la plupart sont couches et ne se levent plus que faire?"),
        ("fr", "STOP. quand ils font caca ya du sang qui sort"),
        ("sw", "STOP. kila nikitoka kwa brooder kichwa kinagonga?"),
    ],
)
def test_danger_behind_a_stop_is_read_as_without_it(
    thinking: Thinking, lang: str, text: str
) -> None:
    found = read(thinking, text, lang, age_days=20)
    assert found["intent"] == "stop"
    assert found["red_flag"]


@pytest.mark.parametrize(
    ("lang", "text", "dead"),
    [
        ("en", "14 dead since lunch! the others breathe fast. it is an oven today no wind", 14),
        ("en", "9 died in the night. today no rain and no power", 9),
        ("fr", "12 morts depuis midi, pas de vent aujourd'hui", 12),
        ("fr", "3 sujets de morts hier mais ils meurent encore, aujourd'hui 10", 10),
        ("sw", "15 wamekufa tangu mchana, leo hakuna upepo", 15),
        ("en", "yesterday 2 died, today none", 0),
        ("en", "dead since we started is 12 but today none", 0),
        ("fr", "hier 2 morts, aujourd'hui aucun", 0),
    ],
)
def test_no_wind_today_is_no_day_without_dead(
    thinking: Thinking, lang: str, text: str, dead: int
) -> None:
    slots = read(thinking, text, lang, age_days=30)["slots"]
    told = [slots, *(one["slots"] for one in slots.get("parts", []))]
    assert [one["deaths"] for one in told if "deaths" in one] == [dead]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "300 went to sleep, 299 woke"),
        ("en", "headcount this morning 298, was 300"),
        ("fr", "300 hier soir, 299 debout ce matin"),
    ],
)
def test_those_that_live_are_not_the_dead(thinking: Thinking, lang: str, text: str) -> None:
    assert not read(thinking, text, lang, age_days=20)["red_flag"]

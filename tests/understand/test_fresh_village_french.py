"""French of the villages in words of its own: somebody else who tells of our birds, what was bought
from a seller, food of the house, the dead by the barrow, bad air and illness in Lingala, Malagasy
and Nouchi between, a reading by where it hangs, cures of the kitchen. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("mon frere a vu du sang dans le caca des poulets", "bloody_droppings"),
        ("ma voisine dit que mes poussins toussent", "sneezing_or_rattle"),
        ("ma mere entend des rales la nuit dans le poulailler", "sneezing_or_rattle"),
        ("mon oncle a trouve un poulet qui boite", "limping_or_down"),
    ],
)
def test_who_tells_of_our_birds_is_believed(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in read(thinking, text, lang="fr", age_days=24)["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "mon frere a vu du sang dans le caca de ses poulets",
        "mon voisin dit que ses poulets toussent",
        "le moulin ronfle fort ce matin",
        "grand mere boite depuis sa chute",
        "la pompe du puits siffle trop",
    ],
)
def test_what_is_of_others_or_of_no_bird_is_none_of_ours(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, lang="fr", age_days=24)["signals"] == []


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        (
            "impossible de voir les poussins, un brouillard du charbon plein la piece",
            "smoke_or_fumes",
        ),
        ("milinga ebele na kati ya ndako ya basoso", "smoke_or_fumes"),
        ("setroka be ao an trano misy ny akoho kely", "smoke_or_fumes"),
        ("nyei na bango makila makila", "bloody_droppings"),
        ("misy ra ny tain akoho", "bloody_droppings"),
        ("fiente couleur sang de mouton chez mes poulets", "bloody_droppings"),
        ("kingo ya nsoso ebaluki azali kotala likolo", "twisted_neck_or_paralysis"),
        ("mitsoka ny lohan ny akoho rehetra mivonto", "swollen_head"),
        ("ny akoho rehetra matory, plus rien les interesse", "sleepy_all_birds"),
        ("maty betsaka ny akohoko androany", "sudden_many_deaths"),
        ("bazokufa ebele depuis lelo na ntongo", "sudden_many_deaths"),
        ("ca meurt ca meurt j'arrive plus a compter", "sudden_many_deaths"),
        (
            "ma mere sort de la elle tient plus sur ses jambes le charbon brule porte fermee",
            "drowsy_people_or_birds_near_stove",
        ),
    ],
)
def test_danger_in_the_tongues_mixed_in_is_heard(thinking: Thinking, text: str, sign: str) -> None:
    found = read(thinking, text, lang="fr", age_days=20)
    assert sign in found["signals"]
    assert found["red_flag"]


@pytest.mark.parametrize(
    "text",
    [
        "ya foye sang dans caca tout est cale",
        "fumee foye, air propre",
        "ya foye toux ce matin",
        "cadavre foye, tous vivants",
        "makila te na nyei, toux te",
        "milinga ezali te, nyonso malamu",
        "basoso nyonso bazali kolia malamu",
        "le sang du mouton de tabaski a coule dans la cour, poulets ok",
        "brouillard dehors ce matin, poussins ok",
        "un maigrichon tient pas sur ses jambes",
        "dis moi tout ce que tu sais de mes poussins",
    ],
)
def test_what_is_denied_or_of_something_else_is_no_danger(thinking: Thinking, text: str) -> None:
    assert not read(thinking, text, lang="fr", age_days=20)["red_flag"]


@pytest.mark.parametrize(
    ("text", "dead"),
    [
        ("une pleine brouette de cadavres, 35", 35),
        ("ramasse une brouette de cadavres. quarante", 40),
        ("compte 6 puis encore 4 donc 10 corps ce matin", 10),
        ("meme pas eu 5 morts", 0),
        ("mm pas 3 morts depuis le debut", 0),
        ("maty telo androany", 3),
    ],
)
def test_the_dead_are_counted_not_what_they_lie_in(
    thinking: Thinking, text: str, dead: int
) -> None:
    assert read(thinking, text, lang="fr", age_days=30)["slots"] == {"deaths": dead}


@pytest.mark.parametrize(
    "text",
    [
        "le commercant m'a vendu un sac gate hier",
        "on m'a vendu des poussins faibles cette fois",
        "la dame du marche m'a vendu trois lampes grillees",
        "celui qui m'a vendu la provende refuse de reprendre le sac",
        "on nous a vendu le sac a 19000",
        "achete 25 kg de riz pour la famille",
        "j'ai paye 10kg de poisson pour le bapteme",
        "2 sacs d'oignons 30kg pour la cuisine de la maison",
    ],
)
def test_what_was_sold_to_us_or_is_for_the_table_is_no_sale_and_no_feed(
    thinking: Thinking, text: str
) -> None:
    found = read(thinking, text, lang="fr", age_days=30)
    told = [found["intent"], *(one["intent"] for one in found["slots"].get("parts", ()))]
    assert "sold" not in told
    assert found["slots"].get("kg") is None


@pytest.mark.parametrize(
    ("text", "intent"),
    [
        ("j'ai vendu 20 a la dame du marche", "sold"),
        ("la dame m'a achete 12 a 3000", "sold"),
        ("ils m'ont vendu 2 sacs de 50 kg", "feed"),
        ("achete 25 kg de provende pour les petits", "feed"),
        ("pris un sac de mais 50kg pour les poulets", "feed"),
    ],
)
def test_what_is_sold_and_fed_is_still_heard(thinking: Thinking, text: str, intent: str) -> None:
    assert read(thinking, text, lang="fr", age_days=40)["intent"] == intent


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("31 tout pres du fourneau au niveau du sol", 31.0),
        ("l'appareil pendu a la charpente marque 36", 36.0),
        ("dehors 17 mais sous l'eleveuse 32", 32.0),
        ("nuit fraiche 15 degres dehors, 31 dedans", 31.0),
        ("33 a ras de litiere, pres de l'ampoule", 33.0),
        ("ce midi 35 suspendu sous les toles", 35.0),
        ("l'appareil est a la poutre, loin au dessus, marque 37", 37.0),
    ],
)
def test_a_reading_is_that_of_the_birds_wherever_it_hangs(
    thinking: Thinking, text: str, celsius: float
) -> None:
    found = read(thinking, text, lang="fr")
    assert (found["intent"], found["slots"]) == ("temperature", {"value_c": celsius})


@pytest.mark.parametrize(
    ("text", "product"),
    [
        ("mis de l'ail et citron dans leur eau hier", "ail et citron"),
        ("verse du vinaigre dans l'eau ce matin", "vinaigre"),
        ("la vieille a mis piment et gingembre dans l'eau hier", "piment et gingembre"),
    ],
)
def test_a_cure_of_the_kitchen_given_to_the_birds_is_noted(
    thinking: Thinking, text: str, product: str
) -> None:
    found = read(thinking, text, lang="fr", age_days=20)
    assert (found["intent"], found["slots"]["product"]) == ("treated", product)


@pytest.mark.parametrize(
    "text",
    [
        "ma femme a mis le piment dans la sauce hier",
        "le prix du mais me donne vertige tchie",
        "on dit que l'ail soigne les poulets, c'est vrai ?",
        "vos messages m'aident, le citron coute cher ici",
    ],
)
def test_what_went_to_no_bird_is_no_cure(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, lang="fr", age_days=20)["intent"] != "treated"


@pytest.mark.parametrize(
    ("text", "slots"),
    [
        ("le maigre 410 le costaud 590 celui du milieu 500 grammes", [410, 590, 500]),
        ("un petit 300g un gros 480g un moyen 400g", [300, 480, 400]),
    ],
)
def test_birds_weighed_one_after_another(thinking: Thinking, text: str, slots: list[float]) -> None:
    assert read(thinking, text, lang="fr", age_days=21)["slots"] == {"weights_g": slots}


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("10 sujets dans le seau, seau deduit 9kilo5", 950.0),
        ("dix dans le panier sans le panier 12 kilos", 1200.0),
    ],
)
def test_birds_weighed_together_in_a_basket(thinking: Thinking, text: str, grams: float) -> None:
    assert read(thinking, text, lang="fr", age_days=24)["slots"] == {"avg_g": grams}


@pytest.mark.parametrize(
    "text",
    [
        "la ville est dans le noir, nous on a le solaire donc lampe allumee",
        "delestage partout en ville, moi j'ai batterie, ampoules ok",
        "light don go for town mais chez moi courant dey",
    ],
)
def test_a_cut_of_the_whole_town_is_none_where_ours_runs(thinking: Thinking, text: str) -> None:
    assert "no_power" not in read(thinking, text, lang="fr")["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "coupure depuis 20h chez moi et partout",
        "chez moi pas de courant, le voisin a un groupe",
        "le groupe est en panne et coupure generale",
    ],
)
def test_a_cut_that_is_ours_too_is_told(thinking: Thinking, text: str) -> None:
    assert "no_power" in read(thinking, text, lang="fr")["signals"]


@pytest.mark.parametrize(
    ("text", "intent"),
    [
        ("rappelle moi le travail de la semaine", "next"),
        ("rappelez moi les taches prevues demain", "next"),
        ("rappelez moi quand vous pouvez", "call_me"),
        ("montre moi ce que vous avez note sur mon lot", "status"),
        ("mettez moi dedans, mon frere m'a donne votre numero", "start"),
        ("stop ! je voulais dire stopper la lumiere la nuit, possible ?", "ask"),
        ("stoppez tout svp", "stop"),
        ("chez mon ami le cou tordu, chez moi rien, je me protege comment", "ask"),
    ],
)
def test_what_is_wanted_of_the_service(thinking: Thinking, text: str, intent: str) -> None:
    assert read(thinking, text, lang="fr", age_days=15)["intent"] == intent


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("poussins descendus du camion, 500 pile", 500),
        ("tonga androany ny akoho kely 200", 200),
        ("on vient de recuperer les 350 poussins a l'aeroport", 350),
        ("le bus a depose mes poussins tout a l'heure, compte 202", 202),
    ],
)
def test_chicks_that_came(thinking: Thinking, text: str, count: int) -> None:
    found = read(thinking, text, lang="fr", age_days=0)
    assert (found["intent"], found["slots"].get("count")) == ("arrived", count)


def test_the_day_of_a_batch_is_the_one_they_came(thinking: Thinking) -> None:
    text = "enregistre 180, eclos dimanche, arrives chez moi lundi"
    found = read(thinking, text, lang="fr", has_batch=False, age_days=None, count=None)
    assert found["slots"]["date_iso_offset"] == -2  # today is a wednesday


@pytest.mark.parametrize(
    ("text", "lang", "dead"),
    [
        ("14 morts dont 2 ecrases", "fr", 14),
        ("on a perdu 8 poussins dont 3 noyes", "fr", 8),
        ("15 morts en tout dont 10 la nuit", "fr", 15),
        ("302 recus dont 2 morts", "fr", 2),
        ("12 malades dont 3 morts", "fr", 3),
        ("15 died of which 10 at night", "en", 15),
        ("lost 8 chicks including 3 drowned", "en", 8),
        ("wamekufa 9 wakiwemo 2 waliokanyagwa", "sw", 9),
    ],
)
def test_some_of_the_dead_are_not_counted_for_all(
    thinking: Thinking, text: str, lang: str, dead: int
) -> None:
    assert read(thinking, text, lang=lang, age_days=12)["slots"]["deaths"] == dead


@pytest.mark.parametrize(
    "text",
    [
        "le gaz de la cuisine est fini",
        "plus de charbon pour cuire le riz ce soir",
        "2 clients ont eternue dans le resto",
        "les invites ont eternue avec le piment",
    ],
)
def test_the_kitchen_and_its_guests_are_not_the_birds(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, lang="fr", age_days=12)["signals"] == []


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("le gaz des poussins est fini", "stove_out"),
        ("les clients disent que mes poulets toussent", "sneezing_or_rattle"),
        ("ils boivent moitie d'hier", "drinking_less"),
    ],
)
def test_what_is_of_the_birds_stays_theirs(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in read(thinking, text, lang="fr", age_days=12)["signals"]


@pytest.mark.parametrize(
    ("text", "lang"),
    [
        ("1 poule morte ce matin la plus faible", "fr"),
        ("un mort, le plus chetif du lot", "fr"),
        ("un de creve, le boiteux", "fr"),
        ("1 poulet mort, le faible que j'avais isole", "fr"),
    ],
)
def test_what_the_one_dead_was_like_is_told_of_no_other(
    thinking: Thinking, text: str, lang: str
) -> None:
    found = read(thinking, text, lang=lang, age_days=20)
    assert (found["intent"], found["slots"], found["signals"]) == ("deaths", {"deaths": 1}, [])


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("1 mort et les autres faibles", "lethargic"),
        ("un mort, un autre boite", "limping_or_down"),
        ("2 morts ce matin, le reste est faible", "lethargic"),
    ],
)
def test_what_the_living_are_like_is_told(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in read(thinking, text, lang="fr", age_days=20)["signals"]


@pytest.mark.parametrize(
    ("text", "slots"),
    [
        (
            "la cliente est repartie avec 22 a 3000",
            {"count": 22, "price": 3000.0, "price_per": "bird"},
        ),
        (
            "le grossiste a tout pris a 2900",
            {"count": 300, "price": 2900.0, "price_per": "bird"},
        ),
        (
            "vendu tout le lot 600000",
            {"count": 300, "price": 600000.0, "price_per": "all"},
        ),
    ],
)
def test_what_a_trader_took(thinking: Thinking, text: str, slots: dict[str, object]) -> None:
    found = read(thinking, text, lang="fr", age_days=42)
    assert (found["intent"], found["slots"]) == ("sold", slots)


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("cest la litier ki pu", "ammonia_smell"),
        ("jai pu daliment", "feed_finished"),
        ("dlo ds la litiere", "litter_wet"),
    ],
)
def test_words_run_together_by_thumb(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in read(thinking, text, lang="fr", age_days=14)["signals"]

"""The plain ways in which Swahili farmers say a thing, from the coast to Congo, in fresh words."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.figures import facts_told, lines
from tests.understand.reading import read

GROWN: dict[str, object] = {"age_days": 36, "count": 300}


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "tumechoka na sms zenu jamani"),
        ("sw", "komeni kunitumia meseji"),
        ("sw", "msiniletee jumbe zenu tena"),
        ("sw", "musiniandikie message tena"),
        ("sw", "hatupendi tena huduma hii, tuondoeni"),
        ("sw", "tungependa kujiondoa katika huduma"),
        ("sw", "achaneni na namba hii"),
        ("sw", "kata hii service"),
        ("sw", "sina haja na meseji zenu"),
        ("sw", "tafadhali muniondoe"),
        ("sw", "ondoeni jina langu"),
        ("sw", "meseji ni nyingi mno. wacheni"),
        ("sw", "jina langu liondolewe"),
        ("sw", "blockini nambari yangu"),
        ("sw", "tafadhali toeni kwenye listi yenu"),
        ("sw", "sifugi tena, mniondoe"),
        ("sw", "nimeachana na kuku. niondoeni"),
        ("sw", "ujumbe wenu nimekataa"),
        ("en", "i no longer keep birds, please stop"),
        ("fr", "j'ai abandonne l'elevage, arretez"),
        ("sw", "nisiandikiwe tena"),
        ("sw", "hatutaendelea na huduma"),
        ("sw", "sms zenu basi"),
        ("en", "your texts wake my baby, please stop"),
        ("en", "too many messages! stop"),
    ],
)
def test_the_texts_are_to_end(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang)["intent"] == "stop"


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "naomba muniandikie tena"),
        ("sw", "nitumie ujumbe basi"),
        ("sw", "moshi umejaa, nitoeni"),
        ("sw", "sipokei meseji zenu siku hizi"),
        ("sw", "nimeacha kufuga bata, sasa ni kuku tu"),
        ("sw", "nitoe kuku kwenye banda hili?"),
        ("sw", "naendelea na huduma yenu"),
        ("sw", "tafadhali mnitumie ujumbe kila asubuhi"),
        ("sw", "nimechoka na kazi ya leo"),
        ("sw", "asante kwa meseji, inatosha kwa leo"),
        ("sw", "futa ujumbe wangu wa mwisho"),
        ("sw", "acha nisome ujumbe wako kwanza"),
        ("sw", "meseji imefika. niache taa usiku?"),
        ("sw", "nataka kuacha kuwapa dawa"),
        ("sw", "sitaki tena kuku wa kienyeji"),
        ("en", "i got the message. should i stop the lamp?"),
        ("en", "thanks for the texts. stop worrying, they are fine"),
    ],
)
def test_what_only_sounds_like_it_opts_nobody_out(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang)["intent"] != "stop"


FIGURES = """
sw joto karibu na balbu ni 33 => temperature value_c=33
sw joto pembeni mwa jiko lilikuwa 30 => temperature value_c=30
sw bruda ni 31 => temperature value_c=31
sw brooder liko 29 => temperature value_c=29
sw brooder yetu iko 33 => temperature value_c=33
en our brooder is at 30 => temperature value_c=30
fr ma poussiniere est a 32 => temperature value_c=32
sw vifaranga watatu wamefia kwenye banda => deaths deaths=3
en brooder is now at 30 => temperature value_c=30
fr la poussiniere est maintenant a 31 => temperature value_c=31
sw brooder yangu ina joto la 33 => temperature value_c=33
sw kipimo cha unyevu kinasoma 61 => humidity rh_pct=61
sw kifaa cha unyevunyevu kinaonyesha 57 => humidity rh_pct=57
sw wameniangukia wawili => deaths deaths=2
sw zimetuangukia tatu usiku => deaths deaths=3
sw vifaranga wanne wameaga => deaths deaths=4
sw hamna mzoga asubuhi hii => deaths deaths=0
sw dazeni mbili zimekufa => deaths deaths=24
sw usiku wamekufa dazeni moja => deaths deaths=12
sw bakufa bawili leo => deaths deaths=2
sw leo hali mbaya sana, watatu wamekufa => deaths deaths=3
"""


@pytest.mark.parametrize("line", lines(FIGURES))
def test_a_figure_told_plainly(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line)
    assert got == wanted


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "natumia taa 3 za joto"),
        ("sw", "brooder ya kuku 300"),
        ("sw", "brooder ni ya vifaranga 40"),
        ("en", "the brooder is for 40"),
    ],
)
def test_a_figure_of_something_else_is_no_reading(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang)["intent"] != "temperature"


@pytest.mark.parametrize(
    ("text", "intent"),
    [
        ("kuku zote zimeisha kuuzwa", "sold"),
        ("vifaranga wote wamekwisha kuuzwa sokoni", "sold"),
        ("fundi wa mifugo amewachoma chanjo", "treated"),
        ("wamechomwa sindano za chanjo leo", "treated"),
        ("jumla wamekufa wangapi hadi leo", "status"),
        ("vifo vingapi mpaka sasa kwangu", "status"),
        ("naomba idadi ya kuku wangu", "status"),
        ("basi nifanye nini sasa", "next"),
        ("ile ya mwisho imeenda kimakosa", "undo"),
        ("toa ile niliyotuma sasa hivi", "undo"),
        ("naomba nijisajili kwenye huduma hii", "start"),
        ("nataka kuanza kupokea meseji zenu", "start"),
        ("washeni huduma tena", "start"),
        ("naweza kuuliza nini hapa", "help"),
        ("mnasaidia nini", "help"),
        ("hii ni namba gani", "help"),
        ("tafadhali munielekeze", "help"),
        ("tumebakiza wangapi", "status"),
        ("jiko la kupikia limezima", "other"),
        ("nimepeleka 40 sokoni na zote zimeisha", "sold"),
        ("sijajua namna ya kuandika", "help"),
        ("mnaweza kunifanyia nini", "help"),
        ("rudisheni meseji zenu", "start"),
        ("ratiba ya kesho ni ipi", "next"),
        ("nini kifanywe kesho", "next"),
        ("nimemaliza kuuza zote", "sold"),
        ("ni sawa kuwalisha mahindi", "ask"),
        ("pazia liweje usiku", "ask"),
        ("hali ya hewa ni mbaya huku", "other"),
        ("tumefurahi sana", "other"),
        ("sisi tunasoma kiswahili tu", "language"),
        ("mahitaji ya vifaranga 500 ni yapi", "plan"),
        ("nahitaji nini kwa vifaranga 200", "plan"),
    ],
)
def test_what_is_wished_or_was_done(thinking: Thinking, text: str, intent: str) -> None:
    context = GROWN if intent == "sold" else {}
    if intent == "plan":
        context = {"has_batch": False, "age_days": None, "count": None}
    got = read(thinking, text, "sw", **context)
    assert (got["intent"], got["signals"]) == (intent, [])


@pytest.mark.parametrize(
    "text",
    [
        "mmoja anasinzia mchana mzima",
        "wawili wamezubaa siku nzima",
        "kifaranga kimoja kimelegea wakati wote",
        "watatu wanyonge siku zote",
        "wachache wamezubaa asubuhi nzima",
        "mmoja analala akisinzia kutwa nzima",
    ],
)
def test_a_whole_day_is_no_whole_flock(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "sw")
    assert "sleepy_all_birds" not in got["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "wote wanasinzia siku nzima",
        "vifaranga wote wamezubaa muda wote",
        "kuku zote wanyonge kutwa nzima",
    ],
)
def test_a_whole_flock_all_day_is_one(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "sw")
    assert ("sleepy_all_birds" in got["signals"], got["red_flag"]) == (True, True)


@pytest.mark.parametrize(
    "text",
    [
        "maranda ya rafiki yameloana",
        "vifaranga wa shemeji wanatweta",
        "kuku wa mjomba hawali",
        "banda la majirani linanuka",
        "wale wa zamani walikuwa wanadonoana sana",
        "wanafunzi wanapiga kelele huku",
        "mwanangu ametulia sasa",
        "kitovu cha mwanangu hakijakauka",
        "panya wamekula mchele wetu",
        "chakula cha familia kimeisha",
        "majirani wanachoma matairi moshi mwingi",
        "sakafu ya sebuleni ni baridi",
    ],
)
def test_what_is_of_others_or_of_the_household_is_no_sign(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "sw")["signals"] == []


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("kuku wangu wa jana wanahema", "panting"),
        ("panya wamekula vifaranga na mahindi", "rats_or_predator"),
        ("mtoto ameona kuku wanapiga kelele", "noisy_distress"),
        ("sakafu ya banda ni baridi", "litter_cold"),
        ("chakula cha kuku kimeisha nyumbani", "feed_finished"),
        ("majiko yamepoa usiku", "stove_out"),
        ("mkaa una sumu ndani", "smoke_or_fumes"),
        ("mabawa yao yameshuka", "wings_spread"),
        ("manyoya yao yapo juu", "feathers_ruffled"),
        ("chakula hakijabaki chochote", "feed_finished"),
        ("watu wanakohoa moshi mwingi", "smoke_or_fumes"),
        ("jirani amesema banda langu limejaa moshi", "smoke_or_fumes"),
    ],
)
def test_what_is_of_our_birds_is_told(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in read(thinking, text, "sw")["signals"]


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("vifaranga wote wanakunywa", "not_drinking"),
        ("zote zinakunywa maji", "not_drinking"),
        ("kuku wote wanakula", "not_eating"),
        ("vyote vinakula chakula", "not_eating"),
    ],
)
def test_all_of_them_eat_and_drink(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in read(thinking, text, "sw")["not_signals"]


FED = """
sw nimeshusha mifuko 4 ya kilo 50 ya chakula => feed kg=200 move=in
sw tumeenda kuchukua magunia mawili ya kilo 70 ya chakula => feed kg=140 move=in
sw nimekopa mifuko mitatu ya kilo 25 ya starter => feed kg=75 move=in
sw mifuko miwili ya kilo 50 ya chakula imeingia => feed kg=100 move=in
sw wamekula mfuko wa kilo 50 => feed kg=50
sw tumebeba kilo 60 za mash kutoka mjini => feed kg=60 move=in
"""


@pytest.mark.parametrize("line", lines(FED))
def test_feed_that_was_fetched_came_in(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line)
    assert got == wanted

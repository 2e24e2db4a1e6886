"""Short Swahili texts whose figure was taken for another, or whose little word went unheard; the
rules that every language has are told in the others too."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.figures import facts_told, lines
from tests.understand.reading import heard, read

GROWN: dict[str, object] = {"age_days": 38, "count": 300}
BROODED: dict[str, object] = {"age_days": 9, "count": 300}
WAITED: dict[str, object] = {"age_days": 0, "count": 300}

RISEN = """
sw ndani kumefika 34 => temperature value_c=34
sw banda limefika 36 leo => temperature value_c=36
sw kipima kimefika 31 => temperature value_c=31
sw mduara umefika 29 jioni => temperature value_c=29
sw usiku kumepoa hadi 24 => temperature value_c=24
sw banda limepanda mpaka 35 => temperature value_c=35
sw brooder imeshuka mpaka 27 alfajiri => temperature value_c=27
"""


@pytest.mark.parametrize("line", lines(RISEN))
def test_a_room_that_came_to_a_figure_is_so_warm(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line, **BROODED)
    assert got == wanted


@pytest.mark.parametrize(
    "text", ["kuku wamefika 40", "wageni wamefika 25", "nimefika saa 24 usiku", "maji yamefika"]
)
def test_who_comes_in_a_number_is_no_reading(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "sw", **BROODED)["intent"] != "temperature"


BARE_SALES = """
sw wote 60 kwa jumla 42000 => sold count=60 price=42000 per=all
sw 80 kwa 500 kila mmoja => sold count=80 price=500
sw hamsini kwa 600 kila moja => sold count=50 price=600
sw kuku 40 jumla 26000 => sold count=40 price=26000 per=all
sw 45 kwa bei ya 650 => sold count=45 price=650
sw jumla 26000 kwa kuku 40 => sold count=40 price=26000 per=all
sw mteja 30 kwa 600 => sold count=30 price=600
en 40 at 650 each => sold count=40 price=650
en 70 birds for 45000 total => sold count=70 price=45000 per=all
fr 40 a 2500 chacun => sold count=40 price=2500
"""


@pytest.mark.parametrize("line", lines(BARE_SALES))
def test_so_many_at_a_price_are_sold(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line, **GROWN)
    assert got == wanted


@pytest.mark.parametrize(
    ("text", "context"),
    [
        ("40 kwa 26000", {"age_days": 9}),  # too young to be sold
        ("mifuko 4 kwa 2600 kila mmoja", GROWN),
        ("80 kwa 5", GROWN),
        ("400 kwa 120 kila mmoja", GROWN),  # more than there are
    ],
)
def test_what_only_looks_like_a_price_sells_nothing(
    thinking: Thinking, text: str, context: dict[str, object]
) -> None:
    assert read(thinking, text, "sw", **context)["intent"] != "sold"


CAME_IN = """
sw imeingia grower kilo 120 => feed kg=120 move=in
sw zimeingia gunia 3 za kilo 50 za starter => feed kg=150 move=in
sw kilo 90 za finisher zimeingia leo => feed kg=90 move=in
sw umeingia mfuko mmoja wa kilo 70 => feed kg=70 move=in
sw yameingia magunia 2 ya kilo 50 jana => feed kg=100 move=in
"""


@pytest.mark.parametrize("line", lines(CAME_IN))
def test_feed_that_came_in_was_not_eaten(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line, **GROWN)
    assert got == wanted


@pytest.mark.parametrize(
    "line",
    lines("""
sw wamekula kilo 40 za grower => feed kg=40
sw imeisha kilo 50 leo => feed kg=50
sw panya wameingia stoo, wamekula chakula kilo 5 => feed kg=5
"""),
)
def test_feed_that_was_eaten_did_not_come_in(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line, **GROWN)
    assert isinstance(got, dict)
    assert isinstance(wanted, dict)
    assert got["feed"] == wanted["feed"]


@pytest.mark.parametrize(
    ("lang", "text", "count"),
    [
        ("sw", "nimehesabu wako 285 hai", 285),
        ("sw", "wamebaki mia mbili na arobaini", 240),
        ("sw", "tumehesabu 291 leo", 291),
        ("sw", "hesabu 277", 277),
        ("en", "i counted 285 this morning", 285),
        ("en", "285 are left", 285),
    ],
)
def test_the_count_that_was_asked_for(thinking: Thinking, lang: str, text: str, count: int) -> None:
    got = read(thinking, text, lang, last_prompt="count", **GROWN)
    assert (got["intent"], got["slots"]["count"]) == ("register", count)


ARRIVED = """
sw maboksi matatu yameshuka, ni 306 wote => arrived count=306
sw boksi nne zimeingia, 408 jumla => arrived count=408
sw boksi mbili za 100 zimeshuka leo => arrived count=200
sw katoni zimeingia salama, vifaranga 255 => arrived count=255
sw box 5 zimeingia sasa hivi, ziko 510 => arrived count=510
"""


@pytest.mark.parametrize("line", lines(ARRIVED))
def test_boxes_that_came_hold_the_chicks_waited_for(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line, **WAITED)
    assert got == wanted


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("choo kiko sawa akina damu", "bloody_droppings"),
        ("kinyesi akina damu leo", "bloody_droppings"),
        ("pua auna kamasi", "sneezing_or_rattle"),
        ("macho ayana uvimbe", "eyes_swollen_or_closed"),
        ("banda alina harufu", "ammonia_smell"),
        ("moshi auko ndani", "smoke_or_fumes"),
        ("maranda ayana unyevu", "litter_wet"),
        ("moshi hauko ndani", "smoke_or_fumes"),
        ("damu haiko kabisa kwenye choo", "bloody_droppings"),
    ],
)
def test_no_is_heard_without_its_h(thinking: Thinking, text: str, sign: str) -> None:
    got = read(thinking, text, "sw", **BROODED)
    assert sign in got["not_signals"]
    assert sign not in got["signals"]


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("aina ya choo wanachotoa kina damu", "bloody_droppings"),
        ("akina mama wameona damu kwenye choo", "bloody_droppings"),
        ("choo kina damu", "bloody_droppings"),
        ("choo kina damu hakiko sawa", "bloody_droppings"),
    ],
)
def test_what_only_sounds_like_no_denies_nothing(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in read(thinking, text, "sw", **BROODED)["signals"]


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "wanafikia kilo mbili baada ya siku ngapi"),
        ("sw", "lini watafika kilo 2"),
        ("en", "when will they reach 2 kg"),
        ("fr", "ils font 2 kg apres combien de jours"),
    ],
)
def test_a_weight_asked_about_was_not_weighed(thinking: Thinking, lang: str, text: str) -> None:
    got = read(thinking, text, lang, **BROODED)
    assert got["intent"] == "ask"
    assert "avg_g" not in got["slots"]
    assert heard(thinking, text, **BROODED).slots.avg_g == 2000  # by which it is answered


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("moto hauko kabisa", "stove_out"),
        ("moto haupo bandani", "stove_out"),
        ("maji hayako kabisa", "not_drinking"),
        ("maji hayako leo", "not_drinking"),
        ("chakula hakiko kabisa", "feed_finished"),
        ("chakula hakipo tangu jana", "feed_finished"),
        ("wamevimba macho hawako sawa", "eyes_swollen_or_closed"),
        ("macho yamefumba hawako poa", "eyes_swollen_or_closed"),
        ("wanahara hawako sawa kabisa", "white_or_green_diarrhoea"),
    ],
)
def test_what_is_not_there_or_not_well_is_told(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in read(thinking, text, "sw", **BROODED)["signals"]


@pytest.mark.parametrize(
    "text",
    [
        "moto hauko mkali",
        "moto hauko mbali nao",
        "maji hayako mbali",
        "maji hayako machafu",
        "maji hayako kabisa sakafuni",
        "chakula hakiko mbali",
        "chakula hakiko kibaya",
        "macho yako sawa",
    ],
)
def test_what_is_not_so_is_no_lack(thinking: Thinking, text: str) -> None:
    assert not read(thinking, text, "sw", **BROODED)["signals"]


NONE_DIED = """
sw hakuna aliyekufa wote wazima => deaths deaths=0
sw wote wazima hakuna waliokufa => deaths deaths=0
sw wote wako salama hakuna aliyekufa => deaths deaths=0
sw hakuna aliyekufa wote wako hai => deaths deaths=0
sw walikufa 5 siku ya kwanza, leo hakuna => deaths deaths=0
sw walikufa wanne siku ya kwanza leo hakuna => deaths deaths=0
sw hakuna wengi waliokufa ni wawili => deaths deaths=2
"""


@pytest.mark.parametrize("line", lines(NONE_DIED))
def test_none_died_though_the_living_are_named_with_them(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line, **GROWN)
    assert got == wanted


@pytest.mark.parametrize("text", ["wote wapo hai leo", "wako wote", "wapo wote", "wote wapo"])
def test_all_are_there_means_none_died(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "sw", last_prompt="deaths", **GROWN)
    assert (got["intent"], got["slots"].get("deaths")) == ("deaths", 0)


@pytest.mark.parametrize("text", ["hakuna waliokufa wengi", "si wengi waliokufa"])
def test_not_many_is_not_none(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "sw", **GROWN)["slots"].get("deaths") is None


MEASURED = """
sw wamemaliza gunia la kilo 50 siku mbili => feed kg=50
sw wamekula kilo 40 siku 3 => feed kg=40
sw wamelishwa ndoo mbili, kila moja kilo 10 => feed kg=20
sw nimewalisha madebe mawili kila debe kilo 15 => feed kg=30
sw ndoo tatu kila ndoo kilo 5 wamekula => feed kg=15
sw nimewauza wote 250 kwa kilo 5200 => sold count=250 price=5200 per=kg
sw mnunuzi amepakia mia moja na kumi => sold count=110
sw dalali amepakia 60 kwa 550 => sold count=60 price=550
sw nmeuza 12 sh 6800 => sold count=12 price=6800
sw nimeuza 15 tsh 9000 => sold count=15 price=9000
sw niliuza sh 500 kuku 30 => sold count=30 price=500
en sold all 280 at 350 per kg => sold count=280 price=350 per=kg
"""


@pytest.mark.parametrize("line", lines(MEASURED))
def test_each_figure_keeps_its_own_noun(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line, **GROWN)
    assert got == wanted


def test_a_mass_is_not_of_the_litter_told_behind_it(thinking: Thinking) -> None:
    got = read(thinking, "nimewapa kilo 16, maranda yamelowa", "sw", **GROWN)
    parts = {one["intent"]: one for one in got["slots"]["parts"]}
    assert parts["feed"]["slots"]["kg"] == 16
    assert got["signals"] == ["litter_wet"]


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("maboksi matano yameshafika, kila boksi 100", 500),
        ("katoni 3 zimefika kila katoni 102", 306),
    ],
)
def test_boxes_hold_so_many_each(thinking: Thinking, text: str, count: int) -> None:
    got = read(thinking, text, "sw", **WAITED)
    assert (got["intent"], got["slots"]["count"]) == ("arrived", count)


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "jiko linafuka moshi kidogo"),
        ("sw", "jiko linafuka mosh kdg"),
        ("en", "a little smoke from the stove"),
        ("fr", "un peu de fumee sort du foyer"),
    ],
)
def test_a_little_smoke_is_no_heavy_smoke(thinking: Thinking, lang: str, text: str) -> None:
    got = read(thinking, text, lang, **BROODED)
    assert "smoke_or_fumes" in got["signals"]
    assert not got["red_flag"]


@pytest.mark.parametrize(
    "text",
    ["kuna moshi kidogo na mke wangu ana kizunguzungu", "jiko linafuka moshi mwingi"],
)
def test_people_that_reel_and_thick_smoke_are_danger(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "sw", **BROODED)["red_flag"]


@pytest.mark.parametrize(
    "text",
    ["jiko limeacha kuwaka", "moto umeacha kuwaka ghafla", "taa imeacha kuwaka usiku"],
)
def test_a_fire_that_ceased_to_burn_is_out(thinking: Thinking, text: str) -> None:
    assert "stove_out" in read(thinking, text, "sw", **BROODED)["signals"]


@pytest.mark.parametrize(
    ("text", "intent"),
    [
        ("itakuwaje jiko likizima usiku", "ask"),
        ("itakuaje mvua ikinyesha", "ask"),
        ("itakuwaje wakikosa maji", "ask"),
        ("nasikia kuku wa sokoni wana mafua", "other"),
        ("kuku wa mtaani wanaharisha sana", "other"),
        ("kazi yangu leo ni gani", "next"),
        ("leo kaz yangu ni ipi", "next"),
        ("nipo siku ya ngapi na vifo vingapi", "status"),
    ],
)
def test_what_is_asked_or_of_others_is_no_sign(thinking: Thinking, text: str, intent: str) -> None:
    got = read(thinking, text, "sw", **BROODED)
    assert got["intent"] == intent
    assert not got["signals"]

"""Each thing a Swahili farmer tells the service, said plainly in words of everyday."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.figures import facts_told, lines
from tests.understand.reading import read

# Which one it was that died says how many: one.
ONE_DIED = """
sw yule mdogo amefariki usiku => deaths deaths=1
sw ile kubwa imekufa jana jioni => deaths deaths=1
sw jogoo mweupe kafa leo => deaths deaths=1
sw kale kadogo kamekufa mchana => deaths deaths=1
sw ile gonjwa imeaga dunia => deaths deaths=1
sw yule wa pembeni amekufa => deaths deaths=1
sw yule niliyemtenga kafariki => deaths deaths=1
sw mdogo kuliko wote amekufa => deaths deaths=1
sw kifaranga mnyonge kimefariki => deaths deaths=1
en the weak one died in the night => deaths deaths=1
sw siku moja walikufa kuku 20 => deaths deaths=20
sw walikufa 14 siku moja => deaths deaths=14
sw ndani ya siku moja wamekufa saba => deaths deaths=7
en in one day 20 died => deaths deaths=20
en within one day 12 dead => deaths deaths=12
en lost one day 3 => deaths deaths=1
"""

FEED_THAT_CAME = """
sw feed bags 6 zimeingia stoo jana => feed move=in
sw mifuko minane imeingia ghalani ya chakula => feed move=in
sw wakala ametuletea mifuko mitatu ya grower => feed move=in
sw nimepewa mfuko mmoja wa chakula kwa mkopo => feed move=in
sw tumefuata chakula mjini kilo 80 => feed kg=80 move=in
sw nimerudi na mifuko miwili ya starter => feed move=in
sw baba amelipia magunia manne ya chakula => feed move=in
sw wamepewa mfuko mmoja leo => feed
sw kuku wamepewa chakula kilo nane => feed kg=8
sw leo imetumika mifuko miwili => feed
"""


@pytest.mark.parametrize("line", lines(ONE_DIED))
def test_which_one_died_says_how_many(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line)
    assert got == wanted


@pytest.mark.parametrize(
    "text",
    [
        "mjumbe wa kijiji amefariki, mazishi kesho",
        "mwalimu mkuu amekufa leo",
        "mtoto wa dada amekufa",
        "fundi amefariki",
        "ng'ombe wetu amekufa",
        "mgeni ameaga anasafiri",
        "ile taa ndogo imekufa",
    ],
)
def test_who_died_was_no_bird(thinking: Thinking, text: str) -> None:
    assert not read(thinking, text, "sw")["slots"].get("deaths")


@pytest.mark.parametrize("line", lines(FEED_THAT_CAME))
def test_feed_that_came_is_told_from_feed_that_was_eaten(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line)
    assert got == wanted


@pytest.mark.parametrize(
    ("text", "intent"),
    [
        ("nikipata mkopo nitafuga kuku 250", "plan"),
        ("tukijaliwa tutaleta vifaranga 150 mwezi wa kumi", "plan"),
        ("mwakani nitaweka broiler 400", "plan"),
        ("nikistaafu nitafuga kuku wa nyama", "plan"),
        ("baada ya mavuno tutaingiza vifaranga 120", "plan"),
        ("nikipata muda nitakupigia simu", "other"),
        ("nikipata mnunuzi nitauza kuku wote", "other"),
        ("mwezi ujao nitaweka bati jipya", "other"),
        ("lini nitaanza kuwapa finisher", "ask"),
        ("ni lini nitawahamisha kwenda banda kubwa", "ask"),
        ("ni lini nitaacha kuwasha jiko", "ask"),
        ("lini tutawachanja", "ask"),
        ("ni lini nitapunguza joto", "ask"),
        ("samahani nimekosea namba nilimtaka seremala", "other"),
        ("nimekosea nambari, nilikuwa nampigia mama", "other"),
        ("nimekosea namba, nilimtafuta fundi bomba", "other"),
        ("nimekosea namba ya vifo, ifute", "undo"),
        ("nimekosea namba sio 7", "undo"),
        ("mnauza mbolea?", "other"),
        ("mnauza mbegu za vitunguu", "other"),
        ("mnanunua mahindi", "other"),
        ("mnauza simu?", "other"),
        ("nauza lini kuku wangu", "ask"),
    ],
)
def test_what_is_wished(thinking: Thinking, text: str, intent: str) -> None:
    batch = {"has_batch": intent != "plan"} | ({"count": None} if intent == "plan" else {})
    assert read(thinking, text, "sw", **batch)["intent"] == intent


@pytest.mark.parametrize("text", ["gunia la mkaa ni shilingi ngapi", "mtungi wa gesi ni bei gani"])
def test_what_fuel_costs_is_not_how_much_is_burnt(thinking: Thinking, text: str) -> None:
    slots = read(thinking, text, "sw")["slots"]
    assert slots.get("topic") == "price"


KILLED_BY_BEASTS = """
sw mbwa wamewaua kuku watatu => observe + deaths deaths=3
sw paka ameua vifaranga wawili => observe + deaths deaths=2
sw nguchiro kaua kuku mmoja => observe + deaths deaths=1
sw kunguru amewaua vifaranga wawili => observe + deaths deaths=2
sw mwewe ameua kifaranga kimoja => observe + deaths deaths=1
sw mortality 2 leo => deaths deaths=2
"""


@pytest.mark.parametrize("line", lines(KILLED_BY_BEASTS))
def test_what_a_beast_killed_is_dead(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line)
    assert got == wanted


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "wamekunywa ndoo mbili za maji"),
        ("sw", "nimewapa ndoo tatu za maji leo"),
        ("sw", "ndoo moja na nusu ya maji"),
        ("en", "gave them 3 buckets of water"),
        ("en", "they drank two buckets"),
        ("fr", "ils ont bu 3 seaux"),
    ],
)
def test_buckets_of_water_are_water_of_a_size_that_is_asked(
    thinking: Thinking, lang: str, text: str
) -> None:
    got = read(thinking, text, lang)
    assert (got["intent"], got["slots"], got["signals"]) == ("water", {}, [])


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "mvua imejaza ndoo mbili za maji"),
        ("sw", "nimenunua ndoo 2 za maji"),
        ("sw", "nitawapa ndoo mbili za maji kesho"),
        ("fr", "avant ils buvaient 3 seaux, maintenant 1 suffit"),
        ("en", "how many buckets of water for 300"),
    ],
)
def test_other_buckets_are_no_water_of_today(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang)["intent"] != "water"


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("wamevimba macho tena leo", "eyes_swollen_or_closed"),
        ("wamefumba macho tena", "eyes_swollen_or_closed"),
        ("wameanza tena kupiga kelele", "noisy_distress"),
        ("wamesimamisha manyoya tena leo", "feathers_ruffled"),
        ("wamerundikana kwenye taa tena usiku", "piled_near_heat"),
        ("wameziba nyuma tena leo", "pasty_vent"),
    ],
)
def test_again_is_not_over(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in read(thinking, text, "sw")["signals"]


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("hawakohoi tena", "sneezing_or_rattle"),
        ("leo hawarundikani tena kwenye taa", "piled_near_heat"),
        ("hakuna anayesinzia", "lethargic"),
        ("hamna anayesinzia leo", "lethargic"),
        ("sijaona anayesinzia", "lethargic"),
        ("hakuna hata mmoja asiyeweza kusimama", "limping_or_down"),
        ("sijaona asiyeweza kusimama", "limping_or_down"),
        ("hamna aliyekataa chakula leo", "not_eating"),
        ("hakuna aliyesusa chakula", "not_eating"),
        ("hakuna kuhara na kukohoa", "sneezing_or_rattle"),
        ("kuku wangu hawaharishi damu kabisa", "bloody_droppings"),
        ("vifaranga hawatoi damu leo", "bloody_droppings"),
    ],
)
def test_what_is_not_so_is_not_told(thinking: Thinking, text: str, sign: str) -> None:
    got = read(thinking, text, "sw")
    assert sign in got["not_signals"]
    assert (got["signals"], got["red_flag"]) == ([], False)


@pytest.mark.parametrize(
    "text",
    [
        "wanaharisha damu hawaharishi kijani",
        "kuku wengi wanaharisha damu hawaharishi nyeupe",
        "wanakunya damu hawanyi kijani",
    ],
)
def test_a_verb_has_its_noun_behind_it(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "sw")
    assert (got["signals"], got["red_flag"]) == (["bloody_droppings"], True)


@pytest.mark.parametrize(
    ("text", "absent"),
    [
        ("hakuna aliyekufa na wanakula vizuri", "not_eating"),
        ("hakuna kifo na wanakunywa maji vizuri", "not_drinking"),
        ("hamna aliyekufa na wanakula kawaida", "not_eating"),
        ("hakuna vifo na wanakula", "not_eating"),
        ("sijaona damu na wanakula vizuri", "bloody_droppings"),
        ("hakuna wanaokohoa na wanaohema", "panting"),
    ],
)
def test_and_they_eat_is_no_denial(thinking: Thinking, text: str, absent: str) -> None:
    got = read(thinking, text, "sw")
    assert got["signals"] == []
    assert absent in got["not_signals"]


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("hakuna harufu na wamerundikana kwenye taa", "piled_near_heat"),
        ("hamna anayehema na wanaharisha damu", "bloody_droppings"),
        ("hakuna umeme na wanalia sana", "noisy_distress"),
        ("wamezidisha kunywa maji leo", "drinking_more"),
        ("wameongeza kunywa maji", "drinking_more"),
        ("kunywa kumezidi tangu jana", "drinking_more"),
        ("unywaji unazidi kila siku", "drinking_more"),
        ("hawaachi kunywa maji", "drinking_more"),
        ("maji wanayotumia yameongezeka", "drinking_more"),
        ("maji yako vilevile tangu asubuhi", "not_drinking"),
        ("chakula kiko palepale tangu jana", "not_eating"),
        ("butoto bwa kuku bunakohoa bote", "sneezing_or_rattle"),
    ],
)
def test_what_is_so_is_told(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in read(thinking, text, "sw")["signals"]


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("hawanywi maji kupita kawaida", "not_drinking"),
        ("sakafu na matandiko vimepoa sana", "lethargic"),
        ("barabara yetu imeharibika sana", "feed_mouldy"),
        ("pikipiki imeharibika njiani", "feed_mouldy"),
        ("wezi wameiba baiskeli yangu", "rats_or_predator"),
    ],
)
def test_what_only_sounds_so_is_not_told(thinking: Thinking, text: str, sign: str) -> None:
    assert sign not in read(thinking, text, "sw")["signals"]


@pytest.mark.parametrize(
    ("text", "intent"),
    [
        ("mama ana broiler 80, tunataka kuwasajili", "register"),
        ("naomba kuwaandikisha vifaranga wangu 200", "register"),
        ("tunaendelea na nini baada ya hapa", "next"),
        ("kitu gani kinafuata", "next"),
        ("ratiba ya wiki hii", "next"),
        ("futeni nilichoandika", "undo"),
        ("natumaje taarifa za kuku", "help"),
        ("nifundishe kutumia huduma", "help"),
        ("naweza kutuma maneno gani hapa", "help"),
        ("nipe ripoti yangu", "status"),
        ("viazi vinauzwaje huko", "other"),
        ("hewa safi inaingiaje bila baridi", "ask"),
    ],
)
def test_what_is_asked_of_the_service(thinking: Thinking, text: str, intent: str) -> None:
    assert read(thinking, text, "sw")["intent"] == intent


@pytest.mark.parametrize(
    "text",
    [
        "nimewashusha vifaranga sasa hivi",
        "tumewateremsha vifaranga salama",
        "nimewaleta vifaranga nyumbani",
        "nimeshusha vifaranga kwenye gari sasa",
        "nimetoka kuwachukua vifaranga stendi",
    ],
)
def test_chicks_that_were_fetched_arrived(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "sw", age_days=0)["intent"] == "arrived"


GIVEN_TO_US = """
sw shemeji kanipa kilo 30 za chakula => feed kg=30 move=in
sw mradi umenipa kilo 100 za starter => feed kg=100 move=in
sw nimepewa kilo 25 za chakula na chama => feed kg=25 move=in
sw nimezawadiwa kilo 50 za grower => feed kg=50 move=in
sw jirani amenikopesha mfuko mmoja wa chakula => feed move=in
sw butoto butatu bwa kuku bulikufa => deaths deaths=3
"""


@pytest.mark.parametrize("line", lines(GIVEN_TO_US))
def test_feed_that_was_given_to_us_came_in(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line)
    assert got == wanted


OTHERWISE = """
sw lita 16 zimenywewa => water litres=16
sw maji lita 20 yamenywewa => water litres=20
sw nimetoa miili mitano ya kuku => deaths deaths=5
sw wawili wameshafia => deaths deaths=2
sw stock mpya ya chakula kilo 250 => feed kg=250 move=in
sw nimejaza tena stoo mifuko minne => feed move=in
sw nimewapa chakula debe moja => feed
sw maji debe mbili => water litres=40
en two jerrycans of feed => feed
"""


@pytest.mark.parametrize("line", lines(OTHERWISE))
def test_what_is_told_otherwise(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line)
    assert got == wanted


@pytest.mark.parametrize("text", ["wote 300 wako hai leo", "vifaranga 300 leo wote wazima"])
def test_those_alive_are_no_new_batch(thinking: Thinking, text: str) -> None:
    assert read(thinking, text, "sw")["intent"] != "register"

"""Signs in words that Swahili farmers use as well: at the right is no crying, thirst by how often
the tank is filled, a crop that is felt, smoke in which all are drowsy; each with its opposites."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read

CRYING, SIDE = "noisy_distress", "crowded_one_side"
DROWSY, SMOKE = "drowsy_people_or_birds_near_stove", "smoke_or_fumes"


def signals(thinking: Thinking, text: str, **context: object) -> set[str]:
    return set(read(thinking, text, "sw", **context)["signals"])


@pytest.mark.parametrize(
    "text",
    [
        "wote kulia mwa bruda",
        "wapo kulia",
        "vifaranga wamejaa kulia, kushoto hakuna hata mmoja",
        "wamejipanga kulia kwa mlango",
        "kuku wamehamia kulia",
    ],
)
def test_at_the_right_is_no_crying(thinking: Thinking, text: str) -> None:
    found = signals(thinking, text)
    assert SIDE in found
    assert CRYING not in found


@pytest.mark.parametrize(
    "text",
    [
        "hawaachi kulia tangu jioni",
        "wanalia pii pii hadi jirani ameamka",
        "wanalia mpaka majirani wanalalamika",
        "vifaranga wanapayuka tu",
    ],
)
def test_they_cry(thinking: Thinking, text: str) -> None:
    assert CRYING in signals(thinking, text)


@pytest.mark.parametrize("text", ["kundi limetulia", "jirani analia kuhusu bei"])
def test_nobody_cries(thinking: Thinking, text: str) -> None:
    assert CRYING not in signals(thinking, text)


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("sw", "moshi kidogo tu lakini wote wanasinzia"),
        ("sw", "kuna moshi kidogo na vifaranga wote wamezubaa"),
        ("sw", "hakuna anayeamka, moshi umejaa ndani"),
        ("en", "some smoke in there, and the whole flock is drowsy"),
        ("fr", "un peu de fumee et tous les poussins somnolent"),
    ],
)
def test_a_flock_dull_where_it_smokes_is_dull_of_the_smoke(
    thinking: Thinking, lang: str, text: str
) -> None:
    told = read(thinking, text, lang)
    assert {DROWSY, SMOKE} <= set(told["signals"])
    assert told["cause"] == "fumes"
    assert told["red_flag"]


@pytest.mark.parametrize(
    "text", ["wote wamezubaa, moshi haupo", "kuna moshi kidogo, wote wachangamfu"]
)
def test_no_smoke_or_none_drowsy(thinking: Thinking, text: str) -> None:
    assert DROWSY not in signals(thinking, text)


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("kiu yao si ya kawaida", "drinking_more"),
        ("nimejaza kinywesheo mara tatu leo", "drinking_more"),
        ("wanapanga foleni kwenye maji", "drinking_more"),
        ("hamu ya maji imeshuka kwao", "drinking_less"),
        ("maji yamekaa tu vilevile", "not_drinking"),
        ("vinyweo vipo na hakuna aliyetia mdomo", "not_drinking"),
        ("wanachungulia chakula na kukiacha", "not_eating"),
        ("nimepapasa kooni hakuna kitu", "crop_empty"),
        ("kifuko cha chakula kimesinyaa", "crop_empty"),
        ("kuna madimbwi kwenye maranda", "litter_wet"),
        ("saizi zao zimepishana sana", "uneven_size"),
        ("mash ina madoa ya kijani", "feed_mouldy"),
        ("tumekwangua gunia", "feed_finished"),
        ("matone yanaanguka toka mabati", "rain_or_wind_in"),
        ("ukiinama koo linawaka kwa hewa ya humu", "ammonia_smell"),
        ("mbawa wamezitupa kando", "wings_spread"),
        ("hapana kifaranga karibu na jiko", "away_from_heat"),
        ("milio yao ni mizuri, sauti tamu", "quiet_content"),
        ("moto wanaukwepa wote", "away_from_heat"),
        ("chini ya balbu hapana kifaranga, wameachama vinywa", "away_from_heat"),
        ("wanalikwepa jiko midomo ikiwa wazi", "away_from_heat"),
        ("sigiri hakuna anayeisogelea", "away_from_heat"),
        ("ndimi zimewatoka", "panting"),
        ("maji wanayaonja tu", "drinking_less"),
        ("dumu bado limejaa mpaka magharibi", "drinking_less"),
        ("kinyweo hawakijui", "not_drinking"),
        ("nafaka zimebaki zote kwenye trei", "not_eating"),
        ("hamu ya kula imetoweka", "not_eating"),
        ("randa imegeuka rojo", "litter_wet"),
        ("pua zinachuruzika", "sneezing_or_rattle"),
        ("choo chao kama maziwa", "white_or_green_diarrhoea"),
        ("shingo ya mmoja imekunjika", "twisted_neck_or_paralysis"),
        ("hata konzi haijabaki ghalani", "feed_finished"),
        ("gesi imekata alfajiri", "stove_out"),
        ("balbu zote zimepasuka", "stove_out"),
        ("upande wa kaskazini hakuna kuku, wote wako kusini", "crowded_one_side"),
        ("kila pembe kuna vifaranga", "spread_evenly"),
        ("wanne wamedorora", "lethargic"),
    ],
)
def test_the_sign_is_heard(thinking: Thinking, text: str, sign: str) -> None:
    assert sign in signals(thinking, text)


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("kiu yao ni ya kawaida", "drinking_more"),
        ("hakuna aliye mbali na jiko ila wanahema", "away_from_heat"),
        ("hamu ya maji haijapungua", "drinking_less"),
        ("kundi la ndugu yangu kuku wake wamevimba vichwa", "swollen_head"),
        ("moshi umezidi huwezi kupumua humo", "gasping"),
        ("vifaranga wamejazana kwa jiko wanaogopa baridi", "away_from_heat"),
        ("maji yanakaa tu", "lethargic"),
        ("hewa ya ndani inakaba koo", "gasping"),
        ("panya tumewamaliza wote", "rats_or_predator"),
        ("chakula kipo, hata punje haijamwagika", "feed_finished"),
        ("vilio vimekoma", "noisy_distress"),
        ("pua zao ni kavu", "sneezing_or_rattle"),
        ("balbu zote zinawaka", "stove_out"),
    ],
)
def test_the_sign_is_not_there(thinking: Thinking, text: str, sign: str) -> None:
    assert sign not in signals(thinking, text)

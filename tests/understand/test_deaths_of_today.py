"""What of the dead that a text tells is today's: parts of the day, days, sums, corrections."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.figures import facts_told, lines
from tests.understand.reading import read

# A Wednesday; 300 birds.
PARTS_OF_THE_DAY = """
en lost 3 at dawn and 2 at noon => deaths deaths=5
en 2 died in the night 3 more this morning => deaths deaths=5
en found 1 dead morning and 1 dead evening => deaths deaths=2
en 4 dead this morning and again 2 now => deaths deaths=6
en lost 3 before lunch then another 2 in the afternoon => deaths deaths=5
en 1 died at dawn, 2 at noon and 3 this evening => deaths deaths=6
en dead 2 overnight plus 3 this afternoon => deaths deaths=5
en morning 2 dead, evening 1 dead => deaths deaths=3
en 5 died in the morning n 4 more now => deaths deaths=9
en two passed away at night and one at midday => deaths deaths=3
en we buried 2 at dawn, 1 more at lunch => deaths deaths=3
en at dawn 2 dead at noon 1 dead at dusk 2 dead => deaths deaths=5
en 3 dead in the morning and none in the evening => deaths deaths=3
en we picked 3 in the morning and 2 at noon and evening 4 again => deaths deaths=9
en in the morning i removed 4 and now 3 again, litter is dry => deaths deaths=7 + observe
en lost 2 at dawn & 2 at noon, 30 litres drunk => deaths deaths=4 + water litres=30
fr 3 morts a l'aube et 2 a midi => deaths deaths=5
fr 2 morts cette nuit et encore 3 ce matin => deaths deaths=5
fr 1 mort le matin 1 mort le soir => deaths deaths=2
fr j'ai perdu 4 ce matin puis 2 autres maintenant => deaths deaths=6
fr 3 morts avant midi et 2 l'apres midi => deaths deaths=5
fr 1 mort a l'aube, 2 a midi et 3 ce soir => deaths deaths=6
fr matin 2 morts soir 1 mort => deaths deaths=3
fr 5 morts le matin et 4 de plus maintenant => deaths deaths=9
fr deux morts la nuit et un a midi => deaths deaths=3
fr 3 morts ce matin et aucun ce soir => deaths deaths=3
fr on a ramasse 3 le matin, 2 a midi et encore 4 le soir => deaths deaths=9
fr j'en ai perdu 2 a l'aube et 1 a midi, ils ont bu 30 litres => deaths deaths=3 + water litres=30
fr 4 morts ce matin et encore 2 maintenant => deaths deaths=6
sw walikufa 2 alfajiri na 3 mchana => deaths deaths=5
sw wamekufa 2 usiku na 3 zaidi asubuhi => deaths deaths=5
sw amekufa 1 asubuhi na 1 jioni => deaths deaths=2
sw vifo 4 asubuhi na sasa tena 2 => deaths deaths=6
sw nimepoteza 3 kabla ya mchana kisha wengine 2 jioni => deaths deaths=5
sw vifo 1 alfajiri, 2 mchana na 3 jioni => deaths deaths=6
sw asubuhi wamekufa 2 jioni amekufa 1 => deaths deaths=3
sw wamekufa 5 asubuhi na wengine 4 sasa hivi => deaths deaths=9
sw wawili walikufa usiku na mmoja mchana => deaths deaths=3
sw wamekufa 3 asubuhi na jioni hakuna => deaths deaths=3
sw tumeokota 3 asubuhi, 2 mchana na jioni tena 4 => deaths deaths=9
sw walikufa 2 alfajiri na 1 mchana, wamekunywa lita 30 => deaths deaths=3 + water litres=30
"""

DAYS = """
en 9 this morning. 2 yesterday. none the day before => deaths deaths=9
en yesterday 5 today only 1 in house of 300 => deaths deaths=1
en dead on monday 4 tuesday 3 n wednesday 1 => deaths deaths=1
en one on mon, two on tue, today nil => deaths deaths=0
en last 3 days dead was 2,4,1 => deaths deaths=1
en monday 3 died tuesday 5 died => deaths deaths=5
en mortality: sunday 2, monday 1, tuesday 4, wednesday 0 => deaths deaths=0
en yesterday we lost 3, today 2 in the morning and 1 at noon => deaths deaths=3
en the day before yesterday 4 died, yesterday 2, today none => deaths deaths=0
en 1 died yesterday, 2 this morning and 2 more now => deaths deaths=4
en deaths in the past 2 days: 5, 3 => deaths deaths=3
en they died 6 on monday, 2 on tuesday => deaths deaths=2
en 4 dead today, 3 yesterday and 1 on monday => deaths deaths=4
fr 9 ce matin. 2 hier. aucun avant hier => deaths deaths=9
fr hier 5 aujourd'hui seulement 1 sur 300 => deaths deaths=1
fr morts lundi 4 mardi 3 et mercredi 1 => deaths deaths=1
fr un lundi, deux mardi, aujourd'hui zero => deaths deaths=0
fr morts des 3 derniers jours 2,4,1 => deaths deaths=1
fr lundi 3 morts mardi 5 morts => deaths deaths=5
fr mortalite: dimanche 2, lundi 1, mardi 4, mercredi 0 => deaths deaths=0
fr hier 3 morts, aujourd'hui 2 le matin et 1 a midi => deaths deaths=3
fr avant hier 4 morts, hier 2, aujourd'hui aucun => deaths deaths=0
fr 4 morts aujourd'hui, 3 hier et 1 lundi => deaths deaths=4
sw 9 leo asubuhi. 2 jana. juzi hakuna => deaths deaths=9
sw jana 5 leo 1 tu kati ya 300 => deaths deaths=1
sw vifo jumatatu 4 jumanne 3 na jumatano 1 => deaths deaths=1
sw mmoja jumatatu, wawili jumanne, leo sifuri => deaths deaths=0
sw siku 3 zilizopita vifo 2,4,1 => deaths deaths=1
sw jumatatu walikufa 3 jumanne walikufa 5 => deaths deaths=5
sw vifo: jumapili 2, jumatatu 1, jumanne 4, jumatano 0 => deaths deaths=0
sw jana walikufa 3, leo 2 asubuhi na 1 mchana => deaths deaths=3
sw juzi walikufa 4, jana 2, leo hakuna => deaths deaths=0
sw wamekufa 4 leo, 3 jana na 1 jumatatu => deaths deaths=4
"""

IN_ALL = """
en 2 in the morning n 1 at nite so 3 all together today => deaths deaths=3
en 5 died today, 3 in the morning and 2 in the evening => deaths deaths=5
en 3 dead morning 4 dead evening total 7 => deaths deaths=7
en 1 at dawn, 2 at noon, 3 in all dead => deaths deaths=3
en 4 dead yesterday and 2 today making 6 => deaths deaths=2
fr 2 le matin et 1 la nuit donc 3 en tout aujourd'hui => deaths deaths=3
fr 5 morts aujourd'hui, 3 le matin et 2 le soir => deaths deaths=5
fr 3 morts matin 4 morts soir total 7 => deaths deaths=7
fr 1 a l'aube, 2 a midi, 3 morts en tout => deaths deaths=3
sw 2 asubuhi na 1 usiku jumla 3 leo wamekufa => deaths deaths=3
sw wamekufa 5 leo, 3 asubuhi na 2 jioni => deaths deaths=5
sw vifo 3 asubuhi 4 jioni jumla 7 => deaths deaths=7
sw 1 alfajiri, 2 mchana, vifo 3 kwa jumla => deaths deaths=3
"""

CORRECTED = """
en dead 5 no sorry 3 . counted wrong => deaths deaths=3
en 12 dead sorry i mean 2 => deaths deaths=2
en 7 died oh no 4 => deaths deaths=4
en i lost 6 today, i mean 3 => deaths deaths=3
en 4 dead correction 5 dead => deaths deaths=5
en 3 died this morning sorry 2 and 1 at noon => deaths deaths=3
en dead 14, wait its 4 => deaths deaths=4
en 9 dead or rather 6 => deaths deaths=6
fr 5 morts non pardon 3 . j'ai mal compte => deaths deaths=3
fr 12 morts pardon c'est 2 => deaths deaths=2
fr 7 morts euh non 4 => deaths deaths=4
fr j'ai perdu 6 aujourd'hui, je veux dire 3 => deaths deaths=3
fr 4 morts correction 5 morts => deaths deaths=5
fr 9 morts ou plutot 6 => deaths deaths=6
fr 14 morts desole c'est 4 => deaths deaths=4
sw wamekufa 5 hapana samahani 3 . nilihesabu vibaya => deaths deaths=3
sw wamekufa 12 samahani ni 2 => deaths deaths=2
sw vifo 7 pole ni 4 => deaths deaths=4
sw nimepoteza 6 leo, namaanisha 3 => deaths deaths=3
sw vifo 4 marekebisho 5 => deaths deaths=5
sw vifo 14 nimekosea ni 4 => deaths deaths=4
"""

BESIDE_OTHERS = """
en 3 lost and 2 culled for legs, 195 remain => deaths deaths=3 + culled count=2
en 4 died and i culled 1 => deaths deaths=4 + culled count=1
en culled 2 weak ones, 1 died => culled count=2 + deaths deaths=1
en a weak chick out of 500 was culled => culled count=1
en death took twenty of them between yesterday evening and this morning => deaths deaths=20
fr 3 morts et 2 elimines pour les pattes, reste 195 => deaths deaths=3 + culled count=2
fr 4 morts et j'en ai elimine 1 => deaths deaths=4 + culled count=1
sw wamekufa 3 na nimeondoa 2 vilema, wamebaki 195 => deaths deaths=3 + culled count=2
"""

# Nothing of it is a number of dead.
LOOK_ALIKES = """
en we won 2 yesterday and 1 today in the match
en arsenal scored 2 in the first half and 1 more now
en 31 in the morning 28 at noon and 26 in the evening
en temp was 33 at dawn and 30 now
en 2 bags in the morning and 1 in the evening
en price was 450 yesterday and 480 today
en fed 4 kg morning and 5 kg evening
en gave 10 litres at noon and 8 more now
en sold 5 in the morning and 3 in the evening at 600
en they are 9 days today and yesterday they were 8
en i will come at 2 today or tomorrow at 10
en call me at 4 this evening or 9 in the morning
en collected 12 bags yesterday and 3 today
en weight was 410 on monday and 450 today
en 2 visitors came yesterday and 3 today
en 2 coughing in the morning and 3 now
en 1 limping yesterday 4 today
fr on a gagne 2 hier et 1 aujourd'hui au match
fr 31 le matin 28 a midi et 26 le soir
fr 2 sacs le matin et 1 le soir
fr le prix etait 450 hier et 480 aujourd'hui
fr ils ont bu 10 litres a midi et 8 de plus maintenant
fr vendu 5 le matin et 3 le soir a 2500
fr ils ont 9 jours aujourd'hui, hier 8
fr rappelle moi a 4 ce soir ou 9 demain matin
fr 2 qui toussent ce matin et 3 maintenant
fr poids 410 lundi et 450 aujourd'hui
sw tulishinda 2 jana na 1 leo kwenye mechi
sw joto 33 alfajiri na 30 sasa
sw mifuko 2 asubuhi na 1 jioni
sw bei ilikuwa 450 jana na leo 480
sw wamekunywa lita 10 mchana na 8 tena sasa
sw nimeuza 5 asubuhi na 3 jioni kwa 600
sw wana siku 9 leo jana walikuwa na 8
sw nipigie saa 4 leo au saa 9 kesho
sw 2 wanakohoa asubuhi na 3 sasa
sw uzito 410 jumatatu na 450 leo
"""

WRITTEN_APART = """
en we lost 4 during the night and 2 this afternoon => deaths deaths=6
en tuesday 4 died, today 1 => deaths deaths=1
en mon 5 dead tue 3 dead wed nil => deaths deaths=0
en 3 yesterday n 5 today dead => deaths deaths=5
en buried 6 in the morning, 3 in the evening => deaths deaths=9
en six dead by noon and four more by evening => deaths deaths=10
en dead: morning 1 noon 0 evening 2 => deaths deaths=3
en 8 died, sorry its 3 => deaths deaths=3
en no deaths today, 2 yesterday => deaths deaths=0
en today two dead yesterday none => deaths deaths=2
en at 6am 3 dead at 2pm 2 dead => deaths deaths=5
en lost one in the night and one again now => deaths deaths=2
en this morning 7 dead. evening 3 dead => deaths deaths=10
en 2 dead, 5 since monday => deaths deaths=2
fr 4 morts pendant la nuit et 2 cet apres midi => deaths deaths=6
fr mardi 4 morts, aujourd'hui 1 => deaths deaths=1
fr lundi 5 morts mardi 3 morts mercredi aucun => deaths deaths=0
fr 3 hier et 5 aujourd'hui, morts => deaths deaths=5
fr enterre 6 le matin, 3 le soir => deaths deaths=9
fr six morts a midi et quatre autres le soir => deaths deaths=10
fr morts: matin 1 midi 0 soir 2 => deaths deaths=3
fr 8 morts, pardon 3 => deaths deaths=3
fr pas de mort aujourd'hui, 2 hier => deaths deaths=0
fr aujourd'hui deux morts hier aucun => deaths deaths=2
fr a 6h 3 morts a 14h 2 morts => deaths deaths=5
fr j'ai perdu un la nuit et encore un maintenant => deaths deaths=2
fr ce matin 7 morts. ce soir 3 morts => deaths deaths=10
fr 1 mort ce matin et 1 autre ce soir => deaths deaths=2
sw wamekufa 4 usiku na 2 alasiri => deaths deaths=6
sw jumanne walikufa 4, leo 1 => deaths deaths=1
sw jumatatu vifo 5 jumanne vifo 3 jumatano hakuna => deaths deaths=0
sw 3 jana na 5 leo wamekufa => deaths deaths=5
sw nimezika 6 asubuhi, 3 jioni => deaths deaths=9
sw sita walikufa mchana na wengine wanne jioni => deaths deaths=10
sw vifo: asubuhi 1 mchana 0 jioni 2 => deaths deaths=3
sw wamekufa 8, samahani 3 => deaths deaths=3
sw leo hakuna kifo, jana 2 => deaths deaths=0
sw leo wamekufa wawili jana hakuna => deaths deaths=2
sw nimepoteza mmoja usiku na mwingine mmoja sasa => deaths deaths=2
sw leo asubuhi vifo 7. jioni vifo 3 => deaths deaths=10
sw amekufa 1 asubuhi na 1 tena jioni => deaths deaths=2
sw tumepoteza vifaranga 2 alfajiri kisha 3 mchana => deaths deaths=5
sw walikufa 3 jana, leo 1 asubuhi na 2 jioni => deaths deaths=3
"""

TABLES = (WRITTEN_APART, PARTS_OF_THE_DAY, DAYS, IN_ALL, CORRECTED, BESIDE_OTHERS)


@pytest.mark.parametrize("line", [line for table in TABLES for line in lines(table)])
def test_the_dead_of_today_are_told(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line, count=300)
    assert got == wanted


@pytest.mark.parametrize("line", lines(LOOK_ALIKES))
def test_other_figures_of_days_and_hours_are_no_dead(thinking: Thinking, line: str) -> None:
    language, text = line.split(maxsplit=1)
    got = read(thinking, text, language, count=300)
    facts = got["slots"].get("parts", [got])
    assert [one["slots"] for one in facts if one["slots"].get("deaths")] == []


@pytest.mark.parametrize(
    "text",
    [
        "9 this morning. 2 yesterday. none the day before. whats happening",
        "we picked 4 in the morning 2 at noon n now evening 5 again..litter dry",
        "death took twenty of them between yesterday evening and this morning",
        "how can 8 chicks die in 1 day when temp is good",
        "3 died at dawn, 2 at noon and 2 now",
    ],
)
def test_many_dead_of_a_day_told_in_parts_are_a_danger(thinking: Thinking, text: str) -> None:
    got = read(thinking, text, "en", count=300)
    assert "sudden_many_deaths" in got["signals"]
    assert got["red_flag"]


OTHER_FIGURES = """
en 5 crates went to the hotel, buyer took 8 birds each at 650 a bird => sold count=40 price=650
en 8 weigh 16 kg, buyer took 70 at 220 per kg => weight avg_g=2000 + sold count=70 price=220 per=kg
en drinking 25l feed 1 bag 50 => water litres=25 + feed kg=50
en thermometer hanging at the edge of the hover says 32 => temperature value_c=32
en near the door shows 23 at chicks level => temperature value_c=23
fr le thermometre pres de la porte indique 23 => temperature value_c=23
sw kipimajoto pembeni mwa banda kinaonyesha 32 => temperature value_c=32
"""


@pytest.mark.parametrize("line", lines(OTHER_FIGURES))
def test_figures_beside_each_other_keep_their_own_fact(thinking: Thinking, line: str) -> None:
    got, wanted = facts_told(thinking, line, count=300, age_days=38)
    assert got == wanted


def test_a_share_of_the_floor_is_no_house(thinking: Thinking) -> None:
    assert "house_m2" not in read(thinking, "0.4m2 per bird??", "en")["slots"]

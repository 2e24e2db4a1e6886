"""Several facts in one text, days past beside today, none and nothing: whole facts."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.figures import facts_told, lines
from tests.understand.reading import read

GROWN: dict[str, object] = {"age_days": 38, "count": 400}
NO_BATCH: dict[str, object] = {"has_batch": False, "age_days": None, "count": None}
TODAY: dict[str, object] = {"age_days": 0, "count": 300}
YOUNG: dict[str, object] = {"age_days": 18, "count": 250}

NONE_DEAD = """
en no mortality at all praise God => deaths deaths=0
en zero death 2day => deaths deaths=0
en not a single bird died today => deaths deaths=0
en by grace no loss => deaths deaths=0
en all alive no dead => deaths deaths=0
fr pas un seul mort aujourd'hui => deaths deaths=0
fr 0 mort ce matin => deaths deaths=0
fr zero perte depuis hier => deaths deaths=0
fr ya pa eu de mor => deaths deaths=0
fr aucune mortalite ce jour => deaths deaths=0
fr personne n'est mort => deaths deaths=0
sw hakuna kifo leo => deaths deaths=0
sw hajafa hata mmoja => deaths deaths=0
sw leo hawajafa => deaths deaths=0
sw sijapoteza kuku yeyote => deaths deaths=0
sw vifo sifuri => deaths deaths=0
sw kifo hamna kabisa => deaths deaths=0
en nothing died thank god not even one => deaths deaths=0
en no one dead thank god not a single one => deaths deaths=0
en thank god nothing dead not even 1 => deaths deaths=0
en none died 2day thanks to God => deaths deaths=0
en nobody died not even one chick => deaths deaths=0
fr dieu merci auqun mort cette nuit => deaths deaths=0
fr aucun mort dieu merci => deaths deaths=0
fr okun mor grace a dieu => deaths deaths=0
fr aucune perte dieu merci => deaths deaths=0
fr rien de mort pas meme un seul => deaths deaths=0
fr pas meme un mort => deaths deaths=0
sw kufa hakuna => deaths deaths=0
sw kufa hamna => deaths deaths=0
sw hakuna kufa leo => deaths deaths=0
sw hakuna aliyekufa hata mmoja shukrani kwa mungu => deaths deaths=0
sw hamna vifo alhamdulilah => deaths deaths=0
sw vifo hamna leo => deaths deaths=0
"""

DEAD_OF_NOW = """
en two weeks ago 12 died, today zero => deaths deaths=0
en last season i lost 100 this season none => deaths deaths=0
en my previous batch lost 45, this one only 2 => deaths deaths=2
en last month 30 died but today nothing => deaths deaths=0
en 20 died last year, now zero => deaths deaths=0
en since monday 8 dead, today 2 => deaths deaths=2
en 11 dead so far, today none => deaths deaths=0
en yesterday three dead, none today => deaths deaths=0
en yesterday 5 today 0 => deaths deaths=0
fr l'annee derniere 80 morts, cette annee zero => deaths deaths=0
fr l'autre bande 60 morts, celle ci 2 => deaths deaths=2
fr mois passé 30 morts ojd rien => deaths deaths=0
fr avant hier 5 morts, ajd 0 => deaths deaths=0
fr depuis lundi 8 morts, aujourd'hui 2 => deaths deaths=2
fr hier trois morts, ce matin aucun => deaths deaths=0
sw mwezi uliopita walikufa 30 leo hakuna => deaths deaths=0
sw kundi la kwanza walikufa 60 hili wawili tu => deaths deaths=2
sw tangu jumatatu wamekufa 8, leo 2 => deaths deaths=2
sw juzi walikufa 5 leo hakuna => deaths deaths=0
sw jana 3 wamekufa leo hamna => deaths deaths=0
sw mwaka jana walikufa 90 mwaka huu hakuna => deaths deaths=0
fr lan passé g perdu 200 a koz maladi, ojd zero => deaths deaths=0
fr l'an dernier j'ai perdu 150, cette fois zero => deaths deaths=0
fr lot passé 40 morts, celui ci aucun => deaths deaths=0
fr semaine passée 7 morts aujourd'hui zéro => deaths deaths=0
en last year i lost 200, today zero => deaths deaths=0
en last batch 50 died, this one none => deaths deaths=0
en last week 7 died today zero => deaths deaths=0
en previous flock i lost 90 but this one no death => deaths deaths=0
sw batch ile ya mwaka jana walikufa kumi hii ya leo hakuna => deaths deaths=0
sw batch ya mwaka jana walikufa kumi, hii hakuna => deaths deaths=0
sw batch iliopita zilikufa hamsini hii ya sasa bdo hakuna kifo => deaths deaths=0
sw kundi lililopita walikufa 60 hili bado hakuna kifo => deaths deaths=0
sw wk iliopita walikufa 7 leo sifuri => deaths deaths=0
sw wiki iliyopita walikufa 9 leo hakuna => deaths deaths=0
sw mwaka jana nilipoteza 80 leo hamna => deaths deaths=0
en last week 7 died today 2 => deaths deaths=2
fr semaine derniere 12 morts auj 1 => deaths deaths=1
sw wiki jana walikufa 5 leo 1 => deaths deaths=1
en mort 0 feed 12 wtr 25 => deaths deaths=0 + feed kg=12 + water litres=25
en water 40 feed 20 => water litres=40 + feed kg=20
en temp 30 dead 0 => temperature value_c=30 + deaths deaths=0
fr eau 40 aliment 20 mort 1 => water litres=40 + feed kg=20 + deaths deaths=1
sw maji 40 chakula 20 => water litres=40 + feed kg=20
en 15 dead since day 1, today 1, ate 38kg => deaths deaths=1 + feed kg=38
en lost 7 2day out of my lil flock feed was 8kg => deaths deaths=7 + feed kg=8
en i lost 3 of my flock, they ate 12 kg => deaths deaths=3 + feed kg=12
en yesterday 6 today only 1 => deaths deaths=1
en ystday 4 2day jus 2 => deaths deaths=2
en yesterday 5 died today only 1 => deaths deaths=1
fr hier 6 aujourdhui 1 seul => deaths deaths=1
fr hier 4 auj seulement 2 => deaths deaths=2
sw jana 6 leo 1 tu => deaths deaths=1
sw jana nne leo wawili tu => deaths deaths=2
en 15 dead since day 1, today 1 => deaths deaths=1
fr 15 morts depuis le jour 1, auj 1 => deaths deaths=1
sw wamekufa 15 tangu siku ya 1, leo 1 => deaths deaths=1
en 12 died since day one, 2day none => deaths deaths=0
en today nine gone yestaday it was only two => deaths deaths=9
en 2day 4 gone yesterday two => deaths deaths=4
en today five lost yesterday 3 => deaths deaths=5
fr aujourdhui neuf de partis hier deux => deaths deaths=9
sw leo zimeenda tisa jana mbili => deaths deaths=9
en lost 4 today feed 9kg => deaths deaths=4 + feed kg=9
fr perdu 4 ojd aliment 9kg => deaths deaths=4 + feed kg=9
sw nimepoteza 3 leo chakula kilo 9 maji lita 20 => deaths deaths=3 + feed kg=9 + water litres=20
sw tatu zimedead leo => deaths deaths=3
sw wawili wamedead => deaths deaths=2
sw zimededi nne leo => deaths deaths=4
sw vifo 4 siku ya leo => deaths deaths=4
sw vifo vya leo 4 => deaths deaths=4
sw vifo 3 kwa siku ya leo => deaths deaths=3
sw vifo 3 siku ya jana => deaths deaths=3
sw 9 zafa leo na zilobaki zaharisha damu => deaths deaths=9 + observe
sw 3 zafa leo => deaths deaths=3
sw nne wafa leo => deaths deaths=4
sw kufa 1 chakula 13kg maj 26lita => deaths deaths=1 + feed kg=13 + water litres=26
sw kufa 2 chakula 20kg maji 40 => deaths deaths=2 + feed kg=20 + water litres=40
sw vifo 2 chakula 20 maji 40 => deaths deaths=2 + feed kg=20 + water litres=40
sw kufa 0 chakula 9 maji 18 => deaths deaths=0 + feed kg=9 + water litres=18
en dead 2 feed 20 water 40 => deaths deaths=2 + feed kg=20 + water litres=40
en ded 1 feed 12kg wata 24l => deaths deaths=1 + feed kg=12 + water litres=24
en deaths 0 feed 15 water 30 => deaths deaths=0 + feed kg=15 + water litres=30
fr mort 2 aliment 20 eau 40 => deaths deaths=2 + feed kg=20 + water litres=40
fr mor 1 aliman 13kg o 26 l => deaths deaths=1 + feed kg=13 + water litres=26
fr morts 0 provende 9 eau 18 => deaths deaths=0 + feed kg=9 + water litres=18
en feed 20 water 40 dead 2 => deaths deaths=2 + feed kg=20 + water litres=40
en dead 2 temp 31 feed 20 => deaths deaths=2 + feed kg=20 + temperature value_c=31
"""

NO_DEAD = """
en no light since 7 they are cold => observe
en power cut since 8 chicks crying => observe
fr plus de courant depuis 19 ils crient => observe
sw umeme haupo tangu 7 wanalia => observe
en lights gone since 6 no current => observe
en power gone since 7 no backup => observe
en current went since 5 => observe
en lights off from 6 => observe
fr courant parti depuis 6h => observe
fr le courant est parti depuis 6 => observe
sw umeme umekatika tangu 6 => observe
sw stima imeenda tangu saa 6 => observe
en can we eat one 4 days after the injection => ask
en how long after the vaccine, 4 days after can i sell => ask
fr peut on manger 4 jours apres l'injection => ask
sw naweza kula siku 4 baada ya sindano => ask
fr si 1 jour je voi 1 cou tordu j dois appelé ki => ask
fr si un jour je vois du sang que faire => ask
"""

SALES = """
en restaurant picked 25 birds 50kg at 300 per kilo => sold count=25 kg=50 price=300 per=kg
en sold everything total 210000 => sold count=400 price=210000 per=all
en sold 9 for 5400 all, 1 died => sold count=9 price=5400 per=all + deaths deaths=1
fr le resto a pris 25 poulets 50 kg a 1700 le kg => sold count=25 kg=50 price=1700 per=kg
fr tout vendu 1200000 en tout => sold count=400 price=1200000 per=all
fr vendu 8 pour 28000 le tout, 1 mort => sold count=8 price=28000 per=all + deaths deaths=1
sw mchuuzi amebeba kuku 40 kilo 92 kwa 280 kwa kilo => sold count=40 kg=92 price=280 per=kg
sw nimeuza 9 jumla 5400 na mmoja amekufa => sold count=9 price=5400 per=all + deaths deaths=1
sw kuku wote wameuzwa jumla 210000 => sold count=400 price=210000 per=all
en i give out 20 hens for 9000 total n 2 died => sold count=20 price=9000 per=all + deaths deaths=2
sw nimetoa kuku 20 kwa 9000 jumla, 2 wamekufa => sold count=20 price=9000 per=all + deaths deaths=2
en hotel took sixty birds 132kg 310 a kilo => sold count=60 kg=132 price=310 per=kg
en hotel took 40 birds 88 kg at 300 a kilo => sold count=40 kg=88 price=300 per=kg
en butcher bought 30 birds 63kg 320 per kg => sold count=30 kg=63 price=320 per=kg
fr lhotel a pris 60 poulets 132kg 1800 le kilo => sold count=60 kg=132 price=1800 per=kg
sw hoteli imechukua kuku 60 kilo 132 kwa 310 kila kilo => sold count=60 kg=132 price=310 per=kg
en gave out 15 birds for 7500 total => sold count=15 price=7500 per=all
en i gave away 12 chicken at 450 each => sold count=12 price=450
en let out 10 hens for 5000 all => sold count=10 price=5000 per=all
sw zote zimeenda jumla ni 168000 => sold count=400 price=168000 per=all
sw zote zimeenda jumla 168000 => sold count=400 price=168000 per=all
sw kuku wote wameenda jumla 152000 => sold count=400 price=152000 per=all
en all gone total 168000 => sold count=400 price=168000 per=all
en sold all, total 168000 => sold count=400 price=168000 per=all
sw nimeuza 20 kwa 480 na kufa hamna => sold count=20 price=480 + deaths deaths=0
sw nimeuza kuku 10 kwa 500 kufa hakuna => sold count=10 price=500 + deaths deaths=0
en sold 20 at 480 and no deaths => sold count=20 price=480 + deaths deaths=0
en sold 12 for 600 each nobody died => sold count=12 price=600 + deaths deaths=0
fr vendu 20 a 3000 aucun mort => sold count=20 price=3000 + deaths deaths=0
en got 3 sacks 70kg each 9300 all => feed kg=210 move=in price=9300 per=all
en bought 2 sacks 50kg each 6400 total => feed kg=100 move=in price=6400 per=all
en bought 2 bags 50kg at 3200 each => feed kg=100 move=in price=6400 per=all
fr recu 3 sacs de 50 kg chacun 45000 en tout => feed kg=150 move=in price=45000 per=all
sw nimepata magunia 3 ya kilo 70 kila moja 9300 zote => feed kg=210 move=in price=9300 per=all
"""

READINGS = """
sw wana gram 760 na leo wamekula kilo 30 => weight avg_g=760 + feed kg=30
sw wana gramu 900 leo wamekula kilo 25 => weight avg_g=900 + feed kg=25
sw wana kilo 1.2 na wamekula kilo 40 => weight avg_g=1200 + feed kg=40
en they are 760 gram and ate 30 kilo today => weight avg_g=760 + feed kg=30
fr ils font 760 g et ont mangé 30 kg => weight avg_g=760 + feed kg=30
fr moyen 1,8 kilo piece => weight avg_g=1800
fr moyenne 1,6 kg par tete => weight avg_g=1600
sw wastani kilo 1.8 lakini wengine wakubwa wengine wadogo sana => weight avg_g=1800 + observe
en its 33.5 on the meter => temperature value_c=33.5
en 32 on the thermometer => temperature value_c=32
en meter says 31 => temperature value_c=31
en reading is 30.5 on the gauge => temperature value_c=30.5
fr il fait 33,5 au thermometre => temperature value_c=33.5
fr l'appareil marque 32 => temperature value_c=32
sw kipimo kinaonyesha 33 => temperature value_c=33
sw ni 32 kwenye thermometer => temperature value_c=32
en humidty 78 pct n temp 29 => humidity rh_pct=78 + temperature value_c=29
en temp 29 humidity 78 => humidity rh_pct=78 + temperature value_c=29
en humidity 70% temp 31 => humidity rh_pct=70 + temperature value_c=31
fr humidité 78 pour cent et température 29 => humidity rh_pct=78 + temperature value_c=29
fr humidite 65% temp 30 => humidity rh_pct=65 + temperature value_c=30
sw unyevu asilimia 78 na joto 29 => humidity rh_pct=78 + temperature value_c=29
sw joto 31 hawajarundikana kufa hakuna => temperature value_c=31 + observe + deaths deaths=0
sw joto 30 hawahemi vifo hakuna => temperature value_c=30 + observe + deaths deaths=0
en temp 31 not piled no deaths => temperature value_c=31 + observe + deaths deaths=0
fr temp 31 pas entassés aucun mort => temperature value_c=31 + observe + deaths deaths=0
"""

TREATED = """
en gave kwikpluz 3 days ago dont eat the meat 10 days => treated day=-3
en dewormed with vermokil yesterday, wait 7 days to sell => treated day=-1
en today finished the course of tetrasan, no selling 6 days => treated day=0
fr fini le traitement de biotril aujourd'hui, ne pas vendre 5 jours => treated day=0
fr donné vitalux ier, pas manger la viande 3 jours => treated day=-1
sw jana nimewapa dawa ya vermokil, nisiuze siku 7 => treated day=-1
sw nimemaliza vitalux leo tusile nyama siku 3 => treated day=0
en i put tumbokleen 2 days ago, no eat the meat for 5 days the bottle say => treated day=-2
en gave pukofit yesterday, no selling for 7 days => treated day=-1
en mixed wormex in water today withdraw 5 days => treated day=0
fr vermifuj ier, atendre 7 jour avan vendre => treated day=-1
fr vermifuge hier attendre 7 jours avant de vendre => treated day=-1
fr jai donné zolvax hier, pas vendre avant 5 jours => treated day=-1
sw leo nimemaliza dozi ya filomax nisiuze kwa siku 7 => treated day=0
sw nimewapa tibapro jana nisiuze siku 5 => treated day=-1
sw nimeweka vitamilo kwenye maji leo nisichinje siku 4 => treated day=0
"""

BATCHES = """
en my house is 5 by 6 metre how many can i keep i want 2 start next month => plan m2=30
en want 2 keep 200 chicks => plan count=200
en i want 2 buy broilers next month => plan
sw nataka kufuga vifaraga 200 kuanzia ijumaa banda ni 5 kwa 6 => plan count=200 day=2 m2=30
sw nataka kufuga 150 chumba ni 4 kwa 5 => plan count=150 m2=20
sw nina banda la 6 kwa 4 nataka kuanza na kuku 200 => plan count=200 m2=24
sw nmelipia oda ya mia saba wafike alhamis => register count=700 day=1
sw nimelipia oda ya vifaranga 300 watafika ijumaa => register count=300 day=2
en paid for order of 400 they come friday => register count=400 day=2
fr jai payé la commande de 300 ils arrivent vendredi => register count=300 day=2
sw vifaranga 150 walianguliwa jumapili niwekee => register count=150 day=-3
sw vifaranga 200 walitotolewa jumatatu nisajili => register count=200 day=-2
en 150 chicks hatched sunday put me down => register count=150 day=-3
fr 150 poussins éclos dimanche inscrivez moi => register count=150 day=-3
"""

ARRIVED = """
sw box zimeingia, nimehesabu 298 hai leo => arrived count=298
sw mabox yameshuka jana usiku zote mia mbili hamsini => arrived count=250 day=-1
sw mabox yameingia saii zote mia nne => arrived count=400
sw box zimeshuka leo 300 => arrived count=300
en boxes came in last night all 250 => arrived count=250 day=-1
fr les cartons sont arrivés hier soir tous 250 => arrived count=250 day=-1
en they reach at 2pm safe all 300 => arrived count=300
en they reached 3pm all 300 safe => arrived count=300
en boxes in, counted 298 alive => arrived count=298
fr cartons arrivés, j'ai compté 298 vivants => arrived count=298
sw wamefika saa nane wote 300 salama => arrived count=300
fr ils sont la a 14h tous les 300 => arrived count=300
"""

ASKED = """
en number of drinkas for 300 => ask count=300
en number of drinkers for 200 chicks => ask count=200
en how many feeders for 250 => ask count=250
fr nombre dabreuvoirs pour 300 => ask count=300
fr konbien abreuvoir pour 300 => ask count=300
sw idadi ya vinyweshaji kwa 300 => ask count=300
fr kel tanperatur pour 9 jour => ask age_days=9
fr kelle temperature pour 12 jours => ask age_days=12
en what temp for 9 days => ask age_days=9
sw joto gani kwa siku 9 => ask age_days=9
en how many dead in one day is too much => ask
en how many deaths a day is too many => ask
fr combien de morts par jour c'est trop => ask
sw vifo vingapi kwa siku ni vingi => ask
sw kwa kawaida hufa wangapi wiki ya kwanza kwa mia => ask
en how many can die in first week of a hundred => ask
"""

OF_THE_DAY = """
sw jna lita 31 leo 34 za maji => water litres=34
sw jana maji lita 28 leo 30 => water litres=30
en yesterday 31 litres today 34 of water => water litres=34
fr hier 31 litres aujourdhui 34 d'eau => water litres=34
en four of dem 610 590 640 605 => weight weights=610,590,640,605
en 3 of them 820 790 845 => weight weights=820,790,845
fr quatre d'entre eux 610 590 640 605 => weight weights=610,590,640,605
sw wanne kati yao 610 590 640 605 => weight weights=610,590,640,605
"""

SOUNDS_SO = """
en remaining forty five sold all 4 22000 => sold count=45 price=22000 per=all
en sold 35 birds 4 15750 => sold count=35 price=15750 per=all
en sold 4 2000 each => sold count=4 price=2000
en we lost 4 late in the night => deaths deaths=4
"""

WRONG_AND_RIGHT = """
en 7 died instead of 9 => deaths deaths=7
en fed 18 kg instead of 16 => feed kg=18
fr 5 morts au lieu de 3 => deaths deaths=5
fr 13 kg au lieu de 31 => feed kg=13
fr 28 au lieu de 30 litres d'eau => water litres=28
sw wamekufa 3 badala ya 5 => deaths deaths=3
sw chakula kilo 14 badala ya 41 => feed kg=14
"""

OF_THE_FLOCK = """
en 14 gone dis nite out of 400 am finished => deaths deaths=14
en today we lost nobody => deaths deaths=0
en we have lost no one this week => deaths deaths=0
en previous flock lost 80, this one nobody => deaths deaths=0
en last yr same time i lost 40 this yr 3 => deaths deaths=3
fr aujourd'hui on a perdu personne => deaths deaths=0
fr un mort ce soir pas de toux chez les autres => deaths deaths=1 + observe
fr ils ont la diarrhee, 6 sont deja partis => deaths deaths=6 + observe
sw kufwa ni 3 pekee => deaths deaths=3
sw tng day one nimepoteza 7 leo sufuri => deaths deaths=0
sw tng mwanzo nimepoteza 5 leo 1 => deaths deaths=1
"""

NOT_OF_THE_FLOCK = """
en last yr 40 died on me, that was the old batch => other
fr l'an passe 50 morts, c'etait l'ancien lot => other
sw mwaka jana walikufa 70, hilo lilikuwa kundi la zamani => other
sw kundi la mwaka jana lilikufa lote kwa kideri hili jipya hawaumwi => other
en the bulb died at 2am => observe
fr plus de makala le feu est mort a 3h du mat => observe
fr pres de trente poussins respire tres mal com ceux ki se noie => observe
fr jai compté 40 ki ronfle et tousse sur les 500 => observe
sw nimehesabu 30 wanakohoa => observe
"""

MEASURED = """
en 20l jerrycan twice today thats wat they drank => water litres=40
en 10 litres fount filled twice today => water litres=20
sw wamekula kg18 na nus leo => feed kg=18.5
sw 420 455 398 460gramu wanne => weight weights=420,455,398,460
sw 380 402 395gramu watatu => weight weights=380,402,395
en T 29 => temperature value_c=29
"""

BY_THE_KILO = """
sw nmeuza kuku 30 kilo ni 6500 => sold count=30 price=6500 per=kg
fr vendu 25 poulets le kilo est 2200 => sold count=25 price=2200 per=kg
en took forty 92 kilos 280 a kg => sold count=40 kg=92 price=280 per=kg
fr tous sont partis au total 450000 => sold count=400 price=450000 per=all
"""

TO_COME = """
en i want 250 aftr 2wks room is 5 by 4 mtrs => plan count=250 day=14 m2=20
fr je veux 200 poussins apres 2 semaines => plan count=200 day=14
sw nataka vifaranga 200 baada ya wiki 2 => plan count=200 day=14
en hw many feeding trays 4 two hundred => ask count=200
en hw big a room can carry 400 wen grown => ask count=400
"""

CAME_AND_WARM = """
sw bonjour wamefika 500 leo joto lipo 33 => arrived count=500 day=0 + temperature value_c=33
en 300 came today temp is 32 => arrived count=300 day=0 + temperature value_c=32
fr ils sont arrives 300 ce matin temperature 33 => arrived count=300 day=0 + temperature value_c=33
"""

TABLES = (
    (GROWN, SOUNDS_SO),
    (GROWN, BY_THE_KILO),
    (GROWN, OF_THE_FLOCK),
    (YOUNG, WRONG_AND_RIGHT),
    (YOUNG, NOT_OF_THE_FLOCK),
    (YOUNG, MEASURED),
    (NO_BATCH, TO_COME),
    (TODAY, CAME_AND_WARM),
    (GROWN, NONE_DEAD),
    (GROWN, DEAD_OF_NOW),
    (GROWN, NO_DEAD),
    (GROWN, SALES),
    (GROWN, READINGS),
    (GROWN, TREATED),
    (NO_BATCH, BATCHES),
    (TODAY, ARRIVED),
    (NO_BATCH, ASKED),
    (YOUNG, OF_THE_DAY),
)


@pytest.mark.parametrize(
    ("context", "line"), [(context, line) for context, table in TABLES for line in lines(table)]
)
def test_every_fact_of_a_text_is_read_and_no_other(
    thinking: Thinking, context: dict[str, object], line: str
) -> None:
    told, due = facts_told(thinking, line, **context)
    assert told == due


@pytest.mark.parametrize(
    ("language", "prompt", "text", "intent"),
    [
        ("en", "temperature", "sorry 4 late reply my fone died", "other"),
        ("en", "water", "thanks 4 the advice yesterday", "other"),
        ("fr", "house", "ds un enclos au coin de la chambre", "register"),
        ("fr", "house", "dans une piece a cote de la cuisine", "register"),
        ("en", "deaths", "non", "deaths"),
    ],
)
def test_an_open_question_takes_words_for_what_they_are(
    thinking: Thinking, language: str, prompt: str, text: str, intent: str
) -> None:
    assert read(thinking, text, language, last_prompt=prompt)["intent"] == intent


def test_the_language_that_is_not_understood_is_not_the_one_wanted(thinking: Thinking) -> None:
    told = read(thinking, "kiingereza please i dont understand swahili", "en")
    assert (told["intent"], told["slots"].get("lang")) == ("language", "en")

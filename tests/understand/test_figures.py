"""Figures, days and whole facts in the words of many hands: a table for each way of telling."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.figures import facts_told, lines
from tests.understand.reading import read

NO_BATCH = {"has_batch": False, "age_days": None, "count": None}  # today is a Wednesday
GROWN = {"age_days": 38, "count": 400}

DAYS = """
en register 150 put in on monday => register count=150 day=-2
en sign me up, 200 chicks entered sunday => register count=200 day=-3
en new batch 300 they came in on friday => register count=300 day=-5
en add my 250 chicks i got them saturday => register count=250 day=-4
en register 180 stocked since tuesday => register count=180 day=-1
en new flock of 220 placed last monday => register count=220 day=-2
en ordered 400 delivery next friday => register count=400 day=2
en booked 500 chicks, hatchery brings them saturday => register count=500 day=3
en register 300 delivery is on monday => register count=300 day=5
en register 350 arriving next thursday => register count=350 day=1
en register 260 we started on sunday => register count=260 day=-3
fr inscrivez 150 sujets entrés lundi => register count=150 day=-2
fr enregistre 350 posés dimanche => register count=350 day=-3
fr nouveau lot 200 mis en place vendredi => register count=200 day=-5
fr ajoutez 180 poussins reçus mardi => register count=180 day=-1
fr inscris moi 240 démarrés samedi => register count=240 day=-4
fr nouveau lot 120 logés lundi => register count=120 day=-2
fr inscris moi 210 entrés samedi passé => register count=210 day=-4
fr j'ai commandé 500 livraison vendredi prochain => register count=500 day=2
fr commande faite 550 poussins pour samedi => register count=550 day=3
fr 400 poussins arrivent lundi => register count=400 day=5
fr j'ai réservé 250 poussins livrés jeudi prochain => register count=250 day=1
fr nouveau lot 320 à livrer dimanche => register count=320 day=4
fr enregistrez 90 que jai mis samedi => register count=90 day=-4
sw nisajili 150 nmeweka jmosi => register count=150 day=-4
sw sajili 320 niliweka jumapili => register count=320 day=-3
sw andikisha 300 nilianza ijumaa => register count=300 day=-5
sw kundi jipya 250 waliingia jtatu => register count=250 day=-2
sw nisajili 180 nilipokea jumanne => register count=180 day=-1
sw sajili 200 tuliwapokea alhamisi => register count=200 day=-6
sw sajili 260 nilianza nao jumamosi iliyopita => register count=260 day=-4
sw kundi jipya 110 tumeweka jumatatu => register count=110 day=-2
sw nimeagiza 400 wanakuja ijumaa ijayo => register count=400 day=2
sw nimeorder 350 vifaranga zitafika jpili => register count=350 day=4
sw batch mpya 500 naletewa jumatatu ijayo => register count=500 day=5
sw sajili 270 nitaweka jumamosi => register count=270 day=3
en new batch 250 day afta tomorow => register count=250 day=2
en register 300 tomoz => register count=300 day=1
en register 300 came yestaday => register count=300 day=-1
en register 300 placed day befor yesterday => register count=300 day=-2
en register 120 coming tmoro => register count=120 day=1
en register 120 placed 3 dys ago => register count=120 day=-3
fr nouveau lot 250 aprè demain => register count=250 day=2
fr nouveau lot 250 apre dmain => register count=250 day=2
fr nouveau lot 300 aprés demin => register count=300 day=2
fr nouveau lot 300 demein => register count=300 day=1
fr enregistrez 200 poussins reçus avan hiere => register count=200 day=-2
fr enregistrez 200 poussins reçus avans hier => register count=200 day=-2
fr enregistrez 200 arrivés il y a 3 jour => register count=200 day=-3
sw sajili 250 keshokutwaa => register count=250 day=2
sw sajili 250 kesho kutwwa => register count=250 day=2
sw sajili 300 wanakuja keshoo => register count=300 day=1
sw sajili 300 waliingia janaa => register count=300 day=-1
sw sajili 300 niliweka juzii => register count=300 day=-2
sw kundi jipya 300 niliweka siku 4 zilizopita => register count=300 day=-4
"""

WEIGHTS = """
en 3 birds 1.4kg 1.6 kg 2.0kg => weight weights=1400,1600,2000
en weighed six: 2kg 2.1kg 1.95kg 2.05kg 2.2kg 1.9kg => weight weights=2000,2100,1950,2050,2200,1900
en sample of 5 1.8 1.9 2.0 2.1 1.7 kg => weight weights=1800,1900,2000,2100,1700
en 4 chicks 182g 175g 190g 201g => weight weights=182,175,190,201
en five broilers weigh 1.5, 1.6, 1.0, 2, 1.7 => weight weights=1500,1600,1000,2000,1700
en weights 1kg 1.1kg 0.9kg 1.25kg => weight weights=1000,1100,900,1250
en picked four they weigh 950g 1.1kg 980g 1kg => weight weights=950,1100,980,1000
en g305 g290 g311 these three chicks => weight weights=305,290,311
en kg 1.2 kg 1.0 kg 1.3 kg 1.1 for 4 birds => weight weights=1200,1000,1300,1100
en weighed 3 birds 1.25 2 1.75 kilos => weight weights=1250,2000,1750
fr poids 3 poulets 1,2kg 1,35kg 2kg => weight weights=1200,1350,2000
fr pesé cinq 1,8 1,9 2,0 1,75 1,85 kilo => weight weights=1800,1900,2000,1750,1850
fr 4 sujets 1kg 1,1kg 1,2kg 0,95kg => weight weights=1000,1100,1200,950
fr jai pesé 4 poussins 182g 175g 190g 168g => weight weights=182,175,190,168
fr poids de trois poulets 2 kg 2,3 kg 1,9 kg => weight weights=2000,2300,1900
fr pesée de 5 sujets 1.5 1.0 1.4 1.6 2.0 => weight weights=1500,1000,1400,1600,2000
fr pesé 3 poulets 1kg200 1kg350 1kg => weight weights=1200,1350,1000
fr g210 g198 g205 ces trois poussins => weight weights=210,198,205
sw nimepima watano 1.6 1.9 2.0 1.75 1.85 kilo => weight weights=1600,1900,2000,1750,1850
sw kuku wanne kg1.1 kg1.2 kg1.0 kg1.3 => weight weights=1100,1200,1000,1300
sw kuku 3 kilo 2 kilo 1.8 kilo 2.2 => weight weights=2000,1800,2200
sw nimepima 4: 1kg 1.1kg 0.9kg 1.2kg => weight weights=1000,1100,900,1200
sw g310 g295 g320 hawa watatu => weight weights=310,295,320
sw uzito wa kuku watano 1.5 1.4 1.0 1.6 2 => weight weights=1500,1400,1000,1600,2000
sw vifaranga vinne g 182 g 175 g 190 g 188 => weight weights=182,175,190,188
sw nimepima kuku 3 2.0 2.1 1.9 kg => weight weights=2000,2100,1900
sw uzito wasatni 1850 => weight avg_g=1850
sw uzito wa wastni kilo 1.9 => weight avg_g=1900
en averge weight 1.9kg => weight avg_g=1900
en mean wieght 1900 => weight avg_g=1900
fr poids moyn 1850g => weight avg_g=1850
fr poid moyenn 1,9 kg => weight avg_g=1900
"""

DEAD = """
en mortality today seven => deaths deaths=7
en deaths: twelve => deaths deaths=12
en dead this morning four => deaths deaths=4
en todays mortality is nine => deaths deaths=9
en number dead 6 => deaths deaths=6
en mortality of the day three => deaths deaths=3
fr perte du jour six => deaths deaths=6
fr pertes de la journée onze => deaths deaths=11
fr morts du matin quatre => deaths deaths=4
fr nombre de morts ce jour sept => deaths deaths=7
fr mortalité du jour 9 => deaths deaths=9
fr mortalité de la nuit cinq => deaths deaths=5
fr perte du jour zéro => deaths deaths=0
sw vifo vya leo nane => deaths deaths=8
sw idadi ya vifo tano => deaths deaths=5
sw waliokufa leo ni wanne => deaths deaths=4
sw vifo leo kumi na mbili => deaths deaths=12
sw sio kumi waliokufa ni watatu tu leo => deaths deaths=3
sw si watano waliokufa ni mmoja => deaths deaths=1
sw waliokufa si 20 ni 2 => deaths deaths=2
en not ten dead its one only => deaths deaths=1
en it is not 12 dead but 2 => deaths deaths=2
en 3 dead not 13 => deaths deaths=3
fr pas dix morts mais un seul => deaths deaths=1
fr 3 morts pas 13 => deaths deaths=3
en my brother lost 40 last night, me 0 => deaths deaths=0
en my brother lost 35 birds i lost none => deaths deaths=0
en neighbour has 50 dead, mine zero => deaths deaths=0
en my friend lost 30 chicks, for me 0 dead => deaths deaths=0
fr mon frère a perdu 45 poussins moi 0 mort => deaths deaths=0
fr le voisin a perdu 80 sujets, moi zéro => deaths deaths=0
fr ma soeur a eu 20 morts cette nuit et moi aucun => deaths deaths=0
fr chez mon cousin 30 morts, chez moi 0 => deaths deaths=0
sw jirani amepoteza 50 mimi sifuri => deaths deaths=0
sw kaka yangu amepoteza kuku 60 mimi 0 => deaths deaths=0
sw walikufa 25 kundi lililopita, hili sijapoteza => deaths deaths=0
sw kwa jirani wamekufa 40 kwangu hakuna aliyekufa => deaths deaths=0
sw jirani walikufa 30 kwangu 0 => deaths deaths=0
en 2 yesterday 9 today cold on the floor dead => deaths deaths=9
en lost 4 yesterday and 1 today => deaths deaths=1
en only one gone this week, none today dead => deaths deaths=0
en died 5 yesterday, today another 2 => deaths deaths=2
fr hier 3 morts aujourd'hui 1 => deaths deaths=1
fr 5 hier, 2 ce matin de morts => deaths deaths=2
fr un seul mort cette semaine, aucun aujourd'hui => deaths deaths=0
sw jana walikufa 4 leo 1 => deaths deaths=1
sw kuku 6 walikufa jana na leo tena wengine 3 => deaths deaths=3
sw mmoja alikufa wiki hii, leo hakuna => deaths deaths=0
en 4 of 300 did not get up, cold already => deaths deaths=4
fr 4 sur 300 ne se sont pas levés, déjà froids => deaths deaths=4
fr vingt y sont passés cette nuit => deaths deaths=20
fr douze y ont laissé la vie => deaths deaths=12
sw wanne wamekufa ktk elfu mbili => deaths deaths=4
sw watatu wamekufa kwnye mia tatu => deaths deaths=3
sw cjapoteza hata mmoja leo => deaths deaths=0
sw sjapoteza kuku yeyote leo => deaths deaths=0
sw bamekufa makumi mbili leo => deaths deaths=20
sw nimetupa shimoni 16 => deaths deaths=16
"""
OTHERS = """
fr la batterie de mon téléphone est morte => other
en my battery died i could not reply => other
sw simu yangu ilikufa chaji => other
fr ma batterie était morte hier => other
"""

YEARS = """
en in 2024 i lost 80 birds in one night
en in 2022 we had 150 deaths
en back in 2023 lost 200 chicks to cold
fr en 2023 j'ai perdu 150 poussins
fr en 2021 on a eu 90 morts
sw mwaka 2024 nilipoteza kuku 60
sw mwaka wa 2023 walikufa 100
"""

LETTERS = """
en temp 9OF => temperature value_c=32.2
en temp 3O => temperature value_c=30
en 2OO g average => weight avg_g=200
en register 5OO today => register count=500 day=0
en ate 1Okg => feed kg=10
en humidity 7O percent => humidity rh_pct=70
en O dead today => deaths deaths=0
en deaths O => deaths deaths=0
en bought 2 bags of 5Okg => feed kg=100 move=in
en they drank 4Ol => water litres=40
fr temp 3O,5 c => temperature value_c=30.5
fr poids moyen 2OOg => weight avg_g=200
fr humidité 6O% => humidity rh_pct=60
fr O mort => deaths deaths=0
fr morts O => deaths deaths=0
fr acheté 2 sacs de 5O kg => feed kg=100 move=in
fr ils ont bu 3OL => water litres=30
fr mangé 1O,5kg => feed kg=10.5
fr 1O morts => deaths deaths=10
sw joto 3Oc => temperature value_c=30
sw unyevu 7Opct => humidity rh_pct=70
sw vifo O => deaths deaths=0
sw nimenunua magunia 2 ya 5Okg => feed kg=100 move=in
sw wamekunywa lita 4O => water litres=40
sw wamekufa 1O leo => deaths deaths=10
sw wamekula 1Okg => feed kg=10
sw wastani gramu 2OO => weight avg_g=200
"""

BAGS = """
en bought 4 bags each 50kg => feed kg=200 move=in
en bought bags 3, 70 kg each => feed kg=210 move=in
en got 5 sacks feed weighing 25kg each => feed kg=125 move=in
en bought 6 bags of feed 25kg per bag => feed kg=150 move=in
en bought two bags, each one 50 kilos => feed kg=100 move=in
en bought 3 feed bags every bag 70kg => feed kg=210 move=in
fr acheté 3 sacs chacun 25kg => feed kg=75 move=in
fr acheté deux sacs d'aliment 50 kilos chacun => feed kg=100 move=in
fr acheté 4 sacs d'aliment de 50 chaque => feed kg=200 move=in
fr acheté 2 sacs de provende chaque sac fait 50kg => feed kg=100 move=in
fr acheté 5 sacs, le sac de 25 kg => feed kg=125 move=in
fr j'ai pris 3 sacs d'aliment à 50kg le sac => feed kg=150 move=in
sw nimenunua mifuko 3 ya chakula kila moja 70kg => feed kg=210 move=in
sw nimenunua gunia tatu kila gunia kilo 50 => feed kg=150 move=in
sw nimenunua mifuko 2 ya chakula kila mmoja kilo 50 => feed kg=100 move=in
sw nimenunua magunia mawili kila moja kilo 70 => feed kg=140 move=in
sw nimenunua mifuko mitano ya kilo 25 kila mfuko => feed kg=125 move=in
sw nimenunua mfko 3 za 70kg => feed kg=210 move=in
sw wamekula mfuko mmoja na nusu wa 50 => feed kg=75
fr mon frère a ramené 3sacs de 50 pour les poulets => feed kg=150 move=in
en my wife brought 2 sacks of 50 for the birds => feed kg=100 move=in
"""

SALES = """
en hotel man carried 30 at 450 each => sold count=30 price=450
en 40 went to market for 20000 all => sold count=40 price=20000 per=all
en gave out 25 birds 500 each => sold count=25 price=500
en a trader cleared 100 for 48000 total => sold count=100 price=48000 per=all
en the lady took 60 for 180000 the lot => sold count=60 price=180000 per=all
en buyers picked 80 at 300 a kilo => sold count=80 price=300 per=kg
en delivered 25 birds, 3 dollars per kilo => sold count=25 price=3 per=kg
en removed 12 for a wedding 600 each => sold count=12 price=600
en not dead, i sold 12 at 2800 => sold count=12 price=2800
en none died, sold 20 at 550 => deaths deaths=0 + sold count=20 price=550
en disposed 45 birds @ 520 => sold count=45 price=520
fr la dame a pris 55 pour 165000 le tout => sold count=55 price=165000 per=all
fr 30 partis au marché pour 90000 le tout => sold count=30 price=90000 per=all
fr sorti 10 pour le baptême 3000 l'un => sold count=10 price=3000
fr j'ai livré 20 poulets, 1800 le kilo => sold count=20 price=1800 per=kg
fr tout liquidé 150 têtes pour 420000 en tout => sold count=150 price=420000 per=all
fr un client est parti avec 15 à 2500 => sold count=15 price=2500
fr la voisine a emporté 8 poulets à 3000 pièce => sold count=8 price=3000
fr pas morts, j'ai vendu 14 à 2700 => sold count=14 price=2700
fr le maquis a enlevé 35 à 2600 => sold count=35 price=2600
fr écoulé 22 sujets 2500 l'un => sold count=22 price=2500
fr donné 25 au commerçant pour 62500 => sold count=25 price=62500 per=all
sw wanunuzi wamechukua 70 kwa 300 kilo => sold count=70 price=300 per=kg
sw kuku mia moja wametoka sh 480 => sold count=100 price=480
sw nimeuzisha kuku 150, moja shilingi 500 => sold count=150 price=500
sw mama amebeba kuku 20 kwa 10000 zote => sold count=20 price=10000 per=all
sw kuku 45 zimetoka kwa 450 kila moja => sold count=45 price=450
sw hawajafa, nimeuza 12 kwa 500 => sold count=12 price=500
sw hoteli imechukua 30 kila mmoja 450 => sold count=30 price=450
sw dalali amebeba 60 kwa elfu thelathini zote => sold count=60 price=30000 per=all
sw nimewatoa 25 sokoni kwa 550 => sold count=25 price=550
sw kuku 50 wamenunuliwa 480 kwa kuku => sold count=50 price=480
"""

TWO_DAYS = """
en ate 34kg today yesterday 31 => feed kg=34
en yesterday 20 litres today 22 => water litres=22
en measured 28 last night, this morning its 29 degrees => temperature value_c=29
en fed 12kg yesterday and 13kg today => feed kg=13
en temp was 31 yesterday, 29 today => temperature value_c=29
fr les poulets ont mangé 30kg auj hier 28 => feed kg=30
fr bu 40 litres hier, 45 aujourd'hui => water litres=45
fr j'ai mesuré 27 hier soir, ce matin c'est 29 => temperature value_c=29
fr température hier 31 aujourd'hui 29 => temperature value_c=29
fr consommé 12kg hier et 13kg ce jour => feed kg=13
sw wamekula kilo 30 leo jana 28 => feed kg=30
sw jana walikunywa lita 20 leo lita 22 => water litres=22
sw joto jana 31 leo 29 => temperature value_c=29
sw nimepima 28 jana usiku, asubuhi hii joto ni 29 => temperature value_c=29
en not 52 litres but 42 of water => water litres=42
en feed was 12kg not 21kg => feed kg=12
fr pas 52 litres mais 42 d'eau => water litres=42
fr température 29 pas 92 => temperature value_c=29
sw si lita 52 ni 42 za maji => water litres=42
sw sio kilo 21 chakula ni kilo 12 => feed kg=12
"""

GOES = """
en gave 6 kgs feed morning and 5 evening => feed kg=11
en they drank 9 in the morning 8 evening litres => water litres=17
en 20 litres morning 15 evening water => water litres=35
en feed 4kg morning, 5 evening => feed kg=9
en gave a 10l can of water 3 times => water litres=30
en bought ten kilo bag x3 => feed kg=30 move=in
fr donné 6 kg d'aliment le matin et 5 le soir => feed kg=11
fr bu 20 litres le matin 15 le soir => water litres=35
fr donné 10 l d'eau 3 fois => water litres=30
sw asubuhi chakula kilo 6 jioni 7 => feed kg=13
sw maji lita 20 asubuhi na 15 jioni => water litres=35
sw nimewapa maji lita 10 mara 3 => water litres=30
en mean weight one eighty grams => weight avg_g=180
en average two fifty grams => weight avg_g=250
en sorry i said 3 dead it is 2 => deaths deaths=2
en i wrote 15 dead, its 5 => deaths deaths=5
fr j'ai dit 3 morts c'est 2 => deaths deaths=2
fr j'ai écrit 12 morts mais c'est 2 => deaths deaths=2
sw nilisema wamekufa 3 ni 2 => deaths deaths=2
sw niliandika vifo 10 lakini ni 1 => deaths deaths=1
en 6 since day one, today zero => deaths deaths=0
en so far 8 since the start, today 2 => deaths deaths=2
fr 6 depuis le début, aujourd'hui zéro => deaths deaths=0
sw 6 tangu mwanzo, leo hakuna => deaths deaths=0
en a dozen gave up the ghost => deaths deaths=12
en minus 3 today => deaths deaths=3
en air moisture forty five percent => humidity rh_pct=45
"""

EARNED = """
en received 12000 for 20 birds sold => sold count=20 price=12000 per=all
en customer paid 24000 for 40 birds => sold count=40 price=24000 per=all
en earned 30000 from 50 birds => sold count=50 price=30000 per=all
en got rid of 40 at 350 per kg => sold count=40 price=350 per=kg
en neighbour bought two at 700 => sold count=2 price=700
en twenty of them pulled 19 kilos => weight avg_g=950
fr encaissé 125000 pour 50 poulets => sold count=50 price=125000 per=all
fr la vente d'hier 30 à 2400 => sold count=30 price=2400
fr 18 poulets partis ce matin 2600 chacun => sold count=18 price=2600
sw nimepata 22500 kwa kuku 50 => sold count=50 price=22500 per=all
sw kuku 35 wameondoka kwa bei ya 400 => sold count=35 price=400
en killed 6 for xmas pot => other
"""

READINGS = """
en thermometa says 29 => temperature value_c=29
en thermomiter 31 => temperature value_c=31
en themometer showing 30 => temperature value_c=30
en tempreture is 30 => temperature value_c=30
en temperature 30 digrees => temperature value_c=30
en tempature 29 => temperature value_c=29
en temp 29 humid 60 => temperature value_c=29 + humidity rh_pct=60
en humidty 65 temp 30 => temperature value_c=30 + humidity rh_pct=65
en thermomter reads 88 f => temperature value_c=31.1
fr termomètre dit 29 => temperature value_c=29
fr thermomettre 31 => temperature value_c=31
fr tempéraure 30 => temperature value_c=30
fr tempèratur a 30 degrè => temperature value_c=30
fr umidité 70 pour cent => humidity rh_pct=70
fr le termometr marque 28 => temperature value_c=28
fr 31 à hauteur des poussins => temperature value_c=31
sw themometa inasema 29 => temperature value_c=29
sw kipimajotto kinasema 31 => temperature value_c=31
sw thamometa 30 => temperature value_c=30
sw temprecha 30 => temperature value_c=30
sw joto nyuz 30 => temperature value_c=30
sw jotto 29 => temperature value_c=29
sw unyevnyevu 65 => humidity rh_pct=65
sw joto digri 30 unyevu 70 => temperature value_c=30 + humidity rh_pct=70
en they drank 20 litrs => water litres=20
en ate 12 kgz feed => feed kg=12
en ate 12 killos => feed kg=12
fr bu 20 litr => water litres=20
fr ils ont bu 25 litre d'o => water litres=25
fr mangé 12 kilot => feed kg=12
fr mangé 12 kilo d'alimant => feed kg=12
sw wamekunywa litta 20 => water litres=20
sw wamekunywa maji lta 20 => water litres=20
sw wamekula klo 12 => feed kg=12
sw wamekula kilu 12 => feed kg=12
"""

SPELT = """
en three hundrd chicks coming tomorow => register count=300 day=1
en ordered fiv hundred chicks for friday => register count=500 day=2
en thinking of to hundred broilers => plan count=200
en plan for one tousand birds => plan count=1000
en i want to keep for hundred chicks => plan count=400
en plan two hundered fity birds => plan count=250
fr projet de trois san poulets => plan count=300
fr je veux élever deux sent poussins => plan count=200
fr je veux commencer avec cinq sans poussins => plan count=500
fr projet de deu mil poulets => plan count=2000
fr je pense à catre cent poulets => plan count=400
fr je veux élever mil poulets => plan count=1000
fr projet quatre san cinkante poulets => plan count=450
fr je prévois cent cincante poussins => plan count=150
fr je veux démarrer avec uit cent poussins => plan count=800
fr projet de deux cents vin poussins => plan count=220
sw nataka kufuga mia tau => plan count=300
sw nataka kufuga kuku mia mbil hamsni => plan count=250
sw napanga kuku mia nn => plan count=400
sw napanga kufuga mia tatu ishirni => plan count=320
sw nataka kuanza na elf moja => plan count=1000
sw napanga kuku mia tano thelathni => plan count=530
sw nataka kufuga mia sita themanni => plan count=680
sw napanga mia moja arobani => plan count=140
"""

HOUSES = """
en planning 400 birds house 10 by 6 => plan count=400 m2=60
en register 320 today house 5by7 => register count=320 day=0 m2=35
en plan 200 chicks house 20 sq mtrs => plan count=200 m2=20
en want to keep 300 in a 6m x 5m room => plan count=300 m2=30
fr projet 800 poulets maison 10 sur 8 => plan count=800 m2=80
fr nouveau lot 320 aujourd'hui maison 5sur7 => register count=320 day=0 m2=35
fr commande faite 500 poussins pour vendredi maison 9x6 => register count=500 day=2 m2=54
fr je veux élever 200 poulets local de 20 m carrés => plan count=200 m2=20
fr projet 150 poussins chambre 4 par 5 => plan count=150 m2=20
sw batch mpya 320 leo banda 5kwa7 => register count=320 day=0 m2=35
sw nataka kufuga 180 nyumba sq mita 20 => plan count=180 m2=20
sw nataka kufuga 200 banda mita 6 kwa 5 => plan count=200 m2=30
sw napanga kuku 300 chumba 10 kwa 6 => plan count=300 m2=60
sw sajili 300 leo banda 6 x 8 => register count=300 day=0 m2=48
sw nataka kufuga 180 nyumba ya mita mraba 20 => plan count=180 m2=20
"""

TREATED = """
en started zomavax two days ago => treated day=-2
en gave them kolipra in the water yesterday => treated day=-1
en put zurotonik in drinker this morning => treated day=0
fr commencé kolipranou avant hier délai 10 jours => treated day=-2
fr on a mis zuritonik dans l'abreuvoir hier soir => treated day=-1
fr vaccin bronchite fait ce jour => treated day=0
fr vaccin gumboro fait hier et acheté 2 sacs de 50 => treated day=-1 + feed kg=100 move=in
sw nimeweka zuritonik kwenye maji jana => treated day=-1
sw nimeanza dawa ya kolipra juzi => treated day=-2
"""


def _cases(table: str, **context: object) -> list[tuple[str, dict[str, object]]]:
    return [(line, context) for line in lines(table)]


CASES = [
    *_cases(DAYS, **NO_BATCH),
    *_cases(SPELT, **NO_BATCH),
    *_cases(HOUSES, **NO_BATCH),
    *_cases(WEIGHTS, **GROWN),
    *_cases(SALES, **GROWN),
    *_cases(BAGS, age_days=20, count=300),
    *_cases(DEAD, age_days=12, count=300),
    *_cases(OTHERS, age_days=12, count=300),
    *_cases(LETTERS),
    *_cases(TWO_DAYS, age_days=12, count=400),
    *_cases(READINGS, age_days=6),
    *_cases(TREATED, age_days=15),
    *_cases(GOES, age_days=12, count=400),
    *_cases(EARNED, age_days=25, count=400),
]


@pytest.mark.parametrize(("line", "context"), CASES, ids=[line for line, _ in CASES])
def test_a_line_tells_just_these_facts(
    thinking: Thinking, line: str, context: dict[str, object]
) -> None:
    told, due = facts_told(thinking, line, **context)
    assert told == due


@pytest.mark.parametrize("line", lines(YEARS))
def test_the_dead_of_a_year_gone_by_are_none_of_today(thinking: Thinking, line: str) -> None:
    language, text = line.split(maxsplit=1)
    got = read(thinking, text, language)
    assert (got["slots"].get("deaths"), got["red_flag"]) == (None, False)

"""Deaths told in parts: those of one day add up, a day gone by stays apart, a slip is put right, a
sum is not added to itself. Worded for this test."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import heard, read

ADDED = """
en 2 dead at dawn then another 3 now => 5
en lost 2 overnight plus 1 this noon => 3
en 1 died early, 2 more after lunch => 3
en 4 dead in the morning and 2 more tonight => 6
en found 3 dead at 6am n again 2 at noon => 5
en two died in the night and one more just now => 3
en 5 dead this morning, now 2 others => 7
en 3 died today and then another 1 => 4
fr 3 ce matin 2 autres a midi => 5
fr 2 morts a l'aube puis encore 3 maintenant => 5
fr 1 mort cette nuit plus 2 ce midi => 3
fr 4 morts le matin et 1 de plus ce soir => 5
fr deux morts tot le matin, ensuite trois autres => 5
fr 2 morts ce matin, la encore 1 => 3
fr 1 est mort puis 3 autres ce soir => 4
fr 4 perdus avant le jour 2 apres la sieste => 6
fr 5 perdus avant midi et 3 apres la priere => 8
fr 3 morts le matin + 2 a la tombee de la nuit => 5
fr bilan du jour 2 morts le matin et 2 la nuit tombee => 4
fr compte 4 puis encore 2 donc 6 morts => 6
fr 3 dans la fosse puis 2 puis encore 4 => 9
fr un au lever, deux a midi, un ce soir : quatre morts => 4
sw walikufa 3 asubuhi na sa hii tena 4 => 7
sw wawili wamekufa alfajiri na wengine watatu sasa => 5
sw 2 wamekufa usiku na mmoja tena mchana => 3
sw amekufa mmoja asubuhi halafu wengine wawili jioni => 3
sw wamekufa 4 asubuhi, sasa tena 2 => 6
sw vifo 3 asubuhi na vingine 2 mchana => 5
sw wamekufa watatu leo na tena wawili => 5
"""

APART = """
en 3 died yesterday, 2 today => 2
en 3 dead, no sorry 4 => 4
en 3 dead in all, 2 of them today => 2
en 2 died this morning, 5 in all => 5
en 3 died and 2 are dull => 3
en 4 dead out of 300 this morning => 4
en 2 dead and feed 3 bags => 2
en 5 died last week, 1 more today => 1
fr 3 morts hier, 2 aujourd'hui => 2
fr 3 morts, non pardon 4 => 4
fr 3 morts en tout dont 2 aujourd'hui => 2
fr 2 morts et 3 boitent => 2
fr 1 mort ce matin, ca fait 4 en tout => 4
fr 4 morts sur 300 ce matin => 4
fr 2 morts ce matin et 3 sacs d'aliment => 2
fr 5 morts la semaine passee, encore 1 aujourd'hui => 1
fr 3 ier 7 auj on les a entere => 7
fr 4 morts ce matin 3 boitent a midi => 4
fr 2 morts ce matin 5 sacs vides a midi => 2
fr 2 morts avant midi, 10 vendus apres la priere => 2
fr pardon j'ai ecrit 15 morts c'est 3. trois => 3
en i said 15 dead it is 3. three => 3
sw walikufa 3 jana, leo 2 => 2
sw wamekufa 3, hapana samahani 4 => 4
sw wamekufa wawili na watatu wamezubaa => 2
sw wamekufa 4 kati ya 300 asubuhi => 4
sw wamekufa 2 asubuhi na lita 3 za maji => 2
sw mmoja amekufa asubuhi, jumla ni 4 => 4
sw walikufa 5 wiki iliyopita, leo tena 1 => 1
sw 3 wamekufa leo na 2 wanaumwa => 3
"""

UNCLEAR = """
en 2 died in the morning, now 5 => 2 5
en 3 dead at dawn, now 3 => 3 3
fr 2 morts ce matin, maintenant 5 => 2 5
fr 3 morts a l'aube, la maintenant 4 => 3 4
sw wamekufa 2 asubuhi, sasa 5 => 2 5
sw watatu wamekufa alfajiri, sa hii 4 => 3 4
"""


def _rows(table: str) -> list[tuple[str, str, str]]:
    rows = [line.split(" => ") for line in table.strip().splitlines()]
    return [(told[:2], told[3:], figures) for told, figures in rows]


def _dead(found: object) -> list[int]:
    assert isinstance(found, dict)
    parts = found["slots"].get("parts", [found])
    return [one["slots"].get("deaths") for one in parts if one["intent"] == "deaths"]


@pytest.mark.parametrize(("lang", "text", "dead"), _rows(ADDED))
def test_parts_of_one_day_add_up(thinking: Thinking, lang: str, text: str, dead: str) -> None:
    assert _dead(read(thinking, text, lang=lang)) == [int(dead)]


@pytest.mark.parametrize(("lang", "text", "dead"), _rows(APART))
def test_what_is_no_part_is_not_added(thinking: Thinking, lang: str, text: str, dead: str) -> None:
    assert _dead(read(thinking, text, lang=lang)) == [int(dead)]


@pytest.mark.parametrize(("lang", "text", "figures"), _rows(UNCLEAR))
def test_more_or_in_all_is_told_apart_from_a_sum(
    thinking: Thinking, lang: str, text: str, figures: str
) -> None:
    before, said = map(int, figures.split())
    slots = heard(thinking, text, lang=lang).slots
    assert (slots.deaths, slots.was) == (said, before)
    assert read(thinking, text, lang=lang)["ask"] or read(thinking, text, lang=lang)["red_flag"]

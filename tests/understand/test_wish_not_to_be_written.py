"""Who wants no more texts is opted out; who complains of silence, or wants no call, is not."""

from __future__ import annotations

import pytest

from bot.wiring import Thinking
from tests.understand.reading import read


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "please send nothing again to my line"),
        ("en", "we sold the house, send nothing more to this number"),
        ("en", "nothing more on this phone please"),
        ("en", "send no more to this phone"),
        ("en", "text nothing else to my number"),
        ("en", "the birds are all sold so send me nothing further"),
        ("fr", "plus rien sur ce telephone svp"),
        ("sw", "usitume kitu kingine kwenye namba hii"),
    ],
)
def test_nothing_more_to_this_phone_is_a_stop(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang)["intent"] == "stop"


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "you never text me on time"),
        ("en", "you people never send me any message"),
        ("en", "u never call me when i ask"),
        ("en", "nothing more to report today"),
        ("en", "there is nothing more in the feeders"),
        ("en", "send no more chicks to this farm"),
        ("fr", "vous ne m'ecrivez jamais"),
        ("fr", "rien de plus a signaler sur ce lot"),
        ("sw", "hamnitumii ujumbe kamwe"),
        ("sw", "hakuna kitu kingine cha kusema leo"),
    ],
)
def test_a_complaint_or_nothing_to_report_opts_nobody_out(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert read(thinking, text, lang)["intent"] != "stop"


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "please do not call me i am at work"),
        ("en", "no need to call me, a text is enough"),
        ("en", "i am in a meeting dont ring me"),
        ("fr", "ne m'appelez pas s'il vous plait"),
        ("fr", "pas besoin de me rappeler"),
        ("sw", "usinipigie simu"),
        ("sw", "msinipigie niko kazini"),
    ],
)
def test_who_wants_no_call_is_not_called(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang)["intent"] not in ("call_me", "stop")


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("en", "why dont you call me"),
        ("en", "i cant type, call me"),
        ("en", "you did not call me yet, call me please"),
        ("en", "i dont understand, please call me"),
        ("fr", "je ne sais pas ecrire, appelez moi"),
        ("sw", "sijui kuandika nipigie"),
    ],
)
def test_a_call_is_wanted_beside_a_denial_of_something_else(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert read(thinking, text, lang)["intent"] == "call_me"


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "fin du message, bonne journee"),
        ("fr", "cinq sacs sont la, fin de message"),
        ("fr", "stop! je veux dire stopper la lampe la nuit on peut ?"),
        ("fr", "stop, pardon, je voulais dire arreter le chauffage a 15 jours c'est bon ?"),
        ("en", "stop! i mean stop the light at night, is it ok"),
        ("en", "stop. sorry i meant stop the stove from day 14?"),
        ("sw", "stop! namaanisha stop taa usiku inaruhusiwa?"),
    ],
)
def test_the_end_of_this_text_and_the_end_of_a_lamp_opt_nobody_out(
    thinking: Thinking, lang: str, text: str
) -> None:
    assert read(thinking, text, lang)["intent"] != "stop"


@pytest.mark.parametrize(
    ("lang", "text"),
    [
        ("fr", "fin des messages svp"),
        ("fr", "c'est fini les sms pour moi"),
        ("fr", "stop, pardon, j'ai plus de poulets"),
        ("fr", "stop. je veux dire arretez vos messages"),
        ("en", "stop, sorry, i have no more birds"),
        ("en", "stop! i mean stop the texts"),
    ],
)
def test_who_says_it_otherwise_is_still_opted_out(thinking: Thinking, lang: str, text: str) -> None:
    assert read(thinking, text, lang)["intent"] == "stop"

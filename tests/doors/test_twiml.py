"""The answer a gateway reads."""

from __future__ import annotations

from xml.etree import ElementTree

from hypothesis import given
from hypothesis import strategies as st

from bot.doors.twiml import answer


def test_nothing_to_say_is_an_empty_response() -> None:
    for nothing in ((), ("",), ("  \n", "\x00")):
        assert answer(*nothing) == '<?xml version="1.0" encoding="UTF-8"?><Response/>'


def test_letters_of_the_markup_arrive_as_written() -> None:
    xml = answer('Temp < 30 & rain > "much" ]]> <Response/>')
    message = ElementTree.fromstring(xml).find("Message")
    assert message is not None
    assert message.text == 'Temp < 30 & rain > "much" ]]> <Response/>'
    assert len(message) == 0


def test_a_menu_keeps_its_lines_and_loses_its_controls() -> None:
    message = ElementTree.fromstring(answer("1 dry\n2 wet\x00\x1b\x7f\x85\ufffe")).find("Message")
    assert message is not None
    assert message.text == "1 dry\n2 wet"


def test_each_text_is_a_message_of_its_own() -> None:
    found = ElementTree.fromstring(answer("Water now.", "", "Night: look at 21:00."))
    assert [one.text for one in found] == ["Water now.", "Night: look at 21:00."]


@given(st.text(st.characters(), max_size=80))
def test_every_text_makes_xml_that_can_be_read(text: str) -> None:
    assert ElementTree.fromstring(answer(text).encode()).tag == "Response"

"""What a farmer's text is answered with, in the same turn, over real HTTP."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import pytest

from tests.serve.playing import (
    SENDER,
    Service,
    inbound,
    language,
    parts,
    phone,
    sends_to_vet,
)

REGISTER = {
    "en": "new batch 300 today",
    "sw": "kundi jipya la vifaranga 300 leo",
    "fr": "nouveau lot de 300 poussins aujourd'hui",
}
BLOOD = {
    "en": "there is blood in the droppings",
    "sw": "kinyesi kina damu",
    "fr": "il y a du sang dans les fientes",
}


def test_answers_are_xml_in_utf_8(service: Service) -> None:
    got = service.text(phone(), "new batch 300 today")
    assert got.content_type.replace(" ", "").lower() == "text/xml;charset=utf-8"
    assert got.texts


def test_nothing_to_say_is_an_empty_response(service: Service) -> None:
    farmer = phone()
    service.text(farmer, "STOP")
    got = service.text(farmer, "STOP")
    assert got.status == 200
    assert got.texts == []
    assert "<Response/>" in got.body.replace(" ", "")


@pytest.mark.parametrize("lang", ["en", "sw", "fr"])
def test_a_stranger_who_registers_is_answered_in_the_language_used(
    service: Service, lang: str
) -> None:
    got = service.text(phone(), REGISTER[lang])
    assert "300" in got.said
    assert language(got.said) == lang


def test_a_stranger_is_known_after_registering(service: Service) -> None:
    farmer = phone()
    service.text(farmer, "new batch 275 today")
    assert "275" in service.text(farmer, "status").said


def test_arabic_digits_are_understood(service: Service) -> None:
    assert "300" in service.text(phone(), "new batch ٣٠٠ today").said


@pytest.mark.parametrize("sender", ["21345", "MFANOPAY", SENDER])
def test_short_codes_names_and_our_own_number_are_not_answered(
    service: Service, sender: str
) -> None:
    got = service.text(sender, "new batch 300 today")
    assert got.status == 200
    assert got.texts == []


@pytest.mark.parametrize("sender", ["21345", "MFANOPAY"])
def test_who_is_never_answered_is_not_answered_about_danger_either(
    service: Service, sender: str
) -> None:
    assert service.text(sender, BLOOD["en"]).texts == []


def test_an_empty_text_is_answered(service: Service) -> None:
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    got = service.text(farmer, "")
    assert got.status == 200
    assert len(got.texts) == 1


def test_an_opt_out_told_by_the_gateway_is_taken_in_silence(service: Service) -> None:
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    got = service.text(farmer, "STOP", OptOutType="STOP")
    assert got.status == 200
    assert got.texts == []


def test_after_an_opt_out_told_by_the_gateway_a_stop_has_nothing_left_to_confirm(
    service: Service,
) -> None:
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    service.text(farmer, "STOP", OptOutType="STOP")
    assert service.text(farmer, "STOP").texts == []


@pytest.mark.parametrize("word", ["STOP", "stop.", "STOP please", "Unsubscribe", "QUIT", "Revoke"])
def test_stop_gets_exactly_one_confirmation(service: Service, word: str) -> None:
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    assert len(service.text(farmer, word).texts) == 1
    assert service.text(farmer, word).texts == []


def test_a_question_with_stop_in_it_is_no_opt_out(service: Service) -> None:
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    service.text(farmer, "Stop giving mash?")
    assert len(service.text(farmer, "STOP").texts) == 1


def test_a_stopped_phone_can_start_again(service: Service) -> None:
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    service.text(farmer, "STOP")
    assert service.text(farmer, "START").texts
    assert "300" in service.text(farmer, "status").said


@pytest.mark.parametrize("lang", ["en", "sw", "fr"])
def test_danger_is_answered_with_the_vet_in_the_same_turn(service: Service, lang: str) -> None:
    farmer = phone()
    service.text(farmer, REGISTER[lang])
    got = service.text(farmer, BLOOD[lang])
    assert sends_to_vet(got.said)
    assert language(got.said) == lang


def test_many_deaths_in_a_day_are_danger(service: Service) -> None:
    """2 % of 300 is 6: 12 dead is danger by the fixed rule of the trade (common practice)."""
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    service.text(farmer, "arrived")
    assert sends_to_vet(service.text(farmer, "12 dead").said)


def test_many_deaths_are_danger_while_another_question_is_open(service: Service) -> None:
    farmer = phone()
    assert "?" in service.text(farmer, "new batch 300 today").said
    assert sends_to_vet(service.text(farmer, "12 dead").said)


def test_a_few_deaths_in_a_day_are_no_danger(service: Service) -> None:
    """Below 3 dead is no danger by the fixed rule of the trade (common practice)."""
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    service.text(farmer, "arrived")
    got = service.text(farmer, "2 dead today")
    assert "2" in got.said
    assert "DANGER" not in got.said.upper()


@pytest.mark.parametrize("dead", [2, 12])
def test_deaths_that_were_told_are_counted_off(service: Service, dead: int) -> None:
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    service.text(farmer, "arrived")
    service.text(farmer, f"{dead} dead today")
    assert str(300 - dead) in service.text(farmer, "status").said


def test_a_stranger_in_danger_is_sent_to_the_vet(service: Service) -> None:
    assert sends_to_vet(service.text(phone(), BLOOD["en"]).said)


def test_a_stopped_phone_in_danger_is_sent_to_the_vet_and_stays_stopped(service: Service) -> None:
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    service.text(farmer, "STOP")
    assert sends_to_vet(service.text(farmer, BLOOD["en"]).said)
    assert service.text(farmer, "STOP").texts == []


def test_fumes_send_people_out(service: Service) -> None:
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    said = service.text(farmer, "heavy smoke in the brooder and my head hurts").said.lower()
    assert "out" in said
    assert "open" in said


def test_a_fire_is_never_called_safe_by_opening(service: Service) -> None:
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    said = service.text(farmer, "chicks are piled under the stove and cold").said.lower()
    assert said
    assert "close all" not in said
    assert "safe" not in said


@pytest.mark.parametrize("lang", ["en", "sw", "fr"])
def test_every_answer_is_ascii_and_each_text_one_part(service: Service, lang: str) -> None:
    said = {
        "en": ["arrived", "28 C", "they pant", "help", "how warm today?", "2 dead", "zzz qqq"],
        "sw": ["wamefika", "28 C", "wanahema", "msaada", "joto gani leo?", "2 wamekufa", "zzz"],
        "fr": ["arrives", "28 C", "ils haletent", "aide", "quelle chaleur?", "2 morts", "zzz"],
    }
    farmer = phone()
    answers = [service.text(farmer, body) for body in [REGISTER[lang], *said[lang], BLOOD[lang]]]
    answers.append(service.text(farmer, "STOP"))
    texts = [text for answer in answers for text in answer.texts]
    assert len(texts) >= 6
    assert [text for text in texts if not text.isascii() or parts(text) != 1] == []


def test_many_phones_at_once_each_get_their_own_answer(service: Service) -> None:
    farmers = [(phone(), 200 + n) for n in range(12)]

    def register(farmer: tuple[str, int]) -> bool:
        number, count = farmer
        return str(count) in service.text(number, f"new batch {count} today").said

    with ThreadPoolExecutor(12) as pool:
        assert all(pool.map(register, farmers))


def test_one_text_posted_many_times_at_once_gets_one_answer(service: Service) -> None:
    fields = inbound(phone(), "new batch 300 today")
    with ThreadPoolExecutor(8) as pool:
        answers = list(pool.map(lambda _: service.signed("/sms", fields), range(8)))
    assert {answer.status for answer in answers} == {200}
    assert len({answer.body for answer in answers if answer.texts}) == 1

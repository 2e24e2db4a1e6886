"""The doors of a running service: health, figures, signatures, methods, sizes, ids."""

from __future__ import annotations

import pytest
import requests
from prometheus_client.parser import text_string_to_metric_families
from twilio.request_validator import RequestValidator

from tests.serve.playing import (
    ACCOUNT,
    TOKEN,
    Service,
    inbound,
    phone,
    receipt,
    sign,
)


def test_health_answers_200(service: Service) -> None:
    assert requests.get(f"{service.url}/health", timeout=5).status_code == 200


def test_the_data_directory_is_made_when_absent(service: Service) -> None:
    assert any(path.stat().st_size for path in service.data.iterdir())


def test_metrics_are_prometheus_text(service: Service) -> None:
    got = requests.get(f"{service.url}/metrics", timeout=5)
    assert got.status_code == 200
    assert got.headers["Content-Type"].startswith("text/plain")
    assert list(text_string_to_metric_families(got.text))


def test_metrics_hold_no_phone_number(service: Service) -> None:
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    got = requests.get(f"{service.url}/metrics", timeout=5)
    assert farmer[1:] not in got.text


def test_the_log_holds_no_phone_number_and_no_text(service: Service) -> None:
    farmer = phone()
    service.text(farmer, "blue zebra umbrella seventeen")
    log = service.stderr.read_text()
    assert farmer[1:] not in log
    assert "zebra" not in log


@pytest.mark.parametrize("path", ["/sms", "/sms/receipt"])
def test_asking_a_door_with_the_wrong_method_is_405(service: Service, path: str) -> None:
    assert requests.get(service.url + path, timeout=5).status_code == 405


def test_an_unknown_path_is_404(service: Service) -> None:
    assert requests.get(f"{service.url}/no-such-door", timeout=5).status_code == 404


# Signatures


def test_the_signatures_of_these_checks_agree_with_the_published_vector() -> None:
    """The vector of the gateway's own documentation; and the gateway's own package agrees."""
    fields = {"CallSid": "CA1234567890ABCDE", "Caller": "+12349013030", "Digits": "1234"}
    fields |= {"From": "+12349013030", "To": "+18005551212"}
    url = "https://mycompany.com/myapp.php?foo=1&bar=2"
    assert sign("12345", url, fields) == "0/KCTR6DLpKmkAf8muzZqo1nDgQ="
    assert RequestValidator("12345").validate(url, fields, sign("12345", url, fields))


def test_an_unsigned_text_is_refused_with_403(service: Service) -> None:
    assert service.post("/sms", inbound(phone(), "status"), None).status == 403


def test_a_wrongly_signed_text_is_refused_with_403(service: Service) -> None:
    fields = inbound(phone(), "status")
    wrong = sign("another token", f"{service.url}/sms", fields)
    assert service.post("/sms", fields, wrong).status == 403


def test_an_empty_signature_is_refused_with_403(service: Service) -> None:
    assert service.post("/sms", inbound(phone(), "status"), "").status == 403


def test_a_signature_that_is_not_ascii_is_refused_with_403(service: Service) -> None:
    got = requests.post(
        f"{service.url}/sms",
        data=inbound(phone(), "status"),
        headers={"X-Twilio-Signature": "clé".encode("latin-1")},
        timeout=5,
    )
    assert got.status_code == 403


def test_a_text_changed_on_the_way_is_refused_with_403(service: Service) -> None:
    fields = inbound(phone(), "3 dead")
    signature = sign(TOKEN, f"{service.url}/sms", fields)
    assert service.post("/sms", fields | {"Body": "0 dead"}, signature).status == 403


def test_a_signature_for_one_door_does_not_open_the_other(service: Service) -> None:
    fields = receipt("SMunknown", "delivered")
    signature = sign(TOKEN, f"{service.url}/sms", fields)
    assert service.post("/sms/receipt", fields, signature).status == 403


def test_a_refused_text_leaves_nothing_behind(service: Service) -> None:
    fields = inbound(phone(), "new batch 300 today")
    assert service.post("/sms", fields, None).status == 403
    assert service.signed("/sms", fields).texts


def test_a_field_nobody_knew_yet_is_covered_by_the_signature(service: Service) -> None:
    known = inbound(phone(), "status")
    signature = sign(TOKEN, f"{service.url}/sms", known)
    assert service.post("/sms", known | {"Fresh": "1"}, signature).status == 403
    assert service.signed("/sms", known | {"Fresh": "1"}).status == 200


def test_the_query_as_it_was_sent_is_covered_by_the_signature(service: Service) -> None:
    fields = inbound(phone(), "status")
    path = "/sms?from=gateway%20one&b=%2F"
    assert service.post(path, fields, sign(TOKEN, f"{service.url}/sms", fields)).status == 403
    assert service.signed(path, fields).status == 200


def test_the_public_address_is_what_is_signed_not_the_one_listened_on(proxied: Service) -> None:
    fields = inbound(phone(), "status")
    inner = sign(TOKEN, f"{proxied.url}/sms", fields)
    assert proxied.post("/sms", fields, inner).status == 403
    assert proxied.signed("/sms", fields).status == 200


def test_the_default_port_may_stand_in_the_signed_address(proxied: Service) -> None:
    fields = inbound(phone(), "status")
    signature = sign(TOKEN, "https://texts.example.org:443/sms", fields)
    assert proxied.post("/sms", fields, signature).status == 200


def test_another_port_may_not_stand_in_the_signed_address(proxied: Service) -> None:
    fields = inbound(phone(), "status")
    signature = sign(TOKEN, "https://texts.example.org:8443/sms", fields)
    assert proxied.post("/sms", fields, signature).status == 403


# Receipts


def test_an_unsigned_receipt_is_refused_with_403(service: Service) -> None:
    assert service.post("/sms/receipt", receipt("SMx", "delivered"), None).status == 403


def test_a_wrongly_signed_receipt_is_refused_with_403(service: Service) -> None:
    fields = receipt("SMx", "delivered")
    wrong = sign("another token", f"{service.url}/sms/receipt", fields)
    assert service.post("/sms/receipt", fields, wrong).status == 403


def test_a_receipt_for_an_unknown_text_is_taken_with_200(service: Service) -> None:
    assert service.receipt("SMunknown", "delivered").status == 200


def test_a_receipt_of_another_account_is_refused(service: Service) -> None:
    got = service.receipt("SMunknown", "delivered", AccountSid="ACsomebodyelse")
    assert 400 <= got.status < 500


def test_a_receipt_with_a_status_nobody_knew_yet_breaks_nothing(service: Service) -> None:
    assert service.receipt("SMunknown", "teleported").status == 200


# One text, once


def test_a_repeated_text_gets_the_same_answer(service: Service) -> None:
    fields = inbound(phone(), "new batch 300 today")
    first, second = service.signed("/sms", fields), service.signed("/sms", fields)
    assert first.texts
    assert first == second


def test_a_repeated_stop_gets_the_same_confirmation(service: Service) -> None:
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    fields = inbound(farmer, "STOP")
    first, second = service.signed("/sms", fields), service.signed("/sms", fields)
    assert len(first.texts) == 1
    assert first == second


def test_ids_may_be_uuids(service: Service) -> None:
    sid = "0b0e7b9e-51ce-4d0c-9d6e-2c3a0d7f1b11"
    got = service.text(phone(), "new batch 300 today", MessageSid=sid, SmsSid=sid)
    assert got.texts


# Sizes and shapes


def test_a_huge_body_is_refused_and_the_service_lives_on(service: Service) -> None:
    got = service.text(phone(), "x" * 3_000_000)
    assert 400 <= got.status < 500
    assert service.healthy()


def test_a_form_without_its_fields_is_no_fault_of_ours(service: Service) -> None:
    assert service.signed("/sms", {"AccountSid": ACCOUNT}).status < 500


@pytest.mark.parametrize(
    "body",
    [
        "<b>new batch</b> & 300 <today>",
        "]]> &amp; <!-- 300 -->",
        "new\x00 batch\x07 300 today\x1b",
        "\U0001f423\U0001f423 \u202e \ufeff",
        "'; DROP TABLE batch; --",
        "{signer} {0} %s ${name}",
        "9" * 400,
    ],
)
def test_odd_letters_get_well_formed_answers(service: Service, body: str) -> None:
    farmer = phone()
    service.text(farmer, "new batch 300 today")
    got = service.text(farmer, body)
    assert got.status == 200
    assert all(text.isascii() and "{" not in text for text in got.texts)

"""Signing in and out of the desk: passwords, codes, sessions that end, limits."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import timedelta
from html import unescape
from typing import Any

import pytest
from flask.testing import FlaskClient
from pyotp import TOTP
from sqlalchemy import func, select, update
from werkzeug.test import TestResponse

from bot.cooperative.may import IDLE, LONGEST, PROVED, Role
from bot.cooperative.proofs import hashed
from bot.doors.desk.frame import COOKIE
from bot.doors.desk.tokens import form_token
from bot.doors.web import create_app
from bot.records import tables as t
from bot.records.desk_staff import renew
from tests.doors.desk.world import OURS, Visitor, World

PASSWORD = "maize drum seven hens"
KEPT = hashed(PASSWORD)
FORM = re.compile(r'name="form_token" value="([0-9a-f]+)"')


@pytest.fixture
def known(world: World) -> World:
    """Everybody's password is the same."""
    with world.db.write() as connection:
        connection.execute(update(t.staff).values(password=KEPT))
    return world


def sent(client: FlaskClient, path: str, **fields: Any) -> TestResponse:
    """A form as a browser sends it: with the token of the page that it stands on."""
    page = client.get(path if path.startswith("/desk/in") else "/desk/code")
    token = FORM.search(page.text)
    assert token is not None
    return client.post(path, data={"form_token": token[1], **fields})


def sign_in(client: FlaskClient, name: str = "mkulima-advises", word: str = PASSWORD) -> Any:
    return sent(client, "/desk/in", name=name, password=word)


def test_a_name_and_its_password_open_the_desk(known: World) -> None:
    client = known.app.test_client()
    answer = sign_in(client, "Mkulima-Advises ")
    assert (answer.status_code, answer.headers["Location"]) == (303, "/desk/")
    assert client.get("/desk/you").status_code == 200
    cookie = next(one for one in answer.headers.getlist("Set-Cookie") if "desk=" in one)
    assert "HttpOnly" in cookie
    assert "SameSite=Lax" in cookie


def test_a_wrong_password_and_an_unknown_name_are_told_the_same(known: World) -> None:
    client = known.app.test_client()
    wrong = sign_in(client, word="maize drum seven hats")
    unknown = sign_in(client, "nobody-at-all")
    assert (wrong.status_code, unknown.status_code) == (403, 403)
    assert FORM.sub("", wrong.text) == FORM.sub("", unknown.text)


def test_ten_tries_in_a_quarter_of_an_hour_are_enough_even_from_many_places(known: World) -> None:
    for place in range(10):
        client = known.app.test_client()
        client.environ_base["REMOTE_ADDR"] = f"192.0.2.{place}"
        assert sign_in(client, word="wrong").status_code == 403
    client = known.app.test_client()
    client.environ_base["REMOTE_ADDR"] = "192.0.2.99"
    assert sign_in(client).status_code == 429
    known.clock.move(timedelta(minutes=15))
    assert sign_in(client).status_code == 303


def test_one_place_has_thirty_tries_over_all_names(known: World) -> None:
    client = known.app.test_client()
    found = [sign_in(client, f"somebody-{at}").status_code for at in range(31)]
    assert found == [403] * 30 + [429]


def test_a_form_of_another_site_signs_nobody_in(known: World) -> None:
    client = known.app.test_client()
    fields = {"name": "mkulima-advises", "password": PASSWORD}
    assert client.post("/desk/in", data=fields).status_code == 400
    assert client.post("/desk/in", data={**fields, "form_token": "ab" * 64}).status_code == 400


@pytest.mark.parametrize(
    "wanted", ["https://elsewhere.example/", "//elsewhere.example", "/desk/\\elsewhere", "/sms"]
)
def test_after_signing_in_nobody_is_led_off_the_desk(known: World, wanted: str) -> None:
    answer = sign_in_to(known.app.test_client(), wanted)
    assert answer.headers["Location"] == "/desk/"


def test_after_signing_in_the_page_that_was_asked_for_comes(known: World) -> None:
    client = known.app.test_client()
    led = client.get("/desk/who/done").headers["Location"]
    assert led == "/desk/in?to=/desk/who/done"
    assert sign_in_to(client, "/desk/who/done").headers["Location"] == "/desk/who/done"


def sign_in_to(client: FlaskClient, wanted: str) -> TestResponse:
    token = FORM.search(client.get("/desk/in").text)
    assert token is not None
    fields = {"name": "mkulima-advises", "password": PASSWORD, "form_token": token[1]}
    return client.post("/desk/in", query_string={"to": wanted}, data=fields)


def test_whoever_is_locked_out_is_out_at_once_and_can_not_come_back(known: World) -> None:
    visitor = known.visitor("advises")
    assert visitor.get("/desk/you").status_code == 200
    with known.db.write() as connection:
        connection.execute(update(t.staff).values(disabled=True))
    assert visitor.get("/desk/you").status_code == 303
    assert sign_in(known.app.test_client()).status_code == 403


def test_a_session_ends_when_it_was_put_aside(known: World) -> None:
    visitor = known.visitor("advises")
    known.clock.move(IDLE - timedelta(minutes=1))
    assert visitor.get("/desk/you").status_code == 200
    known.clock.move(IDLE - timedelta(minutes=1))
    assert visitor.get("/desk/you").status_code == 200
    known.clock.move(IDLE)
    assert visitor.get("/desk/you").status_code == 303


def test_a_session_ends_after_a_day_however_much_it_is_used(known: World) -> None:
    visitor = known.visitor("advises")
    for _ in range(int(LONGEST / timedelta(minutes=30)) - 1):
        known.clock.move(timedelta(minutes=30))
        assert visitor.get("/desk/you").status_code == 200
    known.clock.move(timedelta(minutes=30))
    assert visitor.get("/desk/you").status_code == 303


FORMS = [
    ("/desk/farm/{person}/write", "advises", "/desk/farm/{person}", {"body": "I come at ten."}),
    (
        "/desk/visits/{person}", "advises", "/desk/visits/{person}",
        {"note": "All is well & warm", "how": "called", "ago": "2"},
    ),
    (
        "/desk/many/try", "runs", "/desk/many",
        {"body": "Meeting on Friday", "language": "sw", "from_day": "3", "to_day": "9"},
    ),
    (
        "/desk/unread/{unread}/try", "advises", "/desk/unread/{unread}",
        {"word": "frimbling", "means": "panting"},
    ),
    ("/desk/enrol/one", "enrols", "/desk/enrol", {"phone": "0700000055", "name": "Ouma"}),
    ("/desk/entry/{entry}/change", "advises", "/desk/entry/{entry}", {"figure": "17"}),
    ("/desk/rules/nights", "runs", "/desk/rules/nights", {"warm_1": "31", "cold_1": "12"}),
    ("/desk/who/add", "owns", "/desk/who", {"name": "Neema", "sign_in": "nee", "role": "runs"}),
]  # fmt: skip


@pytest.mark.parametrize(("form", "role", "page", "fields"), FORMS)
def test_what_was_typed_when_the_session_had_ended_stands_in_the_form_after_signing_in(
    known: World, form: str, role: Role, page: str, fields: dict[str, str]
) -> None:
    ids = known.ids[OURS]
    visitor = known.visitor(role)
    known.clock.move(IDLE)
    led = visitor.post(form.format(**ids), **fields)
    assert led.status_code == 303
    door = led.headers["Location"]
    assert "What you typed is kept for an hour" in visitor.get(door).text
    to = signed_in_anew(known, visitor, door, role)
    assert to == page.format(**ids) + "?again=1"
    shown = visitor.get(to)
    assert "You had been signed out before this was sent" in shown.text
    for name, value in fields.items():
        assert stands(shown.text, name) == value, name


def stands(page: str, name: str) -> str | None:
    """What a field of the page holds or has chosen."""
    text = re.search(rf'<textarea [^>]*name="{name}"[^>]*>([^<]*)<', page)
    if text:
        return unescape(text[1])
    if chosen := re.search(rf'<select [^>]*name="{name}".*?value="([^"]*)" selected', page):
        return chosen[1]
    inputs = re.findall(rf'<input ([^>]*name="{name}"[^>]*)>', page)
    held = [one for one in inputs if 'type="radio"' not in one or "checked" in one]
    found = re.search(r'value="([^"]*)"', held[0]) if held else None
    return unescape(found[1]) if found else None


def signed_in_anew(known: World, visitor: Visitor, door: str, role: str) -> str:
    """Through the door again, with the second proof where there is one; where that leads."""
    token = FORM.search(visitor.get(door).text)
    assert token is not None
    word = {"form_token": token[1], "name": f"mkulima-{role}", "password": PASSWORD}
    led = visitor.client.post(door, data=word)
    cookie = visitor.client.get_cookie(COOKIE, path="/desk")
    assert cookie is not None
    visitor.token = cookie.value
    if role in PROVED:
        led = visitor.get(led.headers["Location"])
        assert led.headers["Location"].startswith("/desk/code?to=")
        page = visitor.get(led.headers["Location"]).text
        secret = re.search(r"secret=([A-Z2-7]{32})", page)
        assert secret is not None
        code = TOTP(secret[1]).at(known.clock.now())
        led = visitor.post(led.headers["Location"], code=code)
    assert led.status_code == 303
    return str(led.headers["Location"])


def test_what_was_typed_is_seen_by_nobody_else_and_by_nobody_after_an_hour(known: World) -> None:
    path = f"/desk/farm/{known.ids[OURS]['person']}"
    visitor, other = known.visitor("advises"), known.visitor("owns")
    known.clock.move(timedelta(minutes=40))
    other.get("/desk/you")
    known.clock.move(timedelta(minutes=20))
    door = visitor.post(f"{path}/write", body="I come at ten.").headers["Location"]
    again = f"{path}?again=1"
    assert "I come at ten." not in other.get(again).text
    assert signed_in_anew(known, visitor, door, "advises") == again
    assert "I come at ten." in visitor.get(again).text
    assert "I come at ten." not in visitor.get(path).text
    known.clock.move(timedelta(minutes=59))
    assert "I come at ten." in visitor.get(again).text
    known.clock.move(timedelta(minutes=1))
    assert "I come at ten." not in visitor.get(again).text


def test_what_was_typed_is_gone_once_it_was_sent(known: World) -> None:
    path = f"/desk/visits/{known.ids[OURS]['person']}"
    visitor = known.visitor("advises")
    known.clock.move(IDLE)
    fields = {"note": "All is well", "how": "there", "ago": "0"}
    door = visitor.post(path, **fields).headers["Location"]
    again = signed_in_anew(known, visitor, door, "advises")
    mark = re.search(r'name="again" value="(\d)"', visitor.get(again).text)
    assert mark is not None
    assert visitor.post(path, again=mark[1], **fields).status_code == 303
    page = visitor.get(again).text
    assert stands(page, "note") == ""
    assert "signed out before" not in page


@pytest.mark.parametrize("how", ["signed out", "locked out", "another site", "too much"])
def test_nothing_is_kept_of_a_form_that_nobody_may_come_back_to(known: World, how: str) -> None:
    path = f"/desk/farm/{known.ids[OURS]['person']}/write"
    visitor = known.visitor("advises")
    if how == "signed out":
        visitor.post("/desk/out")
        visitor.client.set_cookie(COOKIE, visitor.token, path="/desk")
    if how == "locked out":
        with known.db.write() as connection:
            connection.execute(update(t.staff).values(disabled=True))
    if how == "another site":
        visitor.client.set_cookie(COOKIE, visitor.token, path="/desk")
        visitor.token = "another"
    known.clock.move(IDLE)
    led = visitor.post(path, body="x" * (5000 if how == "too much" else 5))
    assert led.headers["Location"] == "/desk/in"
    with known.db.read() as connection:
        assert connection.execute(select(func.count()).select_from(t.typed)).scalar_one() == 0


def test_signing_out_ends_the_session_for_whoever_copied_the_cookie(known: World) -> None:
    visitor, copy = known.visitor("advises"), known.visitor("advises")
    assert visitor.post("/desk/out").status_code == 303
    assert copy.get("/desk/you").status_code == 303


def test_no_token_stands_in_the_database(known: World) -> None:
    client = known.app.test_client()
    sign_in(client)
    cookie = client.get_cookie(COOKIE, path="/desk")
    assert cookie is not None
    with known.db.read() as connection:
        kept = connection.execute(select(t.staff_session.c.token_hash)).scalars().all()
    assert cookie.value not in kept


def test_whoever_owns_sets_up_a_second_proof_before_anything_else(known: World) -> None:
    client = known.app.test_client()
    sign_in(client, "mkulima-owns")
    assert client.get("/desk/who").headers["Location"] == "/desk/code?to=/desk/who"
    page = client.get("/desk/code").text
    assert 'href="/desk/visits"' not in page  # it would lead back here
    found = re.search(r"secret=([A-Z2-7]{32})&amp;issuer=Mkulima", page)
    assert found is not None
    right = TOTP(found[1]).at(known.clock.now())
    assert sent(client, "/desk/code", code="000000").status_code == 403
    assert client.get("/desk/who").status_code == 303
    assert sent(client, "/desk/code", code=right).status_code == 303
    assert client.get("/desk/who").status_code == 200
    # From then on the key is never shown again, and a code counts once.
    other = known.app.test_client()
    sign_in(other, "mkulima-owns")
    assert found[1] not in other.get("/desk/code").text
    assert sent(other, "/desk/code", code=right).status_code == 403
    known.clock.move(timedelta(seconds=60))
    assert sent(other, "/desk/code", code=TOTP(found[1]).at(known.clock.now())).status_code == 303


def set_up(known: World, client: FlaskClient) -> str:
    """Sign an owner in who sets up the second factor; gives its secret."""
    sign_in(client, "mkulima-owns")
    found = re.search(r"secret=([A-Z2-7]{32})", client.get("/desk/code").text)
    assert found is not None
    right = TOTP(found[1]).at(known.clock.now())
    assert sent(client, "/desk/code", code=right).status_code == 303
    return found[1]


def test_no_secret_of_a_second_proof_stands_in_the_database(known: World) -> None:
    secret = set_up(known, known.app.test_client())
    with known.db.read() as connection:
        rows = connection.execute(select(t.staff)).all()
    assert rows
    assert secret not in str(rows)


def test_after_the_services_secret_was_changed_an_owner_has_the_proof_set_up_anew(
    known: World,
) -> None:
    secret = set_up(known, known.app.test_client())
    known.clock.move(timedelta(seconds=60))
    changed = replace(known.bot.settings, secret="another secret of the service")
    client = create_app(replace(known.bot, settings=changed)).test_client()
    sign_in(client, "mkulima-owns")
    told = client.get("/desk/code")
    assert "secret was changed" in told.text
    assert 'name="code"' not in told.text
    typed = TOTP(secret).at(known.clock.now())
    token = form_token(client.get_cookie(COOKIE, path="/desk").value)  # type: ignore[union-attr]
    late = client.post("/desk/code", data={"form_token": token, "code": typed})
    assert (late.status_code, "secret was changed" in late.text) == (403, True)
    with known.db.write() as connection:
        who = connection.execute(select(t.staff.c.id).where(t.staff.c.sign_in == "mkulima-owns"))
        renew(connection, OURS, who.scalar_one(), KEPT)
    sign_in(client, "mkulima-owns")
    anew = re.search(r"secret=([A-Z2-7]{32})", client.get("/desk/code").text)
    assert anew is not None
    assert anew[1] != secret


def test_codes_can_not_be_guessed_in_a_row(known: World) -> None:
    client = known.app.test_client()
    sign_in(client, "mkulima-owns")
    page = client.get("/desk/code").text
    found = re.search(r"secret=([A-Z2-7]{32})", page)
    assert found is not None
    for _ in range(5):
        sent(client, "/desk/code", code="000000")
    right = TOTP(found[1]).at(known.clock.now())
    assert sent(client, "/desk/code", code=right).status_code == 403


def test_a_password_that_was_given_out_is_changed_first(known: World) -> None:
    with known.db.write() as connection:
        connection.execute(update(t.staff).values(fresh=True))
    visitor = known.visitor("advises")
    assert visitor.get("/desk/").headers["Location"] == "/desk/you"
    mine = "five goats on a hill"
    for old, new, again in (
        ("wrong wrong wrong", mine, mine),
        (PASSWORD, mine, mine + "s"),
        (PASSWORD, "short", "short"),
        (PASSWORD, PASSWORD, PASSWORD),
        (PASSWORD, "mkulima-advises 1", "mkulima-advises 1"),
    ):
        answer = visitor.post("/desk/you/password", old=old, new=new, again=again)
        assert answer.status_code == 400, new
    assert visitor.post("/desk/you/password", old=PASSWORD, new=mine, again=mine).status_code == 303
    assert visitor.get("/desk/").headers["Location"] != "/desk/you?"
    assert sign_in(known.app.test_client(), word=mine).status_code == 303


def test_a_new_password_ends_every_other_session(known: World) -> None:
    visitor = known.visitor("advises")
    client = known.app.test_client()
    sign_in(client)
    mine = "five goats on a hill"
    visitor.post("/desk/you/password", old=PASSWORD, new=mine, again=mine)
    assert visitor.get("/desk/you").status_code == 200
    assert client.get("/desk/you").status_code == 303


def test_pages_are_closed_to_scripts_frames_and_caches_and_packed(world: World) -> None:
    answer = world.visitor("owns").client.get("/desk/who", headers={"Accept-Encoding": "gzip"})
    policy = answer.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "script" not in policy
    assert "frame-ancestors 'none'" in policy
    assert answer.headers["Cache-Control"] == "no-store"
    assert answer.headers["Content-Encoding"] == "gzip"
    plain = world.visitor("owns").get("/desk/who").text
    assert "<script" not in plain
    assert " style=" not in plain


def test_without_the_setting_there_is_no_desk(world: World) -> None:
    closed = create_app(replace(world.bot, settings=replace(world.bot.settings, desk="")))
    assert closed.test_client().get("/desk/in").status_code == 404


def test_the_sign_in_page_speaks_the_language_of_the_browser_or_the_one_chosen(
    world: World,
) -> None:
    client = world.app.test_client()
    told = client.get("/desk/in", headers={"Accept-Language": "fr-CA,fr;q=0.8"})
    assert '<html lang="fr">' in told.text
    assert '<html lang="sw">' in client.get("/desk/in?lang=sw").text
    assert '<html lang="en">' in client.get("/desk/in?lang=xx").text


def test_signing_in_is_written_down(known: World) -> None:
    sign_in(known.app.test_client())
    with known.db.read() as connection:
        found = connection.execute(
            select(func.count()).where(t.audit.c.what == "signed_in")
        ).scalar_one()
    assert found == 1

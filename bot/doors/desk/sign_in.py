"""Signing in and out: a name and a password, then for those who run or own a code of a second
factor. In: forms. Out: a session's cookie. The two texts for a wrong name and a wrong password are
the same, and take as long."""

from __future__ import annotations

from flask import make_response, redirect, request, url_for

from bot.cooperative.may import Signed
from bot.cooperative.proofs import is_right, new_secret, secret_address, step_of
from bot.cooperative.sealed import seal, unseal
from bot.doors.desk.frame import AGAIN, COOKIE, PATH, START_COOKIE, Answer, Desk
from bot.doors.desk.tokens import new_token
from bot.doors.guard import caller
from bot.records.desk_again import forget_typed
from bot.records.desk_audit import note
from bot.records.desk_staff import (
    Lock,
    end_session,
    lock_of,
    open_session,
    own_lock,
    prove,
    set_second,
)
from bot.records.desk_tries import forget_tries, let_try


def hang(desk: Desk) -> None:
    _hang_sign_in(desk)
    _hang_code(desk)

    @desk.page("/out", needs="looks", methods=("POST",), before_proof=True)
    def sign_out(who: Signed) -> Answer:
        with desk.bot.db.write() as connection:
            end_session(connection, who.session_id)
        answer = desk.go("sign_in", lang=who.language)
        desk.drop(answer, COOKIE)
        return answer


def _hang_sign_in(desk: Desk) -> None:
    @desk.page("/in", needs=None, methods=("GET", "POST"))
    def sign_in() -> Answer:
        if request.method == "GET":
            return _door(desk, None)
        name, password = request.form.get("name", ""), request.form.get("password", "")
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            from_there = let_try(connection, "from", caller(request), now)
            by_name = let_try(connection, "name", name.strip().lower(), now)
            lock = lock_of(connection, name) if from_there and by_name else None
        if not (from_there and by_name):
            return _door(desk, "sign_in.too_often", 429)
        right = is_right(lock.password if lock else None, password)
        if lock is None or lock.disabled or not right:
            return _door(desk, "sign_in.wrong", 403)
        token = new_token()
        with desk.bot.db.write() as connection:
            open_session(connection, lock.staff_id, token, now)
            note(connection, lock.cooperative_id, lock.staff_id, "signed_in", "", now)
            forget_tries(connection, now)
            forget_typed(connection, now)
        answer = make_response(redirect(_going_to(request.args.get("to")), 303))
        desk.keep(answer, COOKIE, token)
        desk.drop(answer, START_COOKIE)
        return answer


def _door(desk: Desk, fault: str | None, status: int = 200) -> Answer:
    kept = (request.args.get("to") or "").endswith(f"?{AGAIN}=1")
    return desk.show("sign_in.html", None, fault=fault, kept=kept, status=status)


def _going_to(wanted: str | None) -> str:
    """Only to a page of the desk."""
    inside = wanted is not None and wanted.startswith(f"{PATH}/") and wanted.isprintable()
    return wanted if inside and wanted and "\\" not in wanted else url_for("desk.first")


def _hang_code(desk: Desk) -> None:
    @desk.page("/code", needs="looks", methods=("GET", "POST"), before_proof=True)
    def code(who: Signed) -> Answer:
        """The code of the second factor; before the first one, the factor itself."""
        going_to = redirect(_going_to(request.args.get("to")), 303)
        if not who.must_prove:
            return going_to
        if request.method == "GET":
            return _asked(desk, who, None, 200)
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            let = let_try(connection, "code", str(who.staff_id), now)
            lock = own_lock(connection, who.staff_id)
            typed = request.form.get("code", "")
            secret = _opened(desk, lock)
            step = step_of(secret, typed, now, lock.second_step) if let and secret else None
            if step is not None:
                prove(connection, who, step, now)
        if step is None:
            return _asked(desk, who, "code.wrong" if let else "sign_in.too_often", 403)
        return going_to


def _asked(desk: Desk, who: Signed, fault: str | None, status: int) -> Answer:
    if who.second:
        with desk.bot.db.read() as connection:
            lost = _opened(desk, own_lock(connection, who.staff_id)) is None
        fault = "code.lost" if lost else fault
    secret = None if who.second else _secret(desk, who)
    address = secret and secret_address(secret, who.sign_in, who.cooperative.name)
    return desk.show("code.html", who, secret=secret, address=address, fault=fault, status=status)


def _secret(desk: Desk, who: Signed) -> str:
    """The second factor that is being set up: the same until it is proved."""
    with desk.bot.db.write() as connection:
        kept = _opened(desk, own_lock(connection, who.staff_id))
        if kept is not None:
            return kept
        made = new_secret()
        set_second(connection, who.staff_id, seal(desk.bot.settings.house.key, who.staff_id, made))
    return made


def _opened(desk: Desk, lock: Lock) -> str | None:
    """The secret of the second factor; None where there is none, or where it was sealed before the
    service's own secret was changed."""
    kept = lock.second_sealed
    return None if kept is None else unseal(desk.bot.settings.house.key, lock.staff_id, kept)

"""The page of who is signed in: language and password. In: forms. Out: the page. A password that
was given out is changed here before anything else is seen."""

from __future__ import annotations

from flask import request

from bot.cooperative.may import Signed
from bot.cooperative.proofs import SHORTEST, hashed, is_good, is_right
from bot.doors.desk.frame import Answer, Desk
from bot.records.desk_audit import note
from bot.records.desk_staff import change_member, end_sessions, own_lock
from bot.records.desk_tries import let_try


def hang(desk: Desk) -> None:
    @desk.page("/you", needs="looks", before_proof=True)
    def you(who: Signed) -> Answer:
        if who.must_prove:
            return desk.go("code")
        return _shown(desk, who)

    @desk.page("/you/language", needs="looks", methods=("POST",), before_proof=True)
    def your_language(who: Signed) -> Answer:
        chosen = request.form.get("language", "")
        if chosen in desk.words:
            with desk.bot.db.write() as connection:
                change_member(connection, who.cooperative.id, who.staff_id, language=chosen)
        return desk.go("you")

    @desk.page("/you/password", needs="looks", methods=("POST",), before_proof=True)
    def your_password(who: Signed) -> Answer:
        if who.must_prove:
            return desk.go("code")
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            let = let_try(connection, "name", who.sign_in, now)
            lock = own_lock(connection, who.staff_id)
        fault = _fault(who, lock.password) if let else "sign_in.too_often"
        if fault:
            return _shown(desk, who, fault, status=400)
        kept = hashed(request.form["new"])
        with desk.bot.db.write() as connection:
            change_member(connection, who.cooperative.id, who.staff_id, password=kept, fresh=False)
            end_sessions(connection, who.staff_id, but=who.session_id)
            note(connection, who.cooperative.id, who.staff_id, "password", "", now)
        return desk.go("first") if who.fresh else desk.go("you", done="password")


def _fault(who: Signed, kept: str) -> str | None:
    new, again = request.form.get("new", ""), request.form.get("again", "")
    if not is_right(kept, request.form.get("old", "")):
        return "you.old_wrong"
    if new != again:
        return "you.unlike"
    if new == request.form.get("old", "") or not is_good(new, who.sign_in):
        return "you.weak"
    return None


def _shown(desk: Desk, who: Signed, fault: str | None = None, status: int = 200) -> Answer:
    done = request.args.get("done") == "password"
    return desk.show("you.html", who, fault=fault, done=done, shortest=SHORTEST, status=status)

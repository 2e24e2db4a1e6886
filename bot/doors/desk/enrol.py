"""Enrol: a list of farms is tried, looked at row by row, and confirmed. In: a spreadsheet, or one
farm typed. Out: the page, the result file. What was tried is kept for a day, so that the
confirmation needs no second upload; it fits only what was shown (cooperative.enrol.seal)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from flask import Response, request

from bot.cooperative.columns import COLUMNS, MOST_ROWS, Entry, ListFault, headings_of, read_list
from bot.cooperative.enrol import STATUSES, Outcome, counted, seal, texts_of
from bot.cooperative.may import Signed
from bot.doors.desk.frame import Answer, Desk
from bot.doors.result import (
    fault_told,
    heading_words,
    headings,
    language_names,
    result_rows,
    told,
)
from bot.doors.sheets import LARGEST_FILE, XLSX, read_lines, write_csv, write_xlsx
from bot.records.desk_audit import note
from bot.records.desk_enrol import Kept, Tried, change_list, keep_list, list_of
from bot.turn.enrol import Lists, digest_of

ROWS_A_PAGE = 50
FORM_ROOM = 64 * 1024  # of an upload, beside the file
CSV = "text/csv; charset=utf-8"


@dataclass(frozen=True, slots=True)
class Part:
    """The rows of a list that stand on one page. only: a status; "" for all."""

    rows: Sequence[Outcome]
    only: str
    first: int
    of: int

    @property
    def last(self) -> int:
        return self.first + len(self.rows) - 1


def hang(desk: Desk) -> None:
    by_language = {code: words.by_key for code, words in desk.words.items()}
    settings, handbook = desk.bot.settings, desk.bot.thinking.handbook
    names = language_names(by_language)
    lists = Lists(handbook, settings.house, names, settings.sender)
    known_headings = headings_of(heading_words(by_language))

    @desk.page("/enrol", needs="enrols", nav="enrol")
    def enrol(who: Signed) -> Answer:
        return _asked(desk, who, None)

    @desk.page("/enrol/try", needs="enrols", methods=("POST",), largest=LARGEST_FILE + FORM_ROOM)
    def enrol_try(who: Signed) -> Answer:
        sent = request.files.get("list")
        whole = sent.read(LARGEST_FILE + 1) if sent else b""
        try:
            found = read_list(read_lines(whole), known_headings)
        except ListFault as fault:
            return _asked(desk, who, fault_told(fault, desk.tongue(who).by_key))
        outcomes = _outcomes(who, found.entries)
        return _keep(who, Tried(digest_of(whole), outcomes, ", ".join(found.unused)))

    @desk.page("/enrol/one", needs="enrols", methods=("POST",), form_on="enrol")
    def enrol_one(who: Signed) -> Answer:
        """One farm, typed: a list of one row. Where it is wrong it stays in the form."""
        cells = {name: " ".join(request.form.get(name, "").split()) for name in COLUMNS}
        outcomes = _outcomes(who, [Entry(1, **cells)])
        if outcomes[0].status == "wrong":
            wrong = told(outcomes[0], desk.tongue(who).by_key)
            return _asked(desk, who, f"{wrong.why} {wrong.fix}")
        return _keep(who, Tried(digest_of(repr(cells).encode()), outcomes))

    def _outcomes(who: Signed, entries: Sequence[Entry]) -> list[Outcome]:
        with desk.bot.db.read() as connection:
            return lists.tried(connection, who.cooperative, entries)

    def _keep(who: Signed, tried: Tried) -> Answer:
        with desk.bot.db.write() as connection:
            made = keep_list(connection, who.cooperative.id, tried, desk.bot.clock.now())
        return desk.go("enrol_list", listed=made)

    @desk.page("/enrol/<int:listed>", needs="enrols")
    def enrol_list(who: Signed, listed: int) -> Answer:
        kept = _kept(desk, who, listed)
        return _gone(desk, who) if kept is None else _shown(desk, who, kept)

    @desk.page("/enrol/<int:listed>/invite", needs="enrols", methods=("POST",))
    def enrol_invite(who: Signed, listed: int) -> Answer:
        """Carry out what was shown, and nothing else; once."""
        now, cooperative = desk.bot.clock.now(), who.cooperative
        with desk.bot.db.write() as connection:
            kept = list_of(connection, cooperative.id, listed, now, lock=True)
            if kept is None:
                return _gone(desk, who)
            if kept.done_at is not None:
                return desk.go("enrol_list", listed=listed)
            entries = [one.entry for one in kept.outcomes]
            outcomes = lists.tried(connection, cooperative, entries)
            same = _seal(desk, who, kept.digest, outcomes) == request.form.get("seal", "")
            if same:
                lists.carried_out(connection, cooperative, outcomes, now)
                figures = ", ".join(f"{n} {name}" for name, n in counted(outcomes).items())
                note(connection, cooperative.id, who.staff_id, "enrolled", figures, now)
            change_list(connection, listed, outcomes, now if same else None)
        return desk.go("enrol_list", listed=listed, anew=None if same else 1)

    @desk.page("/enrol/<int:listed>/result", needs="enrols", methods=("POST",))
    def enrol_result(who: Signed, listed: int) -> Answer:
        kept, w = _kept(desk, who, listed), desk.tongue(who)
        if kept is None:
            return _gone(desk, who)
        rows = result_rows(kept.outcomes, w.by_key)
        with desk.bot.db.write() as connection:
            about, now = f"list {listed}, {len(kept.outcomes)} rows", desk.bot.clock.now()
            note(connection, who.cooperative.id, who.staff_id, "list_exported", about, now)
        if request.form.get("as") == "csv":
            return _file(write_csv(rows), CSV, f"{listed}.csv")
        return _file(write_xlsx(rows, w("enrol.title")), XLSX, f"{listed}.xlsx")

    @desk.page("/enrol/empty", needs="enrols", methods=("POST",))
    def enrol_empty(who: Signed) -> Answer:
        w = desk.tongue(who)
        return _file(write_xlsx([headings(w.by_key)], w("enrol.title")), XLSX, "farms.xlsx")


def _asked(desk: Desk, who: Signed, fault: str | None, status: int = 400) -> Answer:
    typed = request.form or desk.again(who)
    return desk.show(
        "enrol.html",
        who,
        fault=fault,
        most=MOST_ROWS,
        tongues=desk.bot.thinking.handbook.texts.tongues.values(),
        typed={name: typed.get(name, "") for name in COLUMNS},
        status=status if fault else 200,
    )


def _kept(desk: Desk, who: Signed, number: int) -> Kept | None:
    with desk.bot.db.read() as connection:
        return list_of(connection, who.cooperative.id, number, desk.bot.clock.now())


def _gone(desk: Desk, who: Signed) -> Answer:
    """The list's day is over, or it never was this cooperative's."""
    return _asked(desk, who, desk.tongue(who)("enrol.gone"), 404)


def _shown(desk: Desk, who: Signed, kept: Kept) -> Answer:
    words = desk.tongue(who).by_key
    part = _part(kept.outcomes)
    found = counted(kept.outcomes)
    return desk.show(
        "enrol_list.html",
        who,
        kept=kept,
        part=part,
        rows=[told(one, words) for one in part.rows],
        statuses=[(status, found[status]) for status in STATUSES if found[status]],
        n=texts_of(kept.outcomes),
        found=found,
        seal=_seal(desk, who, kept.digest, kept.outcomes),
        columns=COLUMNS,
        anew="anew" in request.args,
        page=ROWS_A_PAGE,
    )


def _part(outcomes: Sequence[Outcome]) -> Part:
    """The rows that are asked for; those that want mending first."""
    only = request.args.get("only", "")
    chosen = [one for one in outcomes if only in ("", one.status)]
    chosen.sort(key=lambda one: STATUSES.index(one.status))
    first = max(1, request.args.get("from", 1, type=int))
    return Part(chosen[first - 1 : first - 1 + ROWS_A_PAGE], only, first, len(chosen))


def _seal(desk: Desk, who: Signed, digest: str, outcomes: Sequence[Outcome]) -> str:
    return seal(desk.bot.settings.house.key, who.cooperative.id, digest, outcomes)


def _file(whole: bytes, kind: str, name: str) -> Response:
    answer = Response(whole, content_type=kind)
    answer.headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer

"""Unread words: the texts that the machine could not read. A word is taught with the text as its
example, after a look at what it would change; or the farmer is answered by hand. In: forms. Out:
pages."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from flask import abort, request
from sqlalchemy import Connection

from bot.cooperative.may import Signed
from bot.cooperative.taught import (
    LONGEST,
    LONGEST_MEANING,
    MOST_WORDS,
    SHORTEST,
    words_of,
    wrong_with,
)
from bot.doors.desk.frame import Answer, Desk
from bot.doors.desk.reading import Trial, trial
from bot.facts.farm import Case, Phone, TaughtWord
from bot.handbook.load import content_folder
from bot.records.case import cases_of_phones
from bot.records.desk_audit import note
from bot.records.desk_unread import Unread, deal_with, take_back, teach, unread_text, waiting

A_PAGE = 25
SHOWN = 10  # texts that change
DID = ("taught", "done", "taken_back")


def hang(desk: Desk) -> None:
    @desk.page("/unread", needs="advises", nav="unread")
    def unread(who: Signed) -> Answer:
        before, done = request.args.get("before", type=int), request.args.get("done")
        with desk.bot.db.read() as connection:
            found = waiting(connection, who.cooperative.id, A_PAGE + 1, before)
        older = found[A_PAGE - 1].id if len(found) > A_PAGE else None
        return desk.show(
            "unread.html", who, texts=found[:A_PAGE], older=older,
            taught=who.cooperative.taught, done=done if done in DID else None,
        )  # fmt: skip

    @desk.page("/unread/<int:unread>", needs="advises")
    def unread_one(who: Signed, unread: int) -> Answer:
        with desk.bot.db.read() as connection:
            one = _theirs(connection, who, unread)
        return _shown(desk, who, one)

    @desk.page("/unread/<int:unread>/try", needs="advises", methods=("POST",), form_on="unread_one")
    def unread_try(who: Signed, unread: int) -> Answer:
        """What the word would change; nothing is kept."""
        one, word, found = _tried(desk, who, unread)
        if found is None:
            return _shown(desk, who, one, word, 400)
        return desk.show(
            "unread_try.html", who, one=one, word=word, trial=found, effects=found.effects[:SHOWN]
        )

    @desk.page(
        "/unread/<int:unread>/approve", needs="advises", methods=("POST",), form_on="unread_one"
    )
    def unread_approve(who: Signed, unread: int) -> Answer:
        one, word, found = _tried(desk, who, unread)
        if found is None or not found.may_be_taught:
            abort(400)
        now, cooperative = desk.bot.clock.now(), who.cooperative.id
        with desk.bot.db.write() as connection:
            teach(connection, cooperative, word)
            deal_with(connection, one.id, now)
            about = f"text {one.id}, {word.language}"
            note(connection, cooperative, who.staff_id, "word_taught", about, now)
        return desk.go("unread", done="taught")

    @desk.page("/unread/<int:unread>/done", needs="advises", methods=("POST",))
    def unread_done(who: Signed, unread: int) -> Answer:
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            one = _theirs(connection, who, unread)
            deal_with(connection, one.id, now)
            note(connection, who.cooperative.id, who.staff_id, "unread_done", f"text {one.id}", now)
        return desk.go("unread", done="done")

    @desk.page("/unread/words", needs="advises", methods=("POST",))
    def unread_take_back(who: Signed) -> Answer:
        language, word = request.form.get("language", ""), request.form.get("word", "")
        if not any((one.language, one.word) == (language, word) for one in who.cooperative.taught):
            abort(400)
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            take_back(connection, who.cooperative.id, language, word)
            note(connection, who.cooperative.id, who.staff_id, "word_taken_back", language, now)
        return desk.go("unread", done="taken_back")


def _theirs(connection: Connection, who: Signed, number: int) -> Unread:
    """A text of the same cooperative; 404 for any other."""
    found = unread_text(connection, who.cooperative.id, number)
    if found is None:
        abort(404)
    return found


def _tried(desk: Desk, who: Signed, number: int) -> tuple[Unread, TaughtWord, Trial | None]:
    """The word of the form, tried; None where it can't be taught as it stands."""
    with desk.bot.db.read() as connection:
        one = _theirs(connection, who, number)
        case = _case(connection, who, one, desk.bot.clock.now())
    word = " ".join((request.form.get("other") or request.form.get("word", "")).split())
    means = " ".join(request.form.get("means", "").split())
    taught = TaughtWord(case.language, word, means)
    if wrong_with(word, means) or len(who.cooperative.taught) >= MOST_WORDS:
        return one, taught, None
    content = content_folder(desk.bot.settings.content)
    return one, taught, trial(desk.bot.thinking, content, case, one.text, taught)


def _case(connection: Connection, who: Signed, one: Unread, now: datetime) -> Case:
    """The farm that the text came from, without an open question."""
    if one.phone_id is None:
        phone = Phone(0, one.number, "unknown")
        return Case(one.at, who.cooperative, phone, None, who.cooperative.language)
    found = cases_of_phones(connection, [one.phone_id], now)[one.phone_id]
    return replace(found, question=None)


def _shown(
    desk: Desk, who: Signed, one: Unread, word: TaughtWord | None = None, status: int = 200
) -> Answer:
    why = wrong_with(word.word, word.means) if word else None
    language = one.language or who.cooperative.language
    return desk.show(
        "unread_one.html", who, one=one, word=word, status=status,
        words=words_of(one.text), language=language, longest=LONGEST, shortest=SHORTEST,
        longest_meaning=LONGEST_MEANING,
        fault=f"unread.fault.{why.key if why else 'many'}" if word else None,
    )  # fmt: skip

"""Farm: the texts of both sides, the batch with its curves, the open trouble with its reasons; a
letter of a person. In: the number of a farm (a person), a form. Out: pages."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from flask import abort, request
from sqlalchemy import Connection

from bot.cooperative.farm import UNITS, Letter, entries, latest, letter, trouble_of, why_not
from bot.cooperative.may import Signed
from bot.day.quiet import opens
from bot.doors.desk.frame import Answer, Desk
from bot.doors.desk.tokens import new_token
from bot.facts.farm import Batch, Case, Phone
from bot.handbook.shape_texts import BASE
from bot.ledger.entries import figure_of
from bot.ledger.ledger import ledger_of
from bot.pages import curves
from bot.pages.chart import Chart, drawn, figures
from bot.pages.html import Html
from bot.proof.medicine import named_in
from bot.records.case import whole_batch
from bot.records.desk_audit import note
from bot.records.desk_farms import LETTER, Farm, farm_of, release, texts_of
from bot.records.outbox_rows import Text, put
from bot.records.spending import is_spent

TEXTS = 30
ENTRIES = 8  # shown at once; all of them under a link
CURVES = ("temperature", "weight", "deaths", "feed", "water")
YOUNG = 14  # ages in which heat counts more than weight
SVG = (360, 210)  # pixels, so that its letters can be read on a small phone
KEPT = timedelta(days=1)
NONCE = re.compile(r"[\w-]{16,43}")


@dataclass(frozen=True, slots=True)
class Curve:
    """A curve with its table: day, figure, what is usual."""

    name: str
    svg: Html
    words: str
    rows: tuple[tuple[int, float, float | None], ...]


def hang(desk: Desk) -> None:
    @desk.page("/farm/<int:person>", needs="looks")
    def farm(who: Signed, person: int) -> Answer:
        before, now = _moment(request.args.get("before")), desk.bot.clock.now()
        with desk.bot.db.read() as connection:
            found = farm_or_404(connection, who, person)
            batch = _batch(connection, who, found)
            texts = texts_of(connection, found.phones, TEXTS + 1, before)
        shown = latest(texts, TEXTS + 1)
        older = shown[TEXTS - 1].at if len(shown) > TEXTS else None
        case = _case(who, found, batch, now)
        return desk.show(
            "farm.html", who, farm=found, batch=batch, texts=shown[:TEXTS], older=older,
            before=before, today=case.today, now=now, cannot=why_not(found.own),
            said=request.args.get("said"), whole="whole" in request.args,
            **_of_batch(desk, who, case, batch),
        )  # fmt: skip

    _hang_letter(desk)

    @desk.page("/batch/<int:batch>/release", needs="advises", methods=("POST",))
    def farm_release(who: Signed, batch: int) -> Answer:
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            found = whole_batch(connection, who.cooperative.id, batch)
            if found is None:
                abort(404)
            if "cleared" not in request.form or not found.held:
                abort(400)
            release(connection, batch, now)
            note(connection, who.cooperative.id, who.staff_id, "released", f"batch {batch}", now)
        if found.owner_id is None:
            return desk.go("farms")
        return desk.go("farm", person=found.owner_id, batch=batch)


def farm_or_404(connection: Connection, who: Signed, person: int) -> Farm:
    """A farm of the same cooperative."""
    found = farm_of(connection, who.cooperative.id, person)
    if found is None:
        abort(404)
    return found


def _batch(connection: Connection, who: Signed, found: Farm) -> Batch | None:
    wanted = request.args.get("batch", type=int)
    chosen = found.batch(wanted)
    if chosen is None:
        if wanted is not None:
            abort(404)
        return None
    return whole_batch(connection, who.cooperative.id, chosen.id)


def _case(who: Signed, found: Farm, batch: Batch | None, now: datetime) -> Case:
    phone = found.own or Phone(0, "", "unknown")
    person, batches = found.person, (batch,) if batch else ()
    return Case(now, who.cooperative, phone, person, person.language, batches)


def _of_batch(desk: Desk, who: Signed, case: Case, batch: Batch | None) -> dict[str, Any]:
    """What the page says of a batch: curves, entries, trouble, stores."""
    texts = desk.bot.thinking.handbook.texts.tongues
    language = who.language if who.language in texts else BASE
    given: dict[str, Any] = {
        "terms": desk.terms[language],
        "figure_of": figure_of,
        "units": UNITS,
        "curve_names": CURVES,
        "curves": [],
        "entries": [],
        "trouble": None,
        "ledger": None,
        "alarm": None,
        "advice": [],
        "more_entries": False,
    }
    if batch is None:
        return given
    shown = trouble_of(case, batch, desk.bot.thinking.handbook)
    wordings = {**texts[BASE].wordings, **texts[language].wordings}
    told = entries(batch)
    return given | {
        "curves": list(_curves(desk, who, case, batch)),
        "entries": told if "whole" in request.args else told[:ENTRIES],
        "more_entries": len(told) > ENTRIES,
        "trouble": shown,
        "ledger": ledger_of(batch),
        "alarm": batch.open_alarm(case.today),
        "advice": [_without_values(wordings.get(key)) for key in shown.tried] if shown else [],
    }


def _without_values(wording: object) -> str:
    """A wording as it is read without what stands in it on a day."""
    return re.sub(r"\{[^}]*\}", "...", wording) if isinstance(wording, str) else ""


def _curves(desk: Desk, who: Signed, case: Case, batch: Batch) -> Iterator[Curve]:
    """Two curves of this age, or the one that was asked for."""
    age = batch.age(case.today) or 0
    wanted = request.args.get("show")
    names = (wanted,) if wanted in CURVES else _two_of(age)
    w = desk.paper.get(who.language, desk.paper[BASE])
    for name in names:
        chart = _chart(name, batch, case, desk, w)
        if chart is not None:
            yield Curve(name, drawn(chart, *SVG), chart.words, figures(chart))


def _two_of(age: int) -> tuple[str, str]:
    return ("temperature", "deaths") if age < YOUNG else ("weight", "deaths")


def _chart(name: str, batch: Batch, case: Case, desk: Desk, w: curves.Words) -> Chart | None:
    h = desk.bot.thinking.handbook.husbandry
    if name == "temperature":
        return curves.temperature(batch, case.cooperative.zone, h, w)
    if name == "weight":
        return curves.weight(batch, case.today, h, w)
    if name == "deaths":
        return curves.deaths(batch, case.today, h, w)
    return curves.feed(batch, h, w) if name == "feed" else curves.water(batch, h, w)


def _moment(text: str | None) -> datetime | None:
    """A moment out of an address; 404 for anything else."""
    if text is None:
        return None
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        abort(404)
    return found if found.tzinfo else abort(404)


def _hang_letter(desk: Desk) -> None:
    @desk.page("/farm/<int:person>/write", needs="advises", methods=("POST",), form_on="farm")
    def farm_write(who: Signed, person: int) -> Answer:
        now = desk.bot.clock.now()
        body, nonce = request.form.get("body", ""), request.form.get("nonce", "")
        with desk.bot.db.write() as connection:
            found = farm_or_404(connection, who, person)
            phone = found.own
            made = letter(who.cooperative, who.name, body, phone.heard_at if phone else None, now)
            fault = why_not(phone) or ("farm.empty" if made is None else None)
            fault = fault or ("farm.too_long" if made and made.too_long else None)
            named = named_in(made.text, desk.forbidden) if made else None
            allowed = named is None or "vet" in request.form
            sure = fault is None and allowed and NONCE.fullmatch(nonce) is not None
            if sure and made is not None and phone is not None:
                key = f"{LETTER}{who.staff_id}:{nonce}"
                _put(connection, who, phone, made, key, now)
                about = f"farm {person}, {made.parts.parts} parts" + (
                    ", as a vet said" if named else ""
                )
                note(connection, who.cooperative.id, who.staff_id, "wrote", about, now)
            spent = made is not None and made.klass == "system"
            spent = spent and is_spent(connection, who.cooperative, now)
        if sure:
            return desk.go("farm", person=person, said="waits" if spent else "goes")
        at = opens(who.cooperative, now, made.klass) if made else now
        return desk.show(
            "farm_write.html", who, farm=found, letter=made, body=body, fault=fault, named=named,
            nonce=new_token(), at=at, now=now, spent=spent, status=400 if fault else 200,
        )  # fmt: skip


def _put(
    connection: Connection, who: Signed, phone: Phone, made: Letter, key: str, now: datetime
) -> None:
    at = opens(who.cooperative, now, made.klass)
    put(
        connection,
        Text(key, phone.id, phone.number, made.klass, made.text, now,
             expires_at=at + KEPT, not_before=at),
    )  # fmt: skip

"""Our rules: what a cooperative set for itself, in groups, with who set it and when. A change is a
draft, proofread with the content; whoever approves it sees what farmers would get tomorrow. In:
forms. Out: pages.

Those who run or own draft and approve. Where there are two of them, nobody approves their own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from flask import abort, request
from sqlalchemy import Connection

from bot.cooperative import rules as r
from bot.cooperative.may import Signed
from bot.cooperative.said import Said
from bot.doors.desk.frame import Answer, Desk
from bot.doors.desk.ruled import label_of, lines_of
from bot.facts.farm import Cooperative
from bot.facts.limits import OWN_LIMITS
from bot.proof.rules import faults_of, tomorrow
from bot.records.case import cooperative_held
from bot.records.desk_audit import note
from bot.records.desk_rules import (
    Version,
    approvers,
    drop,
    keep_draft,
    open_versions,
    put_live,
    version,
    versions_of,
)

ONLY_RUNS = ("limits",)  # what a month may cost is for those who see costs
SPARE_VACCINES, SPARE_QUIET = 4, 2  # empty rows of a form


def hang(desk: Desk) -> None:
    @desk.page("/rules", needs="looks", nav="rules")
    def rules(who: Signed) -> Answer:
        with desk.bot.db.read() as connection:
            found = open_versions(connection, who.cooperative.id)
        live = {one.group: one for one in found if one.state == "live"}
        shown = [name for name in r.GROUPS if name not in ONLY_RUNS or who.may("runs")]
        values = {name: r.values_of(name, who.cooperative) for name in shown}
        return desk.show(
            "rules.html", who, live=live, changes=who.may("runs"),
            groups={name: _lines(desk, who, name, values[name]) for name in shown},
            drafts=[one for one in found if one.state == "draft" and one.group in shown],
        )  # fmt: skip

    for name in r.GROUPS:
        desk.page(f"/rules/{name}", needs="runs", methods=("GET", "POST"), form_on=f"rules_{name}")(
            _of_group(desk, name)
        )
    _hang_versions(desk)


def _of_group(desk: Desk, group: str) -> Callable[[Signed], Answer]:
    def changed(who: Signed) -> Answer:
        return _drafted(desk, who, group) if request.method == "POST" else _asked(desk, who, group)

    changed.__name__ = f"rules_{group}"
    return changed


def _asked(desk: Desk, who: Signed, group: str) -> Answer:
    """The form: what is in force, or a version that is to be changed."""
    again = desk.again(who)
    number = request.args.get("version", type=int)
    with desk.bot.db.read() as connection:
        past = versions_of(connection, who.cooperative.id, group)
        one = _theirs(connection, who, number) if number else None
    values = one.values if one and one.group == group else r.values_of(group, who.cooperative)
    return _form(desk, who, group, past, again or r.fields_of(group, values), (), number)


def _drafted(desk: Desk, who: Signed, group: str) -> Answer:
    """The form, read and proofread: a draft, or what is wrong beside what was typed."""
    now, own = desk.bot.clock.now(), who.cooperative
    today = now.astimezone(own.zone).date()
    languages = desk.bot.thinking.handbook.texts.tongues
    asking = r.Asking(own, desk.bot.settings.house.limits, languages, today)
    values, wrong = r.read(group, request.form, asking)
    faults = list(wrong)
    if not faults and values == r.values_of(group, own):
        faults = [r.Fault("", Said.of("same"))]
    if not faults:
        proofread = _proofread(desk, r.with_values(own, group, values))
        faults = [r.Fault("", one) for one in proofread]
    number = request.form.get("version", type=int)
    with desk.bot.db.write() as connection:
        if faults:
            past = versions_of(connection, own.id, group)
            return _form(desk, who, group, past, request.form, faults, number)
        before = version(connection, own.id, number) if number else None
        if before is not None and before.staff_id == who.staff_id:
            drop(connection, own.id, before.id)
        kept = keep_draft(connection, own.id, group, values, who.staff_id, now)
        note(connection, own.id, who.staff_id, "rules_drafted", f"{group}, version {kept}", now)
    return desk.go("rules_version", version=kept)


def _hang_versions(desk: Desk) -> None:
    @desk.page("/rules/version/<int:version>", needs="runs")
    def rules_version(who: Signed, version: int) -> Answer:
        with desk.bot.db.read() as connection:
            one = _theirs(connection, who, version)
            return _looked_at(desk, who, connection, one, who.cooperative)

    @desk.page("/rules/version/<int:version>/approve", needs="runs", methods=("POST",))
    def rules_approve(who: Signed, version: int) -> Answer:
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            one = _theirs(connection, who, version)
            held = cooperative_held(connection, who.cooperative.id)
            seen = request.form.get("seen", type=int)
            if one.state != "draft" or seen is None:
                return _looked_at(desk, who, connection, one, held, 400)
            if not r.may_approve(one.staff_id, who.staff_id, approvers(connection, held.id)):
                abort(403)
            if seen != _live_id(connection, held.id, one.group):
                return _looked_at(desk, who, connection, one, held, 400, changed=True)
            if _proofread(desk, r.with_values(held, one.group, one.values)):
                return _looked_at(desk, who, connection, one, held, 400)
            if put_live(connection, held, one, who.staff_id, now):
                about = f"{one.group}, version {one.id}"
                note(connection, held.id, who.staff_id, "rules_approved", about, now)
        return desk.go("rules", _anchor=one.group)

    @desk.page("/rules/version/<int:version>/drop", needs="runs", methods=("POST",))
    def rules_drop(who: Signed, version: int) -> Answer:
        now = desk.bot.clock.now()
        with desk.bot.db.write() as connection:
            one = _theirs(connection, who, version)
            if drop(connection, who.cooperative.id, one.id):
                about = f"{one.group}, version {one.id}"
                note(connection, who.cooperative.id, who.staff_id, "rules_dropped", about, now)
        return desk.go("rules")

    @desk.page("/rules/version/<int:version>/again", needs="runs", methods=("POST",))
    def rules_again(who: Signed, version: int) -> Answer:
        """An earlier version as a new draft."""
        now, own = desk.bot.clock.now(), who.cooperative
        with desk.bot.db.write() as connection:
            one = _theirs(connection, who, version)
            if one.values == r.values_of(one.group, own):
                return _looked_at(desk, who, connection, one, own, 400)
            kept = keep_draft(connection, own.id, one.group, one.values, who.staff_id, now)
            about = f"{one.group}, version {kept} as {one.id}"
            note(connection, own.id, who.staff_id, "rules_drafted", about, now)
        return desk.go("rules_version", version=kept)


def _theirs(connection: Connection, who: Signed, number: int) -> Version:
    """A version of the same cooperative; 404 for any other."""
    return version(connection, who.cooperative.id, number) or abort(404)


def _live_id(connection: Connection, cooperative_id: int, group: str) -> int:
    """The version in force; 0 where the group was never changed."""
    found = open_versions(connection, cooperative_id)
    return next((one.id for one in found if (one.state, one.group) == ("live", group)), 0)


def _proofread(desk: Desk, later: Cooperative) -> list[Said]:
    return faults_of(later, desk.bot.thinking.handbook, desk.forbidden)


def _looked_at(
    desk: Desk, who: Signed, connection: Connection, one: Version, own: Cooperative,
    status: int = 200, *, changed: bool = False,
) -> Answer:  # fmt: skip
    """A version beside what is in force, and what it would change tomorrow."""
    later = r.with_values(own, one.group, one.values)
    many = approvers(connection, own.id)
    before = dict(_lines(desk, who, one.group, r.values_of(one.group, own)))
    after = dict(_lines(desk, who, one.group, one.values))
    rows = [(label, before.get(label, "-"), after.get(label, "-"))
            for label in dict.fromkeys((*before, *after))]  # fmt: skip
    rest = [row for row in rows if row[1] == row[2]]
    draft = one.state == "draft"
    return desk.show(
        "rules_version.html", who, status=status, one=one, changed=changed,
        rows=[row for row in rows if row not in rest], rest=rest,
        seen=_live_id(connection, own.id, one.group),
        faults=_proofread(desk, later),
        pairs=tomorrow(own, later, desk.bot.thinking.handbook, desk.bot.clock.now()),
        language=later.language, was_language=own.language,
        mine=draft and not r.may_approve(one.staff_id, who.staff_id, many), alone=many <= 1,
        moved=own.timezone != later.timezone,
    )  # fmt: skip


def _lines(desk: Desk, who: Signed, group: str, values: r.Values) -> list[tuple[str, str]]:
    names = {code: one.own_name for code, one in desk.bot.thinking.handbook.texts.tongues.items()}
    return lines_of(group, values, desk.tongue(who), names, desk.bot.settings.house.limits)


def _form(
    desk: Desk, who: Signed, group: str, past: list[Version], typed: Mapping[str, str],
    faults: Any, number: int | None,
) -> Answer:  # fmt: skip
    w, tongues = desk.tongue(who), desk.bot.thinking.handbook.texts.tongues
    return desk.show(
        "rules_group.html", who, status=400 if faults else 200, group=group, typed=typed,
        faults=[(one.field, label_of(one.field, w), one.said) for one in faults],
        wrong={one.field for one in faults}, number=number,
        past=past, prices=r.PRICES,
        tongues={code: one.own_name for code, one in tongues.items()},
        most=r.LONGEST_WORDS, weekdays=(*r.WEEKDAYS, "date"), house=desk.bot.settings.house.limits,
        own_limits=OWN_LIMITS, months=w("frame.months").split(),
        vaccines=_rows(typed, "day", r.MOST_VACCINES, SPARE_VACCINES),
        quiet=_rows(typed, "quiet_from", r.MOST_QUIET, SPARE_QUIET),
    )  # fmt: skip


def _rows(typed: Mapping[str, str], name: str, most: int, spare: int) -> int:
    """How many rows a form has: those that are filled in, and some to fill in."""
    used = [place for place in range(most) if typed.get(f"{name}_{place}")]
    return min(most, max(used, default=-1) + 1 + spare)

"""Checking back on a complaint: at its hour by day; what fell in the night goes into the morning's
text in place of its question. In: where a batch stands. Out: Due, or the question alone. Pure.
"""

from __future__ import annotations

from datetime import datetime, timedelta

from bot.day.compose import whose_line
from bot.day.items import Due
from bot.day.standing import Standing, pushes_at
from bot.diagnosis.danger import PILING, pressed
from bot.diagnosis.weigh import is_night
from bot.facts.farm import Batch, Complaint
from bot.facts.talk import Line, Question
from bot.facts.writes import ChangeComplaint

STALE = timedelta(hours=6)  # a check-back that comes later than this joins the next morning text
URGENT = ("fumes", "sick", "smothering")
NEW_HOUSE_AGE = 14
A_FEW_LEFT = "better_some_cold"  # the advice behind "better, but for a few"
WORKED = ("better", "same", "worse")


def open_check(batch: Batch) -> tuple[Complaint, datetime] | None:
    """The open complaint of a batch that is still to be looked at again, with its moment."""
    complaint = batch.complaint
    if complaint is None or complaint.state != "open" or complaint.check_at is None:
        return None
    return complaint, complaint.check_at


def is_urgent(complaint: Complaint, at: Standing) -> bool:
    """Danger and smothering are asked about at any hour."""
    return complaint.cause in URGENT or is_smothering(complaint, at) or _is_heap(complaint, at)


def is_smothering(complaint: Complaint, at: Standing) -> bool:
    """Piled up in the new house, at the heat or in a corner."""
    return at.age >= NEW_HOUSE_AGE and any(one in complaint.signals for one in PILING)


def _is_heap(complaint: Complaint, at: Standing) -> bool:
    """Pressed together for want of warmth, to be looked at again in this night."""
    if complaint.check_at is None:
        return False
    hour = complaint.check_at.astimezone(at.case.cooperative.zone).hour
    if is_night(hour) and complaint.tried and complaint.tried[-1] == A_FEW_LEFT:
        return True  # a few are still pressed, and the hour was promised
    failed = any(one.startswith("worked:") for one in complaint.asked)
    return is_night(hour) and pressed(complaint.signals, complaint.cause, failed=failed)


def pushed_check(at: Standing) -> Due | None:
    """The check-back as a text of its own, when its hour has come and we may write now."""
    found = open_check(at.batch)
    if found is None:
        return None
    complaint, check_at = found
    if not check_at <= at.now < check_at + STALE or not _goes_now(complaint, check_at, at):
        return None
    slot = f"check-{complaint.id}-{complaint.checks}"
    if slot in at.slots:
        return None
    look = _look(complaint, at)
    whose = whose_line(at)
    return Due(
        slot=slot,
        on_date=at.today,
        rows=("check_back",),
        lines=(*([whose] if whose else []), Line(look)),
        question=worked(at, complaint),
        klass="danger" if is_urgent(complaint, at) else "check_back",
        expires_at=check_at + STALE,
        writes=(noted(complaint),),
    )


def _look(complaint: Complaint, at: Standing) -> str:
    """What to go and see: after smoke nobody is sent back inside."""
    if complaint.cause == "fumes":
        return "check_fumes"
    return "check_smother" if is_smothering(complaint, at) else "check_look"


def _goes_now(complaint: Complaint, check_at: datetime, at: Standing) -> bool:
    if is_urgent(complaint, at):
        return True
    planned = check_at.astimezone(at.case.cooperative.zone).time()
    return pushes_at(at.case, planned) and pushes_at(at.case, at.local.time())


def joining_check(at: Standing) -> Complaint | None:
    """The complaint whose check-back takes the place of this morning's question."""
    found = open_check(at.batch)
    return found[0] if found is not None and found[1] <= at.now else None


def worked(at: Standing, complaint: Complaint) -> Question:
    """Did it help? 1 better 2 same 3 worse."""
    about = {"batch": str(at.batch.id), "complaint": str(complaint.id)}
    return Question("check_back", "menu", "worked", Line("q_worked"), WORKED, about=about)


def noted(complaint: Complaint) -> ChangeComplaint:
    """The check-back went out."""
    return ChangeComplaint(complaint.id, {"check_at": None, "checks": complaint.checks + 1})

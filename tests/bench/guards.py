"""Takes one guard after another out of a copy of the program, and shows that a test then fails.

In: names of guards, or none for all. Out: one JSON line a guard: what was taken out, the tests that
were asked, "caught" or "missed". Ends with 1 where one was missed or is no longer found. Run by
scripts/bench; it takes some minutes, and is no part of the tests.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LEFT_BEHIND = shutil.ignore_patterns(".git", ".venv", "__pycache__", ".*_cache", "data")
LONGEST_S = 180


@dataclass(frozen=True)
class Guard:
    """name: what it keeps from happening. there: its code. gone: the code without it. tests: what
    should fail then, as pytest takes it."""

    name: str
    file: str
    there: str
    gone: str
    tests: str


LOST_LEASE = '{"state": "unknown", "not_before": now}'
SWEEP = f'(and_(row.state == "leased", lost), {LOST_LEASE}),'
KILLED, RESTARTED = "tests/kill/test_killed.py", "tests/kill/test_restarted.py"
CLAIM, RETRY, TAKE = "bot/outbox/claim.py", "bot/outbox/retry.py", "bot/turn/take.py"
TICK = "bot/turn/tick.py"
DISPATCH, UNKNOWNS = "tests/outbox/test_dispatch.py", "tests/outbox/test_unknowns.py"
GUARDS = (
    Guard("a lost lease is asked after", CLAIM, LOST_LEASE, '{"state": "waiting"}',
          f"{KILLED} -k sender"),
    Guard("a lost lease is found", CLAIM, SWEEP, "", f"{KILLED} -k sender"),
    Guard("no blind double after a restart", CLAIM, LOST_LEASE, '{"state": "waiting"}',
          f"{RESTARTED} -k dies"),
    Guard("the database comes back", "bot/records/session.py", "pool_pre_ping=True",
          "pool_pre_ping=False", RESTARTED),
    Guard("one transaction a chunk of the tick", TICK,
          "    advance(connection, chunk.ahead)\n", "    advance(connection, chunk.ahead)\n"
          "    connection.commit()\n    connection.begin()\n    put(connection, *chunk.texts)\n",
          f"{KILLED} -k clock"),
    Guard("the business key", TICK,
          'business_key=f"{batch.id}:{batch.placement_version}:{one.on_date}:{one.slot}"',
          'business_key=__import__("uuid").uuid4().hex', "tests/turn/test_tick.py"),
    Guard("the ledger of what was said", TICK, "planned.next_due, planned.lines)",
          'planned.next_due, "")', "tests/turn/test_tick.py tests/turn/test_plan.py"),
    Guard("what one planner has the others pass over", "bot/records/planning.py",
          ".with_for_update(skip_locked=True, key_share=True)", ".with_for_update(read=True)",
          "tests/turn/test_plan.py -k side_by_side"),
    Guard("a message is taken once", TAKE, "            return stored or take_within(",
          "            return take_within(", "tests/turn/test_repeats.py"),
    Guard("a turn is whole or not at all", TAKE,
          "    apply(doing, decision.writes)\n", "    apply(doing, decision.writes)\n"
          "    connection.commit()\n    connection.begin()\n", f"{KILLED} -k web"),
    Guard("a repeat is answered for ten minutes", TAKE,
          "reply if now.at - at <= ANSWER_KEPT else None", "reply",
          "tests/turn/test_repeats.py"),
    Guard("stale texts are dropped", CLAIM,
          '(and_(row.state == "waiting", row.expires_at <= now), {"state": "expired"}),', "",
          DISPATCH),
    Guard("nothing goes to who stopped", CLAIM, '            phone.consent != "stopped",\n', "",
          DISPATCH),
    Guard("order per phone", CLAIM, "            ~_held_back(klass, now),\n", "", DISPATCH),
    Guard("dead numbers rest", CLAIM, "phone.suspended.is_(False),", "True,", DISPATCH),
    Guard("a lost answer waits before it counts as not sent", RETRY,
          "return Verdict.NOT_SENT if age >= SETTLED", "return Verdict.NOT_SENT if True",
          UNKNOWNS),
    Guard("receipts only move up", RETRY, "or _RANK[told] <= _RANK.get(state, 0)", "or False",
          "tests/outbox/test_retry.py"),
    Guard("an unknown is no refusal", RETRY, "if error.unknown:\n", "if False:\n", DISPATCH),
    Guard("a text of ours is known by its own sid", "bot/outbox/unknowns.py",
          "if one.sid not in known", "if True", UNKNOWNS),
    Guard("a failing gateway is left alone", "bot/outbox/dispatch.py",
          "tally.in_a_row < REFUSALS_IN_A_ROW and", "True and", DISPATCH),
    Guard("an answer of 500 may have been taken", "bot/gateway/client.py", "if status >= 500:",
          "if False:", "tests/gateway"),
    Guard("a cut connection may have been taken", "bot/gateway/client.py",
          "unknown=not _never_left(lost)", "unknown=False", "tests/gateway"),
    Guard("unsigned texts from afar", "bot/doors/guard.py", "and _is_near(request.remote_addr)",
          "and True", "tests/doors tests/serve/test_doors.py"),
    Guard("receipts of another account", "bot/doors/receipts.py", "            abort(403)\n",
          "            pass\n", "tests/doors tests/serve/test_sending.py"),
    Guard("a read-only database is red", "bot/doors/health.py",
          "            beat(connection, PROBE, now)\n", "",
          "tests/kill/test_bad_database.py -k read_only"),
    Guard("a full database is red", "bot/doors/health.py", "bool(pages >= most and free == 0)",
          "False", "tests/kill/test_bad_database.py -k full"),
    Guard("a half migration is refused", "bot/records/migrate.py", "    if lacking:",
          "    if False:", "tests/kill/test_bad_database.py -k half"),
    Guard("an hour that does not exist", "bot/day/walltime.py",
          "    if found.astimezone(zone).replace(tzinfo=None) == wall:\n        return found",
          "    return found", "tests/turn/test_tick.py -k exist"),
)  # fmt: skip


def taken_out(guard: Guard, copy: Path) -> str:
    """ "caught", "missed", "not there" where the code of the guard reads otherwise by now, or "red"
    where its tests fail with the guard in place."""
    path = copy / guard.file
    whole = path.read_text("utf-8")
    if guard.there not in whole:
        return "not there"
    if not passes(guard.tests, copy):
        return "red"
    path.write_text(whole.replace(guard.there, guard.gone), encoding="utf-8")
    try:
        return "missed" if passes.__wrapped__(guard.tests, copy) else "caught"
    finally:
        path.write_text(whole, encoding="utf-8")


@cache  # with every guard in place
def passes(tests: str, copy: Path) -> bool:
    """Whether tests pass in the copy; one that hangs does not."""
    command = [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider"]
    try:
        ended = subprocess.run(
            [*command, *tests.split()],
            cwd=copy,
            capture_output=True,
            timeout=LONGEST_S,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return False
    return ended.returncode == 0


def main() -> int:
    """Try the guards named on the command line, else all."""
    wanted = sys.argv[1:]
    chosen = [one for one in GUARDS if not wanted or any(word in one.name for word in wanted)]
    verdicts = []
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "copy"
        shutil.copytree(ROOT, copy, ignore=LEFT_BEHIND)
        for guard in chosen:
            verdict = taken_out(guard, copy)
            verdicts.append(verdict)
            told = {"guard": guard.name, "file": guard.file, "tests": guard.tests}
            sys.stdout.write(json.dumps({**told, "verdict": verdict}) + "\n")
            sys.stdout.flush()
    return 0 if verdicts and set(verdicts) == {"caught"} else 1


if __name__ == "__main__":
    sys.exit(main())

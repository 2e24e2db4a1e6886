"""Our rules: drafted, proofread with the content, approved by somebody else, live at once."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import Any

import pytest
from sqlalchemy import func, insert, select, update

from bot.cooperative.rules import GROUPS, LONGEST_WORDS
from bot.facts.talk import Incoming
from bot.records import tables as t
from tests.doors.desk.world import MOST_BYTES, NOW, OURS, THEIRS, World

NAMES = {"name": "Mkulima", "language": "en", "vet_number": "0700000099", "authority_number": ""}
HOURS = {"allowed_from": "06:00", "allowed_to": "20:00", "routine_at": "06:30",
         "night_at": "17:30"}  # fmt: skip
LIMITS = {"budget": "", "part": "", "second_from": "50"}
VACCINES = {"water_mix": "yes", "day_0": "9", "words_0": "Gumboro, in water", "vet": "Dr. Asha"}


def drafted(world: World, group: str, role: Any = "runs", **fields: str) -> str:
    """The address of a draft."""
    answer = world.visitor(role).post(f"/desk/rules/{group}", **fields)
    assert answer.status_code == 303, answer.text
    return str(answer.headers["Location"])


def seen(page: str) -> str:
    found = re.search(r'name="seen" value="(\d+)"', page)
    assert found
    return found[1]


def approve(world: World, address: str, role: Any = "owns") -> Any:
    """Look, and approve."""
    page = world.visitor(role).get(address).text
    return world.visitor(role).post(f"{address}/approve", seen=seen(page))


def row(world: World, cooperative: int = OURS) -> Any:
    with world.db.read() as connection:
        return connection.execute(
            select(t.cooperative).where(t.cooperative.c.id == cooperative)
        ).one()


def deeds(world: World) -> list[str]:
    with world.db.read() as connection:
        found = connection.execute(select(t.audit.c.what).order_by(t.audit.c.id)).scalars()
        return list(found)


def test_the_rules_in_force_are_shown_to_everybody_but_money_and_limits(world: World) -> None:
    page = world.visitor("looks").get("/desk/rules").text
    for said in ("Mkulima", "Africa/Nairobi", "06:30", "none set", "As it was set when"):
        assert said in page
    assert "Budget and limits" not in page
    assert "Change:" not in page
    assert "Budget and limits" in world.visitor("runs").get("/desk/rules").text


def test_a_change_waits_for_somebody_else_and_then_counts_in_the_next_answer(world: World) -> None:
    address = drafted(world, "names", **{**NAMES, "name": "Kuku"})
    page = world.visitor("runs").get(address).text
    assert "nobody approves their own change" in page
    assert "Mkulima: Day" in page
    assert "Kuku: Day" in page
    number = address.rpartition("/")[2]
    own = world.visitor("runs").post(f"{address}/approve", seen="0")
    assert (own.status_code, row(world).name) == (403, "Mkulima")
    assert approve(world, address).status_code == 303
    assert (row(world).name, row(world).vet_number) == ("Kuku", "+254700000099")
    assert row(world, THEIRS).name == "Zebra"
    page = world.visitor("looks").get("/desk/rules").text
    assert "Set by Mkulima runs, approved by Mkulima owns" in page
    with world.db.read() as connection:
        about = list(connection.execute(select(t.audit.c.about)).scalars())
    assert about == [f"names, version {number}"] * 2
    assert deeds(world) == ["rules_drafted", "rules_approved"]
    answer = world.bot.take(Incoming("SM9", "ACtest", "+254700000001", "+254700000100",
                                     "blood in droppings of many", NOW))  # fmt: skip
    assert "+254700000099" in answer.texts[0]


def test_whoever_is_alone_approves_their_own(world: World) -> None:
    address = drafted(world, "place", region="UG", timezone="Africa/Kampala")
    with world.db.write() as connection:
        others = (t.staff.c.cooperative_id == OURS) & (t.staff.c.role == "owns")
        connection.execute(update(t.staff).where(others).values(disabled=True))
    assert "you approve your own change" in world.visitor("runs").get(address).text
    assert approve(world, address, "runs").status_code == 303
    assert row(world).timezone == "Africa/Kampala"


@pytest.mark.parametrize(
    ("group", "fields", "said"),
    [
        ("names", {**NAMES, "name": "Twelve chars"}, "A name of 1 to 11 plain letters"),
        ("names", {**NAMES, "name": "Kuku: hi"}, "without a colon"),
        ("names", {**NAMES, "name": "Amoxil co"}, "looks like a medicine"),
        ("names", {**NAMES, "vet_number": "12345"}, "no number that can be called"),
        ("names", {**NAMES, "vet_number": "+2547000000001234"}, "no number that can be called"),
        ("names", {**NAMES, "language": "xx"}, "Choose a language"),
        ("place", {"region": "XX", "timezone": "Africa/Nairobi"}, "Two letters of a country"),
        ("place", {"region": "KE", "timezone": "Africa/Bondeni"}, "No such time zone"),
        ("place", {"region": "KE", "timezone": "../etc/passwd"}, "No such time zone"),
        ("hours", {**HOURS, "allowed_from": "02:00"}, "between 05:00 and 22:00"),
        ("hours", {**HOURS, "routine_at": "05:30"}, "Between 06:00 and 12:00"),
        ("hours", {**HOURS, "night_at": "20:30"}, "Between 15:00 and 20:00"),
        ("hours", {**HOURS, "night_at": "noon"}, "An hour like 06:30"),
        ("hours", {**HOURS, "quiet_from_0": "06:00", "quiet_to_0": "20:00"}, "could not go at all"),
        ("hours", {**HOURS, "quiet_from_0": "14:00", "quiet_to_0": "12:00"}, "a later one"),
        ("vaccines", {**VACCINES, "day_0": "1"}, "A whole number from 2 to 57"),
        ("vaccines", {**VACCINES, "words_0": "x" * 25}, "1 to 24 plain letters"),
        ("vaccines", {**VACCINES, "words_0": "Gumboro 2 ml"}, "looks like a medicine"),
        ("vaccines", {**VACCINES, "words_0": "oxytetracycline"}, "looks like a medicine"),
        ("vaccines", {**VACCINES, "vet": ""}, "name of the vet"),
        ("vaccines", {**VACCINES, "on": "2027-01-01"}, "A day that is past"),
        ("vaccines", {**VACCINES, "day_1": "9", "words_1": "IB"}, "Day 9 stands there twice"),
        ("nights", {"warm_1": "27", "cold_1": "13"}, "all twelve months"),
        ("nights", {"warm_1": "27", "cold_1": "31"}, "not warmer than the day"),
        ("nights", {"warm_1": "99", "cold_1": "12"}, "Degrees from -20 to 50"),
        ("prices", {"chick": "free"}, "A price above 0"),
        ("prices", {"chick": "NaN"}, "A price above 0"),
        ("prices", {"chick": "-3"}, "A price above 0"),
        ("limits", {**LIMITS, "budget": "0"}, "A whole number from 1"),
        ("limits", {**LIMITS, "second_from": ""}, "A whole number from 1 to 1000"),
        ("limits", {**LIMITS, "answers_day": "500"}, "A whole number from 8 to 30"),
        ("prices", {}, "Nothing is other than it is now"),
    ],
)
def test_what_can_not_be_says_why_and_keeps_what_was_typed(
    world: World, group: str, fields: dict[str, str], said: str
) -> None:
    answer = world.visitor("runs").post(f"/desk/rules/{group}", **fields)
    assert answer.status_code == 400
    assert said in answer.text
    typed = [value for value in fields.values() if value and value not in ("en", "xx", "yes")]
    assert all(f'value="{value}"' in answer.text for value in typed)
    assert deeds(world) == []


def test_a_vet_number_that_makes_a_text_too_long_is_refused_with_that_text(world: World) -> None:
    fields = {**NAMES, "vet_number": "+49 1511 234567890"}
    answer = world.visitor("runs").post("/desk/rules/names", **fields)
    assert answer.status_code == 400
    assert "would be too long for one part" in answer.text


def test_the_vets_programme_is_kept_with_the_vet_and_the_day_and_said(world: World) -> None:
    address = drafted(world, "vaccines", **VACCINES)
    page = world.visitor("owns").get(address).text
    assert "programme for day 9: Gumboro, in water." in page.replace("&#39;", "'")
    assert approve(world, address).status_code == 303
    assert row(world).programme == [[8, "Gumboro, in water", "Dr. Asha", "2026-03-10"]]
    asked = Incoming("SM8", "ACtest", "+254700000001", "+254700000100", "which vaccine now", NOW)
    assert "day 9, Gumboro, in water." in world.bot.take(asked).texts[0]
    form = world.visitor("runs").get("/desk/rules/vaccines").text
    assert 'value="Gumboro, in water"' in form
    later = {**VACCINES, "day_1": "16", "words_1": "Newcastle, eye", "vet": "Dr. Juma",
             "on": "2026-03-09"}  # fmt: skip
    assert approve(world, drafted(world, "vaccines", **later)).status_code == 303
    assert row(world).programme == [
        [8, "Gumboro, in water", "Dr. Asha", "2026-03-10"],
        [15, "Newcastle, eye", "Dr. Juma", "2026-03-09"],
    ]


def test_the_clock_goes_by_new_hours_from_its_next_look_on(world: World) -> None:
    with world.db.write() as connection:
        ours = t.batch.c.id == world.ids[OURS]["batch"]
        connection.execute(update(t.batch).where(ours).values(next_due=NOW))
        yesterday = NOW - timedelta(days=1)
        connection.execute(update(t.phone).values(heard_at=yesterday))
    world.bot.tick()

    def next_due() -> Any:
        with world.db.read() as connection:
            query = select(t.batch.c.next_due).where(t.batch.c.id == world.ids[OURS]["batch"])
            return connection.execute(query).scalar_one()

    assert next_due().astimezone(NOW.tzinfo) == NOW.replace(hour=14, minute=30)
    approve(world, drafted(world, "hours", **{**HOURS, "night_at": "16:45"}))
    world.clock.moment = NOW + timedelta(seconds=1)
    world.bot.tick()
    assert next_due().astimezone(NOW.tzinfo) == NOW.replace(hour=13, minute=45)


def test_an_earlier_version_is_kept_and_brought_back(world: World) -> None:
    approve(world, drafted(world, "prices", chick="100"))
    approve(world, drafted(world, "prices", chick="120,5", kg="250"))
    assert row(world).prices == {"chick": 120.5, "kg": 250}
    page = world.visitor("runs").get("/desk/rules/prices").text
    past = re.findall(r"/desk/rules/version/(\d+)", page)
    assert len(past) == 3
    assert "As it was set when the service began" in page
    first = f"/desk/rules/version/{past[1]}"
    answer = world.visitor("owns").post(f"{first}/again")
    assert approve(world, str(answer.headers["Location"]), "runs").status_code == 303
    assert row(world).prices == {"chick": 100}
    again = world.visitor("owns").post(f"{first}/again")
    assert again.status_code == 400


def test_what_came_into_force_meanwhile_is_looked_at_first(world: World) -> None:
    first, second = (drafted(world, "prices", chick=price) for price in ("100", "110"))
    page = world.visitor("owns").get(second).text
    approve(world, first)
    answer = world.visitor("owns").post(f"{second}/approve", seen=seen(page))
    assert answer.status_code == 400
    assert "Meanwhile another version came into force" in answer.text
    assert row(world).prices == {"chick": 100}
    assert approve(world, second).status_code == 303
    assert world.visitor("owns").post(f"{second}/approve", seen="0").status_code == 400


def test_a_draft_that_is_altered_by_its_drafter_leaves_one(world: World) -> None:
    before = world.visitor("runs").get("/desk/rules").text.count("/desk/rules/version/")
    address = drafted(world, "prices", chick="100")
    number = address.rpartition("/")[2]
    form = world.visitor("runs").get(f"/desk/rules/prices?version={number}").text
    assert (
        'id="chick" name="chick" type="text" inputmode="decimal" autocomplete="off" value="100"'
        in (form)
    )
    drafted(world, "prices", chick="105", version=number)
    page = world.visitor("runs").get("/desk/rules").text
    assert page.count("/desk/rules/version/") == before + 1
    assert world.visitor("owns").post(f"{address}/approve", seen="0").status_code == 400
    assert row(world).prices == {}


def test_a_draft_is_put_away(world: World) -> None:
    address = drafted(world, "limits", **{**LIMITS, "budget": "5 000", "part": "0,85"})
    world.visitor("owns").post(f"{address}/drop")
    assert "Budget and limits: Put away" in world.visitor("owns").get(address).text
    assert world.visitor("owns").post(f"{address}/approve", seen="0").status_code == 400
    assert row(world).budget is None
    assert deeds(world)[-1] == "rules_dropped"


def test_budget_second_person_and_limits_are_a_cooperatives_own(world: World) -> None:
    approve(world, drafted(world, "prices", chick="100"))
    fields = {"budget": "5 000", "part": "0,85", "second_from": "2", "answers_hour": "8"}
    approve(world, drafted(world, "limits", **fields))
    kept = row(world)
    assert (kept.budget, kept.prices, kept.second_from) == (5000, {"chick": 100, "part": 0.85}, 2)
    assert kept.limits == {"answers_hour": 8}
    texts = [
        world.bot.take(Incoming(f"SM{n}", "ACtest", "+254700000001", "+254700000100",
                                f"how warm on day {n}", NOW + timedelta(seconds=70 * n))).texts
        for n in range(2, 14)
    ]  # fmt: skip
    assert sum(bool(one) for one in texts) <= 8


def test_a_budget_set_in_mid_month_counts_from_its_first_day(world: World) -> None:
    phone = {"phone_id": 1, "to_number": "+254700000001", "klass": "routine", "text": "x",
             "parts": 30, "encoding": "gsm7", "state": "delivered", "attempt": 1,
             "not_before": NOW, "created_at": NOW}  # fmt: skip
    with world.db.write() as connection:
        for key, sent in (("a", NOW - timedelta(days=2)), ("b", NOW - timedelta(days=20))):
            connection.execute(insert(t.outbox).values(business_key=key, sent_at=sent, **phone))
    approve(world, drafted(world, "limits", budget="50", part="", second_from="2"))
    visitor = world.visitor("owns")
    assert "31 of 50 parts are used" in visitor.get("/desk/costs").text
    approve(world, drafted(world, "limits", budget="20", part="", second_from="2"))
    with world.db.read() as connection:
        told = connection.execute(
            select(t.adviser.c.reason).where(t.adviser.c.kind == "budget").order_by(t.adviser.c.id)
        ).scalars()
        assert list(told) == [
            "50 % of the month's 50 parts are used",
            "100 % of the month's 20 parts are used",
        ]


def test_the_fullest_forms_are_under_25_kilobytes(world: World) -> None:
    days = {f"day_{n}": str(n + 2) for n in range(20)}
    words = {f"words_{n}": f"{'W' * (LONGEST_WORDS - 2)}{n:02}" for n in range(20)}
    quiet: dict[str, str] = {}
    for n in range(20):
        quiet |= {f"quiet_on_{n}": "date", f"quiet_date_{n}": f"2026-12-{n + 1:02}",
                  f"quiet_from_{n}": "10:00", f"quiet_to_{n}": "11:00"}  # fmt: skip
    nights = {f"{side}_{n}": value for side, value in (("warm", "31.5"), ("cold", "19.5"))
              for n in range(1, 13)}  # fmt: skip
    whole = (
        ("vaccines", {**VACCINES, **days, **words}),
        ("hours", {**HOURS, **quiet}),
        ("nights", nights),
    )
    visitor = world.visitor("owns")
    visitor.post("/desk/you/language", language="fr")
    for group, fields in whole:
        address = drafted(world, group, "runs", **fields)
        assert len(visitor.get(address).data) < MOST_BYTES
        approve(world, address)
        assert len(visitor.get(f"/desk/rules/{group}").data) < MOST_BYTES, group
    assert len(visitor.get("/desk/rules").data) < MOST_BYTES
    with world.db.read() as connection:
        live = select(func.count()).where(t.rules.c.state == "live")
        assert connection.execute(live).scalar_one() == len(whole) < len(GROUPS)


def test_another_cooperatives_version_can_not_be_taken_into_a_form(world: World) -> None:
    theirs = world.ids[THEIRS]["version"]
    answer = world.visitor("owns").get(f"/desk/rules/names?version={theirs}")
    assert answer.status_code == 404

"""Which farms need somebody today, and in which order: the rules of the trade's practice (danger
before all; a suspected disease last and alone) and of issue 10's list of needs."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from bot.cooperative.visits import (
    NEED_OF,
    NEEDS,
    NEEDS_VALUES,
    OTHER,
    WORDED,
    Farm,
    Flock,
    Line,
    groups,
    in_order,
    reason_of,
    stands,
)
from bot.handbook.load import content_folder
from bot.handbook.pages import DESK, load_own_pages

NOW = datetime(2026, 3, 10, 6, 0, tzinfo=UTC)
RUNNING = Flock(1, "running", date(2026, 3, 3), 300, troubled=True)
PLANNED = Flock(1, "planned", date(2026, 3, 12), 300)


def farm(number: int) -> Farm:
    return Farm(number, f"Farm {number}", f"+2547000001{number:02}")


def line(number: int, kind: str, hours: float = 1, **told: object) -> Line:
    flock = PLANNED if kind == "late" else RUNNING
    return Line(number, kind, NOW - timedelta(hours=hours), told, flock=flock)


def test_farms_come_in_the_order_of_their_need() -> None:
    kinds = ("call_me", "late", "silent", "behind", "deaths", "worse", "danger")
    waiting = [(farm(at), line(at, kind)) for at, kind in enumerate(kinds, 1)]
    found = in_order(waiting, [], NOW)
    assert [one.need for one in found] == [
        "danger", "worse", "deaths", "behind", "silent", "late", "call",
    ]  # fmt: skip


def test_a_suspected_disease_comes_last_and_alone_however_grave() -> None:
    held = Flock(9, "running", date(2026, 3, 3), 300, held=True)
    grave = Line(9, "danger", NOW, {"what": "notifiable"}, flock=held)
    found = in_order([(farm(9), grave), (farm(1), line(1, "call_me"))], [(farm(9), held)], NOW)
    assert [(one.farm.person_id, one.need) for one in found] == [(1, "call"), (9, "suspected")]


def test_a_suspected_disease_stays_in_sight_after_its_lines_are_settled() -> None:
    held = Flock(9, "running", date(2026, 3, 3), 300, held=True)
    assert [one.need for one in in_order([], [(farm(9), held)], NOW)] == ["suspected"]


def test_a_farm_stands_once_with_its_gravest_line_first() -> None:
    waiting = [(farm(1), line(1, "silent")), (farm(1), line(2, "danger", 5)),
               (farm(1), line(3, "deaths"))]  # fmt: skip
    found = in_order(waiting, [], NOW)
    assert len(found) == 1
    assert [one.kind for one in found[0].lines] == ["danger", "deaths", "silent"]


def test_people_in_bad_air_come_before_birds() -> None:
    waiting = [(farm(1), line(1, "danger", 1, what="blood")),
               (farm(2), line(2, "danger", 9, what="fumes"))]  # fmt: skip
    assert [one.farm.person_id for one in in_order(waiting, [], NOW)] == [2, 1]


def test_numbers_that_never_joined_are_not_thrown_together() -> None:
    nobody = Farm(None)
    found = in_order([(nobody, line(1, "danger")), (nobody, line(2, "danger"))], [], NOW)
    assert len(found) == 2


def test_a_danger_that_was_taken_back_asks_only_for_a_word() -> None:
    waiting = [(farm(1), line(1, "danger", 3, what="deaths")),
               (farm(1), line(2, "danger", 2, what="over")),
               (farm(2), line(3, "call_me"))]  # fmt: skip
    assert [one.need for one in in_order(waiting, [], NOW)] == ["call", "asked"]


def test_a_new_danger_after_one_that_was_taken_back_is_danger() -> None:
    waiting = [(farm(1), line(1, "danger", 3, what="deaths")),
               (farm(1), line(2, "danger", 2, what="over")),
               (farm(1), line(3, "danger", 1, what="blood"))]  # fmt: skip
    found = in_order(waiting, [], NOW)
    assert (found[0].need, found[0].lines[0].id) == ("danger", 3)


@pytest.mark.parametrize(
    ("kind", "changed"),
    [
        ("silent", {"heard_at": NOW}),
        ("worse", {"flock": Flock(1, "running", troubled=False)}),
        ("late", {"flock": Flock(1, "running")}),
        ("behind", {"flock": Flock(1, "closed")}),
        ("deaths", {"hours": 24 * 8}),
    ],
)
def test_what_has_settled_by_itself_waits_no_more(kind: str, changed: dict[str, object]) -> None:
    hours = float(str(changed.get("hours", 1)))
    before = line(1, kind, 1)
    assert stands(farm(1), before, NOW)
    flock = changed.get("flock", before.flock)
    heard = changed.get("heard_at")
    assert isinstance(flock, Flock)
    after = Line(1, kind, NOW - timedelta(hours=hours), flock=flock)
    assert not stands(Farm(1, heard_at=heard if isinstance(heard, datetime) else None), after, NOW)


def test_whoever_asked_to_be_called_waits_though_the_batch_is_over() -> None:
    over = Line(1, "call_me", NOW, flock=Flock(1, "closed"))
    assert stands(farm(1), over, NOW)


def test_groups_hold_every_farm_once_in_order() -> None:
    waiting = [(farm(at), line(at, kind)) for at, kind in enumerate(NEED_OF, 1)]
    found = groups(in_order(waiting, [], NOW))
    assert [one.need for one in found] == sorted({*NEED_OF.values()}, key=NEEDS.index)
    assert sum(len(one.visits) for one in found) == len(NEED_OF)


def test_silence_is_counted_on_to_today() -> None:
    told = line(1, "silent", 24 * 3, days=2, day=5)
    assert reason_of(told, NOW.date(), told.at.date()).values == {"days": 5}


def test_days_to_arrival_are_those_of_today() -> None:
    told = line(1, "late", 48, steps=["clean_house"], days=4)
    found = reason_of(told, NOW.date(), told.at.date())
    assert (found.values["days"], found.steps) == (2, ("clean_house",))


def test_what_was_told_in_full_is_worded_in_full_and_the_rest_simply() -> None:
    full = reason_of(line(1, "danger", what="deaths", dead=12, alive=300), NOW.date(), NOW.date())
    assert (full.key, full.values) == ("danger_deaths_of", {"dead": 12, "alive": 300})
    fewer = reason_of(line(1, "danger", what="deaths", dead=12, alive=None), NOW.date(), NOW.date())
    assert fewer.key == "danger_deaths"
    bare = reason_of(line(1, "danger"), NOW.date(), NOW.date())
    assert (bare.key, bare.values) == ("danger", {})


@pytest.mark.parametrize("code", ["en", "fr", "sw"])
def test_every_reason_and_need_has_its_words(code: str) -> None:
    words = load_own_pages(content_folder(), DESK)[code]
    for key, names in NEEDS_VALUES.items():
        said = words[f"reason.{key}"].format(**dict.fromkeys(names, "7"))
        assert said.count("7") >= len(names), key
    assert all(f"reason.{kind}" in words for kind in (*WORDED, OTHER))
    assert reason_of(line(1, "new_kind"), NOW.date(), NOW.date()).key == OTHER
    assert all(f"need.{need}" in words for need in NEEDS)

"""Every page of the desk, read from the application, in every role, and for another cooperative."""

from __future__ import annotations

import re
from typing import Any

import pytest
from werkzeug.routing import Rule

from bot.cooperative.may import ROLES, Role, may
from bot.cooperative.rules import GROUPS
from bot.doors.desk.door import open_desk
from tests.doors.desk.world import FOREIGN, MOST_BYTES, OURS, THEIRS, World, counted

OPEN = {"desk.sign_in", "desk.style", "desk.nowhere"}  # what nobody need be signed in for
# Statements of a page at most, that of who is signed in among them; 1 where none is named here.
QUERIES = {
    "desk.enrol_list": 2,
    "desk.unread": 2,
    "desk.unread_one": 2,
    "desk.visits": 4,
    "desk.visits_paper": 4,
    "desk.visit": 6,
    "desk.many": 3,
    "desk.many_one": 3,
    "desk.farms": 2,
    "desk.farm": 6,
    "desk.entry": 3,
    "desk.person_held": 3,
    "desk.costs": 5,
    "desk.rules": 2,
    **{f"desk.rules_{group}": 2 for group in GROUPS},
    "desk.rules_version": 4,
    "desk.who_may": 2,
    "desk.who_one": 2,
    "desk.who_done": 2,
}


def rules(world: World) -> list[Rule]:
    return [one for one in world.app.url_map.iter_rules() if one.rule.startswith("/desk")]


def methods(rule: Rule) -> set[str]:
    return (rule.methods or set()) - {"HEAD", "OPTIONS"}


def path_of(world: World, rule: Rule, cooperative: int = OURS) -> str:
    """The rule's path with the numbers of that cooperative. A new name of an argument belongs into
    the ids of tests/doors/desk/world.py."""
    values: dict[str, Any] = {name: world.ids[cooperative][name] for name in rule.arguments}
    with world.app.test_request_context():
        return world.app.url_for(rule.endpoint, **values)


def needs(world: World) -> dict[str, Role | None]:
    return open_desk(world.bot).needs


def guarded(world: World) -> list[tuple[Rule, str, Role]]:
    """Every page and method that somebody must be signed in for, with the role that it needs."""
    found, stated = [], needs(world)
    for rule in rules(world):
        role = stated[rule.endpoint]
        if role is not None:
            found += [(rule, method, role) for method in sorted(methods(rule))]
    return found


def test_every_page_states_whom_it_is_for(world: World) -> None:
    stated = needs(world)
    assert {one.endpoint for one in rules(world)} == set(stated)
    assert {endpoint for endpoint, role in stated.items() if role is None} == OPEN


def test_whoever_is_not_signed_in_is_led_to_the_door(world: World) -> None:
    nobody = world.visitor(None)
    for rule, method, _ in guarded(world):
        answer = nobody.client.open(path_of(world, rule), method=method)
        assert answer.status_code == 303, rule
        assert answer.headers["Location"].startswith("/desk/in"), rule


@pytest.mark.parametrize("role", ROLES)
def test_each_role_sees_what_it_may_and_nothing_else(world: World, role: Role) -> None:
    for rule, method, least in guarded(world):
        if rule.endpoint == "desk.sign_out":
            continue
        visitor = world.visitor(role)
        path = path_of(world, rule)
        answer = visitor.get(path) if method == "GET" else visitor.post(path)
        if may(role, least):
            assert answer.status_code in (200, 303, 400), (rule, method)
        else:
            assert answer.status_code == 403, (rule, method)


def test_a_form_without_its_token_changes_nothing(world: World) -> None:
    visitor = world.visitor("owns")
    posted = [rule for rule, method, _ in guarded(world) if method == "POST"]
    assert posted
    for rule in posted:
        answer = visitor.client.post(path_of(world, rule), data={"form_token": "00" * 64})
        assert answer.status_code == 400, rule


@pytest.mark.parametrize("role", ROLES)
def test_what_is_another_cooperatives_is_nowhere(world: World, role: Role) -> None:
    visitor = world.visitor(role)
    for rule, method, least in guarded(world):
        if not may(role, least) or not rule.arguments:
            continue
        path = path_of(world, rule, THEIRS)
        answer = visitor.get(path) if method == "GET" else visitor.post(path)
        assert answer.status_code == 404, (rule, method)
        assert FOREIGN not in answer.text, rule


def test_no_page_shows_anything_of_another_cooperative(world: World) -> None:
    for rule, method, _ in guarded(world):
        if method == "GET":
            answer = world.visitor("owns").get(path_of(world, rule))
            assert FOREIGN not in answer.text, rule
            theirs = world.visitor("owns", THEIRS).get(path_of(world, rule, THEIRS))
            assert "Mkulima" not in theirs.text, rule


def test_a_page_is_small_and_asks_the_database_a_fixed_number_of_times(world: World) -> None:
    for rule, method, role in guarded(world):
        if method == "GET":
            with counted(world.db) as statements:
                answer = world.visitor("owns").get(path_of(world, rule))
            assert len(statements) <= QUERIES.get(rule.endpoint, 1), (rule, statements)
            assert len(answer.get_data()) < MOST_BYTES, rule
            assert role is not None


@pytest.mark.parametrize("value", ["9" * 30, "2147483648", "-" + "9" * 12])
def test_a_number_that_no_row_can_have_is_nowhere(world: World, value: str) -> None:
    visitor = world.visitor("owns")
    for rule, method, _ in guarded(world):
        path = path_of(world, rule)
        for argument in rule.arguments:
            own = str(world.ids[OURS][argument])
            asked = path.replace(f"/{own}", f"/{value}", 1)
            answer = visitor.client.open(asked, method=method)
            assert answer.status_code in (404, 405), (rule, method)
    for path in ("/desk/farms?after=", "/desk/who/done?before=", "/desk/farm/1?batch="):
        assert visitor.get(path + value).status_code == 404


@pytest.mark.parametrize("language", ["en", "fr", "sw"])
def test_every_page_can_be_said_in_every_language(world: World, language: str) -> None:
    visitor = world.visitor("owns")
    visitor.post("/desk/you/language", language=language)
    for rule, method, _ in guarded(world):
        if method == "GET":
            answer = visitor.get(path_of(world, rule))
            if answer.status_code == 200:
                assert f'<html lang="{language}">' in answer.text, rule
                assert answer.text.count("<h1>") == 1, rule


def test_the_navigation_marks_where_one_is_below_a_page_too(world: World) -> None:
    marked: dict[str, list[tuple[str, str]]] = {}
    visitor = world.visitor("owns")
    for rule, method, _ in guarded(world):
        page = visitor.get(path_of(world, rule)) if method == "GET" else None
        if page is not None and page.status_code == 200:
            nav = page.text[page.text.index("<nav") : page.text.index("</nav>")]
            found = re.findall(r'href="/desk/(\w+)" aria-current="(\w+)"', nav)
            marked[rule.endpoint.removeprefix("desk.")] = found
    assert marked["farms"] == [("farms", "page")]
    for below in ("farm", "entry", "person_held"):
        assert marked[below] == [("farms", "true")]
    assert marked["who_one"] == [("who", "true")]
    assert [name for name, found in marked.items() if len(found) != 1] == ["you"]

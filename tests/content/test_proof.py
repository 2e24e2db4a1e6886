"""The content passes its proof, and the proof refuses each fault planted in a copy of it."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from bot.proof.proofread import proofread

CONTENT = Path(__file__).parents[2] / "content"
EN = "languages/en"


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """A copy of the content to spoil."""
    return shutil.copytree(CONTENT, tmp_path / "content")


@pytest.fixture(scope="session")
def standing() -> frozenset[str]:
    """What the proof says of the content as it is."""
    return frozenset(str(fault) for fault in proofread(CONTENT))


def put(copy: Path, file: str, pattern: str, instead: str) -> None:
    """Replace the first place in a file that matches; the file must have one."""
    path = copy / file
    text, times = re.subn(pattern, lambda _: instead, path.read_text("utf-8"), count=1, flags=re.M)
    assert times == 1, f"{pattern} is not in {file}"
    path.write_text(text, "utf-8")


def add(copy: Path, file: str, line: str) -> None:
    """Put a line at the end of a file."""
    with (copy / file).open("a", encoding="utf-8") as end:
        end.write(f"\n{line}\n")


def say(key: str, text: str, file: str = "answers") -> Callable[[Path], None]:
    """Plant an English wording in place of the one that stands."""
    return lambda copy: put(copy, f"{EN}/{file}.yaml", rf"^{key}: .*$", f'{key}: "{text}"')


def change(file: str, pattern: str, instead: str) -> Callable[[Path], None]:
    return lambda copy: put(copy, file, pattern, instead)


def append(file: str, line: str) -> Callable[[Path], None]:
    return lambda copy: add(copy, file, line)


def two_meanings(copy: Path) -> None:
    put(copy, "languages/fr/words.yaml", r"^  cold: \[", "  cold: [zanzi, ")
    put(copy, "languages/sw/words.yaml", r"^  hot: \[", "  hot: [zanzi, ")


def falls_by_its_own_word(copy: Path) -> None:
    put(copy, "husbandry/space.yaml", r"steps: \[\[0, 0\].*\]\]", "steps: [[0, 6], [4, 1]]")
    put(copy, "husbandry/space.yaml", r"^dark_piece:\n", "dark_piece:\n  falls: true\n")


LONG = "{n} {date} " + "x" * 143  # with 2000 and Wednesday 28 it takes 161 septets
JUST = "{n} {date} " + "x" * 142
MET = (
    "met: {text: hands, from: 25, slot: morning, priority: 0, essential: true, "
    "source: [common-practice]}"
)

# What is planted, and a piece of the line by which the proof names it.
FAULTS: dict[str, tuple[Callable[[Path], None], str]] = {
    "a missing key": (
        change(f"{EN}/answers.yaml", r"^alive_now: .*\n", ""),
        "alive_now: is missing in this language",
    ),
    "a missing word of a list": (
        change(f"{EN}/terms.yaml", r"^  fumes: .*\n", ""),
        "cause.fumes: is missing",
    ),
    "a placeholder that differs": (say("alive_now", "{alive} alive."), "alive_now: places alive"),
    "a placeholder that reaches into a value": (
        say("alive_now", "{n.real} alive."),
        "alive_now: {n.real}",
    ),
    "161 characters at the longest values": (say("known_already", LONG), "takes 161 septets"),
    "a letter outside ASCII": (say("welcome", "Welcome caf\u00e9"), "only plain ASCII is sent"),
    "a letter that costs two septets": (say("welcome", "Welcome [you]"), "costs two septets"),
    "roles that do not fit beside each other": (
        change("texts/roles.yaml", r"^  ask: 46", "  ask: 47"),
        "signer + day + sign + task + ask",
    ),
    "a figure without source": (
        change("husbandry/space.yaml", r"source: \[ROSS-HB-2018\], ", ""),
        "source: is missing",
    ),
    "a number without source in a file of its own": (
        lambda copy: add(copy, "more.yaml", "spoons: {least: 3}"),
        "spoons.least: the number 3 carries no source",
    ),
    "a text that gives a number without source": (
        change("texts/answers.yaml", r"^on_space: .*$", "on_space: {role: whole}"),
        "on_space: gives a number without a source",
    ),
    "a source that is nowhere": (
        change("calendar/growing.yaml", r"source: \[common-practice\]", "source: [HEARSAY]"),
        "HEARSAY",
    ),
    "a table that falls with age": (
        change("husbandry/space.yaml", r"steps: \[\[0, 0\], \[4, 1\]", "steps: [[0, 2], [4, 1]"),
        "dark_piece.steps: falls from 2 to 1",
    ),
    "a table that says itself that it falls": (
        falls_by_its_own_word,
        "dark_piece: the table falls from 6 to 1",
    ),
    "a duplicate key": (append(f"{EN}/answers.yaml", 'noted: "Twice."'), "noted: stands twice"),
    "a screen that is too long": (
        say("screen_ill", "How do the weak ones among them look?", "screens"),
        "screens.yaml: screen_ill: the screen takes 154 septets at its longest; it holds 150",
    ),
    "a sixth choice": (
        change(
            "screens.yaml",
            r"^      - {label: to_where.*$",
            "      - {label: to_where, ask: behaviour}\n      - {label: to_deaths, ask: deaths}",
        ),
        "menus.home.choices: must be 1 to 5",
    ),
    "a menu that nothing leads to": (
        change(
            "screens.yaml",
            r"^      - {label: to_ill, menu: ill}$",
            "      - {label: to_ill, menu: air}",
        ),
        "menus.ill: is reached from nowhere",
    ),
    "a menu that leads too deep": (
        change(
            "screens.yaml",
            r"^      - {label: few, many: false}$",
            "      - {label: few, menu: weather}",
        ),
        "menus.weather: is screen 5; 5 in all, the answer too",
    ),
    "a choice of an unknown sign": (
        change("screens.yaml", r"see: bloody_droppings", "see: bloody_water"),
        "see: 'bloody_water' is not known",
    ),
    "an unknown key": (
        append(f"{EN}/answers.yaml", 'unheard_of: "Hm."'),
        "unheard_of: is not listed",
    ),
    "a word with two meanings": (two_meanings, "'zanzi' also means its opposite"),
    "an answer with two meanings": (
        change("languages/fr/language.yaml", r"^  wet: \[", "  wet: [zanzi]\n  caked: [zanzi, "),
        "stands twice",
    ),
    "a fire clause missing": (
        say("cold_charcoal", "Likely too cold. Light one more stove outside.", "actions"),
        "cold_charcoal: a fire clause is missing",
    ),
    "heat that is not flagged": (
        say("welcome", "Add more heat. Top open on two sides."),
        "must flag it fire: true",
    ),
    "close everything": (
        say("believe_hot", "Now close everything.", "actions"),
        "believe_hot: tells to close everything",
    ),
    "an opening that makes a fire safe": (
        say("draught", "With the top open the stove is safe.", "actions"),
        "draught: calls a fire or its air safe",
    ),
    "a curtain that goes up": (
        say("hot_open", "Pull all curtains up, cool water.", "actions"),
        "hot_open: curtains open and close",
    ),
    "a stove carried out without saying how": (
        say("hot_stove_out", "Carry one stove out.", "actions"),
        "hot_stove_out: a stove is carried out without saying how",
    ),
    "close everything, in Swahili": (
        change(
            "languages/sw/actions.yaml", r"^believe_hot: .*$", 'believe_hot: "Funga kila kitu."'
        ),
        "sw/actions.yaml: believe_hot: tells to close everything",
    ),
    "close everything, in French": (
        change("languages/fr/actions.yaml", r"^believe_hot: .*$", 'believe_hot: "Fermez tout."'),
        "fr/actions.yaml: believe_hot: tells to close everything",
    ),
    "a stove lit without the clause, in Swahili": (
        change("languages/sw/answers.yaml", r"^welcome: .*$", 'welcome: "Washa jiko nje."'),
        "sw/answers.yaml: welcome: a fire clause is missing",
    ),
    "a stove lit without the clause, in French": (
        change("languages/fr/answers.yaml", r"^welcome: .*$", 'welcome: "Allumez un fourneau."'),
        "fr/answers.yaml: welcome: a fire clause is missing",
    ),
    "an opening that makes a fire safe, in Swahili": (
        change(
            "languages/sw/answers.yaml", r"^welcome: .*$", 'welcome: "Ukifungua, jiko ni salama."'
        ),
        "sw/answers.yaml: welcome: calls a fire or its air safe",
    ),
    "an opening that makes a fire safe, in French": (
        change(
            "languages/fr/answers.yaml",
            r"^welcome: .*$",
            'welcome: "Ouvert, le feu est sans danger."',
        ),
        "fr/answers.yaml: welcome: calls a fire or its air safe",
    ),
    "a medicine": (say("on_treatment", "Give oxytetracycline. {vet}"), "names a medicine"),
    "a disinfectant": (say("on_cleaning", "Wash with bleach."), "names a disinfectant"),
    "a dose": (say("on_cleaning", "Take 5 ml a litre."), "gives a dose or a strength"),
    "a breed": (say("on_cleaning", "As Cobb says."), "names a publisher, a breed or a library"),
    "two essentials on an unlisted day": (
        append("calendar/growing.yaml", MET),
        "two essentials meet on an unlisted day",
    ),
    "a listed meeting that no longer happens": (
        change("calendar/meetings.yaml", r'^  - "age 7: .*$', '  - "age 6: widen_7, mix_1"'),
        "no longer happens",
    ),
}


def test_the_content_is_right(standing: frozenset[str]) -> None:
    assert not standing


@pytest.mark.parametrize(("plant", "named"), FAULTS.values(), ids=FAULTS.keys())
def test_a_planted_fault_is_named(
    plant: Callable[[Path], None], named: str, copy: Path, standing: frozenset[str]
) -> None:
    plant(copy)
    more = [str(fault) for fault in proofread(copy) if str(fault) not in standing]
    assert any(named in line for line in more), more


def test_a_text_that_just_fits_is_right(copy: Path, standing: frozenset[str]) -> None:
    say("known_already", JUST)(copy)
    assert {str(fault) for fault in proofread(copy)} <= standing


def test_what_a_missing_file_hides_is_all_that_is_hidden(copy: Path) -> None:
    (copy / EN / "fire.yaml").unlink()
    say("alive_now", "{alive} alive.")(copy)
    found = [str(fault) for fault in proofread(copy)]
    assert any("fire.yaml" in line for line in found)
    assert any("alive_now: places alive" in line for line in found)

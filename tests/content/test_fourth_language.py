"""A fourth language comes with its folder alone: proofread, understood, spoken, chosen by its name.

The folder is a small Portuguese one (fourth/pt): STOP, deaths, temperature, the eight signs of
danger and four others, and the texts that no language may leave to another.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from bot.doors.cli.group import broodpost
from bot.doors.cli.rehearse import rehearse_one
from bot.doors.rehearsal import Rehearsal
from bot.errors import HandbookError
from bot.handbook.texts import load_texts
from bot.handbook.words import load_examples
from bot.proof.heard import check_heard
from bot.proof.proofread import proofread
from bot.wiring import Thinking, build_thinking
from tests.understand.reading import read

CONTENT = Path(__file__).parents[2] / "content"
FOURTH = Path(__file__).parent / "fourth" / "pt"
CONTEXT = {"has_batch": True, "age_days": 5, "count": 300, "today": "2026-03-04"}
Play = Callable[..., list[dict[str, Any]]]


def with_fourth(folder: Path) -> Path:
    """A copy of the content with the fourth language in it."""
    content = shutil.copytree(CONTENT, folder / "content")
    shutil.copytree(FOURTH, content / "languages" / "pt")
    return content


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return with_fourth(tmp_path_factory.mktemp("four"))


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """One to spoil."""
    return with_fourth(tmp_path)


@pytest.fixture(scope="module")
def four(content: Path) -> Thinking:
    return build_thinking(str(content))


@pytest.fixture(scope="module")
def play(four: Thinking) -> Play:
    rehearsal = Rehearsal(four)

    def played(lang: str, *texts: str) -> list[dict[str, Any]]:
        turns = [{"in": one} for one in texts]
        given = {"id": 1, "lang": lang, "context": CONTEXT, "turns": turns}
        return list(rehearse_one(rehearsal, given)["turns"])

    return played


def said(turn: dict[str, Any]) -> str:
    """The one text that a turn was answered with."""
    (one,) = turn["out"]
    assert (one["parts"], one["encoding"]) == (1, "gsm7")
    return str(one["text"])


def cut(file: Path, key: str) -> None:
    """Take a text of one line out of a file."""
    lines = file.read_text("utf-8").splitlines(keepends=True)
    left = [line for line in lines if not line.startswith(f"{key}:")]
    assert len(left) == len(lines) - 1
    file.write_text("".join(left), "utf-8")


def test_the_folder_alone_passes_the_proof_which_lists_what_is_not_worded_yet(
    content: Path,
) -> None:
    ended = CliRunner().invoke(broodpost, ["proof", str(content)])
    assert ended.exit_code == 0, ended.output
    assert "languages (en, fr, pt, sw)" in ended.output
    told = " ".join(ended.output.split())
    assert re.search(
        r"pt/daily.yaml: \d+ not yet worded, said in English: [a-z_0-9, ]*paper_off", told
    )
    assert "danger_blood" not in told


def test_a_dialogue_of_four_turns_is_held_in_it(content: Path) -> None:
    turns = ["os pintos estão encostados nas paredes", "1", "3 mortos hoje", "parar"]
    given = {"id": 1, "lang": "pt", "context": CONTEXT, "turns": [{"in": one} for one in turns]}
    ended = CliRunner().invoke(
        broodpost, ["rehearse", "--content", str(content)], input=json.dumps(given) + "\n"
    )
    asked, told, dead, stopped = json.loads(ended.stdout)["turns"]
    assert asked["signals"] == ["at_edges_or_walls"]
    assert asked["asked"]
    assert said(asked) == "Veja os bicos: estao abertos, a arfar? 1 sim 2 nao"
    assert told["cause"] == "hot"
    assert said(told).startswith("Sim: bicos abertos. Calor a mais, creio. Abra mais um lado")
    assert said(told).endswith("Perguntamos de novo as 09:30.")
    assert dead["intent"] == "deaths"
    assert said(dead).startswith("Anotado: 3 mortos. Como estao os outros?")
    assert stopped["intent"] == "stop"
    assert said(stopped).startswith("Nao recebe mais mensagens nossas.")


def test_every_example_of_it_is_understood(four: Thinking, content: Path) -> None:
    for one in load_examples(content / "languages" / "pt"):
        got = read(four, one.text, lang="pt", **one.context)
        assert got["intent"] in (one.intent, *one.also), one.text
        printed = [sign for sign in one.signals if not four.handbook.causes.signs[sign].ours]
        assert got["signals"] == printed, one.text
        assert got["not_signals"] == list(one.not_signals), one.text
        assert got["red_flag"] == one.red_flag, one.text
        assert got["slots"].items() >= one.slots.items(), one.text


@pytest.mark.parametrize(
    ("told", "dead"), [("4 em vez de 3 mortos hoje", 4), ("3 em vez de 4 mortos hoje", 3)]
)
def test_its_little_words_are_heard_by_its_folder_alone(
    four: Thinking, told: str, dead: int
) -> None:
    assert read(four, told, lang="pt")["slots"]["deaths"] == dead


@pytest.mark.parametrize("asked", ["Português", "portuguese please"])
def test_a_farmer_gets_it_by_its_name(play: Play, asked: str) -> None:
    chosen, after = play("en", asked, "há sangue nas fezes")
    assert said(chosen) == "A partir de agora escrevo em portugues."
    assert after["referred"]
    assert said(after).startswith("PERIGO, sangue nas fezes. Chame ja o veterinario +2547")


def test_a_farmer_gets_it_from_the_menu_of_all_languages(play: Play) -> None:
    menu, chosen = play("en", "change language", "4")
    assert said(menu) == "Which language? 1 English 2 Francais 3 Kiswahili 4 Portugues"
    assert said(chosen) == "A partir de agora escrevo em portugues."


def test_a_text_not_worded_yet_is_said_wholly_in_the_language_it_falls_back_to(
    play: Play,
) -> None:
    (second,) = play("pt", "300 pintos hoje")
    assert said(second).startswith("You have 300 from Friday 27 with me.")


def test_whoever_chose_a_language_that_was_taken_away_is_answered_in_english(
    thinking: Thinking,
) -> None:
    assert thinking.handbook.texts.speaker("stopped", "pt").code == "en"


@pytest.mark.parametrize(
    ("file", "key"),
    [
        ("actions", "danger_blood"),
        ("actions", "fumes_fire"),
        ("daily", "fumes"),
        ("answers", "stopped"),
    ],
)
def test_danger_fire_and_stop_must_be_worded(copy: Path, file: str, key: str) -> None:
    cut(copy / "languages" / "pt" / f"{file}.yaml", key)
    faults = [str(one) for one in proofread(copy)]
    assert faults == [f"languages/pt/{file}.yaml: {key}: is missing in this language"]


def test_a_danger_of_which_no_example_is_understood_is_named(copy: Path) -> None:
    file = copy / "languages" / "pt" / "signs.yaml"
    text = file.read_text("utf-8")
    file.write_text(text.replace('gasping: {"yes": ["<gasp>"]}', "gasping: {}"), "utf-8")
    examples = copy / "languages" / "pt" / "examples.yaml"
    told = examples.read_text("utf-8")
    examples.write_text(told.replace("muitos com falta de ar", "muitos sem folego"), "utf-8")
    named = [(one.file, one.key) for one in check_heard(copy)]
    assert named == [("languages/pt/examples.yaml", "gasping")]


def test_a_sign_of_danger_may_not_be_left_out(copy: Path) -> None:
    cut(copy / "languages" / "pt" / "signs.yaml", "gasping")
    assert [str(one) for one in proofread(copy)] == ["languages/pt/signs.yaml: gasping: is missing"]


def test_without_its_fire_words_no_text_of_it_is_believed(copy: Path) -> None:
    (copy / "languages" / "pt" / "fire.yaml").unlink()
    faults = [str(one) for one in proofread(copy)]
    assert faults == [
        "languages/pt/fire.yaml: (file): is missing: the fire rules need this language's words"
    ]


def test_a_language_can_only_fall_back_to_one_that_words_everything(copy: Path) -> None:
    file = copy / "languages" / "pt" / "language.yaml"
    text = file.read_text("utf-8").replace("falls_back_to: en", "falls_back_to: pt")
    file.write_text(text, "utf-8")
    with pytest.raises(HandbookError, match="must name a language that words everything"):
        load_texts(copy)

"""What a trainer does on the desk, from the first page to the last, in a real browser: on a
desktop, on the same without scripts, and on a phone of 320 pixels."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from openpyxl import load_workbook

from tests.browser.conftest import STRANGE, prove
from tests.browser.lists import FAULTS, FAULTY, KNOWN, NEW, ROWS, write_list
from tests.browser.trainer import Trainer, serious

SAYINGS = {
    "en": ("they are piled up and cheeping loudly", "too cold"),
    "fr": ("ils sont entasses et ils crient", "trop froid"),
    "sw": ("wamerundikana na wanalia sana", "baridi"),
}


def test_nobody_gets_in_with_a_wrong_password(stranger: Trainer) -> None:
    stranger.driver.delete_all_cookies()
    stranger.open("/in?lang=en")
    stranger.fill("name", "demo")
    stranger.fill("password", "not the password")
    stranger.press("Sign in")
    assert "do not belong together" in stranger.words
    stranger.open("/visits")
    assert stranger.title == "Sign in"


def test_an_owner_signs_in_with_a_second_factor(half_owner: Trainer) -> None:
    half_owner.open("/who")
    assert half_owner.title == "Prove that it is you"
    half_owner.fill("code", "000000")
    half_owner.press("Go on")
    assert "That is not the code of this moment." in half_owner.words
    prove(half_owner, "Who may")


def test_a_thousand_farms_are_enrolled_from_a_spreadsheet_once(
    trainer: Trainer, tmp_path: Path
) -> None:
    path = tmp_path / "members.xlsx"
    faulty = write_list(path)
    _try(trainer, path)
    for said in (f"new: {NEW} ", f"as before: {KNOWN} ", f"wrong: {FAULTS} ", "Acres"):
        assert said in trainer.words, said
    trainer.follow(f"wrong: {FAULTS}")
    rows = [one.text for one in trainer.all("tbody tr")]
    assert [int(one.split()[1]) for one in rows] == faulty
    for place, row in enumerate(rows):
        assert FAULTY[place % len(FAULTY)][1] in row
    trainer.press(f"Invite {NEW}")
    assert f"Done. Phones that are asked: {NEW}." in trainer.words
    book = load_workbook(trainer.take("Result file (XLSX)"), read_only=True)
    assert sum(1 for _ in book.worksheets[0].rows) == ROWS + 1
    book.close()
    _try(trainer, path)
    assert "There is nothing to do" in trainer.words
    assert f"as before: {NEW + KNOWN} " in trainer.words


def _try(trainer: Trainer, path: Path) -> None:
    trainer.follow("Enrol")
    trainer.fill("list", str(path))
    trainer.press("Try the list")


def test_the_farm_in_danger_stands_first_and_is_visited(trainer: Trainer) -> None:
    trainer.follow("Visits")
    assert trainer.all("h2")[0].text.startswith("Danger")
    farms = [one.text for one in trainer.all("ol.visits h3")]
    first = farms[0]
    trainer.follow("Reasons, and write a visit down")
    name = first.partition(",")[0]
    assert trainer.title == f"Visit: {name}"
    trainer.fill("note", "Went there at once; moved the stove outside, everybody is well.")
    trainer.press("Keep it")
    assert "off the list" in trainer.words
    assert trainer.all("ol.visits h3")[0].text == farms[1]
    trainer.follow("List to print")
    on_paper = [one.text.split("\n")[0] for one in trainer.all("table.paper tbody th")]
    assert name not in on_paper
    assert on_paper[0] == farms[1].partition(",")[0]
    trainer.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    printed = [one.is_displayed() for one in trainer.all("header, form, .noprint")]
    trainer.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})
    assert printed
    assert not any(printed)


def test_a_word_is_taught_and_approved(trainer: Trainer) -> None:
    trainer.follow("Unread words")
    trainer.follow(STRANGE)
    trainer.choose("word", "frimbling")
    trainer.fill("means", "panting")
    trainer.press("See what would change")
    assert "frimbling = panting" in trainer.words
    assert "Answer with the word" in trainer.words
    trainer.press("Approve the word")
    assert "The word is taught." in trainer.words
    assert STRANGE not in trainer.words
    assert "frimbling = panting" in trainer.words


@pytest.mark.parametrize("language", SAYINGS)
def test_the_practice_phone_answers_in_each_language(trainer: Trainer, language: str) -> None:
    said, holds = SAYINGS[language]
    trainer.follow("Practice phone")
    trainer.choose("language", language)
    trainer.choose("begins", "day_4")
    trainer.press("Take the phone")
    trainer.fill("text", said)
    trainer.press("Send it")
    texts = trainer.all("ol.texts li p[lang]")
    assert {one.get_attribute("lang") for one in texts} == {language}
    assert texts[-2].text == said
    assert holds in texts[-1].text.lower()
    trainer.press("1 day")
    assert "1 day" in trainer.words


def test_a_farm_shows_its_curves_and_older_texts_and_gets_a_letter(trainer: Trainer) -> None:
    trainer.follow("Farms")
    trainer.fill("wanted", "Lulu")
    trainer.press("Find")
    trainer.follow("Lulu")
    assert len(trainer.all("figure svg")) == 2
    trainer.follow("Weight")
    assert len(trainer.all("figure svg")) == 1
    assert len(trainer.all("table.figures tbody tr")) > 4
    newest = trainer.all("ol.texts li")[0].text
    trainer.follow("Older")
    assert newest not in [one.text for one in trainer.all("ol.texts li")]
    trainer.follow("Back to the farm")
    trainer.fill("body", "I come on Monday at ten.")
    trainer.press("See how it will look")
    assert "I come on Monday at ten." in trainer.all("blockquote")[0].text
    trainer.press("Send it")
    assert "The text is on its way to the farmer." in trainer.words
    assert "I come on Monday at ten." in trainer.all("ol.texts li")[0].text


def test_what_is_said_to_many_waits_for_a_second_person_and_can_be_stopped(
    owner: Trainer, another_owner: Callable[[], Trainer]
) -> None:
    said = "The meeting is on Friday at nine."
    owner.follow("Say to many")
    owner.fill("body", said)
    owner.press("See to how many")
    shown = owner.words
    assert said in shown
    assert all(word in shown for word in ("People", "Parts in all", "Cost"))
    assert "somebody else of your cooperative must agree" in shown
    owner.press("Keep it for a second person")
    assert "nobody agrees to a text of their own" in owner.words
    assert not any(one.text.startswith("I agree") for one in owner.all("button"))
    second = another_owner()
    second.follow("Say to many")
    second.follow("Mkulima (Owner)")
    second.press("I agree")
    assert "What became of it" in second.words
    second.press("Stop it")
    assert second.title == "Said to many"
    assert "stopped" in second.words


def test_an_owner_lets_somebody_in_who_chooses_a_password(owner: Trainer) -> None:
    owner.follow("Who may")
    owner.fill("name", "Neema")
    owner.fill("sign_in", "neema")
    owner.choose("role", "enrols")
    owner.press("Let somebody in")
    assert owner.title == "Password for Neema"
    password = owner.all("dd.code")[1].text
    owner.follow("Who may")
    owner.follow("What was done")
    assert "Owner" in owner.words
    owner.press("Sign out")
    owner.fill("name", "neema")
    owner.fill("password", password)
    owner.press("Sign in")
    assert "Choose one of your own" in owner.words


def test_every_page_of_the_desk_fits_the_screen(owner: Trainer) -> None:
    pages = [one.get_attribute("href") for one in owner.all("nav a")]
    assert len(pages) > 6
    for page in pages:
        assert page
        owner.open(page.removeprefix(owner.address))
        assert owner.title


def test_what_is_planted_is_found(stranger: Trainer) -> None:
    """The watchers themselves: a page that is too wide, a button without a name, a script."""
    stranger.driver.get(
        "data:text/html,<html lang=en><title>a</title><h1>a</h1><button></button>"
        "<script>document.title='ran'</script><p style='width:2000px'>wide"
    )
    assert (stranger.driver.title == "ran") == stranger.screen.scripts
    with pytest.raises(AssertionError, match="sideways"):
        stranger.look()
    if stranger.screen.scripts:
        assert any(one.startswith("button-name") for one in serious(stranger.driver))

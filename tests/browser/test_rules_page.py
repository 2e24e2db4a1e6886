"""Our rules in a real browser: what can't go is refused beside what was typed; a change waits for
somebody else, who sees what farmers would get tomorrow."""

from __future__ import annotations

from collections.abc import Callable

from tests.browser.trainer import Trainer

SAID = "Fowl pox, wing"


def test_a_change_of_the_rules_is_seen_before_it_counts_and_approved_by_another(
    owner: Trainer, another_owner: Callable[[], Trainer]
) -> None:
    owner.follow("Our rules")
    assert "Gumboro, in water" in owner.words
    owner.follow("Change: What our vet set")
    owner.fill("day_3", "29")
    owner.fill("words_3", "Amoxicillin")
    owner.fill("vet", "Dr. Wema")
    owner.press("See what it would change")
    assert "looks like a medicine" in owner.words
    owner.fill("words_3", SAID)
    owner.press("See what it would change")
    assert f"Your vet's programme for day 29: {SAID}." in owner.words
    assert "nobody approves their own change" in owner.words
    assert not any(one.text.startswith("Approve") for one in owner.all("button"))
    second = another_owner()
    second.follow("Our rules")
    second.follow("What our vet set")
    second.press("Approve")
    assert second.title == "Our rules"
    assert SAID in second.words
    second.follow("Change: What our vet set")
    second.follow("Set by Owner")


def test_a_trainer_reads_the_rules_and_changes_none(trainer: Trainer) -> None:
    trainer.follow("Our rules")
    assert "Hours of sending" in trainer.words
    assert not any(one.text.startswith("Change") for one in trainer.all("a"))


def test_every_form_of_the_rules_fits_the_screen(owner: Trainer) -> None:
    owner.open("/rules")
    forms = [one.get_attribute("href") for one in owner.all("section a")]
    assert len(forms) == 7
    for form in forms:
        assert form
        owner.open(form.removeprefix(owner.address))

"""Early warnings in answers: weights that stay behind, and deaths that chance hardly explains."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.doors.rehearsal import Rehearsal
from bot.say.segments import measure
from tests.decide.scene import at_age, told

# On day 29 (28 days old) the hot-climate manual has 1375 g (Vencobb 400, content/husbandry). Ten
# birds of a CV of 12 % on a scale off by 2 % err by 4.3 %, so 1257 g is two standard errors below.
BEHIND, JUST_WITHIN = "10 birds 12.4 kg", "10 birds 12.7 kg"
WEIGHED = {"en": "10 birds 9 kg", "sw": "kuku 10 uzito kilo 9", "fr": "10 poulets 9 kg"}


def test_two_standard_errors_below_the_curve_is_behind_and_less_is_not(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 28)
    assert "1 feeders ran empty" in rehearsal.say(BEHIND)[0].texts[0]
    at_age(rehearsal, 28)
    taken, _ = rehearsal.say(JUST_WITHIN)
    assert taken.texts == ("Noted: 1270 g a bird. On day 29 about 1375 g is usual.",)


def test_the_first_weight_behind_is_asked_about_before_anything_is_explained(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 28)
    taken, _ = rehearsal.say(BEHIND)
    assert taken.decision.question is not None
    assert told(taken, "behind") == []
    assert "water first" in rehearsal.say("2")[0].texts[0]


def test_no_reason_known_and_a_second_weight_behind_go_to_the_adviser(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 28)
    rehearsal.say(BEHIND)
    taken, _ = rehearsal.say("4")
    assert told(taken, "behind") == ["weights behind, no reason known"]
    rehearsal.wait(timedelta(days=3))
    again, _ = rehearsal.say("10 birds 13 kg")
    assert again.decision.question is None
    assert told(again, "behind") == ["weights stay behind, day 32"]
    assert "Still behind" in again.texts[0]


def test_a_good_weight_is_set_beside_the_curve_and_nothing_is_asked(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 28)
    taken, _ = rehearsal.say("10 birds 14 kg")
    assert taken.decision.question is None
    assert told(taken, "behind") == []


@pytest.mark.parametrize("language", ["en", "sw", "fr"])
def test_every_reason_gets_its_own_advice_in_one_part(rehearsal: Rehearsal, language: str) -> None:
    advices = []
    for digit in "1234":
        at_age(rehearsal, 28, language=language)
        assert measure(rehearsal.say(WEIGHED[language])[0].texts[0]).parts == 1
        advices.append(rehearsal.say(digit)[0].texts[0])
    assert len(set(advices)) == 4
    assert [measure(one).parts for one in advices] == [1, 1, 1, 1]


# Deaths: at 20 days the manual expects 0.036 % a day. Of 1000 birds, 4 dead have a probability of
# 0.0005 (binomial, by hand: 1 - sum of the first four terms at 0.357), 3 dead one of 0.006.


def test_deaths_that_chance_hardly_explains_are_asked_about_and_listed(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 20, count=1000)
    taken, _ = rehearsal.say("4 dead")
    assert "How are the others?" in taken.texts[0]
    assert told(taken, "deaths") == ["4 dead of 1000 on day 21, more than chance brings"]
    assert not taken.decision.referred


def test_deaths_that_chance_explains_are_only_taken_down(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 20, count=1000)
    taken, _ = rehearsal.say("3 dead")
    assert taken.decision.question is None
    assert told(taken, "deaths") == []


def test_two_days_running_of_rare_deaths_are_listed(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 19, count=1000)
    rehearsal.say("3 dead")
    rehearsal.wait(timedelta(days=1))
    taken, _ = rehearsal.say("3 dead")
    assert len(told(taken, "deaths")) == 1
    assert taken.decision.question is not None


def test_a_day_is_listed_once_and_other_facts_in_the_text_are_kept(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 20, count=1000)
    taken, _ = rehearsal.say("5 dead, ate 90 kg feed")
    assert len(told(taken, "deaths")) == 1
    more, _ = rehearsal.say("1 dead")
    assert told(more, "deaths") == []


def test_the_fixed_rule_alone_decides_the_danger_text(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 20, count=1000)
    assert not rehearsal.say("19 dead")[0].decision.referred
    at_age(rehearsal, 20, count=1000)
    assert rehearsal.say("20 dead")[0].decision.referred

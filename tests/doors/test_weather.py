"""The weather foretold, from the service that is asked to the night text that a farmer gets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from bot.doors.rehearsal import Rehearsal
from bot.settings import Settings
from bot.wiring import Bot
from tests.decide.scene import at_age

DAY = date(2026, 3, 4)
COLD = (19.0, 8.0)


@dataclass
class Foreteller:
    """A weather service that says what it was told to, and counts how often it is asked."""

    found: Mapping[date, tuple[float, float]]
    asked: int = 0

    def foretell(self) -> Mapping[date, tuple[float, float]]:
        self.asked += 1
        return self.found


def bot(rehearsal: Rehearsal, weather: Foreteller) -> Bot:
    """The service on the rehearsal's database and clock."""
    return Bot(Settings(), rehearsal.thinking, rehearsal.db, rehearsal.ear, rehearsal.clock,
               weather=weather)  # fmt: skip


def evening(rehearsal: Rehearsal) -> list[str]:
    rehearsal.wait(timedelta(hours=12))
    return [one.text for one in rehearsal.heard()]


def test_a_cold_night_foretold_this_morning_is_in_this_evening_s_text(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 3)
    bot(rehearsal, Foreteller({DAY: COLD})).look_ahead()
    assert any("most brooders get cold about" in text for text in evening(rehearsal))


def test_a_service_without_an_answer_changes_nothing(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 3)
    bot(rehearsal, Foreteller({})).look_ahead()
    said = evening(rehearsal)
    assert any("Night: 2 stoves lit" in text for text in said)
    assert not any("cold about" in text for text in said)


def test_the_service_is_asked_once_an_hour_and_what_it_said_before_is_kept(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 3)
    weather = Foreteller({DAY: COLD})
    asking = bot(rehearsal, weather)
    for minutes in (0, 30, 40):
        rehearsal.clock.moment += timedelta(minutes=minutes)
        asking.look_ahead()
        weather.found = {DAY + timedelta(days=1): COLD}
    assert weather.asked == 2
    assert set(rehearsal.case().cooperative.forecast) == {DAY, DAY + timedelta(days=1)}


def test_a_cold_night_foretold_at_noon_still_has_its_text_where_no_other_was_due(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 9)
    asking = bot(rehearsal, weather := Foreteller({DAY: (31.0, 22.0)}))
    asking.look_ahead()
    rehearsal.wait(timedelta(days=1, hours=3))
    rehearsal.heard()
    weather.found = {DAY + timedelta(days=1): COLD}
    asking.look_ahead()
    assert any("most brooders get cold about" in text for text in evening(rehearsal))


def test_a_hot_day_foretold_is_said_in_that_morning_s_text(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 27)
    bot(rehearsal, Foreteller({DAY + timedelta(days=1): (34.0, 21.0)})).look_ahead()
    rehearsal.wait(timedelta(days=1))
    (morning,) = [one.text for one in rehearsal.heard()]
    assert "About 34 C today: feed early, peace 11 to 16, cool water." in morning


def test_a_mild_day_foretold_is_no_hot_day(rehearsal: Rehearsal) -> None:
    at_age(rehearsal, 27)
    bot(rehearsal, Foreteller({DAY + timedelta(days=1): (27.0, 21.0)})).look_ahead()
    rehearsal.wait(timedelta(days=1))
    assert not any("C today" in one.text for one in rehearsal.heard())


def test_degrees_told_of_the_nights_are_the_air_outside_of_the_next_ones(
    rehearsal: Rehearsal,
) -> None:
    at_age(rehearsal, 12)
    rehearsal.wait(timedelta(days=1))
    assert "Your nights?" in rehearsal.heard()[-1].text
    rehearsal.say("8C")
    assert rehearsal.case().batches[0].live_events("night")[-1].values == {"low_c": 8.0}
    assert any("cold about" in text for text in evening(rehearsal))

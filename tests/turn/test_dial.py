"""The phone's own menu: every task in three languages, and sessions that are repeated, dropped,
resumed and mangled."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import event, func, select

from bot.facts.dial import Dialled, Screen
from bot.records import tables as t
from bot.records.session import MEMORY, Database
from bot.say.segments import measure
from bot.turn.dial import EMPTY
from bot.wiring import Thinking
from tests.turn.dialling import BEGIN, FARMER, Dialler, service

LANGUAGES = tuple(BEGIN)
MOST_SCREENS = 5  # a task, from the first screen to the last
Farmer = Callable[[str], Dialler]


@pytest.fixture
def farmer(thinking: Thinking) -> Farmer:
    """A farmer with a batch on its fourth day, who speaks the language."""

    def made(language: str) -> Dialler:
        db = Database(MEMORY)
        db.create_all()
        phone = Dialler(service(db, thinking))
        phone.begin(language)
        return phone

    return made


# Journeys. keys: what is pressed after dialling; ends: a word of the last screen in each language.
TASKS = {
    "today's advice": ("1", ("Day 4", "Jour 4", "Siku 4")),
    "the chicks are piled": ("2 2", ("piled", "le tas", "rundo")),
    "they are spread": ("2 1", ("comfortable", "a l'aise", "wana raha")),
    "they are dull, a few": ("3 1 1 1", ("by SMS", "par SMS", "kwa SMS")),
    "deaths": ("4 1 1", ("1 dead", "1 mort", "waliokufa 1")),
    "none dead": ("4 1 0", ("none dead", "aucun mort", "hakuna aliyekufa")),
    "feed eaten": ("4 2 9", ("9 kg", "9 kg", "kilo 9")),
    "feed bought": ("4 3 50", ("50 kg", "50 kg", "kilo 50")),
    "weight": ("4 4 1.1", ("110 g", "110 g", "110")),
    "status": ("5 1", ("300 alive", "Vivants 300", "300")),
    "call me": ("5 3", ("adviser", "conseiller", "Mshauri")),
    "language": ("5 4 2", ("francais", "francais", "francais")),
}


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("task", TASKS)
def test_every_task_ends_within_five_screens(farmer: Farmer, task: str, language: str) -> None:
    phone = farmer(language)
    keys, ends = TASKS[task]
    phone.dial()
    last = phone.press(*keys.split())
    while last.startswith("CON"):  # a question of the diagnosis: yes
        last = phone.press("1")
    assert len(phone.screens) <= MOST_SCREENS
    assert ends[LANGUAGES.index(language)] in last


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_sign_can_be_told_within_five_screens(farmer: Farmer, language: str) -> None:
    phone = farmer(language)
    phone.bot.settings = replace(phone.bot.settings, limits="dials_day=1000")
    screens = phone.bot.thinking.handbook.screens
    for first, kind in enumerate(screens["signs"].choices, start=1):
        for second, choice in enumerate(screens[str(kind.menu)].choices, start=1):
            phone.pass_time(hours=1)
            phone.dial()
            last = phone.press("00", "3", str(first), str(second))
            while last.startswith("CON"):
                last = phone.press("2" if choice.how_many else "1")
            assert len(phone.screens) <= MOST_SCREENS + 1  # one for the 00
    assert all(measure(text).parts == 1 for text in phone.waiting())


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_stranger_joins_with_a_new_batch_within_five_screens(
    thinking: Thinking, language: str
) -> None:
    db = Database(MEMORY)
    db.create_all()
    phone = Dialler(service(db, thinking))
    phone.dial()
    phone.press("3", str(("en", "fr", "sw").index(language) + 1))
    phone.screens.clear()
    phone.press("00", "1", "300", "2")
    last = phone.press("1")
    assert last.startswith("END")
    assert len(phone.screens) <= MOST_SCREENS
    with db.read() as connection:
        placed = connection.execute(select(t.batch.c.count, t.batch.c.placed_on, t.batch.c.heat))
        count, day, heat = placed.one()
        spoken = connection.execute(select(t.person.c.language)).scalar_one()
    assert (count, heat, spoken) == (300, "charcoal", language)
    assert day == phone.now.date() + timedelta(days=1)
    assert any("300" in text for text in phone.waiting())  # what was noted is kept in the phone


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_known_farmer_plans_a_second_batch_and_the_rest_goes_by_sms(
    farmer: Farmer, language: str
) -> None:
    phone = farmer(language)
    phone.dial()
    last = phone.press("5", "2", "200", "1")
    assert last.startswith("END")
    assert "SMS" in last
    assert len(phone.screens) <= MOST_SCREENS
    assert len(phone.waiting()) == 1
    with phone.bot.db.read() as connection:
        assert sorted(connection.execute(select(t.batch.c.count)).scalars()) == [200, 300]


def test_the_diagnosis_asks_its_own_questions_and_the_advice_is_kept_in_the_phone(
    farmer: Farmer,
) -> None:
    phone = farmer("en")
    phone.dial()
    asked = phone.press("2", "5")
    assert asked.startswith("CON")
    assert "1 yes 2 no" in asked or "1 dry" in asked
    while asked.startswith("CON"):
        asked = phone.press("2")
    assert len(phone.screens) <= MOST_SCREENS
    assert all(measure(text).parts == 1 for text in phone.waiting())
    assert phone.waiting()


def test_a_question_behind_the_fifth_screen_goes_by_sms_and_is_answered_there(
    farmer: Farmer,
) -> None:
    phone = farmer("en")
    phone.dial()
    last = phone.press("3", "1", "4", "1")  # a few with shut eyes: what it is has to be asked
    assert (last.startswith("END"), "by SMS" in last) == (True, True)
    (question,) = phone.waiting()
    assert question.rstrip().endswith(("2 no", "4 it smells sharp", "5 along the walls"))
    assert phone.text("1")


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize(("keys", "many"), [("3 1 1 2", True), ("3 2 1", False), ("3 4 2", False)])
def test_danger_stands_on_the_screen_and_in_full_in_the_phone(
    farmer: Farmer, language: str, keys: str, many: bool
) -> None:
    phone = farmer(language)
    phone.dial()
    last = phone.press(*keys.split())
    assert last.startswith(("END DANGER", "END HATARI"))
    assert "+254700000099" in last
    assert phone.told() == ["danger"]
    first = phone.waiting()[0]
    # A flock that is down is looked at while the vet is named: asleep, or bad air.
    assert first.startswith(("DANGER", "HATARI")) or (many and "+254700000099" in first)
    assert len(phone.screens) == (MOST_SCREENS if many else 4)


def test_too_many_deaths_are_danger_at_the_screen_too(farmer: Farmer) -> None:
    phone = farmer("en")
    phone.dial()
    assert phone.press("4", "1", "40").startswith("END DANGER")
    assert phone.told() == ["danger"]
    assert phone.events("deaths") == [{"n": 40}]


# Back, home, wrong keys


def test_0_leads_back_and_00_home(farmer: Farmer) -> None:
    phone = farmer("en")
    home = phone.dial()
    signs = phone.press("3")
    phone.press("1")
    assert phone.press("0") == signs
    assert phone.press("0") == home
    phone.press("4", "2")
    assert phone.press("00") == home


def test_0_is_a_number_where_a_number_is_asked_for(farmer: Farmer) -> None:
    phone = farmer("en")
    phone.dial()
    assert "0 back" not in phone.press("4", "1")
    assert "none dead" in phone.press("0")
    phone.dial()
    assert "0 back" in phone.press("4", "4")  # no bird weighs nothing
    assert phone.press("0").startswith("CON What do you tell me?")


@pytest.mark.parametrize("key", ["7", "6", "19", "3.5", "9", "8"])
def test_a_key_that_is_no_choice_shows_the_same_screen_and_changes_nothing(
    farmer: Farmer, key: str
) -> None:
    phone = farmer("en")
    home = phone.dial()
    assert home.removeprefix("CON ") in phone.press(key)
    assert _turns(phone) == len(BEGIN["en"])


def test_a_number_out_of_its_range_is_asked_for_again(farmer: Farmer) -> None:
    phone = farmer("en")
    phone.dial()
    again = phone.press("4", "2", "999999")
    assert again.startswith("CON Send 1 to 5000.")
    assert "9 kg" in phone.press("9")


def test_three_wrong_keys_end_with_a_kind_word(farmer: Farmer) -> None:
    phone = farmer("en")
    phone.dial()
    assert phone.press("8", "8", "8").startswith("END")


@pytest.mark.parametrize(
    ("typed", "is_read"),
    [("٣", True), (" 3 ", True), ("3#", True), ("３", True), ("3.", True), ("*3", True)],
)
def test_a_mangled_digit_is_still_the_digit(farmer: Farmer, typed: str, is_read: bool) -> None:
    phone = farmer("en")
    phone.dial()
    assert phone.press(typed).startswith("CON What do you see?") is is_read


def test_an_empty_input_shows_the_same_screen(farmer: Farmer) -> None:
    phone = farmer("en")
    home = phone.dial()
    assert phone.press("") == home
    assert phone.press("3").startswith("CON What do you see?")  # posted as *3


def test_a_star_inside_an_input_is_no_second_input(farmer: Farmer) -> None:
    phone = farmer("en")
    phone.dial()
    phone.press("4", "1")
    phone.press("12*5")
    assert phone.events("deaths") == []


def test_inputs_that_are_not_behind_what_was_seen_change_nothing(farmer: Farmer) -> None:
    phone = farmer("en")
    phone.dial()
    asked = phone.press("4", "1")
    for text in ("9", "4*", "4*19", "5*1*3", "4*2*7"):
        phone.typed = text
        assert phone.post().endswith(asked.removeprefix("CON "))
    assert phone.events("deaths") == []
    phone.typed = "4*1*2"
    assert "2 dead" in phone.post()


def test_a_longer_number_dialled_at_once_goes_straight_there(farmer: Farmer) -> None:
    phone = farmer("en")
    assert "9 kg" in phone.dial("4*2*9")
    assert [one["kg"] for one in phone.events("feed_eaten")] == [9]


# Repeats


@pytest.fixture
def on(db: Database, thinking: Thinking) -> Dialler:
    """The same farmer, on each kind of database."""
    phone = Dialler(service(db, thinking))
    phone.begin("en")
    return phone


def test_a_repeated_callback_gets_the_same_screen_and_changes_nothing(on: Dialler) -> None:
    assert on.dial() == on.post()
    for key in ("4", "1", "2"):
        first = on.press(key)
        assert on.post() == first
        assert on.post() == first
    assert on.events("deaths") == [{"n": 2}]
    assert _turns(on) == len(BEGIN["en"]) + 1


def test_an_old_callback_that_comes_late_gets_its_own_screen(on: Dialler) -> None:
    home = on.dial()
    on.press("4", "2", "9")
    on.typed = ""
    assert on.post() == home
    on.typed = "4*2*9"
    assert "9 kg" in on.post()
    assert len(on.events("feed_eaten")) == 1


def test_the_advice_of_a_repeated_callback_is_sent_once(on: Dialler) -> None:
    on.dial()
    on.press("2", "2")
    on.post()
    assert len(on.waiting()) == 1


def test_a_callback_that_comes_several_times_at_once_is_taken_once(on: Dialler) -> None:
    on.dial()
    on.press("4", "1")
    again = Dialled("input", on.session, on.number, "*384*5#", "4*1*2", "4*1*2", joined=True)
    begin = replace(again, session="another", kind="start", key="", typed="")
    with ThreadPoolExecutor(4) as pool:
        deaths = list(pool.map(on.bot.dial, [again] * 4))
        starts = list(pool.map(on.bot.dial, [begin] * 4))
    assert len(set(deaths)) == 1
    assert len(set(starts)) == 1
    assert on.events("deaths") == [{"n": 2}]


@pytest.mark.parametrize("db", ["postgresql"], indirect=True)
def test_a_callback_taken_while_another_looks_for_the_session_keeps_its_answer(on: Dialler) -> None:
    on.dial()
    on.press("4", "1")
    death = Dialled("input", "another", on.number, "*384*5#", "4*1*2", "4*1*2", joined=True)
    quicker: list[Screen] = []

    def overtake(*done: Any) -> None:
        if done[2].startswith("UPDATE ussd_session") and not quicker:
            quicker.append(EMPTY)  # this one is not overtaken itself
            with ThreadPoolExecutor(1) as pool:
                quicker[0] = pool.submit(on.bot.dial, death).result()

    event.listen(on.bot.db.engine, "after_cursor_execute", overtake)
    try:
        screen = on.bot.dial(death)
    finally:
        event.remove(on.bot.db.engine, "after_cursor_execute", overtake)
    assert quicker == [screen]
    assert on.events("deaths") == [{"n": 2}]


def test_two_phones_may_have_the_same_session_id(on: Dialler) -> None:
    on.dial()
    on.press("4", "2")
    other = Dialler(on.bot, "+254700000002", session=on.session)
    assert other.post().startswith("CON Mkulima helps")
    assert "9 kg" in on.press("9")


# Dropped and resumed


def test_a_dropped_session_goes_on_at_its_screen_for_ten_minutes(on: Dialler) -> None:
    home = on.dial()
    asked = on.press("4", "4")
    on.pass_time(minutes=9)
    assert on.dial() == asked
    assert "110 g" in on.press("1.1")
    assert on.dial() == home  # that one had ended
    on.press("4", "4")
    on.pass_time(minutes=11)
    assert on.dial() == home


def test_a_dropped_question_of_the_diagnosis_goes_on_too(on: Dialler) -> None:
    on.dial()
    asked = on.press("2", "5")
    again = on.dial()
    assert asked.endswith(again.removeprefix("CON "))
    assert on.press("2") != again


def test_a_question_answered_by_sms_meanwhile_is_not_asked_again(on: Dialler) -> None:
    home = on.dial()
    on.press("2", "5")
    assert on.text("2")
    on.text("1")
    shown = on.dial()
    assert shown == home or "1 yes" in shown


def test_a_phone_that_hung_up_may_go_on_as_one_that_was_dropped(on: Dialler) -> None:
    on.dial()
    asked = on.press("4", "4")
    gone = Dialled("abort", on.session, on.number, "*384*5#", "hung up")
    assert on.bot.dial(gone).text == ""
    assert on.dial() == asked


def test_a_very_long_number_dialled_at_once_is_taken_in_good_time(farmer: Farmer) -> None:
    phone = farmer("en")
    assert phone.dial("3*0*" * 500).startswith("CON")
    assert _turns(phone) == len(BEGIN["en"])


def test_screens_are_counted_in_the_figures(farmer: Farmer) -> None:
    phone = farmer("en")
    phone.dial()
    phone.press("5", "1")
    figures = phone.figures()
    assert 'broodpost_screens_total{kind="more"} 2.0' in figures
    assert 'broodpost_screens_total{kind="last"} 1.0' in figures


def test_hanging_up_leaves_nothing_half_done(on: Dialler) -> None:
    on.dial()
    on.press("4", "1")
    assert _turns(on) == len(BEGIN["en"])
    assert on.events("deaths") == []


# Consent and limits


@pytest.mark.parametrize(
    ("language", "said"), [("en", "Send me an SMS"), ("fr", "Ecrivez un SMS"), ("sw", "Tuma SMS")]
)
def test_a_phone_that_dials_without_end_is_told_to_text_and_danger_is_still_told(
    farmer: Farmer, language: str, said: str
) -> None:
    phone = farmer(language)
    most = phone.bot.settings.house.limits.dials_day
    assert [phone.dial()[:3] for _ in range(most)] == ["CON"] * most
    last = phone.dial()
    assert (last[:3], said in last, "+254700000099" in last) == ("END", True, True)
    assert phone.post() == last
    phone.pass_time(hours=25)
    assert phone.dial().startswith("CON")


def test_stop_is_honoured_at_every_screen(farmer: Farmer) -> None:
    for keys in ((), ("3",), ("3", "1"), ("4", "1"), ("2", "5")):
        phone = farmer("en")
        phone.dial()
        phone.press(*keys)
        last = phone.press("STOP")
        assert (last.startswith("END"), "no more texts" in last) == (True, True)
        with phone.bot.db.read() as connection:
            assert connection.execute(select(t.phone.c.consent)).scalar_one() == "stopped"
        assert phone.waiting() == []


def test_a_stopped_phone_may_come_back_with_a_digit_and_is_sent_nothing_before(
    farmer: Farmer,
) -> None:
    phone = farmer("en")
    phone.text("STOP")
    assert "no texts from us" in phone.dial()
    assert phone.press("2", "2", "1").startswith("END DANGER")
    assert phone.waiting() == []
    phone.dial()
    assert "Welcome back" in phone.press("1")
    assert phone.dial().startswith("CON Mkulima: choose")


def test_a_stranger_in_danger_is_told_at_the_screen_and_is_not_joined(thinking: Thinking) -> None:
    db = Database(MEMORY)
    db.create_all()
    phone = Dialler(service(db, thinking))
    assert phone.dial().startswith("CON Mkulima helps you raise chicks.")
    assert phone.press("2", "2", "1").startswith("END DANGER")
    with db.read() as connection:
        assert connection.execute(select(func.count()).select_from(t.person)).scalar_one() == 0
        assert connection.execute(select(func.count()).select_from(t.batch)).scalar_one() == 0


def test_words_typed_at_a_screen_are_read_as_a_text_is(farmer: Farmer) -> None:
    phone = farmer("en")
    phone.dial()
    assert "2 dead" in phone.press("2 dead")
    phone.dial()
    assert phone.press("blood in the droppings").startswith("END DANGER")


def test_a_question_that_is_open_by_sms_stays_open_for_its_answer(farmer: Farmer) -> None:
    phone = farmer("en")
    phone.text("what do 10 birds weigh")
    phone.text("piled at the stove")
    open_before = _open(phone)
    phone.dial()
    phone.press("4", "2", "9")
    assert _open(phone) == open_before


def _open(phone: Dialler) -> list[str]:
    with phone.bot.db.read() as connection:
        names = select(t.question.c.name).where(t.question.c.closed_at.is_(None))
        return list(connection.execute(names.order_by(t.question.c.id)).scalars())


def _turns(phone: Dialler) -> int:
    with phone.bot.db.read() as connection:
        return int(connection.execute(select(func.count()).select_from(t.turn)).scalar_one())


# Whatever is typed


_KEY = st.one_of(
    st.sampled_from(["0", "00", "1", "2", "3", "4", "5", "8", "300", "2.5", "", "*", "1*2", "yes"]),
    st.text(max_size=8),
)


@given(
    st.lists(_KEY, max_size=12),
    st.sampled_from([FARMER, "+254700000009"]),
    st.sampled_from(LANGUAGES),
)
@settings(max_examples=60, deadline=None,
          suppress_health_check=[HealthCheck.function_scoped_fixture])  # fmt: skip
def test_whatever_is_typed_every_screen_holds_the_rules(
    farmer: Farmer, keys: list[str], number: str, language: str
) -> None:
    phone = farmer(language)
    phone.number = number
    phone.dial()
    for key in keys:
        if phone.press(key).startswith("END"):
            break
    assert all(measure(text).parts == 1 for text in phone.waiting())

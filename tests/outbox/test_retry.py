"""What becomes of a text after an outcome, without a database."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.errors import SendError
from bot.outbox.bucket import Bucket
from bot.outbox.retry import (
    PRIORITY,
    Verdict,
    after_error,
    after_receipt,
    judge_unknown,
    pause,
)

NOW = datetime(2026, 3, 1, 6, 30, tzinfo=UTC)
WORDS = ("queued", "sending", "sent", "delivered", "undelivered", "failed", "read", "odd")


@given(st.integers(1, 10_000), st.floats(0, 1))
def test_a_pause_lies_between_half_and_all_of_a_span_that_doubles_up_to_ten_minutes(
    attempt: int, drawn: float
) -> None:
    full = min(5 * 2 ** min(attempt - 1, 20), 600)
    assert full / 2 <= pause(attempt, drawn).total_seconds() <= full


def test_two_senders_do_not_march_in_step() -> None:
    assert pause(3, 0.1) != pause(3, 0.9)


def test_a_text_that_could_not_be_sent_for_a_day_is_given_up() -> None:
    busy = SendError("busy", permanent=False)
    assert after_error(busy, 40, NOW - timedelta(hours=23), NOW, 0.5).state == "waiting"
    assert after_error(busy, 40, NOW - timedelta(hours=24), NOW, 0.5).state == "failed"


@pytest.mark.parametrize("klass", PRIORITY)
def test_what_the_gateway_does_not_list_was_not_sent_once_the_list_has_settled(klass: str) -> None:
    for seconds, verdict in ((20, Verdict.ASK_AGAIN), (40, Verdict.NOT_SENT)):
        claimed = NOW - timedelta(seconds=seconds)
        assert judge_unknown(klass, claimed, NOW, denied=True) is verdict


@pytest.mark.parametrize("klass", PRIORITY)
def test_where_nobody_can_say_only_what_is_urgent_is_risked_a_second_time(klass: str) -> None:
    soon = judge_unknown(klass, NOW - timedelta(minutes=2), NOW, denied=False)
    late = judge_unknown(klass, NOW - timedelta(hours=7), NOW, denied=False)
    assert soon is Verdict.ASK_AGAIN
    assert late is (Verdict.RESEND if klass in ("danger", "reply") else Verdict.GIVE_UP)


@given(st.lists(st.sampled_from(WORDS), max_size=12))
def test_receipts_in_any_order_only_move_a_text_up_and_a_final_word_stays(words: list[str]) -> None:
    rank = {"leased": 0, "sent": 1, "delivered": 2, "undelivered": 2, "failed": 2}
    state = "leased"
    for word in words:
        told = after_receipt(state, word)
        assert told is None or rank[told] > rank[state]
        state = told or state
    final = [word for word in words if word in ("delivered", "undelivered", "failed", "read")]
    if final:
        assert state == {"read": "delivered"}.get(final[0], final[0])


def test_a_bucket_gives_no_more_than_its_pace_and_its_burst() -> None:
    bucket = Bucket(2, 5)
    assert bucket.take(9, NOW) == 5
    assert bucket.take(9, NOW) == 0
    assert bucket.take(9, NOW + timedelta(seconds=1)) == 2
    assert bucket.take(9, NOW + timedelta(days=1)) == 5


def test_a_clock_set_back_does_not_stop_the_bucket() -> None:
    bucket = Bucket(2, 5)
    bucket.take(5, NOW)
    assert bucket.take(1, NOW - timedelta(days=1)) == 0
    assert bucket.take(1, NOW - timedelta(days=1) + timedelta(seconds=1)) == 1


def test_a_bucket_without_a_pace_is_refused() -> None:
    for pace, burst in ((0.0, 1), (1.0, 0)):
        with pytest.raises(ValueError, match="pace"):
            Bucket(pace, burst)

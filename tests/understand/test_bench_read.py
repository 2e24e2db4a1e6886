"""The bench of reading in small: what its reference does, its turns, and that memory is bounded."""

from __future__ import annotations

import tracemalloc
from collections.abc import Iterator
from datetime import date

import pytest

from bot.facts.talk import Hearing
from bot.handbook.load import content_folder
from bot.handbook.words import load_words
from bot.understand.index import Index, build_index
from bot.understand.lexicon import WORDS_KEPT
from tests.bench.read import Call, Plan, by_turns, measure, own_examples, split_and_look_up
from tests.bench.read import with_slips as made_with_slips

HEARD = Hearing(date(2026, 3, 4), "en", True, 5, 300)
CALLS = [
    Call("3 dead, all at the stove", HEARD),
    Call("vifaranga wamerundikana kwa jiko", HEARD),
    Call("2 morts et ca pue", HEARD),
]
KEYS = "name database figure unit reference ratio spread rounds seconds machine".split()


class _Asked(dict[str, object]):
    """A table that writes down what was looked up."""

    def __init__(self) -> None:
        super().__init__({"dead,": 1, "stove": 1})
        self.asked: list[str] = []

    def get(self, key: str, default: object = None) -> object:
        self.asked.append(key)
        return super().get(key, default)


def test_the_reference_splits_a_text_and_looks_each_token_up_once() -> None:
    table = _Asked()
    assert split_and_look_up("3 dead, all at the stove", table) == 2
    assert table.asked == ["3", "dead,", "all", "at", "the", "stove"]


def test_reader_and_reference_read_the_same_texts_by_turns() -> None:
    done: list[tuple[str, str]] = []
    by_turns(
        CALLS,
        lambda call: done.append(("A", call.text)),
        lambda call: done.append(("B", call.text)),
        rounds=3,
    )
    texts = [call.text for call in CALLS]
    assert done == [(turn, text) for turn in "ABABA" for text in texts]


def test_every_example_is_heard_in_its_own_context() -> None:
    calls = own_examples()
    assert {call.hearing.language for call in calls} >= {"en", "fr", "sw"}
    assert {call.hearing.has_batch for call in calls} == {True, False}
    assert len({call.hearing.prompt for call in calls}) > 5


def test_texts_with_slips_all_differ_and_a_seed_makes_them_again() -> None:
    made = made_with_slips(CALLS, 200, seed=4)
    assert len({call.text for call in made}) == 200
    assert made == made_with_slips(CALLS, 200, seed=4)
    assert made != made_with_slips(CALLS, 200, seed=5)


def test_a_small_run_tells_everything_that_is_measured() -> None:
    told = measure(Plan(rounds=3, few=20, many=60), CALLS)
    assert [key for key in told if key in KEYS] == KEYS
    assert (told["name"], told["database"], told["rounds"], told["texts"]) == ("read", None, 3, 3)


@pytest.fixture(scope="module")
def index() -> Index:
    return build_index(load_words(content_folder()))


def test_words_never_met_again_are_forgotten(index: Index) -> None:
    words = _unknown_words()
    tracemalloc.start()
    _meet(index, words, WORDS_KEPT)
    full = tracemalloc.get_traced_memory()[0]
    _meet(index, words, WORDS_KEPT)
    later = tracemalloc.get_traced_memory()[0]
    tracemalloc.stop()
    assert later < 1.2 * full


def _unknown_words() -> Iterator[str]:
    letters = "bdfghjklmnprtvz"
    for number in range(15**4):
        places = (number // 15**at % 15 for at in range(4))
        yield "qx" + "".join(letters[place] for place in places) + "wq"


def _meet(index: Index, words: Iterator[str], count: int) -> None:
    for _ in range(count):
        word = next(words)
        index.lexicon.look_up(word)
        index.speller.correct(word)
        index.speller.split(word, index.lexicon.is_word)
        index.speller.verb(word, index.lexicon)

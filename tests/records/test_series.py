"""Loggers and what was learnt."""

import itertools
from datetime import timedelta
from pathlib import Path

import pytest

from pourwright.foundation.errors import NotThereError
from pourwright.records import (
    Book,
    Learned,
    curve_of,
    keep_learned,
    keep_series,
    learned_now,
    open_book,
    readings_of,
    series_of,
    take_back_series,
    undo_learned,
)
from tests.records.making import NINE, first_pour


@pytest.fixture
def book(tmp_path: Path):
    with open_book(tmp_path / "book.sqlite") as opened:
        yield opened


def minutes(count: int) -> list[tuple]:
    return [(NINE + timedelta(minutes=number), 20.0 + number) for number in range(count)]


def test_readings_come_back_in_the_order_of_time(book: Book) -> None:
    pour, readings = first_pour(book), minutes(50)
    kept = keep_series(book, pour.id, "core", "cd" * 32, readings[::-1], place="middle, 40 mm up")
    assert readings_of(book, kept.id) == tuple(readings)
    assert series_of(book, pour.id) == (kept,)
    assert kept.place == "middle, 40 mm up"


def test_the_same_file_again_is_not_doubled(book: Book) -> None:
    pour = first_pour(book)
    once = keep_series(book, pour.id, "core", "cd" * 32, minutes(5))
    assert keep_series(book, pour.id, "core", "cd" * 32, minutes(9)) == once
    assert len(readings_of(book, once.id)) == 5


def test_of_two_readings_at_one_moment_the_later_in_the_file_counts(book: Book) -> None:
    kept = keep_series(book, first_pour(book).id, "core", "cd" * 32, [(NINE, 1.0), (NINE, 2.0)])
    assert readings_of(book, kept.id) == ((NINE, 2.0),)


def test_a_drawing_takes_no_more_than_it_needs(book: Book) -> None:
    kept = keep_series(book, first_pour(book).id, "core", "cd" * 32, minutes(1000))
    thinned = readings_of(book, kept.id, most=100)
    every = dict(minutes(1000))
    assert len(thinned) <= 100
    assert all(every[at] == value for at, value in thinned)
    gaps = [after - before for (before, _), (after, _) in itertools.pairwise(thinned)]
    # 999 minutes in 98 stretches
    assert timedelta(0) < min(gaps) <= max(gaps) <= timedelta(minutes=12)
    assert {NINE, NINE + timedelta(minutes=999)} <= {at for at, _ in thinned}
    assert readings_of(book, kept.id, most=1000) == tuple(minutes(1000))


def test_a_drawing_keeps_the_hottest_reading(book: Book) -> None:
    readings = minutes(1000)
    readings[333] = (readings[333][0], 5000.0)
    readings[777] = (readings[777][0], -40.0)
    kept = keep_series(book, first_pour(book).id, "core", "cd" * 32, readings)
    assert {readings[333], readings[777]} <= set(readings_of(book, kept.id, most=20))


def test_a_curve_is_all_readings_in_the_order_of_time(book: Book) -> None:
    readings = [
        (NINE + timedelta(minutes=number, milliseconds=7 * number), 20.0 + number) for number in range(99)
    ]
    kept = keep_series(book, first_pour(book).id, "core", "cd" * 32, readings[::-1])
    assert curve_of(book, kept.id) == [(at.timestamp(), value) for at, value in readings]


def test_a_series_of_the_wrong_pour_is_taken_back_and_kept(book: Book) -> None:
    pour = first_pour(book)
    kept = keep_series(book, pour.id, "core", "cd" * 32, minutes(3), place="middle")
    back = take_back_series(book, kept.id, NINE)
    assert back.taken_back == NINE
    assert take_back_series(book, kept.id, NINE + timedelta(hours=1)) == back
    assert series_of(book, pour.id) == ()
    assert series_of(book, pour.id, taken_back=True) == (back,)
    assert len(readings_of(book, kept.id)) == 3
    # attached again it counts again, where it is told to be now
    again = keep_series(book, pour.id, "core", "cd" * 32, minutes(3), place="top")
    assert (again.id, again.place, again.taken_back) == (kept.id, "top", None)
    with pytest.raises(NotThereError, match="no series"):
        take_back_series(book, 99, NINE)


def test_the_latest_that_was_learnt_holds_until_it_is_undone(book: Book) -> None:
    said = {"quantity": "void_fraction", "subject": "medium", "prior_mean": 0.42, "prior_sd": 0.03}
    first = keep_learned(book, Learned(**said, mean=0.43, sd=0.02, records=3))
    second = keep_learned(book, Learned(**said, mean=0.44, sd=0.01, records=6))
    other = keep_learned(book, Learned(**said | {"subject": "fine"}, mean=0.40, sd=0.02, records=2))
    assert learned_now(book) == (other, second)
    undo_learned(book, second.id)
    assert learned_now(book, "void_fraction", "medium") == (first,)
    undo_learned(book, first.id)
    assert learned_now(book, "void_fraction", "medium") == ()

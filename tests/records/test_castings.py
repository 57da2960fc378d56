"""What was cast, the latest first: what is out of its mold, what waits for its number."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from pourwright.records import (
    Book,
    Entry,
    Piece,
    casts,
    keep_entry,
    keep_piece,
    keep_plan,
    keep_pour,
    open_book,
)
from tests.records.making import LAMP, NINE, poured


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    with open_book(tmp_path / "book.sqlite") as one:
        yield one


def cast(book: Book, number: int, *, days: int, out: bool = False, job: str = "lamp") -> int:
    """A piece of two pours of 2 kg, and the plan it was cast by."""
    plan = keep_plan(book, replace(LAMP, job=job, hash=f"{days:064d}"), "{}")
    at = NINE + timedelta(days=days)
    for pour in (1, 2):
        begun = keep_pour(book, plan.id, pour, casting=number, begun=at + timedelta(hours=pour))
        keep_entry(book, poured(begun, 2.0))
    if out:
        whole = keep_pour(book, plan.id, 0, casting=number, kind="piece")
        keep_entry(
            book, Entry(pour_id=whole.id, kind="demolded", at=at + timedelta(days=1), id=f"{days:036d}")
        )
    return plan.id


def test_the_latest_comes_first(book: Book) -> None:
    cast(book, 1, days=1)
    cast(book, 2, days=3)
    cast(book, 1, days=2, job="stool")
    found = casts(book)
    assert [(one.job, one.casting, one.pours) for one in found] == [
        ("lamp", 2, 2),
        ("stool", 1, 2),
        ("lamp", 1, 2),
    ]
    assert found[0].begun == NINE + timedelta(days=3, hours=1)
    assert found[0].last == NINE + timedelta(days=3, hours=2)
    assert [one.casting for one in casts(book, job="lamp")] == [2, 1]
    assert [(one.job, one.casting) for one in casts(book, most=1, after=1)] == [("stool", 1)]


def test_a_piece_poured_under_two_plans_is_one(book: Book) -> None:
    cast(book, 1, days=1)
    later = keep_plan(book, replace(LAMP, hash="cd" * 32, title="Lamp, taller"), "{}")
    begun = keep_pour(book, later.id, 3, casting=1, begun=NINE + timedelta(days=2))
    keep_entry(book, poured(begun, 1.0))
    (one,) = casts(book)
    assert (one.pours, one.title) == (3, "Lamp, taller")


def test_what_is_out_waits_until_it_has_its_number(book: Book) -> None:
    plan_id = cast(book, 1, days=1, out=True)
    cast(book, 2, days=2)
    assert [(one.casting, one.out, one.piece) for one in casts(book, waiting=True)] == [
        (1, NINE + timedelta(days=2), None)
    ]
    kept = keep_piece(book, Piece(title="Lamp", plan_id=plan_id, finished=NINE))
    assert casts(book, waiting=True) == ()
    assert [one.piece for one in casts(book)] == [None, kept.number]


def test_what_was_put_back_into_its_mold_is_not_out(book: Book) -> None:
    plan_id = cast(book, 1, days=1, out=True)
    whole = keep_pour(book, plan_id, 0, kind="piece")
    keep_entry(book, Entry(pour_id=whole.id, kind="note", at=NINE, text="a slip", replaces=f"{1:036d}"))
    assert [one.out for one in casts(book)] == [None]

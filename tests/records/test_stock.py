"""Lots, moves, reservations, and the numbers of finished pieces."""

from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import ConflictError, NotThereError, UserError
from pourwright.records import (
    Book,
    Lot,
    Move,
    Piece,
    casts_of,
    change_lot,
    change_piece,
    count_lot,
    free,
    keep_lot,
    keep_move,
    keep_piece,
    keep_pour,
    lot_by_id,
    lots_of,
    moves_of,
    open_book,
    piece_by_number,
    pieces_of,
    reservations_of,
    reserve,
    was_reserved,
)
from tests.records.making import NINE, first_pour

RESIN = {"kind": "resin", "material": "epoxy-slow-deep", "grade": "A", "name": "A"}


@pytest.fixture
def book(tmp_path: Path):
    with open_book(tmp_path / "book.sqlite") as opened:
        yield opened


@settings(max_examples=20, deadline=None)
@given(changes=st.lists(st.integers(-5000, 5000), max_size=12), left=st.integers(0, 10_000))
def test_what_is_left_is_the_sum_of_the_moves_and_a_count_puts_it_right(
    tmp_path_factory: pytest.TempPathFactory, changes: list[int], left: int
) -> None:
    with open_book(tmp_path_factory.mktemp("shop") / "book.sqlite") as book, book.writing():
        lot = keep_lot(book, Lot(**RESIN, left=5.0))
        for change in changes:
            keep_move(book, Move(lot_id=lot.id, change=change / 1000, why="used"))
        assert lot_by_id(book, lot.id).left == pytest.approx(5 + sum(changes) / 1000)
        assert count_lot(book, lot.id, left / 1000).left == pytest.approx(left / 1000)


def test_a_move_that_comes_again_counts_once(book: Book) -> None:
    lot = keep_lot(book, Lot(**RESIN, left=5.0))
    move = Move(lot_id=lot.id, change=-1.0, why="used")
    assert keep_move(book, move)
    assert not keep_move(book, move)
    assert lot_by_id(book, lot.id).left == 4.0
    assert [one.why for one in moves_of(book, lot.id)] == ["bought", "used"]


def test_the_first_to_expire_comes_first_and_what_never_does_last(book: Book) -> None:
    days = {"never": None, "late": 90, "soon": 10, "sooner": 5}
    for name, day in days.items():
        expires = None if day is None else NINE + timedelta(days=day)
        keep_lot(book, Lot(**RESIN | {"name": name}, expires=expires))
    assert [lot.name for lot in lots_of(book, "resin")] == ["sooner", "soon", "late", "never"]


def test_a_lot_is_opened_and_its_condition_noted(book: Book) -> None:
    lot = keep_lot(book, Lot(kind="mold", material="lamp", name="mold of lamp"))
    change_lot(book, lot.id, opened=NINE)
    changed = change_lot(book, lot.id, note="a tear at the rim")
    assert (changed.opened, changed.note, changed.unit) == (NINE, "a tear at the rim", "casts")


def test_what_is_no_stock_is_refused(book: Book) -> None:
    lot = keep_lot(book, Lot(**RESIN, left=1.0))
    with pytest.raises(UserError, match="no stock is called 'gold'"):
        keep_lot(book, Lot(kind="gold", material="", name=""))
    with pytest.raises(UserError, match="less than nothing"):
        count_lot(book, lot.id, -0.1)
    with pytest.raises(UserError, match="is no reason"):
        keep_move(book, Move(lot_id=lot.id, change=1.0, why="found"))
    with pytest.raises(NotThereError, match="no lot 77"):
        lot_by_id(book, 77)
    assert lot_by_id(book, lot.id).left == 1.0


def test_pieces_cast_are_counted_each_once(book: Book) -> None:
    pour = first_pour(book)
    keep_pour(book, pour.plan_id, 2, begun=NINE + timedelta(days=1))
    keep_pour(book, pour.plan_id, 1, casting=2, begun=NINE + timedelta(days=9))
    keep_pour(book, pour.plan_id, 1, casting=3)
    assert casts_of(book, "lamp") == 2
    assert casts_of(book, "lamp", since=NINE + timedelta(days=5)) == 1
    assert casts_of(book, "lamp", until=NINE + timedelta(days=5)) == 1
    assert casts_of(book, "stool") == 0


def test_what_is_reserved_until_it_is_freed(book: Book) -> None:
    plan = first_pour(book).plan_id
    assert not was_reserved(book, plan, 1)
    reserve(book, plan, 1)
    reserve(book, plan, 1)
    reserve(book, plan, 2)
    assert [(one.plan_id, one.casting) for one in reservations_of(book)] == [(plan, 1), (plan, 2)]
    free(book, plan, 1)
    assert [one.casting for one in reservations_of(book)] == [2]
    assert was_reserved(book, plan, 1)


def test_a_finished_piece_has_a_number_that_no_other_ever_gets(book: Book) -> None:
    plan = first_pour(book).plan_id
    first = keep_piece(book, Piece(title="Lamp", plan_id=plan, finished=NINE, mass_kg=3.4))
    with pytest.raises(ConflictError, match=f"its number already: {first.number}"):
        keep_piece(book, Piece(title="Lamp", plan_id=plan, finished=NINE))
    second = keep_piece(book, Piece(title="Lamp", plan_id=plan, casting=2, finished=NINE))
    with book.writing():
        book.change("DELETE FROM pieces WHERE number = ?", (second.number,))
    third = keep_piece(book, Piece(title="Lamp", plan_id=plan, casting=3, finished=NINE))
    assert (first.number, second.number, third.number) == (1, 2, 3)
    assert [piece.number for piece in pieces_of(book, "lamp")] == [3, 1]
    assert change_piece(book, 1, note="sold").mass_kg == 3.4
    assert piece_by_number(book, 1).note == "sold"
    with pytest.raises(NotThereError, match="no piece 2"):
        piece_by_number(book, 2)

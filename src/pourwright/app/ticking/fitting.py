"""Which parts of the list fit on the offcuts that the book has."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

from pourwright.app.booking.places import book_place
from pourwright.app.ticking.kept import ticked_of
from pourwright.app.ticking.listed import Listed
from pourwright.app.ticking.sizes import sizes_in
from pourwright.app.ticking.ticks import done_of
from pourwright.geometry.nesting.asked import Part, Saw, Stock
from pourwright.geometry.nesting.chosen import choose_parts
from pourwright.jobs.cut_nested import NestedBar, NestedSheet
from pourwright.jobs.cut_part import CutPart
from pourwright.mold.wood.stock import grain_of
from pourwright.records import Lot, lots_of, open_book

MOST = 12
"""So many offcuts are tried, the largest."""
NEAR = 9e-4
"""By which a thickness may differ that is read from a name, in sixteenths of an inch too [m]."""
WHOLE = 0.02
"""By which what is left of a lot may differ from its sizes: else something was taken of it."""


def parts_that_fit(folder: Path, listed: Listed) -> list[dict[str, Any]]:
    """Say which parts that are not sawn yet fit on each offcut in the book.

    Parameters
    ----------
    folder : Path
        Of the job.
    listed : Listed
        The list.

    Returns
    -------
    list of dict
        ``lot``, its ``name``, the ``marks`` that fit together, and ``lines`` for the job file; an offcut that
        holds none is left out.
    """
    place = book_place(folder)
    if not place.exists():
        return []
    with open_book(place, make=False) as book:
        lots = [(lot, sizes) for lot in lots_of(book, "board") if (sizes := _whole(lot)) is not None]
    largest = sorted(lots, key=lambda pair: -pair[0].left)[:MOST]
    done = done_of(listed, ticked_of(folder, listed.variant))
    told = (_fit(listed, lot, sizes, done) for lot, sizes in largest)
    return [one for one in told if one["marks"]]


def _whole(lot: Lot) -> tuple[float, float, float] | None:
    """Sizes of a lot [m], where its name has them and nothing was taken of it."""
    sizes = sizes_in(lot.name)
    if sizes is None or lot.left <= 0.0:
        return None
    area = sizes[0] * sizes[1]
    return sizes if abs(lot.left - area) <= WHOLE * area else None


def _fit(listed: Listed, lot: Lot, sizes: tuple[float, float, float], done: set[str]) -> dict[str, Any]:
    length, width, thick = sizes
    alike = _alike(_open(listed, lot.material, thick, done))
    wanted = [replace(part, count=len(marks)) for part, marks in alike.items()]
    stock = Stock(lot.name, length, width, free=grain_of(lot.material) == "none")
    placed = choose_parts(wanted, stock, _saw(listed)).placed if wanted else ()
    named = {part.name: iter(marks) for part, marks in alike.items()}
    names = [next(named[piece.part.name]) for piece in placed if piece.part is not None]
    lines = list(_lines(listed, lot, sizes)) if names else []
    return {"lot": lot.id, "name": lot.name, "marks": names, "lines": lines}


def _alike(parts: Iterable[CutPart]) -> dict[Part, list[str]]:
    """Parts that are sawn alike are one part, so many times: that many fewer ways to try."""
    found: dict[tuple[float, float, bool], tuple[Part, list[str]]] = {}
    for part in parts:
        asked = _asked(part)
        key = round(asked.width, 6), round(asked.height, 6), asked.may_turn
        found.setdefault(key, (asked, []))[1].append(part.mark)
    return dict(found.values())


def _open(listed: Listed, board: str, thick: float, done: set[str]) -> Iterator[CutPart]:
    for mark, wood in listed.wood_of.items():
        if mark not in done and _is_of(wood.of, board, thick):
            yield listed.parts[mark]


def _is_of(of: NestedSheet | NestedBar, board: str, thick: float) -> bool:
    return isinstance(of, NestedSheet) and of.board_id == board and abs(of.thickness_m - thick) < NEAR


def _asked(part: CutPart) -> Part:
    """Lay a part so that its grain runs along the offcut's length."""
    length, width = part.sawn_m[::-1] if part.grain == "width" else part.sawn_m
    return Part(part.mark, length, width, may_turn=part.grain == "any")


def _saw(listed: Listed) -> Saw:
    sheets = listed.sheet.plan.sheets
    return Saw(sheets[0].kerf_m, sheets[0].trim_m) if sheets else Saw()


def _lines(listed: Listed, lot: Lot, sizes: tuple[float, float, float]) -> Iterator[str]:
    """As the job file says that it is there; its thickness exactly that of the sheets of the list."""
    length, width, thick = sizes
    found = (one.thickness_m for one in listed.sheet.plan.sheets if _is_of(one, lot.material, thick))
    yield "[[sheet]]"
    yield f'name = "lot {lot.id}"'
    yield f'board = "{lot.material}"'
    yield f'thickness = "{1000 * next(found, thick):.6g} mm"'
    yield f'length = "{listed.words.length(length)}"'
    yield f'width = "{listed.words.length(width)}"'
    yield "offcut = true"

"""The tree of straight cuts: a piece is a part, is left over, or is cut in two from edge to edge."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from pourwright.geometry.nesting.asked import HAIR, Part, Stock

Axis = Literal["x", "y"]


class Measured:
    """A rectangle in hand, with one kerf beyond its right and upper edge [m]."""

    __slots__ = ()
    width: float
    height: float
    kerf: float

    @property
    def size(self) -> tuple[float, float]:
        """Width and height as measured on the wood [m]."""
        return self.width - self.kerf, self.height - self.kerf

    @property
    def area(self) -> float:
        """Area as measured on the wood, 0 where the blade takes it all [m2]."""
        width, height = self.size
        return max(0.0, width) * max(0.0, height)


@dataclass(frozen=True, slots=True)
class Piece(Measured):
    """A rectangle of the finished tree: a part, left over, or cut in two halves."""

    x: float
    y: float
    width: float
    height: float
    kerf: float
    part: Part | None = None
    turned: bool = False
    axis: Axis | None = None
    halves: tuple["Piece", ...] = ()

    def leaves(self) -> Iterator["Piece"]:
        """Yield the pieces that are cut no further."""
        if not self.halves:
            yield self
        for half in self.halves:
            yield from half.leaves()


@dataclass(slots=True)
class Growing(Measured):
    """A rectangle of a tree that still grows by its cuts."""

    x: float
    y: float
    width: float
    height: float
    kerf: float
    part: Part | None = None
    axis: Axis | None = None
    halves: tuple["Growing", ...] = ()

    def split(self, axis: Axis, at: float) -> "Growing":
        """Cut so that the first piece is so wide, kerf included [m]; return the first piece."""
        if at >= (self.width if axis == "x" else self.height) - HAIR:
            return self
        x, y, w, h, kerf = self.x, self.y, self.width, self.height, self.kerf
        if axis == "x":
            self.halves = Growing(x, y, at, h, kerf), Growing(x + at, y, w - at, h, kerf)
        else:
            self.halves = Growing(x, y, w, at, kerf), Growing(x, y + at, w, h - at, kerf)
        self.axis = axis
        return self.halves[0]

    def finished(self) -> Piece:
        """Return the tree from here on as it stays."""
        part = self.part
        turned = part is not None and abs(self.size[0] - part.width) > HAIR
        halves = tuple(half.finished() for half in self.halves)
        return Piece(self.x, self.y, self.width, self.height, self.kerf, part, turned, self.axis, halves)


@dataclass(frozen=True, slots=True)
class Cut:
    """One cut: the piece in hand [m], across which axis, and how far from its left or lower edge [m].

    A cut that trims says how much comes off instead, the blade included.
    """

    piece: tuple[float, float]
    axis: Axis
    at: float
    trims: bool = False


def trims_of(stock: Stock, trim: float) -> Iterator[Cut]:
    """Yield the cuts that trim a sheet: both long edges along x, then both ends."""
    width, height = stock.width, stock.height
    for _ in range(2 if trim > 0 else 0):
        yield Cut((width, height), "y", trim, trims=True)
        height -= trim
    for _ in range(2 if trim > 0 else 0):
        yield Cut((width, height), "x", trim, trims=True)
        width -= trim


def cuts_of(piece: Piece) -> Iterator[Cut]:
    """Yield the cuts in the order in which they are made: a piece, then its first half, then the other."""
    if piece.axis is None:
        return
    first = piece.halves[0]
    yield Cut(piece.size, piece.axis, first.size[0 if piece.axis == "x" else 1])
    for half in piece.halves:
        yield from cuts_of(half)

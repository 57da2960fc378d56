"""One piece of wood to be sawn, with the name that is pencilled on it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pourwright.materials.records import Board

Belongs = Literal["master", "box", "space block", "hold-down"]
Point = tuple[float, float]
Outline = tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Groove:
    """A step or groove across a part, from its lower edge to its upper, cut into the face that shows.

    Parameters
    ----------
    start, end : float
        From the part's left edge [m]; one that begins or ends at an edge is a step.
    depth : float
        [m].
    """

    start: float
    end: float
    depth: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A hole that is drilled before the parts come together: where its middle is, and how wide [m].

    Parameters
    ----------
    at : tuple of float
        From the part's left lower corner [m].
    diameter : float
        [m].
    use : str
        What goes through it, as "screw into end 1".
    """

    at: Point
    diameter: float
    use: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodPart:
    """A part that is sawn from a board, lying on its back with the face that shows up.

    Parameters
    ----------
    mark : str
        Pencilled on it, unlike every other: "front side", "A2" for the second board of block A.
    belongs : str
        What it becomes a part of.
    board : Board
        What it is sawn from.
    length, width, thickness : float
        Finished [m]; the length lies along x, the width along y.
    grain : str
        "length" or "width", the side along which the board's grain must run; "any".
    oversize : float
        Left on every edge when it is sawn, and trimmed off later [m].
    face : str
        Which face shows, where it points when all is put together.
    outlines : tuple of outline
        What is left of the rectangle, outer outlines counter-clockwise and holes clockwise [m], from the left
        lower corner; empty: all of it.
    grooves, holes : tuple
        Cut and drilled into it.
    planed_from : float
        Thickness of the board that it is planed down from [m]; 0: it is as thick as its board.
    bar : bool
        Sawn from a bar of this width and thickness to its length; else from a sheet.
    """

    mark: str
    belongs: Belongs
    board: Board
    length: float
    width: float
    thickness: float
    grain: Literal["length", "width", "any"] = "any"
    oversize: float = 0.0
    face: str = ""
    outlines: tuple[Outline, ...] = ()
    grooves: tuple[Groove, ...] = ()
    holes: tuple[Hole, ...] = ()
    planed_from: float = 0.0
    bar: bool = False

    @property
    def sawn(self) -> tuple[float, float]:
        """Length and width as it leaves the saw [m]."""
        return self.length + 2.0 * self.oversize, self.width + 2.0 * self.oversize

    @property
    def volume(self) -> float:
        """Finished [m3], without its drilled holes."""
        face = sum(_area(outline) for outline in self.outlines) or self.length * self.width
        cut = sum((groove.end - groove.start) * groove.depth * self.width for groove in self.grooves)
        return face * self.thickness - cut

    @property
    def mass(self) -> float:
        """Finished [kg], without its drilled holes."""
        return self.volume * self.board.density.value


def _area(outline: Outline) -> float:
    """Area inside an outline, negative where it runs clockwise [m2]."""
    turned = (*outline[1:], outline[0])
    return 0.5 * sum(x * v - u * y for (x, y), (u, v) in zip(outline, turned, strict=True))

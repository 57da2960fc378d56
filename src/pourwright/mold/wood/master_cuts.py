"""What is sawn out of one layer of boards, and how outlines of it become parts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any

import numpy as np

from pourwright.geometry import Mesh, outline_area
from pourwright.geometry.drawn.outlines_offset import loops_of
from pourwright.materials.records import Board
from pourwright.mold.wood.master import Joint, MasterLayer
from pourwright.mold.wood.part import Outline, Point, WoodPart

TRUE = 1e-5
"""What no board is true to [m]: less is no layer, and no step."""
_ORDER = {"x": (1, 2, 0), "y": (2, 0, 1), "z": (0, 1, 2)}
_FACES = {"x": "towards +x", "y": "towards +y", "z": "up, as poured"}
_MM2 = 1e-6


@dataclass(frozen=True, slots=True)
class Cut:
    """One layer: where it lies [m], its outline (in mm), and what is left to sand [m]."""

    low: float
    high: float
    section: Any
    sand: float = 0.0


def turned(mesh: Mesh, axis: str) -> Mesh:
    """Turn a body so that an axis points up; the two others follow it in their order."""
    return Mesh(mesh.vertices[:, _ORDER[axis]], mesh.faces)


def heights(low: float, high: float, thickness: float) -> list[float]:
    """Where boards meet from one height to another [m]; the last is thinner where they do not come out.

    Examples
    --------
    >>> [round(height, 6) for height in heights(0.0, 0.05, 0.018)]
    [0.0, 0.018, 0.036, 0.05]
    """
    count = max(1, ceil((high - low - TRUE) / thickness))
    return [low + number * thickness for number in range(count)] + [high]


def layers(cuts: Sequence[Cut], axis: str, board: Board, oversize: float) -> Iterator[MasterLayer]:
    """Make parts of the cuts, marked from the first up; what hangs together nowhere is sawn apart.

    ``oversize`` [m] is left on every edge of a part.
    """
    grain = _grain(cuts) if board.solid_wood else "any"
    for number, cut in enumerate(cuts, 1):
        pieces = sorted(cut.section.decompose(), key=lambda piece: tuple(piece.bounds()))
        marks = [f"master {number}{_letter(at) if len(pieces) > 1 else ''}" for at in range(len(pieces))]
        planed = cut.high - cut.low < board.thickness.value - TRUE
        shapes = [_shape(piece) for piece in pieces]
        parts = tuple(
            WoodPart(
                mark=mark,
                belongs="master",
                board=board,
                length=size[0],
                width=size[1],
                thickness=min(cut.high - cut.low, board.thickness.value),
                planed_from=board.thickness.value if planed else 0.0,
                grain=grain,  # type: ignore[arg-type]
                oversize=oversize,
                face=_FACES[axis],
                outlines=outlines,
            )
            for mark, (_, size, outlines) in zip(marks, shapes, strict=True)
        )
        corners = tuple(corner for corner, _, _ in shapes)
        yield MasterLayer(
            low=cut.low, high=cut.high, parts=parts, corners=corners, planed=planed, sand=cut.sand
        )


def joints(cuts: Sequence[Cut], made: Sequence[MasterLayer]) -> Iterator[Joint]:
    """Find which part is glued on which."""
    pieces = [sorted(cut.section.decompose(), key=lambda piece: tuple(piece.bounds())) for cut in cuts]
    for number in range(len(cuts) - 1):
        for low, below in zip(pieces[number], made[number].parts, strict=True):
            for high, above in zip(pieces[number + 1], made[number + 1].parts, strict=True):
                area = (low ^ high).area() * _MM2
                if area > TRUE**2:
                    yield Joint(below=below.mark, above=above.mark, area=area)


def _grain(cuts: Sequence[Cut]) -> str:
    """Along the longer side of the whole, the same in all layers so that they swell together."""
    bounds = np.array([cut.section.bounds() for cut in cuts])
    length, width = bounds[:, 2:].max(axis=0) - bounds[:, :2].min(axis=0)
    return "length" if length >= width else "width"


def _letter(number: int) -> str:
    """Number parts of one layer: a to z, then aa."""
    return (_letter(number // 26 - 1) if number >= 26 else "") + chr(ord("a") + number % 26)


def _shape(piece: Any) -> tuple[Point, Point, tuple[Outline, ...]]:
    """Corner, size and outlines of one part [m]; a rectangle needs no outline."""
    left, low, right, high = np.array(piece.bounds()) / 1000.0
    size = (float(right - left), float(high - low))
    loops = loops_of(piece)
    corner = (float(left), float(low))
    if len(loops) == 1 and outline_area(loops[0]) > size[0] * size[1] * (1.0 - 1e-6):
        return corner, size, ()
    shifted = [loop - corner for loop in sorted(loops, key=outline_area, reverse=True)]
    return corner, size, tuple(tuple((float(x), float(y)) for x, y in loop) for loop in shifted)

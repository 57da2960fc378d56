"""Outlines of an upright section, for the drawings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal

from pourwright.app.setup import Setup
from pourwright.geometry import plane_section, simplified
from pourwright.geometry.kept import kept
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.jobs import plan
from pourwright.jobs.plan_part import Polyline
from pourwright.mold.space_block import SpaceBlock

TOLERANCE = 2e-4
Corner = tuple[float, float]
SQUARE = ((0, 0), (1, 0), (1, 1), (0, 1), (0, 0))


def section_part(setup: Setup, axis: Literal["x", "y"] = "y", offset: float = 0.0) -> plan.Section:
    """Cut piece, rubber and box by an upright plane.

    Parameters
    ----------
    setup : Setup
        Piece and mold.
    axis : str
        The plane's normal.
    offset : float
        Where it lies [m].

    Returns
    -------
    plan.Section
        Closed lines, the other level axis to the right, z up, thinned to 0.2 mm.
    """
    mold = setup.mold
    width, height = mold.inside["yx".index(axis)], setup.piece.frame.height
    board = mold.choices.thickness
    left, floor = -width / 2, -mold.base
    return plan.Section(
        piece=piece_lines(setup, axis, offset),
        core=[] if setup.hollow is None else _thinned(plane_section(setup.hollow.body.core, axis, offset)),
        rubber=[_rectangle(left, floor, width, height - floor)],
        panels=[
            _rectangle(left - board, floor - board, board, mold.rim - floor + board),
            _rectangle(-left, floor - board, board, mold.rim - floor + board),
            _rectangle(left, floor - board, width, board),
            *_blocks(mold.blocks, axis, offset),
        ],
        rim_m=mold.rim,
    )


def piece_lines(setup: Setup, axis: Literal["x", "y"] = "y", offset: float = 0.0) -> list[Polyline]:
    """Cut what is filled by an upright plane.

    Parameters
    ----------
    setup : Setup
        Piece and core.
    axis : str
        The plane's normal.
    offset : float
        Where it lies [m].

    Returns
    -------
    list of Polyline
        Closed lines, thinned to 0.2 mm.
    """
    return [list(line) for line in section_lines(setup.room, axis, offset)]


@kept
def section_lines(mesh: Mesh, axis: Literal["x", "y"], offset: float) -> tuple[tuple[Corner, ...], ...]:
    """Cut a body by an upright plane; arguments as of `piece_lines`."""
    return tuple(tuple(line) for line in _thinned(plane_section(mesh, axis, offset)))


def _thinned(lines: Sequence[Floats]) -> list[Polyline]:
    return [[(float(x), float(z)) for x, z in simplified(line, TOLERANCE)] for line in lines]


def _blocks(blocks: Sequence[SpaceBlock], axis: Literal["x", "y"], offset: float) -> Iterator[Polyline]:
    """Space blocks that the plane runs through: wood, as the panels are."""
    normal, across = ("xy".index(axis), "yx".index(axis))
    for block in blocks:
        if block.lower[normal] < offset < block.upper[normal]:
            yield _rectangle(block.lower[across], block.lower[2], block.size[across], block.size[2])


def _rectangle(x: float, z: float, width: float, height: float) -> Polyline:
    return [(x + width * right, z + height * up) for right, up in SQUARE]

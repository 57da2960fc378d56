"""Outlines of the vertical section through the middle, for the drawings."""

from __future__ import annotations

from pourwright.app.setup import Setup
from pourwright.geometry import plane_section, simplified
from pourwright.jobs import plan

TOLERANCE = 2e-4
SQUARE = ((0, 0), (1, 0), (1, 1), (0, 1), (0, 0))


def section_part(setup: Setup) -> plan.Section:
    """Cut piece, rubber and box by the plane y = 0.

    Parameters
    ----------
    setup : Setup
        Piece and mold.

    Returns
    -------
    plan.Section
        Closed lines, x to the right, z up, thinned to 0.2 mm.
    """
    mold = setup.mold
    width, height = mold.inside[0], setup.piece.frame.height
    board = mold.choices.thickness
    left, floor = -width / 2, -mold.base
    outline = plane_section(setup.piece.mesh, "y", 0.0)
    return plan.Section(
        piece=[[(float(x), float(z)) for x, z in simplified(line, TOLERANCE)] for line in outline],
        rubber=[_rectangle(left, floor, width, height - floor)],
        panels=[
            _rectangle(left - board, floor - board, board, mold.rim - floor + board),
            _rectangle(-left, floor - board, board, mold.rim - floor + board),
            _rectangle(left, floor - board, width, board),
        ],
        rim_m=mold.rim,
    )


def _rectangle(x: float, z: float, width: float, height: float) -> plan.Polyline:
    return [(x + width * right, z + height * up) for right, up in SQUARE]

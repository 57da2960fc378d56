"""Clamps that squeeze a side to the lath on an end: force, number, and how far their flange bends."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.materials.records import Board
from pourwright.mold.box.defaults import BOX
from pourwright.mold.box.loads import SeamLoad
from pourwright.mold.box.rows import Row, row_along
from pourwright.physics.beams import evenly_loaded, second_moment

CORNER = 0.040
"""From the ends of a corner to the first clamp, common practice [m]."""


@dataclass(frozen=True, kw_only=True)
class Clamped:
    """Clamps along one upright corner.

    Parameters
    ----------
    row : Row
        Where they sit.
    force : float
        By which one has to be tightened [N].
    gape : float
        How far the lath bends between two clamps [m].
    lath_share, side_share : float
        Stress in the lath and in the side that goes on past the end, over what each may bear [-].
    """

    row: Row
    force: float
    gape: float
    lath_share: float
    side_share: float

    @property
    def holds(self) -> bool:
        """Whether neither lath nor side gives, and the seam stays shut."""
        return max(self.lath_share, self.side_share) <= 1.0 and self.gape <= BOX["gape"].value


def clamped(load: SeamLoad, board: Board, thickness: float, lath: Board) -> Clamped:
    """Space clamps along a corner.

    Parameters
    ----------
    load : SeamLoad
        Of the corner.
    board : Board
        Of the side.
    thickness : float
        Of the side [m].
    lath : Board
        Of the lath on the end, as thick as it is wide.

    Returns
    -------
    Clamped
        Each clamp squeezes as much as the pull, and by friction the slide, ask between it and the next.

    Notes
    -----
    The lath is a beam from clamp to clamp; the side beyond the end is bent by the clamps in the middle
    of the flange.
    """
    safety, wide = BOX["clamp_safety"].value, BOX["flange"].value
    squeeze = safety * load.share(1.0, BOX["friction"].value)
    row = row_along(load.along, squeeze / BOX["clamp_force"].value, CORNER, BOX["clamp_spacing"].value)
    most = float(squeeze.max())
    bent = evenly_loaded(most, row.spacing, lath.bending_modulus.value * second_moment(wide, wide))
    strength = BOX["strength_safety"].value
    return Clamped(
        row=row,
        force=row.share * BOX["clamp_force"].value,
        gape=bent.deflection,
        lath_share=strength * bent.moment * 6.0 / wide**3 / lath.bending_strength.value,
        side_share=strength * 3.0 * most * wide / thickness**2 / board.bending_strength.value,
    )

"""Screws into the edge of a board: which, how many, how far apart."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from pourwright.foundation.notation import UnitSystem
from pourwright.materials.records import Board
from pourwright.mold.box.defaults import BOX
from pourwright.mold.box.loads import SeamLoad
from pourwright.mold.box.rows import Row, row_along
from pourwright.mold.screw_hold import wood_of, working_pull
from pourwright.physics.screws import sideways_in_wood


@dataclass(frozen=True, slots=True)
class Screw:
    """One screw as sold: name, diameter, length [m]."""

    name: str
    diameter: float
    length: float


STOCK: Mapping[UnitSystem, tuple[Screw, ...]] = MappingProxyType(
    {
        UnitSystem.METRIC: (
            Screw("3.0 × 35 mm", 0.0030, 0.035),
            Screw("3.5 × 40 mm", 0.0035, 0.040),
            Screw("4.0 × 50 mm", 0.0040, 0.050),
            Screw("5.0 × 60 mm", 0.0050, 0.060),
        ),
        UnitSystem.US: (
            Screw("no. 5 × 1 1/4 in", 0.00318, 0.03175),
            Screw("no. 6 × 1 5/8 in", 0.00351, 0.04128),
            Screw("no. 8 × 2 in", 0.00417, 0.0508),
            Screw("no. 10 × 2 1/2 in", 0.00483, 0.0635),
        ),
    }
)
"""Common sizes, thinnest first."""


def screw_for(thickness: float, units: UnitSystem) -> Screw | None:
    """Choose the thickest screw that an edge bears.

    Parameters
    ----------
    thickness : float
        Of the board [m].
    units : UnitSystem
        Which sizes are sold.

    Returns
    -------
    Screw or None
        None where the board is too thin for any, or too thick for their length.

    Examples
    --------
    >>> screw_for(0.018, UnitSystem.METRIC).name, screw_for(0.009, UnitSystem.METRIC)
    ('4.0 × 50 mm', None)
    """
    fits = [
        screw
        for screw in STOCK[units]
        if screw.diameter <= BOX["screw_share"].value * thickness and screw.length >= thickness + 0.015
    ]
    return fits[-1] if fits else None


def pull_it_bears(screw: Screw, board: Board, thickness: float) -> float:
    """Pull that a screw through one board may bear in the edge of another.

    Parameters
    ----------
    screw : Screw
        The screw.
    board : Board
        Of both.
    thickness : float
        Of both [m].

    Returns
    -------
    float
        A working load [N]. The edge of solid wood is reckoned as end grain.
    """
    return working_pull(wood_of(board), screw.diameter, screw.length - thickness, weak=True)


def screws_along(load: SeamLoad, screw: Screw, board: Board, thickness: float) -> Row:
    """Space screws evenly along a seam, as the most loaded place of it wants.

    Parameters
    ----------
    load : SeamLoad
        Of the seam.
    screw : Screw
        The screw.
    board : Board
        Of both panels.
    thickness : float
        Of both [m].

    Returns
    -------
    Row
        Pull and slide are added, each as a share of what a screw bears alone.
    """
    rate = load.share(pull_it_bears(screw, board, thickness), sideways_in_wood(screw.diameter))
    return row_along(load.along, rate, BOX["screw_corner"].value, BOX["screw_spacing"].value)

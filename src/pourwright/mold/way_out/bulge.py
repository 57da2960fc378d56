"""How far the rubber gives under the casting: in its box, in a shell, standing alone."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from pourwright.mold.way_out.defaults import WAY_OUT
from pourwright.physics.rubber_modulus import ModulusBand
from pourwright.physics.soft_wall import ring_bulge, spanning_bulge, squeezed, standing_bulge


@dataclass(frozen=True, slots=True)
class Bulge:
    """How far the cavity's wall moves out.

    Parameters
    ----------
    pressure : float
        Of the casting at the cavity's floor [Pa].
    in_box, in_shell : float
        Held all round by panels that do not move; by a shell with a gap behind the skin [m].
    alone, alone_low, alone_high : float
        Without box or shell: likely, and for the stiffest and the softest rubber of its hardness [m].
    more : float
        What the piece takes up besides, for the likely bulge [m3].
    gives_way : bool
        Whether it bulges by more than its own thickness: then the figure is only a sign of it.
    """

    pressure: float
    in_box: float
    in_shell: float
    alone: float
    alone_low: float
    alone_high: float
    more: float
    gives_way: bool


def bulge_of(
    pressure: float,
    size: tuple[float, float, float],
    wall: float,
    modulus: ModulusBand,
    bulk_modulus: float,
    *,
    round_: bool,
) -> Bulge:
    """Reckon how far a wall of rubber gives under the casting.

    Parameters
    ----------
    pressure : float
        At the cavity's floor [Pa].
    size : tuple of float
        Of the piece as cast [m].
    wall : float
        Thinnest rubber beside it [m].
    modulus : ModulusBand
        Of the rubber.
    bulk_modulus : float
        Of the rubber [Pa].
    round_ : bool
        Whether the piece is round, so that the wall is a ring; else it spans between corners.

    Returns
    -------
    Bulge
        Half-way up under half of the pressure, held in the stiffer of two ways: at its foot, or as a ring or
        between corners. An upper bound: thicker places and both ways together hold it better.
    """
    alone, low, high = (
        _alone(pressure, size, wall, each, round_=round_)
        for each in (modulus.likely, modulus.high, modulus.low)
    )
    kept = squeezed(pressure, wall, bulk_modulus)
    around = 2 * (size[0] + size[1]) * (pi / 4 if round_ else 1.0)
    more = 0.5 * alone * around * size[2]
    shell = kept + WAY_OUT["shell_gap"].value
    return Bulge(pressure, kept, shell, alone, low, high, more, alone > wall)


def _alone(
    pressure: float, size: tuple[float, float, float], wall: float, modulus: float, *, round_: bool
) -> float:
    standing = standing_bulge(pressure, size[2], wall, modulus)
    if round_:
        return min(standing, ring_bulge(pressure / 2, (size[0] + size[1]) / 4, wall, modulus))
    return min(standing, spanning_bulge(pressure / 2, max(size[:2]), wall, modulus))

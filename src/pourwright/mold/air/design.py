"""Caught air of one mold, under the master and in the casting."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.geometry import Mesh, hollows, level_volume, measure, open_face
from pourwright.geometry.mesh import Floats
from pourwright.mold.air.ceilings import level_ceilings
from pourwright.mold.air.cure import Cure, cure_ceiling, cure_place
from pourwright.mold.air.defaults import least_told
from pourwright.mold.air.places import Caught, caught_by
from pourwright.mold.air.rising import Rising, Which
from pourwright.mold.air.simpler import SEARCHED, simpler
from pourwright.mold.air.tilting import Tilting
from pourwright.mold.choices import Method

MOST = 8
"""Places of each liquid that are told with their cure."""
_OVER = np.diag([1.0, -1.0, -1.0, 1.0])


@dataclass(frozen=True, kw_only=True, eq=False)
class AirCase:
    """What caught air depends on.

    Parameters
    ----------
    mesh : Mesh
        The cavity as it is cast, z up, centred over the box.
    master : Mesh
        What hangs or stands in the rubber, the same way up.
    method : str
        "hung" or "screwed".
    inside, outside : tuple of float
        The box along x and y [m].
    box_height : float
        From the board, or the floor, up to the rim while the rubber is poured [m].
    least_mouth : float
        Share of the widest section that an open face must have.
    rubber : bool
        Whether rubber is poured around the master at all.
    """

    mesh: Mesh
    master: Mesh
    method: Method
    inside: tuple[float, float]
    outside: tuple[float, float]
    box_height: float
    least_mouth: float
    rubber: bool = True


@dataclass(frozen=True, slots=True)
class LiquidAir:
    """Air that one liquid catches, and what is done about it.

    Parameters
    ----------
    which : str
        "casting", "hung" or "screwed".
    caught : Caught
        All of it.
    cures : tuple of Cure
        Of the largest places, then of level ceilings.
    other_way : bool
        Whether none is caught with the master held the other way, or the piece cast the other way up.
    rising : Rising
        What the cures were looked for on; corners of their places are of its mesh.
    simplified : bool
        Whether that is a simpler mesh.
    """

    which: Which
    caught: Caught
    cures: tuple[Cure, ...]
    other_way: bool
    rising: Rising
    simplified: bool


@dataclass(frozen=True, slots=True)
class MoldAir:
    """Air of both pours; no rubber where it is brushed on or poured in two parts."""

    rubber: LiquidAir | None
    casting: LiquidAir


def design_air(case: AirCase) -> MoldAir:
    """Find the air that rubber and casting catch, and decide how it is let out.

    Parameters
    ----------
    case : AirCase
        Piece and box.

    Returns
    -------
    MoldAir
    """
    least = least_told(measure(case.mesh).volume)
    rubber = _of(case, case.method, least) if case.rubber else None
    return MoldAir(rubber, _of(case, "casting", least))


def _of(case: AirCase, which: Which, least: float) -> LiquidAir:
    mesh = case.mesh if which == "casting" else case.master
    rising = Rising(mesh, which, _rim(case) if which == "screwed" else None)
    caught = caught_by(rising, least)
    other = bool(caught.places) and _other_way(case, which, least)
    searched = rising
    places, ceilings = caught.places[:MOST], level_ceilings(rising, caught.places)[:MOST]
    if (places or ceilings) and len(mesh.faces) > SEARCHED:
        searched = Rising(simpler(mesh), which, rising.rim)
        places = caught_by(searched, least).places[:MOST]
        ceilings = level_ceilings(searched, places)[:MOST]
    tilting = Tilting(searched, least, _footprint(case, which), case.inside)
    cures = [cure_place(place, tilting, other_way=other) for place in places]
    for ceiling in ceilings:
        cures.append(cure_ceiling(ceiling, tilting, cures))
    return LiquidAir(which, caught, tuple(cures), other, searched, searched is not rising)


def _footprint(case: AirCase, which: Which) -> tuple[float, float]:
    """What is lifted: the box, or the master that is let down into rubber."""
    if which != "hung":
        return case.outside
    x, y, _ = (float(side) for side in np.ptp(case.master.bounds, axis=0))
    return (x, y)


def _rim(case: AirCase) -> Floats:
    """Corners of the box's rim over a screwed master, as cast [m]."""
    z = float(case.master.bounds[1, 2]) - case.box_height
    x, y = (side / 2 for side in case.inside)
    return np.array([[x, y, z], [x, -y, z], [-x, -y, z], [-x, y, z]])


def _other_way(case: AirCase, which: Which, least: float) -> bool:
    if which == "casting":
        return _upside_down_is_free(case, least)
    other: Which = "hung" if which == "screwed" else "screwed"
    return not caught_by(Rising(case.master, other), least).places


def _upside_down_is_free(case: AirCase, least: float) -> bool:
    """Whether the other way up there is a mouth, no hollow without a way out, and no air in either pour."""
    over = case.mesh.transformed(_OVER)
    mouth, levels = open_face(over).area, level_volume(over)
    if mouth < case.least_mouth * max(float(levels.area(levels.knots).max()), mouth) or hollows(over):
        return False
    master = case.master.transformed(_OVER)
    pours = [Rising(over, "casting"), *([Rising(master, case.method)] if case.rubber else [])]
    return not any(caught_by(rising, least).places for rising in pours)

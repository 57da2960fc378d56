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
from pourwright.mold.air.simpler import Shape
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
    cored : bool
        Whether a core hangs in the cavity, which then is the room around it: it has no other way up.
    """

    mesh: Mesh
    master: Mesh
    method: Method
    inside: tuple[float, float]
    outside: tuple[float, float]
    box_height: float
    least_mouth: float
    rubber: bool = True
    cored: bool = False


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
    cavity = Shape(case.mesh)
    master = cavity if case.master is case.mesh else Shape(case.master)
    rubber = _of(case, case.method, master, least) if case.rubber else None
    return MoldAir(rubber, _of(case, "casting", cavity, least))


def _of(case: AirCase, which: Which, shape: Shape, least: float) -> LiquidAir:
    rim = _rim(case) if which == "screwed" else None
    rising = Rising(shape.mesh, which, rim, shape.surface)
    caught = caught_by(rising, least)
    searched, places, ceilings = rising, caught.places, level_ceilings(rising, caught.places)
    if (places or ceilings) and shape.simpler is not shape:
        searched = Rising(shape.simpler.mesh, which, rim, shape.simpler.surface)
        places = caught_by(searched, least).places
        ceilings = level_ceilings(searched, places)
    other = bool(places) and _other_way(case, which, shape.simpler, least)
    tilting = Tilting(searched, least, _footprint(case, which), case.inside)
    cures = [cure_place(place, tilting, other_way=other) for place in places[:MOST]]
    for ceiling in ceilings[:MOST]:
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


def _other_way(case: AirCase, which: Which, shape: Shape, least: float) -> bool:
    if which == "casting":
        return not case.cored and _upside_down_is_free(case, shape.mesh, least)
    other: Which = "hung" if which == "screwed" else "screwed"
    return not caught_by(Rising(shape.mesh, other, ready=shape.surface), least).places


def _upside_down_is_free(case: AirCase, mesh: Mesh, least: float) -> bool:
    """Whether the other way up there is a mouth, no hollow without a way out, and no air in either pour."""
    over = mesh.transformed(_OVER)
    mouth, levels = open_face(over).area, level_volume(over)
    if mouth < case.least_mouth * max(float(levels.area(levels.knots).max()), mouth) or hollows(over):
        return False
    pours: list[Which] = ["casting", case.method] if case.rubber else ["casting"]
    shape = Shape(over)
    return not any(caught_by(Rising(over, which, ready=shape.surface), least).places for which in pours)

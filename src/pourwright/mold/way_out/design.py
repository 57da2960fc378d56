"""The way out of one mold, from its piece and its rubber."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.geometry import Mesh, ThinPart, hollows, open_face, tunnels
from pourwright.geometry.mesh import Floats
from pourwright.geometry.ways_up.around import Around, space_around
from pourwright.geometry.ways_up.drafts import draft_angles, draft_shares
from pourwright.geometry.ways_up.held import Held, held_regions
from pourwright.materials import Rubber
from pourwright.mold.space_block import SpaceBlock
from pourwright.mold.way_out.air import suction_of
from pourwright.mold.way_out.bulge import bulge_of
from pourwright.mold.way_out.cut import Cut, chosen_cut, every_cut, opposite, sides_to_look_at
from pourwright.mold.way_out.inlets import floor_area, inlets
from pourwright.mold.way_out.opening import Hinge, Opening, book, decide, halves
from pourwright.mold.way_out.pull import pull_out
from pourwright.mold.way_out.result import WayOut
from pourwright.mold.way_out.soft import bears, stiffness, tongues
from pourwright.mold.way_out.warm import warm_rubber

UP = np.array([0.0, 0.0, 1.0])
ROUND = 0.03
"""Share by which the shadow of a round piece may differ from a disc."""


@dataclass(frozen=True, kw_only=True)
class Case:
    """What the way out depends on.

    Parameters
    ----------
    mesh : Mesh
        The piece as it is cast.
    inside : tuple of float
        Of the box along x and y [m].
    base : float
        Rubber under the piece [m].
    blocks : tuple of SpaceBlock
        In the rubber's place.
    rubber : Rubber
        The record.
    pressure : float
        Of the casting at the cavity's floor [Pa].
    warmer : float
        Than it cured at, the rubber on average, at worst [K].
    held : float
        How far the panels keep it from sliding up [-].
    slots : tuple of ThinPart and int
        Slots and holes of the piece, and how many of each.
    """

    mesh: Mesh
    inside: tuple[float, float]
    base: float
    blocks: Sequence[SpaceBlock]
    rubber: Rubber
    pressure: float
    warmer: float
    held: float
    slots: Iterable[tuple[ThinPart, int]] = ()


def design_way_out(case: Case) -> WayOut:
    """Decide how the piece comes out.

    Parameters
    ----------
    case : Case
        Piece, box and rubber.

    Returns
    -------
    WayOut
    """
    mesh, soft = case.mesh, bears(case.rubber)
    around = _around(case)
    cuts = every_cut(mesh, around, case.base)
    first = chosen_cut(cuts)
    back = opposite(cuts, first)
    found, holes = held_regions(mesh, UP), tunnels(mesh)
    held = tuple(each for each in found if not each.loose)
    cores = tuple(each for each in held_regions(mesh, -UP) if each.loose)
    plugs = tuple(each for each in found if each.loose)
    leans = _leans(mesh, plugs)
    pull = pull_out(mesh, around, soft)
    hinge = book(first, back, around, soft)
    two = halves(first, case.base, max(case.inside), held, _size(mesh)[2], soft)
    opening = decide(held, holes, pull, hinge, two)
    made = _cuts(opening, first, back)
    return WayOut(
        inside=case.inside,
        blocks=len(case.blocks),
        opening=opening,
        cuts=made,
        modulus=stiffness(case.rubber),
        soft=soft,
        held=held,
        plugs=plugs,
        cores=cores,
        holes=holes,
        drafts=draft_shares(mesh, UP, leans),
        leans=leans,
        pull=pull,
        hinge=_hinge(opening, hinge, two),
        book=hinge,
        tongues=tongues(case.slots, case.rubber),
        suction=suction_of(
            _sucked(mesh), floor_area(mesh) or _shadow(mesh), _size(mesh)[2], case.base, soft.modulus
        ),
        inlets=inlets(mesh, around, made, cores),
        bulge=bulge_of(
            case.pressure, _size(mesh), around.thinnest, stiffness(case.rubber),
            case.rubber.bulk_modulus.value, round_=_round(mesh),
        ),
        warm=warm_rubber(case.warmer, around, case.rubber, case.held),
        lines=tuple(around.line(cut.angle, cut.ends_at) for cut in made),
    )  # fmt: skip


def _around(case: Case) -> Around:
    filled = [(block.lower, block.upper) for block in case.blocks]
    return space_around(case.mesh, case.inside, sides_to_look_at(), filled=filled)


def _leans(mesh: Mesh, plugs: Sequence[Held]) -> Floats:
    """Lean of every face [deg]; under a plug that comes out with the piece it is that against the plug."""
    lean, middles = draft_angles(mesh, UP), mesh.triangles.mean(axis=1)
    for plug in plugs:
        lean[plug.footprint.over(middles) & (middles[:, 2] > plug.lowest - 1e-6) & (lean < 0.0)] *= -1.0
    return lean


def _cuts(opening: Opening, first: Cut, back: Cut) -> tuple[Cut, ...]:
    return {"one cut": (first,), "two cuts": (first, back), "two parts": (first, back)}.get(opening, ())


def _hinge(opening: Opening, one: Hinge, two: Hinge) -> Hinge | None:
    return {"one cut": one, "two cuts": two}.get(opening)


def _sucked(mesh: Mesh) -> float:
    """Area that the air presses on [m2]: the open face, with any hollow in it; else the shadow."""
    face, inside = open_face(mesh), sum(hollow.open_above for hollow in hollows(mesh))
    return _shadow(mesh) if inside or not face.area else face.area


def _shadow(mesh: Mesh) -> float:
    return float(np.maximum(mesh.area_vectors[:, 2], 0.0).sum())


def _size(mesh: Mesh) -> tuple[float, float, float]:
    x, y, z = (float(side) for side in np.ptp(mesh.bounds, axis=0))
    return (x, y, z)


def _round(mesh: Mesh) -> bool:
    """Whether the piece reaches equally far all round."""
    reach = float(np.linalg.norm(mesh.vertices[:, :2], axis=1).max())
    return (
        abs(2 * reach / max(_size(mesh)[:2]) - 1.0) < ROUND
        and abs(_size(mesh)[0] / _size(mesh)[1] - 1) < ROUND
    )

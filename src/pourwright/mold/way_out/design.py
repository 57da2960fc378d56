"""The way out of one mold, from its piece and its rubber."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.geometry import Mesh, ThinPart, neck_stretch, open_face, tunnels
from pourwright.geometry.ways_up.around import Around, space_around
from pourwright.geometry.ways_up.drafts import draft_shares
from pourwright.geometry.ways_up.held import held_regions
from pourwright.materials import Rubber
from pourwright.mold.blocks.block import SpaceBlock
from pourwright.mold.way_out.air import suction_of
from pourwright.mold.way_out.bulge import Warm, bulge_of, warm_rubber
from pourwright.mold.way_out.cut import Cut, chosen_cut, every_cut, opposite, sides_to_look_at
from pourwright.mold.way_out.opening import Hinge, Opening, book, decide, halves, pull_out
from pourwright.mold.way_out.result import WayOut
from pourwright.mold.way_out.soft import bears, stiffness, tongues

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
    held, holes = held_regions(mesh, UP), tunnels(mesh)
    pull = pull_out(neck_stretch(mesh, UP), held, soft)
    hinge = book(first, back, around, soft)
    two = halves(first, case.base, case.inside, _size(mesh)[2], soft)
    opening = decide(held, holes, pull, hinge, two)
    return WayOut(
        opening=opening,
        cuts=_cuts(opening, first, back),
        modulus=stiffness(case.rubber),
        soft=soft,
        held=held,
        holes=holes,
        drafts=draft_shares(mesh, UP),
        pull=pull,
        hinge=_hinge(opening, hinge, two),
        tongues=tongues(case.slots, case.rubber),
        suction=suction_of(_sucked(mesh), _size(mesh)[2], case.base, soft.modulus),
        bulge=bulge_of(
            case.pressure, _size(mesh), float(around.free.min()), stiffness(case.rubber),
            case.rubber.bulk_modulus.value, round_=_round(mesh),
        ),
        warm=_warm(case, around),
    )  # fmt: skip


def _around(case: Case) -> Around:
    filled = [(block.lower, block.upper) for block in case.blocks]
    return space_around(case.mesh, case.inside, sides_to_look_at(), filled=filled)


def _cuts(opening: Opening, first: Cut, back: Cut) -> tuple[Cut, ...]:
    return {"one cut": (first,), "two cuts": (first, back), "two parts": (first, back)}.get(opening, ())


def _hinge(opening: Opening, one: Hinge, two: Hinge) -> Hinge | None:
    return {"one cut": one, "two cuts": two}.get(opening)


def _sucked(mesh: Mesh) -> float:
    """Area of the open face; of the shadow where there is none [m2]."""
    return open_face(mesh).area or float(np.maximum(mesh.area_vectors[:, 2], 0.0).sum())


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


def _warm(case: Case, around: Around) -> Warm:
    """Square to the panels only: along a diagonal the rubber can grow sideways."""
    quarter = around.angles.size // 4
    free = np.where(around.met, around.free, 0.0)[::quarter]
    side, level = np.unravel_index(int(free.argmax()), free.shape)
    thick = (float(free[side, level]), float(around.heights[level]))
    rubber = case.rubber
    return warm_rubber(
        case.warmer, thick, float(around.free.min()), rubber.expansion.value, rubber.linear_shrinkage.value,
        case.held,
    )  # fmt: skip

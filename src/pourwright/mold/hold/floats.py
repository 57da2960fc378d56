"""Everything that floats in one mold, and what holds it."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.geometry import open_face
from pourwright.mold.hold.bars import Bars, BarsHeld, bars_held
from pourwright.mold.hold.blocks import HeldBlock, held_blocks
from pourwright.mold.hold.lift import Array, buoyancy, floats_from, levels_of, sealed_push
from pourwright.mold.hold.master import screw_from_below, wood_of_master
from pourwright.mold.hold.screws import Screw, pull_of, screw_through, screws_for
from pourwright.mold.result import MoldResult
from pourwright.mold.screw_hold import Wood
from pourwright.physics.constants import STANDARD_GRAVITY


@dataclass(frozen=True, kw_only=True)
class Curve:
    """Lift against level: levels above the box's floor [m], lift with rubber all round and tight [N]."""

    levels: Array
    lift: Array
    tight: Array


@dataclass(frozen=True, kw_only=True)
class ScrewsIn:
    """Screws into the master.

    Parameters
    ----------
    screw : Screw or None
        None where none is short enough.
    wood : Wood
        Of the master.
    force : float
        On all of them, with the safety factor [N].
    each : float
        What one may bear in the edge of its boards [N].
    count, count_face : int
        Where they go into the edge, and where into the face of its boards.
    apart : float
        Spacing that the open face leaves them [m].
    """

    screw: Screw | None
    wood: Wood
    force: float
    each: float
    count: int
    count_face: int
    apart: float


@dataclass(frozen=True, kw_only=True)
class MoldFloats:
    """What floats and what holds it.

    Parameters
    ----------
    curve : Curve
        Of the master.
    from_level : float or None
        From which it is lifted off [m]; None where it sinks.
    face : tuple of float
        Open face: length, width [m] and area [m2].
    bars : BarsHeld or None
        None for a screwed master.
    bars_along : str
        "x" or "y".
    bars_fit : int
        How many of them lie side by side on the open face.
    panels_mass : float
        Upright panels that clamped bars pull at [kg].
    screws : ScrewsIn
        Into the master.
    blocks : tuple of HeldBlock
        Space blocks.
    """

    curve: Curve
    from_level: float | None
    face: tuple[float, float, float]
    bars: BarsHeld | None
    bars_along: str
    bars_fit: int
    panels_mass: float
    screws: ScrewsIn
    blocks: tuple[HeldBlock, ...]


def mold_floats(mold: MoldResult) -> MoldFloats:
    """Reckon everything that floats.

    Parameters
    ----------
    mold : MoldResult
        One poured block.

    Returns
    -------
    MoldFloats
    """
    choices, pour, held = mold.choices, mold.pour, mold.hold_down
    density, levels = choices.rubber.density.value, levels_of(pour)
    face = open_face(pour.levels.mesh)
    length, width = (float(edge) for edge in face.upper - face.lower)
    along = "x" if mold.inside[0] <= mold.inside[1] else "y"
    spread, across = (length, width) if along == "x" else (width, length)
    hung = mold.method == "hung"
    bars = _bars(mold, spread) if hung else None
    upright = [panel for panel in mold.panels if panel.name in ("side", "end")]
    wood = sum(panel.count * panel.length * panel.width * panel.thickness for panel in upright)
    return MoldFloats(
        curve=Curve(
            levels=levels, lift=buoyancy(pour, levels, density), tight=sealed_push(pour, levels, density)
        ),
        from_level=floats_from(pour, held.master_mass, density),
        face=(length, width, face.area),
        bars=bars,
        bars_along=along,
        bars_fit=int(across / choices.bars.width + 1e-9),
        panels_mass=wood * choices.board.density.value,
        screws=_screws(mold, face.area, bars),
        blocks=held_blocks(pour, choices),
    )


def _bars(mold: MoldResult, spread: float) -> BarsHeld:
    choices, held = mold.choices, mold.hold_down
    bars = Bars(
        board=choices.bar_board,
        count=choices.bars.count,
        width=choices.bars.width,
        height=choices.bars.height,
        span=min(mold.inside[:2]) + choices.thickness,
        spread=spread,
    )
    return bars_held(bars, held.master_mass * STANDARD_GRAVITY, held.safety_factor * held.net_force)


def _screws(mold: MoldResult, area: float, bars: BarsHeld | None) -> ScrewsIn:
    """Into a hung master from its bars, by its weight; into a screwed one from below, by what lifts it."""
    choices, held, height = mold.choices, mold.hold_down, mold.pour.master_height
    wood = wood_of_master(choices)
    screw: Screw | None = screw_from_below(choices, height)
    force = held.safety_factor * held.net_force
    if bars is not None:
        screw = screw_through(choices.bars.height + choices.freeboard, height)
        force = held.safety_factor * held.master_mass * STANDARD_GRAVITY
    if screw is None:
        return ScrewsIn(screw=None, wood=wood, force=force, each=0.0, count=0, count_face=0, apart=0.0)
    edge, front = (pull_of(wood, screw, weak=weak) for weak in (True, False))
    count = screws_for(force, edge)
    return ScrewsIn(
        screw=screw,
        wood=wood,
        force=force,
        each=edge,
        count=count,
        count_face=screws_for(force, front),
        apart=(area / count) ** 0.5,
    )

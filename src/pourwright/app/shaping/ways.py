"""Which way up a shape is best poured: the ways weighed against each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.app.defaults import DEFAULTS
from pourwright.app.shaping.way_defaults import WAYS
from pourwright.geometry import Mesh, Pocket, Solid, Way, measure_ways, trapped_volume, ways_up

BEST = 3
LARGE = 300_000
"""Triangles from which on only ways with a flat face on top, and upside down, are looked at."""
RULE = (
    "First what can be poured as it is: a flat open face wide enough to pour through, no hollow that opens "
    "at the top only, no air caught. Then what needs vents, the fewest first. Among those, ways whose "
    "undercut is within 10 points of the least count as equal; of these the one whose open face is the "
    "underside, then the least deep, then the file's own order."
)


@dataclass(frozen=True)
class Weighed:
    """One way up with what speaks against it.

    Parameters
    ----------
    way : Way
        Measured.
    hold : str
        "hung" or "screwed": how the master is best held in the rubber.
    casting, rubber : tuple of Pocket
        Air caught by the casting, and by the rubber with the master held so; small ones left out.
    mouthless, plugged : bool
        Without an open face to pour through; with a hollow that opens at the top only.
    """

    way: Way
    hold: str
    casting: tuple[Pocket, ...]
    rubber: tuple[Pocket, ...]
    mouthless: bool
    plugged: bool

    @property
    def grade(self) -> int:
        """0 can be poured as it is, 1 with vents, 2 not."""
        if self.mouthless or self.plugged:
            return 2
        return int(bool(self.casting or self.rubber))

    @property
    def vents(self) -> int:
        """Places that need a way out for the air."""
        return sum(len(pocket.peaks) for pocket in (*self.casting, *self.rubber))


def weigh(way: Way, volume: float, hold: str | None = None) -> Weighed:
    """Judge one way up.

    Parameters
    ----------
    way : Way
        Measured.
    volume : float
        Of the piece [m3].
    hold : str, optional
        How the master is held, "hung" or "screwed"; the one that catches less air where left out.

    Returns
    -------
    Weighed
    """
    least = WAYS["small_pocket"].value * volume
    caught = {"hung": _large(way.hung, least), "screwed": _large(way.screwed, least)}
    chosen = hold or min(caught, key=lambda name: trapped_volume(caught[name]))
    return Weighed(
        way,
        chosen,
        _large(way.casting, least),
        caught[chosen],
        way.open_share < DEFAULTS["least_mouth"].value,
        way.basins >= DEFAULTS["small_hollow"].value * volume,
    )


def ranked(weighed: Sequence[Weighed]) -> tuple[Weighed, ...]:
    """Order ways up by the rule, the best first.

    Parameters
    ----------
    weighed : sequence of Weighed
        Any order; it decides between equal ones.

    Returns
    -------
    tuple of Weighed
    """
    pourable = [each.way.blocked for each in weighed if each.grade < 2]
    least = min(pourable, default=min(each.way.blocked for each in weighed))

    def key(number: int) -> tuple[float, ...]:
        each = weighed[number]
        steps = int(max(each.way.blocked - least, 0.0) / WAYS["near_undercut"].value)
        faults = each.mouthless + each.plugged if each.grade == 2 else each.vents
        return (each.grade, faults, steps, each.way.name != "-z", round(each.way.head, 3), number)

    return tuple(weighed[number] for number in sorted(range(len(weighed)), key=key))


def best_ways(mesh: Mesh, solid: Solid, hold: str | None = None) -> tuple[Weighed, ...]:
    """Measure, weigh and order the ways up of a body.

    Parameters
    ----------
    mesh : Mesh
        In the file's frame.
    solid : Solid
        Its measures.
    hold : str, optional
        How the master is held; the better one for each way where left out.

    Returns
    -------
    tuple of Weighed
        The best first.
    """
    ways = ways_up(mesh, hull=len(mesh.faces) <= LARGE)
    least = 0.1 * WAYS["small_pocket"].value * solid.volume
    return ranked([weigh(way, solid.volume, hold) for way in measure_ways(mesh, ways, least)])


def grouped(order: Sequence[Weighed]) -> tuple[tuple[Weighed, ...], ...]:
    """Put ways together that a piece's own symmetry makes alike.

    Parameters
    ----------
    order : sequence of Weighed
        The best first.

    Returns
    -------
    tuple of tuple of Weighed
        Each with the first of its kind in front.
    """
    groups: dict[tuple[object, ...], list[Weighed]] = {}
    for each in order:
        groups.setdefault(_signature(each), []).append(each)
    return tuple(tuple(group) for group in groups.values())


def _signature(each: Weighed) -> tuple[object, ...]:
    way = each.way
    caught = (trapped_volume(each.casting), trapped_volume(each.rubber), way.basins)
    numbers = (way.head, way.open_area, way.blocked, *caught)
    # the underside and the top are never alike: one of them is seen
    stands = way.name if way.name in {"+z", "-z"} else ""
    return (each.grade, each.hold, each.vents, stands, *(f"{float(value):.2e}" for value in numbers))


def clearly_better(chosen: Weighed, others: Sequence[Weighed]) -> Weighed | None:
    """Name a way that is clearly better than the chosen one: another grade, or far less undercut.

    Parameters
    ----------
    chosen : Weighed
        What the job says.
    others : sequence of Weighed
        The best first.

    Returns
    -------
    Weighed or None
    """
    best = others[0]
    if best.grade < chosen.grade:
        return best
    far = 2 * WAYS["near_undercut"].value
    freer = [
        each for each in others if each.grade == chosen.grade and each.way.blocked < chosen.way.blocked - far
    ]
    return freer[0] if freer and best.grade == chosen.grade else None


def tilt(pocket: Pocket, up: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> float:
    """Angle by which a mold must lean for a pocket's highest point to come down to its lip [rad]."""
    off = pocket.place - pocket.lip_place
    rise = float(off @ up)
    across = float(np.linalg.norm(off - rise * up))
    return float(np.arctan2(rise, across))


def _large(found: tuple[Pocket, ...], least: float) -> tuple[Pocket, ...]:
    return tuple(pocket for pocket in found if pocket.volume >= least)

"""What holds the corners of a box together: screws, clamps on flanges, or bands."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.materials.records import Board
from pourwright.mold.box.bands import banded
from pourwright.mold.box.defaults import BOX
from pourwright.mold.box.flanges import clamped
from pourwright.mold.box.joints import Joint
from pourwright.mold.box.loads import SeamLoad
from pourwright.mold.box.screws import Screw, pull_it_bears, screw_for, screws_along

Means = Literal["screws", "clamps", "bands"]
LEAST_REACH = 0.060
"""Clamps and bands closer than this get into each other's way; common practice [m]."""


@dataclass(frozen=True, kw_only=True)
class Fastening:
    """One way of holding the four upright corners.

    Parameters
    ----------
    means : str
        "screws", "clamps" or "bands".
    at : tuple of float
        Heights above the foot, of one corner or round the box [m].
    load, bears : float
        Of the most loaded one, and what it may be loaded with [N].
    why_not : str
        Why it does not hold; empty where it does.
    screw : Screw or None
        Which, where they are screws.
    """

    means: Means
    at: tuple[float, ...]
    load: float
    bears: float
    why_not: str = ""
    screw: Screw | None = None

    @property
    def possible(self) -> bool:
        """Whether it holds."""
        return not self.why_not

    @property
    def spacing(self) -> float:
        """Least distance between two [m]; 0 where there is none."""
        return min((high - low for low, high in pairwise(self.at)), default=0.0)


@dataclass(frozen=True, kw_only=True)
class Corner:
    """What the corners of a box are made of.

    Parameters
    ----------
    load : SeamLoad
        Of one corner.
    joint : Joint
        How its panels meet.
    board, lath : Board
        Of the panels; of the lath on a flange.
    thickness : float
        Of the panels [m].
    units : UnitSystem
        Of the maker: which screws are sold, and of sentences.
    """

    load: SeamLoad
    joint: Joint
    board: Board
    lath: Board
    thickness: float
    units: UnitSystem

    def length(self, metres: float) -> str:
        """A length in the maker's units."""
        return format_length(metres, self.units)


def fastenings(corner: Corner) -> tuple[Fastening, ...]:
    """Hold the corners in every way, the one to take first.

    Parameters
    ----------
    corner : Corner
        Load, joint and board.

    Returns
    -------
    tuple of Fastening
        Those that hold stand before those that do not; clamps stand first where the joint has a flange.
    """
    screws, clamps, bands = _screws(corner), _clamps(corner), _bands(corner)
    wished = (clamps, bands, screws) if corner.joint.flange else (screws, bands, clamps)
    return tuple(sorted(wished, key=lambda each: not each.possible))


def _screws(corner: Corner) -> Fastening:
    screw = screw_for(corner.thickness, corner.units)
    if screw is None:
        board = f"a screw along its edge splits board of {corner.length(corner.thickness)}"
        return Fastening(means="screws", at=(), load=0.0, bears=0.0, why_not=board)
    row = screws_along(corner.load, screw, corner.board, corner.thickness)
    bears = pull_it_bears(screw, corner.board, corner.thickness)
    least = BOX["screw_least_spacing"].value
    why_not = ""
    if row.share > 1.0 or row.spacing < least:
        why_not = f"they would have to stand closer than {corner.length(least)}, which splits the edge"
    return Fastening(
        means="screws", at=row.at, load=row.share * bears, bears=bears, why_not=why_not, screw=screw
    )


def _clamps(corner: Corner) -> Fastening:
    found = clamped(corner.load, corner.board, corner.thickness, corner.lath)
    why_not = ""
    if found.row.spacing < LEAST_REACH or found.row.share > 1.0:
        why_not = f"they would have to sit closer than {corner.length(LEAST_REACH)}"
    elif not found.holds:
        why_not = f"board of {corner.length(corner.thickness)} breaks beside them, or the flange gapes"
    return Fastening(
        means="clamps", at=found.row.at, load=found.force, bears=BOX["clamp_force"].value, why_not=why_not
    )


def _bands(corner: Corner) -> Fastening:
    found = banded(corner.load)
    made = Fastening(means="bands", at=found.at, load=found.pull, bears=BOX["band_pull"].value)
    if len(found.at) == 1 or made.spacing >= LEAST_REACH:
        return made
    why_not = f"{len(found.at)} of them would lie closer than {corner.length(LEAST_REACH)}"
    return Fastening(means="bands", at=found.at, load=found.pull, bears=made.bears, why_not=why_not)

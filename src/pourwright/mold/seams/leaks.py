"""What each liquid loses at each seam before it gels, and how wide a gap may be."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import inf

from pourwright.mold.seams.defaults import SEAMS
from pourwright.mold.seams.joint import Joint
from pourwright.mold.seams.liquid import Liquid
from pourwright.physics.constants import STANDARD_GRAVITY
from pourwright.physics.gap_flow import gap_leak, gap_that_stops, widest_gap


@dataclass(frozen=True, slots=True)
class Leak:
    """What is lost at one seam.

    Parameters
    ----------
    joint : Joint
        The seam.
    paper : float
        Mass through a gap as wide as a sheet of paper is thick [kg].
    expected : float
        Mass through the gap that one expects there [kg].
    widest : float
        Gap through which this seam alone loses all that may be lost [m]; of a slurry the one in which
        it comes to rest.
    """

    joint: Joint
    paper: float
    expected: float
    widest: float


@dataclass(frozen=True, slots=True)
class LiquidLeaks:
    """What one liquid loses in all.

    Parameters
    ----------
    liquid : Liquid
        The liquid.
    allowed : float
        Mass that may be lost [kg].
    leaks : tuple of Leak
        The worst first.
    layer : float
        Most liquid that stands over what has gelled [m]; infinite where all is poured at once.
    """

    liquid: Liquid
    allowed: float
    leaks: tuple[Leak, ...]
    layer: float = inf

    @property
    def sure(self) -> tuple[Leak, ...]:
        """Seams that are there whatever the maker chooses."""
        return tuple(leak for leak in self.leaks if not leak.joint.supposed)

    @property
    def expected(self) -> float:
        """Lost through the gaps one expects, at all seams that are there [kg]."""
        return min(sum(leak.expected for leak in self.sure), _most(self.liquid))

    @property
    def widest(self) -> float:
        """Gap, alike in all seams that are there, that loses all that may be lost [m]; else infinite."""
        if self.liquid.yield_stress:
            return min((leak.widest for leak in self.sure), default=inf)
        drive = sum(leak.joint.drive(self.layer) for leak in self.sure)
        return _widest(self.allowed, drive, self.liquid)


def leaks_of(
    liquid: Liquid, joints: Iterable[Joint], allowed: float | None = None, layer: float = inf
) -> LiquidLeaks:
    """Reckon the leaks of one liquid at the seams that it reaches.

    Parameters
    ----------
    liquid : Liquid
        What is poured.
    joints : iterable of Joint
        Of the whole mold; those it does not reach are left out.
    allowed : float, optional
        Mass that may be lost [kg]; a share of what is poured where left out.
    layer : float
        Most liquid that stands over what has gelled below [m].

    Returns
    -------
    LiquidLeaks

    Notes
    -----
    Each seam for itself, as if nothing but its own gap held the liquid back.
    """
    may = SEAMS["leak_share"].value * liquid.poured if allowed is None else allowed
    reached = [joint for joint in joints if liquid.kind in joint.reached_by]
    found = [_leak(liquid, joint, may, layer) for joint in reached]
    order = sorted(found, key=lambda leak: (-leak.expected, -leak.paper, leak.joint.name))
    return LiquidLeaks(liquid, may, tuple(order), layer)


def lost(liquid: Liquid, joint: Joint, gap: float, layer: float = inf) -> float:
    """Mass that a liquid loses at one seam before it gels.

    Parameters
    ----------
    liquid : Liquid
        What is poured.
    joint : Joint
        The seam.
    gap : float
        Alike all along it [m].
    layer : float
        Most liquid that stands over what has gelled below [m].

    Returns
    -------
    float
        [kg]; 0 where it does not reach the seam.
    """
    if liquid.kind not in joint.reached_by:
        return 0.0
    weight = liquid.presses * STANDARD_GRAVITY * joint.drive(layer)
    return min(gap_leak(gap, 1.0, weight, liquid.fluidity) * liquid.density, _most(liquid))


def slurry_stops_at(liquid: Liquid, joint: Joint) -> float:
    """Widest gap in which a slurry comes to rest at the lowest place of a seam [m]; 0 for a liquid."""
    head = joint.head()
    if not liquid.yield_stress or not head:
        return 0.0
    return gap_that_stops(liquid.yield_stress, joint.least_path, liquid.presses * STANDARD_GRAVITY * head)


def _leak(liquid: Liquid, joint: Joint, allowed: float, layer: float) -> Leak:
    paper, expected = (lost(liquid, joint, gap, layer) for gap in (SEAMS["paper"].value, joint.gap))
    rests = slurry_stops_at(liquid, joint)
    return Leak(joint, paper, expected, rests or _widest(allowed, joint.drive(layer), liquid))


def _widest(allowed: float, drive: float, liquid: Liquid) -> float:
    if not drive or allowed >= _most(liquid):
        return inf
    return widest_gap(
        allowed / liquid.density, 1.0, liquid.presses * STANDARD_GRAVITY * drive, liquid.fluidity
    )


def _most(liquid: Liquid) -> float:
    return min(liquid.most * liquid.density, liquid.poured)

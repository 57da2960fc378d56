"""Bars across the rim that a master hangs from: how far they bend, both ways, and which would do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from pourwright.materials.records import Board
from pourwright.mold.hold.defaults import HOLD, MOST_BARS, SECTIONS
from pourwright.physics.beams import evenly_loaded, loaded_around_the_middle, second_moment
from pourwright.physics.constants import STANDARD_GRAVITY


@dataclass(frozen=True, kw_only=True)
class Bars:
    """Equal bars side by side on the rim.

    Parameters
    ----------
    board : Board
        That they are sawn from.
    count : int
        How many.
    width, height : float
        Of one, as it lies on the rim [m].
    span : float
        Between the middles of the panels they lie on [m].
    spread : float
        Length over which the master touches each [m].
    """

    board: Board
    count: int
    width: float
    height: float
    span: float
    spread: float

    @property
    def stiffness(self) -> float:
        """EI of all [N m2]."""
        return self.count * self.board.bending_modulus.value * second_moment(self.width, self.height)

    @property
    def mass(self) -> float:
        """Of all, cut to the span [kg]."""
        return self.count * self.width * self.height * self.span * self.board.density.value

    def stress(self, moment: float) -> float:
        """Bending stress in each under a moment shared by all [N m], in [Pa]."""
        return 6.0 * moment / (self.count * self.width * self.height**2)


@dataclass(frozen=True, kw_only=True)
class Bend:
    """Bars under one load: its force [N], how far they bend [m], their stress [Pa], whether they may."""

    force: float
    deflection: float
    stress: float
    holds: bool


@dataclass(frozen=True, kw_only=True)
class BarsHeld:
    """Bars before any rubber and with the master drowned.

    Parameters
    ----------
    bars : Bars
        As chosen.
    hanging : Bend
        Downward: master and bars, before any rubber.
    drowned : Bend
        Upward: lift less weight at the worst level, with the safety factor.
    instead : Bars or None
        Least wood that holds both, where those chosen do not; None where six of the highest sold do not.
    """

    bars: Bars
    hanging: Bend
    drowned: Bend
    instead: Bars | None = None

    @property
    def holds(self) -> bool:
        """Whether they stay within the limits both ways."""
        return self.hanging.holds and self.drowned.holds


def bars_held(bars: Bars, weight: float, lift: float) -> BarsHeld:
    """Load bars both ways.

    Parameters
    ----------
    bars : Bars
        As chosen.
    weight : float
        Of the master [N].
    lift : float
        Upward when drowned, with the safety factor [N].

    Returns
    -------
    BarsHeld
        With bars that would do, where these do not.
    """
    held = _both_ways(bars, weight, lift)
    if held.holds:
        return held
    return replace(held, instead=next(_that_hold(bars, weight, lift), None))


def _both_ways(bars: Bars, weight: float, lift: float) -> BarsHeld:
    own = bars.mass * STANDARD_GRAVITY
    return BarsHeld(bars=bars, hanging=bend(bars, weight, own), drowned=bend(bars, lift))


def bend(bars: Bars, force: float, even: float = 0.0) -> Bend:
    """Bend bars.

    Parameters
    ----------
    bars : Bars
        Held at their ends.
    force : float
        Of the master, where it touches them [N].
    even : float
        Spread over their whole length [N].

    Returns
    -------
    Bend
        Both loads added.
    """
    middle = loaded_around_the_middle(force, bars.spread, bars.span, bars.stiffness)
    along = evenly_loaded(even / bars.span, bars.span, bars.stiffness)
    deflection, stress = middle.deflection + along.deflection, bars.stress(middle.moment + along.moment)
    allowed = HOLD["bar_share"].value * bars.board.bending_strength.value
    holds = deflection <= HOLD["bend_limit"].value * (1 + 1e-9) and stress <= allowed * (1 + 1e-9)
    return Bend(force=force + even, deflection=deflection, stress=stress, holds=holds)


def _that_hold(bars: Bars, weight: float, lift: float) -> Iterator[Bars]:
    """Bars of the same board that hold, the least wood first."""
    tried = [
        replace(bars, count=count, width=width, height=height)
        for count in range(bars.count, max(MOST_BARS, bars.count) + 1)
        for width, height in SECTIONS
    ]
    for other in sorted(tried, key=lambda each: (each.count * each.width * each.height, each.count)):
        if _both_ways(other, weight, lift).holds:
            yield other

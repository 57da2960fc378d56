"""The bucket is a reactor: how long a mixed batch may stand before it is in the mold."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.checks import Range, checked
from pourwright.materials import Resin
from pourwright.materials.batches import Tools, largest_batch, most_within
from pourwright.physics.viscosity import arrhenius_viscosity, castro_macosko
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.vessel import Vessel, as_problem, in_pail, in_tray
from pourwright.solver import Control, Ending, run, start

Array = NDArray[np.float64]
TEMPERATURE = Range(230.0, 400.0, "K")
HOUR = 3600.0
WATCH = 24 * HOUR
NEVER = float("inf")
TRAY_DEPTHS = (1.0, 0.5, 0.3)
"""Depths tried in turn, as shares of the usual one."""


@dataclass(frozen=True)
class Standing:
    """What becomes of a batch that is left standing, within a day and a night.

    Parameters
    ----------
    warm : float
        When its hottest place is warmer than mixed by as much as a pour can bear [s]; infinite if never.
    thick : float
        When its thickest place no longer pours [s]; infinite if never.
    hot : float
        When its hottest place goes over the resin's limit: it foams, smokes, cracks its pail [s].
    hot_limit : float
        That limit [K].
    hottest : float
        Hottest place, up to the limit [K].
    """

    warm: float
    thick: float
    hot: float
    hot_limit: float
    hottest: float

    @property
    def pours_until(self) -> float:
        """Time from mixing until it must be out of the vessel [s]."""
        return min(self.warm, self.thick, self.hot)


@dataclass
class _Watch:
    """Reads off when a line is crossed; straight between steps."""

    resin: Resin
    warm: float
    hot: float
    thick: float
    before: tuple[float, Array] | None = None
    crossed: Array = field(default_factory=lambda: np.full(3, NEVER))
    hottest: float = 0.0

    def __call__(self, time: float, temperature: Array, conversion: Array) -> None:
        """Read one step."""
        hottest = float(temperature.max())
        thickest = float(viscosity(self.resin, temperature, conversion).max())
        left = np.array([hottest - self.warm, min(thickest, 1e6) - self.thick, hottest - self.hot])
        self.hottest = max(self.hottest, hottest)
        then, was = self.before or (0.0, np.minimum(left, 0.0))
        new = (self.crossed == NEVER) & (left >= 0.0)
        share = np.divide(-was, left - was, out=np.ones(3), where=left > was)
        self.crossed = np.where(new, then + (time - then) * np.clip(share, 0.0, 1.0), self.crossed)
        self.before = time, left


def viscosity(resin: Resin, temperature: Array, conversion: Array) -> Array:
    """Say how thick a mix is on its way to gel.

    Parameters
    ----------
    resin : Resin
        Record.
    temperature, conversion : array
        [K], [-].

    Returns
    -------
    array
        [Pa s]; infinite from the gel point on.
    """
    energy = DEFAULTS["flow_activation_energy"].value
    fresh = arrhenius_viscosity(temperature, resin.viscosity.value, energy)
    exponents = (DEFAULTS[f"viscosity_exponent_{name}"].value for name in "ab")
    cured = np.clip(conversion, 0.0, 1.0)
    return castro_macosko(cured, fresh, resin.cure.gel_conversion.value, *exponents)


@checked(mixed_at=TEMPERATURE, shop=TEMPERATURE)
def stand(resin: Resin, vessel: Vessel, mixed_at: float, shop: float, *, stirred: bool = False) -> Standing:
    """Leave a batch standing.

    Parameters
    ----------
    resin : Resin
        Record.
    vessel : Vessel
        What it stands in.
    mixed_at : float
        Temperature of the batch as mixed [K].
    shop : float
        Temperature of the shop [K].
    stirred : bool
        Whether it is equally warm throughout, instead of standing still.

    Returns
    -------
    Standing
        Times from mixing.

    Notes
    -----
    Heat conduction in rings and layers with the resin's cure law, air and radiation outside.
    What stands still is hottest in its middle; liquid resin stirs itself by its own warmth, so the
    truth lies between still and stirred. Thick means above what still pours,
    or twice as thick as mixed where it is thick from the start.

    References
    ----------
    Castro & Macosko 1982 [castro-macosko-1982]; Churchill & Chu 1975 [churchill-chu-1975].

    Examples
    --------
    >>> from pourwright.materials import load_materials
    >>> slow = load_materials().resin["epoxy-slow-deep"]
    >>> pail = stand(slow, in_pail(8.2, slow.density.value, 0.010), 293.15, 293.15)
    >>> 2 < pail.pours_until / HOUR < 6 and pail.hot < 24 * HOUR
    True
    """
    fresh = float(viscosity(resin, np.array([mixed_at]), np.zeros(1))[0])
    watch = _Watch(
        resin,
        warm=mixed_at + DEFAULTS["pail_warming"].value,
        hot=max(resin.peak_limit.value, mixed_at + 2 * DEFAULTS["pail_warming"].value),
        thick=max(DEFAULTS["pourable_viscosity"].value, 2.0 * fresh),
        hottest=mixed_at,
    )
    problem = as_problem(resin, vessel, shop, stirred=stirred)
    begin = start(problem, mixed_at, resin.cure.initial_conversion.value)
    control = Control(tolerance=0.05, max_step=3 * HOUR, cap=watch.hot + 1.0)
    outcome = run(problem, begin, WATCH, control=control, observer=watch, threads=1)
    warm, thick, hot = (float(each) for each in watch.crossed)
    if outcome.ending is Ending.RUNAWAY:
        # faster than a step can follow
        hot = min(hot, outcome.state.time)
    return Standing(warm, thick, hot, watch.hot, min(watch.hottest, watch.hot))


@dataclass(frozen=True)
class Pail:
    """One batch and what may be done with it.

    Parameters
    ----------
    resin : Resin
        Record.
    mass : float
        Of the batch [kg].
    pail : float
        Brim volume of the shop's pail [m3].
    mixed_at, shop : float
        Temperatures of the mix and of the shop [K].
    """

    resin: Resin
    mass: float
    pail: float
    mixed_at: float
    shop: float

    @cached_property
    def standing(self) -> Standing:
        """Left in the pail, standing still: the earliest."""
        return self._in_pail(self.mixed_at)

    @cached_property
    def stirred(self) -> Standing:
        """Left in the pail, equally warm throughout: the latest."""
        return self._in_pail(self.mixed_at, stirred=True)

    @cached_property
    def prewarmed(self) -> Standing:
        """The same, with A and B warmed before they are mixed."""
        return self._in_pail(self.mixed_at + DEFAULTS["prewarming"].value)

    @cached_property
    def spread(self) -> tuple[float, Standing]:
        """Depth [m] in a tray at which it stays well below the limit, else the least, and how it stands."""
        margin = DEFAULTS["tray_margin"].value
        for share in TRAY_DEPTHS:
            depth = share * DEFAULTS["tray_depth"].value
            tray = in_tray(self.mass, self.resin.density.value, depth)
            found = stand(self.resin, tray, self.mixed_at, self.shop)
            if found.hottest < found.hot_limit - margin:
                break
        return depth, found

    @property
    def work_within(self) -> float:
        """Time from mixing until it must be in the mold [s]: the pail's own, half the pot life, an hour."""
        fixed = min(self.resin.pot_life.value / 2, DEFAULTS["pail_time"].value)
        return min(fixed, self.standing.pours_until)

    def _in_pail(self, mixed_at: float, *, stirred: bool = False) -> Standing:
        vessel = in_pail(self.mass, self.resin.density.value, self.pail)
        return stand(self.resin, vessel, mixed_at, self.shop, stirred=stirred)


@lru_cache(maxsize=256)
def pail_of(resin: Resin, mass: float, pail: float, mixed_at: float, shop: float) -> Pail:
    """Look at one batch; the same batch again costs nothing.

    Parameters
    ----------
    resin : Resin
        Record.
    mass : float
        Of the batch [kg].
    pail : float
        Brim volume of the shop's pail [m3].
    mixed_at, shop : float
        Temperatures of the mix and of the shop [K].

    Returns
    -------
    Pail
        Reckoned when it is asked.
    """
    return Pail(resin, mass, pail, mixed_at, shop)


def most_in_pail(resin: Resin, tools: Tools, mixed_at: float, shop: float) -> float:
    """Say how much one batch may weigh so that it is in the mold before its own heat forbids it.

    Parameters
    ----------
    resin : Resin
        Record.
    tools : Tools
        Pail and scale.
    mixed_at, shop : float
        Warmest that mix and shop are [K].

    Returns
    -------
    float
        Mass [kg]; safe, since a smaller batch stands longer than the largest.
    """
    largest = largest_batch(resin.density.value, tools)
    return most_within(pail_of(resin, largest, tools.pail, mixed_at, shop).work_within)

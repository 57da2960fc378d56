"""Where a casting may crack or turn white as it cools, how slowly to cool it, how far its tops sink."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from pourwright.physics.misfit import rigid_grain_concentration
from pourwright.pour.bearing import Kind, fill_expansion, glass_strain, load_of, soft_strain, sourced_numbers
from pourwright.pour.crack_places import Found, View, places
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.hardening import Hardened
from pourwright.pour.lag import cooling_lag
from pourwright.pour.marks import Marks
from pourwright.pour.sink import Sink, liquid_loss, sink_depth
from pourwright.pour.site import Site
from pourwright.pour.stages import Stage

Array = NDArray[np.float64]
LEAST_LEFT = 0.1
"""So much of what it may bear is left for cooling even where all is used up: it must be cooled."""
HELD = (Kind.CORE, Kind.GRAIN, Kind.TOP, Kind.BORDER)
"""Places that cooling stretches further; skin and corner are themselves judged by it."""


@dataclass(frozen=True)
class Cracks:
    """What a rehearsed plan says about cracks and halos.

    Parameters
    ----------
    places : tuple of Found
        In the order of pours.
    shop : float
        Coldest hour of the shop [K], down to which all contracts.
    lag : float
        Core above skin per rate of cooling [s].
    difference : float
        Most that the core may be above the skin [K].
    open_within : float
        The core may be so much above the shop when the box is opened [K].
    cool_at : float
        When the core is that cool [s after the climate's zero]; infinite if not seen.
    sinks : tuple of Sink
        Of every pour.
    """

    places: tuple[Found, ...]
    shop: float
    lag: float
    difference: float
    open_within: float
    cool_at: float
    sinks: tuple[Sink, ...]

    @property
    def rate(self) -> float:
        """Fastest cooling of the skin that the piece bears [K/s]."""
        return self.difference / self.lag

    @property
    def worst(self) -> Found:
        """The place with the highest load."""
        return max(self.places, key=lambda found: (found.load.value, found.load.high))


@dataclass(frozen=True)
class Warmed:
    """What a warm box does to a casting after its last pour.

    Parameters
    ----------
    hold, peak : float
        Of its air, and hottest of the casting in it [K].
    glass_from, glass_to : float
        Glass transition before and after [K].
    cured : float
        After it [-].
    """

    hold: float
    peak: float
    glass_from: float
    glass_to: float
    cured: float


def after_warm_box(seen: Cracks, site: Site, box: Warmed) -> Found | None:
    """Judge the casting again once a warm box has let it go soft and cool once more.

    Parameters
    ----------
    seen : Cracks
        Of the plan.
    site : Site
        With its materials.
    box : Warmed
        What the warm box does.

    Returns
    -------
    Found or None
        The worst place then; None where the box is not warm enough to soften the casting.
    """
    if box.peak <= box.glass_from:
        return None
    judged = [_once_more(found, seen.shop, site, box) for found in seen.places if found.kind in HELD]
    return max(judged, key=lambda found: (found.load.value, found.load.high))


def _once_more(found: Found, shop: float, site: Site, box: Warmed) -> Found:
    """Judge one place that went soft in the box: it turns to glass on the way down, cured farther."""
    hottest, glass_at = max(found.hottest, box.peak), min(box.hold, box.glass_to)
    case = replace(
        found.case,
        cure_soft=max(box.cured - Marks.of(site.resin).gel_conversion, 0.0),
        cure_glass=0.0,
        cooling_soft=hottest - glass_at,
        cooling_glass=max(glass_at - shop, 0.0),
    )
    load = load_of(found.kind, case, sourced_numbers(site.resin, site.glass))
    return replace(found, case=case, load=load, light=load.light, hottest=hottest, glass_at=glass_at)


def cracks(stage: Stage, seen: Hardened) -> Cracks:
    """Judge a rehearsed plan.

    Parameters
    ----------
    stage : Stage
        At the end of the last watch.
    seen : Hardened
        What was noted of every cell.

    Returns
    -------
    Cracks
        An indication, not a prediction: most of what it rests on is from memory.
    """
    lag = cooling_lag(stage.layout)
    view = View(stage.layout, stage.levels, seen, _depth(stage, lag))
    found = tuple(places(view))
    difference = _most_apart(view, found)
    # opened, the skin is as cold as the shop at once: it is stretched by all of the difference, not 2/3
    within = min(DEFAULTS["open_within"].value, 2.0 / 3.0 * difference)
    warmest = max(stage.layout.site.climate.warmest, DEFAULTS["room"].value)
    return Cracks(
        found, view.shop, lag, difference, within, seen.cool_since(warmest + within), tuple(_sinks(view))
    )


def _depth(stage: Stage, lag: float) -> float:
    """Half thickness of a wall with the same lag [m]."""
    layout = stage.layout
    layers = layout.inside.any(axis=(0, 1))
    return float(np.sqrt(2.0 * lag * (layout.fill_conductivity / layout.bed_capacity)[layers].mean()))


def _most_apart(view: View, found: tuple[Found, ...]) -> float:
    """What is left of the strain that may be borne, as a difference of core and skin [K]."""
    used = max(place.load.high for place in found if place.kind in HELD)
    left = max(LEAST_LEFT, 1.0 - used)
    least = view.sourced["strain_at_break"].low or view.numbers.strain_at_break
    bears = left * least / view.numbers.margin
    return min(bears / (2.0 / 3.0 * pull) for pull in _pulls(view))


def _pulls(view: View) -> Iterator[float]:
    """Strain per kelvin of difference in each bed; grains concentrate it [1/K]."""
    for bed in view.layout.site.beds:
        around = rigid_grain_concentration(view.numbers.poisson_ratio) if bed.solid_fraction else 1.0
        numbers = view.numbers
        yield around * fill_expansion(bed.solid_fraction, numbers.expansion_glass, numbers.grain_expansion)


def _sinks(view: View) -> Iterator[Sink]:
    marks, numbers = Marks.of(view.layout.site.resin), view.numbers
    most = view.sourced["cure_shrinkage"].high or numbers.cure_shrinkage
    liquid = view.volume * (1.0 - view.solid)
    warming = view.seen.gelled_at - view.seen.poured_at
    for number in range(1, len(view.levels) + 1):
        cells = view.of_pour(number)
        shares = liquid[cells]
        lost = liquid_loss(
            shares, warming[cells], gel_conversion=marks.gel_conversion,
            cure_shrinkage=numbers.cure_shrinkage, expansion=numbers.expansion_soft,
        )  # fmt: skip
        # a pour that gels no warmer than it was poured, with the family's greatest shrinkage
        worst = liquid_loss(
            shares, np.zeros(shares.size), gel_conversion=marks.gel_conversion,
            cure_shrinkage=most, expansion=numbers.expansion_soft,
        )  # fmt: skip
        layers = _layers(view, liquid, number)
        depth, deepest = (sink_depth(*layers, amount) for amount in (lost, worst))
        yield Sink(number, float(shares.sum()), lost, worst, depth, deepest, _after(view, cells))


def _after(view: View, cells: NDArray[np.bool_]) -> float:
    """Contraction of the neat layers of a pour after gel [m]."""
    neat = cells & (view.solid == 0.0)
    if not neat.any():
        return 0.0
    borne = soft_strain(view.cases, view.numbers) + glass_strain(view.cases, view.numbers)
    mean = float((borne * view.volume)[neat].sum() / view.volume[neat].sum())
    return mean * float(view.layout.grid.spacings[2][np.unique(view.layer[neat])].sum())


def _layers(view: View, liquid: Array, number: int) -> tuple[Array, Array]:
    """Thickness and liquid of the layers of a pour, from below."""
    cells = view.of_pour(number)
    layers = np.unique(view.layer[cells])
    held = np.bincount(view.layer[cells], weights=liquid[cells])[layers].astype(np.float64)
    return view.layout.grid.spacings[2][layers], held

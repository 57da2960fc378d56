"""What is said of each place that may crack or turn white: where it is, why its light, what to do."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import isnan

from pourwright.app.heights import in_both
from pourwright.foundation.notation import (
    UnitSystem,
    format_length,
    format_share,
    format_temperature,
    format_temperature_difference,
)
from pourwright.geometry import PourFrame
from pourwright.physics.thermal_stress import notch_concentration
from pourwright.pour.bearing import Kind, Light
from pourwright.pour.crack_places import Found
from pourwright.pour.defaults import DEFAULTS

INCH = 0.0254
QUARTER = 0.25
"""A corner rounded by a quarter of the depth gathers five times as much: 1 + 2 sqrt(4)."""


def where(found: Found, system: UnitSystem, frame: PourFrame | None = None) -> str:
    """The place in words, its height in both readings where the frame is known."""
    up = format_length(found.place[2], system)
    if frame is not None:
        up = in_both(frame, found.place[2], system, None if frame.upright else found.place)
    return _WHERE[found.kind].format(pour=found.pour, up=up)


_WHERE: Mapping[Kind, str] = {
    Kind.CORE: "core of pour {pour}",
    Kind.TOP: "open face, pour {pour}",
    Kind.SKIN: "at the mold, pour {pour}",
    Kind.GRAIN: "between the grains, pour {pour}",
    Kind.BORDER: "where neat meets glass, up {up}",
    Kind.CORNER: "inner corner, up {up}",
}


def reason(found: Found, shop: float, limit: float, system: UnitSystem) -> str:
    """Why a place has its light.

    Parameters
    ----------
    found : Found
        The place.
    shop : float
        Coldest hour of the shop [K].
    limit : float
        Hottest the resin is to get [K].
    system : UnitSystem
        Of the words.

    Returns
    -------
    str
        One to three sentences.
    """
    text = _REASON[found.kind](found, shop, system)
    if isnan(found.hottest) or found.hottest <= limit:
        return text
    return f"{text} It gets hotter than the {format_temperature(limit, system)} such resin is kept below."


def remedy(found: Found, system: UnitSystem) -> str:
    """What to do about it; empty where nothing need be done."""
    if found.light is Light.GREEN:
        return ""
    cooler = f"Let pour {found.pour} get less hot: shallower, or a cooler shop; and cool it slowly."
    more = _FIRST.get(found.kind)
    return cooler if more is None else f"{more(found, system)} {cooler}"


def small(length: float, system: UnitSystem) -> str:
    """A length of a few millimetres, to a tenth of one: a sixteenth of an inch would be too coarse."""
    metric = f"{length * 1e3:.1f} mm"
    return metric if system is UnitSystem.METRIC else f"{length / INCH:.2f} in ({metric})"


def _shrinks(found: Found, shop: float, system: UnitSystem) -> str:
    hot, glass, cold = (format_temperature(each, system) for each in (found.hottest, found.glass_at, shop))
    soft, hard = (format_share(share, digits=2) for share in (found.soft, found.glass))
    return f"Hottest {hot}, glass from {glass} on: shrinks {soft} while soft, {hard} as glass down to {cold}."


def _core(found: Found, shop: float, system: UnitSystem) -> str:
    return f"{_shrinks(found, shop, system)} Judged as if all around it held it fast."


def _grain(found: Found, shop: float, system: UnitSystem) -> str:
    words = "The touching grains do not follow: they stretch it, and it may let go of them."
    return f"{_shrinks(found, shop, system)} {words}"


def _border(found: Found, shop: float, system: UnitSystem) -> str:
    return f"{_shrinks(found, shop, system)} The bed beside it hardly shrinks and holds it."


def _skin(found: Found, _: float, system: UnitSystem) -> str:
    soft, glass = (
        format_temperature_difference(each, system, digits=1)
        for each in (found.case.apart_soft, found.case.apart_glass)
    )
    return f"The core is at most {soft} warmer while the skin is soft, {glass} once it is glass."


def _corner(found: Found, shop: float, system: UnitSystem) -> str:
    radius = DEFAULTS["crack_corner_radius"].value
    times = notch_concentration(found.case.depth, radius)
    sharp = f"A corner left sharp, about {small(radius, system)}, gathers up to {times:.0f} times as much."
    return f"{_skin(found, shop, system)} {sharp}"


_REASON: Mapping[Kind, Callable[[Found, float, UnitSystem], str]] = {
    Kind.CORE: _core,
    Kind.TOP: _core,
    Kind.SKIN: _skin,
    Kind.GRAIN: _grain,
    Kind.BORDER: _border,
    Kind.CORNER: _corner,
}


def _rounded(found: Found, system: UnitSystem) -> str:
    wide = format_length(QUARTER * found.case.depth, system)
    return f"Round that corner of the master to {wide}: then it gathers 5 times as much at most."


def _no_step(_: Found, __: UnitSystem) -> str:
    return "If it must not show, leave out that step, or put the border where it is not looked at."


_FIRST: Mapping[Kind, Callable[[Found, UnitSystem], str]] = {
    Kind.CORNER: _rounded,
    Kind.BORDER: _no_step,
}

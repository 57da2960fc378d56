"""Straight beams: how far they bend and what moment they carry."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from pourwright.foundation.checks import Range, checked

NOT_NEGATIVE = Range(0.0)
POSITIVE = Range(0.0, open_low=True)
Ends = Literal["supported", "clamped", "cantilever"]


@dataclass(frozen=True, slots=True)
class BentBeam:
    """A beam under load.

    Parameters
    ----------
    deflection : largest [m]
    moment : largest bending moment, without its sign [N m]
    deflection_at : share of the span, from the unloaded or the left end, at which it bends most [-]
    moment_at : likewise for the moment [-]
    """

    deflection: float
    moment: float
    deflection_at: float
    moment_at: float


# deflection in q L^4 / EI, moment in q L^2, and where they are largest
_UNIFORM: Mapping[str, tuple[float, float, float, float]] = MappingProxyType(
    {
        "supported": (5.0 / 384.0, 1.0 / 8.0, 0.5, 0.5),
        "clamped": (1.0 / 384.0, 1.0 / 12.0, 0.5, 0.0),
        "cantilever": (1.0 / 8.0, 1.0 / 2.0, 1.0, 0.0),
    }
)


@checked(width=POSITIVE, height=POSITIVE)
def second_moment(width: float, height: float) -> float:
    """Second moment of area of a rectangle.

    Parameters
    ----------
    width : across the direction of bending [m]
    height : along the direction of bending [m]

    Returns
    -------
    float
        I = b h^3 / 12 [m4]

    Raises
    ------
    RangeError : a side that is not above 0

    Notes
    -----
    About the axis through the middle.

    References
    ----------
    Any text on the strength of materials [roark-formulas].

    Examples
    --------
    >>> print(f"{second_moment(0.045, 0.070):.4g}")
    1.286e-06
    """
    return width * height**3 / 12.0


@checked(load=NOT_NEGATIVE, span=POSITIVE, stiffness=POSITIVE)
def evenly_loaded(load: float, span: float, stiffness: float, ends: Ends = "supported") -> BentBeam:
    """Bend a beam under an even load.

    Parameters
    ----------
    load : q, per length [N/m]
    span : L [m]
    stiffness : EI [N m2]
    ends : "supported" or "clamped" at both ends; "cantilever": clamped at the left end only

    Returns
    -------
    BentBeam
        Largest deflection and moment, and where.

    Raises
    ------
    RangeError : a number out of range
    KeyError : ends that are not known

    Notes
    -----
    Supported: 5 q L^4/(384 EI), q L^2/8. Clamped: q L^4/(384 EI), q L^2/12 at the ends. Cantilever:
    q L^4/(8 EI), q L^2/2. Slender beam, small deflection.

    References
    ----------
    [roark-formulas], [aisc-beam-tables]

    Examples
    --------
    >>> bent = evenly_loaded(100.0, 0.6, 500.0)
    >>> print(f"{1000 * bent.deflection:.3f} mm, {bent.moment:.1f} N m")
    0.338 mm, 4.5 N m
    """
    bends, carries, bends_at, carries_at = _UNIFORM[ends]
    deflection = bends * load * span**4 / stiffness
    return BentBeam(deflection, carries * load * span**2, bends_at, carries_at)


@checked(load=NOT_NEGATIVE, span=POSITIVE, stiffness=POSITIVE)
def evenly_growing(load: float, span: float, stiffness: float) -> BentBeam:
    """Bend a beam, supported at both ends, under a load that grows from nothing, as a liquid's does.

    Parameters
    ----------
    load : q0, per length at the loaded end [N/m]
    span : L [m]
    stiffness : EI [N m2]

    Returns
    -------
    BentBeam
        Places count from the end without load.

    Raises
    ------
    RangeError : a number out of range

    Notes
    -----
    w(x) = q0 x (7 L^4 - 10 L^2 x^2 + 3 x^4) / (360 L EI), largest at x/L = sqrt(1 - sqrt(8/15)) = 0.5193;
    M = q0 L^2 / (9 sqrt 3) at x/L = 1/sqrt 3.

    References
    ----------
    [roark-formulas], [aisc-beam-tables]

    Examples
    --------
    >>> bent = evenly_growing(1.0, 1.0, 1.0)
    >>> round(bent.deflection, 5), round(bent.deflection_at, 4), round(bent.moment, 5)
    (0.00652, 0.5193, 0.06415)
    """
    x = math.sqrt(1.0 - math.sqrt(8.0 / 15.0))
    bends = x * (7.0 - 10.0 * x**2 + 3.0 * x**4) / 360.0
    carries = 1.0 / (9.0 * math.sqrt(3.0))
    return BentBeam(bends * load * span**4 / stiffness, carries * load * span**2, x, 1.0 / math.sqrt(3.0))


@checked(force=NOT_NEGATIVE, span=POSITIVE, stiffness=POSITIVE)
def loaded_in_the_middle(force: float, span: float, stiffness: float) -> BentBeam:
    """Bend a beam, supported at both ends, by a force in its middle.

    Parameters
    ----------
    force : F [N]
    span : L [m]
    stiffness : EI [N m2]

    Returns
    -------
    BentBeam
        Both are largest in the middle.

    Raises
    ------
    RangeError : a number out of range

    Notes
    -----
    F L^3 / (48 EI) and F L / 4.

    References
    ----------
    [roark-formulas], [aisc-beam-tables]

    Examples
    --------
    >>> round(loaded_in_the_middle(48.0, 1.0, 1.0).deflection, 9)
    1.0
    """
    return BentBeam(force * span**3 / (48.0 * stiffness), force * span / 4.0, 0.5, 0.5)


@checked(force=NOT_NEGATIVE, spread=NOT_NEGATIVE, span=POSITIVE, stiffness=POSITIVE)
def loaded_around_the_middle(force: float, spread: float, span: float, stiffness: float) -> BentBeam:
    """Bend a beam, supported at both ends, by a force spread evenly over a stretch around its middle.

    Parameters
    ----------
    force : F, all of it [N]
    spread : c, length of the stretch [m]; one longer than the span counts as the span
    span : L [m]
    stiffness : EI [N m2]

    Returns
    -------
    BentBeam
        Both are largest in the middle.

    Raises
    ------
    RangeError : a number out of range

    Notes
    -----
    F (8 L^3 - 4 L c^2 + c^3) / (384 EI) and F (2 L - c) / 8: between a force in the middle (c = 0) and an
    even load (c = L).

    References
    ----------
    Superposition of the partial even load of [roark-formulas].

    Examples
    --------
    >>> bent = loaded_around_the_middle(200.0, 0.3, 0.5, 10000.0)
    >>> print(f"{1000 * bent.deflection:.4f} mm, {bent.moment:.1f} N m")
    0.0441 mm, 17.5 N m
    """
    c = min(spread, span)
    deflection = force * (8.0 * span**3 - 4.0 * span * c**2 + c**3) / (384.0 * stiffness)
    return BentBeam(deflection, force * (2.0 * span - c) / 8.0, 0.5, 0.5)

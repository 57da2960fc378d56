"""Smooth bodies within outer sizes whose volume can be set: stones, domes, and things that stand upright."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

import numpy as np
from scipy.optimize import brentq
from scipy.special import gammaln

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.lofting import loft
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.solid import measure

AROUND, LEVELS = 128, 96
SHARPEST, BLUNTEST = 1.0, 60.0
"""Exponents from eight plane faces to a box with edges that are hardly rounded."""
SLIMMEST = 0.02
"""Least share of the foot that the top of a tapered body keeps."""


@checked(exponent=Range(SHARPEST, BLUNTEST))
def superellipsoid_share(exponent: float) -> float:
    """Share of its outer box that |x/a|^n + |y/b|^n + |z/c|^n <= 1 fills.

    Parameters
    ----------
    exponent : float
        n [-]; 1 is an octahedron, 2 an ellipsoid.

    Returns
    -------
    float
        Gamma(1 + 1/n)^3 / Gamma(1 + 3/n) [-].

    Raises
    ------
    RangeError
        For an exponent out of range.

    Notes
    -----
    Dirichlet's integral; Whittaker and Watson, A Course of Modern Analysis, 12.5 [whittaker-watson].

    Examples
    --------
    >>> round(superellipsoid_share(1.0) * 6, 9), round(superellipsoid_share(2.0) * 6 / np.pi, 9)
    (1.0, 1.0)
    """
    return _dirichlet(exponent, 3)


def _dirichlet(exponent: float, sides: int) -> float:
    return float(np.exp(sides * gammaln(1 + 1 / exponent) - gammaln(1 + sides / exponent)))


def _outlines(exponent: float) -> Floats:
    """Superellipse around the unit square, (n, 2)."""
    angles = 2 * np.pi * np.arange(AROUND) / AROUND
    circle = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    circle[np.abs(circle) < 1e-15] = 0.0
    reach = (np.abs(circle) ** exponent).sum(axis=1) ** (-1 / exponent)
    return np.asarray(circle * reach[:, None])


def _lofted(size: Floats, exponent: float, levels: Floats, scales: Floats) -> Mesh:
    outline = _outlines(exponent) * size[:2] / 2
    return loft(levels * size[2], scales[:, None, None] * outline)


def _half_levels() -> tuple[Floats, Floats]:
    """Sine and cosine of a quarter, closest where a dome is steep."""
    quarter = np.pi / 2 * np.arange(LEVELS + 1) / LEVELS
    return np.sin(quarter), np.cos(quarter)


def _domed(size: Floats, exponent: float) -> Mesh:
    up, out = _half_levels()
    reach = (up**exponent + out**exponent) ** (-1 / exponent)
    scales = np.append((out * reach)[:-1], 0.0)
    return _lofted(size, exponent, up * reach, scales)


def _rounded(size: Floats, exponent: float) -> Mesh:
    up, out = _half_levels()
    reach = (up**exponent + out**exponent) ** (-1 / exponent)
    levels, scales = up * reach, np.append((out * reach)[:-1], 0.0)
    both = np.concatenate([-levels[:0:-1], levels]), np.concatenate([scales[:0:-1], scales])
    return _lofted(size, exponent, (both[0] + 1) / 2, both[1])


def _standing(size: Floats, fullness: float) -> Mesh:
    """Below 2 an oval that tapers to a slim top, from 2 on a straight post with fuller and fuller corners."""
    narrowing = 1.0 if fullness >= 2 else SLIMMEST + (1 - SLIMMEST) * (fullness - SHARPEST)
    levels = np.linspace(0.0, 1.0, 2)
    return _lofted(size, max(fullness, 2.0), levels, 1 + (narrowing - 1) * levels)


FORMS: Mapping[str, Callable[[Floats, float], Mesh]] = MappingProxyType(
    {"rounded": _rounded, "domed": _domed, "standing": _standing}
)
"""Makers of a body from its outer sizes and how full it is, by the form's name."""


def form_range(form: str, size: Floats) -> tuple[float, float]:
    """Say which volumes a form can have within outer sizes.

    Parameters
    ----------
    form : str
        "rounded" all over, "domed" on a flat base, or "standing" with a flat base and top.
    size : array (3,)
        Width, depth and height [m].

    Returns
    -------
    tuple of float
        Least and most [m3].

    Examples
    --------
    >>> [round(float(each), 3) for each in form_range("rounded", np.ones(3))]
    [0.167, 0.998]
    """
    least, most = (measure(FORMS[form](size, end)).volume for end in (SHARPEST, BLUNTEST))
    return least, most


def body_of_volume(form: str, size: Floats, volume: float) -> Mesh:
    """Make the body of a form that has exactly a volume within outer sizes.

    Parameters
    ----------
    form : str
        As for `form_range`.
    size : array (3,)
        Width, depth and height [m].
    volume : float
        [m3]

    Returns
    -------
    Mesh
        Standing on z = 0, centred in x and y.

    Raises
    ------
    ValueError
        For a volume that the form cannot have.

    Examples
    --------
    >>> stone = body_of_volume("rounded", np.array([0.3, 0.2, 0.1]), 0.0035)
    >>> round(measure(stone).volume, 12), stone.bounds[1].round(9).tolist()
    (0.0035, [0.15, 0.1, 0.1])
    """
    least, most = form_range(form, size)
    if not least <= volume <= most:
        raise ValueError(f"{form} holds {least:.6g} to {most:.6g} m3, not {volume:.6g}")
    make = FORMS[form]
    found = brentq(
        lambda fullness: measure(make(size, fullness)).volume - volume, SHARPEST, BLUNTEST, xtol=1e-14
    )
    return make(size, float(found))

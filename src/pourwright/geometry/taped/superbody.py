"""Smooth bodies within outer sizes whose volume can be set: stones, domes, and things that stand upright."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from scipy.optimize import brentq
from scipy.special import gammaln

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.taped.lofting import loft

AROUND, LEVELS = 128, 64
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


@dataclass(frozen=True, slots=True, eq=False)
class _Stack:
    """One outline, larger and smaller by height: within the unit box, standing on its base.

    Parameters
    ----------
    outline : array (n, 2)
        Within -1 to 1.
    levels, scales : array (m,)
        Height from 0 to 1, and how large the outline is there.
    """

    outline: Floats
    levels: Floats
    scales: Floats

    @property
    def share(self) -> float:
        """Of the unit box, exact: between two levels lies a frustum of the outline."""
        x, y = self.outline.T
        area = np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)) / 2 / 4
        low, high = self.scales[:-1], self.scales[1:]
        return float(area * np.sum(np.diff(self.levels) * (low**2 + low * high + high**2)) / 3)

    def mesh(self, size: Floats) -> Mesh:
        """The body within outer sizes [m]."""
        outlines = self.scales[:, None, None] * self.outline * size[:2] / 2
        return loft(self.levels * size[2], outlines)


def _dome(exponent: float) -> tuple[Floats, Floats]:
    """Heights and scales of a superellipse's quarter, closest where it is steep."""
    quarter = np.pi / 2 * np.arange(LEVELS + 1) / LEVELS
    up, out = np.sin(quarter), np.cos(quarter)
    reach = (up**exponent + out**exponent) ** (-1 / exponent)
    return np.append((up * reach)[:-1], 1.0), np.append((out * reach)[:-1], 0.0)


def _domed(exponent: float) -> _Stack:
    return _Stack(_outlines(exponent), *_dome(exponent))


def _rounded(exponent: float) -> _Stack:
    up, scales = _dome(exponent)
    levels = np.concatenate([-up[:0:-1], up])
    return _Stack(_outlines(exponent), (levels + 1) / 2, np.concatenate([scales[:0:-1], scales]))


def _standing(fullness: float) -> _Stack:
    """Below 2 an oval that tapers to a slim top, from 2 on a straight post with fuller and fuller corners."""
    narrowing = 1.0 if fullness >= 2 else SLIMMEST + (1 - SLIMMEST) * (fullness - SHARPEST)
    return _Stack(_outlines(max(fullness, 2.0)), np.array([0.0, 1.0]), np.array([1.0, narrowing]))


FORMS: Mapping[str, Callable[[float], _Stack]] = MappingProxyType(
    {"rounded": _rounded, "domed": _domed, "standing": _standing}
)
"""Makers of a body within the unit box from how full it is, by the form's name."""


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
    least, most = (FORMS[form](end).share * float(np.prod(size)) for end in (SHARPEST, BLUNTEST))
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
    >>> from pourwright.geometry import measure
    >>> stone = body_of_volume("rounded", np.array([0.3, 0.2, 0.1]), 0.0035)
    >>> round(measure(stone).volume, 12), stone.bounds[1].round(9).tolist()
    (0.0035, [0.15, 0.1, 0.1])
    """
    least, most = form_range(form, size)
    if not least <= volume <= most:
        raise ValueError(f"{form} holds {least:.6g} to {most:.6g} m3, not {volume:.6g}")
    make, share = FORMS[form], volume / float(np.prod(size))
    # the ends are in the range by a last digit only
    full = brentq(
        lambda each: make(each).share - share, SHARPEST * (1 - 1e-9), BLUNTEST * (1 + 1e-9), xtol=1e-14
    )
    return make(float(full)).mesh(size)

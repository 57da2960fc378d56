"""Colours of a scale, made so that equal steps look equal, in print without colour too.

A ramp runs straight in CIELAB's lightness, so a grey copy keeps its order and its even
steps, and with even speed along a curve of hues, so the same holds in colour.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
TO_XYZ = np.array(
    [[0.4124564, 0.3575761, 0.1804375], [0.2126729, 0.7151522, 0.0721750], [0.0193339, 0.1191920, 0.9503041]]
)
"""Linear sRGB to XYZ at white D65 (IEC 61966-2-1)."""
WHITE = TO_XYZ.sum(axis=1)
FINE = 2001


def srgb_of_lab(lab: Array) -> Array:
    """Turn CIELAB into sRGB.

    Parameters
    ----------
    lab : array (..., 3)
        Lightness L* 0 to 100, a*, b* at white D65 [-].

    Returns
    -------
    array (..., 3)
        0 to 1 [-]; outside that the colour cannot be printed or shown.

    Notes
    -----
    Source: ISO/CIE 11664-4 and IEC 61966-2-1 (equations from memory).

    Examples
    --------
    >>> srgb_of_lab(np.array([53.2408, 80.0925, 67.2032])).round(3) + 0.0
    array([1., 0., 0.])
    """
    lightness, a, b = np.moveaxis(np.asarray(lab, dtype=float), -1, 0)
    middle = (lightness + 16.0) / 116.0
    root = np.stack([middle + a / 500.0, middle, middle - b / 200.0], axis=-1)
    knee = 6.0 / 29.0
    xyz = np.where(root > knee, root**3, 3.0 * knee**2 * (root - 4.0 / 29.0)) * WHITE
    linear = xyz @ np.linalg.inv(TO_XYZ).T
    bent = 1.055 * np.maximum(linear, 0.0031308) ** (1.0 / 2.4) - 0.055
    return np.asarray(np.where(linear <= 0.0031308, 12.92 * linear, bent))


@dataclass(frozen=True)
class Ramp:
    """A run of colours from the low to the high end of a scale.

    Parameters
    ----------
    lightness : tuple of float
        L* at the low and the high end [-].
    hues : tuple of (chroma, degrees)
        Four control points of a cubic Bezier curve in the plane of a* and b*.
    """

    lightness: tuple[float, float]
    hues: tuple[tuple[float, float], ...]

    @cached_property
    def _even(self) -> tuple[Array, Array]:
        """Share of the curve's length, and its points, finely."""
        t = np.linspace(0.0, 1.0, FINE)[:, None]
        p = [chroma * np.array([np.cos(a), np.sin(a)]) for chroma, a in self._turned()]
        curve = (1 - t) ** 3 * p[0] + 3 * (1 - t) ** 2 * t * p[1] + 3 * (1 - t) * t**2 * p[2] + t**3 * p[3]
        length = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(curve, axis=0), axis=1))])
        return length / length[-1], curve

    def _turned(self) -> list[tuple[float, float]]:
        return [(chroma, float(np.radians(degrees))) for chroma, degrees in self.hues]

    def lab(self, share: Array) -> Array:
        """CIELAB colours (n, 3) at shares of the scale (n,) from 0 to 1."""
        along, curve = self._even
        low, high = self.lightness
        a, b = (np.interp(share, along, curve[:, column]) for column in (0, 1))
        return np.stack([low + (high - low) * share, a, b], axis=-1)

    def colours(self, count: int) -> list[str]:
        """As many colours as a scale has steps, evenly spread from end to end, as ``#rrggbb``."""
        shares = np.linspace(0.0, 1.0, count) if count > 1 else np.array([0.5])
        levels = np.rint(np.clip(srgb_of_lab(self.lab(shares)), 0.0, 1.0) * 255.0).astype(int)
        return [f"#{red:02x}{green:02x}{blue:02x}" for red, green, blue in levels.tolist()]


WARM = Ramp((95.0, 26.0), ((16.0, 100.0), (75.0, 85.0), (85.0, 40.0), (32.0, 15.0)))
"""Temperature: pale to dark, so the darkest place is the hottest."""
HARD = Ramp((26.0, 95.0), ((34.0, 290.0), (46.0, 265.0), (46.0, 190.0), (14.0, 150.0)))
"""Cure: dark to pale, so the darkest place is the softest."""

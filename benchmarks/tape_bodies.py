"""Invented smooth bodies, and a tape that reads them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from pourwright.app.shaping.tape_defaults import TAPE
from pourwright.app.shaping.tape_rows import TapeRow

Floats = NDArray[np.float64]
FINE = 401
KINDS = ("girth", "diameter", "sides", "girth and width")


@dataclass(frozen=True)
class Body:
    """A body of one section shape all the way up: half-width by height, oval and a little square or lean.

    Parameters
    ----------
    levels, radius : array (n,)
        Height and mean half-diameter [m].
    uneven : float
        Difference of the two diameters over their sum [-].
    exponent : float
        Of the superellipse; 2 is an ellipse.
    shoulder : float
        Where it begins to close over [m]; its height where it ends flat.
    """

    levels: Floats
    radius: Floats
    uneven: float
    exponent: float
    shoulder: float

    @property
    def domed(self) -> bool:
        """Whether it closes at its top."""
        return bool(self.shoulder < self.levels[-1])

    @property
    def halves(self) -> tuple[float, float]:
        """Half-diameters of the section as shares of the mean."""
        return 1 + self.uneven, 1 - self.uneven

    @property
    def outline(self) -> Floats:
        """Section of mean half-diameter 1, (n, 2)."""
        angles = np.linspace(0.0, 2 * np.pi, 721)
        circle = np.stack([np.cos(angles), np.sin(angles)], axis=1)
        reach = (np.abs(circle) ** self.exponent).sum(axis=1) ** (-1 / self.exponent)
        return np.asarray(circle * reach[:, None] * np.array(self.halves))

    @property
    def unit(self) -> tuple[float, float]:
        """Perimeter and area of that section."""
        points = self.outline
        around = float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())
        x, y = points.T
        return around, float(abs(np.sum(x[:-1] * y[1:] - x[1:] * y[:-1])) / 2)

    @property
    def volume(self) -> float:
        """True volume [m3]."""
        return float(self.unit[1] * np.trapezoid(self.radius**2, self.levels))


def invent(rng: np.random.Generator, *, domed: bool = False) -> Body:
    """Draw a body: two families of outlines, a pot's and a turned leg's."""
    height = rng.uniform(0.15, 0.9)
    share = np.linspace(0.0, 1.0, FINE)
    outline = _wavering(rng, share) if rng.random() < 0.6 else _turned(rng, share)
    radius = outline / outline.mean() * height * rng.uniform(0.15, 0.6)
    start = 1.0
    if domed:
        start = rng.uniform(0.55, 0.9)
        up = np.maximum(share - start, 0.0) / (1 - start)
        bluntness = rng.uniform(1.6, 3.2)
        radius = radius * np.maximum(1 - up**bluntness, 0.0) ** (1 / bluntness)
    uneven = rng.normal() * TAPE["oval"].value / 2
    return Body(share * height, radius, uneven, 2 + rng.normal() * 0.13, start * height)


def _wavering(rng: np.random.Generator, share: Floats) -> Floats:
    """A smooth random outline: a Gaussian process of its logarithm."""
    coarse = share[::8]
    apart = np.abs(coarse[:, None] - coarse[None, :]) / rng.uniform(0.25, 0.8)
    if rng.random() < 0.5:
        alike = np.exp(-0.5 * apart**2)
    else:
        alike = (1 + np.sqrt(5) * apart + 5 / 3 * apart**2) * np.exp(-np.sqrt(5) * apart)
    factor = np.linalg.cholesky(alike + 1e-8 * np.eye(len(coarse)))
    wave = rng.uniform(0.08, 0.4) * (factor @ rng.normal(size=len(coarse)))
    return np.asarray(np.exp(np.interp(share, coarse, wave) + 0.2 * rng.normal() * (share - 0.5)))


def _turned(rng: np.random.Generator, share: Floats) -> Floats:
    """A few waves and a soft step."""
    outline = np.ones_like(share)
    for wave in range(1, rng.integers(2, 5)):
        outline += rng.normal() * 0.25 / wave * np.cos(np.pi * wave * share + rng.uniform(0.0, 2 * np.pi))
    outline += 0.15 * rng.normal() * np.tanh((share - rng.uniform(0.2, 0.8)) / rng.uniform(0.08, 0.3))
    return np.asarray(np.maximum(outline, 0.25))


EDGE = 0.012
"""Half the width of a tape and a rounded edge [m]: no girth is read closer to an end."""


def read(
    body: Body, count: int, kind: str, reading: float, rng: np.random.Generator, *, edge: float = 0.0
) -> list[TapeRow]:
    """Take readings at heights that somebody would choose: evenly, more or less; off the ends by an edge."""
    # the last reading of a dome is taken where it begins to close over, or a little higher
    top = body.shoulder + 0.3 * rng.uniform() * (body.levels[-1] - body.shoulder)
    places = np.linspace(edge, top - edge, count)
    places[1:-1] += rng.uniform(-0.25, 0.25, count - 2) * top / (count - 1)
    long = 1 + TAPE["tape"].value * rng.normal()
    around, (wide, deep), turned = body.unit[0], body.halves, rng.uniform(0.0, 2 * np.pi)
    across = np.linalg.norm(np.array(body.halves) * [np.cos(turned), np.sin(turned)])
    sizes: dict[str, dict[str, float]] = {
        "girth": {"girth": around},
        "diameter": {"diameter": 2 * float(across)},
    }
    sizes["sides"] = {"width": 2 * wide, "depth": 2 * deep}
    sizes["girth and width"] = {"girth": around, "width": 2 * wide}

    def seen(length: float) -> float:
        return max(length * long + reading / 2 * rng.normal(), 0.001)

    rows: list[TapeRow] = []
    for place in places:
        radius = float(np.interp(place, body.levels, body.radius))
        # whoever reads two heights that close together sees which is higher
        written = place if place == 0 else max(seen(place), rows[-1].height + 0.002 if rows else 0.001)
        said: dict[str, Any] = {name: seen(radius * size) for name, size in sizes[kind].items()}
        rows.append(TapeRow(written, **said))
    if edge:
        rows = [
            TapeRow(0.0, closes="flat"),
            *rows,
            TapeRow(_above(rows, seen(body.levels[-1])), closes="flat"),
        ]
    if body.domed:
        rows.append(TapeRow(_above(rows, seen(body.levels[-1])), closes="dome"))
    return rows


def _above(rows: list[TapeRow], height: float) -> float:
    """A height above the last reading: whoever reads two that are close sees which is higher."""
    return max(height, rows[-1].height + 0.002)

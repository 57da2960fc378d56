"""Glass that is too coarse to get to its place at all."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

import numpy as np
from manifold3d import CrossSection, JoinType, Manifold

from pourwright.app.setup import Setup
from pourwright.fill import FillBand, FillResult
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_length
from pourwright.geometry import Mesh
from pourwright.geometry.drawn.joining import as_manifold
from pourwright.geometry.kept import kept, known

SLICES = 24
"""Of the way down, each looked at for its widest place."""
TIP = 0.02
"""Share of a band that may lie below a narrow place: a tip that no grain fills is no reason to refuse."""
MM = 1000.0


def refuse_jammed(setup: Setup) -> None:
    """Refuse grains larger than the widest place of a level that they must pass on their way down.

    Parameters
    ----------
    setup : Setup
        With piece and fill.

    Raises
    ------
    UserError
        With the band, the grain, the place and the line of the grade.
    """
    for error in jammed(setup):
        raise error


def jammed(setup: Setup) -> Iterator[UserError]:
    """Find bands whose grains do not get down into them.

    Parameters
    ----------
    setup : Setup
        With piece and fill.

    Yields
    ------
    UserError
        One for each such band: band, grain, place, and the line of the grade.
    """
    for number, heights, grain in _passages(setup.fill):
        stuck = stuck_at(setup.piece.mesh, heights, grain)
        if stuck is not None:
            yield _jammed(setup, number, *stuck)


def jam_known(setup: Setup) -> bool:
    """Say whether it was looked before whether this glass gets down.

    Parameters
    ----------
    setup : Setup
        With piece and fill.

    Returns
    -------
    bool
    """
    mesh = setup.piece.mesh
    return all(known(stuck_at, mesh, heights, grain) for _, heights, grain in _passages(setup.fill))


def _passages(fill: FillResult) -> Iterator[tuple[int, tuple[float, ...], float]]:
    """Number of each band with glass, the heights its grains pass, and the largest of them [m]."""
    for number, band in enumerate(fill.bands, 1):
        if band.grade is not None:
            yield number, way_down(fill, band), fill.choices.glass.grade(band.grade).sieve_to.value


def way_down(fill: FillResult, band: FillBand) -> tuple[float, ...]:
    """Heights that the grains of a band pass on their way down [m].

    Parameters
    ----------
    fill : FillResult
        With V(z).
    band : FillBand
        One of its bands.

    Returns
    -------
    tuple of float
        Rising, from where a tip ends that no grain fills.
    """
    levels = fill.levels
    edges = np.linspace(band.lower, levels.top, SLICES + 1)
    heights = (edges[:-1] + edges[1:]) / 2
    below = levels.volume(np.minimum(heights, band.upper)) - levels.volume(band.lower)
    return tuple(heights[below > TIP * band.volume].tolist())


@kept
def stuck_at(mesh: Mesh, heights: tuple[float, ...], grain: float) -> tuple[float, float] | None:
    """Find the lowest height at which a grain does not pass.

    Parameters
    ----------
    mesh : Mesh
        The piece as poured.
    heights : tuple of float
        Rising [m].
    grain : float
        Its largest size [m].

    Returns
    -------
    tuple of float or None
        Height, and how wide the piece is there [m].
    """
    for height in heights:
        section = _body(mesh).slice(height * MM)
        if not _passes(section, grain):
            return height, _widest(section, grain)
    return None


@lru_cache(maxsize=2)
def _body(mesh: Mesh) -> Manifold:
    return as_manifold(mesh)


def _passes(section: CrossSection, grain: float) -> bool:
    """Whether a ball of that size fits into a section somewhere."""
    shrunk = section.offset(-(grain / 2 - 1e-6) * MM, JoinType.Round)
    return bool(shrunk.area() > 0.0)


def _widest(section: CrossSection, most: float) -> float:
    """Largest ball that fits into a section [m], by halving."""
    low, high = 0.0, most
    for _ in range(12):
        middle = (low + high) / 2
        low, high = (middle, high) if _passes(section, middle) else (low, middle)
    return low


def _jammed(setup: Setup, number: int, height: float, widest: float) -> UserError:
    band = setup.fill.bands[number - 1]
    grain = setup.fill.choices.glass.grade(str(band.grade)).sieve_to.value
    up, wide, large = (format_length(each, setup.system) for each in (height, widest, grain))
    return UserError(
        f"{band.grade} glass of up to {large} does not get down into {band.name}: {up} up from the mold's "
        f"floor the piece is {wide} wide at most",
        where=setup.job.where(f"band[{number}].grade"),
        allowed=f"grains up to {wide}; three side by side lie well",
        todo="take a finer grade, or make the band neat",
    )

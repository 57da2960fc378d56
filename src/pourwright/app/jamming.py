"""Glass that is too coarse to get to its place at all."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from manifold3d import CrossSection, JoinType

from pourwright.app.setup import Setup
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_length
from pourwright.geometry.drawn.joining import as_manifold

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
    fill, body = setup.fill, as_manifold(setup.piece.mesh)
    for number, band in enumerate(fill.bands, 1):
        if band.grade is None:
            continue
        grain = fill.choices.glass.grade(band.grade).sieve_to.value
        edges = np.linspace(band.lower, fill.levels.top, SLICES + 1)
        for height in (edges[:-1] + edges[1:]) / 2:
            below = float(fill.levels.volume(min(height, band.upper)) - fill.levels.volume(band.lower))
            section = body.slice(height * MM)
            if below > TIP * band.volume and not _passes(section, grain):
                yield _jammed(setup, number, float(height), _widest(section, grain))
                break


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

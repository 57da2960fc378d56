"""A shell of colour along the wall of a band, with the band's own colour as its core."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

import numpy as np

from pourwright.fill.choices import FillChoices, ShellChoice
from pourwright.fill.defaults import DEFAULTS
from pourwright.fill.parts import FillBand, Shell
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_length
from pourwright.geometry import Mesh, open_face
from pourwright.geometry.distance import distance_grid, offset_volume
from pourwright.geometry.drawn.carrying import carried_on
from pourwright.geometry.grid import Grid

CUBES = 4.0
"""Finest cubes in the thickness of a shell."""
ACROSS, LEVELS = 21, 12
"""Places at which a band is looked at for its narrowest one: across, and heights."""
_THIN = 1e-4


def lay_shells(bands: Sequence[FillBand], choices: FillChoices, mesh: Mesh) -> tuple[FillBand, ...]:
    """Give every band its shell of colour.

    Parameters
    ----------
    bands : sequence of FillBand
        As laid, a neat cover last.
    choices : FillChoices
        With the shells.
    mesh : Mesh
        The cavity, z = 0 at the mold's floor.

    Returns
    -------
    tuple of FillBand
        Masses as they were; the shell's part of them is known by its volume.

    Raises
    ------
    UserError
        Thinner than three grains, or so thick that no core is left.
    """
    return tuple(_laid(bands, choices, mesh))


def _laid(bands: Sequence[FillBand], choices: FillChoices, mesh: Mesh) -> Iterator[FillBand]:
    shells = [band.shell for band in choices.bands]
    for band, shell in zip(bands, [*shells, *[None] * (len(bands) - len(shells))], strict=True):
        if shell is None or band.grade is None:
            yield band
            continue
        grain = choices.glass.grade(band.grade).sieve_to.value
        _refuse_thin(shell, grain, band, choices)
        _refuse_thick(shell, grain, band, choices, mesh)
        volume = band.volume - core_between(mesh, shell.thickness, band.lower, band.upper)
        yield replace(
            band, shell=Shell(colour=shell.colour, thickness=shell.thickness, volume=min(volume, band.volume))
        )


@lru_cache(maxsize=8)
def core_between(mesh: Mesh, thickness: float, lower: float, upper: float) -> float:
    """Volume between two heights that lies deeper than a thickness from wall and floor.

    Parameters
    ----------
    mesh : Mesh
        The cavity; its open face is no wall.
    thickness : float
        From the wall inward [m].
    lower, upper : float
        Heights [m].

    Returns
    -------
    float
        [m3]

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> round(core_between(box([0.2, 0.2, 0.3]), 0.02, 0.1, 0.2) / (0.16 * 0.16 * 0.1), 3)
    1.0
    """
    body, spacing = _without_top(mesh, thickness), thickness / CUBES
    below = 0.0
    if lower > float(mesh.bounds[0, 2]) + thickness:
        below = offset_volume(body, -thickness, spacing, lower)
    return max(offset_volume(body, -thickness, spacing, upper) - below, 0.0)


def _without_top(mesh: Mesh, thickness: float) -> Mesh:
    return carried_on(mesh, 2.0 * thickness) if open_face(mesh).area > 0.0 else mesh


def _refuse_thin(shell: ShellChoice, grain: float, band: FillBand, choices: FillChoices) -> None:
    grains = DEFAULTS["shell_grains"].value
    if shell.thickness < grains * grain * (1 - 1e-9):
        raise UserError(
            f"a shell of {format_length(shell.thickness, choices.units)} around {band.name}",
            where=shell.where,
            allowed=f"{format_length(grains * grain, choices.units)} or more, {grains:g} largest grains",
            todo="make it thicker, or take a finer grade",
        )


def _refuse_thick(shell: ShellChoice, grain: float, band: FillBand, choices: FillChoices, mesh: Mesh) -> None:
    half = 0.5 * DEFAULTS["core_grains"].value * grain
    first = max(band.lower, float(mesh.bounds[0, 2]) + shell.thickness + half + _THIN)
    height, depth = band.upper, 0.0
    if first < band.upper:
        height, depth = narrowest(mesh, shell.thickness, first, band.upper)
    if depth >= shell.thickness + half - _THIN:
        return
    most, least = depth - half, DEFAULTS["shell_grains"].value * grain
    words = [format_length(value, choices.units) for value in (shell.thickness, height, max(most, 0.0))]
    raise UserError(
        f"a shell of {words[0]} leaves no core in {band.name}, which is narrowest at {words[1]}",
        where=shell.where,
        allowed=f"up to {words[2]}" if most >= least else "a shell where the piece is wider",
        todo="make it thinner, or leave the shell out",
    )


@lru_cache(maxsize=8)
def narrowest(mesh: Mesh, thickness: float, lower: float, upper: float) -> tuple[float, float]:
    """Where the middle of a band lies least deep.

    Parameters
    ----------
    mesh : Mesh
        The cavity; its open face is no wall.
    thickness : float
        Of the shell, how far the open face is carried on [m].
    lower, upper : float
        Heights [m].

    Returns
    -------
    tuple of float
        Height, and how far the deepest place of that height lies from the wall [m].

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> [round(each, 3) for each in narrowest(box([0.2, 0.1, 0.3]), 0.02, 0.1, 0.2)]
    [0.104, 0.05]
    """
    low, high = mesh.bounds
    x, y = (np.linspace(low[axis], high[axis], ACROSS + 1) for axis in (0, 1))
    grid = Grid(x, y, np.linspace(lower, upper, LEVELS + 1))
    depths = -distance_grid(_without_top(mesh, thickness), grid)
    deepest = depths.max(axis=(0, 1))
    where = int(np.argmin(np.round(deepest, 9)))
    return float(grid.centers[2][where]), float(deepest[where])

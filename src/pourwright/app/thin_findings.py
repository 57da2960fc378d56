"""What a check says of thin parts, corners and edges, and of glass in walls too thin for it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from pourwright.app.castable import Finding
from pourwright.app.setup import Setup
from pourwright.app.shaping.piece import PieceRead
from pourwright.app.shaping.thin import Thin, measure_thin
from pourwright.app.shaping.thin_defaults import THIN
from pourwright.app.shaping.thin_look import entries, teller_of
from pourwright.app.shaping.thin_words import ThinTeller
from pourwright.fill import FillBand
from pourwright.foundation.notation import UnitSystem, format_openings
from pourwright.geometry import Mesh
from pourwright.geometry.kept import kept
from pourwright.materials import Glass

WORST = ("inner corner", "outer edge")
"""Kinds of which a check tells the worst alone."""


def thin_findings(piece: PieceRead, system: UnitSystem, setup: Setup | None = None) -> Iterator[Finding]:
    """Look at what is thin or sharp about a piece.

    Parameters
    ----------
    piece : PieceRead
        As poured.
    system : UnitSystem
        Of what is printed.
    setup : Setup, optional
        With the glass, where there is any.

    Yields
    ------
    Finding
    """
    turn = tuple(float(number) for number in piece.frame.matrix.ravel())
    found, teller = thin_of(piece.mesh, turn, system), teller_of(piece.frame, system)
    told: set[str] = set()
    for number, entry in enumerate(entries(found, teller)):
        if (entry["level"] != "ok" or number == 0) and entry["kind"] not in told:
            yield Finding(entry["level"], entry["text"])
        if entry["kind"] in WORST:
            told.add(entry["kind"])
    if setup is not None:
        glass = setup.fill.choices.glass
        for band in setup.fill.bands:
            yield from _glass(found, teller, band, glass)


@kept
def thin_of(mesh: Mesh, turn: tuple[float, ...], system: UnitSystem) -> Thin:
    """Measure what is thin about a piece.

    Parameters
    ----------
    mesh : Mesh
        As poured.
    turn : tuple of float
        Map from the file, row by row.
    system : UnitSystem
        Roundings are proposed in its steps.

    Returns
    -------
    Thin
        In the file's frame.
    """
    return measure_thin(mesh.transformed(np.linalg.inv(np.reshape(turn, (4, 4)))), system)


def _glass(found: Thin, teller: ThinTeller, band: FillBand, glass: Glass) -> Iterator[Finding]:
    """A wall with fewer than some grains side by side."""
    if band.grade is None:
        return
    grade = glass.grade(band.grade)
    turned = found.map.middles @ teller.frame.matrix[2, :3] + teller.frame.matrix[2, 3]
    rows = np.flatnonzero((turned >= band.lower) & (turned <= band.upper) & ~found.apart)
    if not rows.size:
        return
    thinnest = rows[np.argmin(found.map.balls[rows])]
    wall = float(found.map.balls[thinnest])
    across = THIN["grains_across"].value
    if wall >= across * grade.sieve_to.value:
        return
    sizes = format_openings(grade.sieve_from.value, grade.sieve_to.value, teller.system)
    does = "does not go in there" if wall < grade.sieve_to.value else "bridges and lies loose there"
    place = teller.where(found.map.middles[thinnest])
    text = f"the wall {place} is {teller.thick(wall)}: {grade.id} glass ({sizes}) {does}"
    finer = [each for each in glass.grades if across * each.sieve_to.value <= wall and each.id != grade.id]
    best = max(finer, key=lambda each: each.sieve_to.value, default=None)
    yield Finding("mind", text, f"take {best.id}, or leave it neat" if best else "leave it neat there")

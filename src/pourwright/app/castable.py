"""Whether one poured block of rubber, open at the top, can hold the piece at all."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from pourwright.app.defaults import DEFAULTS
from pourwright.app.heights import in_both
from pourwright.app.jamming import refuse_jammed
from pourwright.app.setup import Setup
from pourwright.app.shaping.piece import PieceRead
from pourwright.app.unplanned_ways import refuse_unplanned_way
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length, format_share, format_volume
from pourwright.geometry import Hollow, Mesh, hollows, level_volume, open_face
from pourwright.geometry.kept import kept
from pourwright.jobs.job import Job

Level = Literal["ok", "mind", "stop"]
# common practice, no source
THINNEST = 0.006


@dataclass(frozen=True)
class Finding:
    """One line of a check: fine, to be minded, or standing in the way.

    Parameters
    ----------
    level : str
        "ok", "mind" or "stop".
    text : str
        What was found.
    todo : str
        What to do about it.
    """

    level: Level
    text: str
    todo: str = ""

    @property
    def line(self) -> str:
        """What was found and what to do."""
        return f"{self.text}; {self.todo}" if self.todo else self.text


def castable(job: Job, piece: PieceRead) -> Iterator[Finding]:
    """Look at the mouth of the mold and at hollows that no rubber can be in.

    Parameters
    ----------
    job : Job
        As written.
    piece : PieceRead
        Its piece.

    Yields
    ------
    Finding
    """
    yield from _slenderness(job, piece)
    yield from _mouth(job, piece)
    for hollow in hollows(piece.mesh):
        yield _hollow(job, piece, hollow)


def refuse_uncastable(setup: Setup) -> None:
    """Refuse a piece that no heat run needs to be spent on.

    Parameters
    ----------
    setup : Setup
        The job.

    Raises
    ------
    UserError
        For the first thing that stands in the way.
    """
    refuse_unplanned_way(setup.job)
    refuse_uncastable_piece(setup.job, setup.piece)
    refuse_jammed(setup)


def refuse_uncastable_piece(job: Job, piece: PieceRead) -> None:
    """Refuse a piece before anything of its mold is reckoned.

    Parameters
    ----------
    job : Job
        As written.
    piece : PieceRead
        Its piece.

    Raises
    ------
    UserError
        For the first thing that stands in the way.
    """
    for finding in castable(job, piece):
        if finding.level == "stop":
            raise UserError(finding.text, where=job.where("shape"), todo=finding.todo)


def _slenderness(job: Job, piece: PieceRead) -> Iterator[Finding]:
    """Resin does not run down a needle, and no heat run sees it."""
    widest = max(piece.size[:2])
    if widest < THINNEST:
        least, came = (format_length(value, UnitSystem(job.units)) for value in (THINNEST, widest))
        text = f"the piece is only {came} wide as poured, too thin to fill; {least} is the least"
        yield Finding("stop", text, "lay it down with shape.up, or make it thicker")


def _mouth(job: Job, piece: PieceRead) -> Iterator[Finding]:
    """The mold is open where the piece ends flat at the top as poured."""
    mouth = open_face(piece.mesh).area
    # a section at a knot is that just above it, which misses the open face itself
    widest = max(_widest(piece.mesh), mouth, 1e-12)
    share = mouth / widest
    if share >= DEFAULTS["least_mouth"].value:
        yield Finding("ok", f"the open face at the top is {format_share(share)} of the widest section")
        return
    yield Finding(
        "stop",
        "no flat face at the top as poured: the mold would have no mouth to pour and look through",
        f"turn the piece with shape.up ({job.where('shape.up')})",
    )


@kept
def _widest(mesh: Mesh) -> float:
    levels = level_volume(mesh)
    return float(levels.area(levels.knots).max())


def _hollow(job: Job, piece: PieceRead, hollow: Hollow) -> Finding:
    system = UnitSystem(job.units)
    amount = format_volume(hollow.volume, system)
    frame, (x, y, z) = piece.frame, (float(value) for value in hollow.place)
    at = in_both(frame, z, system, None if frame.upright else (x, y, z))
    if not hollow.open_above:
        text = f"a closed hollow of {amount}, {at} above the mold's floor: no rubber can be in it"
        return Finding("stop", text, "make the shape solid there, or cast it in two pieces")
    text = f"a hollow of {amount} that only opens at the top: the rubber in it would hang on nothing"
    if hollow.volume < DEFAULTS["small_hollow"].value * piece.solid.volume:
        return Finding("mind", text, "it fills with resin; work it in after casting")
    return Finding("stop", text, "turn the piece with shape.up so that the hollow opens downward")

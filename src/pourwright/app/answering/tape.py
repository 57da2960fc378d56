"""What stands beside the bands and does not move with them: outline, tape measure, what can be chosen."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from pourwright.app.answering.answers import filled_look, wrong_of
from pourwright.app.answering.desk import Desk
from pourwright.app.answering.document import GradeTold, Tape, TapeTold, Tick
from pourwright.app.answering.looked import CheapLook
from pourwright.app.document.section import section_lines
from pourwright.app.glass import glass_of
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_openings
from pourwright.jobs.job import Job
from pourwright.sheets.tones import COLOURS

INCH = 0.0254
STEPS = {UnitSystem.METRIC: (0.001, 0.010), UnitSystem.US: (INCH / 16, INCH)}
"""How far an arrow key and a page key move a border [m]."""
PARTS = {UnitSystem.METRIC: (0.001, (10, 5, 1)), UnitSystem.US: (INCH / 16, (16, 8, 4, 2, 1))}
"""Finest tick [m], and how many of them lie between those of each length, the longest first."""
LABELS = {UnitSystem.METRIC: (0.010, "cm"), UnitSystem.US: (INCH, "in")}


def tape_of(desk: Desk, folder: Path, variant: str | None = None) -> TapeTold:
    """Tell what is drawn beside the bands; never raises for what the maker wrote.

    Parameters
    ----------
    desk : Desk
        With what is kept.
    folder : Path
        Of the job.
    variant : str, optional
        Name of one; the first where left out.

    Returns
    -------
    TapeTold
        With the reason where the job cannot be used, has no bands, or its shape is not read yet.
    """
    try:
        return TapeTold(tape=_tape(filled_look(desk, folder, variant)))
    except UserError as error:
        return TapeTold(error=wrong_of(error))


def _tape(look: CheapLook) -> Tape:
    job, frame, system = look.job, look.piece.frame, look.system
    step, page = STEPS[system]
    return Tape(
        outline=outline_of(look),
        height_m=frame.height,
        rim_m=look.mold.rim,
        flipped=frame.flipped,
        standing=frame.upright,
        unit=LABELS[system][1],
        ticks=list(ticks_of(frame.height, system)),
        step_m=step,
        page_m=page,
        grades=list(_grades(job, look, system)),
        bands=[dict(band) for band in job.raw.get("band", [])],
        colours=list(COLOURS),
    )


def outline_of(look: CheapLook) -> list[list[tuple[float, float]]]:
    """Give the outline of what is filled, in the upright section through its middle.

    Parameters
    ----------
    look : CheapLook
        The job.

    Returns
    -------
    list of lines
        Closed; x to the right, z up as poured [m].
    """
    hollow = look.mold_look.hollow
    room = look.piece.mesh if hollow is None else hollow.body.room
    return [list(line) for line in section_lines(room, "y", 0.0)]


def ticks_of(height: float, system: UnitSystem) -> Iterator[Tick]:
    """Draw a tape measure.

    Parameters
    ----------
    height : float
        Of the piece [m].
    system : UnitSystem
        Millimetres with a number at each centimetre, or sixteenths with one at each inch.

    Yields
    ------
    Tick

    Examples
    --------
    >>> [(tick.size, tick.label) for tick in ticks_of(0.0021, UnitSystem.METRIC)]
    [(0, '0'), (2, ''), (2, '')]
    """
    finest, parts = PARTS[system]
    label = LABELS[system][0]
    for number in range(int(height / finest + 1e-6) + 1):
        size = next(size for size, part in enumerate(parts) if number % part == 0)
        text = f"{number * finest / label:.0f}" if size == 0 else ""
        yield Tick(at_m=number * finest, size=size, label=text)


def _grades(job: Job, look: CheapLook, system: UnitSystem) -> Iterator[GradeTold]:
    for grade in glass_of(job, look.mold_look.materials).grades:
        openings = format_openings(grade.sieve_from.value, grade.sieve_to.value, system)
        yield GradeTold(id=grade.id, name=f"{grade.id}, {openings}")

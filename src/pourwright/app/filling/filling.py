"""Say what goes into the mold of a job, without any heat run."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from pourwright import __version__
from pourwright.app.castable import refuse_uncastable_piece
from pourwright.app.document import job_info
from pourwright.app.document.moments import iso
from pourwright.app.document.parts import piece_part
from pourwright.app.filling.credits import fill_sources
from pourwright.app.filling.folder import FILL_FOLDER, fill_files
from pourwright.app.filling.look import FillLook, look_at_fill
from pourwright.app.filling.looks import LOOKS
from pourwright.app.jamming import refuse_jammed
from pourwright.app.shaping.piece import read_piece
from pourwright.app.which import chosen_variants
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs import load_job
from pourwright.jobs.fill_sheet import FillSheet


@dataclass(frozen=True)
class FillReport:
    """The fill of a job.

    Parameters
    ----------
    sheet : FillSheet
        All that is told.
    files : tuple of Path
        What was written.
    """

    sheet: FillSheet
    files: tuple[Path, ...] = ()

    def to_json(self) -> dict[str, Any]:
        """The report as JSON."""
        answer = self.sheet.model_dump(mode="json", by_alias=True)
        return answer | {"files": [str(path) for path in self.files]}


def fill_job(
    path: Path,
    *,
    variant: str | None = None,
    out: Path | None = None,
    heat: bool = False,
    progress: Progress = SILENT,
    now: datetime | None = None,
) -> FillReport:
    """Say what goes into the mold of a job.

    Parameters
    ----------
    path : Path
        Job file.
    variant : str, optional
        The variant to look at; else the first.
    out : Path, optional
        Folder for sheet and pictures; replaced in one step.
    heat : bool
        Whether to run the heat of setting, for a casting material mixed with water.
    progress : Progress
        Told what is done; may raise Cancelled.
    now : datetime, optional
        Aware; the clock where left out.

    Returns
    -------
    FillReport

    Raises
    ------
    UserError
        For a job or a shape that cannot be filled, with the line.
    """
    if out is not None:
        FILL_FOLDER.refuse_foreign(out)
    job = chosen_variants(load_job(path), variant)[0]
    progress.step("reading the shape", 0, 1)
    look = replace(look_at_fill(job, read_piece(job)), heat=heat)
    refuse_uncastable_piece(job, look.piece)
    if look.setup is not None:
        refuse_jammed(look.setup)
    sheet = fill_sheet(look, now or datetime.now(UTC), progress)
    report = FillReport(sheet)
    if out is None:
        return report
    progress.step("writing the sheets", 0, 1)
    return replace(report, files=tuple(sorted(FILL_FOLDER.write(out, fill_files(look, sheet)))))


def fill_sheet(look: FillLook, now: datetime, progress: Progress = SILENT) -> FillSheet:
    """Tell every part of a fill.

    Parameters
    ----------
    look : FillLook
        The fill.
    now : datetime
        Aware; the only time stamp in the document.
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    FillSheet
    """
    parts: dict[str, Any] = {}
    for number, (name, tell) in enumerate(LOOKS.items()):
        progress.step(name.replace("_", " "), number, len(LOOKS))
        parts[name] = tell(look, progress)
    first = look.fill.warnings if look.fill is not None else ()
    return FillSheet(
        version=__version__,
        computed_for=iso(now),
        inputs=dict(look.piece.inputs),
        job=job_info(look.job),
        piece=piece_part(look.piece, look.piece_mass, look.casting.id, look.materials, look.hollow),
        sources=fill_sources(look),
        warnings=_joined("warnings", first, parts),
        cautions=_joined("cautions", (), parts),
        **parts,
    )


def _joined(name: str, first: Sequence[str], parts: Mapping[str, Any]) -> list[str]:
    """What every part wants to be minded, once each."""
    told = [*first, *(text for part in parts.values() for text in getattr(part, name, []))]
    return list(dict.fromkeys(told))

"""Say how the mold of a job is made, without any heat run."""

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
from pourwright.app.molding.credits import mold_sources
from pourwright.app.molding.folder import MOLD_FOLDER, mold_files
from pourwright.app.molding.look import MoldLook, look_at_mold
from pourwright.app.molding.looks import LOOKS
from pourwright.app.shaping.piece import read_piece
from pourwright.app.which import chosen_variants
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs import load_job
from pourwright.jobs.mold_sheet import MoldSheet


@dataclass(frozen=True)
class MoldReport:
    """The mold of a job.

    Parameters
    ----------
    sheet : MoldSheet
        All that is told.
    files : tuple of Path
        What was written.
    """

    sheet: MoldSheet
    files: tuple[Path, ...] = ()

    def to_json(self) -> dict[str, Any]:
        """The report as JSON."""
        answer = self.sheet.model_dump(mode="json", by_alias=True)
        return answer | {"files": [str(path) for path in self.files]}


def mold_job(
    path: Path,
    *,
    variant: str | None = None,
    out: Path | None = None,
    progress: Progress = SILENT,
    now: datetime | None = None,
) -> MoldReport:
    """Say how the mold of a job is made.

    Parameters
    ----------
    path : Path
        Job file.
    variant : str, optional
        The variant to look at; else the first.
    out : Path, optional
        Folder for sheet, pictures and bodies; replaced in one step.
    progress : Progress
        Told what is done; may raise Cancelled.
    now : datetime, optional
        Aware; the clock where left out.

    Returns
    -------
    MoldReport

    Raises
    ------
    UserError
        For a job or a shape that no mold can be made for, with the line.
    """
    if out is not None:
        MOLD_FOLDER.refuse_foreign(out)
    job = chosen_variants(load_job(path), variant)[0]
    progress.step("reading the shape", 0, 1)
    look = look_at_mold(job, read_piece(job))
    refuse_uncastable_piece(job, look.piece)
    sheet = mold_sheet(look, now or datetime.now(UTC), progress)
    report = MoldReport(sheet)
    if out is None:
        return report
    progress.step("writing the sheets", 0, 1)
    return replace(report, files=tuple(sorted(MOLD_FOLDER.write(out, mold_files(look, sheet)))))


def mold_sheet(look: MoldLook, now: datetime, progress: Progress = SILENT) -> MoldSheet:
    """Tell every part of a mold.

    Parameters
    ----------
    look : MoldLook
        The mold.
    now : datetime
        Aware; the only time stamp in the document.
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    MoldSheet
    """
    parts: dict[str, Any] = {}
    for number, (name, tell) in enumerate(LOOKS.items()):
        progress.step(name.replace("_", " "), number, len(LOOKS))
        parts[name] = tell(look, progress)
    return MoldSheet(
        version=__version__,
        computed_for=iso(now),
        inputs=dict(look.piece.inputs),
        job=job_info(look.job),
        piece=piece_part(look.piece, look.fill_mass, look.casting.id, look.materials, look.hollow),
        sources=mold_sources(look),
        warnings=_joined("warnings", look.mold.warnings, parts),
        cautions=_joined("cautions", (), parts),
        **parts,
    )


def _joined(name: str, first: Sequence[str], parts: Mapping[str, Any]) -> list[str]:
    """What every part wants to be minded, once each."""
    told = [*first, *(text for part in parts.values() for text in getattr(part, name, []))]
    return list(dict.fromkeys(told))

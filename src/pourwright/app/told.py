"""A job told part by part, as its mold and its fill are: what both have in common."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Generic, TypeVar

from pourwright import __version__
from pourwright.app.document import job_info
from pourwright.app.document.moments import iso
from pourwright.app.learnt.used import learnt_numbers
from pourwright.app.own_folder import OwnFolder
from pourwright.app.shaping.piece import PieceRead, read_piece
from pourwright.app.which import as_loaded, chosen_variants
from pourwright.foundation.files import canonical_json
from pourwright.foundation.progress import Progress
from pourwright.jobs.job import Job
from pourwright.jobs.plan_part import Part
from pourwright.jobs.told import Told

L = TypeVar("L")
S = TypeVar("S", bound=Told)


@dataclass(frozen=True)
class ToldReport(Generic[S]):
    """A job's mold or fill.

    Parameters
    ----------
    sheet : Told
        All that is told.
    files : tuple of Path
        What was written.
    """

    sheet: S
    files: tuple[Path, ...] = ()

    def to_json(self) -> dict[str, Any]:
        """The report as JSON."""
        answer = self.sheet.model_dump(mode="json", by_alias=True)
        return answer | {"files": [str(path) for path in self.files]}


@dataclass(frozen=True)
class Telling(Generic[L, S]):
    """How a job is told.

    Parameters
    ----------
    folder : OwnFolder
        That is written.
    look_at : callable
        Designs what is told, and refuses what cannot be.
    tell : callable
        Makes the document from that.
    files : callable
        Makes every file, by path.
    """

    folder: OwnFolder
    look_at: Callable[[Job, PieceRead], L]
    tell: Callable[[L, datetime, Progress], S]
    files: Callable[[L, S], dict[str, bytes]]

    def report(
        self,
        path: Path | Job,
        variant: str | None,
        out: Path | None,
        progress: Progress,
        now: datetime | None,
    ) -> ToldReport[S]:
        """Tell one variant of a job, and write it where a folder is named.

        Parameters
        ----------
        path : Path or Job
            Job file, or the job as it was read.
        variant : str or None
            The variant to look at; else the first.
        out : Path or None
            Folder to write; replaced in one step.
        progress : Progress
            Told what is done; may raise Cancelled.
        now : datetime or None
            Aware; the clock where left out.

        Returns
        -------
        ToldReport

        Raises
        ------
        UserError
            For a job, a shape or a folder that will not do, with its line.
        """
        if out is not None:
            self.folder.refuse_foreign(out)
        job = chosen_variants(as_loaded(path), variant)[0]
        progress.step("reading the shape", 0, 1)
        look = self.look_at(job, read_piece(job))
        sheet = self.tell(look, now or datetime.now(UTC), progress)
        report = ToldReport(sheet)
        if out is None:
            return report
        progress.step("writing the sheets", 0, 1)
        return replace(report, files=tuple(sorted(self.folder.write(out, self.files(look, sheet)))))


def parts_of(
    look: L, looks: Mapping[str, Callable[[L, Progress], Part | None]], progress: Progress
) -> dict[str, Any]:
    """Tell every part, in order.

    Parameters
    ----------
    look : object
        What every part starts from.
    looks : mapping
        Tellers by the field of the document.
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    dict
        Part by field; None where there is nothing to tell.
    """
    parts: dict[str, Any] = {}
    for number, (name, tell) in enumerate(looks.items()):
        progress.step(name.replace("_", " "), number, len(looks))
        parts[name] = tell(look, progress)
    return parts


def frame_of(
    job: Job, piece: PieceRead, now: datetime, parts: Mapping[str, Any], warnings: Sequence[str]
) -> dict[str, Any]:
    """Fill what every such document holds beside its parts, but for piece and sources.

    Parameters
    ----------
    job : Job
        One variant.
    piece : PieceRead
        Its piece.
    now : datetime
        Aware; the only time stamp in the document.
    parts : mapping
        All that was told.
    warnings : sequence of str
        To mind before those of the parts.

    Returns
    -------
    dict
        By field.
    """
    return {
        "version": __version__,
        "computed_for": iso(now),
        "inputs": dict(piece.inputs),
        "job": job_info(job),
        "learnt": learnt_numbers(job),
        "warnings": _joined("warnings", warnings, parts),
        "cautions": _joined("cautions", (), parts),
    }


def files_of(
    name: str,
    look: L,
    sheet: S,
    makers: Iterable[Callable[[L, S], Iterator[tuple[str, bytes]]]],
    on_paper: Callable[[S, Mapping[str, str]], bytes],
) -> dict[str, bytes]:
    """Make every file of a folder.

    Parameters
    ----------
    name : str
        Of document and paper, as in "mold".
    look : object
        What was told from.
    sheet : Told
        All that was told.
    makers : iterable of callable
        Of drawings and bodies.
    on_paper : callable
        Sets the PDF with the drawings, by path.

    Returns
    -------
    dict
        Content by path.
    """
    made = {path: content for make in makers for path, content in make(look, sheet)}
    drawings = {path: made[path].decode() for path in made if path.endswith(".svg")}
    answer = sheet.model_dump(mode="json", by_alias=True)
    return made | {f"{name}.pdf": on_paper(sheet, drawings), f"{name}.json": canonical_json(answer)}


def _joined(name: str, first: Sequence[str], parts: Mapping[str, Any]) -> list[str]:
    """What every part wants to be minded, once each."""
    told = [*first, *(text for part in parts.values() for text in getattr(part, name, []))]
    return list(dict.fromkeys(told))

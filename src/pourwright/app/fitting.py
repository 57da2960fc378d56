"""Fit a resin to its data sheet and its cup tests; write its record, the answer and the pictures."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pourwright.app.fit_document import fit_document
from pourwright.app.fit_evidence import Asked, ask
from pourwright.app.own_folder import OwnFolder
from pourwright.calibration import (
    Fit,
    Told,
    contradictions,
    leave_one_out,
    questions,
    record_text,
    settle,
    unusual,
)
from pourwright.foundation.files import canonical_json
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs.facts_loading import load_facts
from pourwright.jobs.fit import SCHEMA, FitDocument
from pourwright.sheets.cup_drawing import draw_cup
from pourwright.sheets.cup_recipe import recipe_pdf

FIT_FOLDER = OwnFolder("a fit", "fit.json", SCHEMA.partition("/")[0] + "/")
COMPARED = ("depth", "demold")
"""Answers that are told again without each fact."""


@dataclass(frozen=True)
class FitReport:
    """A fit and where its files are.

    Parameters
    ----------
    document : FitDocument
        Everything that is told.
    files : tuple of Path
        What was written.
    """

    document: FitDocument
    files: tuple[Path, ...]

    def to_json(self) -> dict[str, Any]:
        """The document as JSON holds it."""
        return self.document.to_json()


def fit_resin(path: Path, *, out: Path | None = None, progress: Progress = SILENT) -> FitReport:
    """Fit a resin to its facts.

    Parameters
    ----------
    path : Path
        Facts file.
    out : Path, optional
        Folder for the files; else ``fit`` beside the facts file.
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    FitReport
        The answer; its record, its document and a picture of each cup test are written.

    Raises
    ------
    UserError
        For facts or logger files that cannot be used, with file and line.
    """
    facts = load_facts(path)
    folder = facts.path.parent / "fit" if out is None else out
    FIT_FOLDER.refuse_foreign(folder)
    progress.step("reading", 0, 1)
    asked = ask(facts)
    found = settle(asked.question, progress)
    answered = questions(asked.question.density)
    compared = {key: answered[key] for key in COMPARED}
    document = fit_document(
        asked,
        found,
        answered,
        leave_one_out(found, compared, progress),
        contradictions(found, progress),
        unusual(asked.question, progress),
    )
    return FitReport(document, FIT_FOLDER.write(folder, _files(asked, found, document)))


def _files(asked: Asked, found: Fit, document: FitDocument) -> dict[str, bytes]:
    files: dict[str, bytes] = {
        "resin.toml": record_text(found, _told(asked)).encode(),
        "fit.json": canonical_json(document.to_json()),
        "cup-test.pdf": recipe_pdf(document),
    }
    for number, cup in enumerate(document.cups, 1):
        files[f"cup-{number}.svg"] = draw_cup(document, cup).encode()
    return files


def _told(asked: Asked) -> Told:
    facts, mix = asked.facts, asked.mix
    parts = mix.parts()
    stated = {
        "parts_a": None if parts is None else 100.0,
        "parts_b": None if parts is None else 100.0 * parts[1] / parts[0],
        "density": mix.mixed_density(),
        "density_a": mix.density_a,
        "density_b": mix.density_b,
        "viscosity": None if facts.mix.viscosity is None else facts.mix.viscosity.si,
    }
    direct = {name: value for name, value in stated.items() if value is not None}
    invented = " (invented)" if facts.invented else ""
    return Told(facts.id, facts.name, asked.base, f"{facts.source}{invented}", direct)

"""What is remembered of a job's runs, so that a server that crashed is no riddle to the next."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

from pydantic import BaseModel, Field, ValidationError

from pourwright import cache_folder
from pourwright.app.working.state import RunState
from pourwright.foundation.files import write_atomically

MOST = 20
"""So many runs of a job are remembered."""


class Ledger(BaseModel):
    """Runs of a job, the latest last, and the latest answers that are kept elsewhere."""

    folder: str
    runs: list[RunState] = Field(default_factory=list)
    answers: dict[str, dict[str, str]] = Field(default_factory=dict, description="key by what and variant")

    def note(self, run: RunState) -> None:
        """Remember where a run's answer is kept."""
        answer = run.answer or {}
        if "key" in answer:
            self.answers.setdefault(run.what, {})[answer["variant"]] = answer["key"]
        if "paper" in answer:
            self.answers.setdefault(f"{run.what} on paper", {})[answer["variant"]] = answer["paper"]

    def save(self) -> None:
        """Write it whole; without a place for it one works on."""
        self.runs = self.runs[-MOST:]
        try:
            write_atomically(_file(Path(self.folder)), self.model_dump_json())
        except OSError:
            return


def ledger_of(folder: Path) -> Ledger:
    """Read what is remembered; what went on when it was written was interrupted.

    Parameters
    ----------
    folder : Path
        Of the job.

    Returns
    -------
    Ledger
    """
    try:
        found = Ledger.model_validate_json(_file(folder).read_bytes())
    except (OSError, ValidationError):
        return Ledger(folder=str(folder.resolve()))
    for run in found.runs:
        if run.live:
            run.interrupt()
    return found


def _file(folder: Path) -> Path:
    name = hashlib.sha256(os.fsencode(folder.resolve())).hexdigest()
    return cache_folder() / "works" / f"{name}.json"

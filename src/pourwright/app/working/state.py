"""How far a run is, as it is told and kept."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, Field

from pourwright.foundation.errors import Cancelled, UserError

State = Literal["waiting", "running", "done", "cancelled", "failed", "interrupted"]
LIVE: tuple[State, ...] = ("waiting", "running")
_DEFECT = "begin it again; if it fails again, the terminal says more"
_AGAIN = "begin again: the heat runs that were done are kept, so it goes quickly"


class Trouble(BaseModel):
    """Why something did not come about, and how to go on."""

    what: str
    where: str = ""
    allowed: str = ""
    todo: str = ""


class RunState(BaseModel):
    """One run."""

    id: str
    what: str = Field(description="plan, mold, fill ..")
    words: str = Field(description="what it is, for a person")
    heavy: bool = Field(default=True, description="of such work one run goes on at a time")
    variant: str = Field(description="the variant of the job that it is for")
    options: dict[str, Any] = Field(default_factory=dict)
    job_sha256: str = Field(description="of the job file that it was begun with")
    state: State = "waiting"
    stage: str = Field(default="", description="what is being done, or what it waits for")
    done: float = 0.0
    total: float = Field(default=0.0, description="how much of how much within the stage; 0 where not known")
    asked: str = Field(description="when it was asked for, UTC")
    begun: str | None = None
    ended: str | None = None
    error: Trouble | None = None
    reasons: list[str] = Field(default_factory=list, description="all that stood in the way, one line each")
    answer: dict[str, Any] | None = Field(default=None, description="where its answer is found")

    @property
    def live(self) -> bool:
        """Whether it still goes on or waits."""
        return self.state in LIVE

    def end(
        self,
        state: State,
        error: BaseException | None = None,
        answer: dict[str, Any] | None = None,
        folder: Path | None = None,
    ) -> None:
        """Note that it has ended; places in the job's folder are told from there."""
        self.state, self.ended, self.stage, self.answer = state, now(), "", answer
        if error is not None and not isinstance(error, Cancelled):
            here = "" if folder is None else f"{folder}{os.sep}"
            told = {name: text.replace(here, "") for name, text in trouble_of(error).model_dump().items()}
            self.error = Trouble(**told)
            self.reasons = [text.replace(here, "") for text in reasons_of(error)]

    def interrupt(self) -> None:
        """Note that nobody saw it end."""
        self.state, self.ended, self.stage = "interrupted", None, ""
        self.error = Trouble(what="the program was stopped while this went on", todo=_AGAIN)


def trouble_of(error: BaseException) -> Trouble:
    """Say what went wrong in the one shape.

    Parameters
    ----------
    error : exception
        Ours, or a defect.

    Returns
    -------
    Trouble
    """
    if isinstance(error, UserError):
        return Trouble(what=error.what, where=error.where, allowed=error.allowed, todo=error.todo)
    if isinstance(error, MemoryError):
        what = "the memory of this computer is not enough"
        return Trouble(what=what, todo="close other programs, then begin again")
    if isinstance(error, OSError):
        return Trouble(what=error.strerror or str(error), where=str(error.filename or ""), todo=_DEFECT)
    return Trouble(what=f"a defect of the program: {type(error).__name__}: {error}", todo=_DEFECT)


def reasons_of(error: BaseException) -> list[str]:
    """Say all that stood in the way.

    Parameters
    ----------
    error : exception
        A job's error may hold several.

    Returns
    -------
    list of str
    """
    every = getattr(error, "every", ())
    return [str(one) for one in every] or [str(error)]


def now() -> str:
    """The moment, in UTC."""
    return datetime.now(UTC).isoformat(timespec="seconds")

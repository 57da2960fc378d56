"""What long work is ordered with."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from pourwright.app.which import chosen_variants
from pourwright.foundation.errors import UserError
from pourwright.jobs import read_job
from pourwright.jobs.job import Job
from pourwright.jobs.loading import with_lines
from pourwright.jobs.texts import read_written


class NoOptions(BaseModel):
    """Of work that leaves nothing to choose."""

    model_config = ConfigDict(extra="forbid")


class PlanOptions(NoOptions):
    """How a job is planned."""

    quick: bool = Field(default=False, description="with the likeliest numbers only: no chances, no bands")
    fine: bool = Field(default=False, description="last heat run at 4 mm in place of 8 mm")
    what_if: list[str] = Field(
        default_factory=list, max_length=20, description="changes to look at besides, as lines of a job file"
    )
    start: datetime | None = Field(default=None, description="earliest first pour, by the shop's own clock")


class FillOptions(NoOptions):
    """How a fill is told."""

    heat: bool = Field(default=False, description="run the heat of gypsum or concrete as it sets")


@dataclass(frozen=True)
class Order:
    """What is done, with the job as it was when it was ordered.

    Parameters
    ----------
    file : Path
        The job file.
    text : str
        What it said.
    digest : str
        Its sha256.
    variant : str
        The variant that is meant.
    options : mapping
        Checked.
    """

    file: Path
    text: str
    digest: str
    variant: str
    options: Mapping[str, Any] = field(default_factory=dict)

    def job(self) -> Job:
        """The job as it was."""
        return read_job(self.text, self.file, digest=self.digest)


def order_of(file: Path, variant: str | None, options: BaseModel) -> Order:
    """Take an order, refusing at once what needs no work to be seen.

    Parameters
    ----------
    file : Path
        The job file.
    variant : str or None
        One of its variants; else the first.
    options : BaseModel
        What was chosen.

    Returns
    -------
    Order

    Raises
    ------
    UserError
        For a job file with an error, and a variant it does not have.
    """
    text, digest = read_written(file, "job file", missing="put it back", instead="put the job file back")
    first = chosen_variants(read_job(text, file, digest=digest), variant)[0]
    _refuse_lines(first, getattr(options, "what_if", []))
    return Order(file, text, digest, first.variant_name, options.model_dump())


def _refuse_lines(job: Job, lines: Sequence[str]) -> None:
    """Refuse changes to look at that a job cannot have."""
    for number, line in enumerate(lines, 1):
        where = f"what if, line {number}"
        try:
            changed = tomllib.loads(line.replace(";", "\n"))
        except tomllib.TOMLDecodeError:
            raise UserError(
                f"'{line}' cannot be read", where=where, allowed="a line as in a job file",
                todo='write it as shop.night_temperature = "16 degC"',
            ) from None  # fmt: skip
        try:
            with_lines(job, changed)
        except UserError as error:
            raise UserError(error.what, where=where, allowed=error.allowed, todo=error.todo) from None


def options_from(model: type[BaseModel], given: Mapping[str, Any]) -> BaseModel:
    """Check options.

    Parameters
    ----------
    model : type
        What they may be.
    given : mapping
        What came.

    Returns
    -------
    BaseModel

    Raises
    ------
    UserError
        For one that there is not, or that is of another kind.
    """
    try:
        found = model.model_validate(given)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        where = ".".join(map(str, ("options", *first["loc"])))
        allowed = ", ".join(model.model_fields) or "no options"
        raise UserError(str(first["msg"]), where=where, allowed=allowed, todo="mend it") from None
    start = getattr(found, "start", None)
    if start is not None and start.tzinfo is not None:
        what = f"{start.isoformat()} names a time zone"
        raise UserError(
            what, where="options.start", allowed="the shop's own clock", todo='as "2026-12-01 09:00"'
        )
    return found

"""The choices of a job: fields, edits, undo and redo, the file as text, help beside each field."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query
from pydantic import BaseModel, Field

from pourwright.app.choosing.choosing import choose, choose_bands, put_text, redo, undo
from pourwright.app.choosing.document import choices_of
from pourwright.app.choosing.helping import help_document
from pourwright.app.choosing.values import read_as
from pourwright.app.choosing.whole import mark_of_file, text_of_file
from pourwright.foundation.errors import UserError
from pourwright.web.refusals import Refused
from pourwright.web.wanted import AJob, Variant

Value = str | bool | float | None


class Chosen(BaseModel):
    """One choice, and what its field showed when it was changed."""

    key: str = Field(description="as in mold.wall", max_length=200)
    value: Value = Field(description='what is typed; "" or null goes back to the default', default=None)
    seen: Value = Field(description="what the field showed", default=None)
    only_here: bool = Field(description="write it into the variant that is looked at", default=False)


class BandsChosen(BaseModel):
    """All bands, from the mold's floor up, and those that were seen."""

    bands: list[dict[str, Any]] = Field(max_length=200)
    seen: list[dict[str, Any]] = Field(max_length=200)
    only_here: bool = Field(description="write them into the variant that is looked at", default=False)


class WholeText(BaseModel):
    """The whole text of a job file, and the sha256 of the one that was looked at."""

    text: str
    seen: str = Field(max_length=64)


class Read(BaseModel):
    """What a text was read as."""

    text: str
    si: float | None = Field(description="in SI; null for what has no number", default=None)
    other: str = Field(description="the same in other units or words", default="")
    error: Refused | None = Field(description="why it cannot be read", default=None)


def router() -> APIRouter:
    """Give the routes of the choices."""
    routes = APIRouter(tags=["choices"])
    _reading(routes)
    _choosing(routes)
    _walking(routes)
    return routes


def _reading(routes: APIRouter) -> None:
    @routes.get("/help.json")
    def helps() -> dict[str, dict[str, str]]:
        """One sentence beside every field, why it matters, a typical value and its source."""
        return help_document()

    @routes.get("/read.json")
    def read(
        text: Annotated[str, Query(max_length=4000)],
        kind: Annotated[str, Query(alias="as", description="length, temperature, share ...", max_length=80)],
    ) -> Read:
        """What a text is read as, and the same in other units."""
        try:
            found = read_as(text, kind)
        except UserError as error:
            # asked at every letter: a text that is not finished yet is an answer, no failure
            told = Refused(what=error.what, where=error.where, allowed=error.allowed, todo=error.todo)
            return Read(text=text, error=told)
        return Read(text=found.text, si=found.si, other=found.other)

    @routes.get("/jobs/{job}/choices.json")
    def choices(place: AJob, variant: Variant = None) -> dict[str, Any]:
        """Every choice of a job, section by section."""
        return choices_of(place.folder, variant)

    @routes.get("/jobs/{job}/file.json")
    def file(place: AJob) -> dict[str, Any]:
        """The job file as text, with what is wrong in it."""
        return text_of_file(place.folder)

    @routes.get("/jobs/{job}/mark.json")
    def mark(place: AJob) -> dict[str, str]:
        """By what a change of the job file is seen."""
        return mark_of_file(place.folder)


def _choosing(routes: APIRouter) -> None:
    @routes.post("/jobs/{job}/choices")
    def choice(place: AJob, asked: Chosen | BandsChosen, variant: Variant = None) -> dict[str, Any]:
        """Change one choice, or all bands at once."""
        folder, here = place.folder, asked.only_here
        if isinstance(asked, BandsChosen):
            said = choose_bands(folder, asked.bands, asked.seen, variant=variant, only_here=here)
        else:
            said = choose(folder, asked.key, asked.value, asked.seen, variant=variant, only_here=here)
        return choices_of(folder, variant) | {"said": said}

    @routes.put("/jobs/{job}/file.json")
    def text(place: AJob, asked: WholeText, variant: Variant = None) -> dict[str, Any]:
        """Replace the job file as a whole."""
        said = put_text(place.folder, asked.text, asked.seen)
        return choices_of(place.folder, variant) | {"said": said}


def _walking(routes: APIRouter) -> None:
    @routes.post("/jobs/{job}/undo")
    def back(place: AJob, variant: Variant = None) -> dict[str, Any]:
        """Take the latest step back."""
        said = undo(place.folder)
        return choices_of(place.folder, variant) | {"said": f"taken back: {said}"}

    @routes.post("/jobs/{job}/redo")
    def forth(place: AJob, variant: Variant = None) -> dict[str, Any]:
        """Do the step again that was taken back last."""
        said = redo(place.folder)
        return choices_of(place.folder, variant) | {"said": f"done again: {said}"}

"""The bench over HTTP: one step at a time for a phone, and what it has entered, taken once."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from pathlib import Path
from typing import Annotated, Any
from urllib.parse import quote
from uuid import UUID

from fastapi import APIRouter, Path as InPath, Query, Request
from pydantic import AwareDatetime, BaseModel, ConfigDict, Field
from starlette.concurrency import run_in_threadpool
from starlette.responses import HTMLResponse, Response

from pourwright import app
from pourwright.app.booking.bench import MOST, Answer, FromBench, bench_of, benches_of, take_entries
from pourwright.app.booking.photos import LARGEST_PHOTO, keep_photo_named
from pourwright.app.working.works import Works
from pourwright.web.lan import is_phone
from pourwright.web.paper import render
from pourwright.web.plain import plain_words
from pourwright.web.refusals import Refused, refused
from pourwright.web.wanted import AJob, Shop, TheWorks, Variant

Casting = Annotated[int | None, Query(description="which piece of this job; else the last one", ge=1)]
Sha256 = Annotated[str, InPath(description="sha256 of the photo", pattern="^[0-9a-f]{64}$")]
_FIRST, _LAST = datetime(2000, 1, 1, tzinfo=UTC), datetime(2200, 1, 1, tzinfo=UTC)
LARGER = ((re.compile(r"/jobs/[^/]+/photos/[0-9a-f]{64}"), LARGEST_PHOTO),)
"""Paths that take more than other bodies, with their limit."""


class Entered(BaseModel):
    """One entry, made on the phone."""

    model_config = ConfigDict(extra="forbid")
    id: UUID = Field(description="made on the phone; the same id is the same entry")
    plan: str = Field(description="hash of the plan it was entered under", pattern="^[0-9a-f]{64}$")
    casting: int = Field(ge=1, le=100_000)
    pour: int = Field(ge=0, le=10_000, description="0 for the piece as a whole")
    kind: str = Field(max_length=20, description="weigh_a, weigh_b, mixed, poured, level, gel, note ..")
    at: AwareDatetime = Field(description="when it happened, ISO 8601 with offset", ge=_FIRST, le=_LAST)
    value: float | None = Field(
        default=None, ge=-1e6, le=1e6, allow_inf_nan=False, description="kg, m or degC, as its kind"
    )
    text: str = Field(default="", max_length=1000)
    photo: str | None = Field(default=None, pattern="^[0-9a-f]{64}$", description="handed in before")
    replaces: UUID | None = Field(default=None, description="id of the entry that it corrects")
    again: bool = Field(default=False, description="not the same as what somebody else has entered")

    def as_said(self) -> FromBench:
        """The same for app."""
        replaces = None if self.replaces is None else str(self.replaces)
        return FromBench(**self.model_dump() | {"id": str(self.id), "replaces": replaces})


class Several(BaseModel):
    """What a phone has entered since it was last answered, in its order."""

    model_config = ConfigDict(extra="forbid")
    entries: list[Entered] = Field(max_length=MOST)


class EntryAnswer(BaseModel):
    """What became of one entry."""

    id: str
    kept: bool = Field(description="on the disk; the phone may let go of it")
    new: bool = Field(description="false where it was there already")
    error: Refused | None = Field(default=None, description="why it is not taken")


class Answers(BaseModel):
    """One answer for each entry, in the same order."""

    answers: list[EntryAnswer]


def router() -> APIRouter:
    """Give the routes of the bench."""
    routes = APIRouter(tags=["bench"])
    _reading(routes)
    _entering(routes)
    return routes


def _reading(routes: APIRouter) -> None:
    @routes.get("/bench.json")
    def benches(shop: Shop, works: TheWorks) -> dict[str, Any]:
        """List the jobs that have a plan, with the place of their bench; and those with a list to saw by."""
        return {"benches": _benches(shop), "to_saw": _to_saw(works, shop)}

    @routes.get("/bench", response_class=HTMLResponse, include_in_schema=False)
    def benches_page(request: Request, shop: Shop, works: TheWorks) -> HTMLResponse:
        return render(
            request,
            "benches.html",
            title="Bench",
            benches=_benches(shop),
            to_saw=_to_saw(works, shop),
            plain=plain_words(request),
            laptop=not is_phone(request),
        )

    @routes.get("/jobs/{job}/bench.json")
    def bench(place: AJob, variant: Variant = None, casting: Casting = None) -> dict[str, Any]:
        """Tell the steps of a job's pours, what was entered, and what comes next."""
        return bench_of(place.folder, variant, casting)

    @routes.get("/jobs/{job}/bench", response_class=HTMLResponse, include_in_schema=False)
    def bench_page(
        request: Request, place: AJob, variant: Variant = None, casting: Casting = None
    ) -> HTMLResponse:
        told = bench_of(place.folder, variant, casting)
        return render(
            request,
            "bench.html",
            title=f"Bench: {told['title']}",
            told=told,
            plain=plain_words(request),
            laptop=not is_phone(request),
        )


def _entering(routes: APIRouter) -> None:
    @routes.post("/jobs/{job}/entries", response_model=Answers)
    def enter(place: AJob, several: Several) -> Answers:
        """Take entries; one that was sent before is kept once, one that cannot be holds back no other."""
        said = [one.as_said() for one in several.entries]
        return Answers(answers=[_answer(one) for one in take_entries(place.folder, said)])

    @routes.put("/jobs/{job}/photos/{sha256}", status_code=204, response_class=Response)
    async def photo(request: Request, place: AJob, sha256: Sha256) -> Response:
        """Hand in a photo, once by its hash: the body is the file as it is, 25 MB at most."""
        content = await request.body()
        await run_in_threadpool(keep_photo_named, place.folder, sha256, content)
        return Response(status_code=204)


def _answer(answer: Answer) -> EntryAnswer:
    told = None if answer.error is None else refused(answer.error)
    return EntryAnswer(id=answer.id, kept=answer.kept, new=answer.new, error=told)


def _benches(shop: Path) -> list[dict[str, Any]]:
    return [
        each | {"url": f"/jobs/{quote(each['job'], safe='')}/bench?variant={quote(each['variant'])}"}
        for each in benches_of(shop)
    ]


def _to_saw(works: Works, shop: Path) -> list[dict[str, Any]]:
    return [
        each | {"url": f"/jobs/{quote(each['job'], safe='')}/cut?variant={quote(each['variant'])}"}
        for each in app.lists_to_saw(works, shop)
    ]

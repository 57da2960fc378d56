"""Long work over HTTP: begun, told, cancelled; and what changes of a job, as it changes."""

from __future__ import annotations

import asyncio
import json
import secrets
from collections.abc import AsyncIterator
from typing import Any

from fastapi import APIRouter, Request
from pydantic import BaseModel, ConfigDict, Field
from starlette.concurrency import run_in_threadpool
from starlette.responses import StreamingResponse

from pourwright.app.working.standing import plan_of, sheet_of, standings
from pourwright.app.working.told import RunTold, kinds_told, runs_told, told
from pourwright.app.working.watching import Watch
from pourwright.web.wanted import AJob, TheWorks, Variant

LOOK = 0.25
"""So often runs and files are looked at [s]."""
SIGN_OF_LIFE = 15.0
_SERVER = secrets.token_hex(6)
"""Of this process: a page that meets another knows that the server was started again."""
_STREAM: dict[int | str, dict[str, Any]] = {
    200: {
        "description": "hello, then run, file and plan as they change; never ends by itself",
        "content": {"text/event-stream": {"schema": {"type": "string"}}},
    }
}


class Wanted(BaseModel):
    """What is to be begun."""

    model_config = ConfigDict(extra="forbid")
    what: str = Field(description="plan, mold, fill ..; see kinds in runs.json")
    options: dict[str, Any] = Field(default_factory=dict, description="as the kind allows")


class KindTold(BaseModel):
    """A kind of long work."""

    what: str
    words: str


class RunsTold(BaseModel):
    """The runs of a job."""

    runs: list[RunTold] = Field(description="the latest first")
    kinds: list[KindTold] = Field(description="what can be begun")


class Dated(BaseModel):
    """Whether an answer is of today's choices."""

    old: bool = Field(description="made from other choices, or other learnt numbers, than those of today")
    word: str = Field(description="why it is old, in short; empty where it is not")
    because: list[str] = Field(description="what differs, a sentence each")
    made: str | None = Field(description="when, ISO 8601")


class Standing(Dated):
    """An answer that is there, and whether it is of today's choices."""

    document: dict[str, Any] | None = Field(description="null where there is none yet")


class Brief(Dated):
    """Whether an answer is there at all."""

    there: bool


class Standings(BaseModel):
    """Plan, mold and fill of a variant."""

    plan: Brief
    mold: Brief
    fill: Brief


def router() -> APIRouter:
    """Give the routes of long work."""
    routes = APIRouter(tags=["runs"])
    _add_runs(routes)
    _add_answers(routes)
    return routes


def _add_runs(routes: APIRouter) -> None:
    @routes.get("/jobs/{job}/runs.json", response_model=RunsTold)
    def runs(place: AJob, works: TheWorks) -> dict[str, Any]:
        """Tell the runs of a job, the latest first, and what can be begun."""
        return {"runs": runs_told(works, place.file), "kinds": kinds_told(works)}

    @routes.post("/jobs/{job}/runs", response_model=RunTold, status_code=202)
    def begin(place: AJob, works: TheWorks, wanted: Wanted, variant: Variant = None) -> RunTold:
        """Begin long work for a job; 409 where some goes on."""
        return told(works.begin(place.file, wanted.what, variant, wanted.options), place.file)

    @routes.post("/jobs/{job}/runs/{run}/cancel", response_model=RunTold)
    def cancel(place: AJob, works: TheWorks, run: str) -> RunTold:
        """End a run; the answer comes when nothing of it lives any more."""
        return told(works.cancel(place.folder, run), place.file)

    @routes.get("/jobs/{job}/events", response_class=StreamingResponse, responses=_STREAM)
    async def events(
        request: Request, place: AJob, works: TheWorks, variant: Variant = None
    ) -> StreamingResponse:
        """Tell what changes of a job as it changes: its runs, its file, its plan."""
        watch = await run_in_threadpool(Watch, works, place.file, variant)
        return StreamingResponse(_stream(request, watch), media_type="text/event-stream")


def _add_answers(routes: APIRouter) -> None:
    @routes.get("/jobs/{job}/standing.json", response_model=Standings)
    def standing(place: AJob, works: TheWorks, variant: Variant = None) -> dict[str, Any]:
        """Say of plan, mold and fill whether they are there and of today's choices."""
        return standings(works, place.file, variant)

    @routes.get("/jobs/{job}/plan.json", response_model=Standing)
    def plan(place: AJob, variant: Variant = None) -> dict[str, Any]:
        """Give the plan that lies on disk, and whether it is of today's choices."""
        return plan_of(place.file, variant)

    @routes.get("/jobs/{job}/mold.json", response_model=Standing)
    def mold(place: AJob, works: TheWorks, variant: Variant = None) -> dict[str, Any]:
        """Give the latest mold sheet, and whether it is of today's choices."""
        return sheet_of(works, place.file, "mold", variant)

    @routes.get("/jobs/{job}/fill.json", response_model=Standing)
    def fill(place: AJob, works: TheWorks, variant: Variant = None) -> dict[str, Any]:
        """Give the latest fill sheet, and whether it is of today's choices."""
        return sheet_of(works, place.file, "fill", variant)


async def _stream(request: Request, watch: Watch) -> AsyncIterator[str]:
    """Look again and again until nobody listens or the server stops; no thread waits meanwhile."""
    yield _event("hello", {"server": _SERVER, **await run_in_threadpool(watch.first)})
    quiet = 0.0
    while not request.app.state.stopping() and not await request.is_disconnected():
        await asyncio.sleep(LOOK)
        events = await run_in_threadpool(watch.news) if watch.stirred() else []
        for each in events:
            yield _event(*each)
        quiet = 0.0 if events else quiet + LOOK
        if quiet >= SIGN_OF_LIFE:
            quiet = 0.0
            yield ": still here\n\n"


def _event(name: str, detail: Any) -> str:
    return f"event: {name}\ndata: {json.dumps(detail, ensure_ascii=False)}\n\n"

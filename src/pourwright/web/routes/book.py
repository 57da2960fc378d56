"""The log over HTTP: what was cast, entry by entry; what is entered by hand, corrected or taken back."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from typing import Annotated, Any, Literal
from uuid import UUID

from fastapi import APIRouter, Path as InPath, Query, Request
from pydantic import BaseModel, ConfigDict, Field
from starlette.concurrency import run_in_threadpool
from starlette.responses import HTMLResponse, Response

from pourwright import app
from pourwright.app.booking.album import photo_told
from pourwright.app.booking.sent import LARGEST_BOOK
from pourwright.web.handed import JSON, file_of, handed, shown
from pourwright.web.paper import render
from pourwright.web.wanted import AJob, Shop, Variant

PHOTOS = ("image/jpeg", "image/png", "image/webp", "image/heic", "image/avif")
LARGER = ((re.compile(r"/book/import\.json"), LARGEST_BOOK),)
"""Paths that take more than other bodies, with their limit."""
Page = Annotated[int, Query(description="50 castings each; 1 is the latest", ge=1, le=100_000)]
Casting = Annotated[
    int | None, Query(description="which piece of this job; else the last one", ge=1, le=100_000)
]
Sha256 = Annotated[str, InPath(description="sha256 of a photo", pattern="^[0-9a-f]{64}$")]


class LogAsked(BaseModel):
    """What is entered, corrected or taken back."""

    model_config = ConfigDict(extra="forbid")
    what: str = Field(default="", max_length=20, description="weigh A, mixed, poured, level, gel, note ..")
    value: str = Field(default="", max_length=1000, description="how much with its unit, or words")
    how: Literal["poured", "standing", "dip", "cannot"] = Field(
        default="poured",
        description="of a level: from the mold's floor, as it stands, from the rim, not at all",
    )
    at: str | None = Field(default=None, max_length=40, description="on the shop's clock; else now")
    pour: int | None = Field(default=None, ge=0, le=10_000, description="else the one that is under way")
    casting: int | None = Field(default=None, ge=1, le=100_000, description="else the one that is under way")
    photo: str | None = Field(default=None, pattern="^[0-9a-f]{64}$", description="handed in before")
    again: bool = Field(default=False, description="not the same as what somebody else has entered")
    corrects: str | None = Field(default=None, max_length=40, description="id of the entry that was wrong")
    takes_back: str | None = Field(default=None, max_length=40, description="id of an entry made by mistake")
    id: UUID | None = Field(default=None, description="of the form: sent again it is the same entry")

    def as_said(self) -> app.ByHand:
        """The same for app."""
        return app.ByHand(**self.model_dump() | {"id": None if self.id is None else str(self.id)})


def router() -> APIRouter:
    """Give the routes of the log."""
    routes = APIRouter(tags=["book"])
    _castings(routes)
    _whole(routes)
    _one_log(routes)
    return routes


def _castings(routes: APIRouter) -> None:
    @routes.get("/book.json")
    def castings(shop: Shop, page: Page = 1) -> dict[str, Any]:
        """List what was cast in the shop, the latest first."""
        return app.castings_told(shop, page)

    @routes.get("/book", response_class=HTMLResponse, include_in_schema=False)
    def castings_page(request: Request, shop: Shop, page: Page = 1) -> HTMLResponse:
        return render(request, "book.html", title="The log", log=app.castings_told(shop, page))

    @routes.get("/book/photos/{sha256}", response_class=Response, responses=file_of(*PHOTOS))
    def photo(request: Request, shop: Shop, sha256: Sha256) -> Response:
        """Give a photo of the book by its hash."""
        media_type, content = photo_told(shop, sha256)
        return shown(request, content, media_type)


def _whole(routes: APIRouter) -> None:
    @routes.get("/book/export.json", response_class=Response, responses=file_of(JSON))
    def export(shop: Shop) -> Response:
        """Give everything that the book holds as one JSON, to be kept elsewhere."""
        return handed(app.book_json(shop), JSON, f"book-{datetime.now(UTC):%Y-%m-%d}.json")

    @routes.put("/book/import.json")
    async def take_in(request: Request, shop: Shop) -> dict[str, int]:
        """Take such a JSON into an empty book, or nothing of it: the body is the file, 200 MB at most."""
        return await run_in_threadpool(app.take_in_book, shop, await request.body())


def _one_log(routes: APIRouter) -> None:
    @routes.get("/book/log/{job}.json")
    def log(shop: Shop, job: str, variant: Variant = None, casting: Casting = None) -> dict[str, Any]:
        """Tell the log of one casting: every entry, those that were corrected too."""
        return app.casting_told(shop, job, variant, casting)

    @routes.post("/book/log/{job}.json")
    def enter(shop: Shop, place: AJob, asked: LogAsked, variant: Variant = None) -> dict[str, Any]:
        """Enter, correct or take back; the log as it then is."""
        entered = app.enter_by_hand(place.folder, asked.as_said(), variant)
        return app.casting_told(shop, place.name, variant, asked.casting) | {"entered": list(entered)}

    @routes.get("/book/log/{job}", response_class=HTMLResponse, include_in_schema=False)
    def log_page(
        request: Request, shop: Shop, job: str, variant: Variant = None, casting: Casting = None
    ) -> HTMLResponse:
        told = app.casting_told(shop, job, variant, casting)
        return render(request, "book_log.html", title=f"Log: {told['title']}", log=told)

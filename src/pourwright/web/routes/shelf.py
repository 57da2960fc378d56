"""The shelf: all jobs of the shop folder, and how a new one begins."""

from __future__ import annotations

from typing import Annotated, Any

from anyio import to_thread
from fastapi import APIRouter, Query, Request
from pydantic import BaseModel, Field
from starlette.responses import HTMLResponse, Response

from pourwright.app.shelf.beginning import FiveAnswers, begin_job, choices_of_five, copy_job
from pourwright.app.shelf.cards import shelf_of
from pourwright.app.shelf.pictures import picture_of
from pourwright.app.shelf.places import job_place
from pourwright.app.shelf.uploads import Receiving, UploadLimits, look_through
from pourwright.web.paper import render
from pourwright.web.wanted import AJob, Limits, Shop

UPLOADS = "/uploads"


class Asked(BaseModel):
    """The five answers of a new job."""

    title: str = Field(max_length=80)
    shape: str = Field(description="file, measured, box, cylinder, sphere, turned or outline", max_length=20)
    upload: str | None = Field(default=None, description="token of a file that was handed in", max_length=32)
    unit: str | None = Field(default=None, description="of the numbers in the file", max_length=8)
    height_m: float | None = Field(
        default=None, gt=0, le=100, description="of the piece, as found in the file"
    )
    size: list[str] = Field(default=[], description="lengths of a form, with their unit", max_length=4)
    readings: list[dict[str, str]] = Field(
        default=[], description="of a tape, from the table up", max_length=200
    )
    material: str = Field(max_length=80)
    glass: list[tuple[str, str]] = Field(
        default=[], description="grade and colour, floor first", max_length=20
    )
    shop_temperature: str = Field(max_length=40)


class Copied(BaseModel):
    """Which job is copied, and what the copy is called."""

    job: str = Field(max_length=255)
    title: str = Field(default="", max_length=80)


class Begun(BaseModel):
    """Where a new job is."""

    name: str
    url: str


def router() -> APIRouter:
    """Give the routes of the shelf."""
    routes = APIRouter(tags=["shelf"])
    _reading(routes)
    _writing(routes)
    return routes


def _reading(routes: APIRouter) -> None:
    @routes.get("/shelf.json")
    def shelf(shop: Shop) -> dict[str, Any]:
        """All jobs of the shop folder, the latest first."""
        return shelf_of(shop)

    @routes.get("/new.json")
    def new_choices(shop: Shop) -> dict[str, Any]:
        """What the five questions can be answered with."""
        return choices_of_five() | {"jobs": shelf_of(shop)["jobs"]}

    @routes.get("/jobs/{job}/picture.svg", response_class=Response)
    def picture(place: AJob) -> Response:
        """The piece as it stands."""
        return Response(picture_of(place), media_type="image/svg+xml")

    @routes.get("/", response_class=HTMLResponse, include_in_schema=False)
    def shelf_page(request: Request, shop: Shop) -> HTMLResponse:
        return render(request, "shelf.html", title="Shelf", shelf=shelf_of(shop))

    @routes.get("/new", response_class=HTMLResponse, include_in_schema=False)
    def new_page(request: Request, shop: Shop, limits: Limits) -> HTMLResponse:
        given = choices_of_five() | {"jobs": shelf_of(shop)["jobs"]}
        return render(request, "new.html", title="A new job", given=given, limits=limits)


def _writing(routes: APIRouter) -> None:
    @routes.put(UPLOADS)
    async def upload(
        request: Request,
        limits: Limits,
        name: Annotated[str, Query(description="of the file; only its ending is used", max_length=255)],
    ) -> dict[str, Any]:
        """Hand in a shape file: the body is the file as it is."""
        return await _received(request, name, limits)

    @routes.post("/jobs", status_code=201)
    def begin(shop: Shop, asked: Asked) -> Begun:
        """Begin a job from five answers."""
        return _begun(begin_job(shop, FiveAnswers(**asked.model_dump())).name)

    @routes.post("/copies", status_code=201)
    def copy(shop: Shop, asked: Copied) -> Begun:
        """Begin a job as a copy of another, without its plans."""
        return _begun(copy_job(shop, job_place(shop, asked.job), asked.title).name)


def _begun(name: str) -> Begun:
    return Begun(name=name, url=f"/jobs/{name}")


async def _received(request: Request, name: str, limits: UploadLimits) -> dict[str, Any]:
    receiving = Receiving(name, limits)
    try:
        async for content in request.stream():
            await to_thread.run_sync(receiving.add, content)
        upload = receiving.end()
        return await to_thread.run_sync(look_through, upload, limits)
    except BaseException:
        # also where the other side has gone away
        receiving.forget()
        raise

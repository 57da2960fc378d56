"""Loggers over HTTP: their files attached to pours, measured against planned, drawn, taken back."""

from __future__ import annotations

import re
from typing import Annotated, Any

from fastapi import APIRouter, Path as InPath, Query, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import HTMLResponse, Response

from pourwright import app
from pourwright.app.booking.places import plans_on_disk
from pourwright.app.shelf.cards import card_of
from pourwright.web.handed import file_of, handed
from pourwright.web.paper import render
from pourwright.web.wanted import AJob, Variant

CSV, SVG = "text/csv; charset=utf-8", "image/svg+xml"
LARGEST = 80_000_000
"""Bytes of a logger's file: a million rows of several sensors."""
LARGER = ((re.compile(r"/jobs/[^/]+/measured/pours/\d+"), LARGEST),)
"""Paths that take more than other bodies, with their limit."""
Casting = Annotated[int | None, Query(description="which piece of this job; else the last one", ge=1)]
Number = Annotated[int, InPath(description="of the series", ge=1, le=2**31)]
APour = Annotated[int, InPath(description="number of the pour, as the plan counts", ge=1, le=1000)]
Name = Annotated[str, Query(max_length=200, description="of the file, for messages")]
Probes = Annotated[
    list[Annotated[str, Query(max_length=200)]],
    Query(max_length=50, description="where a sensor was, as core=middle; once for each"),
]
Word = Annotated[str | None, Query(max_length=40)]


def router() -> APIRouter:
    """Give the routes of loggers."""
    routes = APIRouter(tags=["measured"])
    _reading(routes)
    _changing(routes)
    return routes


def _reading(routes: APIRouter) -> None:
    @routes.get("/jobs/{job}/measured.json")
    def measured(place: AJob, variant: Variant = None, casting: Casting = None) -> dict[str, Any]:
        """What loggers saw of each pour, against its plan, in numbers and words: pourwright-measured/1.0."""
        return app.measured_of(place.folder, variant, casting)

    @routes.get("/jobs/{job}/measured", response_class=HTMLResponse, include_in_schema=False)
    def measured_page(
        request: Request, place: AJob, variant: Variant = None, casting: Casting = None
    ) -> HTMLResponse:
        card = card_of(place)
        planned = bool(plans_on_disk(place.folder))
        told = app.measured_of(place.folder, variant, casting) if planned else {"castings": [], "pours": []}
        title = f"Measured: {card['title']}"
        return render(request, "measured.html", title=title, card=card, told=told, planned=planned)

    @routes.get("/jobs/{job}/measured/{number}.svg", response_class=Response, responses=file_of(SVG))
    def drawing(place: AJob, number: Number) -> Response:
        """Draw one series over what its plan said."""
        text = app.measured_svg(place.folder, number)
        return handed(text.encode(), SVG, f"{place.name}-measured-{number}.svg")

    @routes.get("/jobs/{job}/measured/{number}.csv", response_class=Response, responses=file_of(CSV))
    def table(place: AJob, number: Number) -> Response:
        """Give one series beside what its plan said, for a spreadsheet (RFC 4180)."""
        text = app.measured_csv(place.folder, number)
        # the mark at the start tells a spreadsheet that the letters are UTF-8
        return handed(text.encode("utf-8-sig"), CSV, f"{place.name}-measured-{number}.csv")


def _changing(routes: APIRouter) -> None:
    @routes.put("/jobs/{job}/measured/pours/{pour}")
    async def attach(
        request: Request,
        place: AJob,
        pour: APour,
        name: Name = "the file",
        probe: Probes = [],  # noqa: B006 - FastAPI makes a new one for each request
        unit: Word = None,
        dates: Word = None,
        at: Word = None,
        variant: Variant = None,
        casting: Casting = None,
    ) -> dict[str, Any]:
        """Attach the file of a logger to a pour: the body is the file as it is, 80 MB at most."""
        told = app.LoggerTold(app.read_probes(probe), unit, dates, at)
        content = await request.body()

        def attached() -> dict[str, Any]:
            return app.attach_logger(
                place.folder, content, name, told, variant=variant, casting=casting, pour=pour
            )

        return await run_in_threadpool(attached)

    @routes.delete("/jobs/{job}/measured/{number}")
    def take_back(place: AJob, number: Number) -> dict[str, Any]:
        """Take a series back: it watched another pour. Its readings stay in the book."""
        return app.take_logger_back(place.folder, number)

"""The paper of a job: sheets, their pages, the calendar file, all files of its plan."""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter, Path as InPath, Query, Request
from pydantic import BaseModel, Field
from starlette.responses import Response

from pourwright.app.papering.pages import page_png
from pourwright.app.papering.paper import Sheet, papers_of
from pourwright.app.papering.plan_files import KINDS, OTHER, PlanFile, file_of_plan, files_of_plan
from pourwright.web.handed import file_of, handed, shown
from pourwright.web.wanted import AJob, Variant

PDF, PNG, ICS = "application/pdf", "image/png", "text/calendar; charset=utf-8"
Page = Annotated[int, InPath(description="number of a page, from 1 on")]
Size = Annotated[Literal["small", "large"], Query(description="small for a list, large to be read")]
Fresh = Annotated[bool, Query(description="make mold and fill again where the job has changed since")]


class PaperTold(BaseModel):
    """What there is on paper."""

    sheets: list[Sheet] = Field(description="a plan only where there is one; pages is 0 where not made yet")
    calendar: bool = Field(description="whether there is a calendar file")
    files: list[PlanFile] = Field(description="all files of the plan, by the names to ask for")


def router() -> APIRouter:
    """Give the routes of the paper."""
    routes = APIRouter(tags=["paper"])

    @routes.get("/jobs/{job}/sheets.json")
    def sheets(place: AJob, variant: Variant = None) -> PaperTold:
        """List sheets and files."""
        papers = papers_of(place.file, variant)
        files = files_of_plan(papers.plan_folder)
        return PaperTold(sheets=papers.sheets(), calendar=papers.has_calendar, files=files)

    @routes.get("/jobs/{job}/sheets/{sheet}.pdf", response_class=Response, responses=file_of(PDF))
    def sheet_pdf(place: AJob, sheet: str, variant: Variant = None, fresh: Fresh = False) -> Response:
        """Give a sheet to be printed; mold and fill are made, in some seconds, where they are not there."""
        content = papers_of(place.file, variant).pdf(sheet, fresh=fresh)
        return handed(content, PDF, f"{place.name}-{sheet}.pdf", inline=True)

    @routes.get("/jobs/{job}/sheets/{sheet}/{page}.png", response_class=Response, responses=file_of(PNG))
    def sheet_page(
        request: Request, place: AJob, sheet: str, page: Page, variant: Variant = None, size: Size = "large"
    ) -> Response:
        """Give a page of a sheet as a picture, as it is printed."""
        return shown(request, page_png(papers_of(place.file, variant).pdf(sheet), page, size), PNG)

    @routes.get("/jobs/{job}/calendar.ics", response_class=Response, responses=file_of(ICS))
    def calendar(place: AJob, variant: Variant = None) -> Response:
        """Give what is done when, for any calendar (RFC 5545)."""
        return handed(papers_of(place.file, variant).calendar(), ICS, f"{place.name}.ics")

    @routes.get(
        "/jobs/{job}/files/{name:path}",
        response_class=Response,
        responses=file_of(OTHER, *sorted(set(KINDS.values()))),
    )
    def plan_file(place: AJob, name: str, variant: Variant = None) -> Response:
        """Give a file of the plan by its name in the list."""
        about, content = file_of_plan(papers_of(place.file, variant).plan_folder, name)
        return handed(content, about.kind, f"{place.name}-{about.name}")

    return routes

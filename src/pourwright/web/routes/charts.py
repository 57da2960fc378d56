"""The charts of a job's plan: list, numbers, CSV, drawings."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter
from pydantic import BaseModel, Field
from starlette.responses import Response

from pourwright.app.charting.charts import chart_csv, chart_of, chart_svg
from pourwright.app.charting.of_job import chart_list, charted_job
from pourwright.web.handed import file_of, handed
from pourwright.web.wanted import AJob, Variant

CSV, SVG = "text/csv; charset=utf-8", "image/svg+xml"


class ChartTold(BaseModel):
    """One chart that there is."""

    name: str
    title: str
    words: str = Field(description="one sentence: what it shows")


class ChartsTold(BaseModel):
    """The charts of a plan."""

    charts: list[ChartTold] = Field(description="none where there is no plan")
    plan: str = Field(description="mark of the plan they are drawn from")
    old: bool = Field(description="whether the job has changed since")
    because: list[str] = Field(description="what has changed, a sentence each")
    todo: str = Field(description="what to do first; empty where there is a plan")


def router() -> APIRouter:
    """Give the routes of the charts."""
    routes = APIRouter(tags=["charts"])

    @routes.get("/jobs/{job}/charts.json", response_model=ChartsTold)
    def charts(place: AJob, variant: Variant = None) -> dict[str, Any]:
        """List the charts of the plan on disk."""
        return chart_list(place.file, variant)

    @routes.get("/jobs/{job}/charts/{chart}.json")
    def chart(place: AJob, chart: str, variant: Variant = None) -> dict[str, Any]:
        """Give one chart: series along x with units and texts, bands, limits, marks, and its table."""
        return chart_of(charted_job(place.file, variant), chart).to_json()

    @routes.get("/jobs/{job}/charts/{chart}.csv", response_class=Response, responses=file_of(CSV))
    def chart_table(place: AJob, chart: str, variant: Variant = None) -> Response:
        """Give the numbers of a chart for a spreadsheet (RFC 4180), units in the first line."""
        text = chart_csv(charted_job(place.file, variant), chart)
        # the mark at the start tells a spreadsheet that the letters are UTF-8
        return handed(text.encode("utf-8-sig"), CSV, f"{place.name}-{chart}.csv")

    @routes.get("/jobs/{job}/charts/{chart}.svg", response_class=Response, responses=file_of(SVG))
    def chart_drawing(place: AJob, chart: str, variant: Variant = None) -> Response:
        """Give the drawing of a chart as it is printed."""
        drawing = chart_svg(charted_job(place.file, variant), chart)
        return handed(drawing.encode(), SVG, f"{place.name}-{chart}.svg")

    return routes

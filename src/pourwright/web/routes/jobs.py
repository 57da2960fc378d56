"""A job's page."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import HTMLResponse

from pourwright.app.shelf.cards import card_of
from pourwright.web.paper import render
from pourwright.web.wanted import AJob, Variant


def router() -> APIRouter:
    """Give the routes of a job as a whole."""
    routes = APIRouter(tags=["job"])

    @routes.get("/jobs/{job}.json")
    def job_card(place: AJob) -> dict[str, Any]:
        """What the shelf says of a job."""
        return card_of(place)

    @routes.get("/jobs/{job}", response_class=HTMLResponse, include_in_schema=False)
    def job_page(request: Request, place: AJob, variant: Variant = None) -> HTMLResponse:
        card = card_of(place)
        return render(request, "job.html", title=card["title"], card=card, variant=variant)

    return routes

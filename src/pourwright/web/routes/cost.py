"""Cost and price over HTTP: every line down to its source, and a price list to begin with."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from pydantic import BaseModel, ConfigDict, Field
from starlette.responses import HTMLResponse

from pourwright import app
from pourwright.app.shelf.cards import card_of
from pourwright.web.paper import render
from pourwright.web.routes.runs import Standing
from pourwright.web.wanted import AJob, TheWorks, Variant

Risk = Annotated[bool, Query(description="whether a month is weighed too")]


class SideBySide(BaseModel):
    """All variants of a job, told from plans that are there."""

    document: dict[str, Any] = Field(description="pourwright-cost-variants/1.0; a gap where there is no plan")
    old: dict[str, list[str]] = Field(description="by name of a variant: what differs where its plan is old")


class ListAsked(BaseModel):
    """A price list to fill in."""

    model_config = ConfigDict(extra="forbid")
    currency: str = Field(pattern="^[A-Z]{3}$", description="ISO 4217 code, as EUR")


class ListBegun(BaseModel):
    """The price list that was written."""

    file: str = Field(description="its name, beside the job file")


def router() -> APIRouter:
    """Give the routes of cost and price."""
    routes = APIRouter(tags=["cost"])

    @routes.get("/jobs/{job}/cost.json", response_model=Standing)
    def cost(place: AJob, works: TheWorks, variant: Variant = None, *, risk: Risk = False) -> dict[str, Any]:
        """Give what a good piece costs, pourwright-cost/1.0, from a plan that is there; none is made."""
        return app.Costing(works, place.file, variant).standing(risk=risk)

    @routes.get("/jobs/{job}/cost/variants.json", response_model=SideBySide)
    def variants(place: AJob, works: TheWorks) -> dict[str, Any]:
        """Give all variants side by side, from plans that are there; none is made."""
        return app.Costing(works, place.file).side_by_side()

    @routes.get("/jobs/{job}/cost", response_class=HTMLResponse, include_in_schema=False)
    def cost_page(request: Request, place: AJob, works: TheWorks, variant: Variant = None) -> HTMLResponse:
        card = card_of(place)
        told = None if card["error"] else app.Costing(works, place.file, variant).told()
        chosen, title = variant or card["variants"][0], f"Cost and price: {card['title']}"
        return render(request, "cost.html", title=title, card=card, told=told, variant=chosen)

    @routes.post("/jobs/{job}/cost/prices.json", response_model=ListBegun, status_code=201)
    def begin(place: AJob, works: TheWorks, asked: ListAsked) -> dict[str, Any]:
        """Write a price list to fill in beside the job, unless one is there."""
        return app.Costing(works, place.file).begin(asked.currency)

    return routes

"""A leak over HTTP, and what the shop has learnt."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Request
from pydantic import BaseModel, ConfigDict, Field
from starlette.responses import HTMLResponse

from pourwright import app
from pourwright.app.shelf.cards import card_of
from pourwright.web.lan import is_phone
from pourwright.web.paper import render
from pourwright.web.plain import plain_words
from pourwright.web.wanted import AJob, Shop, Variant

MOST = 50
Text = Annotated[str, Field(max_length=40)]
Texts = Annotated[list[Text], Field(max_length=MOST)]


class LeakAsked(BaseModel):
    """What is known of a leak, each with its unit; all that is missing is taken from the log."""

    model_config = ConfigDict(extra="forbid")
    poured: Texts = Field(default=[], description="batches as they went in, as 4.2 kg")
    mixed: Texts = Field(default=[], description="batches as they were weighed out")
    level: Texts = Field(default=[], description="levels up from the mold's floor, as 212 mm")
    dip: Texts = Field(default=[], description="levels down from the rim; not both kinds")
    at: Texts = Field(default=[], description="when each was read, as 07:05; may be left out of a single one")
    no_level: bool = Field(default=False, description="at the last time it could not be read below the glass")
    caught: Text | None = Field(default=None, description="found beside the mold")
    hole: Text | None = Field(default=None, description="where it runs out, up from the mold's floor")
    begun: Text | None = Field(default=None, description="when it went in")
    gelled: Text | None = Field(default=None, description="when it was seen to have gelled")
    now: Text | None = Field(default=None, description="in the place of the clock")
    pour: int | None = Field(default=None, ge=1, le=1000, description="which; else the last that has begun")
    drips: bool | None = Field(default=None, description="what the maker sees")


class LearnAsked(BaseModel):
    """What is changed of the shop's learning; nothing only asks."""

    model_config = ConfigDict(extra="forbid")
    set_aside: str | None = Field(default=None, max_length=80, description="id of a record")
    take_back: str | None = Field(
        default=None, max_length=80, description="id of a record that was set aside"
    )
    undo: int | None = Field(default=None, ge=1, le=2**31, description="number of what was learnt")


def router() -> APIRouter:
    """Give the routes of leaks and of learning."""
    routes = APIRouter(tags=["leak"])
    _leaking(routes)
    _learning(routes)
    return routes


def _leaking(routes: APIRouter) -> None:
    @routes.post("/jobs/{job}/leak.json")
    def leak(place: AJob, asked: LeakAsked, variant: Variant = None) -> dict[str, Any]:
        """What is left in the mold, whether it still runs, what saves the piece: pourwright-leak/1.0."""
        given: dict[str, Any] = {key: tuple(each) if isinstance(each, list) else each for key, each in asked}
        return app.leak_told(place.file, app.LeakTold(**given), variant).to_json()

    @routes.get("/jobs/{job}/leak", response_class=HTMLResponse, include_in_schema=False)
    def leak_page(request: Request, place: AJob, variant: Variant = None) -> HTMLResponse:
        card = card_of(place)
        phone, plain = is_phone(request), plain_words(request)
        title = f"Leak: {card['title']}"
        return render(request, "leak.html", title=title, card=card, variant=variant, phone=phone, plain=plain)


def _learning(routes: APIRouter) -> None:
    @routes.post("/learnt.json")
    def learnt(shop: Shop, asked: LearnAsked) -> dict[str, Any]:
        """Learn from the shop's book, set a record aside, take back; what holds then."""
        return app.learn_in_shop(shop, **asked.model_dump())

    @routes.get("/learnt", response_class=HTMLResponse, include_in_schema=False)
    def learnt_page(request: Request, shop: Shop) -> HTMLResponse:
        del shop
        return render(request, "learnt.html", title="What the shop has learnt")

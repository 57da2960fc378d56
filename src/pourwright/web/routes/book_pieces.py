"""Finished pieces over HTTP: the list, the card of each as page, twin and paper, and finishing one."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Path as InPath, Query, Request
from pydantic import BaseModel, ConfigDict, Field
from starlette.responses import HTMLResponse, Response

from pourwright import app
from pourwright.app.shelf.places import job_place
from pourwright.web.handed import file_of, handed
from pourwright.web.paper import render
from pourwright.web.wanted import Shop

PDF = "application/pdf"
Number = Annotated[int, InPath(description="lasting number of a piece", ge=1, le=2**53)]
Below = Annotated[int | None, Query(description="only pieces with a smaller number", ge=1, le=2**53)]
Mass = Annotated[str | None, Field(max_length=80, description="as weighed, with its unit")]
Photo = Annotated[str | None, Field(pattern="^[0-9a-f]{64}$", description="handed in before")]


class Finished(BaseModel):
    """A piece that is finished."""

    model_config = ConfigDict(extra="forbid")
    job: str = Field(max_length=255)
    variant: str | None = Field(default=None, max_length=80)
    casting: int | None = Field(default=None, ge=1, le=100_000, description="else the last")
    mass: Mass = None
    at: str | None = Field(default=None, max_length=40, description="on the shop's clock; else now")
    photo: Photo = None
    note: str = Field(default="", max_length=1000)


class CardChanged(BaseModel):
    """What is put right of a card; what is left out stays."""

    model_config = ConfigDict(extra="forbid")
    mass: Mass = None
    photo: Photo = None
    note: str | None = Field(default=None, max_length=1000)


def router() -> APIRouter:
    """Give the routes of the finished pieces."""
    routes = APIRouter(tags=["book"])
    _pieces(routes)
    _card(routes)
    return routes


def _pieces(routes: APIRouter) -> None:
    @routes.get("/book/pieces.json")
    def pieces(shop: Shop, below: Below = None) -> dict[str, Any]:
        """List the finished pieces, the latest first, and what waits for its number."""
        return app.pieces_told(shop, below)

    @routes.post("/book/pieces.json")
    def finish(shop: Shop, asked: Finished) -> dict[str, Any]:
        """Give a finished piece its lasting number; its card."""
        said = asked.model_dump(exclude={"job", "photo"})
        card = app.finish_piece(job_place(shop, asked.job).folder, **said, photo_hash=asked.photo)
        return app.piece_told(shop, card["number"])

    @routes.get("/book/pieces", response_class=HTMLResponse, include_in_schema=False)
    def pieces_page(request: Request, shop: Shop, below: Below = None) -> HTMLResponse:
        return render(request, "book_pieces.html", title="Finished pieces", told=app.pieces_told(shop, below))


def _card(routes: APIRouter) -> None:
    @routes.get("/book/pieces/{number}.json")
    def card(shop: Shop, number: Number) -> dict[str, Any]:
        """Tell the card of a piece: masses, lots, dates, photos, its plan, what to mind."""
        return app.piece_told(shop, number)

    @routes.post("/book/pieces/{number}.json")
    def change(shop: Shop, number: Number, asked: CardChanged) -> dict[str, Any]:
        """Change what is told of a piece; its card as it then is."""
        app.change_card(shop, number, mass=asked.mass, photo_hash=asked.photo, note=asked.note)
        return app.piece_told(shop, number)

    @routes.get("/book/pieces/{number}.pdf", response_class=Response, responses=file_of(PDF))
    def card_sheet(shop: Shop, number: Number) -> Response:
        """Give the card to be printed, half a sheet."""
        return handed(app.piece_pdf(shop, number), PDF, f"piece-{number}.pdf", inline=True)

    @routes.get("/book/pieces/{number}", response_class=HTMLResponse, include_in_schema=False)
    def card_page(request: Request, shop: Shop, number: Number) -> HTMLResponse:
        told = app.piece_told(shop, number)
        return render(request, "book_piece.html", title=f"Piece {number}: {told['title']}", card=told)

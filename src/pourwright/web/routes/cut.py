"""What to saw over HTTP: the list, its drawings, ticks, offcuts into the book's stock."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

from fastapi import APIRouter, Depends, Path as InPath, Request
from pydantic import BaseModel, ConfigDict, Field
from starlette.responses import HTMLResponse, Response

from pourwright import app
from pourwright.app.shelf.cards import card_of
from pourwright.app.working.standing import sheet_of
from pourwright.web.handed import file_of, handed, shown
from pourwright.web.lan import is_phone
from pourwright.web.paper import render
from pourwright.web.plain import plain_words
from pourwright.web.routes.runs import Standing
from pourwright.web.wanted import AJob, TheWorks, Variant

SVG, PDF = "image/svg+xml", "application/pdf"
MOST = 2000
Seen = Annotated[str, Field(pattern="^[0-9a-f]{64}$", description="of the list that is looked at")]
Mark = Annotated[str, Field(max_length=200)]
if TYPE_CHECKING:
    from pourwright.app import Sawing


def the_sawing(place: AJob, works: TheWorks, variant: Variant = None) -> Any:
    """Give the sawing of a job; what computes is loaded when it is first asked for."""
    return app.Sawing(works, place.file, variant)


if TYPE_CHECKING:
    ASawing = Annotated[Sawing, Depends(the_sawing)]
else:
    # the name is not looked up while the server starts
    ASawing = Annotated[Any, Depends(the_sawing)]
ASheet = Annotated[int, InPath(description="number of a sheet, as on the page", ge=1, le=100_000)]


class Ticked(BaseModel):
    """Parts that are sawn, or not."""

    model_config = ConfigDict(extra="forbid")
    seen: Seen
    marks: list[Mark] = Field(max_length=MOST, description="as they are pencilled")
    sawn: bool


class Looked(BaseModel):
    """A list that somebody looks at."""

    model_config = ConfigDict(extra="forbid")
    seen: Seen


class OffcutAsked(BaseModel):
    """What is left of a sheet."""

    model_config = ConfigDict(extra="forbid")
    seen: Seen
    sheet: str = Field(max_length=40, description="as sheet-1")
    piece: int = Field(ge=1, le=100_000, description="among what is left of it")
    source: int | None = Field(
        default=None, ge=1, le=2**53, description="lot that the sheet was; null: the sheet is not in the book"
    )


def router() -> APIRouter:
    """Give the routes of what to saw."""
    routes = APIRouter(tags=["cut"])
    _reading(routes)
    _drawings(routes)
    _ticking(routes)
    _offcuts(routes)
    return routes


def _reading(routes: APIRouter) -> None:
    @routes.get("/jobs/{job}/cut.json", response_model=Standing)
    def cut(place: AJob, works: TheWorks, variant: Variant = None) -> dict[str, Any]:
        """Give the latest list of what to saw, pourwright-cut/1.0, and whether it is of today's choices."""
        return sheet_of(works, place.file, "cut", variant)

    @routes.get("/jobs/{job}/cut", response_class=HTMLResponse, include_in_schema=False)
    def cut_page(request: Request, place: AJob, works: TheWorks, variant: Variant = None) -> HTMLResponse:
        card = card_of(place)
        told = app.Sawing(works, place.file, variant).told()
        phone, plain = is_phone(request), plain_words(request)
        chosen = variant or card["variants"][0]
        title = f"What to saw: {card['title']}"
        return render(
            request, "cut.html", title=title, card=card, told=told, variant=chosen, phone=phone, plain=plain
        )


def _drawings(routes: APIRouter) -> None:
    @routes.get("/jobs/{job}/cut/sheets/{number}.svg", response_class=Response, responses=file_of(SVG))
    def sheet(request: Request, sawing: ASawing, number: ASheet) -> Response:
        """Draw a sheet with its parts, its cuts in their order, and what is left."""
        return shown(request, sawing.drawing(number).encode(), SVG)

    @routes.get("/jobs/{job}/cut/bars.svg", response_class=Response, responses=file_of(SVG))
    def bars(request: Request, sawing: ASawing) -> Response:
        """Draw all bars as they are cut to length."""
        return shown(request, sawing.drawing(None).encode(), SVG)

    @routes.get("/jobs/{job}/cut/cut.pdf", response_class=Response, responses=file_of(PDF))
    def paper(place: AJob, sawing: ASawing) -> Response:
        """Give the list on paper: the very list that the page shows."""
        return handed(sawing.paper(), PDF, f"{place.name}-cut.pdf", inline=True)


def _ticking(routes: APIRouter) -> None:
    @routes.get("/jobs/{job}/cut/ticks.json")
    def ticks(sawing: ASawing) -> dict[str, Any]:
        """Say what is sawn, which ticks no longer hold, and what is left of sheets that are done."""
        return sawing.state()

    @routes.post("/jobs/{job}/cut/ticks.json")
    def tick(sawing: ASawing, asked: Ticked) -> dict[str, Any]:
        """Tick parts as sawn, or untick them; ticked twice they are ticked once."""
        return sawing.tick(asked.seen, asked.marks, sawn=asked.sawn)

    @routes.post("/jobs/{job}/cut/understood.json")
    def understood(sawing: ASawing, asked: Looked) -> dict[str, Any]:
        """Forget ticks that no longer hold: the maker has read which."""
        return sawing.understood(asked.seen)

    @routes.post("/jobs/{job}/cut/again.json")
    def again(sawing: ASawing, asked: Looked) -> dict[str, Any]:
        """Untick everything, to saw all of it once more; what is on stock stays there."""
        return sawing.again(asked.seen)


def _offcuts(routes: APIRouter) -> None:
    @routes.post("/jobs/{job}/cut/offcuts.json")
    def put(sawing: ASawing, asked: OffcutAsked) -> dict[str, Any]:
        """Put what is left of a sheet that is sawn on stock, once however often it is asked."""
        return sawing.put(asked.seen, asked.sheet, asked.piece, asked.source)

    @routes.post("/jobs/{job}/cut/offcuts/back.json")
    def back(sawing: ASawing, asked: OffcutAsked) -> dict[str, Any]:
        """Take it off the stock again."""
        return sawing.take_back(asked.seen, asked.sheet, asked.piece)

    @routes.get("/jobs/{job}/cut/fits.json")
    def fits(sawing: ASawing) -> dict[str, Any]:
        """Say which parts that are not sawn yet fit together on each offcut of the book."""
        return {"offcuts": sawing.fitting()}

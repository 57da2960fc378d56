"""The stock over HTTP: what there is and runs short, each lot with its moves; new lots, the stock-take."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Path as InPath, Query, Request
from pydantic import BaseModel, ConfigDict, Field
from starlette.responses import HTMLResponse, Response

from pourwright import app
from pourwright.app.shelf.places import job_place
from pourwright.foundation.errors import UserError
from pourwright.web.handed import file_of, handed
from pourwright.web.paper import render
from pourwright.web.wanted import Shop

Number = Annotated[int, InPath(description="number of a lot, as on its label", ge=1, le=2**53)]
PDF = "application/pdf"
Lots = Annotated[
    list[Annotated[int, Field(ge=1, le=2**53)]] | None,
    Query(description="numbers of lots, each its own", max_length=1000),
]
Day = Annotated[str | None, Field(max_length=40, description="as 2026-12-01")]
Text = Annotated[str, Field(max_length=200)]


class LotAsked(BaseModel):
    """A new lot."""

    model_config = ConfigDict(extra="forbid")
    kind: str = Field(max_length=20, description="resin, rubber, glass, powder, board, consumable or mold")
    material: Text = Field(default="", description="id of the material; of a mold its job")
    amount: str = Field(default="", max_length=80, description="with its unit; of a board length x width")
    name: Text | None = Field(default=None, description="what stands on the tub")
    colour: Text = Field(default="", description="of glass")
    grade: Text = Field(default="", description="of glass; of a kit its part, A or B")
    bought: Day = None
    opened: Day = None
    expires: Day = None
    note: str = Field(default="", max_length=1000)


class LotChanged(BaseModel):
    """What is put right of a lot; what is left out stays."""

    model_config = ConfigDict(extra="forbid")
    left: str | None = Field(default=None, max_length=80, description="as counted or weighed")
    used: str | None = Field(default=None, max_length=80, description="taken out for what is in no log")
    opened: Day = None
    expires: Day = None
    note: str | None = Field(default=None, max_length=1000, description="of a mold its condition")


class Kept(BaseModel):
    """A piece whose plan's needs are kept for it."""

    model_config = ConfigDict(extra="forbid")
    job: str = Field(max_length=255)
    variant: str | None = Field(default=None, max_length=80)
    casting: int | None = Field(default=None, ge=1, le=100_000, description="else the next one")


class KeptNoMore(BaseModel):
    """A piece that nothing is kept for any more."""

    model_config = ConfigDict(extra="forbid")
    plan: int = Field(ge=1, le=2**53, description="as the stock tells it")
    casting: int = Field(ge=1, le=100_000)


def router() -> APIRouter:
    """Give the routes of the stock."""
    routes = APIRouter(tags=["book"])
    _stock(routes)
    _keeping(routes)
    _labels(routes)
    _lot(routes)
    return routes


def _stock(routes: APIRouter) -> None:
    @routes.get("/book/stock.json")
    def stock(shop: Shop) -> dict[str, Any]:
        """Tell what is on stock, what plans keep of it, what runs short and when."""
        return app.stock_told(shop)

    @routes.post("/book/stock.json")
    def add(shop: Shop, asked: LotAsked) -> dict[str, Any]:
        """Put a new lot on stock; the stock as it then is, with the number of the lot."""
        lot = app.add_lot(shop, **asked.model_dump())["lot"]
        return {"lot": lot, **app.stock_told(shop)}

    @routes.get("/book/stock", response_class=HTMLResponse, include_in_schema=False)
    def stock_page(request: Request, shop: Shop) -> HTMLResponse:
        return render(request, "book_stock.html", title="Stock", stock=app.stock_told(shop))


def _keeping(routes: APIRouter) -> None:
    @routes.post("/book/kept.json")
    def keep(shop: Shop, asked: Kept) -> dict[str, Any]:
        """Keep on stock what the plan of a job needs; the stock as it then is."""
        app.reserve_job(job_place(shop, asked.job).folder, variant=asked.variant, casting=asked.casting)
        return app.stock_told(shop)

    @routes.post("/book/freed.json")
    def free(shop: Shop, asked: KeptNoMore) -> dict[str, Any]:
        """Keep nothing for a piece any more; the stock as it then is."""
        app.keep_no_more(shop, asked.plan, asked.casting)
        return app.stock_told(shop)


def _labels(routes: APIRouter) -> None:
    @routes.get("/book/labels.pdf", response_class=Response, responses=file_of(PDF))
    def labels(shop: Shop, lot: Lots = None) -> Response:
        """Give labels for tubs, ten to a page: of the lots named, else of all that hold something."""
        return handed(app.labels_of(shop, lot or ()), PDF, "labels.pdf", inline=True)


def _lot(routes: APIRouter) -> None:
    @routes.get("/book/stock/{lot}.json")
    def lot(shop: Shop, lot: Number) -> dict[str, Any]:
        """Tell a lot with every move that made it more or less."""
        return app.lot_told(shop, lot)

    @routes.post("/book/stock/{lot}.json")
    def change(shop: Shop, lot: Number, asked: LotChanged) -> dict[str, Any]:
        """Take stock of a lot, or change what is told of it; the lot as it then is."""
        if not asked.model_fields_set:
            raise UserError("nothing was said", where="left", todo="say what is left, taken out or noted")
        app.take_lot(shop, lot, **asked.model_dump())
        return app.lot_told(shop, lot)

    @routes.get("/book/stock/{lot}", response_class=HTMLResponse, include_in_schema=False)
    def lot_page(request: Request, shop: Shop, lot: Number) -> HTMLResponse:
        told = app.lot_told(shop, lot)
        return render(request, "book_lot.html", title=f"Lot {lot}: {told['name']}", lot=told)

"""Orders over HTTP: dates of each list, what is bought for it, ticks that book the stock."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from pydantic import BaseModel, ConfigDict, Field
from starlette.responses import HTMLResponse

from pourwright import app
from pourwright.web.paper import render
from pourwright.web.wanted import Shop

Which = Annotated[
    str | None,
    Query(
        alias="list",
        max_length=300,
        description="file of an order list, from the shop folder; else the first",
    ),
]


class Bought(BaseModel):
    """A purchase that is here, or not."""

    model_config = ConfigDict(extra="forbid")
    line: str = Field(pattern="^[0-9a-f]{16}-[0-9]{1,4}$", description="of the shopping list")
    bought: bool


def router() -> APIRouter:
    """Give the routes of orders."""
    routes = APIRouter(tags=["orders"])

    @routes.get("/orders.json")
    def orders(shop: Shop, which: Which = None) -> dict[str, Any]:
        """Give dates and purchases as far as they are worked out, pourwright-orders/1.0 and -buying/1.0."""
        return app.OrdersPage(shop, which).standing()

    @routes.get("/orders", response_class=HTMLResponse, include_in_schema=False)
    def orders_page(request: Request, shop: Shop, which: Which = None) -> HTMLResponse:
        told = app.OrdersPage(shop, which).told()
        return render(request, "orders.html", title="Orders", told=told)

    @routes.post("/orders/work.json")
    def work(shop: Shop, which: Which = None) -> dict[str, Any]:
        """Work out dates and purchases of a list, and keep them."""
        return app.OrdersPage(shop, which).work()

    @routes.post("/orders/bought.json")
    def bought(shop: Shop, asked: Bought, which: Which = None) -> dict[str, Any]:
        """Tick a purchase as bought and here: it goes on stock, once however often it is asked."""
        return app.OrdersPage(shop, which).tick(asked.line, bought=asked.bought)

    return routes

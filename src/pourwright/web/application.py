"""The application: a shop folder becomes pages and their twins."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from functools import cache
from importlib.resources import files
from pathlib import Path
from threading import Thread

from fastapi import APIRouter, FastAPI
from starlette.middleware.gzip import GZipMiddleware
from starlette.routing import BaseRoute
from starlette.staticfiles import StaticFiles

from pourwright import __version__, app
from pourwright.app.shelf.uploads import USUAL, UploadLimits, forget_old_uploads
from pourwright.app.working.works import Works
from pourwright.web.guards import BodyLimit, Guards
from pourwright.web.lan import Lan
from pourwright.web.once import Once
from pourwright.web.paper import warm_pages
from pourwright.web.refusals import REFUSALS, refuse_in_one_shape
from pourwright.web.routes import (
    answers,
    bench,
    book,
    book_pieces,
    book_stock,
    charts,
    choices,
    cost,
    cut,
    jobs,
    leak,
    measured,
    orders,
    paper,
    phones,
    runs,
    shelf,
    view,
)

ROUTES = (
    shelf.router,
    jobs.router,
    choices.router,
    answers.router,
    charts.router,
    paper.router,
    runs.router,
    view.router,
    bench.router,
    leak.router,
    cut.router,
    cost.router,
    orders.router,
    book.router,
    book_stock.router,
    book_pieces.router,
    measured.router,
    phones.router,
)
"""Each part of the page gives its own."""


def make_app(
    shop: Path,
    limits: UploadLimits = USUAL,
    works: Works | None = None,
    *,
    warm: bool = False,
    lan: Lan | None = None,
) -> FastAPI:
    """Make the application that serves a shop folder.

    Parameters
    ----------
    shop : Path
        The folder whose folders hold jobs.
    limits : UploadLimits
        What may be handed in.
    works : Works, optional
        Does the long work; else one with all kinds of it.
    warm : bool
        Whether to load and compile at once, in the background, what the first numbers need.
    lan : Lan, optional
        The side that faces the network; else only this computer is answered.

    Returns
    -------
    FastAPI
    """
    application = FastAPI(
        title="pourwright",
        version=__version__,
        summary="The workshop's screen: every page has a twin in JSON.",
        docs_url=None,
        redoc_url=None,
        lifespan=_life,
        responses=REFUSALS,
    )
    application.state.shop = shop.resolve()
    application.state.limits = limits
    application.state.works = Works() if works is None else works
    application.state.stopping = lambda: False
    application.state.desk = Once(_desk)
    application.state.warm = warm
    application.state.lan = lan
    application.router.routes.extend(_routes())
    static = Path(str(files("pourwright.web"))) / "static"
    application.mount("/static", StaticFiles(directory=static), name="static")
    refuse_in_one_shape(application)
    application.add_middleware(GZipMiddleware, minimum_size=800, compresslevel=6)
    application.add_middleware(
        BodyLimit, free=(shelf.UPLOADS,), larger=(*bench.LARGER, *book.LARGER, *measured.LARGER)
    )
    # added last, so it stands first
    application.add_middleware(Guards, lan=lan)
    return application


@cache
def _routes() -> list[BaseRoute]:
    """Work out every route, once a process: what a handler needs of its shop comes with the request."""
    together = APIRouter(responses=REFUSALS)
    for router in ROUTES:
        together.include_router(router())
    return together.routes


def _desk() -> app.Desk:
    return app.Desk()


def _warm(application: FastAPI) -> None:
    """Load what the first look needs: templates, the book, then what computes."""
    warm_pages()
    for name in ("castings_told", "stock_told", "piece_told", "Sawing", "Costing", "OrdersPage"):
        getattr(app, name)
    application.state.desk().warm()


@asynccontextmanager
async def _life(application: FastAPI) -> AsyncIterator[None]:
    """Begin and end what lives as long as the server."""
    forget_old_uploads()
    if application.state.warm:
        Thread(target=_warm, args=(application,), name="warming", daemon=True).start()
    yield
    application.state.works.close()

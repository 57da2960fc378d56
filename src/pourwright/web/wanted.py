"""What a handler asks for: the shop, a job of it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from fastapi import Depends, Path as InPath, Query, Request

from pourwright.app.shelf.places import JobPlace, job_place
from pourwright.app.shelf.uploads import UploadLimits
from pourwright.app.working.works import Works

if TYPE_CHECKING:
    from pourwright import app


def the_shop(request: Request) -> Path:
    """Give the shop folder that is served."""
    shop: Path = request.app.state.shop
    return shop


Shop = Annotated[Path, Depends(the_shop)]


def the_job(shop: Shop, job: Annotated[str, InPath(description="name of a job on the shelf")]) -> JobPlace:
    """Give a job that is on the shelf; its name is looked up there and never becomes a path."""
    return job_place(shop, job)


def the_works(request: Request) -> Works:
    """Give what does the long work."""
    works: Works = request.app.state.works
    return works


TheWorks = Annotated[Works, Depends(the_works)]
AJob = Annotated[JobPlace, Depends(the_job)]
Variant = Annotated[str | None, Query(description="name of a variant; else the job's first")]


def the_limits(request: Request) -> UploadLimits:
    """Give what may be handed in."""
    limits: UploadLimits = request.app.state.limits
    return limits


Limits = Annotated[UploadLimits, Depends(the_limits)]


def the_desk(request: Request) -> Any:
    """Give what is kept between two requests; what computes is loaded when it is first asked for."""
    return request.app.state.desk()


if TYPE_CHECKING:
    ADesk = Annotated[app.Desk, Depends(the_desk)]
else:
    # the name is not looked up while the server starts: it would load all that computes
    ADesk = Annotated[Any, Depends(the_desk)]

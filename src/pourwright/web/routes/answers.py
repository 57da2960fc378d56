"""The cheap answers about a job, and bands that are only tried."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter
from pydantic import BaseModel, Field

from pourwright import app
from pourwright.app.answering.document import Answers, TapeTold, Trial
from pourwright.web.wanted import ADesk, AJob, Variant

MOST_BANDS = 40


class BandsWanted(BaseModel):
    """Bands to try."""

    bands: list[dict[str, Any]] = Field(
        max_length=MOST_BANDS,
        description="from the mold's floor up, as a job file has them; `to` may be a number, in metres",
    )


def router() -> APIRouter:
    """Give the routes of the cheap answers."""
    routes = APIRouter(tags=["answers"])

    @routes.get("/jobs/{job}/answers.json")
    def answers(place: AJob, desk: ADesk, variant: Variant = None) -> Answers:
        """Give what is cheap to tell; what the job file does wrong is part of the answer."""
        return app.answers_of(desk, place.folder, variant)

    @routes.get("/jobs/{job}/tape.json")
    def tape(place: AJob, desk: ADesk, variant: Variant = None) -> TapeTold:
        """Give what stands beside the bands: outline, tape measure, what can be chosen."""
        return app.tape_of(desk, place.folder, variant)

    @routes.post("/jobs/{job}/trial.json")
    def trial(place: AJob, desk: ADesk, wanted: BandsWanted, variant: Variant = None) -> Trial:
        """Say what bands would take that are not written; refused ones come back with the reason."""
        return app.trial_of(desk, place.folder, variant, wanted.bands)

    return routes

"""How washed glass gets dry, as part of the fill's document."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.crushing import waits
from pourwright.app.filling.look import FillLook
from pourwright.app.setup import tools
from pourwright.fill import FillResult
from pourwright.fill.bottles.defaults import BOTTLES, DRYING
from pourwright.fill.bottles.wet import trays, wet_grade
from pourwright.jobs.fill_bottles import Drying, DryingTray, DryingWay, WetLot

_HOUR = 3600.0


def drying_part(look: FillLook, fill: FillResult) -> Drying:
    """Share the glass out to trays and tell how long they take.

    Parameters
    ----------
    look : FillLook
        The fill.
    fill : FillResult
        The same, designed.

    Returns
    -------
    Drying
    """
    constant, film = BOTTLES["constant"].value, BOTTLES["water_film"]
    return Drying(
        dried=look.job.bottles.dried,
        waits_h=waits(look.job) / _HOUR,
        own=look.job.bottles.dries_in is not None,
        weigh_every_h=BOTTLES["weigh_every"].value / _HOUR,
        constant=constant,
        least_on_scale_kg=tools(look.job).scale_step / constant,
        film_m=film.value,
        film_kind=str(film.kind),
        wet=list(_wet(fill, film.value)),
        ways=list(_ways()),
        trays=[
            DryingTray(
                number=tray.number,
                colour=tray.colour,
                grade=tray.grade,
                glass_kg=tray.mass,
                constant_kg=constant * tray.mass,
            )
            for tray in trays(fill.glass, BOTTLES["tray"].value)
        ],
        does="",
    )


def _ways() -> Iterator[DryingWay]:
    for name, time in DRYING.items():
        low, high = (time.value if end is None else end for end in (time.low, time.high))
        yield DryingWay.model_validate(
            {
                "name": name,
                "hours": time.value / _HOUR,
                "low_h": low / _HOUR,
                "high_h": high / _HOUR,
                "conditions": time.conditions,
                "kind": str(time.kind),
            }
        )


def _wet(fill: FillResult, film: float) -> Iterator[WetLot]:
    glass = fill.choices.glass
    for grade in dict.fromkeys(lot.grade for lot in fill.glass):
        record = glass.grade(grade)
        wet = wet_grade(
            record.sieve_from.value,
            record.sieve_to.value,
            glass.density.value,
            film,
            void_fraction=record.void_fraction.value,
            resin=fill.choices.resin.density.value,
        )
        yield WetLot(grade=grade, surface_m2_kg=wet.surface, water=wet.water, of_resin=wet.of_resin)

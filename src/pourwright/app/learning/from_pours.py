"""What one logged pour says of the numbers that a shop learns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

import numpy as np

from pourwright.app.leaking.of_plan import column_of
from pourwright.calibration.learning.record import Record
from pourwright.jobs.plan import PlanDocument, Pour
from pourwright.pour.leaked.column import Column
from pourwright.pour.leaked.defaults import LEAKED

LEAST_GLASS = 0.5
"""Share of a pour's liquid that must stand in one grade of glass to tell its voids."""
LEAST_WARMING = 3.0
"""Warming from which on a peak has a time [K]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PourLogged:
    """One pour as it was logged; what was not noted is None.

    Parameters
    ----------
    id : str
        By which its records are named.
    number : int
        Of the plan.
    begun : datetime
        When it went in.
    mixed, poured, clung : float or None
        In all [kg]; what clung to the mold's face, to funnel and stick.
    level : float or None
        Where it stood right after, from the mold's floor [m].
    leaked : bool
        Whether some of it ran out: then it tells nothing of voids.
    gelled : datetime or None
        When it was seen to have gelled.
    peak_at : datetime or None
        When it was hottest.
    cavity : float
        What the mold holds over what the plan takes it to hold.
    """

    id: str
    number: int
    begun: datetime
    mixed: float | None = None
    poured: float | None = None
    clung: float | None = None
    level: float | None = None
    leaked: bool = False
    gelled: datetime | None = None
    peak_at: datetime | None = None
    cavity: float = 1.0


def records_of(
    plan: PlanDocument, logged: Sequence[PourLogged], density: float, assumed: float = 1.0
) -> list[Record]:
    """All records that logged pours give.

    ``density`` is that of the resin as poured [kg/m3]; ``assumed`` the cure rate over the family's that the
    plan was made with, so that a shop does not learn twice what it has learnt.
    """
    found: list[Record] = []
    for one in logged:
        pour = next((each for each in plan.pours if each.number == one.number), None)
        if pour is not None:
            more = _records(plan, pour, one, density, assumed)
            found += [replace(each, at=one.begun.isoformat()) for each in more]
    return found


def _records(
    plan: PlanDocument, pour: Pour, one: PourLogged, density: float, assumed: float
) -> Iterator[Record]:
    if one.mixed and one.poured and 0.0 < one.poured < one.mixed:
        loss = 1.0 - one.poured / one.mixed
        doubt = LEAKED["weighing_error"].value / 2.0
        yield Record(
            id=f"{one.id}:bucket_loss", quantity="bucket_loss", subject="pail", value=loss, doubt=doubt
        )
    if one.clung and len(plan.dip_stick) > 1:
        area = face_of(plan) * _share(plan, pour)
        yield Record(id=f"{one.id}:film", quantity="film", subject="mold", value=one.clung / (density * area))
    yield from _voids(plan, pour, one, density)
    yield from _pace(plan, pour, one, assumed)


def _voids(plan: PlanDocument, pour: Pour, one: PourLogged, density: float) -> Iterator[Record]:
    """Voids of the one grade that most of the liquid stands in."""
    if one.leaked or not one.poured or one.level is None or not pour.from_m < one.level:
        return
    column = column_of(plan, pour)
    bands = [band for band in plan.fill.bands if band.to_m > pour.from_m and band.from_m < column.top]
    volumes = [one.cavity * volume for volume in _below(column, one.level)]
    shares = [volume * band.void_fraction for volume, band in zip(volumes, bands, strict=True)]
    largest = max(range(len(bands)), key=shares.__getitem__)
    band = bands[largest]
    if band.kind != "glass" or band.grade is None or shares[largest] < LEAST_GLASS * sum(shares):
        return
    film = plan.fill.resin.film_kg * _share(plan, pour)
    rest = sum(shares) - shares[largest]
    void = ((one.poured - film) / density - rest) / volumes[largest]
    mass, reading = LEAKED["weighing_error"].value, LEAKED["level_error"].value
    doubt = void * (mass**2 + (reading / (one.level - pour.from_m)) ** 2) ** 0.5
    if 0.0 < void < 1.0:
        yield Record(
            id=f"{one.id}:void_fraction",
            quantity="void_fraction",
            subject=band.grade,
            value=void,
            doubt=doubt,
        )


def face_of(plan: PlanDocument) -> float:
    """Face of the mold that resin clings to: all but the open one [m2]."""
    *_, below, top = plan.dip_stick
    mouth = (top.cavity_m3 - below.cavity_m3) / (top.height_m - below.height_m)
    return plan.piece.area_m2 - mouth


def _share(plan: PlanDocument, pour: Pour) -> float:
    """Of all that is poured [-]."""
    return pour.resin_kg / sum(each.resin_kg for each in plan.pours)


def _below(column: Column, level: float) -> list[float]:
    """Cavity of each bed below a level [m3]."""
    return [float(np.interp(level, column.heights, row)) for row in column.held]


def _pace(plan: PlanDocument, pour: Pour, one: PourLogged, assumed: float) -> Iterator[Record]:
    """How fast it cured, by the time of its peak, else of its gel, over the planned one."""
    warming = pour.peak_temperature_degC - (pour.start_temperature_degC or pour.history.coolest_degC[0])
    told = [(one.peak_at, pour.peak_after_h)] if warming > LEAST_WARMING else []
    told.append((one.gelled, pour.gel_after_h))
    for moment, planned in told:
        if moment is not None and moment > one.begun:
            hours = (moment - one.begun).total_seconds() / 3600.0
            yield Record(
                id=f"{one.id}:cure_rate",
                quantity="cure_rate",
                subject=plan.piece.casting_material,
                value=assumed * planned / hours,
            )
            return

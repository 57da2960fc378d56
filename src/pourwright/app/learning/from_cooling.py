"""How well a mold gives its heat to the air where it stands, from how fast a pour cooled."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from pourwright.calibration.learning.record import Record
from pourwright.foundation.notation import ZERO_CELSIUS
from pourwright.jobs.plan import PlanDocument, Pour
from pourwright.materials import Materials
from pourwright.physics.outside_film import outside_film

Array = NDArray[np.float64]
Readings = Sequence[tuple[datetime, float]]
FROM, TO = 0.8, 0.25
"""Shares of the peak over the shop between which it cools evenly."""
LEAST_POINTS, LEAST_WARM = 5, 5.0
"""So many readings, and a peak so much warmer than the shop [K]."""
SLOPE_DOUBT = 0.10
"""Standard deviation of how fast it cooled, as a share: where the sensor sat, a door that stood open."""
WARM, WOOD = 10.0, 0.9
"""A box's outside over its shop [K] and its emissivity, for the usual film."""
FARTHEST = 4.0
HOUR = timedelta(hours=1)


def heat_film_of(
    plan: PlanDocument,
    pour: Pour,
    begun: datetime,
    readings: Readings,
    materials: Materials,
    pour_id: str,
    mold: str,
    assumed: float,
) -> Record | None:
    """Compare how fast a pour cooled with how fast it was planned to.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    pour : Pour
        Of the plan.
    begun : datetime
        When it went in.
    readings : sequence of (datetime, float)
        Of the warmest logger [degC].
    materials : Materials
        For rubber and board.
    pour_id, mold : str
        Names of the record and of what it is about.
    assumed : float
        Factor on the film that the plan was made with.

    Returns
    -------
    Record or None
        Factor on the film of air and radiation; None where it did not cool far enough before the next pour.
    """
    planned = _planned_slope(plan, pour)
    measured = _measured_slope(plan, pour, begun, readings)
    within = _wall(plan, materials)
    if planned is None or measured is None or within is None:
        return None
    film = assumed * float(outside_film(293.15 + WARM, 293.15, plan.piece.height_m, "upright", WOOD))
    # the rubber's and the box's share of the resistance is as planned; what is left is the air's
    left = (1.0 / film + within) * planned / measured - within
    factor = 1.0 / (left * film) if left > 0.0 else FARTHEST
    if not 1.0 / FARTHEST < factor < FARTHEST:
        return None
    doubt = factor * SLOPE_DOUBT * (1.0 / film + within) * planned / measured / left
    return Record(
        id=f"{pour_id}:heat_film",
        quantity="heat_film",
        subject=mold,
        value=assumed * factor,
        doubt=assumed * doubt,
        at=begun.isoformat(),
    )


def _wall(plan: PlanDocument, materials: Materials) -> float | None:
    """Resistance of rubber and panel to the heat [m2 K/W]; None for materials that are no longer known."""
    rubber, box = plan.mold.rubber, plan.mold.box
    if rubber.id not in materials.rubber or box.board not in materials.board:
        return None
    panel = min((each.thickness_m for each in box.panels), default=0.0)
    return (
        rubber.wall_m / materials.rubber[rubber.id].conductivity.value
        + panel / materials.board[box.board].conductivity.value
    )


def _planned_slope(plan: PlanDocument, pour: Pour) -> float | None:
    start = _start(plan, pour)
    hours, hot = np.array(pour.history.time_h), np.array(pour.history.hottest_degC)
    return _slope(hours, hot - _air(plan, hours), _until(plan, pour, start))


def _measured_slope(plan: PlanDocument, pour: Pour, begun: datetime, readings: Readings) -> float | None:
    start = _start(plan, pour)
    hours = np.array([start + (at - begun) / HOUR for at, _ in readings])
    values = np.array([value for _, value in readings])
    return _slope(hours, values - _air(plan, hours), _until(plan, pour, start))


def _start(plan: PlanDocument, pour: Pour) -> float:
    """When a pour is planned to go in [h after the first one]."""
    return (datetime.fromisoformat(pour.start) - datetime.fromisoformat(plan.pours[0].start)) / HOUR


def _air(plan: PlanDocument, hours: Array) -> Array:
    """The shop's air as planned; nobody logs it as a rule [degC]."""
    if not plan.heat.air_time_h:
        return np.full(hours.shape, plan.pours[0].start_temperature_degC or 293.15 - ZERO_CELSIUS)
    return np.interp(hours, plan.heat.air_time_h, plan.heat.air_degC)


def _until(plan: PlanDocument, pour: Pour, start: float) -> float:
    """When the next pour warms it again [h after the first pour began]."""
    later = [each for each in plan.pours if each.number > pour.number]
    if not later:
        return np.inf
    next_start = datetime.fromisoformat(later[0].start) - datetime.fromisoformat(pour.start)
    return start + next_start / HOUR


def _slope(hours: Array, excess: Array, until: float) -> float | None:
    """Rate at which what is over the shop dies away [1/h]."""
    kept = hours < until
    hours, excess = hours[kept], excess[kept]
    if len(excess) < LEAST_POINTS or float(excess.max()) < LEAST_WARM:
        return None
    peak = int(excess.argmax())
    cooling = slice(peak, None)
    share = excess[cooling] / excess[peak]
    even = (share < FROM) & (share > TO)
    if int(even.sum()) < LEAST_POINTS:
        return None
    fitted = np.polyfit(hours[cooling][even], np.log(excess[cooling][even]), 1)
    return float(-fitted[0]) if fitted[0] < 0.0 else None

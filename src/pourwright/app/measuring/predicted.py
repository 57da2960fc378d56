"""What a plan says of a place through one pour."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from pourwright.app.charting.charts import charted
from pourwright.app.measuring.places import AIR, COOLEST, HOTTEST, MIDDLE, RUBBER, TOP, Place, read_place
from pourwright.app.plan_files import HEAT_FILE, PLAN_FILE
from pourwright.foundation.errors import UserError
from pourwright.jobs import SnapshotFile
from pourwright.jobs.plan import PlanDocument, Pour
from pourwright.sheets.axes import hours_between

Floats = NDArray[np.float64]
_SEEN = {MIDDLE: "middle", TOP: "top", RUBBER: "face"}
NO_HEAT = (
    "what the plan said of single places is kept with the latest plan only: compared with the hottest place"
)


@dataclass(frozen=True, eq=False)
class Predicted:
    """One place through one pour, by its plan.

    Parameters
    ----------
    place : Place
        Which place it is.
    hours : array (n,)
        After the pour went in [h], rising.
    degC : array (n,)
        There.
    band : tuple of float, optional
        What eight of ten such pours get to at most there [degC].
    note : str
        Why it is another place than the one that was told; empty where it is that one.
    """

    place: Place
    hours: Floats
    degC: Floats
    band: tuple[float, float] | None = None
    note: str = ""

    @property
    def peak(self) -> tuple[float, float]:
        """Hottest moment: hours after the pour went in, degC."""
        at = int(np.argmax(self.degC))
        return float(self.hours[at]), float(self.degC[at])


def predicted(plan: PlanDocument, pour: Pour, told: str, folder: Path | None, sha256: str) -> Predicted:
    """Say what a plan expects of a place.

    Parameters
    ----------
    plan : PlanDocument
        The plan the pour was begun under.
    pour : Pour
        Of the plan.
    told : str
        The place, in the words of `read_place`; empty where nobody says it, which is the hottest place.
    folder : Path, optional
        Of the job's latest plan, with its heat file.
    sha256 : str
        Of the plan the pour was begun under.

    Returns
    -------
    Predicted

    Raises
    ------
    UserError
        Where nothing is cast at the place.
    """
    place = read_place(told or HOTTEST)
    if place.told in {HOTTEST, COOLEST, AIR}:
        return _of_plan(plan, pour, place)
    if folder is None or not _is_of(folder, sha256):
        return _of_plan(plan, pour, read_place(HOTTEST), NO_HEAT)
    times, degrees = _of_heat_file(plan, folder, place)
    return _cut(plan, pour, place, times, degrees)


def _of_plan(plan: PlanDocument, pour: Pour, place: Place, note: str = "") -> Predicted:
    history = pour.history
    rows = {
        HOTTEST: (history.time_h, history.hottest_degC),
        COOLEST: (history.time_h, history.coolest_degC),
        AIR: (plan.heat.air_time_h, plan.heat.air_degC),
    }[place.told]
    return _cut(plan, pour, place, np.array(rows[0]), np.array(rows[1]), note)


def _is_of(folder: Path, sha256: str) -> bool:
    plan, heat = folder / PLAN_FILE, folder / HEAT_FILE
    return heat.is_file() and plan.is_file() and hashlib.sha256(plan.read_bytes()).hexdigest() == sha256


def _of_heat_file(plan: PlanDocument, folder: Path, place: Place) -> tuple[Floats, Floats]:
    """Hours after the first pour, and degC."""
    if place.told in _SEEN:
        seen = (charted(folder).places or {}).get(_SEEN[place.told])
        if seen is not None:
            return np.asarray(seen.time_h, dtype=float), np.asarray(seen.degC, dtype=float)
        raise _nothing_there(place)
    x, y, _ = plan.piece.centroid_m
    point = place.point or (x, y, place.height or 0.0)
    with SnapshotFile(folder / HEAT_FILE) as file:
        times, degrees = np.asarray(file.time_h, dtype=float), np.asarray(file.history(point), dtype=float)
    there = np.isfinite(degrees)
    if not there.any():
        raise _nothing_there(place)
    return times[there], degrees[there]


def _nothing_there(place: Place) -> UserError:
    return UserError(
        f"nothing is cast at {place.words}",
        where="--probe",
        allowed="a place inside the casting",
        todo="measure where the sensor was, up from the mold's floor as poured",
    )


def _cut(
    plan: PlanDocument, pour: Pour, place: Place, times: Floats, degrees: Floats, note: str = ""
) -> Predicted:
    """From when the pour goes in until the next one does."""
    start = hours_between(plan.pours[0].start, pour.start)
    later = [each.start for each in plan.pours if each.number > pour.number]
    end = min((hours_between(plan.pours[0].start, each) for each in later), default=np.inf)
    inside = (times >= start - 1e-6) & (times <= end + 1e-6)
    if inside.sum() < 2:
        raise UserError(
            f"the plan says nothing of {place.words} during pour {pour.number}",
            where="--probe",
            todo="name another place, or the pour that it was",
        )
    hours, there = times[inside] - start, degrees[inside]
    return Predicted(place, hours, there, _band(pour, place, there), note)


def _band(pour: Pour, place: Place, degrees: Floats) -> tuple[float, float] | None:
    """The plan's band of the hottest place, in the share of its warming that this place has."""
    low, high = pour.peak_temperature_degC_p10, pour.peak_temperature_degC_p90
    if low is None or high is None or place.told in {AIR, COOLEST}:
        return None
    if place.told == HOTTEST:
        return low, high
    cool = float(degrees[0]) if pour.start_temperature_degC is None else pour.start_temperature_degC
    share = (float(degrees.max()) - cool) / max(pour.peak_temperature_degC - cool, 1e-6)
    return cool + share * (low - cool), cool + share * (high - cool)

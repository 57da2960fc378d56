"""What the heat file tells of single places: the middle, the top, and what lies against the rubber."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.snapshots import AXES, SnapshotFile
from pourwright.sheets.wording import Wording

Floats = NDArray[np.floating]


@dataclass(frozen=True, eq=False)
class PlaceSeen:
    """The history of one place.

    Parameters
    ----------
    words : str
        Its name.
    time_h : array
        Hours since the first pour.
    degC : array
        Temperature there.
    height_m : float or None
        Up from the mold's floor; None where it changes.
    """

    words: str
    time_h: Floats
    degC: Floats
    height_m: float | None = None

    def where(self, words: Wording) -> str:
        """Say where it is."""
        if self.height_m is not None:
            return f"{words.length(self.height_m)} up from the mold's floor, as poured"
        return WHERE[self.words]


PlacesSeen = Mapping[str, PlaceSeen]
MIDDLE, TOP, FACE = "middle of the piece", "top of what is poured", "against the rubber"
WHERE = {
    TOP: "the cell under the open top, in the middle",
    FACE: "the hottest of the casting's outermost cells",
}


def see_places(heat_file: Path, plan: PlanDocument) -> PlacesSeen:
    """Read the histories of the places that a chart shows.

    Parameters
    ----------
    heat_file : Path
        Of the plan.
    plan : PlanDocument
        The plan; its piece says where the middle is.

    Returns
    -------
    mapping
        By key; what the file cannot tell is left out.

    Raises
    ------
    UserError
        For a file that cannot be read.
    """
    with SnapshotFile(heat_file) as file:
        column = _column(file, plan)
        faces = np.array([_hottest_outside(box) for box in file.boxes()])
        found = {
            "middle": _middle(file, column, plan),
            "top": PlaceSeen(TOP, file.time_h, np.array([_last(row) for row in column])),
            "face": PlaceSeen(FACE, file.time_h, faces),
        }
    return {key: seen for key, each in found.items() if (seen := _told(each)) is not None}


def _column(file: SnapshotFile, plan: PlanDocument) -> Floats:
    """The column through the middle of the piece, or the nearest one that is cast: time, then z."""
    last = np.isfinite(file.box(file.time_h.size - 1))
    x, y = np.meshgrid(*(file.centers_m[axis] for axis in AXES[:2]), indexing="ij")
    away = np.hypot(x - plan.piece.centroid_m[0], y - plan.piece.centroid_m[1])
    away[~last.any(axis=2)] = np.inf
    i, j = np.unravel_index(int(np.argmin(away)), away.shape)
    return file.film("x", float(x[i, j]))[:, j, :]


def _middle(file: SnapshotFile, column: Floats, plan: PlanDocument) -> PlaceSeen:
    heights = file.centers_m["z"]
    away = np.where(np.isfinite(column[-1]), np.abs(heights - plan.piece.centroid_m[2]), np.inf)
    k = int(np.argmin(away))
    return PlaceSeen(MIDDLE, file.time_h, column[:, k], float(heights[k]))


def _last(row: Floats) -> float:
    """The topmost value of a column that is there."""
    there = row[np.isfinite(row)]
    return float(there[-1]) if there.size else np.nan


def _hottest_outside(box: Floats) -> float:
    """The hottest cell with a neighbour beside or below that is no casting."""
    there = np.pad(np.isfinite(box), ((1, 1), (1, 1), (1, 0)))
    inside = there[:-2, 1:-1, 1:] & there[2:, 1:-1, 1:] & there[1:-1, :-2, 1:] & there[1:-1, 2:, 1:]
    inside &= there[1:-1, 1:-1, :-1]
    outer = box[np.isfinite(box) & ~inside]
    return float(outer.max()) if outer.size else np.nan


def _told(seen: PlaceSeen) -> PlaceSeen | None:
    there = np.isfinite(seen.degC)
    if not there.any():
        return None
    return PlaceSeen(seen.words, seen.time_h[there], seen.degC[there], seen.height_m)

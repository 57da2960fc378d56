"""A stool whose first pour is in its mold, and files that an invented logger wrote of it."""

import hashlib
import json
import math
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from pourwright.app.booking.entering import Said, enter
from pourwright.app.booking.places import book_place
from pourwright.app.plan_files import HEAT_FILE
from pourwright.foundation.files import canonical_json
from pourwright.jobs.snapshots import SnapshotContent, snapshot_bytes
from tests.app.booking.conftest import write_plan
from tests.sheets.sample_plan import sample_plan

PLAN = sample_plan(4)
POUR = PLAN.pours[0]
BEGUN = datetime(2026, 11, 20, 9, 0, tzinfo=ZoneInfo("Europe/Berlin"))
FRESH = 22.0
"""Temperature of the invented pour as it goes in, and of the shop [degC]."""
MIDDLE_SHARE = 0.8
EVERY = 3
"""Minutes from one row to the next."""
BAND = (POUR.peak_temperature_degC - 5.0, POUR.peak_temperature_degC + 4.0)
"""What eight of ten such pours get to [degC]."""


def hottest(hours: float, *, share: float = 1.0) -> float:
    """The invented plan's hottest place in closed form."""
    after = POUR.peak_after_h
    shape = max(hours, 0.0) ** 2 / after**2 * math.exp(2.0 * (1.0 - max(hours, 0.0) / after))
    return FRESH + share * (POUR.peak_temperature_degC - FRESH) * shape


@pytest.fixture
def poured(tmp_path: Path) -> Path:
    """Folder of a job whose first pour went in at nine, weighed a quarter of an hour before."""
    (tmp_path / "shop.toml").touch()
    folder = tmp_path / "stool"
    plan_of_bands(folder)
    (folder / "plan" / HEAT_FILE).write_bytes(heat_file(folder))
    said = [
        Said(kind="weigh_a", at=BEGUN - timedelta(minutes=15), value=1.854),
        Said(kind="weigh_b", at=BEGUN - timedelta(minutes=10), value=0.834),
        Said(kind="mixed", at=BEGUN, value=2.688),
    ]
    enter(folder, book_place(folder), said)
    return folder


def plan_of_bands(folder: Path) -> None:
    """Put a plan beside the job that says how sure its first peak is."""
    write_plan(folder)
    document = json.loads((folder / "plan" / "plan.json").read_text("utf8"))
    document["pours"][0] |= {"peak_temperature_degC_p10": BAND[0], "peak_temperature_degC_p90": BAND[1]}
    (folder / "plan" / "plan.json").write_bytes(canonical_json(document))


def heat_file(folder: Path) -> bytes:
    """Three cells in a row: the middle one warms by a share of the hottest place, the others not at all."""
    sha256 = hashlib.sha256((folder / "plan" / "plan.json").read_bytes()).hexdigest()
    x, y, z = PLAN.piece.centroid_m
    edges = (
        np.array([x - 0.03, x - 0.01, x + 0.01, x + 0.03]),
        np.array([y - 0.01, y + 0.01]),
        np.array([z - 0.01, z + 0.01]),
    )
    times = np.arange(0.0, 23.5, 0.5)
    middle = [np.array([[[FRESH]], [[hottest(hour, share=MIDDLE_SHARE)]], [[FRESH]]]) for hour in times]
    about = {"title": "stool", "plan_sha256": sha256}
    boxes = iter([(box, np.zeros_like(box)) for box in middle])
    return snapshot_bytes(
        SnapshotContent(about, edges, times, np.ones(times.size), [0.0], [2 * float(z)], boxes)
    )


@pytest.fixture
def written(tmp_path: Path) -> Callable[..., Path]:
    """Write a logger's file: one row every few minutes, of each sensor's temperature hours after the pour."""

    def write(
        *sensors: Callable[[float], float],
        titles: str = "time,core [°C]",
        hours: tuple[float, float] = (-1.0, 20.0),
        stamp: Callable[[datetime], str] = lambda at: at.isoformat(),
        begun: datetime = BEGUN,
    ) -> Path:
        file = tmp_path / "logger.csv"
        rows = [titles]
        for minute in range(round(60 * hours[0]), round(60 * hours[1]) + 1, EVERY):
            cells = [f"{sensor(minute / 60):.4f}" for sensor in sensors]
            # real minutes, also where the clocks are set
            at = datetime.fromtimestamp(begun.timestamp() + 60 * minute, begun.tzinfo)
            rows.append(",".join([stamp(at), *cells]))
        file.write_text("\r\n".join(rows) + "\r\n", "utf8")
        return file

    return write

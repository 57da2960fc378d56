"""A bare ball typed into a job file and run by `heat`, against the same ball on a line of shells."""

import math
from pathlib import Path

import numpy as np
import pytest

from pourwright.app import heat_job
from tests.convergence.radial import Matter, Round
from tests.pinned import PINNED

RADIUS, HOURS = 0.05, 16 * 3600.0
LAW = (3e4, 60e3, 1.1e5, 55e3, 0.6, 1.8)
JOB = (
    """
format = 1
start = "2027-01-04 09:00"
[shape]
profile = [{profile}]
[casting]
material = "epoxy-fast"
[shop]
temperature = "23 degC"
[pin]
until = "16 h"
"""
    + PINNED
    + """[pin.grid]
spacing = "{spacing} mm"
tolerance = 0.02
[[pin.probe]]
name = "middle"
z = "50 mm"
"""
)


def ball() -> str:
    """Radius and height of half a circle, point by point."""
    angles = np.linspace(0.0, math.pi, 65)
    points = [(1e3 * RADIUS * abs(math.sin(a)), 1e3 * RADIUS * (1.0 - math.cos(a))) for a in angles]
    return ", ".join(f'["{radius:.4f} mm", "{height:.4f} mm"]' for radius, height in points)


def test_a_bare_ball_peaks_as_on_a_line_of_shells(tmp_path: Path) -> None:
    matter = Matter(1100.0 * 1800.0, 0.2, 1100.0 * 350e3)
    true = Round(2, ((RADIUS, matter),), 8.0, 296.15, LAW).peak(40, HOURS) - 273.15
    missed = []
    for spacing in (8, 4):
        (tmp_path / "job.toml").write_text(JOB.format(profile=ball(), spacing=spacing), "utf8")
        answer = heat_job(tmp_path / "job.toml").to_json()
        missed.append(abs(answer["hottest"]["temperature_degC"] - true))
        assert answer["probes"][0]["peak_temperature_degC"] == pytest.approx(true, abs=0.5)
        assert [answer["hottest"][key] for key in ("x_m", "y_m", "z_m")] == pytest.approx(
            [0.0, 0.0, RADIUS], abs=1e-3
        )
        assert answer["energy_error"] < 1e-10
    assert missed[1] < 0.3
    assert missed[1] < missed[0]

"""Published cases typed into a job file and run by `heat`, as anybody could."""

import re
from pathlib import Path

import numpy as np
import pytest

from pourwright.app import heat_job
from tests.pinned import PINNED

PAGE = Path(__file__).parents[2] / "docs" / "heat.md"


def written(folder: Path, text: str) -> Path:
    job = folder / "job.toml"
    job.write_text(text, "utf8")
    return job


def minutes_to(conversion: float, probe: dict) -> float:
    return float(np.interp(conversion, probe["conversion"], probe["time_h"])) * 60.0


def test_thick_laminate_of_the_manual(tmp_path: Path) -> None:
    # B41: Bogetti and Gillespie, J. Compos. Mater. 25 (1991) 239, glass/polyester of 50.8 mm;
    # peak and times by an independent method of lines
    (case,) = re.findall(r"^```toml\n(.*?)^```$", PAGE.read_text("utf8"), re.MULTILINE | re.DOTALL)
    answer = heat_job(written(tmp_path, case)).to_json()
    centre, face = answer["probes"]
    found = {
        "centre, highest": (centre["peak_temperature_degC"], 153.07),
        "centre, when": (centre["peak_time_h"] * 60, 198.45),
        "centre half cured": (minutes_to(0.5, centre), 198.01),
        "face half cured": (minutes_to(0.5, face), 181.0),
    }
    for what, (here, published) in found.items():
        assert here == pytest.approx(published, abs=0.5), what
        # and the page's table says the same
        (row,) = [line for line in PAGE.read_text("utf8").splitlines() if line.startswith(f"| {what} |")]
        told = [float(number) for number in re.findall(r"\d+\.\d+", row)]
        assert told[0] == published, what
        assert told[1] == pytest.approx(here, abs=0.2), what
    assert answer["energy_error"] < 1e-10


# B45: a synthetic resin, bare slab of 40 mm in air of 23 degC; by an independent stiff method of lines
BARE_SLAB = (
    """
format = 1
start = "2027-01-04 09:00"
[shape]
box = ["1200 mm", "1200 mm", "40 mm"]
[casting]
material = "epoxy-fast"
[shop]
temperature = "23 degC"
[pin]
until = "14 h"
"""
    + PINNED
    + """[pin.grid]
spacing = "1 mm"
across = "100 mm"
tolerance = "0.01 K"
[[pin.pour]]
to = "top"
[[pin.probe]]
name = "middle"
z = "20 mm"
[[pin.probe]]
name = "top"
z = "40 mm"
"""
)


def test_bare_slab_on_the_edge_of_taking_off(tmp_path: Path) -> None:
    # B45, tolerances as stated there
    answer = heat_job(written(tmp_path, BARE_SLAB)).to_json()
    middle, top = answer["probes"]
    assert middle["peak_temperature_degC"] == pytest.approx(77.803, abs=0.3)
    assert middle["peak_time_h"] * 60 == pytest.approx(770.27, abs=1.0)
    assert top["peak_temperature_degC"] == pytest.approx(62.554, abs=0.3)
    then = float(np.interp(middle["peak_time_h"], middle["time_h"], middle["conversion"]))
    assert then == pytest.approx(0.797, abs=0.002)
    assert answer["hottest"]["temperature_degC"] == pytest.approx(77.803, abs=0.3)
    assert answer["hottest"]["z_m"] == pytest.approx(0.02, abs=0.001)

"""Trapped air, through the door a maker uses."""

import json
import re
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from rich.console import Console
from scipy.optimize import brentq

from pourwright.app.document import job_info
from pourwright.app.molding.air import air_look
from pourwright.app.molding.air_files import air_files
from pourwright.app.molding.look import MoldLook, look_at_mold
from pourwright.app.molding.molding import mold_job
from pourwright.app.shaping.piece import read_piece
from pourwright.cli.mold_air_lines import air_lines
from pourwright.cli.words import Words
from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import SILENT
from pourwright.geometry import Mesh, box, joined, revolve
from pourwright.geometry.drawn.joining import as_manifold, as_mesh
from pourwright.geometry.files.writers import stl_bytes
from pourwright.jobs import load_job
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.pages.mold_air import air_pages
from pourwright.sheets.wording import Wording
from tests.mold.air.bodies import cone_holds

JOB = """
format = 1
title = "Footed block"
units = "{units}"
[shape]
file = "part.stl"
unit = "mm"
[casting]
material = "epoxy-slow-deep"
[mold]
method = "{method}"
{more}
[shop]
temperature = "22 degC"
"""


def dented(rise: float) -> Mesh:
    """A block with a conical dent of 100 mm in its underside."""
    dent = revolve([[0.05, -0.01], [0.05, 0.0], [0.0, rise]], 96)
    return as_mesh(as_manifold(box([0.2, 0.16, 0.12])) - as_manifold(dent))


def vented() -> Mesh:
    """A plate with a dome beside its shaft, on a point: it has no other way up."""
    parts = [
        box([0.3, 0.2, 0.05]), box([0.06, 0.06, 0.3]).moved([0.1, 0.0, 0.0]),
        revolve([[0.05, 0.04], [0.05, 0.09], [0.03, 0.11], [0.0, 0.12]], 64).moved([-0.06, 0.0, 0.0]),
        revolve([[0.01, -0.1], [0.03, 0.01]], 32),
    ]  # fmt: skip
    whole = as_manifold(parts[0])
    for part in parts[1:]:
        whole += as_manifold(part)
    return as_mesh(whole)


def looked(folder: Path, mesh: Mesh, method: str = "hung", units: str = "metric", more: str = "") -> MoldLook:
    (folder / "part.stl").write_bytes(stl_bytes(mesh))
    (folder / "job.toml").write_text(JOB.format(method=method, units=units, more=more), "utf8")
    job = load_job(folder / "job.toml")
    return look_at_mold(job, read_piece(job))


def told(look: MoldLook) -> dict[str, Any]:
    answer: dict[str, Any] = json.loads(air_look(look, SILENT).model_dump_json())
    return answer


def sheet_of(look: MoldLook) -> MoldSheet:
    """A sheet of the air alone."""
    return MoldSheet.model_construct(job=job_info(look.job), air=air_look(look, SILENT))


def printed(part: dict[str, Any], units: str = "metric") -> str:
    console = Console(width=110, highlight=False)
    with console.capture() as kept:
        for line in air_lines(part, Words(units)):
            console.print(line)
    return " ".join(kept.get().split())


def test_a_hung_master_with_a_deep_dent_is_screwed_down_instead(tmp_path: Path) -> None:
    part = told(looked(tmp_path, dented(0.03)))
    place = part["rubber"]["places"][0]
    assert place["volume_m3"] == pytest.approx(np.pi / 3 * 0.05**2 * 0.03, rel=0.01)
    assert (place["z_m"], place["closed_at_m"], place["take"]) == (pytest.approx(0.03), 0.0, "other way")
    assert 'mold.method = "screwed"' in place["todo"]
    assert part["casting"]["places"] == []
    assert part["cautions"][0].startswith("Trapped air in the rubber: 78 ml")
    assert told(looked(tmp_path, dented(0.03), "screwed"))["rubber"]["places"] == []


def test_a_shallow_dent_is_let_down_aslant(tmp_path: Path) -> None:
    place = told(looked(tmp_path, dented(0.004)))["rubber"]["places"][0]
    tilt = place["tilt"]
    assert place["take"] == "tilt"
    least = brentq(lambda angle: cone_holds(angle, 0.05, 0.004) - 0.5e-6, 0.0, np.radians(4.5))
    assert tilt["least_deg"] == pytest.approx(np.degrees(least), abs=0.15)
    assert tilt["tilt_deg"] == pytest.approx(4.0)
    assert tilt["chock_m"] == pytest.approx(0.16 * np.sin(np.radians(4.0)))
    assert f"the back side {1000 * tilt['chock_m']:.0f} mm higher (4 degrees)" in place["todo"]


def test_a_dome_without_another_way_gets_a_vent(tmp_path: Path) -> None:
    part = told(looked(tmp_path, vented(), "screwed"))
    place = part["casting"]["places"][0]
    (vent,) = place["vents"]
    assert (place["take"], vent["z_m"]) == ("vent", pytest.approx(0.22))
    assert (vent["x_m"], vent["y_m"]) == pytest.approx((-0.06, 0.0), abs=1e-6)
    assert vent["length_m"] == pytest.approx(0.18)
    assert vent["volume_m3"] == pytest.approx(np.pi / 4 * 0.004**2 * 0.18)
    assert "60 mm left of the middle, 180 mm long" in place["todo"]
    assert "break it off and sand the spot" in place["todo"]


def test_what_the_terminal_and_the_page_say_is_the_same(tmp_path: Path) -> None:
    look = looked(tmp_path, vented(), "screwed", "us")
    part, sheet = told(look), sheet_of(look)
    (page,) = air_pages(sheet, Wording(sheet.job))
    text, said = json.dumps(page, ensure_ascii=False), printed(part, "us")
    for place in part["casting"]["places"]:
        assert place["todo"] in text.replace('\\"', '"')
        assert place["todo"] in said
    # 7 1/16 in are 180 mm, 426 ml are 14.4 fl oz
    assert "7 1/16 in long" in said
    assert "14.4 fl oz of air" in said
    assert " mm" not in said


def test_the_drawing_shows_air_and_vent_and_stays_on_the_paper(tmp_path: Path) -> None:
    look = looked(tmp_path, vented(), "screwed")
    files = dict(air_files(look, sheet_of(look)))
    svg = files["drawings/trapped-air.svg"].decode()
    root = ET.fromstring(svg)
    wide, high = (float(root.attrib["viewBox"].split()[n]) for n in (2, 3))
    assert "B  casting: 426 ml of air" in svg
    assert "under the back side; dashed: the level" in svg
    # hatching is clipped by the air
    inked = re.sub(r'<path[^>]*clip-path="[^>]*>', "", svg)
    points = [(float(x), float(y)) for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", inked)]
    assert all(-0.01 <= x <= wide and -0.01 <= y <= high for x, y in points)
    assert dict(air_files(look, sheet_of(look))) == files


def test_a_level_underside_wants_a_slant_and_no_warning(tmp_path: Path) -> None:
    part = told(looked(tmp_path, box([0.2, 0.16, 0.12])))
    (place,) = part["rubber"]["places"]
    assert (place["kind"], place["volume_m3"], place["area_m2"]) == ("ceiling", None, pytest.approx(0.032))
    assert place["tilt"]["tilt_deg"] == pytest.approx(3.0)
    assert part["rubber"]["words"] == "1 level ceiling of 320 cm² keeps bubbles"
    assert (part["warnings"], part["cautions"]) == ([], [])
    plain = told(looked(tmp_path, box([0.2, 0.16, 0.12]), "screwed"))
    assert plain["rubber"]["words"] == plain["casting"]["words"] == "no air is caught"


def test_the_underside_of_a_core_keeps_bubbles(tmp_path: Path) -> None:
    look = looked(tmp_path, box([0.2, 0.16, 0.12]), "screwed", more='[hollow]\nwall = "20 mm"')
    (place,) = told(look)["casting"]["places"]
    assert place["kind"] == "ceiling"
    # the core's edges are bevelled: level is its own underside, with a little of the bevel
    down = -look.hollow.body.core.area_vectors[:, 2]
    level = down > np.cos(np.radians(1.0)) * np.linalg.norm(look.hollow.body.core.area_vectors, axis=1)
    assert place["area_m2"] == pytest.approx(down[level].sum(), rel=0.05)
    assert 0.012 < place["area_m2"] < 0.16 * 0.12
    assert place["z_m"] == pytest.approx(0.02, abs=0.0005)
    assert place["tilt"]["tilt_deg"] == pytest.approx(3.0)


def test_air_that_nothing_lets_out_is_a_warning(tmp_path: Path) -> None:
    """A dome at the foot of a shaft longer than any rod."""
    parts = [
        box([0.3, 0.2, 0.05]), box([0.06, 0.06, 0.55]).moved([0.1, 0.0, 0.0]),
        revolve([[0.05, 0.04], [0.05, 0.09], [0.0, 0.1]], 32).moved([-0.06, 0.0, 0.0]),
        revolve([[0.01, -0.1], [0.03, 0.01]], 32),
    ]  # fmt: skip
    whole = as_manifold(parts[0])
    for part in parts[1:]:
        whole += as_manifold(part)
    answer = told(looked(tmp_path, as_mesh(whole), "screwed"))
    assert answer["casting"]["places"][0]["take"] == "none"
    (warning,) = answer["warnings"]
    assert warning.startswith("The casting keeps ")
    assert "cast it in two" in warning


def test_a_skin_has_no_rubber_that_rises(tmp_path: Path) -> None:
    part = told(looked(tmp_path, dented(0.03), more='way = "skin"'))
    assert part["rubber"] is None
    assert "rubber" not in printed(part)


@pytest.mark.parametrize(
    ("mesh", "said"),
    [
        (joined([box([0.2, 0.2, 0.2]), box([0.1, 0.1, 0.1]).moved([0, 0, 0.05]).reversed()]), "hollow"),
        (joined([box([0.1, 0.1, 0.1]), box([0.1, 0.1, 0.1]).moved([0.2, 0, 0])]), "bod"),
    ],
)
def test_closed_hollows_and_several_bodies_are_refused_before(tmp_path: Path, mesh: Mesh, said: str) -> None:
    (tmp_path / "part.stl").write_bytes(stl_bytes(mesh))
    (tmp_path / "job.toml").write_text(JOB.format(method="hung", units="metric", more=""), "utf8")
    with pytest.raises(UserError, match=said):
        mold_job(tmp_path / "job.toml")

"""The bodies of a mold as files and pictures, through the door a maker uses."""

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest
import trimesh

from pourwright.app.molding.bodies import bodies_look, bodies_of
from pourwright.app.molding.bodies_files import bodies_files
from pourwright.app.molding.look import MoldLook, look_at_mold
from pourwright.app.molding.molding import mold_sheet
from pourwright.app.shaping.piece import read_piece
from pourwright.cli.mold_bodies_lines import bodies_lines
from pourwright.cli.words import Words
from pourwright.foundation.progress import SILENT
from pourwright.geometry import measure, read_mesh
from pourwright.jobs import load_job
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.mold_document import page_content

NOW = datetime(2026, 12, 1, 12, 0, tzinfo=UTC)
JOB = """
format = 1
title = "Paperweight"
units = "{units}"
[shape]
box = ["80 mm", "60 mm", "50 mm"]
[casting]
material = "epoxy-slow-deep"
[mold]
method = "{method}"
freeboard = "{freeboard}"
[shop]
temperature = "22 degC"
"""


def look(folder: Path, more: str = "", **changes: str) -> MoldLook:
    job = folder / "job.toml"
    given = {"units": "metric", "method": "hung", "freeboard": "0 mm"} | changes
    job.write_text(JOB.format(**given) + more, "utf8")
    read = load_job(job)
    return look_at_mold(read, read_piece(read))


def files(made: MoldLook) -> dict[str, bytes]:
    return dict(bodies_files(made, mold_sheet(made, NOW)))


@pytest.mark.parametrize("method", ["hung", "screwed"])
def test_every_body_is_written_and_comes_back(tmp_path: Path, method: str) -> None:
    made = look(tmp_path, method=method)
    bodies, written = bodies_of(made), files(made)
    volumes = {"rubber": bodies.rubber.volume, "box": sum(body.volume for body in bodies.panels)}
    for name, volume in volumes.items():
        for kind in ("stl", "3mf"):
            path = tmp_path / f"{name}.{kind}"
            path.write_bytes(written[path.name])
            # single precision of an STL carries 24 bits
            assert measure(read_mesh(path, "mm" if kind == "stl" else None)).volume == pytest.approx(
                volume, rel=1e-6
            )
            assert trimesh.load_mesh(path).volume == pytest.approx(1e9 * volume, rel=1e-6)
    assert "space-blocks.stl" not in written


@pytest.mark.parametrize("method", ["hung", "screwed"])
@pytest.mark.parametrize("units", ["metric", "us"])
def test_pictures_are_lines_and_words_that_fit_on_their_paper(
    tmp_path: Path, method: str, units: str
) -> None:
    written = files(look(tmp_path, method=method, units=units, freeboard="10 mm"))
    for name in ("mold-poured", "mold-cast", "parts"):
        assert written[f"drawings/{name}.png"].startswith(b"\x89PNG")
        drawing = ET.fromstring(written[f"drawings/{name}.svg"])
        assert not [one for one in drawing.iter() if one.tag.endswith("image")]
        wide = float(drawing.get("width", "0pt").removesuffix("pt"))
        for text in (one for one in drawing.iter() if one.tag.endswith("text")):
            length = 0.602 * float(text.get("font-size", "0")) * len(text.text or "")
            share = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.get("text-anchor", "start")]
            start = float(text.get("x", "0")) - share * length
            assert start >= -0.5
            assert start + length <= wide + 0.5


def test_the_section_tells_marks_and_sizes(tmp_path: Path) -> None:
    made = look(tmp_path)
    poured = files(made)["drawings/mold-poured.svg"].decode()
    # 80 x 60 x 50 mm, 20 mm of rubber around and 3/4 in below: 120 x 100 inside, 69.05 mm deep
    rubber = 120 * 100 * 69.05 - 80 * 60 * 50
    for words in (
        "120 mm",
        "80 mm",
        "19 mm",
        "156 mm",
        "end mark 69 mm",
        f"fill mark {rubber / 12000:.0f} mm",
    ):
        assert f">{words}<" in poured
    screwed = files(look(tmp_path, method="screwed"))["drawings/mold-poured.svg"].decode()
    assert "fill mark" not in screwed
    assert "open face down" in screwed


def test_the_same_job_gives_the_same_files(tmp_path: Path) -> None:
    assert files(look(tmp_path)) == files(look(tmp_path))


def told(made: MoldLook) -> dict[str, Any]:
    part = bodies_look(made, SILENT)
    answer: dict[str, Any] = json.loads(part.model_dump_json())
    return answer


def test_the_balance_is_told_and_printed(tmp_path: Path) -> None:
    made = look(tmp_path, freeboard="10 mm")
    part = told(made)
    filled = part["rubber_m3"] + part["blocks_m3"] + part["master_m3"] + part["air_m3"]
    assert filled == pytest.approx(part["box_m3"], rel=1e-6)
    assert part["master_m3"] == pytest.approx(0.08 * 0.06 * 0.05, rel=1e-9)
    (table,) = bodies_lines(part, Words("metric"))
    line = table.columns[1]._cells[0]  # type: ignore[attr-defined]
    assert line == "rubber 589 ml + master 240 ml + air 120 ml = box 949 ml"
    sheet = mold_sheet(made, NOW)
    titles = [page["title"] for page in page_content(sheet)["pages"]]  # type: ignore[attr-defined]
    assert {"Section through the mold", "All parts"} <= set(titles)


def test_rubber_that_would_hang_when_it_is_turned_over_is_told(tmp_path: Path) -> None:
    (said,) = told(look(tmp_path, method="screwed", freeboard="12 mm"))["warnings"]
    assert said.startswith("The rubber ends 12 mm below the rim")
    assert told(look(tmp_path, method="screwed"))["warnings"] == []
    assert told(look(tmp_path, freeboard="12 mm"))["warnings"] == []


def test_a_sheet_without_bodies_has_no_page_of_them(tmp_path: Path) -> None:
    made = look(tmp_path)
    sheet: MoldSheet = mold_sheet(made, NOW).model_copy(update={"bodies": None})
    assert list(bodies_files(made, sheet)) == []


def test_the_master_that_is_in_the_box_counts(tmp_path: Path) -> None:
    plain, sized = told(look(tmp_path)), told(look(tmp_path, '[sizes]\nshape_is = "piece"\n'))
    # the rubber and the casting shrink: the master is larger than the piece
    assert sized["master_m3"] > 1.001 * plain["master_m3"]
    assert abs(sized["missing"]) < 1e-6

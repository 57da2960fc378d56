"""The way out through the door a maker uses: the document, the terminal, the page, the picture."""

import io
import json
from math import pi
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from rich.console import Console

from pourwright.app.molding.look import MoldLook, look_at_mold
from pourwright.app.molding.way_out import way_out_look
from pourwright.app.molding.way_out_files import way_out_files
from pourwright.app.shaping.piece import read_piece
from pourwright.cli.mold_way_out_lines import way_out_lines
from pourwright.cli.words import Words
from pourwright.foundation.progress import SILENT
from pourwright.jobs import load_job
from pourwright.jobs.mold_way_out import MoldWayOut
from pourwright.sheets.pages.mold_way_out import way_out_pages

JOB = """
format = 1
title = "Knob"
units = "{units}"
[shape]
profile = {profile}
[casting]
material = "epoxy-slow-deep"
[shop]
temperature = "22 degC"
"""
DUMBBELL = [(40, 0), (40, 40), (20, 40), (20, 80), (40, 80), (40, 120)]
BOWL = [(0, 0), (60, 0), (120, 80), (112, 80), (55, 8), (0, 8)]


def look_at(folder: Path, points: list[tuple[int, int]], units: str = "metric") -> MoldLook:
    job = folder / "job.toml"
    profile = [[f"{x} mm", f"{z} mm"] for x, z in points]
    job.write_text(JOB.format(units=units, profile=json.dumps(profile)), "utf8")
    read = load_job(job)
    return look_at_mold(read, read_piece(read))


def printed(part: MoldWayOut, units: str) -> str:
    console = Console(width=400, record=True, file=io.StringIO())
    for line in way_out_lines(json.loads(part.model_dump_json()), Words(units)):
        console.print(line)
    return console.export_text()


@pytest.fixture(scope="module")
def knob(tmp_path_factory: pytest.TempPathFactory) -> tuple[MoldLook, MoldWayOut]:
    look = look_at(tmp_path_factory.mktemp("knob"), DUMBBELL)
    return look, way_out_look(look, SILENT)


def test_a_knob_tells_place_volume_and_cut(knob: tuple[MoldLook, MoldWayOut]) -> None:
    _, part = knob
    assert part.opening == "one cut"
    (held,) = part.held
    assert held.volume_m3 == pytest.approx(pi * (0.04**2 - 0.02**2) * 0.04, rel=5e-3)
    assert held.closed_above
    (cut,) = part.cuts
    assert cut.side == "the middle of the right side"
    text = printed(part, "metric")
    for words in (
        "151 ml of rubber",
        "109 mm long at the middle of the right side",
        "On its core",
        "air goes in",
    ):
        assert words in text
    assert part.bulge.in_box_m == pytest.approx(part.bulge.panels_m + part.bulge.rubber_m)
    assert part.bulge.rubber_m < 1e-6 < part.bulge.in_shell_m


def test_the_shares_of_the_walls_are_those_of_their_areas(knob: tuple[MoldLook, MoldWayOut]) -> None:
    walls = knob[1].draft
    ring = pi * (0.04**2 - 0.02**2)
    sides, floor = 2 * pi * 0.04 * (0.04 + 0.04 + 0.02), pi * 0.04**2
    whole = 2 * ring + sides + floor
    assert walls.undercut == pytest.approx(ring / whole, rel=1e-3)
    assert walls.upright == pytest.approx(sides / whole, rel=1e-3)
    assert walls.free == pytest.approx((ring + floor) / whole, rel=1e-3)


def test_paper_says_what_the_terminal_says(knob: tuple[MoldLook, MoldWayOut]) -> None:
    look, part = knob
    words: Any = SimpleNamespace(**{name: (lambda value, n=name: f"{n} {value:.3g}") for name in
                                    ("length", "share", "volume", "load", "force")})  # fmt: skip
    sheet: Any = SimpleNamespace(way_out=part, job=look.job)
    (page,) = way_out_pages(sheet, words)
    blocks = json.dumps(page)
    for text in (part.bulge.words, part.warm.words, part.suction, *part.order, *part.keeping):
        assert json.dumps(text)[1:-1] in blocks
    assert "drawings/way-out.svg" in blocks
    assert not list(way_out_pages(SimpleNamespace(way_out=None), words))


def test_the_picture_numbers_what_the_table_numbers(knob: tuple[MoldLook, MoldWayOut]) -> None:
    look, part = knob
    files = dict(way_out_files(look, SimpleNamespace(way_out=part, job=SimpleNamespace(title="Knob"))))
    assert set(files) == {"drawings/way-out.svg", "drawings/way-out.png"}
    svg = files["drawings/way-out.svg"].decode()
    # once in each view, once in the legend
    assert svg.count(">1</text>") == 2 * len(part.held) + 1
    assert "stroke-dasharray" in svg
    for words in ("from the side of the cut", "undercut", "air goes in", "way out"):
        assert words in svg
    assert not dict(way_out_files(look, SimpleNamespace(way_out=None)))


def test_in_inches_small_lengths_are_thousandths(tmp_path: Path) -> None:
    part = way_out_look(look_at(tmp_path, DUMBBELL, "us"), SILENT)
    text = printed(part, "us")
    assert "under 1/32 in" not in part.bulge.words
    assert "0.020 in" in part.bulge.words
    assert " mm" not in text
    assert " N " not in text


def test_rubber_in_a_bowl_is_told_as_loose(tmp_path: Path) -> None:
    part = way_out_look(look_at(tmp_path, BOWL), SILENT)
    assert part.opening == "straight"
    assert part.held == []
    assert part.plugs[0].volume_m3 == pytest.approx(0.001637, rel=5e-3)
    assert any("board over the mouth" in text for text in part.cautions)
    assert "a body of its own" in printed(part, "metric")

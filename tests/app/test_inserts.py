"""Inserts through the door a maker uses."""

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from pourwright.app.document.hollow import inserts_part
from pourwright.app.molding.bodies import bodies_of
from pourwright.app.molding.hollow_files import hollow_files, hollow_section
from pourwright.app.molding.inserts import inserts_look
from pourwright.app.molding.look import MoldLook, look_at_mold
from pourwright.app.molding.molding import mold_sheet
from pourwright.app.setup import set_up
from pourwright.app.shaping.piece import read_piece
from pourwright.cli.mold_inserts_lines import inserts_lines
from pourwright.cli.words import Words
from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import SILENT
from pourwright.jobs import load_job
from pourwright.sheets.pages.mold_inserts import inserts_pages
from pourwright.sheets.wording import Wording

NOW = datetime(2026, 12, 1, 12, 0, tzinfo=UTC)
JOB = """
format = 1
title = "Lamp foot"
[shape]
box = ["200 mm", "160 mm", "120 mm"]
[casting]
material = "epoxy-slow-deep"
[hollow]
wall = "40 mm"
[shop]
temperature = "22 degC"
"""
LEG = """
[[insert]]
kind = "socket"
name = "leg"
face = "bottom"
x = "60 mm"
y = "40 mm"
diameter = "12 mm"
depth = "20 mm"
"""
WIRE = """
[[insert]]
kind = "tube"
name = "wire"
face = "left"
y = "0 mm"
z = "70 mm"
diameter = "8 mm"
"""
SPOT = """
[[insert]]
kind = "light"
face = "front"
x = "10 mm"
z = "60 mm"
diameter = "30 mm"
depth = "15 mm"
"""


def looked(folder: Path, more: str, text: str = JOB) -> MoldLook:
    job = folder / "job.toml"
    job.write_text(text + more, "utf8")
    read = load_job(job)
    return look_at_mold(read, read_piece(read))


def told(folder: Path, more: str, text: str = JOB) -> dict[str, Any]:
    part = inserts_look(looked(folder, more, text), SILENT)
    assert part is not None
    answer: dict[str, Any] = json.loads(part.model_dump_json())
    return answer


def test_each_insert_is_told_with_place_edge_seal_and_hold(tmp_path: Path) -> None:
    leg, wire, spot = told(tmp_path, LEG + WIRE + SPOT)["inserts"]
    assert leg["from_m"] == [0.06, 0.04, 0.0]
    assert wire["ends"] == "core"
    assert wire["weight_needed_kg"] > 0.0 == leg["weight_needed_kg"]
    assert spot["name"] == "light 3"
    assert all(each["sealed"] and each["held"] for each in (leg, wire, spot))


def test_the_heat_of_a_light_is_that_of_a_disc_up_to_the_glass_transition(tmp_path: Path) -> None:
    (spot,) = told(tmp_path, SPOT)["inserts"]
    # S = 2 D; 0.2 W/(m K); from a room of 30 degC to 10 K below 52 degC, the resin's own
    assert spot["most_heat_W"] == pytest.approx(2 * 0.03 * 0.2 * (52.0 - 10.0 - 30.0), rel=1e-9)


def test_loads_and_mains_are_left_to_the_licensed(tmp_path: Path) -> None:
    cautions = " ".join(told(tmp_path, LEG + SPOT)["cautions"])
    assert "licensed electrician" in cautions
    assert "judged by somebody licensed" in cautions
    assert not told(tmp_path, WIRE)["cautions"]


def test_a_job_without_inserts_has_no_such_part(tmp_path: Path) -> None:
    assert inserts_look(looked(tmp_path, ""), SILENT) is None


def test_gypsum_takes_inserts_too(tmp_path: Path) -> None:
    part = told(tmp_path, LEG + SPOT, JOB.replace("epoxy-slow-deep", "gypsum-casting"))
    assert [each["most_heat_W"] for each in part["inserts"]] == [None, None]


def test_the_plan_has_the_same_inserts_as_the_mold(tmp_path: Path) -> None:
    part = told(tmp_path, LEG + WIRE)
    job = load_job(tmp_path / "job.toml")
    assert [each.model_dump(mode="json") for each in inserts_part(set_up(job, read_piece(job)))] == part[
        "inserts"
    ]


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (LEG + LEG.replace('"leg"', '"other"').replace("60 mm", "66 mm"), "other lies in leg"),
        (LEG.replace('x = "60 mm"\n', ""), "without x"),
        (LEG.replace("[[insert]]", '[[insert]]\nz = "3 mm"'), "with z"),
        (LEG.replace('depth = "20 mm"\n', ""), "without depth"),
        (LEG.replace("60 mm", "90 mm"), "too near the edge"),
        (LEG.replace("socket", "hook"), "socket, tube, light"),
        (LEG.replace('"12 mm"', '"0 mm"'), "diameter"),
    ],
)
def test_bad_inserts_are_refused_with_their_line(tmp_path: Path, more: str, words: str) -> None:
    with pytest.raises(UserError) as refused:
        looked(tmp_path, more)
    assert "job.toml:" in str(refused.value)
    assert words in str(refused.value)


def test_section_and_page_show_core_bar_and_inserts(tmp_path: Path) -> None:
    look = looked(tmp_path, LEG + WIRE)
    sheet = mold_sheet(look, NOW)
    words = Wording(sheet.job)
    section = hollow_section(look, bodies_of(look), sheet, words)
    kinds = [cut.kind for cut in section.cuts]
    assert {"rubber", "panel", "casting", "core", "bar"} < set(kinds)
    assert kinds.count("insert") == 2
    # walls and core across make the piece
    assert sum(high - low for low, high in section.widths[0]) == pytest.approx(0.2, abs=1e-4)
    (page,) = inserts_pages(sheet, words)
    assert len(page["blocks"][0]["table"]["rows"]) == 2  # type: ignore[index]
    names = [name for name, _ in hollow_files(look, sheet)]
    assert names == ["drawings/hollow.svg", "drawings/hollow.png"]


@pytest.mark.parametrize(("units", "size"), [("metric", "20 mm"), ("us", "13/16 in")])
def test_the_table_is_told_in_both_systems(tmp_path: Path, units: str, size: str) -> None:
    table, *_ = inserts_lines(told(tmp_path, LEG), Words(units))
    # 20 mm are 0.787 in: 13/16 is the nearest sixteenth
    assert next(iter(table.columns[2].cells)) == size  # type: ignore[union-attr]

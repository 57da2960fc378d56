"""A piece cast hollow, through the door a maker uses."""

import json
import re
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from rich.table import Table

from pourwright.app.molding.hollow import hollow_look
from pourwright.app.molding.look import look_at_mold
from pourwright.app.molding.molding import mold_job
from pourwright.app.shaping.piece import read_piece
from pourwright.cli.mold_hollow_lines import hollow_lines
from pourwright.cli.words import Words
from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import SILENT
from pourwright.jobs import load_job
from pourwright.sheets.pages.mold_hollow import hollow_pages
from pourwright.sheets.wording import Wording

NOW = datetime(2026, 12, 1, 12, 0, tzinfo=UTC)
JOB = """
format = 1
title = "Planter"
[shape]
{shape}
[casting]
material = "{material}"
[shop]
temperature = "22 degC"
"""
PAGE = Path(__file__).parents[2] / "docs" / "hollow-and-inserts.md"
BOX = 'box = ["200 mm", "160 mm", "120 mm"]'


def told(folder: Path, more: str = "", shape: str = BOX, material: str = "epoxy-slow-deep") -> dict[str, Any]:
    job = folder / "job.toml"
    job.write_text(JOB.format(shape=shape, material=material) + more, "utf8")
    read = load_job(job)
    part = hollow_look(look_at_mold(read, read_piece(read)), SILENT)
    answer: dict[str, Any] = json.loads(part.model_dump_json())
    return answer


def test_masses_and_money_are_those_of_the_room_in_the_middle(tmp_path: Path) -> None:
    part = told(tmp_path, '[prices]\ncurrency = "EUR"\nresin = "10 EUR/kg"\n')
    for offer in part["offers"]:
        wall = offer["wall_m"]
        share = (0.2 - 2 * wall) * (0.16 - 2 * wall) * (0.12 - wall) / (0.2 * 0.16 * 0.12)
        assert offer["saved_kg"] == pytest.approx(share * part["piece_kg"], rel=5e-3)
        assert offer["money_saved"] == pytest.approx(10.0 * offer["resin_saved_kg"], rel=1e-9)
        assert offer["piece_kg"] + offer["saved_kg"] == pytest.approx(part["piece_kg"], rel=1e-12)
        assert offer["foam_weight_kg"] > offer["wood_weight_kg"] > 0.0
    assert [offer["wall_m"] for offer in part["offers"]] == [0.015, 0.02, 0.03]


def test_a_piece_that_may_weigh_less_gets_the_wall_that_meets_it(tmp_path: Path) -> None:
    part = told(tmp_path, '[limits]\nweight = "3 kg"\n')
    wall = part["wall_for_most_m"]
    core = (0.2 - 2 * wall) * (0.16 - 2 * wall) * (0.12 - wall)
    weighs = part["piece_kg"] * (1 - core / (0.2 * 0.16 * 0.12))
    assert weighs == pytest.approx(3.0, rel=2e-2)
    assert "limits.weight: hollow to" in part["warnings"][0]


def test_a_limit_that_no_wall_meets_is_said_and_one_that_is_kept_is_not(tmp_path: Path) -> None:
    assert "no wall that its grains pass" in told(tmp_path, '[limits]\nweight = "100 g"\n')["warnings"][0]
    assert not told(tmp_path, '[limits]\nweight = "50 kg"\n')["warnings"]


def test_a_weight_in_another_unit_is_refused_with_its_line(tmp_path: Path) -> None:
    with pytest.raises(UserError) as refusal:
        told(tmp_path, '[limits]\nweight = "20 mm"\n')
    assert "limits.weight" in str(refusal.value)


def test_gypsum_is_saved_too_and_has_no_resin(tmp_path: Path) -> None:
    part = told(tmp_path, material="gypsum-casting")
    assert all(offer["saved_kg"] > 0 and offer["resin_saved_kg"] == 0 for offer in part["offers"])
    assert all(offer["money_saved"] is None for offer in part["offers"])


def test_a_piece_thinner_than_its_walls_says_so(tmp_path: Path) -> None:
    part = told(tmp_path, shape='box = ["50 mm", "50 mm", "80 mm"]')
    assert part["offers"][2]["core_m3"] == 0.0
    assert any("leaves no room" in text for text in part["words"])
    assert list(hollow_lines(part, Words("metric")))


@pytest.mark.parametrize(("units", "wall"), [("metric", "15 mm"), ("us", "9/16 in")])
def test_it_is_told_in_both_systems(tmp_path: Path, units: str, wall: str) -> None:
    *lines, table = hollow_lines(told(tmp_path), Words(units))
    assert len(lines) == 3
    assert isinstance(table, Table)
    # 15 mm is 0.59 in: 9/16 is the nearest sixteenth
    assert next(iter(table.columns[0].cells)) == wall


def test_its_page_holds_a_row_for_each_wall(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(JOB.format(shape=BOX, material="epoxy-slow-deep"), "utf8")
    sheet = mold_job(job, now=NOW).sheet
    (page,) = hollow_pages(sheet, Wording(sheet.job))
    assert len(page["blocks"][0]["table"]["rows"]) == 3  # type: ignore[index]


def test_the_lines_on_the_page_of_the_manual_can_be_read(tmp_path: Path) -> None:
    lines = "\n".join(re.findall(r"```toml\n(.*?)```", PAGE.read_text("utf8"), re.DOTALL))
    part = told(tmp_path, lines)
    assert part["most_kg"] == 20.0
    assert part["chosen"]["wall_m"] == 0.04

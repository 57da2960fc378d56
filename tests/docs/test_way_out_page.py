"""The page on the way out names what is told, and every way of opening."""

import io
import json
import re
from typing import get_args

from rich.console import Console

from pourwright.app.molding.look import look_at_mold
from pourwright.app.molding.way_out import way_out_look
from pourwright.app.shaping.piece import read_piece
from pourwright.cli.mold_way_out_lines import NAMES, way_out_lines
from pourwright.cli.words import Words
from pourwright.foundation.progress import SILENT
from pourwright.jobs import load_job
from pourwright.mold.way_out.defaults import WAY_OUT
from pourwright.mold.way_out.opening import Opening
from tests.contracts.house import ROOT

PAGE = (ROOT / "docs" / "way-out.md").read_text("utf8")


def test_every_way_of_opening_is_a_row() -> None:
    rows = re.findall(r"^\| ([^|]+?) \|", PAGE, re.MULTILINE)
    assert set(NAMES) == set(get_args(Opening))
    assert set(NAMES.values()) <= set(rows)


def test_the_answer_has_the_lines_of_the_page() -> None:
    job = load_job(ROOT / "examples" / "table-lamp" / "job.toml")
    part = way_out_look(look_at_mold(job, read_piece(job)), SILENT)
    console = Console(width=200, record=True, file=io.StringIO())
    for line in way_out_lines(json.loads(part.model_dump_json()), Words(job.units)):
        console.print(line)
    told = console.export_text()
    shown = re.search(r"job\.toml\n    \.\.\.\n(.*?)    \.\.\.", PAGE, re.DOTALL)
    assert shown is not None
    for line in shown.group(1).split("\n"):
        assert line.strip() in told
    assert "On its core" in told


def test_the_numbers_of_the_page_are_the_defaults() -> None:
    hinge, spacing, wave = (WAY_OUT[name].value * 1000 for name in ("hinge", "key_spacing", "key_size"))
    assert f"{hinge:.0f} mm of\nrubber stay whole" in PAGE
    assert f"every {spacing:.0f} mm by up to {wave:.0f} mm" in PAGE
    assert f"({WAY_OUT['hands'].value:.0f} N)" in PAGE
    assert WAY_OUT["margin"].value == 3.0
    assert "three times over" in PAGE

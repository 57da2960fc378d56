"""The page on the cut list shows what the command tells of its plinth, and the numbers that are used."""

from io import StringIO
from pathlib import Path

import pytest
from rich.console import Console

from pourwright.app.cutting.offcut import OffcutAsked, offcut_job
from pourwright.cli.cut_tables import cut_lines
from pourwright.mold.wood.defaults import WOOD
from pourwright.mold.wood.stock import grain_of
from tests.contracts.house import ROOT

PAGE = (ROOT / "docs" / "cut-list.md").read_text("utf8")


@pytest.fixture
def plinth(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(PAGE.split("```toml\n")[1].split("```")[0], "utf8")
    return path


def test_the_session_is_what_is_told(plinth: Path) -> None:
    size = PAGE.split('--offcut "')[1].split('"')[0]
    report = offcut_job(plinth, OffcutAsked(size)).to_json()
    paper = StringIO()
    console = Console(width=110, file=paper)
    for line in cut_lines(report):
        console.print(line)
    told = "\n".join(line.rstrip() for line in paper.getvalue().splitlines())
    shown = PAGE.split("$ pourwright cut plinth/job.toml")[1].split("\n", 1)[1].split("```")[0]
    assert shown.strip() == told.strip()


def test_numbers_and_boards_on_the_page_are_those_that_are_used() -> None:
    kerf, trim = (f'{name} = "{1e3 * WOOD[name].value:.0f} mm"' for name in ("kerf", "trim"))
    assert kerf in PAGE
    assert trim in PAGE
    assert "MDF and melamine boards have no grain" in PAGE
    assert {name: grain_of(name) for name in ("mdf", "melamine-board", "plywood", "pine")} == {
        "mdf": "none", "melamine-board": "none", "plywood": "length", "pine": "length",
    }  # fmt: skip

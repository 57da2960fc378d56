"""The page on the mold's bodies names the files that are written and shows the line that is told."""

import re
from pathlib import Path

from click.testing import CliRunner

from pourwright.cli.commands import pourwright
from tests.contracts.house import ROOT

# the example has neither wood in its rubber nor a core
ONLY_SOMETIMES = {"space-blocks.stl", "space-blocks.3mf", "drawings/space-blocks.svg", "drawings/hollow.svg"}
PAGE = (ROOT / "docs" / "mold-files.md").read_text("utf8")


def test_the_page_tells_what_is_written_and_said(tmp_path: Path) -> None:
    out = tmp_path / "mold"
    job = ROOT / "examples" / "table-lamp" / "job.toml"
    told = CliRunner().invoke(pourwright, ["mold", str(job), "--out", str(out)])
    assert told.exit_code == 0, told.output
    (line,) = re.findall(r"In the box.*", PAGE)
    assert line in told.output
    named = set(re.findall(r"`((?:drawings/)?[\w-]+\.(?:stl|3mf|svg))`", PAGE))
    assert {path for path in named if path not in ONLY_SOMETIMES} <= {
        path.relative_to(out).as_posix() for path in out.rglob("*.*")
    }

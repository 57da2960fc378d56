"""The page on the box shows what the command tells, and the numbers that are reckoned with."""

from io import StringIO
from pathlib import Path

from rich.console import Console

from pourwright.app.molding.box import box_look
from pourwright.app.molding.look import look_at_mold
from pourwright.app.shaping.piece import read_piece
from pourwright.cli.mold_box_lines import box_lines
from pourwright.cli.words import Words
from pourwright.foundation.progress import SILENT
from pourwright.jobs import load_job
from pourwright.mold import DEFAULTS
from pourwright.mold.box.defaults import BOX
from pourwright.mold.box.joints import JOINTS
from pourwright.mold.screw_hold import SCREWS

PAGE = (Path(__file__).parents[2] / "docs" / "the-box.md").read_text("utf8")
TEXT = " ".join(PAGE.split())


def test_the_session_is_what_the_command_says(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(PAGE.split("```toml\n")[1].split("```")[0], "utf8")
    job = load_job(path).variants()[0]
    box = box_look(look_at_mold(job, read_piece(job)), SILENT)
    assert box is not None
    paper = Console(file=StringIO(), width=110)
    for table in box_lines(box.model_dump(), Words("metric")):
        paper.print(table)
    told = "\n".join(line.rstrip() for line in paper.file.getvalue().splitlines())
    assert told.strip() == PAGE.split("```text\n")[1].split("```")[0].strip()


def test_every_joint_stands_on_the_page() -> None:
    for name in JOINTS:
        assert f"| `{name}` |" in PAGE


def test_the_numbers_on_the_page_are_those_that_are_used() -> None:
    wide, deep = (BOX[name].value * 1000 for name in ("batten_width", "batten_depth"))
    assert f"{wide:.0f} x {deep:.0f} mm" in TEXT
    assert f"1/{1 / SCREWS['share'].value:g} of that" in TEXT
    assert f"first sits {BOX['screw_corner'].value * 1000:.0f} mm from a corner" in TEXT
    assert f"farther than {BOX['screw_spacing'].value * 1000:.0f} mm" in TEXT
    assert f"closer than {BOX['screw_least_spacing'].value * 1000:.0f} mm" in TEXT
    assert f"no thicker than {BOX['screw_share'].value:g} of the board" in TEXT
    assert f"up to {BOX['clamp_force'].value:.0f} N each" in TEXT
    assert f"bend by {BOX['gape'].value * 1000:g} mm between two" in TEXT
    assert f"{BOX['band_pull'].value:.0f} N at the ratchet" in TEXT
    assert f"sides {BOX['flange'].value * 1000:.0f} mm longer" in TEXT
    assert BOX["strength_safety"].value == 3.0
    assert "a third of their bending strength" in TEXT
    assert f"lift {DEFAULTS['lifting_limit'].value:.0f} kg" in TEXT

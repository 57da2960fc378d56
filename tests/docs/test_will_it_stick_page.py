"""The page on sticking: its table is the package's, its lines can be read, its refusal is printed."""

import re
from pathlib import Path

from click.testing import CliRunner

from pourwright.cli.commands import pourwright
from pourwright.jobs import read_job
from pourwright.materials.contact import load_contact
from pourwright.mold.rubber_work import DEGASSING_TIME, FIRST_COAT
from pourwright.mold.sticking import Layers, default_release, default_sealer, judge
from tests.app.conftest import SMALL

PAGE = (Path(__file__).parents[2] / "docs" / "will-it-stick.md").read_text("utf8")
TABLE = load_contact()


def row_of(surface: str) -> str:
    cells = [f"`{surface}`"]
    for cure in ("platinum", "tin"):
        bare = judge(Layers(surface, "none", "none", cure)).verdict
        taken = Layers(surface, default_sealer(surface), default_release(surface), cure)
        cells += [bare, judge(taken).verdict]
    return f"| {' | '.join(cells)} |"


def test_every_surface_and_coat_stands_on_the_page() -> None:
    assert [line for line in PAGE.splitlines() if line.startswith("| `")] == [
        row_of(s) for s in TABLE.surface
    ]
    assert set(TABLE.sealer) | set(TABLE.release) <= set(re.findall(r"`([\w-]+)`", PAGE))


def test_the_lines_for_a_job_can_be_read() -> None:
    (lines,) = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)
    job = read_job(SMALL + lines)
    assert job.master.patch_test is not None
    assert job.mold.release == "petroleum-jelly"


def test_the_refusal_on_the_page_is_what_is_printed(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(f'{SMALL}[master]\nmaterial = "sulfur-clay"\n', "utf8")
    told = CliRunner().invoke(pourwright, ["plan", str(tmp_path / "job.toml"), "--quick"])
    (shown,) = re.findall(r"```text\n(.*?)\n```", PAGE, re.DOTALL)
    answer = f"{told.output} {told.exception}"
    assert " ".join(shown.split()) in " ".join(answer.split())


def test_numbers_on_the_page() -> None:
    low, value, high = (1000 * number for number in (FIRST_COAT.low, FIRST_COAT.value, FIRST_COAT.high))
    assert f"{value:g} mm ({low:g} to {high:g} mm)" in PAGE
    assert f"takes {DEGASSING_TIME.value / 60:g} min a batch" in PAGE

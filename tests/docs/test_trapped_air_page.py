"""The page on trapped air shows what the command tells of its paperweight, and the limits that are used."""

import math
from pathlib import Path

from click.testing import CliRunner

from pourwright.cli.commands import pourwright
from pourwright.mold.air.defaults import AIR
from pourwright.mold.air.simpler import SEARCHED
from tests.contracts.house import ROOT

TEXT = (ROOT / "docs" / "trapped-air.md").read_text("utf8")


def test_the_session_is_what_the_command_says(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(TEXT.split("```toml\n")[1].split("```")[0])
    told = CliRunner().invoke(pourwright, ["mold", str(job)])
    assert told.exit_code == 0, told.output
    shown = TEXT.split("$ pourwright mold job.toml\n")[1].split("```")[0]
    assert len(shown.splitlines()) > 6
    assert shown.strip() in "\n".join(line.rstrip() for line in told.stdout.splitlines())


def test_the_limits_on_the_page_are_those_that_are_used() -> None:
    text = " ".join(TEXT.split())
    degrees = {
        name: round(math.degrees(AIR[name].value)) for name in ("easy_tilt", "most_tilt", "level", "slope")
    }
    assert f"tilt by up to {degrees['easy_tilt']} degrees" in text
    assert f"tilt by up to {degrees['most_tilt']} degrees" in text
    assert f"slopes by less than {degrees['level']} degree " in text
    assert f"tilted by {degrees['slope']} degrees" in text
    assert f"a rod of {1000 * AIR['bore'].value:g} mm" in text
    assert f"No longer than {1000 * AIR['longest_vent'].value:g} mm" in text
    assert f"{1e6 * AIR['least'].value:g} ml" in text
    assert f"from {1e4 * AIR['ceiling'].value:g} cm² on" in text
    assert f"Above {SEARCHED:,} triangles" in text

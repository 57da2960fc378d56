"""The page on the ways of making a mold shows what the command tells of its vase."""

from pathlib import Path

from click.testing import CliRunner

from pourwright.cli.commands import pourwright
from pourwright.mold.ways.defaults import AMOUNTS, LIMITS

PAGE = Path(__file__).parents[2] / "docs" / "how-the-mold-is-made.md"


def test_the_session_is_what_the_command_says(tmp_path: Path) -> None:
    text = PAGE.read_text("utf8")
    job = tmp_path / "job.toml"
    job.write_text(text.split("```toml\n")[1].split("```")[0])
    told = CliRunner().invoke(pourwright, ["mold", str(job)])
    assert told.exit_code == 0, told.output
    shown = text.split("$ pourwright mold job.toml\n")[1].split("```")[0]
    assert len(shown.splitlines()) > 6
    answer = "\n".join(line.rstrip() for line in told.stdout.splitlines())
    assert shown.strip() in answer


def test_the_limits_on_the_page_are_those_that_are_used() -> None:
    text = " ".join(PAGE.read_text("utf8").split())
    assert f"under {LIMITS['screw_face'].value * 1000:.0f} mm wide" in text
    assert f"more than {LIMITS['locked'].value * 100:.0f} % of the surface locks" in text
    assert f"lengthen by more than {LIMITS['uncut'].value * 100:.0f} %" in text
    assert f"more than {LIMITS['pouring'].value / 3600:.0f} hours" in text
    assert f"an hour as {AMOUNTS['hour_in_rubber'].value:g} kg of rubber" in text

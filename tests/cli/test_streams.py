"""Streams that a shell has closed, piped into a short reader or filled up."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

BOX = """format = 1
[shape]
box = ["100 mm", "80 mm", "60 mm"]
[casting]
material = "epoxy-slow-deep"
[shop]
temperature = "22 degC"
"""
PROGRAM = f"'{sys.executable}' -c 'from pourwright.cli import main; main()'"


@pytest.fixture
def shell(tmp_path: Path):
    """Run a line of a shell beside a job file."""
    (tmp_path / "job.toml").write_text(BOX)

    def run(line: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            ["bash", "-o", "pipefail", "-c", re.sub(r"\bpourwright (?=check|new)", f"{PROGRAM} ", line)],
            cwd=tmp_path,
            capture_output=True,
            text=True,
            check=False,
        )

    return run


# lines and JSON are written at one place: JSON is tried where a reader stops early and where there is none
@pytest.mark.parametrize(
    ("option", "end"),
    [
        ("", "| head -c 5"),
        ("", "| true"),
        ("", ">&-"),
        ("", "2>&- >/dev/null"),
        ("--json", "| head -c 5"),
        ("--json", ">&-"),
    ],
)
def test_a_reader_that_has_enough_is_no_failure(shell, option, end):
    ran = shell(f"pourwright check job.toml {option} {end}")
    assert ran.returncode == 0
    assert "Error" not in ran.stderr
    assert "Traceback" not in ran.stderr


@pytest.mark.parametrize("option", ["", "--json"])
def test_an_output_that_takes_nothing_more_is_told(shell, option):
    ran = shell(f"pourwright check job.toml {option} >/dev/full")
    assert ran.returncode == 2
    assert ran.stderr.splitlines()[-1] == "output: No space left on device; do: make room and try again"


def test_nobody_to_ask_is_told(shell):
    ran = shell("pourwright new block --shape box <&-")
    assert ran.returncode == 2
    assert ran.stderr.startswith("--size: one of the five questions has no answer")


def test_letters_a_terminal_lacks_are_replaced(shell):
    code = "from pourwright.cli.main import _lend_streams; _lend_streams(); print('65 \u00b0C')"
    ran = shell(f"PYTHONIOENCODING=ascii '{sys.executable}' -c \"import sys; {code}\"")
    assert ran.stdout == "65 ?C\n"

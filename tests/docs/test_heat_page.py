"""Whoever types in the case of the heat page gets what it shows."""

import re
from pathlib import Path

import pytest

from pourwright.cli import main

PAGE = (Path(__file__).parents[2] / "docs" / "heat.md").read_text("utf8")
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
# half a degree, and a fifth of a cell for the place near the rim
NEAR_NUMBER, NEAR_PLACE = 0.5, 10.0


def block(kind: str) -> str:
    """The one block of a kind on the page."""
    found = re.findall(rf"^```{kind}\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
    assert len(found) == 1
    return str(found[0])


def worded(line: str) -> str:
    """A line with its columns one blank apart and every number as #."""
    return NUMBER.sub("#", " ".join(line.split()))


def test_the_page_shows_what_its_job_prints(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "slab").mkdir()
    (tmp_path / "slab" / "job.toml").write_text(block("toml"), "utf8")
    monkeypatch.chdir(tmp_path)
    command, *shown = [line for line in block("console").splitlines() if line.strip()]
    assert command.startswith("$ pourwright heat ")
    with pytest.raises(SystemExit) as left:
        main(command.split()[2:])
    out, err = capsys.readouterr()
    assert left.value.code == 0, err
    printed = {worded(line): line for line in out.splitlines()}
    assert len(shown) > 10
    for line in shown:
        assert worded(line) in printed, line
        near = NEAR_PLACE if "-#" in worded(line) or "x, y, z =" in line or line[0].isdigit() else NEAR_NUMBER
        pairs = zip(NUMBER.findall(line), NUMBER.findall(printed[worded(line)]), strict=True)
        assert all(abs(float(a) - float(b)) <= near for a, b in pairs), line

"""Loggers at the terminal: attached with `pourwright log`, told with `pourwright measured`."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.app.measuring.conftest import hottest, poured, written
from tests.cli.test_log import typed

__all__ = ["poured", "written"]
Written = Callable[..., Path]


def test_a_logger_is_attached_told_drawn_and_taken_back(
    poured: Path, written: Written, capsys: pytest.CaptureFixture[str]
) -> None:
    file = str(written(hottest))
    status, out, _ = typed(
        capsys, "log", str(poured), "--pour", "1", "--logger", file, "--probe", "core=middle"
    )
    assert status == 0
    assert "1: core (middle), against the middle of the piece" in out
    assert "The shop learns from it: pourwright book learn." in out
    told = json.loads(typed(capsys, "measured", str(poured), "--json")[1])
    assert told["schema"] == "pourwright-measured/1.0"
    assert [one["name"] for one in told["pours"][0]["series"]] == ["core"]
    out = typed(capsys, "measured", str(poured), "--out", str(poured / "seen"))[1]
    assert "measured-1.svg" in out
    assert (poured / "seen" / "measured-1.csv").read_bytes().startswith(b"after the pour went in [h],")
    assert "1: core (middle), taken back" in typed(capsys, "measured", str(poured), "--take-back", "1")[1]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--probe", "core=middle"), "go with --logger"),
        (("poured", "2 kg", "--logger", "FILE"), "--logger stands alone"),
        (("--logger", "nowhere.csv"), "no such file"),
        (("--logger", "FILE", "--probe", "deep=top"), "no sensor 'deep'"),
    ],
)
def test_what_cannot_be_ends_with_2_and_one_line(
    poured: Path, written: Written, capsys: pytest.CaptureFixture[str], words: tuple[str, ...], told: str
) -> None:
    file = str(written(hottest))
    given = [file if word == "FILE" else word for word in words]
    status, out, error = typed(capsys, "log", str(poured), *given)
    assert (status, out) == (2, "")
    assert told in error


def test_without_a_logger_it_says_how_one_is_attached(
    poured: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert "pourwright log JOB --pour N --logger FILE" in typed(capsys, "measured", str(poured))[1]

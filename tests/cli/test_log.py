"""`pourwright log` as it is typed."""

import json
from pathlib import Path

import pytest

from pourwright.cli import main
from tests.app.booking.conftest import write_plan


def typed(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as left:
        main(arguments)
    out, err = capsys.readouterr()
    return int(left.value.code or 0), out, err


@pytest.fixture
def stool(tmp_path: Path) -> str:
    write_plan(tmp_path / "stool")
    return str(tmp_path / "stool")


def test_what_is_entered_is_shown(stool: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert "nothing is entered yet" in typed(capsys, "log", stool)[1]
    status, out, err = typed(capsys, "log", stool, "poured", "2.6 kg", "--pour", "1")
    assert (status, err) == (0, "")
    assert "pour 1: 2.60 kg in the mold" in out
    report = json.loads(typed(capsys, "log", stool + "/job.toml", "--json")[1])
    assert report["pours"][0]["entries"][0]["value_kg"] == 2.6


def test_a_correction_shows_both(stool: str, capsys: pytest.CaptureFixture[str]) -> None:
    report = json.loads(typed(capsys, "log", stool, "poured", "26 kg", "--json")[1])
    out = typed(capsys, "log", stool, "correct", report["entered"][0][:8], "2.6 kg")[1]
    assert "26.00 kg (corrected by" in out
    assert "pour 1: 2.60 kg in the mold" in out


def test_what_was_a_slip_is_taken_back(stool: str, capsys: pytest.CaptureFixture[str]) -> None:
    report = json.loads(typed(capsys, "log", stool, "poured", "26 kg", "--json")[1])
    out = typed(capsys, "log", stool, "take-back", report["entered"][0][:8])[1]
    assert "taken back: poured, 26.00 kg" in out
    assert "in the mold" not in out
    status, out, err = typed(capsys, "log", stool, "take-back")
    assert (status, out, err.count("\n")) == (2, "", 1)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("poured", "-3 kg"), "a batch of −3.00 kg cannot be"),
        (("level", "60 cm"), "lies above the mold"),
        (("poured", "2 kg", "--at", "2126-01-01 09:00"), "is still to come"),
    ],
)
def test_what_cannot_be_is_one_line(
    words: tuple[str, ...], told: str, stool: str, capsys: pytest.CaptureFixture[str]
) -> None:
    status, out, err = typed(capsys, "log", stool, *words)
    assert (status, out, err.count("\n")) == (2, "", 1)
    assert told in err

"""Everything lands in one folder, whole or not at all."""

from pathlib import Path

import pytest

from pourwright.sheets import sheet_files, write_sheets
from tests.sheets.sample_plan import sample_plan


def test_all_files_are_written(tmp_path: Path) -> None:
    written = write_sheets(sample_plan(), tmp_path / "plan")
    names = {str(path.relative_to(tmp_path / "plan")) for path in written}
    assert {"plan.pdf", "calendar.ics", "tables/pours.csv", "drawings/section.svg"} <= names
    assert all(path.stat().st_size > 0 for path in written)
    assert [path.name for path in tmp_path.iterdir()] == ["plan"]


def test_old_folder_stays_when_something_fails(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "plan"
    write_sheets(sample_plan(), folder)
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}

    def full_disk(self: Path, data: bytes) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full_disk)
    with pytest.raises(OSError, match="No space"):
        write_sheets(sample_plan(1), folder)
    monkeypatch.undo()
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before
    assert [path.name for path in tmp_path.iterdir()] == ["plan"]


def test_same_plan_same_files() -> None:
    assert sheet_files(sample_plan()) == sheet_files(sample_plan())

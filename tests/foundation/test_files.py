import errno
import hashlib
import math
from pathlib import Path

import pytest

from pourwright.foundation.errors import UserError
from pourwright.foundation.files import canonical_json, mend_place, sha256_of, staged_folder, write_atomically


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_write_makes_the_folder_and_leaves_nothing_beside(tmp_path: Path) -> None:
    target = tmp_path / "deep" / "plan.json"
    write_atomically(target, "µ\n")
    write_atomically(target, b"second")
    assert target.read_bytes() == b"second"
    assert names(target.parent) == ["plan.json"]


def test_failed_write_keeps_the_old_file(tmp_path: Path) -> None:
    target = tmp_path / "plan.json"
    write_atomically(target, "old")
    with pytest.raises(UnicodeEncodeError):
        write_atomically(target, "\ud800")
    with pytest.raises(TypeError):
        write_atomically(target, 3)  # type: ignore[arg-type]
    assert target.read_text() == "old"
    assert names(tmp_path) == ["plan.json"]


def test_staged_folder_takes_the_place_only_on_success(tmp_path: Path) -> None:
    target = tmp_path / "plan"
    with staged_folder(target) as stage:
        (stage / "one.txt").write_text("1")
        assert not target.exists()
    with staged_folder(target) as stage:
        (stage / "two.txt").write_text("2")
        assert names(target) == ["one.txt"]
    assert names(target) == ["two.txt"]
    assert names(tmp_path) == ["plan"]


def stop_half_way(target: Path, stop: type[BaseException]) -> None:
    with staged_folder(target) as stage:
        (stage / "half.txt").write_text("half")
        raise stop


@pytest.mark.parametrize("stop", [KeyboardInterrupt, ValueError])
def test_stopped_staging_keeps_what_was_there(tmp_path: Path, stop: type[BaseException]) -> None:
    target = tmp_path / "plan"
    with staged_folder(target) as stage:
        (stage / "one.txt").write_text("1")
    with pytest.raises(stop):
        stop_half_way(target, stop)
    assert names(target) == ["one.txt"]
    assert names(tmp_path) == ["plan"]


def test_stopped_between_old_and_new_gives_the_old_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "plan"
    with staged_folder(target) as stage:
        (stage / "one.txt").write_text("1")
    rename, calls = Path.rename, []

    def stopped(self: Path, to: Path) -> Path:
        calls.append(to)
        if len(calls) == 2:
            raise KeyboardInterrupt
        return rename(self, to)

    monkeypatch.setattr(Path, "rename", stopped)
    with pytest.raises(KeyboardInterrupt), staged_folder(target):
        pass
    assert names(target) == ["one.txt"]
    assert names(tmp_path) == ["plan"]


def test_a_place_that_takes_nothing_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with (
        pytest.raises(UserError, match="plan: cannot be written: File exists"),
        staged_folder(tmp_path / "file" / "plan"),
    ):
        pass


def test_a_full_disk_is_told(tmp_path: Path) -> None:
    with pytest.raises(UserError, match="cannot be written: No space left"), staged_folder(tmp_path / "plan"):
        raise OSError(errno.ENOSPC, "No space left on device")
    assert names(tmp_path) == []


def test_files_are_readable_as_any_other(tmp_path: Path) -> None:
    write_atomically(tmp_path / "ours", "x")
    (tmp_path / "theirs").write_text("x")
    assert (tmp_path / "ours").stat().st_mode == (tmp_path / "theirs").stat().st_mode


def test_sha256(tmp_path: Path) -> None:
    (tmp_path / "abc").write_bytes(b"abc")
    # FIPS 180-4, example of one block
    assert sha256_of(tmp_path / "abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert hashlib.sha256(b"abc").hexdigest() == sha256_of(tmp_path / "abc")


def test_canonical_json_is_the_same_for_the_same_content() -> None:
    assert canonical_json({"b": [1, 2.5], "a": None}) == canonical_json({"a": None, "b": [1, 2.5]})
    assert canonical_json({"b": [1, 2.5], "a": None}) == b'{"a":null,"b":[1,2.5]}\n'
    with pytest.raises(ValueError, match="JSON"):
        canonical_json({"a": math.nan})


def test_a_place_is_mended_after_a_process_died_between_old_and_new(tmp_path: Path) -> None:
    beside = {".plan.abcd_123": "new", ".plan.old.abcd_124/content": "old", ".plan.backup": "mine"}
    for name, content in beside.items():
        (tmp_path / name).mkdir(parents=True)
        (tmp_path / name / "plan.json").write_text(content)
    mend_place(tmp_path / "plan")
    assert (tmp_path / "plan" / "plan.json").read_text() == "old"
    assert sorted(path.name for path in tmp_path.iterdir()) == [".plan.backup", "plan"]


def test_mending_leaves_the_new_content_where_it_had_taken_its_place(tmp_path: Path) -> None:
    for name, content in {"plan": "new", ".plan.old.abcd_124/content": "old"}.items():
        (tmp_path / name).mkdir(parents=True)
        (tmp_path / name / "plan.json").write_text(content)
    mend_place(tmp_path / "plan")
    assert (tmp_path / "plan" / "plan.json").read_text() == "new"
    assert [path.name for path in tmp_path.iterdir()] == ["plan"]

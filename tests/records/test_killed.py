"""What was confirmed stays, whatever ends the writer."""

import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

HERE = Path(__file__).parent
KILLS, SEED = 200, 9


@pytest.fixture
def quick_folder() -> Iterator[Path]:
    """In memory where there is such a place: a kill is no power cut, so the disk need not be waited for."""
    memory = Path("/dev/shm")
    with tempfile.TemporaryDirectory(dir=memory if memory.is_dir() else None) as name:
        yield Path(name)


def test_no_confirmed_entry_is_lost_in_200_kills(quick_folder: Path) -> None:
    command = [sys.executable, str(HERE / "killing.py"), str(quick_folder), str(KILLS), str(SEED)]
    ran = subprocess.run(command, capture_output=True, text=True, check=False, timeout=120)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    sessions, at_work, confirmed = map(int, ran.stdout.split())
    assert sessions == at_work == KILLS
    assert confirmed > KILLS

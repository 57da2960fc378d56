"""A parent that is stopped in the middle, by whatever, leaves no process behind."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.contracts.house import ROOT
from tests.runs.watching import ended, gone, ids_in, wait_until

_PARENT = """
import functools, signal, sys
from pathlib import Path
sys.path.insert(0, sys.argv[2])
for name in ("SIGINT", "SIGTERM", "SIGHUP"):
    signal.signal(getattr(signal, name), signal.SIG_DFL)
from pourwright.cli.stopping import listen
from pourwright.runs import Crew
from tests.runs import chores
if sys.argv[3] == "listens":
    listen()
try:
    with Crew(2) as crew:
        crew.map(functools.partial(chores.stuck, Path(sys.argv[1])), range(5))
except KeyboardInterrupt:
    sys.exit(130)
"""


@pytest.mark.parametrize(
    ("manner", "stop", "status"),
    [
        ("listens", signal.SIGINT, 130),
        ("listens", signal.SIGTERM, 130),
        ("listens", signal.SIGHUP, 130),
        ("deaf", signal.SIGTERM, -signal.SIGTERM),
        ("deaf", signal.SIGKILL, -signal.SIGKILL),
    ],
)
def test_no_process_is_left(tmp_path: Path, manner: str, stop: signal.Signals, status: int) -> None:
    parent = subprocess.Popen(
        [sys.executable, "-c", _PARENT, str(tmp_path), str(ROOT), manner],
        env=os.environ | {"NUMBA_NUM_THREADS": "1"},
        stderr=subprocess.PIPE,
    )
    with ended(parent):
        wait_until(lambda: len(ids_in(tmp_path)) == 4)
        parent.send_signal(stop)
        _, err = parent.communicate(timeout=60)
    assert parent.returncode == status, err
    assert err == b""
    wait_until(lambda: gone(ids_in(tmp_path)))

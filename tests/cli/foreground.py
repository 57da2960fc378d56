"""The command as a terminal starts it, whatever started the tests: a background job has Ctrl-C ignored."""

import os
import subprocess
import sys
from pathlib import Path

_START = """
import signal
for name in ("SIGINT", "SIGTERM", "SIGHUP"):
    signal.signal(getattr(signal, name), signal.SIG_DFL)
signal.signal(signal.SIGINT, signal.default_int_handler)
from pourwright.cli import main
main()
"""


def started(folder: Path, *arguments: str) -> subprocess.Popen[str]:
    """Start a command in a folder, its words to be read line by line."""
    return subprocess.Popen(
        [sys.executable, "-c", _START, *arguments],
        cwd=folder,
        env=os.environ | {"NUMBA_NUM_THREADS": "1"},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )

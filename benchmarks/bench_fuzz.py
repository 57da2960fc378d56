"""Break shape files for ten minutes: the only outcomes are a mesh or one clear error, in time and memory.

``python -m benchmarks fuzz``; FUZZ_SECONDS in the environment sets another length.
"""

import os
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

SECONDS = 600.0
LONGEST = 10.0
MEMORY = 4_000_000_000
ROUND = 400
"""Cases in one process."""


def main() -> None:
    """Print how many files were broken and what came of it."""
    seconds = float(os.environ.get("FUZZ_SECONDS", SECONDS))
    kept = Path(tempfile.mkdtemp(prefix="fuzz-"))
    counts: Counter[str] = Counter()
    end, number = time.monotonic() + seconds, 0
    while time.monotonic() < end:
        for line in _round(number, kept, end):
            counts[line] += 1
        number += 1
    cases = sum(count for what, count in counts.items() if what.startswith("."))
    print(
        f"{cases} files broken in {seconds:.0f} s, {number} processes, memory capped at {MEMORY / 1e9:.0f} GB"
    )
    for what, count in sorted(counts.items()):
        print(f"{count:8d}  {what}")
    print(f"cases that were found are in {kept}" if any(kept.iterdir()) else "nothing was found")


def _round(number: int, kept: Path, end: float) -> Iterator[str]:
    """Start a process that breaks files, and watch it; yields what came of each."""
    with tempfile.TemporaryDirectory() as folder:
        case, log = Path(folder) / "case", Path(folder) / "log"
        with log.open("wb") as sink:
            child = subprocess.Popen(
                [sys.executable, "-m", "benchmarks.fuzz_child", str(number), folder, str(kept)],
                stdout=sink, stderr=sink, process_group=0,
            )  # fmt: skip
            status = _watched(child, case, end)
        said = log.read_text(errors="replace").splitlines()
        yield from (line for line in said if line.startswith("."))
        if status == "late":
            return
        if status:
            found = next(iter(Path(folder).glob("case*")), None)
            if found is not None:
                (kept / f"{status}-{number}{found.suffix}").write_bytes(found.read_bytes())
            yield f"FOUND {status}: {' '.join(said[-3:])[:300]}"


def _watched(child: "subprocess.Popen[bytes]", case: Path, end: float) -> str:
    """Wait for a process; says 'hang' or 'crash', 'late' where the time is over, '' for nothing."""
    while child.poll() is None:
        time.sleep(0.2)
        written = max((path.stat().st_mtime for path in case.parent.glob("case*")), default=None)
        hangs = written is not None and time.time() - written > LONGEST + 2
        if hangs or time.monotonic() > end:
            os.killpg(child.pid, signal.SIGKILL)
            child.wait()
            return "hang" if hangs else "late"
    return "" if child.returncode == 0 else f"crash{child.returncode}"

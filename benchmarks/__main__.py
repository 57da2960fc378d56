"""Run every benchmark and say on which machine: ``python -m benchmarks [NAME ...]``.

A benchmark is a file ``bench_<name>.py`` beside this one with a ``main()`` that prints its table.
"""

import importlib
import os
import platform
import sys
from importlib.metadata import version
from pathlib import Path


def machine() -> str:
    """Say what the numbers were measured on."""
    model = platform.processor() or platform.machine()
    listing = Path("/proc/cpuinfo")
    if listing.exists():
        names = [
            line.partition(":")[2].strip()
            for line in listing.read_text().splitlines()
            if "model name" in line
        ]
        model = names[0] if names else model
    parts = [
        model,
        f"{os.cpu_count()} cores",
        platform.platform(),
        f"Python {platform.python_version()}",
        *(f"{name} {version(name)}" for name in ("pourwright", "numpy", "numba")),
    ]
    return ", ".join(parts)


def main(names: list[str]) -> int:
    """Run the named benchmarks, or all of them; the status is 2 for a name that is not there."""
    known = {
        path.stem.removeprefix("bench_"): path.stem
        for path in sorted(Path(__file__).parent.glob("bench_*.py"))
    }
    if unknown := [name for name in names if name not in known]:
        print(
            f"no benchmark {', '.join(unknown)}; allowed: {', '.join(known) or 'none yet'}", file=sys.stderr
        )
        return 2
    print(f"machine: {machine()}", flush=True)
    for name in names or known:
        print(f"\n== {name}", flush=True)
        importlib.import_module(f"benchmarks.{known[name]}").main()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

"""The page as the maker starts it: a process of its own."""

import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pourwright  # noqa: F401 - settles where compiled kernels lie, for this process and the servers

START = "from pourwright.cli import main; main()"


@dataclass(frozen=True)
class Served:
    """A shop, where its page is, and who serves it."""

    shop: Path
    address: str
    process: subprocess.Popen[str]

    def kill(self) -> None:
        """End the server as a power cut does."""
        self.process.kill()
        self.process.wait()


@contextmanager
def served(shop: Path, caches: Path, port: int = 0) -> Iterator[Served]:
    """Serve a shop until the block ends, with kept results of its own; compiled kernels are shared."""
    shop.mkdir(exist_ok=True)
    command = [sys.executable, "-c", START, "serve", str(shop), "--no-open", "--port", str(port)]
    # a session of its own: nothing sent to the tests reaches the server
    process = subprocess.Popen(
        command,
        env=os.environ | {"POURWRIGHT_CACHE": str(caches), "PYTHONUNBUFFERED": "1"},
        stdout=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    try:
        yield Served(shop, _address(process), process)
    finally:
        process.send_signal(signal.SIGTERM)
        try:
            process.wait(10)
        except subprocess.TimeoutExpired:
            process.kill()
        process.communicate()


def _address(process: subprocess.Popen[str]) -> str:
    assert process.stdout is not None
    said = ""
    for line in process.stdout:
        said += line
        if found := re.search(r"http://127\.0\.0\.1:\d+", line):
            return found[0]
    raise AssertionError(f"the server ended before it said where it is: {said!r}")


def below(process: int) -> set[int]:
    """Every process that descends from one, as the system lists them."""
    parents = {}
    for folder in Path("/proc").iterdir():
        if folder.name.isdigit() and (stat := _stat(folder)):
            parents[int(folder.name)] = int(stat[1])
    found, new = set(), {process}
    while new:
        new = {one for one, parent in parents.items() if parent in new} - found
        found |= new
    return found


def alive(processes: set[int]) -> set[int]:
    """Those that have not ended."""
    stats = {one: _stat(Path(f"/proc/{one}")) for one in processes}
    return {one for one, stat in stats.items() if stat and stat[0] != "Z"}


def _stat(folder: Path) -> list[str]:
    try:
        return (folder / "stat").read_text().rpartition(")")[2].split()
    except OSError:
        return []

"""Settings that must stand before numba is imported, the same invented cases always, and who runs what."""

import os
import subprocess
import sys

import pytest
from hypothesis import settings

from pourwright import compiled_before

os.environ.setdefault("NUMBA_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
settings.register_profile("house", derandomize=True)
settings.load_profile("house")

LONGEST = ("browser", "example")
"""Groups that take minutes: begun first, so that no process waits for one at the end."""


@pytest.hookimpl(tryfirst=True)
def pytest_sessionstart(session: pytest.Session) -> None:
    """Compile the kernels once, before processes start that would each do so, as the maker's command does."""
    config = session.config
    starts_others = config.getoption("numprocesses", None) and not hasattr(config, "workerinput")
    if starts_others and not compiled_before():
        command = [sys.executable, "-c", "from pourwright.cli import main; main()", "warm-up"]
        subprocess.run(command, check=True)


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Keep a file's tests in one process, so that what they share is made once; the longest come first."""
    for item in items:
        if item.get_closest_marker("xdist_group") is None:
            item.add_marker(pytest.mark.xdist_group(item.nodeid.partition("::")[0]))
    items.sort(key=_rank)


def _rank(item: pytest.Item) -> int:
    (group,) = item.get_closest_marker("xdist_group").args
    return LONGEST.index(group) if group in LONGEST else len(LONGEST)

"""From the shape of a piece to a pour plan a workshop can cast from."""

import os
import sys
from pathlib import Path

__version__ = "0.1.0"


def cache_folder() -> Path:
    """Say where this user's caches live.

    Returns
    -------
    Path
        ``POURWRIGHT_CACHE`` when set, else the ``pourwright`` folder in the user's cache folder.
    """
    if own := os.environ.get("POURWRIGHT_CACHE"):
        return Path(own)
    home = Path.home()
    usual = {"win32": home / "AppData/Local", "darwin": home / "Library/Caches"}
    base = os.environ.get("XDG_CACHE_HOME") or usual.get(sys.platform, home / ".cache")
    return Path(base) / "pourwright"


def compiled_before() -> bool:
    """Say whether an earlier run has left compiled kernels.

    Returns
    -------
    bool
        False on the first run ever, which compiles.
    """
    return any(Path(os.environ["NUMBA_CACHE_DIR"]).rglob("*.nbi"))


# numba reads this once, when it is first imported; its own index is keyed by CPU
os.environ.setdefault("NUMBA_CACHE_DIR", str(cache_folder() / "numba"))
# sums in one order on every machine; on small tables a second thread only waits, up to fifty times as long
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

"""One at a time: a lock per folder, held by a process as long as it lives."""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import sys
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import IO

from pourwright import cache_folder
from pourwright.foundation.errors import ConflictError, UserError

if sys.platform != "win32":
    import fcntl


@contextlib.contextmanager
def only_one(folder: Path, doing: str = "planning", address: str = "") -> Iterator[None]:
    """Keep everybody else from doing the same in a folder while the block runs.

    The lock lies in the user's cache folder, not in the maker's. The system itself lets go of it when the
    process ends, however it ends.

    Parameters
    ----------
    folder : Path
        What is worked on; found again through links and relative names.
    doing : str
        For the sentence only.
    address : str
        Where whoever comes second finds the first at work.

    Yields
    ------
    None

    Raises
    ------
    UserError
        Where somebody else is at it, with who and since when.
    """
    with contextlib.ExitStack() as stack:
        file = _opened(folder)
        if file is not None:
            stack.enter_context(file)
            _take(file, folder, doing, address)
        yield


def lock_file(folder: Path) -> Path:
    """Say where the lock of a folder lies.

    Parameters
    ----------
    folder : Path
        What is worked on.

    Returns
    -------
    Path
    """
    name = hashlib.sha256(os.fsencode(folder.resolve())).hexdigest()
    return cache_folder() / "locks" / f"{name}.lock"


def _opened(folder: Path) -> IO[str] | None:
    """Open the lock; None where there is no place for one, which is no reason not to work."""
    path = lock_file(folder)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        return path.open("a+", encoding="utf8")
    except OSError:
        return None


def _take(file: IO[str], folder: Path, doing: str, address: str) -> None:
    if sys.platform == "win32":  # two may run there at once
        return
    try:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        raise _taken(file, folder, doing) from None
    except OSError:  # a network drive that knows no locks
        return
    since = datetime.now().astimezone().isoformat(" ", "minutes")
    about = {"process": os.getpid(), "since": since, "address": address}
    with contextlib.suppress(OSError):
        file.truncate(0)
        file.write(json.dumps(about))
        file.flush()


def _taken(file: IO[str], folder: Path, doing: str) -> UserError:
    who, at = "another process", ""
    # it may just be writing its name
    with contextlib.suppress(OSError, ValueError, KeyError, TypeError):
        file.seek(0)
        about = json.loads(file.read())
        who = f"process {about['process']}, since {about['since'][:16]}"
        at = str(about.get("address", ""))
    if at:
        return ConflictError(
            f"already open at {at} ({who})", where=str(folder), todo=f"open {at}, or stop it"
        )
    return UserError(
        f"{doing} goes on already in this folder ({who})",
        where=str(folder),
        todo="wait until it is done, or stop it",
    )

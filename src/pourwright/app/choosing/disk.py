"""The job file on disk: read letter by letter, written whole, by one at a time."""

from __future__ import annotations

import hashlib
import threading
from collections import defaultdict
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from pourwright.foundation.errors import UserError
from pourwright.foundation.files import write_atomically
from pourwright.jobs.texts import read_text

JOB = "job.toml"
_BOM = "\ufeff"
_LOCKS: defaultdict[Path, threading.RLock] = defaultdict(threading.RLock)
_DOOR = threading.Lock()


@dataclass(frozen=True)
class OnDisk:
    """The text of a job file, and how it is kept.

    Parameters
    ----------
    text : str
        With single line ends, without the mark that some editors put first.
    sha256 : str
        Of the bytes.
    crlf, marked : bool
        Whether lines end as some editors end them, and whether that mark is there.
    """

    text: str
    sha256: str
    crlf: bool = False
    marked: bool = False

    def kept(self, text: str) -> bytes:
        """Put another text the way this one is kept."""
        whole = text.replace("\n", "\r\n") if self.crlf else text
        return (_BOM + whole if self.marked else whole).encode()


def read_disk(folder: Path) -> OnDisk:
    """Read the job file of a folder.

    Parameters
    ----------
    folder : Path
        Of the job.

    Returns
    -------
    OnDisk

    Raises
    ------
    UserError
        Where there is none, or it is no text.
    """
    file = folder / JOB
    try:
        read_text(file, "job file", missing="put it back, or start another job", instead="put it back")
        whole = file.read_bytes()
    except UserError as error:
        raise UserError(error.what, where=JOB, allowed=error.allowed, todo=error.todo) from None
    text = whole.decode()
    crlf = "\r\n" in text
    return OnDisk(plain_lines(text), hashlib.sha256(whole).hexdigest(), crlf, marked=text.startswith(_BOM))


def plain_lines(text: str) -> str:
    r"""Bring a text to single line ends.

    Parameters
    ----------
    text : str
        Of an editor or a form.

    Returns
    -------
    str
        Lines end in ``\n``; no mark before them.
    """
    return text.removeprefix(_BOM).replace("\r\n", "\n")


def write_disk(folder: Path, text: str, before: OnDisk) -> bool:
    """Write the job file, unless it has changed in the meantime.

    Parameters
    ----------
    folder : Path
        Of the job.
    text : str
        What to write.
    before : OnDisk
        As it was read; its way of ending lines is kept.

    Returns
    -------
    bool
        False where somebody else has written, and nothing was done.

    Raises
    ------
    UserError
        Where nothing can be written there.
    """
    if read_disk(folder).sha256 != before.sha256:
        return False
    try:
        write_atomically(folder / JOB, before.kept(text))
    except OSError as error:
        raise unwritable(error) from error
    return True


def unwritable(error: OSError) -> UserError:
    """Say that nothing can be written into a job's folder.

    Parameters
    ----------
    error : OSError
        Of the system.

    Returns
    -------
    UserError
    """
    return UserError(
        f"cannot be written: {error.strerror or error}", where=JOB,
        todo="make room, or free the folder for writing",
    )  # fmt: skip


@contextmanager
def one_at_a_time(folder: Path) -> Iterator[None]:
    """Let other requests for the same job wait.

    Parameters
    ----------
    folder : Path
        Of the job.

    Yields
    ------
    None
    """
    with _DOOR:
        lock = _LOCKS[folder.resolve()]
    with lock:
        yield

"""Text that a maker has written: a job file, or the facts of a resin."""

from __future__ import annotations

import hashlib
import io
from pathlib import Path

from pourwright.jobs.errors import JobError

LARGEST = 1_000_000


def read_text(file: Path, kind: str, *, missing: str, instead: str) -> str:
    """Read a file that a maker has written.

    Parameters
    ----------
    file : Path
        Where it should be.
    kind, missing, instead : str
        As for `read_written`.

    Returns
    -------
    str
        Without the mark that some editors put first.

    Raises
    ------
    JobError
        Where there is no file, or one that is no text a person has typed.
    """
    return read_written(file, kind, missing=missing, instead=instead)[0]


def read_written(file: Path, kind: str, *, missing: str, instead: str) -> tuple[str, str]:
    """Read a file that a maker has written, and its fingerprint at that moment.

    Parameters
    ----------
    file : Path
        Where it should be.
    kind : str
        What it is called, such as "job file".
    missing : str
        What to do where there is none.
    instead : str
        What to do where it is something else.

    Returns
    -------
    tuple of str
        The text, without the mark that some editors put first, and the sha256 of the file.

    Raises
    ------
    JobError
        Where there is no file, or one that is no text a person has typed.
    """
    where = str(file)
    try:
        if file.is_dir():
            raise JobError(f"is a folder, no {kind}", where=where, todo=instead)
        if (size := file.stat().st_size) > LARGEST:
            raise JobError(
                f"is {size / 1e6:.0f} MB large, which is no {kind}", where=where,
                allowed="up to 1 MB", todo=instead,
            )  # fmt: skip
        content = file.read_bytes()
        with io.TextIOWrapper(io.BytesIO(content), "utf8") as reader:
            return reader.read().removeprefix("\ufeff"), hashlib.sha256(content).hexdigest()
    except FileNotFoundError:
        raise JobError(f"no such {kind}", where=where, todo=missing) from None
    except UnicodeDecodeError as error:
        what = f"is no UTF-8 text: byte {error.start + 1} of the file"
        raise JobError(what, where=where, todo=instead) from None
    except OSError as error:
        raise JobError(f"cannot be read: {error.strerror}", where=where, todo="give another file") from None

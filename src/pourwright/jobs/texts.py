"""Text that a maker has written: a job file, or the facts of a resin."""

from __future__ import annotations

from pathlib import Path

from pourwright.jobs.errors import JobError

LARGEST = 1_000_000


def read_text(file: Path, kind: str, *, missing: str, instead: str) -> str:
    """Read a file that a maker has written.

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
    str
        Without the mark that some editors put first.

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
        return file.read_text("utf8").removeprefix("\ufeff")
    except FileNotFoundError:
        raise JobError(f"no such {kind}", where=where, todo=missing) from None
    except UnicodeDecodeError as error:
        what = f"is no UTF-8 text: byte {error.start + 1} of the file"
        raise JobError(what, where=where, todo=instead) from None
    except OSError as error:
        raise JobError(f"cannot be read: {error.strerror}", where=where, todo="give another file") from None

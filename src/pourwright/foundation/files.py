"""Files that are either whole or not there."""

import contextlib
import glob
import hashlib
import json
import os
import re
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

from pourwright.foundation.errors import UserError

_RANDOM = "[a-z0-9_]{8}"


def write_atomically(path: Path | str, content: bytes | str) -> None:
    """Write a file beside its place, then move it there in one step.

    Parameters
    ----------
    path : Path or str
        Where the file goes; its folder is made when missing.
    content : bytes or str
        What the file holds; text is written as UTF-8.
    """
    target = Path(path)
    target.parent.mkdir(parents=True, exist_ok=True)
    data = content.encode() if isinstance(content, str) else content
    handle, beside = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        Path(beside).chmod(_usual_mode(0o666))
        Path(beside).replace(target)
    except BaseException:
        Path(beside).unlink(missing_ok=True)
        raise


def write_privately(path: Path, content: bytes) -> None:
    """Write a file as `write_atomically`, readable at no moment by anybody but its owner.

    Parameters
    ----------
    path : Path
        Where the file goes; its folder is there.
    content : bytes
        What the file holds.
    """
    # mkstemp makes it for its owner alone
    handle, beside = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        Path(beside).replace(path)
    except BaseException:
        Path(beside).unlink(missing_ok=True)
        raise


def _usual_mode(full: int) -> int:
    mask = os.umask(0)
    os.umask(mask)
    return full & ~mask


@contextlib.contextmanager
def staged_folder(target: Path | str) -> Iterator[Path]:
    """Fill a folder beside its place; it takes the target's place only when the block succeeds.

    Parameters
    ----------
    target : Path or str
        The folder to make or to replace. What it held stays untouched when the block fails.

    Yields
    ------
    Path
        The folder to write into.

    Raises
    ------
    UserError
        Where the system lets nothing be written: a full disk, a place that is read-only.
    """
    goal = Path(target)
    try:
        goal.parent.mkdir(parents=True, exist_ok=True)
        stage = Path(tempfile.mkdtemp(prefix=f".{goal.name}.", dir=goal.parent))
    except OSError as error:
        raise _unwritable(goal, error) from error
    try:
        stage.chmod(_usual_mode(0o777))
        yield stage
        _take_place(stage, goal)
    except OSError as error:
        raise _unwritable(goal, error) from error
    finally:
        shutil.rmtree(stage, ignore_errors=True)


def _unwritable(goal: Path, error: OSError) -> UserError:
    what = f"cannot be written: {error.strerror or error}"
    return UserError(what, where=str(goal), todo="make room there, or choose another place")


def _take_place(stage: Path, goal: Path) -> None:
    if not goal.exists():
        stage.rename(goal)
        return
    old = Path(tempfile.mkdtemp(prefix=f".{goal.name}.old.", dir=goal.parent))
    try:
        goal.rename(old / "content")
        stage.rename(goal)
    except BaseException:
        # also a Ctrl-C between the two gives the old content back
        if not goal.exists():
            (old / "content").rename(goal)
        raise
    finally:
        shutil.rmtree(old, ignore_errors=True)


def mend_place(target: Path | str) -> None:
    """Tidy up after a process that was killed while it filled or replaced a folder.

    Nobody else may be filling the same place meanwhile.

    Parameters
    ----------
    target : Path or str
        The folder: it is given back what it held, where the new content had not yet taken its place, and what
        was left beside it goes.
    """
    goal = Path(target)
    own = re.compile(rf"\.{re.escape(goal.name)}\.(old\.)?{_RANDOM}")
    for left in sorted(goal.parent.glob(f".{glob.escape(goal.name)}.*")):
        if left.is_symlink() or not left.is_dir() or not own.fullmatch(left.name):
            continue
        if not goal.exists() and (left / "content").is_dir() and ".old." in left.name:
            (left / "content").rename(goal)
        shutil.rmtree(left, ignore_errors=True)


def sha256_of(path: Path | str) -> str:
    """Fingerprint a file.

    Parameters
    ----------
    path : Path or str
        The file.

    Returns
    -------
    str
        64 hexadecimal digits.
    """
    with Path(path).open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def canonical_json(value: object) -> bytes:
    r"""Write a value as JSON that is the same bytes for the same content.

    Parameters
    ----------
    value : object
        Anything JSON can hold; NaN and infinity are refused.

    Returns
    -------
    bytes
        UTF-8, keys sorted, no spaces, one newline at the end.

    Raises
    ------
    ValueError
        For a number that JSON cannot hold.

    Examples
    --------
    >>> canonical_json({"b": 1.5, "a": "µ"}).decode()
    '{"a":"µ","b":1.5}\n'
    """
    text = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
    return text.encode() + b"\n"

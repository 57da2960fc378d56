"""Results kept between two runs, under the fingerprint of what they were made from."""

from __future__ import annotations

import contextlib
import hashlib
import os
import re
from pathlib import Path

from pourwright import cache_folder
from pourwright.foundation.files import write_atomically
from pourwright.runs.plain import read_plain, write_plain

LIMIT = 2 * 1024**3
"""Room for results [bytes]; beyond it the longest unused go."""
_KEPT_SHARE = 0.9
_RECOUNT = 256
_MARK = b"pourwright result 1\n"
_KEY = re.compile(r"[0-9a-f]{64}")
_DIGEST = 32


def result_folder() -> Path:
    """Say where results are kept.

    Returns
    -------
    Path
        In the user's cache folder, beside the compiled kernels.
    """
    return cache_folder() / "results"


class Cache:
    """Results in a folder; several processes may use it at once, and any file in it may be deleted.

    Parameters
    ----------
    folder : Path, optional
        Where; else the user's own.
    limit : int
        Room it may take [bytes].

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as name:
    ...     cache = Cache(Path(name))
    ...     cache.put("ab" * 32, (1.5, "h"))
    ...     cache.get("ab" * 32), cache.get("cd" * 32)
    ((1.5, 'h'), None)
    """

    def __init__(self, folder: Path | None = None, limit: int = LIMIT) -> None:
        self.folder = folder or result_folder()
        self.limit = limit
        self.trouble = ""
        """Why nothing is kept; empty as long as there is no trouble."""
        self._used: int | None = None
        self._puts = 0

    def get(self, key: str) -> object | None:
        """Give back what was put under a key; None where there is nothing that can be trusted."""
        path = self._path(key)
        try:
            content = path.read_bytes()
        except FileNotFoundError:
            return None
        except OSError:
            _remove(path)
            return None
        value = _opened(content)
        if value is None:
            _remove(path)
            return None
        with contextlib.suppress(OSError):
            os.utime(path)
        return value

    def put(self, key: str, value: object) -> None:
        """Keep a value; a folder that cannot be written is noted in ``trouble`` and left alone."""
        path = self._path(key)
        content = _closed(value)
        if self.trouble or len(content) > self.limit:
            return
        try:
            write_atomically(path, content)
            self._make_room(len(content))
        except OSError as error:
            self.trouble = f"{self.folder}: {error.strerror or error}"

    def empty(self) -> None:
        """Remove everything that is kept."""
        for _, _, path in self._entries():
            _remove(path)
        self._used = None

    def _path(self, key: str) -> Path:
        if not _KEY.fullmatch(key):
            raise ValueError(f"no key of a result: {key!r}")
        return self.folder / key[:2] / key

    def _entries(self) -> list[tuple[int, int, Path]]:
        """List (last used [ns], size, path), also what a process that was killed has left unfinished."""
        found = []
        for path in self.folder.glob("*/*"):
            with contextlib.suppress(OSError):
                about = path.stat()
                found.append((about.st_mtime_ns, about.st_size, path))
        return sorted(found)

    def _make_room(self, added: int) -> None:
        self._puts += 1
        if self._used is None or self._puts % _RECOUNT == 0:
            self._used = sum(size for _, size, _ in self._entries())
        else:
            self._used += added
        if self._used <= self.limit:
            return
        entries = self._entries()
        self._used = sum(size for _, size, _ in entries)
        # the newest stays: it may be the one just put
        for _, size, path in entries[:-1]:
            if self._used <= _KEPT_SHARE * self.limit:
                return
            _remove(path)
            self._used -= size


def _remove(path: Path) -> None:
    with contextlib.suppress(OSError):
        path.unlink()


def _closed(value: object) -> bytes:
    if value is None:
        raise TypeError("None cannot be kept: it means that nothing was")
    content = write_plain(value)
    return _MARK + hashlib.sha256(content).digest() + content


def _opened(entry: bytes) -> object | None:
    start = len(_MARK) + _DIGEST
    content = entry[start:]
    if not entry.startswith(_MARK) or hashlib.sha256(content).digest() != entry[len(_MARK) : start]:
        return None
    try:
        return read_plain(content)
    except Exception:  # noqa: BLE001 - whatever an old or a foreign entry does: it is none of ours
        return None

"""ZIP archives from elsewhere, opened so that none can fill the memory."""

from __future__ import annotations

import zipfile
import zlib
from collections.abc import Iterator
from io import BytesIO

LARGEST_UNPACKED = 1_000_000_000
MOST_ENTRIES = 10_000
_CHUNK = 1 << 20
# coordinates in XML shrink to a fifth or a twentieth; only what says nothing shrinks more than this
_STRONGEST = 200
_SMALL = 10_000_000
_BROKEN = (zipfile.BadZipFile, zlib.error, EOFError, OSError, NotImplementedError, RuntimeError)


class Archive:
    """A ZIP archive whose parts are read piece by piece.

    Parameters
    ----------
    content : bytes
        The archive.

    Raises
    ------
    ValueError
        For what is no whole archive, or announces more than could be meant.
    """

    def __init__(self, content: bytes) -> None:
        try:
            self._zip = zipfile.ZipFile(BytesIO(content))
        except (zipfile.BadZipFile, ValueError, NotImplementedError, EOFError) as broken:
            raise ValueError("it is no whole ZIP archive") from broken
        entries = self._zip.infolist()
        if len(entries) > MOST_ENTRIES:
            raise ValueError(f"it holds {len(entries)} entries, more than {MOST_ENTRIES}")
        unpacked = sum(entry.file_size for entry in entries)
        if unpacked > LARGEST_UNPACKED:
            allowed = LARGEST_UNPACKED / 1e9
            raise ValueError(f"it unpacks to {unpacked / 1e9:.1f} GB, more than {allowed:.0f} GB")
        self._entries = {entry.filename.lower().lstrip("/"): entry for entry in entries}
        self._left = LARGEST_UNPACKED

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the parts, in small letters and without a stroke in front."""
        return tuple(self._entries)

    def pieces(self, name: str) -> Iterator[bytes]:
        """Unpack a part, at most a megabyte at a time.

        Parameters
        ----------
        name : str
            Of the part; large and small letters are the same.

        Yields
        ------
        bytes

        Raises
        ------
        ValueError
            Where it is not there, locked, broken, or swells.
        """
        entry = self._entries.get(name.lower().lstrip("/"))
        if entry is None:
            raise ValueError(f"its part '{name[:60]}' is missing")
        _refuse_swelling(entry)
        try:
            with self._zip.open(entry) as stream:
                while piece := stream.read(_CHUNK):
                    # what is really there counts, not what the archive says
                    self._left -= len(piece)
                    if self._left < 0:
                        raise ValueError("it unpacks to more than it says")
                    yield piece
        except _BROKEN as broken:
            raise ValueError("it is no whole ZIP archive") from broken


def _refuse_swelling(entry: zipfile.ZipInfo) -> None:
    if entry.flag_bits & 1:
        raise ValueError("it is locked with a password")
    if entry.compress_type not in {zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED}:
        raise ValueError("it is packed in a way that the format does not allow")
    if entry.file_size > _SMALL and entry.file_size > _STRONGEST * max(1, entry.compress_size):
        times = entry.file_size / max(1, entry.compress_size)
        raise ValueError(f"it unpacks to {times:.0f} times its size, which no shape does")

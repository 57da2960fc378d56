"""The bench journal: one line for each entry, on the disk before it is confirmed."""

from __future__ import annotations

import json
import math
import os
import uuid
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime
from io import FileIO
from pathlib import Path
from typing import Any

from pourwright.foundation.errors import UserError
from pourwright.records import KINDS
from pourwright.records.moments import now, written

JOURNAL = "journal.jsonl"


class NotWrittenError(UserError):
    """The disk took nothing of it; the same may be entered again."""


@dataclass(frozen=True, kw_only=True)
class JournalEntry:
    """One thing that was entered, as the journal has it.

    Parameters
    ----------
    plan : str
        sha256 of the plan.json that it was entered under.
    casting, pour : int
        Which piece that is cast by the job, which pour of it; pour 0 is the piece as a whole.
    kind : str
        One of `pourwright.records.KINDS`.
    at : datetime
        When it happened.
    value, sd : float, optional
        In the unit of its kind, with its standard deviation.
    text : str
        Words.
    photo : str, optional
        Hash of a photo.
    source : str
        Where it comes from.
    replaces : str, optional
        The entry that it corrects.
    id : str
        UUID.
    written : datetime
        When it was entered.
    """

    plan: str
    casting: int
    pour: int
    kind: str
    at: datetime
    value: float | None = None
    sd: float | None = None
    text: str = ""
    photo: str | None = None
    source: str = "hand"
    replaces: str | None = None
    id: str = field(default_factory=lambda: str(uuid.uuid4()))
    written: datetime = field(default_factory=now)


@dataclass(frozen=True)
class Journal:
    """What a journal holds.

    Parameters
    ----------
    entries : tuple of JournalEntry
        In the order of the file.
    torn : tuple of int
        Numbers of the lines that cannot be read: one that a crash has torn, or that was edited.
    """

    entries: tuple[JournalEntry, ...]
    torn: tuple[int, ...]

    def told(self) -> str:
        """What is to be said about lines that cannot be read; empty where there is nothing."""
        if not self.torn:
            return ""
        lines = ", ".join(map(str, self.torn))
        one = f"line {lines} of {JOURNAL} cannot be read and was"
        many = f"lines {lines} of {JOURNAL} cannot be read and were"
        return f"{many if len(self.torn) > 1 else one} passed over: never confirmed, or edited since"


def add_to_journal(folder: Path, entries: Sequence[JournalEntry]) -> None:
    """Write entries at the end of a job's journal; they are on the disk when this returns.

    Parameters
    ----------
    folder : Path
        Of the job.
    entries : sequence of JournalEntry
        What happened.

    Raises
    ------
    NotWrittenError
        Where the disk does not take them, as when it is full; none is confirmed then.
    """
    place = folder / JOURNAL
    lines = "".join(line_of(one) for one in entries)
    try:
        begun = not place.exists()
        with place.open("ab+", buffering=0) as file:
            before = file.seek(0, os.SEEK_END)
            try:
                _write_whole(file.fileno(), _mended(file, before) + lines.encode())
            except OSError:
                # half a line would stand there for good; the torn bit may not go where the disk is broken
                with suppress(OSError):
                    file.truncate(before)
                raise
        if begun:
            _keep_name(folder)
    except OSError as error:
        what = f"the journal cannot be written: {error.strerror or error}; nothing of this was entered"
        raise NotWrittenError(
            what, where=str(place), todo="make room or allow writing, then enter it again"
        ) from error


def _mended(file: FileIO, size: int) -> bytes:
    """A line that was torn by a crash is closed, so that the next one stands alone."""
    file.seek(max(size - 1, 0))
    return b"\n" if size and file.read(1) != b"\n" else b""


def _write_whole(handle: int, content: bytes) -> None:
    while content:
        content = content[os.write(handle, content) :]
    os.fsync(handle)


def _keep_name(folder: Path) -> None:
    """Have the new name on the disk too, where the system can."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def line_of(entry: JournalEntry) -> str:
    """Write an entry as a line.

    Parameters
    ----------
    entry : JournalEntry
        What happened.

    Returns
    -------
    str
        JSON, with the line's end; the unit of a value stands in its key, as ``value_kg``.
    """
    unit = KINDS[entry.kind]
    line: dict[str, Any] = {
        "id": entry.id,
        "kind": entry.kind,
        "at": written(entry.at),
        f"value_{unit}": entry.value,
        f"sd_{unit}": entry.sd,
        "text": entry.text or None,
        "photo": entry.photo,
        "source": entry.source,
        "plan": entry.plan,
        "casting": entry.casting,
        "pour": entry.pour,
        "replaces": entry.replaces,
        "written": written(entry.written),
    }
    said = {name: value for name, value in line.items() if value is not None}
    return json.dumps(said, ensure_ascii=False, allow_nan=False) + "\n"


def read_journal(folder: Path) -> Journal:
    """Read a job's journal.

    Parameters
    ----------
    folder : Path
        Of the job.

    Returns
    -------
    Journal
        Empty where there is none.

    Raises
    ------
    UserError
        Where the system does not let it be read.
    """
    place = folder / JOURNAL
    try:
        raw = place.read_bytes() if place.exists() else b""
    except OSError as error:
        what = f"the journal cannot be read: {error.strerror or error}"
        raise UserError(what, where=str(place), todo="look who may read it") from error
    found: dict[str, JournalEntry] = {}
    torn = []
    for number, line in enumerate(raw.split(b"\n"), 1):
        if not line.strip():
            continue
        entry = _entry(line)
        if entry is None:
            torn.append(number)
        else:
            # a line that was sent twice counts once
            found.setdefault(entry.id, entry)
    return Journal(tuple(found.values()), tuple(torn))


def _entry(line: bytes) -> JournalEntry | None:
    try:
        said = json.loads(line)
        return _checked(said) if isinstance(said, dict) else None
    except (ValueError, KeyError, TypeError, OverflowError):
        return None


def _checked(said: Mapping[str, Any]) -> JournalEntry:
    unit = KINDS[said["kind"]]
    return JournalEntry(
        id=str(uuid.UUID(said["id"])),
        plan=_hash(said["plan"]),
        casting=_count(said["casting"], 1),
        pour=_count(said["pour"], 0),
        kind=said["kind"],
        at=_moment(said["at"]),
        value=_number(said.get(f"value_{unit}")),
        sd=_number(said.get(f"sd_{unit}")),
        text=str(said.get("text", "")),
        photo=None if said.get("photo") is None else _hash(said["photo"]),
        source=str(said["source"]),
        replaces=None if said.get("replaces") is None else str(uuid.UUID(said["replaces"])),
        written=_moment(said["written"]),
    )


def _hash(text: Any) -> str:
    return bytes.fromhex(text).hex() if len(text) == 64 else _refuse()


def _count(value: Any, least: int) -> int:
    return value if type(value) is int and value >= least else _refuse()


def _number(value: Any) -> float | None:
    if value is None:
        return None
    return float(value) if type(value) in {int, float} and math.isfinite(value) else _refuse()


def _moment(text: Any) -> datetime:
    moment = datetime.fromisoformat(text)
    return moment.astimezone(UTC) if moment.tzinfo else _refuse()


def _refuse() -> Any:
    message = "no line of a journal"
    raise ValueError(message)

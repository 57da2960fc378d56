"""A choice written into the job file; taken back; done again."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from pourwright.app.choosing.catalogue import IDS, Choice, choices
from pourwright.app.choosing.companions import with_companions
from pourwright.app.choosing.conflict import Conflict
from pourwright.app.choosing.disk import (
    OnDisk,
    one_at_a_time,
    plain_lines,
    read_disk,
    unwritable,
    write_disk,
)
from pourwright.app.choosing.document import meet
from pourwright.app.choosing.history import History
from pourwright.app.choosing.reading import faults, job_of, variant_number
from pourwright.app.choosing.shelves import materials_of, named
from pourwright.app.choosing.values import refuse_unwritable, text_of, toml_value
from pourwright.app.choosing.words import what_changed
from pourwright.foundation.errors import UserError
from pourwright.jobs.band_edits import with_bands
from pourwright.jobs.edits import at
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.texts import LARGEST

TRIES = 3
Edit = Callable[[OnDisk], str]


def choose(
    folder: Path,
    key: str,
    value: object,
    seen: object,
    *,
    variant: str | None = None,
    only_here: bool = False,
) -> str:
    """Change one choice in the job file.

    Parameters
    ----------
    folder : Path
        Of the job.
    key : str
        As in ``mold.wall``.
    value : object
        What is typed; "" or None goes back to the default.
    seen : object
        What the field showed when it was changed.
    variant : str, optional
        Which one was looked at. A line that stands in the variant is changed there, any other in the file.
    only_here : bool
        Write it into the variant in any case.

    Returns
    -------
    str
        What changed, in words; "" for nothing.

    Raises
    ------
    Conflict
        Where the file says something else by now than what was seen.
    UserError
        Where the choice cannot be used; nothing has changed then.
    """
    refuse_unwritable([key, value or "", seen or ""], "key")
    choice = _known(key)
    typed = text_of(value).strip()
    return _edit(folder, lambda disk: _chosen(folder, disk.text, choice, typed, text_of(seen),
                                              variant, only_here=only_here))  # fmt: skip


def choose_bands(
    folder: Path,
    bands: Sequence[Mapping[str, Any]],
    seen: Sequence[Mapping[str, Any]],
    *,
    variant: str | None = None,
    only_here: bool = False,
) -> str:
    """Replace all bands of a job.

    Parameters
    ----------
    folder : Path
        Of the job.
    bands : sequence of Mapping
        As TOML reads them, from the mold's floor up; those that stay keep their comments.
    seen : sequence of Mapping
        As they were shown.
    variant, only_here
        As for `choose`; a variant's bands replace those of the file as a whole.

    Returns
    -------
    str
        What changed, in words; "" for nothing.

    Raises
    ------
    Conflict
        Where the file has other bands by now.
    UserError
        Where they cannot be used.
    """
    refuse_unwritable([bands, seen], "band")

    def edit(disk: OnDisk) -> str:
        root = _root(disk.text, variant, ("band",), only_here=only_here)
        raw = tomllib.loads(disk.text)
        there = at(raw, (*root, "band")) or (raw.get("band") if root else None) or []
        if _as_shown(there) != _as_shown(list(map(dict, seen))):
            raise Conflict("the bands have been changed elsewhere", where="band",
                           file=there, seen=seen, wanted=bands)  # fmt: skip
        new = with_bands(disk.text, bands, root)
        _refuse_faulty(new, "band")
        return new

    return _edit(folder, edit)


def _as_shown(bands: Sequence[Mapping[str, Any]]) -> Any:
    """Bands as a page has them: without the order of their keys, 1 and 1.0 alike."""
    return json.loads(json.dumps(bands, default=str))


def put_text(folder: Path, text: str, seen_sha: str) -> str:
    """Replace the whole text of a job file.

    Parameters
    ----------
    folder : Path
        Of the job.
    text : str
        The new one.
    seen_sha : str
        sha256 of the file that was looked at.

    Returns
    -------
    str
        What changed, in words; "" for nothing.

    Raises
    ------
    Conflict
        Where the file is another one by now.
    UserError
        Where the text cannot be used; its place begins with the line.
    """
    refuse_unwritable(text, "text")
    new = plain_lines(text)
    new = new if new.endswith("\n") else new + "\n"
    if len(new.encode()) > LARGEST:
        raise UserError("a text of more than 1 MB", where="text", allowed="up to 1 MB", todo="shorten it")

    def edit(disk: OnDisk) -> str:
        if disk.sha256 != seen_sha:
            raise Conflict("the file has been changed elsewhere", where="text",
                           file=disk.text, seen=seen_sha, wanted=new)  # fmt: skip
        if wrong := faults(new):
            first = wrong[0]
            place = f"line {first.line} {first.error.where}" if first.line else first.error.where
            raise UserError(first.error.what, where=place.strip(), allowed=first.error.allowed,
                            todo=first.error.todo)  # fmt: skip
        return new

    return _edit(folder, edit)


def undo(folder: Path) -> str:
    """Take the latest step back.

    Parameters
    ----------
    folder : Path
        Of the job.

    Returns
    -------
    str
        What was taken back, in words.

    Raises
    ------
    UserError
        Where there is nothing to take back.
    """
    return _walk(folder, -1)


def redo(folder: Path) -> str:
    """Do the step again that was taken back last.

    Parameters
    ----------
    folder : Path
        Of the job.

    Returns
    -------
    str
        What was done again, in words.

    Raises
    ------
    UserError
        Where there is nothing to do again.
    """
    return _walk(folder, 1)


def _walk(folder: Path, by: int) -> str:
    with one_at_a_time(folder):
        for _ in range(TRIES):
            disk = read_disk(folder)
            history = meet(folder, disk)
            step = history.undone if by < 0 else history.next
            if step is None:
                what = f"nothing to {'take back' if by < 0 else 'do again'}"
                raise UserError(what, where="undo" if by < 0 else "redo")
            try:
                state = history.step(by)
            except OSError as error:
                raise unwritable(error) from error
            if write_disk(folder, state.text, disk):
                return step.what
        raise _restless()


def _edit(folder: Path, edit: Edit) -> str:
    with one_at_a_time(folder):
        for _ in range(TRIES):
            disk = read_disk(folder)
            history = meet(folder, disk)
            new = edit(disk)
            if new == disk.text:
                return ""
            what = what_changed(disk.text, new)
            _record(history, new, what)
            if write_disk(folder, new, disk):
                return what
        raise _restless()


def _record(history: History, text: str, what: str) -> None:
    try:
        history.record(text, what)
    except OSError as error:
        raise unwritable(error) from error


def _restless() -> UserError:
    return UserError("the file changes all the time", where="text", todo="close what else writes into it")


def _known(key: str) -> Choice:
    choice = choices().get(key)
    if choice is None:
        raise UserError(f"no field is called {key!r}", where="key", todo="change it in the text of the file")
    return choice


def _chosen(
    folder: Path, text: str, choice: Choice, typed: str, seen: str, variant: str | None, *, only_here: bool
) -> str:
    root = _root(text, variant, choice.path, only_here=only_here)
    raw = tomllib.loads(text)
    there = text_of(_there(raw, root, choice.path))
    if there not in {seen, typed}:
        file = there or "nothing, so the default holds"
        raise Conflict(f"{choice.label} was changed elsewhere: the file says {file}",
                       where=choice.key, file=there, seen=seen, wanted=typed)  # fmt: skip
    if there == typed:
        return text
    value = toml_value(typed, choice.kind, choice.key) if typed else None
    _refuse_unknown(folder, choice, value, raw)
    new = with_companions(text, root, choice.path, value)
    _refuse_faulty(new, choice.key)
    return new


def _there(raw: Mapping[str, Any], root: KeyPath, path: KeyPath) -> Any:
    own = at(raw, (*root, *path))
    return at(raw, path) if own is None and root else own


def _root(text: str, variant: str | None, path: KeyPath, *, only_here: bool) -> KeyPath:
    """Where a line stands: in the variant, or in the file that all variants share."""
    if wrong := faults(text):
        error = wrong[0].error
        raise UserError(
            f"the file on disk cannot be read: {error.what}", where=error.where, allowed=error.allowed,
            todo="mend its text, or take the last good one",
        )  # fmt: skip
    number = variant_number(job_of(text), variant)
    if number is None:
        return ()
    root: KeyPath = ("variant", number)
    own = at(tomllib.loads(text), (*root, *path)) is not None
    return root if own or only_here else ()


def _refuse_unknown(folder: Path, choice: Choice, value: object, raw: Mapping[str, Any]) -> None:
    if choice.key not in IDS or value is None:
        return
    known = {each["id"] for each in named(choice, materials_of(folder), raw)}
    for name in value if isinstance(value, list) else [value]:
        if name not in known:
            raise UserError(
                f"no {choice.label[:1].lower()}{choice.label[1:]} called {name!r}", where=choice.key,
                allowed=", ".join(sorted(known)), todo="choose one of these",
            )  # fmt: skip


def _refuse_faulty(text: str, key: str) -> None:
    wrong = faults(text)
    if not wrong:
        return
    own = next((each for each in wrong if each.error.where == key), wrong[0]).error
    # a rule of the whole table is told beside the field that broke it
    where = key if not own.where or key.startswith(f"{own.where}.") else own.where
    raise UserError(own.what, where=where, allowed=own.allowed, todo=own.todo)

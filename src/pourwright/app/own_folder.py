"""A folder of answers: all of it or nothing, and never at the cost of the maker's other files."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fnmatch import fnmatchcase
from pathlib import Path

from pourwright.foundation.errors import UserError
from pourwright.foundation.files import staged_folder


@dataclass(frozen=True)
class OwnFolder:
    """A kind of folder that is replaced as a whole.

    Parameters
    ----------
    what : str
        What it holds, as in "a plan".
    mark : str
        The JSON file by which such a folder is known.
    schema : str
        What the ``schema`` of that file begins with.
    fleeting : tuple of str
        Files, ``*`` for any letters, that such a folder may hold from another time, and that then go.
    """

    what: str
    mark: str
    schema: str
    fleeting: tuple[str, ...] = ()

    def refuse_foreign(self, folder: Path) -> None:
        """Refuse a place that cannot be written to, or that belongs to something else.

        Parameters
        ----------
        folder : Path
            Where the answer is to go; it need not exist.

        Raises
        ------
        UserError
            For a file, a folder that holds other things and no such answer, the folder one is in, and a place
            that cannot be written to.
        """
        _refuse_unwritable(folder)
        if not folder.exists():
            return
        if not folder.is_dir() or (any(folder.iterdir()) and not self._is_ours(folder / self.mark)):
            raise UserError(
                f"the folder for {self.what} holds other things" if folder.is_dir() else "this is a file",
                where=str(folder),
                allowed=f"a new folder, an empty one, or one that holds {self.what}",
                todo="name another with --out",
            )

    def write(self, folder: Path, made: Mapping[str, bytes]) -> tuple[Path, ...]:
        """Write all files, or none.

        Parameters
        ----------
        folder : Path
            Replaced as a whole; what the maker has put beside an older answer is carried over.
        made : mapping
            Files by name, the mark among them.

        Returns
        -------
        tuple of Path
            The files, in their order.

        Raises
        ------
        UserError
            For a folder that is no place for it.
        """
        self.refuse_foreign(folder)
        with staged_folder(folder) as stage:
            _keep_foreign(folder, stage, (*made, *self.fleeting))
            for name, content in made.items():
                place = stage / name
                place.parent.mkdir(parents=True, exist_ok=True)
                place.write_bytes(content)
        return tuple(folder / name for name in made)

    def _is_ours(self, file: Path) -> bool:
        try:
            found = json.loads(file.read_text("utf8"))
        except (OSError, ValueError):
            return False
        return isinstance(found, dict) and str(found.get("schema")).startswith(self.schema)


def _refuse_unwritable(folder: Path) -> None:
    place = folder.absolute()
    if place == Path.cwd():
        todo = "name a folder inside it with --out"
        raise UserError("this is the folder you are in", where=str(folder), todo=todo)
    above = next(above for above in place.parents if above.exists())
    if not above.is_dir() or not os.access(above, os.W_OK | os.X_OK):
        what = f"nothing can be written into '{above}'"
        raise UserError(what, where=str(folder), todo="name another folder with --out")


def _keep_foreign(folder: Path, stage: Path, ours: Sequence[str]) -> None:
    if not folder.is_dir():
        return
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder)
        gone = any(fnmatchcase(name.as_posix(), own) for own in ours)
        if gone or (path.is_dir() and not path.is_symlink()):
            continue
        (stage / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(path, stage / name, follow_symlinks=False)

"""Open a shop folder, by one server at a time."""

from __future__ import annotations

from contextlib import AbstractContextManager
from pathlib import Path

from pourwright.foundation.errors import UserError
from pourwright.runs import only_one


def refuse_no_shop(shop: Path) -> None:
    """Refuse what is no folder.

    Parameters
    ----------
    shop : Path
        That is to be served.

    Raises
    ------
    UserError
        For a file, and for nothing at all.
    """
    if not shop.is_dir():
        what = "this is a file" if shop.exists() else "no such folder"
        raise UserError(
            what, where=str(shop), allowed="the folder that holds the jobs' folders", todo="mend the name"
        )


def alone_in(shop: Path, address: str) -> AbstractContextManager[None]:
    """Keep a second server out of a shop folder while the block runs.

    Parameters
    ----------
    shop : Path
        The folder.
    address : str
        Where this server is found, for whoever comes second.

    Returns
    -------
    context manager
        On entering it raises UserError where another server is at it.
    """
    return only_one(shop, "serving", address)

"""The shop's own file, `shop.toml`: who sells."""

from __future__ import annotations

import tomllib
from pathlib import Path

from pydantic import ValidationError

from pourwright.jobs.errors import JobError, findings, located, not_toml
from pourwright.jobs.fields import Title
from pourwright.jobs.job import nearest_line, place_of
from pourwright.jobs.keys import Section, key
from pourwright.jobs.lines import key_lines
from pourwright.jobs.texts import read_text


class Seller(Section):
    """Who stands on an offer."""

    name: Title = key("of the shop or the maker")
    address: list[Title] = key("lines below the name", factory=list, max_length=6)
    contact: list[Title] = key("telephone, mail, page", factory=list, max_length=4)


class ShopFile(Section):
    """A shop's file; an empty one only marks the shop's folder."""

    seller: Seller | None = key("who sells", shown="none: lines to fill in")


def load_shop(file: Path) -> ShopFile:
    """Read and check a shop's file.

    Parameters
    ----------
    file : Path
        ``shop.toml``.

    Returns
    -------
    ShopFile

    Raises
    ------
    JobError
        With file and line of everything that is wrong.
    """
    text = read_text(
        file, "shop file", missing="mend its name", instead="give the shop.toml, saved as UTF-8 text"
    )
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise not_toml(file, str(error)) from None
    except RecursionError:
        raise JobError("lists or tables nested too deep", where=str(file), todo="mend the file") from None
    lines = key_lines(text)
    try:
        return ShopFile.model_validate(raw)
    except ValidationError as error:
        found = findings(error, ShopFile)
        raise JobError.of(
            located(
                found, lambda path: place_of(file, lines, path), lambda path: nearest_line(lines, path) or 0
            )
        ) from None

"""The shop's own file, `shop.toml`: who sells."""

from __future__ import annotations

from pathlib import Path

from pourwright.jobs.fields import Title
from pourwright.jobs.keys import Section, key
from pourwright.jobs.texts import read_text
from pourwright.jobs.toml_checked import checked_model, parsed_toml


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
    raw, lines = parsed_toml(text, file)
    return checked_model(raw, lines, file, ShopFile, lambda _: ())

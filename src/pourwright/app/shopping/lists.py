"""Which order lists a shop folder has."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pourwright.app.shelf.places import job_places
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.jobs.orders_loading import load_orders

ORDERS = "orders.toml"


@dataclass(frozen=True)
class ListPlace:
    """An order list of a shop.

    Parameters
    ----------
    name : str
        Its file as seen from the shop folder, as ``table-lamp/orders.toml``.
    file : Path
        The file.
    """

    name: str
    file: Path

    @property
    def title(self) -> str:
        """What it is called; its name where it cannot be read."""
        try:
            return load_orders(self.file).title
        except UserError:
            return self.name


def list_places(shop: Path) -> tuple[ListPlace, ...]:
    """Find the order lists of a shop: its own, then those of its jobs."""
    found = [ListPlace(ORDERS, shop / ORDERS)]
    found += [ListPlace(f"{job.name}/{ORDERS}", job.folder / ORDERS) for job in job_places(shop)]
    return tuple(one for one in found if one.file.is_file())


def list_place(shop: Path, name: str | None) -> ListPlace | None:
    """Find a list by its name, among those that are there and nowhere else.

    Parameters
    ----------
    shop : Path
        The shop folder.
    name : str or None
        As somebody wrote it; None is the first.

    Returns
    -------
    ListPlace or None
        None where none was named and there is none.

    Raises
    ------
    NotThereError
        Where no list has that name.
    """
    places = list_places(shop)
    if name is None:
        return places[0] if places else None
    for place in places:
        if place.name == name:
            return place
    raise NotThereError(
        "no order list has this name", where="list", todo="look at /orders: it may have been moved"
    )

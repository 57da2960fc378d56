"""The stock as the page shows it: what there is by group and thing, each lot with its moves, in words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from pourwright.app.booking.clock import shown_day, shown_when
from pourwright.app.booking.counting import AMOUNTS, zone_of
from pourwright.app.booking.keeping import kept_told
from pourwright.app.booking.looking import looked_into
from pourwright.app.booking.settling import LEAST, casts_of_mold
from pourwright.app.booking.stock import history_of_lot, stock_of, told_lot
from pourwright.app.booking.words import shown_amount
from pourwright.foundation.errors import NotThereError
from pourwright.foundation.notation import System, UnitSystem
from pourwright.records import LOT_KINDS, Book, lot_by_id, plan_by_id, pour_by_id
from pourwright.records.moments import now

GROUPS: dict[str, tuple[str, ...]] = {
    "Kits": ("resin", "rubber", "powder"),
    "Glass": ("glass",),
    "Boards and offcuts": ("board",),
    "Consumables": ("consumable",),
}
KIND_NAMES: dict[str, str] = {
    "resin": "resin",
    "rubber": "rubber",
    "powder": "powder",
    "glass": "crushed glass",
    "board": "board or offcut",
    "consumable": "consumable",
    "mold": "mold",
}
SOON = timedelta(days=60)
"""What goes off within this time is told."""
_NOTHING: dict[str, Any] = {"lots": [], "things": [], "short": [], "molds": []}


class _Says:
    """Days, moments and amounts of one shop."""

    def __init__(self, zone: str, units: System) -> None:
        self.zone, self.units = zone, UnitSystem(units)

    def day(self, iso: str | None) -> str:
        return shown_day(None if iso is None else datetime.fromisoformat(iso), self.zone)

    def moment(self, iso: str) -> str:
        return shown_when(datetime.fromisoformat(iso), self.zone, self.units)

    def amount(self, amount: float, unit: str) -> str:
        return shown_amount(amount, unit, self.units)


def stock_told(shop: Path) -> dict[str, Any]:
    """Tell the stock.

    Parameters
    ----------
    shop : Path
        Its folder.

    Returns
    -------
    dict
        ``groups`` of ``things`` with their ``lots``, the first to expire first; ``short``, for whom it is
        ``kept``, what goes off ``soon``, ``molds``, what is ``used_up``; how a lot is written (``kinds``).
    """
    with looked_into(shop) as look:
        says = _Says(*(("UTC", UnitSystem.METRIC) if look is None else zone_of(look.book)))
        stock = _NOTHING if look is None else stock_of(look.book)
        kept = [] if look is None else kept_told(look.book, says.zone)
        told = () if look is None else look.told
    lots = [_lot(one, says) for one in stock["lots"]]
    there = [one for one in lots if one["left"] > LEAST]
    things = [_thing(one, there, says) for one in stock["things"]]
    return {
        "groups": [
            {"name": name, "things": [one for one in things if one["kind"] in kinds and _matters(one)]}
            for name, kinds in GROUPS.items()
        ],
        "short": [_short(one, says) for one in stock["short"]],
        "kept": kept,
        "soon": _soon(there),
        "molds": [one | {"made_on": says.day(one["made"])} for one in stock["molds"]],
        "used_up": [one for one in lots if one["left"] <= LEAST],
        "kinds": {
            kind: {"name": KIND_NAMES[kind], "amount": AMOUNTS[unit]} for kind, unit in LOT_KINDS.items()
        },
        "materials": sorted({one["material"] for one in stock["things"] if one["material"]}),
        "told": list(told),
    }


def name_of(thing: Mapping[str, Any]) -> str:
    """Call a thing by its name.

    Parameters
    ----------
    thing : mapping
        With ``kind``, ``material``, ``colour`` and ``grade``.

    Returns
    -------
    str

    Examples
    --------
    >>> name_of({"kind": "glass", "material": "", "colour": "green", "grade": "coarse"})
    'green, coarse'
    >>> name_of({"kind": "resin", "material": "epoxy-slow-deep", "colour": "", "grade": "A"})
    'epoxy-slow-deep, part A'
    """
    grade = grade_words(thing["kind"], thing["grade"])
    # crushed glass is known by colour and grade alone
    material = "" if thing["kind"] == "glass" else thing["material"]
    return ", ".join(part for part in (material, thing["colour"], grade) if part) or KIND_NAMES[thing["kind"]]


def grade_words(kind: str, grade: str) -> str:
    """Say which grade of glass, or which part of a kit.

    Parameters
    ----------
    kind, grade : str
        Of a lot.

    Returns
    -------
    str
    """
    return f"part {grade}" if grade and kind in GROUPS["Kits"] else grade


def _matters(thing: Mapping[str, Any]) -> bool:
    return bool(thing["lots"]) or thing["reserved"] > LEAST


def _thing(thing: Mapping[str, Any], lots: Iterable[Mapping[str, Any]], says: _Says) -> dict[str, Any]:
    unit = thing["unit"]
    own = [one for one in lots if one["of"] == _key(thing)]
    amounts = {f"{name}_shown": says.amount(thing[name], unit) for name in ("left", "reserved", "free")}
    return {**thing, **amounts, "name": name_of(thing), "lots": own}


def _key(thing: Mapping[str, Any]) -> list[str]:
    material = "" if thing["kind"] == "glass" else thing["material"]
    return [thing["kind"], material, thing["colour"], thing["grade"]]


def _lot(lot: Mapping[str, Any], says: _Says) -> dict[str, Any]:
    return {
        **lot,
        "of": _key(lot),
        "left_shown": says.amount(lot["left"], lot["unit"]),
        **{f"{name}_on": says.day(lot[name]) for name in ("bought", "opened", "expires")},
    }


def _soon(lots: Iterable[dict[str, Any]]) -> list[dict[str, Any]]:
    near = [one for one in lots if one["expires"] and datetime.fromisoformat(one["expires"]) < now() + SOON]
    return sorted(near, key=lambda one: str(one["expires"]))


def _short(short: Mapping[str, Any], says: _Says) -> dict[str, Any]:
    missing = says.amount(short["missing"], short["unit"])
    when = says.moment(short["at"])
    return {**short, "name": name_of(short), "missing_shown": missing, "when": when}


def lot_told(shop: Path, lot: int) -> dict[str, Any]:
    """Tell one lot, with every move that made it more or less.

    Parameters
    ----------
    shop : Path
        Its folder.
    lot : int
        Its number.

    Returns
    -------
    dict
        As in the stock, with its ``moves``, each with the pour it was for.

    Raises
    ------
    NotThereError
        Where there is none.
    """
    with looked_into(shop) as look:
        if look is None:
            raise NotThereError(
                f"no lot {lot} is in the book", where="lot", todo="put it on stock first: /book/stock"
            )
        book, says = look.book, _Says(*zone_of(look.book))
        found = lot_by_id(book, lot)
        moves = [_move(book, one, found.unit, says) for one in history_of_lot(book, lot)]
        told = _lot(told_lot(found), says)
        casts = casts_of_mold(book, found) if found.kind == "mold" else None
    about = {"kind_name": KIND_NAMES[found.kind], "amount": AMOUNTS[found.unit], "told": list(look.told)}
    return told | about | {"moves": moves, "casts": casts}


def _move(book: Book, move: Mapping[str, Any], unit: str, says: _Says) -> dict[str, Any]:
    return {
        "at": move["at"],
        "when": says.day(move["at"]),
        "why": move["why"],
        "change": move["change"],
        "change_shown": says.amount(move["change"], unit),
        "left": move["left"],
        "left_shown": says.amount(move["left"], unit),
        "pour": None if move["pour"] is None else _pour(book, move["pour"]),
    }


def _pour(book: Book, pour_id: int) -> dict[str, Any]:
    pour = pour_by_id(book, pour_id)
    plan = plan_by_id(book, pour.plan_id)
    return {"job": plan.job, "variant": plan.variant, "title": plan.title} | {
        "casting": pour.casting,
        "number": pour.number,
    }

"""Read material records from TOML: the package's own families, then the shop's.

A shop record with a known id replaces the whole record; nothing is merged silently.
"""

from __future__ import annotations

import dataclasses
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any, get_type_hints

from pourwright.foundation.errors import UserError
from pourwright.foundation.quantities import UNITS, Dimension
from pourwright.foundation.sources import Kind, Sourced
from pourwright.materials.doubts import read_doubts
from pourwright.materials.records import (
    Board,
    Core,
    CureLaw,
    Gas,
    Glass,
    Grade,
    Mineral,
    Resin,
    Rubber,
    Solid,
)

KINDS: Mapping[str, type] = {
    "resin": Resin,
    "rubber": Rubber,
    "glass": Glass,
    "board": Board,
    "core": Core,
    "mineral": Mineral,
    "gas": Gas,
}
SI = {
    "kg/m3": Dimension.DENSITY,
    "J/(kg K)": Dimension.HEAT_CAPACITY,
    "W/(m K)": Dimension.CONDUCTIVITY,
    "J/kg": Dimension.SPECIFIC_ENERGY,
    "J/mol": Dimension.MOLAR_ENERGY,
    "Pa s": Dimension.VISCOSITY,
    "1/s": Dimension.RATE,
    "K": Dimension.TEMPERATURE,
    "s": Dimension.TIME,
    "m": Dimension.LENGTH,
    "kg": Dimension.MASS,
    "K difference": Dimension.TEMPERATURE_DIFFERENCE,
    "Pa": Dimension.PRESSURE,
    "": Dimension.SHARE,
}
Record = Resin | Rubber | Glass | Board | Core | Mineral | Gas


@dataclass(frozen=True)
class Materials:
    """All records at hand, by id within their kind."""

    resin: Mapping[str, Resin]
    rubber: Mapping[str, Rubber]
    glass: Mapping[str, Glass]
    board: Mapping[str, Board]
    core: Mapping[str, Core]
    mineral: Mapping[str, Mineral]
    gas: Mapping[str, Gas]

    def find(self, kind: str, name: str, where: str = "") -> Any:
        """Return the record ``name`` of one kind.

        Parameters
        ----------
        kind : str
            "resin", "rubber", "glass", "board", "core", "mineral" or "gas".
        name : str
            Id of the record.
        where : str
            File and line to print when it is unknown.

        Returns
        -------
        Record
            The typed record.

        Raises
        ------
        UserError
            Where no such record exists; it lists those that do.
        """
        shelf: Mapping[str, Any] = getattr(self, kind)
        if name not in shelf:
            raise UserError(
                f"no {kind} called '{name}'",
                where=where,
                allowed=", ".join(sorted(shelf)),
                todo=f"choose one of these, or add a record to the shop's materials/{kind}.toml",
            )
        return shelf[name]

    def casting(self, name: str, where: str = "") -> Resin | Mineral:
        """Return a casting material: a resin, or one that is mixed with water.

        Parameters
        ----------
        name : str
            Id of the record.
        where : str
            File and line to print when it is unknown.

        Returns
        -------
        Resin or Mineral
            The typed record.

        Raises
        ------
        UserError
            Where no such record exists; it lists those that do.
        """
        found = self.resin.get(name) or self.mineral.get(name)
        if found is None:
            raise UserError(
                f"no casting material called '{name}'",
                where=where,
                allowed=", ".join(sorted({*self.resin, *self.mineral})),
                todo="choose one of these, or add a record to the shop's materials/resin.toml",
            )
        return found


def load_materials(shop_folder: Path | None = None) -> Materials:
    """Load the package's families and, on top, the shop's own records.

    Parameters
    ----------
    shop_folder : Path, optional
        Folder that may hold ``materials/<kind>.toml``.

    Returns
    -------
    Materials
        Typed records by kind and id.

    Raises
    ------
    UserError
        Where a record is incomplete, unknown or of the wrong dimension.
    """
    # each shelf holds records of one class only, which the type of a mapping cannot say
    shelves: dict[str, dict[str, Any]] = {kind: dict(records) for kind, records in _own().items()}
    for kind, path in _shop_files(shop_folder):
        shelves[kind].update(_read(kind, path.read_text("utf8"), str(path)))
    return Materials(**shelves)


@cache
def _own() -> Mapping[str, Mapping[str, Record]]:
    folder = resources.files("pourwright") / "data" / "materials"
    return {kind: _read(kind, (folder / f"{kind}.toml").read_text("utf8"), f"{kind}.toml") for kind in KINDS}


def _shop_files(shop_folder: Path | None) -> Iterator[tuple[str, Path]]:
    if shop_folder is None:
        return
    for path in sorted((shop_folder / "materials").glob("*.toml")):
        if path.stem not in KINDS:
            raise UserError(
                f"no kind of material is called '{path.stem}'",
                where=str(path),
                allowed=", ".join(KINDS),
                todo="rename the file after the kind of its records",
            )
        yield path.stem, path


def _read(kind: str, text: str, where: str) -> dict[str, Any]:
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise UserError(f"not a TOML file: {error}", where=where, todo="mend the line") from None
    return {
        name: build(KINDS[kind], {"id": name, **table}, f"{where} [{name}]") for name, table in tables.items()
    }


def build(cls: type, table: Mapping[str, Any], where: str) -> Any:
    """Build one typed record from its table.

    Parameters
    ----------
    cls : type
        Dataclass of the record.
    table : Mapping
        Keys and values as read from TOML.
    where : str
        File and record, for messages.

    Returns
    -------
    object
        An instance of ``cls`` with every number in SI.

    Raises
    ------
    UserError
        Unknown or missing key, or a unit of another dimension.
    """
    fields = {item.name: item for item in dataclasses.fields(cls)}
    optional = {name for name, item in fields.items() if item.default is not dataclasses.MISSING}
    _same_keys(set(fields), set(table), where, optional)
    hints = get_type_hints(cls)
    given = [name for name in fields if name in table]
    return cls(**{name: _value(hints[name], fields[name], table[name], f"{where} {name}") for name in given})


def _same_keys(
    wanted: set[str], given: set[str], where: str, optional: set[str] | frozenset[str] = frozenset()
) -> None:
    for key in sorted(given - wanted):
        raise UserError(
            f"unknown key '{key}'", where=where, allowed=", ".join(sorted(wanted)), todo="remove it"
        )
    for key in sorted(wanted - given - optional):
        raise UserError(f"'{key}' is missing", where=where, todo="add it with value, unit, kind and source")


def _value(hint: Any, item: dataclasses.Field[Any], raw: Any, where: str) -> Any:
    if hint in (Sourced, Sourced | None):
        return _sourced(raw, str(item.metadata["unit"]), where)
    if hint in (CureLaw, Solid):
        return build(hint, raw, where)
    if item.name == "doubts":
        return read_doubts(raw, where)
    if item.name == "grades":
        return tuple(build(Grade, {"id": name, **table}, f"{where}.{name}") for name, table in raw.items())
    return raw


def _sourced(raw: Any, unit: str, where: str) -> Sourced:
    _same_keys(
        {"value", "unit", "low", "high", "kind", "source", "conditions"},
        set(raw) | {"conditions", "low", "high"},
        where,
    )
    scale, shift = _to_si(str(raw["unit"]), unit, where)
    low, high = (None if raw.get(key) is None else raw[key] * scale + shift for key in ("low", "high"))
    try:
        kind = Kind(raw["kind"])
    except ValueError:
        raise UserError(f"unknown kind '{raw['kind']}'", where=where, allowed=", ".join(Kind)) from None
    value = raw["value"] * scale + shift
    if (low is not None and value < low) or (high is not None and value > high):
        raise UserError(
            f"value {raw['value']} lies outside its own range", where=where, todo="mend low or high"
        )
    return Sourced(value, unit, low, high, kind, raw["source"], raw.get("conditions", ""))


def _to_si(given: str, wanted: str, where: str) -> tuple[float, float]:
    if given == wanted:
        return 1.0, 0.0
    unit = UNITS[SI[wanted]].get(given) if wanted in SI else None
    if unit is not None:
        return float(unit.factor), float(unit.offset)
    raise UserError(
        f"unit '{given}' does not fit", where=where, allowed=wanted or "no unit", todo="give that unit"
    )

"""What a key of the job file holds, as the page asks for it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal, get_args, get_origin

from pydantic.fields import FieldInfo

from pourwright.foundation.quantities import Dimension

CHOICE, YES_NO, COUNT, NUMBER, SHARE, TEXT = "choice", "yes-no", "count", "number", "share", "text"
DATE, MOMENT, HOURS, ZONE, DIRECTION = "date", "moment", "hours", "time zone", "direction"
PLAIN = (CHOICE, YES_NO, COUNT, NUMBER, SHARE, TEXT, DATE, MOMENT, HOURS, ZONE, DIRECTION)
_EXAMPLES = {"08:00-18:00": HOURS, "2026-12-01 09:00": MOMENT, "Europe/Berlin": ZONE}
_SIMPLE = {bool: YES_NO, int: COUNT, float: NUMBER, str: TEXT}


@dataclass(frozen=True)
class Kind:
    """What a key holds.

    Parameters
    ----------
    name : str
        One of `PLAIN`, or dimensions joined by "or".
    many : bool
        A list of them.
    allowed : tuple of str
        Where only these are.
    """

    name: str
    many: bool = False
    allowed: tuple[str, ...] = ()


def dimensions(kind: str) -> tuple[Dimension, ...]:
    """Name the dimensions that a kind may be written in.

    Parameters
    ----------
    kind : str
        As in `Kind`.

    Returns
    -------
    tuple of Dimension
        Empty for a kind without unit.

    Examples
    --------
    >>> dimensions("mass or volume")
    (<Dimension.MASS: 'mass'>, <Dimension.VOLUME: 'volume'>)
    """
    known = {str(each) for each in Dimension} - {SHARE}
    parts = kind.split(" or ")
    return tuple(map(Dimension, parts)) if set(parts) <= known else ()


def kind_of(info: FieldInfo) -> Kind | None:
    """Tell what a key holds.

    Parameters
    ----------
    info : FieldInfo
        The key.

    Returns
    -------
    Kind or None
        None for tables and other things that no single field can hold.
    """
    schemas = [item.json_schema for item in info.metadata if hasattr(item, "json_schema")]
    if schemas:
        return _of_schema(schemas[0])
    return _of(info.annotation)


def _of(annotation: Any) -> Kind | None:
    schema = next(_schemas(annotation), None)
    if schema is not None:
        return _of_schema(schema)
    origin, parts = get_origin(annotation), get_args(annotation)
    if origin is Literal:
        words = tuple(str(each) for each in parts)
        return Kind(CHOICE, allowed=words) if all(isinstance(each, str) for each in parts) else None
    if origin is list:
        inner = _of(parts[0])
        return None if inner is None or inner.many else Kind(inner.name, many=True, allowed=inner.allowed)
    if origin is dict:
        return None
    if parts:
        return next((found for each in parts if (found := _of(each)) is not None), None)
    return Kind(_SIMPLE[annotation]) if annotation in _SIMPLE else None


def _schemas(annotation: Any) -> Iterator[dict[str, Any]]:
    for part in getattr(annotation, "__metadata__", ()):
        if hasattr(part, "json_schema") and part.json_schema:
            yield part.json_schema


def _of_schema(schema: dict[str, Any]) -> Kind | None:
    title, example = schema.get("title", ""), str(schema.get("examples", [""])[0])
    if "anyOf" in schema:
        return Kind(SHARE)
    if schema.get("format") == DATE:
        return Kind(DATE)
    if title == "sieve":
        return None
    if dimensions(title):
        return Kind(title)
    if "oneOf" in schema:
        return Kind(DIRECTION)
    return Kind(_EXAMPLES.get(example, TEXT))

"""Between what is typed into a field and what stands in the file."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from types import MappingProxyType
from typing import Any

from pydantic import TypeAdapter, ValidationError

from pourwright.app.choosing.kinds import (
    COUNT,
    DATE,
    DIRECTION,
    HOURS,
    MOMENT,
    NUMBER,
    PLAIN,
    SHARE,
    YES_NO,
    ZONE,
    Kind,
    dimensions,
)
from pourwright.app.choosing.other_units import other_of
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_moment, parse_quantity
from pourwright.foundation.quantities import EXAMPLES, Dimension, Quantity
from pourwright.jobs.fields import Day, Moment, Refused, TimeZone, WorkingHours

_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?\Z")
_WORDS = {"true": True, "yes": True, "false": False, "no": False}
_TYPES: Mapping[str, TypeAdapter[Any]] = MappingProxyType(
    {DATE: TypeAdapter(Day), MOMENT: TypeAdapter(Moment), HOURS: TypeAdapter(WorkingHours),
     ZONE: TypeAdapter(TimeZone)}
)  # fmt: skip
LONGEST = 2000
"""Letters that a field takes."""


@dataclass(frozen=True)
class Read:
    """What a text was read as.

    Parameters
    ----------
    text : str
        As typed, without blanks around it.
    si : float or None
        In SI, for a quantity, a share or a number.
    other : str
        The same in other units or words; "" where there is nothing to add.
    """

    text: str
    si: float | None = None
    other: str = ""


def read_as(text: str, kind: str, *, where: str = "") -> Read:
    """Read what is typed into a field.

    Parameters
    ----------
    text : str
        As typed.
    kind : str
        What the field holds: "length", "temperature", "share", "count", "date" and so on.
    where : str
        Key of the field, for the error.

    Returns
    -------
    Read

    Raises
    ------
    UserError
        One sentence where it cannot be read, or where nothing of that kind is known.

    Examples
    --------
    >>> read_as("19.05 mm", "length").other, read_as("20 degC", "temperature").other
    ('3/4 in', '68 °F')
    """
    text = text.strip()
    if len(text) > LONGEST:
        raise UserError(
            f"a text of {len(text)} letters", where=where, allowed=f"up to {LONGEST}", todo="shorten it"
        )
    if kinds := dimensions(kind):
        quantity = _quantity(text, kinds, where)
        return Read(text, quantity.si, other_of(quantity))
    if kind not in _READERS:
        raise UserError(
            f"nothing is known that is a {kind!r}", where=where or "as",
            allowed=", ".join((*PLAIN, "length", "mass", "volume", "temperature", "time")),
        )  # fmt: skip
    return _READERS[kind](text, where)


def toml_value(text: str, kind: Kind, where: str = "") -> object:
    """Turn what is typed into a field into what the file holds.

    Parameters
    ----------
    text : str
        As typed; not empty.
    kind : Kind
        Of the field.
    where : str
        Its key, for the error.

    Returns
    -------
    object
        Text, number, truth or list.

    Raises
    ------
    UserError
        Where it cannot be read.
    """
    if kind.many:
        parts = [part.strip() for part in re.split(r"[,;\n]", text) if part.strip()]
        return [toml_value(part, Kind(kind.name, allowed=kind.allowed), where) for part in parts]
    read = read_as(text, kind.name, where=where)
    if kind.allowed and read.text not in kind.allowed:
        raise UserError(
            f"{read.text!r} is not known here", where=where, allowed=", ".join(kind.allowed),
            todo="choose one of these",
        )  # fmt: skip
    if kind.name == YES_NO:
        return _WORDS[read.text.lower()]
    if kind.name == COUNT:
        return int(read.text)
    if kind.name in {NUMBER, SHARE} and _NUMBER.match(read.text):
        return float(read.text)
    if kind.name == DIRECTION and "," in read.text:
        return [float(part) for part in read.text.split(",")]
    return read.text


def text_of(value: Any) -> str:
    """Write what the file holds as it stands in a field.

    Parameters
    ----------
    value : object
        As TOML reads it, or as JSON brings it; None for nothing.

    Returns
    -------
    str
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, datetime):
        return value.isoformat(" ", "minutes")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, list | tuple):
        return ", ".join(map(text_of, value))
    return str(value)


def refuse_unwritable(value: Any, where: str) -> None:
    """Refuse what no file of text can hold.

    Parameters
    ----------
    value : object
        As JSON brings it.
    where : str
        Key of the field, for the error.

    Raises
    ------
    UserError
        For null within a list or table, numbers without end, halves of letters.
    """
    if isinstance(value, Mapping):
        refuse_unwritable([*value, *value.values()], where)
    elif isinstance(value, list | tuple):
        for each in value:
            refuse_unwritable(each, where)
    elif value is None or (isinstance(value, float) and not math.isfinite(value)):
        raise UserError(f"{value} cannot be written", where=where, todo="leave it out")
    elif isinstance(value, str) and any("\ud800" <= letter <= "\udfff" for letter in value):
        raise UserError("half of a letter cannot be written", where=where, todo="type it again")


def read_list(text: str, kind: Kind) -> Read:
    """Read a whole field, also one that holds several values.

    Parameters
    ----------
    text : str
        As it stands in the field.
    kind : Kind
        Of the field.

    Returns
    -------
    Read
        The other units of each; nothing where it cannot be read, which the file's own check tells.
    """
    parts = [part.strip() for part in text.split(",")] if kind.many else [text]
    try:
        read = [read_as(part, kind.name) for part in parts]
    except UserError:
        return Read(text)
    other = ", ".join(each.other for each in read) if all(each.other for each in read) else ""
    return Read(text, read[0].si if len(read) == 1 else None, other)


def _quantity(text: str, kinds: tuple[Dimension, ...], where: str) -> Quantity:
    refusal = UserError("nothing is written", where=where, todo=f"write for example {EXAMPLES[kinds[0]]}")
    for kind in reversed(kinds) if text else ():
        try:
            return parse_quantity(text, kind, where=where)
        except UserError as error:
            refusal = error
    raise refusal


def _share(text: str, where: str) -> Read:
    quantity = _quantity(text, (Dimension.SHARE,), where)
    if abs(quantity.si) > 1:
        raise UserError(
            f"a share of {quantity.si:g}", where=where, allowed="0 to 1, or a text in %",
            todo="write 0.05 or 5 %",
        )  # fmt: skip
    return Read(text, quantity.si, "" if text.endswith("%") else other_of(quantity))


def _number(text: str, where: str) -> Read:
    if not _NUMBER.match(text):
        raise UserError(f"{text!r} is not a number", where=where, todo="write for example 1.5")
    return Read(text, float(text))


def _count(text: str, where: str) -> Read:
    if not re.fullmatch(r"\d{1,9}", text):
        raise UserError(f"{text!r} is not a whole number", where=where, todo="write for example 2")
    return Read(text, float(text))


def _yes_no(text: str, where: str) -> Read:
    if text.lower() not in _WORDS:
        raise UserError(f"{text!r} is neither yes nor no", where=where, allowed="true, false")
    return Read(text)


def _direction(text: str, where: str) -> Read:
    parts = [part.strip() for part in text.split(",")]
    if len(parts) > 1 and not all(map(_NUMBER.match, parts)):
        raise UserError(
            f"{text!r} is no direction", where=where, allowed="+x, -x, +y, -y, +z, -z, or three numbers",
            todo="write for example 0, 0.5, 1",
        )  # fmt: skip
    return Read(text)


def _typed(kind: str) -> Callable[[str, str], Read]:
    def read(text: str, where: str) -> Read:
        try:
            value = _TYPES[kind].validate_python(text)
        except ValidationError as error:
            reason = error.errors()[0].get("ctx", {}).get("error")
            if not isinstance(reason, Refused):
                raise UserError(f"{text!r} is no {kind}", where=where) from None
            raise UserError(reason.what, where=where, allowed=reason.allowed, todo=reason.todo) from None
        return Read(text, other=format_moment(value, UnitSystem.METRIC) if kind == MOMENT else "")

    return read


_READERS: Mapping[str, Callable[[str, str], Read]] = MappingProxyType(
    {each: lambda text, _: Read(text) for each in PLAIN}
    | {"id": lambda text, _: Read(text)}
    | {each: _typed(each) for each in _TYPES}
    | {SHARE: _share, NUMBER: _number, COUNT: _count, YES_NO: _yes_no, DIRECTION: _direction}
)

"""Kinds of values in a job file: text with a unit becomes an exact quantity."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Annotated
from zoneinfo import ZoneInfo

from pydantic import Field, PlainSerializer, PlainValidator, WithJsonSchema

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import EXAMPLES, Dimension, Quantity


class Refused(ValueError):  # noqa: N818 - becomes a UserError once its line is known
    """A value that cannot be used: what is wrong, what is allowed, what to do, at which key of a table."""

    def __init__(self, what: str, allowed: str = "", todo: str = "", key: str = "") -> None:
        super().__init__(what)
        self.what, self.allowed, self.todo, self.key = what, allowed, todo, key


def _shown(value: object) -> str:
    return str(value).lower() if isinstance(value, bool) else f"{value!r}"


def _refuse_other_than_text(value: object, example: str) -> str:
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise Refused(f"{_shown(value)} is not a quantity", todo=f'write for example "{example}"')
    if not isinstance(value, str):
        raise Refused(
            f"{value:g} has no unit", todo=f'write it in quotes with its unit, for example "{example}"'
        )
    return value


def _reader(*dimensions: Dimension) -> Callable[[object], Quantity]:
    def read(value: object) -> Quantity:
        if isinstance(value, Quantity):
            return value
        text = _refuse_other_than_text(value, EXAMPLES[dimensions[0]].split(",")[0].split(" or ")[0])
        return _first_that_fits(text, dimensions)

    return read


def _first_that_fits(text: str, dimensions: tuple[Dimension, ...]) -> Quantity:
    refusal = UserError("")
    for dimension in reversed(dimensions):
        try:
            return parse_quantity(text, dimension)
        except UserError as error:
            refusal = error
    raise Refused(refusal.what, refusal.allowed, refusal.todo)


def _schema(*dimensions: Dimension) -> WithJsonSchema:
    names = " or ".join(dimensions)
    return WithJsonSchema({"type": "string", "title": names, "examples": [EXAMPLES[dimensions[0]]]})


_AS_TEXT = PlainSerializer(lambda quantity: quantity.text, return_type=str)


Length = Annotated[Quantity, PlainValidator(_reader(Dimension.LENGTH)), _AS_TEXT, _schema(Dimension.LENGTH)]


def _opening(value: object) -> Quantity:
    """The opening of a sieve: its name by the standard, or a length."""
    # only a job with sieves needs the records
    from pourwright.materials.sieves import opening_of  # noqa: PLC0415

    named = opening_of(value) if isinstance(value, str) else None
    if named is not None:
        return Quantity(named, Dimension.LENGTH, str(value))
    try:
        return _reader(Dimension.LENGTH)(value)
    except Refused as refusal:
        allowed = 'the sieve\'s name, as "No. 8", or its opening, as "6.3 mm" or "1/4 in"'
        raise Refused(refusal.what, allowed, "read it on the sieve's rim") from None


Opening = Annotated[
    Quantity,
    PlainValidator(_opening),
    _AS_TEXT,
    WithJsonSchema({"type": "string", "title": "sieve", "examples": ["6.3 mm", "No. 8"]}),
]
Mass = Annotated[Quantity, PlainValidator(_reader(Dimension.MASS)), _AS_TEXT, _schema(Dimension.MASS)]
Volume = Annotated[Quantity, PlainValidator(_reader(Dimension.VOLUME)), _AS_TEXT, _schema(Dimension.VOLUME)]
_WATER = (Dimension.VOLUME, Dimension.MASS)
Water = Annotated[Quantity, PlainValidator(_reader(*_WATER)), _AS_TEXT, _schema(*_WATER)]
_LOST = (Dimension.MASS, Dimension.VOLUME)
Lost = Annotated[Quantity, PlainValidator(_reader(*_LOST)), _AS_TEXT, _schema(*_LOST)]
WaterReading = Annotated[
    Quantity,
    PlainValidator(_reader(Dimension.LENGTH, *_WATER)),
    _AS_TEXT,
    _schema(Dimension.LENGTH, *_WATER),
]
Temperature = Annotated[
    Quantity, PlainValidator(_reader(Dimension.TEMPERATURE)), _AS_TEXT, _schema(Dimension.TEMPERATURE)
]
Density = Annotated[
    Quantity, PlainValidator(_reader(Dimension.DENSITY)), _AS_TEXT, _schema(Dimension.DENSITY)
]
Duration = Annotated[Quantity, PlainValidator(_reader(Dimension.TIME)), _AS_TEXT, _schema(Dimension.TIME)]
Rate = Annotated[Quantity, PlainValidator(_reader(Dimension.RATE)), _AS_TEXT, _schema(Dimension.RATE)]
Film = Annotated[Quantity, PlainValidator(_reader(Dimension.FILM)), _AS_TEXT, _schema(Dimension.FILM)]
MolarEnergy = Annotated[
    Quantity, PlainValidator(_reader(Dimension.MOLAR_ENERGY)), _AS_TEXT, _schema(Dimension.MOLAR_ENERGY)
]
SpecificEnergy = Annotated[
    Quantity,
    PlainValidator(_reader(Dimension.SPECIFIC_ENERGY)),
    _AS_TEXT,
    _schema(Dimension.SPECIFIC_ENERGY),
]
HeatCapacity = Annotated[
    Quantity, PlainValidator(_reader(Dimension.HEAT_CAPACITY)), _AS_TEXT, _schema(Dimension.HEAT_CAPACITY)
]
Conductivity = Annotated[
    Quantity, PlainValidator(_reader(Dimension.CONDUCTIVITY)), _AS_TEXT, _schema(Dimension.CONDUCTIVITY)
]
Viscosity = Annotated[
    Quantity, PlainValidator(_reader(Dimension.VISCOSITY)), _AS_TEXT, _schema(Dimension.VISCOSITY)
]
Angle = Annotated[Quantity, PlainValidator(_reader(Dimension.ANGLE)), _AS_TEXT, _schema(Dimension.ANGLE)]
_PER_MASS = (Dimension.MONEY_PER_MASS, Dimension.MONEY_PER_VOLUME)
PricePerMass = Annotated[Quantity, PlainValidator(_reader(*_PER_MASS)), _AS_TEXT, _schema(*_PER_MASS)]
PricePerPiece = Annotated[
    Quantity,
    PlainValidator(_reader(Dimension.MONEY_PER_PIECE)),
    _AS_TEXT,
    _schema(Dimension.MONEY_PER_PIECE),
]


PricePerHour = Annotated[
    Quantity,
    PlainValidator(_reader(Dimension.MONEY_PER_TIME)),
    _AS_TEXT,
    _schema(Dimension.MONEY_PER_TIME),
]


def read_share(value: object) -> float:
    """Read a share, bare or in %."""
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise Refused(f"{_shown(value)} is not a share", allowed="0 to 1, or a text in %", todo="write 0.05")
    share = _first_that_fits(value, (Dimension.SHARE,)).si if isinstance(value, str) else float(value)
    if not 0 <= share <= 1:
        raise Refused(f"a share of {share:g}", allowed="0 to 1, or a text in %", todo="write 0.05 for 5 %")
    return share


Share = Annotated[
    float,
    PlainValidator(read_share),
    WithJsonSchema({"anyOf": [{"type": "number", "minimum": 0, "maximum": 1}, {"type": "string"}]}),
]

LONGEST_TITLE, LONGEST_COLOUR = 100, 40


def _line_of_text(most: int) -> Callable[[object], str]:
    """Text that fits on one line of a sheet."""

    def read(value: object) -> str:
        if not isinstance(value, str):
            raise Refused(f"{_shown(value)} is not a text in quotes", "a text in quotes", 'write "text"')
        text = value.strip()
        if not text:
            raise Refused("an empty text", f"1 to {most} letters", "write a name, or leave the line out")
        if len(text) > most:
            raise Refused(f"a text of {len(text)} letters", f"1 to {most} letters", "shorten it")
        if any(unicodedata.category(letter) in _UNPRINTABLE for letter in text):
            raise Refused(
                f"{_shown(value)} holds a letter that cannot be printed", "one line of text", "take it out"
            )
        return text

    return read


# control letters and line ends, halves of letters, letters nobody has assigned
_UNPRINTABLE = frozenset({"Cc", "Cs", "Co", "Cn", "Zl", "Zp"})
Title = Annotated[str, PlainValidator(_line_of_text(LONGEST_TITLE)), WithJsonSchema({"type": "string"})]
Colour = Annotated[str, PlainValidator(_line_of_text(LONGEST_COLOUR)), WithJsonSchema({"type": "string"})]

TOP = "top"


def _level(value: object) -> Quantity | None:
    if value == TOP:
        return None
    try:
        return _reader(Dimension.LENGTH)(value)
    except Refused as refusal:
        allowed = f'"{TOP}", or a height in {refusal.allowed or "mm, cm, m, in, ft"}'
        raise Refused(refusal.what, allowed, refusal.todo) from None


Level = Annotated[
    Quantity | None,
    PlainValidator(_level),
    PlainSerializer(lambda level: TOP if level is None else level.text, return_type=str),
    WithJsonSchema({"type": "string", "examples": ["120 mm", TOP]}),
]


@dataclass(frozen=True, slots=True)
class Hours:
    """A stretch of the day by the wall clock."""

    start: time
    end: time

    def __str__(self) -> str:
        return f"{self.start:%H:%M}-{self.end:%H:%M}"


LEAST_HOURS = 60


def _clock(text: str) -> time:
    if text.strip() == "24:00":
        return time.max
    return time.fromisoformat(text.strip().zfill(len("08:00")))


def _hours(value: object) -> Hours:
    todo = 'write "08:00-18:00"'
    try:
        start, end = map(_clock, str(value).split("-"))
    except ValueError:
        raise Refused(f"{_shown(value)} are no hours", "from-to by the clock of 24 hours", todo) from None
    if not start < end:
        raise Refused(f"{value} ends before it starts", "from-to within one day", todo)
    if (end.hour - start.hour) * 60 + end.minute - start.minute < LEAST_HOURS - 1:
        raise Refused(f"{value} is too short to pour in", "an hour or more", todo)
    return Hours(start, end)


WorkingHours = Annotated[
    Hours,
    PlainValidator(_hours),
    PlainSerializer(str, return_type=str),
    WithJsonSchema({"type": "string", "examples": ["08:00-18:00"]}),
]


def _moment(value: object) -> datetime:
    if isinstance(value, datetime):
        moment = value
    else:
        try:
            moment = datetime.fromisoformat(str(value))
        except ValueError:
            raise Refused(f"{_shown(value)} is no date with time", todo='write "2026-12-01 09:00"') from None
    if moment.tzinfo is not None:
        raise Refused(
            f"{value} has an offset", "the shop's wall clock", "leave the offset out; set shop.time_zone"
        )
    return moment


Moment = Annotated[
    datetime,
    PlainValidator(_moment),
    PlainSerializer(lambda moment: moment.isoformat(" ", "minutes"), return_type=str),
    WithJsonSchema({"type": "string", "examples": ["2026-12-01 09:00"]}),
]


def _day(value: object) -> date:
    if isinstance(value, date) and not isinstance(value, datetime):
        return value
    try:
        return date.fromisoformat(str(value))
    except ValueError:
        raise Refused(f"{_shown(value)} is no date", todo='write "2026-12-24"') from None


Day = Annotated[
    date,
    PlainValidator(_day),
    PlainSerializer(date.isoformat, return_type=str),
    WithJsonSchema({"type": "string", "format": "date"}),
]


def _zone(value: object) -> str:
    try:
        return ZoneInfo(str(value)).key
    except (ValueError, OSError, KeyError):
        raise Refused(
            f"no time zone {_shown(value)}",
            "names such as Europe/Berlin, America/Chicago, UTC",
            "take one of them",
        ) from None


TimeZone = Annotated[
    str, PlainValidator(_zone), WithJsonSchema({"type": "string", "examples": ["Europe/Berlin"]})
]
Count = Annotated[int, Field(strict=True, ge=0)]


def _kelvin(value: object) -> Quantity:
    """A difference of temperatures; a bare number is in kelvin."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return _reader(Dimension.TEMPERATURE_DIFFERENCE)(value)
    return Quantity(float(value), Dimension.TEMPERATURE_DIFFERENCE, f"{value:g} K")


Kelvin = Annotated[
    Quantity,
    PlainValidator(_kelvin),
    _AS_TEXT,
    WithJsonSchema(
        {
            "oneOf": [{"type": "number"}, {"type": "string"}],
            "title": "temperature difference",
            "examples": ["0.05 K"],
        }
    ),
]

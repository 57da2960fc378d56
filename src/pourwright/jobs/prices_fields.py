"""Kinds of values in a price list: money exact to the last digit, with its ISO 4217 code."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated

from pydantic import PlainSerializer, PlainValidator, WithJsonSchema

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_price, parse_quantity
from pourwright.foundation.quantities import EXAMPLES, Dimension, Price, Quantity
from pourwright.jobs.fields import Refused, read_share

AS_TEXT = PlainSerializer(lambda value: value.text, return_type=str)
PRICES = (
    Dimension.MONEY_PER_MASS,
    Dimension.MONEY_PER_VOLUME,
    Dimension.MONEY_PER_PIECE,
    Dimension.MONEY_PER_AREA,
    Dimension.MONEY_PER_TIME,
    Dimension.MONEY_PER_ENERGY,
)


def _money(*dimensions: Dimension) -> Callable[[object], Price]:
    def read(value: object) -> Price:
        if not isinstance(value, str):
            example = EXAMPLES[dimensions[0]]
            raise Refused(f"{value!r} has no currency", todo=f'write it in quotes, as in "{example}"')
        try:
            return parse_price(value, dimensions)
        except UserError as error:
            raise Refused(error.what, error.allowed, error.todo) from None

    return read


def _schema(*dimensions: Dimension) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "examples": [EXAMPLES[each] for each in dimensions]})


AnyPrice = Annotated[Price, PlainValidator(_money(*PRICES)), AS_TEXT, _schema(*PRICES)]
Money = Annotated[Price, PlainValidator(_money(Dimension.MONEY)), AS_TEXT, _schema(Dimension.MONEY)]
_FREIGHT = (Dimension.MONEY, Dimension.MONEY_PER_MASS)
FreightPrice = Annotated[Price, PlainValidator(_money(*_FREIGHT)), AS_TEXT, _schema(*_FREIGHT)]


def _work(value: object) -> Quantity:
    """A time that somebody works: none of it is said by leaving the step out."""
    try:
        time = parse_quantity(str(value), Dimension.TIME)
    except UserError as error:
        raise Refused(error.what, error.allowed, error.todo) from None
    if time.si <= 0:
        todo = "leave the line out, or name the step under without"
        raise Refused(f"{time.text!r} is no time of work", "above 0", todo)
    return time


WorkTime = Annotated[Quantity, PlainValidator(_work), AS_TEXT, _schema(Dimension.TIME)]


def _energy(value: object) -> Quantity:
    try:
        return parse_quantity(str(value), Dimension.ENERGY)
    except UserError as error:
        raise Refused(error.what, error.allowed, error.todo) from None


Energy = Annotated[Quantity, PlainValidator(_energy), AS_TEXT, _schema(Dimension.ENERGY)]


def _part(value: object) -> float:
    share = read_share(value)
    if share >= 1:
        what = f"a share of {100 * share:g} %: nothing is left"
        raise Refused(what, "0 or more, below 100 %", "mend the value")
    return share


PartShare = Annotated[
    float,
    PlainValidator(_part),
    WithJsonSchema({"anyOf": [{"type": "number", "minimum": 0, "exclusiveMaximum": 1}, {"type": "string"}]}),
]

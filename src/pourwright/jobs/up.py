"""The direction of the shape that points up as poured."""

from __future__ import annotations

import math
from typing import Annotated, TypeAlias

from pydantic import PlainValidator, WithJsonSchema

from pourwright.jobs.fields import Refused

SIX = ("+x", "-x", "+y", "-y", "+z", "-z")
_ALLOWED = f"{', '.join(SIX)}, or three numbers"
_TODO = 'write "+z", or a direction such as [0.0, 0.5, 1.0]'


def _read(value: object) -> str | tuple[float, ...]:
    if isinstance(value, str):
        if value not in SIX:
            raise Refused(f"{value!r} is no direction", _ALLOWED, _TODO)
        return value
    if not isinstance(value, list | tuple) or not all(_is_number(each) for each in value):
        raise Refused(f"{value!r} is no direction", _ALLOWED, _TODO)
    if len(value) != 3:
        raise Refused(f"a direction has three numbers, not {len(value)}", _ALLOWED, _TODO)
    length = math.hypot(*value)
    if not (math.isfinite(length) and length > 0):
        raise Refused(f"{list(value)} points nowhere", f"{_ALLOWED} that are not all 0", _TODO)
    return tuple(float(each) for each in value)


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


Up: TypeAlias = Annotated[
    str | tuple[float, ...],
    PlainValidator(_read),
    WithJsonSchema(
        {
            "title": f"{', '.join(SIX)}, or three numbers",
            "oneOf": [
                {"enum": list(SIX)},
                {"type": "array", "items": {"type": "number"}, "minItems": 3, "maxItems": 3},
            ],
        }
    ),
]
"""One of the six by name, or three numbers of the shape's own frame."""

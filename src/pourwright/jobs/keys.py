"""How a key of the job file is declared: meaning, default, and why that default."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from pydantic import BaseModel, ConfigDict, Field

from pourwright.foundation.sources import Sourced

_NONE = object()


class Section(BaseModel):
    """A table of the job file: an unknown key is an error, nothing changes after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


def key(
    meaning: str,
    *,
    default: Any = _NONE,
    factory: Callable[[], Any] | None = None,
    room: Sourced | None = None,
    shown: str = "",
    why: str = "",
    alias: str | None = None,
    **limits: Any,
) -> Any:
    """Declare a key.

    Parameters
    ----------
    meaning : str
        For the manual and the schema.
    default : object
        Value where the key is missing; without any default the key is required.
    factory : callable
        Makes the default.
    room : Sourced
        Default that the room further down takes; the key itself stays None.
    shown : str
        Default in words, where the value does not say it.
    why : str
        Reason of the default.
    alias : str
        Name in the file, where Python keeps the name for itself.
    **limits
        Bounds that pydantic checks.

    Returns
    -------
    FieldInfo
        Typed as whatever the field holds.
    """
    extra = {"shown": shown, "why": why}
    if room is not None:
        extra = {"shown": shown or f"{room.value:g} {room.unit}".strip(), "why": room.conditions}
        extra |= {"kind": str(room.kind), "source": room.source}
    settings: dict[str, Any] = {"description": meaning, "json_schema_extra": extra, "alias": alias, **limits}
    if factory is not None:
        return Field(default_factory=factory, **settings)
    if default is _NONE and (room is not None or shown):
        default = None
    return Field(**settings) if default is _NONE else Field(default=default, **settings)

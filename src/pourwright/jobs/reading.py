"""Read a plan document back, also one of a newer minor version."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from pourwright.foundation.errors import UserError
from pourwright.jobs.plan import SCHEMA, PlanDocument

_NAME, _, _VERSION = SCHEMA.partition("/")
_MAJOR = int(_VERSION.split(".")[0])


def load_plan(path: Path | str) -> PlanDocument:
    """Read ``plan.json``.

    Parameters
    ----------
    path : Path or str
        The file.

    Returns
    -------
    PlanDocument
        Without what a newer minor version has added.

    Raises
    ------
    UserError
        No plan, a newer major version, or parts that are missing.
    """
    file = Path(path)
    try:
        raw = json.loads(file.read_text("utf8"))
    except (OSError, ValueError) as error:
        raise UserError(
            f"cannot be read as a plan: {error}", where=str(file), todo="make the plan again"
        ) from None
    return read_plan(raw, str(file))


def read_plan(raw: Any, where: str = "plan.json") -> PlanDocument:
    """Check a plan document.

    Parameters
    ----------
    raw : object
        As JSON gives it.
    where : str
        What messages call it.

    Returns
    -------
    PlanDocument
        Without what a newer minor version has added.

    Raises
    ------
    UserError
        No plan, a newer major version, or parts that are missing.
    """
    _refuse_newer(raw, where)
    raw = {**raw, "schema": SCHEMA}
    try:
        return PlanDocument.model_validate(raw)
    except ValidationError as error:
        for detail in error.errors(include_url=False):
            if detail["type"] != "extra_forbidden":
                place = ".".join(map(str, detail["loc"]))
                raise UserError(
                    f"{place}: {detail['msg']}", where=where, todo="make the plan again"
                ) from None
            raw = _without(raw, detail["loc"])
    return PlanDocument.model_validate(raw)


def _refuse_newer(raw: Any, where: str) -> None:
    schema = str(raw.get("schema")) if isinstance(raw, dict) else ""
    name, _, version = schema.partition("/")
    major = version.split(".")[0]
    if name != _NAME or not major.isdecimal():
        raise UserError(
            f"schema '{schema}' is no plan", where=where, allowed=SCHEMA, todo="make the plan again"
        )
    if int(major) > _MAJOR:
        raise UserError(
            f"schema {schema} is newer than this program",
            where=where,
            allowed=f"{_NAME}/{_MAJOR}.x",
            todo="install a newer pourwright, or make the plan again",
        )


def _without(value: Any, path: tuple[int | str, ...]) -> Any:
    """Copy of a JSON value without one key."""
    first, rest = path[0], path[1:]
    if isinstance(value, list):
        return [_without(item, rest) if i == first else item for i, item in enumerate(value)]
    if rest:
        return {**value, first: _without(value[first], rest)}
    return {key: item for key, item in value.items() if key != first}

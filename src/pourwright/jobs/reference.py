"""The manual page of the job file, written from the keys themselves."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from pourwright.foundation.quantities import Quantity
from pourwright.jobs.job import Job

Table = tuple[str, type[BaseModel]]
_INTRO = """# The job file

One file in [TOML](https://toml.io) says what to cast and how. This page lists every key; it is written by
`python -m pourwright.jobs.reference` and a test compares the two.

- Sizes, masses, temperatures and other quantities are texts with their unit: `"3/4 in"`, `"19 mm"`,
  `"68 degF"`. A bare number where a unit is needed is an error. Bare numbers are for counts and shares.
- An unknown key is an error, with file and line.
- Heights count from the mold's floor as poured.
- `[[band]]` is repeated, lowest band first; so is `[[insert]]`. `[[variant]]` is repeated: each has a `name`
  and the lines that differ, and gives one plan of its own; its bands, where it has any, replace all bands of
  the file. Without a `[[variant]]` the file gives one plan; with some, each of them gives one, so name one
  without further lines to keep the file as it is among them.
- `format` numbers the format of the file. Older files are upgraded and a copy is kept; a newer one is
  refused.
"""


def tables(model: type[BaseModel] = Job, prefix: str = "") -> Iterator[Table]:
    """List the tables of the job file, the whole file first.

    Parameters
    ----------
    model : type
        Where to start.
    prefix : str
        Its place in the file.

    Yields
    ------
    tuple
        Heading as it is written in the file ("" for the top), model.
    """
    yield prefix, model
    for name, field in model.model_fields.items():
        inner, many = inner_model(field.annotation)
        if inner is not None:
            place = f"{prefix.strip('[]')}.{name}".strip(".")
            yield from tables(inner, f"[[{place}]]" if many else f"[{place}]")


def inner_model(annotation: Any) -> tuple[type[BaseModel] | None, bool]:
    """Find the model of a table-valued key.

    Parameters
    ----------
    annotation : object
        Type of the key.

    Returns
    -------
    tuple
        Model or None, and whether it is a list of tables.
    """
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation, False
    for part in get_args(annotation):
        model, many = inner_model(part)
        if model is not None:
            return model, many or get_origin(annotation) is list
    return None, False


def kind_of(field: FieldInfo) -> str:
    """Say in words what a key holds.

    Parameters
    ----------
    field : FieldInfo
        The key.

    Returns
    -------
    str
        For the manual.
    """
    model, many = inner_model(field.annotation)
    if model is not None:
        return "list of tables" if many else "table"
    if field.annotation is type(None):
        return "nothing yet"
    titles = [item.json_schema for item in field.metadata if hasattr(item, "json_schema")]
    return _words(field.annotation, titles)


def _words(annotation: Any, schemas: list[Any]) -> str:
    if schemas and schemas[0] is not None:
        return _of_schema(schemas[0])
    if get_origin(annotation) is Literal:
        return ", ".join(
            f"`{choice}`" if not isinstance(choice, int) else str(choice) for choice in get_args(annotation)
        )
    if get_origin(annotation) in {list, dict}:
        name = "list of" if get_origin(annotation) is list else "table, each a"
        return f"{name} {_words(get_args(annotation)[-1], [])}"
    for part in get_args(annotation):
        if hasattr(part, "json_schema"):
            return _of_schema(part.json_schema)
    inner = [part for part in get_args(annotation) if part is not type(None) and not _is_limit(part)]
    return _words(inner[0], []) if inner else _SIMPLE.get(annotation, "text")


def _is_limit(part: Any) -> bool:
    return isinstance(part, FieldInfo)


def _of_schema(schema: dict[str, Any]) -> str:
    if "anyOf" in schema:
        return "share"
    example = schema.get("examples", [""])[0].split(",")[0].split(" or ")[0]
    title = schema.get("title", "text" if example else schema.get("format", "text"))
    return f"{title}, as `{example}`" if example else str(title)


_SIMPLE = {str: "text", int: "whole number", float: "number", bool: "true or false"}


def default_of(field: FieldInfo) -> str:
    """Say what holds where a key is left out.

    Parameters
    ----------
    field : FieldInfo
        The key.

    Returns
    -------
    str
        For the manual.
    """
    extra = field.json_schema_extra
    shown = str(extra["shown"]) if isinstance(extra, dict) and extra.get("shown") else ""
    if shown:
        return shown
    if field.is_required():
        return "required"
    value = field.default
    if value is PydanticUndefined:
        return "the defaults of its keys"
    return (
        str(value).lower()
        if isinstance(value, bool)
        else value.text
        if isinstance(value, Quantity)
        else str(value)
    )


def _reason(field: FieldInfo) -> str:
    extra = field.json_schema_extra
    return str(extra.get("why", "")) if isinstance(extra, dict) else ""


def render_reference() -> str:
    """Write the manual page of the job file.

    Returns
    -------
    str
        Markdown.
    """
    return _INTRO + "".join(_section(heading, model) for heading, model in tables())


def _section(heading: str, model: type[BaseModel]) -> str:
    title = f"`{heading}`" if heading else "Top of the file"
    doc = " ".join((model.__doc__ or "").split())
    prefix = f"{heading.strip('[]')}." if heading else ""
    rows = "".join(_row(prefix + (field.alias or name), field) for name, field in model.model_fields.items())
    return (
        f"\n## {title}\n\n{doc}\n\n| key | meaning | holds | default | why |\n|---|---|---|---|---|\n{rows}"
    )


def _row(name: str, field: FieldInfo) -> str:
    cells = (f"`{name}`", field.description or "", kind_of(field), default_of(field), _reason(field))
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |\n"


if __name__ == "__main__":
    print(render_reference(), end="")  # noqa: T201 - its output is the page

"""What pydantic found wrong, in the maker's words."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any, get_args

from pydantic import BaseModel, ValidationError

from pourwright.foundation.errors import UserError
from pourwright.jobs.fields import Refused
from pourwright.jobs.keypaths import KeyPath

Finding = tuple[str, str, str]
Detail = Mapping[str, Any]


class JobError(UserError):
    """The first thing wrong with a job file; `every` holds them all, in the order of the file."""

    def __init__(
        self,
        what: str,
        *,
        where: str = "",
        allowed: str = "",
        todo: str = "",
        every: Sequence[UserError] = (),
    ) -> None:
        super().__init__(what, where=where, allowed=allowed, todo=todo)
        self.every: tuple[UserError, ...] = tuple(every) or (self,)

    @property
    def text(self) -> str:
        """One line for each error."""
        return "\n".join(str(error) for error in self.every)

    @classmethod
    def of(cls, errors: Sequence[UserError]) -> JobError:
        """Make one error of several; the first is its message."""
        first = errors[0]
        return cls(first.what, where=first.where, allowed=first.allowed, todo=first.todo, every=errors)


def findings(error: ValidationError, model: type[BaseModel]) -> Iterator[tuple[KeyPath, Finding]]:
    """Translate what pydantic found.

    Parameters
    ----------
    error : ValidationError
        From validating a job.
    model : type
        The model that was validated.

    Yields
    ------
    tuple
        Key path; what is wrong, what is allowed, what to do.
    """
    for detail in error.errors(include_url=False):
        path: KeyPath = tuple(detail["loc"])
        translate = _WORDS.get(detail["type"], _plainly)
        found = translate(detail, _table_at(model, path[:-1]))
        reason = detail.get("ctx", {}).get("error")
        at = (reason.key,) if isinstance(reason, Refused) and reason.key else ()
        yield path + at, found


def _table_at(model: type[BaseModel], path: KeyPath) -> type[BaseModel] | None:
    table: type[BaseModel] | None = model
    for step in path:
        if isinstance(step, int) or table is None:
            continue
        info = next((f for name, f in table.model_fields.items() if step in {name, f.alias}), None)
        table = _model_in(info.annotation) if info else None
    return table


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for part in get_args(annotation) if (found := _model_in(part))), None)


def _keys(table: type[BaseModel] | None) -> list[str]:
    return [] if table is None else [field.alias or name for name, field in table.model_fields.items()]


def _unknown(detail: Detail, table: type[BaseModel] | None) -> Finding:
    name, known = str(detail["loc"][-1]), _keys(table)
    near = difflib.get_close_matches(name, known, 1)
    todo = f"write {near[0]}" if near else "remove the line or mend its name"
    return f"unknown key '{name}'", ", ".join(known), todo


def _missing(detail: Detail, table: type[BaseModel] | None) -> Finding:
    name = str(detail["loc"][-1])
    fields = {} if table is None else {f.alias or n: f for n, f in table.model_fields.items()}
    meaning = fields[name].description if name in fields else None
    return f"the key '{name}' is missing", "", f"add it: {meaning}" if meaning else "add it"


def _choice(detail: Detail, _: type[BaseModel] | None) -> Finding:
    allowed = str(detail["ctx"]["expected"]).replace("'", "").replace(" or ", ", ")
    return f"{detail['input']!r} is not known here", allowed, "choose one of these"


def _refused(detail: Detail, _: type[BaseModel] | None) -> Finding:
    reason = detail["ctx"]["error"]
    if isinstance(reason, Refused):
        return reason.what, reason.allowed, reason.todo
    return str(reason), "", ""


def _needs(what: str, example: str) -> Callable[[Detail, type[BaseModel] | None], Finding]:
    def words(detail: Detail, _: type[BaseModel] | None) -> Finding:
        return f"{detail['input']!r} is not {what}", what, f"write for example {example}"

    return words


def _too_low(detail: Detail, _: type[BaseModel] | None) -> Finding:
    return f"{detail['input']!r} is too little", f"{detail['ctx']['ge']:g} or more", "mend the value"


def _too_high(detail: Detail, _: type[BaseModel] | None) -> Finding:
    return f"{detail['input']!r} is too much", f"up to {detail['ctx']['le']:g}", "mend the value"


def _beyond(limit: str, words: str) -> Callable[[Detail, type[BaseModel] | None], Finding]:
    def found(detail: Detail, _: type[BaseModel] | None) -> Finding:
        allowed = f"{words} {detail['ctx'][limit]:g}"
        return f"{detail['input']!r} is not possible here", allowed, "mend the value"

    return found


def _length_of_list(limit: str) -> Callable[[Detail, type[BaseModel] | None], Finding]:
    def words(detail: Detail, _: type[BaseModel] | None) -> Finding:
        came, wanted = len(detail["input"]), detail["ctx"][limit]
        return f"a list of {came}", f"a list of {wanted}", "mend the list"

    return words


def _plainly(detail: Detail, _: type[BaseModel] | None) -> Finding:
    return f"{str(detail['msg'])[:1].lower()}{str(detail['msg'])[1:]}", "", f"mend {detail['input']!r}"


_WORDS: Mapping[str, Callable[[Detail, type[BaseModel] | None], Finding]] = {
    "extra_forbidden": _unknown,
    "missing": _missing,
    "literal_error": _choice,
    "value_error": _refused,
    "greater_than_equal": _too_low,
    "less_than_equal": _too_high,
    "greater_than": _beyond("gt", "above"),
    "less_than": _beyond("lt", "below"),
    "too_short": _length_of_list("min_length"),
    "too_long": _length_of_list("max_length"),
    "string_type": _needs("a text in quotes", '"text"'),
    "bool_type": _needs("true or false", "true"),
    "int_type": _needs("a whole number", "1"),
    "float_type": _needs("a number", "1.5"),
    "list_type": _needs("a list", "[...]; a table of a list is headed [[name]]"),
    "model_type": _needs("a table", "[name] and its keys below"),
    "model_attributes_type": _needs("a table", "[name] and its keys below"),
    "dict_type": _needs("a table", "[name] and its keys below"),
}


def located(
    found: Iterator[tuple[KeyPath, Finding]], where: Callable[[KeyPath], str], line: Callable[[KeyPath], int]
) -> list[UserError]:
    """Turn findings into errors.

    Parameters
    ----------
    found : iterator
        Key path and finding.
    where : callable
        Place of a key path, in words.
    line : callable
        Line of a key path.

    Returns
    -------
    list of UserError
        In the order of the file.
    """
    ordered = sorted(found, key=lambda item: line(item[0]))
    return [
        UserError(what, where=where(path), allowed=allowed, todo=todo)
        for path, (what, allowed, todo) in ordered
    ]


def not_toml(file: Path, message: str) -> JobError:
    """Report a syntax error of TOML.

    Parameters
    ----------
    file : Path
        The job file.
    message : str
        Of tomllib.

    Returns
    -------
    JobError
        With the line.
    """
    text, _, place = message.partition(" (at ")
    number = place.removeprefix("line ").split(",")[0]
    where = f"{file}:{number}" if number.isdecimal() else f"{file}, at its end"
    what = f"not TOML: {text[:1].lower()}{text[1:]}"
    return JobError(
        what, where=where, todo='mend this line; texts and quantities stand in quotes, as in wall = "20 mm"'
    )

"""One shape for everything that is refused."""

from __future__ import annotations

import logging
from http import HTTPStatus
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from pydantic import BaseModel, Field
from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse, Response

from pourwright.app.choosing.conflict import Conflict
from pourwright.foundation.errors import ConflictError, NotThereError, TooMuchError, UserError
from pourwright.web.paper import render, wants_page

_STATUS: tuple[tuple[type[UserError], int], ...] = (
    (NotThereError, 404),
    (ConflictError, 409),
    (TooMuchError, 413),
    (UserError, 400),
)
_log = logging.getLogger("pourwright.web")


class Refused(BaseModel):
    """Why something is refused, and how to go on."""

    what: str = Field(description="what is wrong, with the value that came")
    where: str = Field(description="file and line, or the field", default="")
    allowed: str = Field(description="what would be accepted", default="")
    todo: str = Field(description="what to do next", default="")


class TwoHands(BaseModel):
    """What the file says, what was seen there, what was wanted."""

    file: Any = None
    seen: Any = None
    wanted: Any = None


class Refusal(BaseModel):
    """The body of every answer whose status is 400 or more."""

    error: Refused
    conflict: TwoHands | None = Field(description="where two hands are on one choice", default=None)


REFUSALS: dict[int | str, dict[str, object]] = {
    status: {"model": Refusal, "description": words}
    for status, words in {
        400: "what came cannot be used",
        401: "a device that is not paired",
        403: "not from this page",
        404: "there is none of this name",
        409: "what is there is not what was believed, or somebody else is at it",
        413: "more than is allowed",
        422: "what came has not the form that is asked for",
    }.items()
}
"""For the description of the interface."""


def refusal(
    request: Request, status: int, *, what: str, where: str = "", allowed: str = "", todo: str = ""
) -> Response:
    """Answer with a refusal: a page for a browser that asked for one, JSON for everybody else.

    Parameters
    ----------
    request : Request
        What is refused.
    status : int
        Of HTTP.
    what, where, allowed, todo : str
        As in UserError.

    Returns
    -------
    Response
    """
    return _answered(request, status, Refused(what=what, where=where, allowed=allowed, todo=todo))


def _answered(request: Request, status: int, error: Refused, conflict: TwoHands | None = None) -> Response:
    if wants_page(request):
        return render(request, "refused.html", status=status, error=error, title=f"{status}")
    return JSONResponse(
        Refusal(error=error, conflict=conflict).model_dump(mode="json", exclude_none=conflict is None), status
    )


def refused(error: UserError) -> Refused:
    """Tell an error of the maker as answers do.

    Parameters
    ----------
    error : UserError
        What is refused.

    Returns
    -------
    Refused
    """
    return Refused(what=error.what, where=error.where, allowed=error.allowed, todo=error.todo)


def refuse_in_one_shape(application: FastAPI) -> None:
    """Teach an application that everything refused has one shape.

    Parameters
    ----------
    application : FastAPI
        Changed in place.
    """
    application.add_exception_handler(UserError, _by_us)
    application.add_exception_handler(RequestValidationError, _by_form)
    application.add_exception_handler(HTTPException, _by_http)
    application.add_exception_handler(Exception, _by_defect)


def _by_us(request: Request, error: Exception) -> Response:
    assert isinstance(error, UserError)
    status = next(status for kind, status in _STATUS if isinstance(error, kind))
    told = refused(error)
    both = TwoHands(**error.details) if isinstance(error, Conflict) else None
    return _answered(request, status, told, both)


def _by_form(request: Request, error: Exception) -> Response:
    assert isinstance(error, RequestValidationError)
    first = error.errors()[0]
    where = ".".join(str(part) for part in first["loc"])
    return refusal(request, 422, what=str(first["msg"]), where=where, todo="see /openapi.json")


def _by_http(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    what = str(error.detail or HTTPStatus(error.status_code).phrase)
    answer = refusal(
        request, error.status_code, what=what, where=request.url.path, todo="go back to the shelf: /"
    )
    for name, value in (error.headers or {}).items():
        answer.headers[name] = value
    return answer


def _by_defect(request: Request, error: Exception) -> Response:
    _log.error("%s %s", request.method, request.url.path, exc_info=error)
    return refusal(
        request,
        500,
        what=f"a defect of the program: {type(error).__name__}",
        where=request.url.path,
        todo="nothing was lost; the terminal says more. Try again, or go back to the shelf",
    )

"""Pages from templates."""

from __future__ import annotations

from typing import Any

from fastapi import Request
from jinja2 import Environment, PackageLoader, StrictUndefined
from starlette.responses import HTMLResponse

from pourwright import __version__

_pages = Environment(
    loader=PackageLoader("pourwright.web"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)
_pages.globals["version"] = __version__


def render(request: Request, template: str, *, status: int = 200, **values: Any) -> HTMLResponse:
    """Make a page.

    Parameters
    ----------
    request : Request
        What it answers.
    template : str
        File in ``templates``.
    status : int
        Of HTTP.
    **values
        What the template names.

    Returns
    -------
    HTMLResponse
    """
    text = _pages.get_template(template).render(path=request.url.path, **values)
    return HTMLResponse(text, status)


def warm_pages() -> None:
    """Read every template, so that the first look at a page need not."""
    for name in _pages.list_templates():
        _pages.get_template(name)


def wants_page(request: Request) -> bool:
    """Say whether a person in a browser asks, or a program.

    Parameters
    ----------
    request : Request
        What was asked.

    Returns
    -------
    bool
    """
    return request.method == "GET" and "text/html" in request.headers.get("accept", "")

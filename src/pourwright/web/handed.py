"""Files that are handed out."""

from __future__ import annotations

import hashlib
import re

from fastapi import Request
from starlette.responses import Response

JSON = "application/json"
_UNPLAIN = re.compile(r"[^A-Za-z0-9._-]+")


def handed(content: bytes, kind: str, name: str, *, inline: bool = False) -> Response:
    """Hand out a file under a plain name.

    Parameters
    ----------
    content : bytes
        Of the file.
    kind : str
        Media type.
    name : str
        Made plain: letters, digits, dots and hyphens.
    inline : bool
        Whether a browser may show it instead of keeping it.

    Returns
    -------
    Response
    """
    plain = _UNPLAIN.sub("-", name).strip("-.") or "file"
    how = "inline" if inline else "attachment"
    return Response(content, media_type=kind, headers={"Content-Disposition": f'{how}; filename="{plain}"'})


def shown(request: Request, content: bytes, kind: str) -> Response:
    """Show a picture, or say that the browser has it already.

    Parameters
    ----------
    request : Request
        With the mark of what the browser has.
    content : bytes
        Of the picture.
    kind : str
        Media type.

    Returns
    -------
    Response
    """
    mark = f'"{hashlib.sha256(content).hexdigest()[:32]}"'
    headers = {"ETag": mark, "Cache-Control": "no-cache"}
    if request.headers.get("if-none-match") == mark:
        return Response(status_code=304, headers=headers)
    return Response(content, media_type=kind, headers=headers)


def file_of(*kinds: str) -> dict[int | str, dict[str, object]]:
    """Describe an answer that is a file.

    Parameters
    ----------
    *kinds : str
        Its media types.

    Returns
    -------
    dict
        For the description of the interface.
    """
    anything: dict[str, object] = {}
    bytes_: dict[str, object] = {"type": "string", "format": "binary"}
    content = {kind: {"schema": anything if kind == JSON else bytes_} for kind in kinds}
    return {200: {"description": "the file", "content": content}}

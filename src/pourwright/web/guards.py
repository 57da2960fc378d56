"""What stands before every handler: only this computer, writes only from this page, no foreign content."""

from __future__ import annotations

import re
from collections.abc import Iterable
from urllib.parse import urlsplit

from fastapi import Request
from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from pourwright.web.lan import Lan, is_from_network
from pourwright.web.refusals import refusal

LOOPBACK = ("127.0.0.1", "localhost", "[::1]")
BODY_LIMIT = 2_000_000
"""Bytes of a request that is no upload."""
_READS = ("GET", "HEAD", "OPTIONS")
_PARTS = ("/static/css/", "/static/js/", "/static/built/")
_HEADERS_OF_PARTS = {"X-Content-Type-Options": "nosniff", "Cross-Origin-Resource-Policy": "same-origin"}
"""Of styles and scripts, which are no documents: what a policy allows is told by the page that loads them."""
_HEADERS = _HEADERS_OF_PARTS | {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
        "connect-src 'self'; font-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
    ),
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
}


class Guards:
    """Refuse what does not come from this computer and this page; put the headers on every answer.

    Parameters
    ----------
    inner : ASGIApp
        The application.
    hosts : iterable of str
        Names this computer may be called by.
    lan : Lan, optional
        The side that faces the network, where it was asked for.
    """

    def __init__(self, inner: ASGIApp, hosts: Iterable[str] = LOOPBACK, lan: Lan | None = None) -> None:
        self._inner = inner
        self._hosts = frozenset(hosts)
        self._lan = lan

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Guard one request."""
        if scope["type"] != "http":
            await self._inner(scope, receive, send)
            return

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                own = _HEADERS_OF_PARTS if scope["path"].startswith(_PARTS) else _HEADERS
                for name, value in own.items():
                    headers.setdefault(name, value)
                headers.setdefault("Cache-Control", "no-cache")
                if own is _HEADERS_OF_PARTS:
                    # the entity tag tells the same
                    del headers["Last-Modified"], headers["Accept-Ranges"]
            await send(message)

        request = Request(scope)
        refused = self._why_not(request)
        if refused is not None:
            status, words = refused
            await refusal(request, status, **words)(scope, receive, with_headers)
            return
        await self._inner(scope, receive, with_headers)

    def _why_not(self, request: Request) -> tuple[int, dict[str, str]] | None:
        host = request.headers.get("host", "")
        lan = self._lan if is_from_network(request.scope) else None
        # a foreign name that was made to point at this computer is still foreign
        if _name(host) not in (lan.hosts if lan else self._hosts):
            todo = f"open it by {lan.address if lan else f'http://127.0.0.1:{request.url.port or 80}'}"
            return 403, {"what": f"'{host}' is not this computer", "where": "Host", "todo": todo}
        return self._foreign_change(request, host) or (lan.why_not(request) if lan else None)

    def _foreign_change(self, request: Request, host: str) -> tuple[int, dict[str, str]] | None:
        if request.method in _READS:
            return None
        origin = request.headers.get("origin", "")
        if origin != f"{request.url.scheme}://{host}":
            words = {"what": f"a change from '{origin or 'nowhere'}'", "where": "Origin"}
            return 403, words | {"allowed": "this page itself", "todo": "make it on the page"}
        return None


def _name(host: str) -> str:
    try:
        parts = urlsplit(f"//{host}")
        name = parts.hostname or ""
    except ValueError:
        return ""
    return f"[{name}]" if ":" in name else name


class BodyLimit:
    """Refuse a body that is longer than allowed, before all of it has come.

    Parameters
    ----------
    inner : ASGIApp
        The application.
    most : int
        Bytes.
    free : tuple of str
        Paths that limit themselves.
    larger : tuple
        Patterns of paths, each with its own limit.
    """

    def __init__(
        self,
        inner: ASGIApp,
        most: int = BODY_LIMIT,
        free: tuple[str, ...] = (),
        larger: tuple[tuple[re.Pattern[str], int], ...] = (),
    ) -> None:
        self._inner = inner
        self._most = most
        self._free = free
        self._larger = larger

    def _limit(self, path: str) -> int:
        return next((most for pattern, most in self._larger if pattern.fullmatch(path)), self._most)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Count what comes."""
        if scope["type"] != "http" or scope["path"] in self._free:
            await self._inner(scope, receive, send)
            return
        body, most = bytearray(), self._limit(scope["path"])
        while True:
            message = await receive()
            body += message.get("body", b"")
            if len(body) > most:
                words = {"what": f"more than {most // 1_000_000} MB", "todo": "send less"}
                await refusal(Request(scope), 413, **words)(scope, receive, send)
                return
            if message["type"] != "http.request" or not message.get("more_body"):
                break
        await self._inner(scope, _again(bytes(body), receive), send)


def _again(body: bytes, receive: Receive) -> Receive:
    sent = False

    async def give() -> Message:
        nonlocal sent
        if sent:
            return await receive()
        sent = True
        return {"type": "http.request", "body": body, "more_body": False}

    return give

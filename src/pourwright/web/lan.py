"""What a phone in the network may reach: bench, leak and what to saw, once it is paired, and nothing else."""

from __future__ import annotations

import re
from dataclasses import dataclass

from fastapi import Request
from starlette.types import Scope

from pourwright.app.pairing.phones import Phones

COOKIE = "pourwright_phone"
PAIR = "/pair"
PHONE = "pourwright.phone"
"""Under which the scope of a request names the phone that asks."""
_OPEN = frozenset({PAIR, "/static/css/base.css", "/static/css/bench.css", "/static/mark.svg"})
_READ = ("GET", "HEAD")
REACHED = tuple(
    (methods, re.compile(pattern))
    for methods, pattern in (
        (_READ, r"/bench(\.json)?"),
        (_READ, r"/jobs/[^/]+/(bench(\.json)?|leak)"),
        (_READ, r"/jobs/[^/]+/cut(/ticks\.json|/fits\.json|/cut\.pdf|/bars\.svg|/sheets/[0-9]+\.svg)?"),
        (("POST",), r"/jobs/[^/]+/cut/(ticks|understood|again|offcuts|offcuts/back)\.json"),
        (_READ, r"/static/[A-Za-z0-9_./-]+"),
        (("POST",), r"/jobs/[^/]+/(entries|leak\.json)"),
        (("PUT",), r"/jobs/[^/]+/photos/[0-9a-f]{64}"),
    )
)
"""What a paired phone may ask, by method and path."""
_HERE = ("127.0.0.1", "localhost", "::1")


@dataclass(frozen=True)
class Lan:
    """The side of the server that faces the network.

    Parameters
    ----------
    address : str
        Where it listens, with its port: as phones open it.
    hosts : frozenset of str
        Names it may be called by.
    phones : Phones
        Who is paired.
    fingerprint : str
        Of the certificate that phones are shown; empty over plain http.
    """

    address: str
    hosts: frozenset[str]
    phones: Phones
    fingerprint: str = ""

    def why_not(self, request: Request) -> tuple[int, dict[str, str]] | None:
        """Say why a request from the network gets nothing; None where it may go on.

        Parameters
        ----------
        request : Request
            Whose host was looked at already.

        Returns
        -------
        tuple of int and dict, or None
            Status and words of the refusal.
        """
        # as the routes see it, not as it was written
        path: str = request.scope["path"]
        if path in _OPEN:
            return None
        phone = self.phones.phone_of(request.cookies.get(COOKIE, ""))
        if phone is None:
            todo = "on the laptop open its page /phones and scan the code there"
            return 401, {"what": "this device is not paired, or no longer", "where": path, "todo": todo}
        if not reached(request.method, path):
            words = {"what": "a paired phone reaches bench, leak and what to saw only", "where": path}
            return 403, words | {"allowed": "/bench", "todo": "do this on the laptop"}
        request.scope[PHONE] = phone
        return None


def reached(method: str, path: str) -> bool:
    """Tell whether a paired phone may ask this.

    Parameters
    ----------
    method : str
        Of HTTP.
    path : str
        As the routes see it.

    Returns
    -------
    bool
    """
    known = any(method in methods and pattern.fullmatch(path) for methods, pattern in REACHED)
    return known and ".." not in path


def is_phone(request: Request) -> bool:
    """Tell whether a paired phone asks.

    Parameters
    ----------
    request : Request
        That was let through.

    Returns
    -------
    bool
    """
    return PHONE in request.scope


def is_from_network(scope: Scope) -> bool:
    """Tell whether a request came in by the network's side, whatever it says of itself.

    Parameters
    ----------
    scope : Scope
        Of the request: the server names the address of the socket that took it.

    Returns
    -------
    bool
    """
    server = scope.get("server")
    return server is None or server[0] not in _HERE

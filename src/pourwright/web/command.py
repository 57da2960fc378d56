"""Open the page: start the server and say where it is."""

from __future__ import annotations

import logging
import socket
import webbrowser
from collections.abc import Callable
from contextlib import ExitStack
from pathlib import Path

from pourwright.app.pairing.certificate import Certificate, certificate_of
from pourwright.app.pairing.network import network_address, own_names
from pourwright.app.pairing.phones import phones_of
from pourwright.app.shelf.opening import alone_in, refuse_no_shop
from pourwright.foundation.errors import UserError
from pourwright.web.application import make_app
from pourwright.web.lan import Lan
from pourwright.web.serving import Servers, stream_socket

HOST, PORT = "127.0.0.1", 8420


def serve(
    shop: Path,
    *,
    port: int | None = None,
    open_browser: bool = True,
    lan: bool = False,
    address: str | None = None,
    https: bool = False,
    say: Callable[[str], None] = print,
) -> None:
    """Serve the page of a shop folder until somebody stops it.

    Parameters
    ----------
    shop : Path
        The folder whose folders hold jobs.
    port : int, optional
        0 takes any free one; left out, 8420, or any free one where that is taken.
    open_browser : bool
        Whether to open the page in the browser.
    lan : bool
        Whether phones in the network may reach the bench, once they are paired.
    address : str, optional
        Of this computer in its network; else the one it would go out by. Only with ``lan``.
    https : bool
        Whether the network's side speaks https, with a certificate of this computer's own. Only with ``lan``.
    say : callable
        Told where the page is, once it is there.

    Raises
    ------
    UserError
        For a folder that is none or is served already, and a port that is taken.
    """
    refuse_no_shop(shop)
    if address is not None and not lan:
        raise UserError("an address is for phones", where="--address", todo="use it together with --lan")
    if https and not lan:
        raise UserError("https is for phones", where="--https", todo="use it together with --lan")
    facing = network_address(address) if lan else None
    with ExitStack() as stack:
        sockets, number = _listening(stack, port, facing)
        here = f"http://{HOST}:{number}"
        stack.enter_context(alone_in(shop, here))
        own = certificate_of(shop, {facing, *own_names()}) if facing and https else None
        side = None if facing is None else _side(shop, facing, number, own)
        application = make_app(shop, warm=True, lan=side)
        server = Servers(application, own)
        application.state.stopping = lambda: server.should_exit
        # what is cut off by the end is no defect
        logging.getLogger("uvicorn.error").addFilter(lambda _record: not server.should_exit)
        # a browser that is faster than the server waits instead of being refused
        for each in sockets:
            each.listen()
        say(f"the page of {shop.resolve()} is at {here}\n{_who(here, side)}; Ctrl-C ends it")
        if open_browser:
            webbrowser.open(here)
        server.serve_all(sockets)


def _listening(stack: ExitStack, port: int | None, facing: str | None) -> tuple[list[socket.socket], int]:
    """Give the socket of this computer alone, and the one that faces the network; closed with the stack."""
    here = stack.enter_context(stream_socket())
    number = _bound(here, port)
    if facing is None:
        return [here], number
    there = stack.enter_context(stream_socket())
    there.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        # this one address and no other: not every network that the computer is in
        there.bind((facing, number))
    except OSError as error:
        raise UserError(
            f"{facing}:{number} cannot be used: {error.strerror}",
            where="--lan",
            todo="name an address of this computer with --address, or another --port",
        ) from error
    return [here, there], number


def _who(here: str, side: Lan | None) -> str:
    if side is None:
        return "only this computer opens it"
    told = f"phones reach the bench at {side.address} once they are paired: open {here}/phones here"
    if side.fingerprint:
        told += f"\nthe certificate they will warn of must have this fingerprint: {side.fingerprint}"
    return told


def _side(shop: Path, address: str, number: int, own: Certificate | None) -> Lan:
    scheme, fingerprint = ("http", "") if own is None else ("https", own.fingerprint)
    names = frozenset({address, *own_names()})
    return Lan(f"{scheme}://{address}:{number}", names, phones_of(shop), fingerprint)


def _bound(listening: socket.socket, port: int | None) -> int:
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((HOST, PORT if port is None else port))
    except OSError as error:
        if port is not None:
            raise UserError(
                f"port {port} cannot be used: {error.strerror}",
                where="--port",
                todo="name another, or leave it out",
            ) from error
        listening.bind((HOST, 0))
    found: int = listening.getsockname()[1]
    return found

"""Servers of one page: http for this computer, and https for the network where that is wanted."""

from __future__ import annotations

import asyncio
import contextlib
import socket
from collections.abc import Iterator
from types import FrameType

import uvicorn
from fastapi import FastAPI

from pourwright.app.pairing.certificate import Certificate

WAIT = 2
"""How long open requests may take to end when a server is stopped [s]."""


def stream_socket() -> socket.socket:
    """Make a socket whose connections send what they have at once.

    Returns
    -------
    socket
        Unbound, TCP by number: without it asyncio leaves Nagle's algorithm on, and a body that follows its
        head waits for the other side's delayed acknowledgement, some 40 ms an answer (RFC 1122, 4.2.3.4).
    """
    return socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)


class _Beside(uvicorn.Server):
    """A server that ends with another one, which alone hears Ctrl-C."""

    @contextlib.contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Leave the signals to the other."""
        yield


class Servers(uvicorn.Server):
    """Serves an application at one socket in the open, and at another over https.

    Parameters
    ----------
    application : FastAPI
        The page.
    certificate : Certificate, optional
        With it, every socket but the first speaks https and nothing else.
    """

    def __init__(self, application: FastAPI, certificate: Certificate | None = None) -> None:
        super().__init__(_settings(application))
        self._beside: list[_Beside] = []
        if certificate is not None:
            settings = _settings(application, certificate)
            # a key that does not fit is seen now, and not once somebody comes
            settings.load()
            self._beside.append(_Beside(settings))

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        """End all of them."""
        super().handle_exit(sig, frame)
        for each in self._beside:
            each.should_exit = True

    def serve_all(self, sockets: list[socket.socket]) -> None:
        """Serve until somebody stops it.

        Parameters
        ----------
        sockets : list of socket
            Listening; the first is this computer's own.
        """
        if not self._beside:
            self.run(sockets)
            return
        asyncio.run(self._together(sockets))

    async def _together(self, sockets: list[socket.socket]) -> None:
        first, rest = sockets[:1], sockets[1:]
        others = [asyncio.ensure_future(each.serve(rest)) for each in self._beside]
        try:
            await self.serve(first)
        finally:
            for each in self._beside:
                each.should_exit = True
            await asyncio.gather(*others)


def _settings(application: FastAPI, certificate: Certificate | None = None) -> uvicorn.Config:
    return uvicorn.Config(
        application,
        log_level="warning",
        server_header=False,
        # nobody stands before this server: what says so is not believed
        proxy_headers=False,
        timeout_graceful_shutdown=WAIT,
        ws="none",
        # the application begins and ends once, with the first server
        lifespan="auto" if certificate is None else "off",
        ssl_certfile=None if certificate is None else certificate.file,
        ssl_keyfile=None if certificate is None else certificate.key,
    )

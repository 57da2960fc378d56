"""Sockets that the page is served at."""

import asyncio
import socket

from pourwright.web.serving import stream_socket


async def _nagle_is_off(listening: socket.socket) -> bool:
    """Whether asyncio sends at once on a connection to this socket."""
    seen = asyncio.get_running_loop().create_future()

    def met(_: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        there = writer.get_extra_info("socket")
        seen.set_result(there.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY) != 0)
        writer.close()

    server = await asyncio.start_server(met, sock=listening)
    async with server:
        _, writer = await asyncio.open_connection(*listening.getsockname())
        found: bool = await seen
        writer.close()
    return found


def test_an_answer_does_not_wait_for_the_other_side() -> None:
    with stream_socket() as listening:
        listening.bind(("127.0.0.1", 0))
        assert asyncio.run(_nagle_is_off(listening))

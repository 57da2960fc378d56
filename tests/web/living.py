"""The application on a real socket, for answers that never end by themselves."""

import json
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import httpx
import uvicorn

from pourwright.app.working.works import Works
from pourwright.web.application import make_app
from tests.runs.watching import wait_until


@contextmanager
def living(shop: Path, works: Works) -> Iterator[tuple[httpx.Client, uvicorn.Server]]:
    """Serve a shop in a thread; gives who asks, as the page does, and the server."""
    application = make_app(shop, works=works)
    server = uvicorn.Server(uvicorn.Config(application, port=0, log_level="warning", ws="none"))
    application.state.stopping = lambda: server.should_exit
    thread = threading.Thread(target=server.run)
    thread.start()
    wait_until(lambda: server.started)
    here = f"http://127.0.0.1:{server.servers[0].sockets[0].getsockname()[1]}"
    try:
        with httpx.Client(base_url=here, headers={"origin": here}, timeout=30) as client:
            yield client, server
    finally:
        server.should_exit = True
        thread.join(30)
        assert not thread.is_alive()


def events(answer: httpx.Response) -> Iterator[tuple[str, Any]]:
    """Read events as they come."""
    name = ""
    for line in answer.iter_lines():
        if line.startswith("event: "):
            name = line.removeprefix("event: ")
        elif line.startswith("data: "):
            yield name, json.loads(line.removeprefix("data: "))

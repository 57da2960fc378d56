"""What a foreign page in the maker's own browser can do: nothing."""

from collections.abc import Callable, Iterator
from functools import partial
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path
from threading import Thread

import httpx
import pytest
from playwright.sync_api import Browser

from tests.browser.serving import Served

_TRIES = """(url) => fetch(url, { method: 'POST', body: '{"changes": []}' })
    .then((answer) => answer.status, (error) => error.name)"""
_SENDS_BLIND = """(url) => fetch(url, { method: 'POST', mode: 'no-cors', body: '{"changes": []}' })
    .then(() => 'sent', (error) => error.name)"""


class _Elsewhere(BaseHTTPRequestHandler):
    def do_GET(self) -> None:
        self.send_response(200)
        self.end_headers()
        self.wfile.write(b"<!doctype html><title>elsewhere</title>")

    def log_message(self, *_words: object) -> None:
        pass


@pytest.fixture
def elsewhere() -> Iterator[str]:
    """A page of somebody else, open in the same browser."""
    with HTTPServer(("127.0.0.1", 0), _Elsewhere) as server:
        thread = Thread(target=partial(server.serve_forever, poll_interval=0.05))
        thread.start()
        yield f"http://127.0.0.1:{server.server_port}"
        server.shutdown()
        thread.join()


def test_a_page_of_somebody_else_changes_and_reads_nothing(
    browser: Browser, server: Served, new_job: Callable[..., Path], elsewhere: str
) -> None:
    file = new_job()
    before = file.read_text("utf8")
    context = browser.new_context()
    page = context.new_page()
    page.goto(elsewhere)
    change = f"{server.address}/jobs/{file.parent.name}/choices"
    assert page.evaluate(_TRIES, change) == "TypeError"
    assert page.evaluate(_SENDS_BLIND, change) == "TypeError"
    assert page.evaluate("(url) => fetch(url).then((a) => a.text(), (e) => e.name)", change) == "TypeError"
    context.close()
    assert file.read_text("utf8") == before


def test_the_page_stands_in_nobodys_frame(browser: Browser, server: Served, elsewhere: str) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto(elsewhere)
    page.evaluate(
        "(url) => document.body.append(Object.assign(document.createElement('iframe'), { src: url }))",
        server.address,
    )
    page.wait_for_timeout(500)
    inside = page.frames[1]
    assert "Shelf" not in inside.content()
    context.close()


def test_writes_need_the_pages_own_origin(server: Served, new_job: Callable[..., Path]) -> None:
    job = new_job().parent.name
    for origin in ("https://evil.example", "null", server.address + "0"):
        answer = httpx.post(f"{server.address}/jobs/{job}/undo", json={}, headers={"origin": origin})
        assert answer.status_code == 403
        assert answer.json()["error"]["where"] == "Origin"

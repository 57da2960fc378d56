"""A phone is paired at the laptop's screen, pours, and is taken back."""

import os
import re
import signal
import socket
import subprocess
import sys
import threading
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import httpx
import pytest
import uvicorn
from playwright.sync_api import Browser, expect

from pourwright.app.pairing.phones import Phones
from pourwright.web.application import make_app
from pourwright.web.lan import COOKIE, Lan
from tests.browser.pieces import put
from tests.browser.serving import START
from tests.browser.test_bench import opened, press, saved
from tests.browser.watched import watched
from tests.runs.watching import wait_until
from tests.sheets.laid import lay_plan
from tests.sheets.sample_chances import sure_plan

# another address of this computer stands for the network
NETWORK = "127.0.0.2"


@dataclass(frozen=True)
class Open:
    """A server with both sides."""

    here: str
    there: str
    phones: Phones


@pytest.fixture
def both(tmp_path: Path) -> Iterator[Open]:
    lay_plan(sure_plan(2), put(tmp_path / "shop", "stool").parent / "plan")
    phones = Phones(tmp_path / "cache" / "phones.json")
    with socket.socket() as near, socket.socket() as far:
        near.bind(("127.0.0.1", 0))
        port = near.getsockname()[1]
        far.bind((NETWORK, port))
        lan = Lan(f"http://{NETWORK}:{port}", frozenset({NETWORK}), phones)
        server = uvicorn.Server(
            uvicorn.Config(make_app(tmp_path / "shop", lan=lan), log_level="warning", ws="none")
        )
        thread = threading.Thread(target=server.run, args=([near, far],))
        thread.start()
        wait_until(lambda: server.started)
        yield Open(f"http://127.0.0.1:{port}", lan.address, phones)
        server.should_exit = True
        thread.join(30)


def test_the_command_opens_one_address_and_prints_no_secret(tmp_path: Path) -> None:
    put(tmp_path / "shop", "stool")
    command = [sys.executable, "-c", START, "serve", str(tmp_path / "shop"), "--no-open", "--port", "0"]
    with subprocess.Popen(
        [*command, "--lan", "--address", NETWORK],
        env=os.environ | {"POURWRIGHT_CACHE": str(tmp_path / "cache"), "PYTHONUNBUFFERED": "1"},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        start_new_session=True,
    ) as process:
        assert process.stdout is not None
        said = process.stdout.readline() + process.stdout.readline()
        here, there = re.findall(r"http://[0-9.]+:\d+(?= |$)", said, re.MULTILINE)[:2]
        assert httpx.get(f"{here}/bench.json", timeout=30).status_code == 200
        assert httpx.get(f"{there}/bench.json", timeout=30).status_code == 401
        made = httpx.post(f"{here}/phones/codes", headers={"origin": here}, timeout=30)
        assert made.status_code == 201
        # a third address of this computer is not listened at
        with pytest.raises(httpx.ConnectError):
            httpx.get(there.replace(NETWORK, "127.0.0.3"), timeout=5)
        process.send_signal(signal.SIGTERM)
        said += process.communicate(timeout=30)[0]
    assert "code=" not in said
    assert not re.search(r"[A-Za-z0-9_-]{40}", said)


def test_a_phone_is_paired_pours_and_is_taken_back(browser: Browser, both: Open) -> None:
    with watched(browser, both.here) as laptop, watched(browser, both.there, 360) as phone:
        screen = laptop.page("/phones")
        press(screen, "Pair a phone")
        picture = screen.get_by_role("img", name="Code that pairs one phone")
        expect(picture).to_be_visible()
        assert picture.evaluate("(image) => image.complete && image.naturalWidth > 0")
        # as the camera reads it
        page = phone.page(f"/pair?code={both.phones.new_code()[0]}")
        press(page, "Pair this phone")
        page.get_by_role("link", name="To the bench").click()
        page.get_by_role("link", name="Hourglass stool").click()
        opened(page)
        press(page, "All of it is done")
        saved(page)
        assert page.evaluate("document.cookie") == ""
        assert [one["name"] for one in phone.context.cookies()] == [COOKIE]
        phone.may = {401}
        screen.get_by_role("button", name="Take back").click()
        expect(screen.locator("#phones-list")).to_have_text("None.")
        press(page, "As planned")
        expect(page.locator("#bench-state")).to_contain_text("not paired")
        expect(page.locator("#bench-state")).to_contain_text("1 entry waits on this phone")
        # paired again, what waited is sent
        other = phone.page(f"/pair?code={both.phones.new_code()[0]}")
        press(other, "Pair this phone")
        expect(other.get_by_role("heading", name="Paired")).to_be_visible()
        other.close()
        saved(page)

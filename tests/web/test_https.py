"""Over https: a real handshake with this computer's own certificate, and nothing over plain http."""

import hashlib
import signal
import socket
import ssl
from collections.abc import Iterator
from dataclasses import dataclass
from http.cookies import SimpleCookie
from pathlib import Path
from threading import Thread

import httpx
import pytest

from pourwright.app.pairing.certificate import Certificate, certificate_in
from pourwright.app.pairing.phones import Phones
from pourwright.foundation.errors import UserError
from pourwright.web.application import make_app
from pourwright.web.command import serve
from pourwright.web.lan import COOKIE, Lan
from pourwright.web.serving import Servers
from tests.sheets.laid import lay_plan
from tests.sheets.sample_plan import sample_plan

FACING = "127.0.0.2"
"""Stands for this computer's address in the network."""
PATIENCE = 20.0


@dataclass(frozen=True)
class Open:
    """A server that is open to the network over https."""

    here: str
    there: str
    phones: Phones
    certificate: Certificate

    @property
    def pinned(self) -> httpx.Client:
        """A device that knows this one certificate and trusts nobody else."""
        trust = ssl.create_default_context(cafile=self.certificate.file)
        return httpx.Client(
            base_url=self.there, verify=trust, headers={"origin": self.there}, timeout=PATIENCE
        )


@pytest.fixture(scope="module")
def serving(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Open]:
    folder = tmp_path_factory.mktemp("https")
    (folder / "shop" / "stool").mkdir(parents=True)
    (folder / "shop" / "stool" / "job.toml").write_text("format = 1\n", "utf8")
    lay_plan(sample_plan(1), folder / "shop" / "stool" / "plan")
    certificate = certificate_in(folder / "own", [FACING, "bench-laptop"])
    sockets = [socket.create_server((host, 0)) for host in ("127.0.0.1", FACING)]
    here, there = (each.getsockname()[1] for each in sockets)
    phones = Phones(folder / "phones.json")
    lan = Lan(
        f"https://{FACING}:{there}", frozenset({FACING, "bench-laptop"}), phones, certificate.fingerprint
    )
    server = Servers(make_app(folder / "shop", lan=lan), certificate)
    thread = Thread(target=server.serve_all, args=(sockets,), daemon=True)
    thread.start()
    yield Open(f"http://127.0.0.1:{here}", lan.address, phones, certificate)
    server.handle_exit(signal.SIGTERM, None)
    thread.join(PATIENCE)
    assert not thread.is_alive()
    for each in sockets:
        each.close()


def test_a_device_that_knows_the_certificate_is_answered_and_paired(serving: Open) -> None:
    with serving.pinned as phone:
        assert phone.get("/bench.json").status_code == 401
        code, _ = serving.phones.new_code()
        answer = phone.post("/pair", params={"code": code})
        cookie = SimpleCookie(answer.headers["set-cookie"])[COOKIE]
        assert (cookie["secure"], cookie["httponly"], cookie["samesite"].lower()) == (True, True, "strict")
        assert "plain http" not in answer.text
        assert phone.get("/bench.json").json()["benches"][0]["job"] == "stool"
        # the page is the https one, and no page of plain http may change anything
        plain = phone.post(
            "/jobs/stool/entries",
            json={"entries": []},
            headers={"origin": serving.there.replace("https", "http")},
        )
        assert plain.status_code == 403
        assert phone.post("/jobs/stool/entries", json={"entries": []}).status_code == 200


def test_what_is_shown_is_the_fingerprint_of_what_is_spoken(serving: Open) -> None:
    port = int(serving.there.rpartition(":")[2])
    shown = ssl.PEM_cert_to_DER_cert(ssl.get_server_certificate((FACING, port), timeout=PATIENCE))
    spoken = hashlib.sha256(shown).hexdigest().upper()
    assert serving.certificate.fingerprint.replace(":", "") == spoken
    page = httpx.get(f"{serving.here}/phones", headers={"accept": "text/html"}, timeout=PATIENCE).text
    assert serving.certificate.fingerprint in page.replace("<wbr>", "")
    assert serving.there in page


def test_who_does_not_know_the_certificate_is_warned(serving: Open) -> None:
    with pytest.raises(httpx.ConnectError, match="CERTIFICATE_VERIFY_FAILED"):
        httpx.get(f"{serving.there}/bench", timeout=PATIENCE)


def test_plain_http_gets_nothing_on_that_port(serving: Open) -> None:
    host, port = FACING, int(serving.there.rpartition(":")[2])
    with socket.create_connection((host, port), PATIENCE) as line:
        line.sendall(f"GET /pair?code=x HTTP/1.1\r\nHost: {host}:{port}\r\n\r\n".encode())
        came = b"".join(iter(lambda: line.recv(4096), b""))
    assert b"HTTP" not in came
    assert b"pourwright" not in came


def test_this_computer_goes_on_in_the_open(serving: Open) -> None:
    assert httpx.get(f"{serving.here}/bench.json", timeout=PATIENCE).status_code == 200


def test_https_without_a_network_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UserError, match="https is for phones"):
        serve(tmp_path, https=True, open_browser=False)

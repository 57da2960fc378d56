"""The server is stopped by Ctrl-C while somebody is at the page."""

import re
import signal
import socket
from pathlib import Path

from tests.cli.foreground import started
from tests.runs.watching import ended


def test_what_the_end_cuts_off_is_told_as_no_defect(tmp_path: Path) -> None:
    process = started(tmp_path, "serve", ".", "--no-open", "--port", "0")
    with ended(process):
        found = re.search(r"http://(127\.0\.0\.1:(\d+))", process.stdout.readline())
        host, port = found.groups()
        head = f"PUT /uploads?name=a.stl HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\n"
        with socket.create_connection(("127.0.0.1", int(port))) as page:
            page.sendall(f"{head}Content-Length: 1000\r\nExpect: 100-continue\r\n\r\nsolid".encode())
            # the answer comes when the server has begun to read
            assert b"100" in page.recv(100)
            process.send_signal(signal.SIGINT)
            _, said = process.communicate(timeout=60)
    assert "Traceback" not in said
    assert "stopped" in said

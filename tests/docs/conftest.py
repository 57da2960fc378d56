"""What a page shows is made in this process: others only to load the package take as long as its plans."""

import pytest


@pytest.fixture(autouse=True)
def one_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("pourwright.runs.crew.usable_cores", lambda: 1)

import sys
from collections.abc import Callable
from typing import NamedTuple

import pytest

import pourwright
from pourwright.cli import main
from tests.cli.fake_app import FakeApp


class Said(NamedTuple):
    """What a command left behind."""

    status: int
    out: str
    err: str


@pytest.fixture
def app(monkeypatch: pytest.MonkeyPatch) -> FakeApp:
    fake = FakeApp()
    monkeypatch.setattr("pourwright.cli.meter.compiled_before", lambda: True)
    monkeypatch.setitem(sys.modules, "pourwright.app", fake)
    monkeypatch.setattr(pourwright, "app", fake, raising=False)
    return fake


@pytest.fixture
def say(capsys: pytest.CaptureFixture[str]) -> Callable[..., Said]:
    """Run the command line as the shell would."""

    def run(*arguments: str) -> Said:
        with pytest.raises(SystemExit) as left:
            main(arguments)
        out, err = capsys.readouterr()
        assert isinstance(left.value.code, int)
        return Said(left.value.code, out, err)

    return run

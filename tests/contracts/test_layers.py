import pytest
from importlinter.cli import lint_imports

from tests.contracts.house import ROOT


def test_floors_hold(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir(ROOT)
    status = lint_imports(config_filename="importlinter.ini", no_cache=True)
    assert status == 0, capsys.readouterr().out

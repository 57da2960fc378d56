"""A shop folder and a browser's way of asking."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from pourwright.web.application import make_app
from tests.contracts.house import ROOT

HERE = "http://127.0.0.1:8420"


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A shop with the two examples in it, invented."""
    folder = tmp_path / "shop"
    for name in ("hourglass-stool", "table-lamp"):
        shutil.copytree(
            ROOT / "examples" / name, folder / name, ignore=shutil.ignore_patterns("plan", "*.py")
        )
    return folder


@pytest.fixture
def page(shop: Path) -> Iterator[TestClient]:
    """Asks as the page itself does."""
    with TestClient(make_app(shop), base_url=HERE, headers={"origin": HERE}) as client:
        yield client

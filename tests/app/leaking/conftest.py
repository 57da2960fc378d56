"""The block's job with its plan."""

from pathlib import Path

import pytest

from tests.app.leaking.block import planned


@pytest.fixture
def poured(small: Path) -> Path:
    return planned(small)

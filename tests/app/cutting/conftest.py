"""A block whose wood adds up on paper."""

from collections.abc import Callable
from pathlib import Path

import pytest

BLOCK = """format = 1
title = "Plinth"
[shape]
box = ["300 mm", "200 mm", "54 mm"]
[casting]
material = "epoxy-slow-deep"
[mold]
method = "screwed"
wall = "20 mm"
base = "20 mm"
[shop]
temperature = "22 degC"
"""


@pytest.fixture
def written(tmp_path: Path) -> Callable[..., Path]:
    """A job of a block of 300 x 200 x 54 mm, with lines of its own below."""

    def write(more: str = "", text: str = BLOCK) -> Path:
        path = tmp_path / "job.toml"
        path.write_text(text + more)
        return path

    return write

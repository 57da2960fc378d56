"""A small job to choose in, with a comment on nearly every line."""

from pathlib import Path

import pytest

JOB = """# my lamp foot
format = 1
title = "Lamp foot"  # for the window

[shape]
box = ["80 mm", "60 mm", "50 mm"]

[casting]
material = "epoxy-slow-deep"  # two kits in stock

# bands, from below
[[band]]  # the first
to = "30 mm"
grade = "medium"  # sieved twice
colour = "green"

# the second
[[band]]
to = "top"
neat = true

[mold]
wall = "19 mm"  # thin, it is a small piece

# where I work
[shop]
temperature = "22 degC"
time_zone = "Europe/Berlin"
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "job.toml").write_text(JOB, "utf8")
    return tmp_path


def text_in(folder: Path) -> str:
    return (folder / "job.toml").read_text("utf8")

"""A job that is right, to be spoilt in one place."""

import pytest

TEXT = """\
format = 1
title = "Stool"

[shape]
file = "stool.stl"
unit = "mm"

[casting]
material = "epoxy-slow-deep"

[[band]]
to = "120 mm"
grade = "coarse"
colour = "green"

[[band]]
to = "top"
grade = "medium"
void_fraction = 0.44

[mold]
wall = "3/4 in"

[shop]
temperature = "20 degC"
"""


@pytest.fixture
def text():
    return TEXT

"""Jobs small enough to be planned in seconds; invented."""

from pathlib import Path

BLOCK = """\
# Invented: a block as small as a plan can be made of in seconds.
format = 1
title = "Small block"
units = "metric"
paper = "A4"
start = "2027-01-11 09:00"
invented = true

[shape]
open = "top"

[[shape.part]]
box = ["60 mm", "60 mm", "40 mm"]

[casting]
material = "epoxy-slow-deep"

[[band]]
to = "top"
grade = "medium"
colour = "clear"

[mold]
rubber = "silicone-platinum-a25"
wall = "20 mm"

[shop]
temperature = "21 degC"
time_zone = "Europe/Berlin"
working_hours = "08:00-18:00"
"""
TWO_BANDS = BLOCK.replace(
    '[[band]]\nto = "top"',
    '[[band]]\nto = "15 mm"\ngrade = "coarse"\ncolour = "amber"\n\n[[band]]\nto = "top"',
)


def put(shop: Path, name: str, text: str = BLOCK) -> Path:
    """Put a job on the shelf of a shop; gives its file."""
    folder = shop / name
    folder.mkdir(parents=True)
    file = folder / "job.toml"
    file.write_text(text, "utf8")
    return file

"""The table of the page on soaking is what is reckoned; its sentence is the ticket's."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from pourwright.foundation.notation import format_duration
from pourwright.materials import load_materials
from pourwright.physics.permeability import mean_grain
from pourwright.pour.site import Bed
from pourwright.pour.soaking import soak
from tests.pour.blocks import block_site

PAGE = (Path(__file__).parents[2] / "docs" / "soaking.md").read_text("utf8")
ROWS = {"slow deep-pour epoxy": "epoxy-slow-deep", "medium epoxy": "epoxy-medium", "fast epoxy": "epoxy-fast"}


@pytest.mark.parametrize("name", ROWS)
def test_the_table_is_what_is_reckoned(name: str) -> None:
    row = re.search(rf"^\| {name} \|(.*)\|$", PAGE, re.MULTILINE)
    assert row is not None
    *down, limit = (cell.strip() for cell in row[1].split("|"))
    grades = load_materials().glass["soda-lime-crushed"].grades
    for told, grade in zip(down, grades, strict=True):
        grain = mean_grain(grade.sieve_from.value, grade.sieve_to.value)
        site = replace(block_site(0.15, 0.1, resin=ROWS[name]), beds=(Bed(0.0, 0.15, 0.55, grain),))
        found = soak(site, 0.0, 0.15, 0.0)
        assert found is not None
        assert round(found.after / 60) == int(told.removesuffix(" min"))
        # told to some minutes, so that another processor's rounding does not matter
        hours = [float(part) for part in re.findall(r"\d+", limit)]
        assert found.limit / 3600 == pytest.approx(sum(h / 60**i for i, h in enumerate(hours)), rel=0.02)


def test_its_sentence_reads_as_on_the_ticket() -> None:
    quoted = " ".join(line.removeprefix("> ") for line in PAGE.splitlines() if line.startswith("> "))
    times = [format_duration(minutes * 60.0) for minutes in (11, 320)]
    for part in (
        f"about {times[0]} after mixing it is down, after {times[1]} too thick.",
        "Bubbles of 0.15 mm and more still come up where the grains let them.",
    ):
        assert part in quoted

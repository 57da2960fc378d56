"""The level against what is poured, and drawings put below each other."""

import re
import xml.etree.ElementTree as ET

import pytest

from pourwright.app.charting.level import level_rows
from pourwright.sheets.level_drawing import BOTTOM, LEFT, NAMES, TOP, WIDTH, draw_level
from pourwright.sheets.stacked import stacked
from tests.sheets.sample_plan import sample_plan

SVG = "{http://www.w3.org/2000/svg}"


def curves(drawing: str) -> list[list[tuple[float, float]]]:
    """Open lines of many points, each as places on paper."""
    paths = [path.get("d", "") for path in ET.fromstring(drawing).iter(f"{SVG}path")]
    points = [re.findall(r"(-?[\d.]+) (-?[\d.]+)", path) for path in paths if not path.endswith("Z")]
    return [[(float(x), float(y)) for x, y in found] for found in points if len(found) > 10]


def test_both_curves_rise_from_the_empty_mold_to_the_same_level() -> None:
    plan = sample_plan()
    cavity, liquid = curves(draw_level(plan, level_rows(plan)))
    for curve in (cavity, liquid):
        assert curve[0] == pytest.approx((LEFT, BOTTOM))
        assert [y for _, y in curve] == sorted((y for _, y in curve), reverse=True)
    assert cavity[-1][1] == liquid[-1][1] > TOP
    # widths on paper are as the volumes
    last = plan.dip_stick[-1]
    wide = [curve[-1][0] - LEFT for curve in (cavity, liquid)]
    assert wide[1] / wide[0] == pytest.approx(last.liquid_m3 / last.cavity_m3, rel=1e-3)
    assert cavity[-1][0] < WIDTH - NAMES


@pytest.mark.parametrize("units", ["metric", "us"])
def test_pours_and_bands_are_named(units: str) -> None:
    plan = sample_plan(units=units)
    words = " ".join(ET.fromstring(draw_level(plan, level_rows(plan))).itertext())
    assert all(f"pour {pour.number}: " in words for pour in plan.pours)
    assert all(band.name in words for band in plan.fill.bands)
    assert ("[in]" in words) == (units == "us")


def test_stacked_drawings_stand_below_each_other_and_keep_their_own_names() -> None:
    plan = sample_plan()
    one = draw_level(plan, level_rows(plan)).replace(
        "</title>", '</title><defs><clipPath id="clip1"/></defs>'
    )
    whole = ET.fromstring(stacked([one, one, one], 20.0))
    high = float(ET.fromstring(one).get("height", "").removesuffix("pt"))
    assert float(whole.get("height", "").removesuffix("pt")) == pytest.approx(3 * high + 40.0)
    moved = [part.get("transform") for part in whole.findall(f"{SVG}g")]
    assert moved == ["translate(0 0)", f"translate(0 {high + 20:g})", f"translate(0 {2 * high + 40:g})"]
    names = [part.get("id") for part in whole.iter(f"{SVG}clipPath")]
    assert len(set(names)) == len(names) == 3


def test_one_drawing_alone_stays_as_it_is() -> None:
    plan = sample_plan()
    one = draw_level(plan, level_rows(plan))
    assert stacked([one], 20.0) == one

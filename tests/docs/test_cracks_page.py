"""The page on cracks and halos: what it tells to write can be read, and its sums are right."""

import re
import tomllib

from pourwright.materials.loading import build
from pourwright.materials.records import Solid
from pourwright.pour.defaults import DEFAULTS
from tests.contracts.house import ROOT

PAGE = (ROOT / "docs" / "cracks.md").read_text("utf8")


def test_the_lines_of_a_shop_record_can_be_read():
    (block,) = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)
    solid = build(Solid, tomllib.loads(block)["my-resin"]["solid"], "page")
    assert solid.strain_at_break.value == 0.045
    assert solid.modulus.value == 2.4e9
    assert solid.expansion_glass == Solid().expansion_glass


def test_the_page_names_every_key_of_a_solid_and_no_other_margin():
    names = set(Solid.__dataclass_fields__)
    assert names - set(re.findall(r"`?(\w+)`? ?[=,`(]", PAGE)) == set()
    assert f"margin of {DEFAULTS['crack_margin'].value:g}" in PAGE
    low, high = (100 * end for end in (DEFAULTS["crack_halo"].low, DEFAULTS["crack_halo"].high))
    assert f"{low:g} to {high:g} %" in PAGE
    assert f"within {DEFAULTS['open_within'].value:g} °C" in PAGE


def test_the_sums_by_hand():
    gel = 0.025 * 0.577
    assert f"{100 * gel:.2f} %" in PAGE
    assert f"{50 * gel:.2f} mm" in PAGE
    assert f"{(200 * 0.45 + 5) * gel:.2f} mm" in PAGE

"""How far a top sinks before gel, by hand."""

import numpy as np
import pytest

from pourwright.pour.sink import liquid_loss, sink_depth

RESIN = {"gel_conversion": 0.577, "cure_shrinkage": 0.025, "expansion": 180e-6}


def test_a_neat_litre_worked_by_hand():
    # a litre 50 mm deep, gelled as warm as poured: 2.5 % of 0.577 is 1.4425 %, 14.425 ml, 0.72 mm
    lost = liquid_loss(np.array([1e-3]), np.array([0.0]), **RESIN)
    assert lost == pytest.approx(14.425e-6, rel=1e-12)
    assert sink_depth(np.array([0.05]), np.array([1e-3]), lost) == pytest.approx(0.72125e-3, rel=1e-9)


def test_all_the_voids_of_a_bed_feed_from_the_top():
    # bed of 200 mm with 45 % voids on 0.01 m2, 5 mm of cover: 0.95 l of liquid lose 13.7 ml, 1.37 mm of cover
    volumes = np.array([0.45 * 0.2 * 0.01, 0.005 * 0.01])
    lost = liquid_loss(volumes, np.zeros(2), **RESIN)
    assert lost == pytest.approx(0.95e-3 * 0.014425, rel=1e-12)
    assert sink_depth(np.array([0.2, 0.005]), volumes, lost) == pytest.approx(1.370375e-3, rel=1e-9)


def test_below_the_cover_it_sinks_faster():
    thickness, liquid = np.array([0.2, 0.002]), np.array([0.9e-3, 0.02e-3])
    # 20 ml are the cover, the other 9 ml come out of 0.9 l in 200 mm: 2 mm more
    assert sink_depth(thickness, liquid, 29e-6) == pytest.approx(0.004, rel=1e-9)


def test_warmth_swells_it_the_other_way():
    # 3 * 180e-6 * 40 K is 2.16 %, more than the 1.44 % of curing: it gels standing higher
    lost = liquid_loss(np.array([1e-3]), np.array([40.0]), **RESIN)
    assert lost == pytest.approx((0.014425 - 0.0216) * 1e-3, rel=1e-9)
    assert sink_depth(np.array([0.05]), np.array([1e-3]), lost) == pytest.approx(-0.35875e-3, rel=1e-9)

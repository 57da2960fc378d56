import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.geometry import box, cone, find_faults, measure
from pourwright.geometry.drawn.joining import Joining
from tests.geometry.bodies import turned

SHIFTS = st.tuples(*[st.floats(-0.1, 0.1)] * 3)


def volume_of(*steps):
    joining = Joining()
    for mesh, cut in steps:
        (joining.cut if cut else joining.add)(mesh)
    mesh = joining.body()
    assert find_faults(mesh) == ()
    return measure(mesh).volume


@settings(max_examples=25, deadline=None, derandomize=True)
@given(shift=SHIFTS, seed=st.integers(0, 1000), round_one=st.booleans())
def test_inclusion_and_exclusion(shift, seed, round_one):
    """V(A) + V(B) = V(A u B) + V(A n B), with V(A n B) = V(A) - V(A - B)."""
    large = box([0.22, 0.22, 0.22]).moved([0, 0, -0.11])
    small = cone(0.04, 0.05, 0.1, 32) if round_one else box([0.1, 0.08, 0.09])
    small = turned(small.moved([0, 0, -0.05]), seed).moved(shift)
    both = measure(large).volume + measure(small).volume
    shared = measure(large).volume - volume_of((large, False), (small, True))
    assert volume_of((large, False), (small, False)) + shared == pytest.approx(both, rel=1e-9)


def test_a_cavity_stays_and_faces_that_lie_on_each_other_join():
    cube, core = box([0.2, 0.2, 0.2]), box([0.1, 0.1, 0.1]).moved([0, 0, 0.05])
    assert volume_of((cube, False), (core, True)) == pytest.approx(0.008 - 0.001, rel=1e-12)
    assert volume_of((cube, False), (cube.moved([0, 0, 0.2]), False)) == pytest.approx(0.016, rel=1e-12)


def test_the_same_parts_give_the_same_bytes():
    def once():
        joining = Joining()
        joining.add(box([0.2, 0.1, 0.05]))
        joining.add(cone(0.03, 0.03, 0.2))
        return joining.body()

    first, again = once(), once()
    assert first.vertices.tobytes() == again.vertices.tobytes()
    assert first.faces.tobytes() == again.faces.tobytes()


CUBE = box([0.1, 0.1, 0.1])


@pytest.mark.parametrize(
    ("steps", "reason"),
    [
        ([(CUBE, True)], "nothing yet"),
        ([(CUBE, False), (CUBE.moved([0.3, 0, 0]), False)], "loose.*the gap is 200 mm"),
        ([(CUBE, False), (CUBE.moved([0.1, 0.1, 0]), False)], "loose"),
        ([(CUBE, False), (box([0.2, 0.2, 0.2]).moved([0, 0, -0.05]), True)], "cuts everything away"),
        ([(CUBE, False), (CUBE.moved([0.3, 0, 0]), True)], "cuts nothing away"),
        (
            [(CUBE, False), (box([0.02, 0.2, 0.2]), True)],
            r"cuts the body in 2; .*near x = -?30, y = 0, z = 50 mm",
        ),
        ([(CUBE.reversed(), False)], "no closed body"),
    ],
)
def test_parts_that_make_no_single_body(steps, reason):
    with pytest.raises(UserError, match=reason):
        volume_of(*steps)

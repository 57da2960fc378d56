"""Faulty files are mended to the volume that was meant, or refused with the place."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.geometry import Mesh, box, find_faults, joined, measure, read_mesh, repaired
from tests.geometry.bodies import ball, hourglass, torus, turned
from tests.geometry.faulty import CASES, CUBE, flipped, more, soup, without, write_case

MENDED = [name for name, case in CASES.items() if case.volume is not None]
REFUSED = [name for name, case in CASES.items() if case.volume is None]


def grave(found):
    return [fault for fault in found.faults if fault.refused]


@pytest.mark.parametrize("name", MENDED)
def test_mended_to_the_volume_that_was_meant(name, tmp_path):
    """STL holds seven digits, so 1e-6 of the volume; other shares are said beside the case."""
    case = CASES[name]
    found = repaired(read_mesh(write_case(name, tmp_path), "mm"))
    assert grave(found) == []
    assert [fault for fault in find_faults(found.mesh) if fault.refused] == []
    assert measure(found.mesh).volume == pytest.approx(case.volume, rel=case.within)
    if case.told is not None:
        assert case.told in [mending.kind for mending in found.mendings]


@pytest.mark.parametrize("name", REFUSED)
def test_refused_with_kind_place_and_unit(name, tmp_path):
    case = CASES[name]
    found = repaired(read_mesh(write_case(name, tmp_path), "mm"))
    first = grave(found)[0]
    assert first.kind == case.kind
    if case.place is not None:
        # the tube of the knot is 60 mm wide, the band of one side 100 mm around its middle
        assert np.abs(first.place - case.place).max() < 0.11
        assert first.sentence("in").endswith(" in")


@pytest.mark.parametrize("name", MENDED)
def test_mending_twice_changes_nothing(name, tmp_path):
    once = repaired(read_mesh(write_case(name, tmp_path), "mm"))
    again = repaired(once.mesh)
    assert again.mesh is once.mesh
    assert again.mended == ()


@pytest.mark.parametrize("mesh", [CUBE, torus(), hourglass(), turned(hourglass(), 2), ball()])
def test_a_sound_body_comes_back_as_it_is(mesh):
    found = repaired(mesh)
    assert found.mesh is mesh
    assert (found.mendings, found.faults) == ((), ())


def test_the_sentence_says_count_place_unit_and_change(tmp_path):
    found = repaired(read_mesh(write_case("doubled faces", tmp_path), "mm"))
    (mending,) = found.mendings
    assert mending.sentence("in") == (
        "3 triangles lay on others and were left out, first near x = -1.3123, y = 1.3123, z = 7.874 in"
    )


def test_a_small_hole_says_what_can_be_lost(tmp_path):
    found = repaired(read_mesh(write_case("small hole", tmp_path), "mm"))
    (mending,) = found.mendings
    # half a ball on the hole: pi d^3 / 12
    assert mending.volume == pytest.approx(np.pi * mending.lengths[0] ** 3 / 12)
    assert "the volume changed by 0.0033 % at most" in mending.sentence("mm", measure(found.mesh).volume)


def test_a_large_hole_says_its_width():
    (fault,) = repaired(without(CUBE, 2, 3)).faults
    # the rim is the whole top of 200 mm: its diagonal
    assert f"{200 * np.sqrt(2):.1f} mm wide" in fault.sentence("mm")


def test_bodies_are_listed_by_size_and_chosen(tmp_path):
    mesh = read_mesh(write_case("several bodies", tmp_path), "mm")
    (fault,) = grave(repaired(mesh))
    assert "1 is 200 x 200 x 200 mm" in fault.sentence("mm")
    assert "3 is 20 x 20 x 20 mm around x = 0, y = 500, z = 10" in fault.sentence("mm")
    volumes = [measure(repaired(mesh, body=n).mesh).volume for n in (1, 2, 3)]
    assert volumes == pytest.approx([0.008, measure(ball(0.05)).volume, 8e-6], rel=1e-6)
    assert grave(repaired(mesh, body=4))[0].message.startswith("there is no body 4")


def test_an_inverted_body_beside_another_is_turned():
    """Far apart, nothing but its facing can be wrong with it."""
    mesh = joined([CUBE, box([0.1, 0.1, 0.1]).moved([0.5, 0, 0]).reversed()])
    found = repaired(mesh, body=2)
    assert measure(found.mesh).volume == pytest.approx(0.001)
    assert "inverted" in [mending.kind for mending in found.mendings]


def test_bodies_far_from_the_origin_keep_the_places_of_the_file(tmp_path):
    found = repaired(read_mesh(write_case("far from the origin", tmp_path), "mm"))
    assert found.shift == pytest.approx([500.0, -300.0, 0.0])
    assert np.abs(found.mesh.bounds).max() < 1.0


def test_what_was_wrong_by_digits_says_the_step(tmp_path):
    (fault,) = repaired(read_mesh(write_case("lost in its digits", tmp_path), "mm")).faults
    # a number of 32 bits near 1e8 is a multiple of 8
    assert "one number is 8 mm from the next" in fault.sentence("mm")


def test_numbers_written_with_few_decimals():
    """Seven digits in decimal notation, a kilometre out: whole millimetres."""
    far = ball(0.1).moved([1000.0, 0, 0])
    short = Mesh(np.round(far.vertices, 3) + np.array([0, 0, 1e-9]), far.faces)
    assert "one number is 1 mm from the next" in repaired(short).faults[0].sentence("mm")


def test_a_cavity_stays_whatever_else_is_mended():
    room = joined([CUBE, ball(0.05, center=(0, 0, 0.1)).reversed()])
    broken = more(without(flipped(room, 2, 20), 5, 300), room.faces[[8, 100]])
    assert measure(repaired(broken).mesh).volume == pytest.approx(measure(room).volume, rel=1e-12)


def test_island_on_a_stalk_is_no_loose_body():
    """A body that begins in a cavity and runs through its wall hangs on it."""
    stalk = box([0.02, 0.02, 0.12]).moved([0, 0, 0.09])
    room = joined([CUBE, box([0.1, 0.1, 0.1]).moved([0, 0, 0.05]).reversed(), stalk])
    # 0.008 less the cavity, plus the stalk's 60 mm in it and 10 mm above the top
    expected = 0.008 - 0.001 + 0.02**2 * (0.06 + 0.01)
    assert measure(repaired(room).mesh).volume == pytest.approx(expected, rel=1e-9)


bodies = st.sampled_from([CUBE, ball(0.1, 2), torus(), hourglass(24), turned(hourglass(24), 3)])


@settings(max_examples=30, deadline=None)
@given(bodies, st.integers(0, 2**32 - 1), st.booleans())
def test_random_harm_is_undone(body, seed, inverted):
    """Any order of corners and triangles, flips, second copies and one missing triangle."""
    rng = np.random.default_rng(seed)
    order = rng.permutation(len(body.vertices))
    number = np.empty_like(order)
    number[order] = np.arange(order.size)
    faces = number[body.faces][rng.permutation(len(body.faces))]
    flips = rng.random(len(faces)) < 0.3
    faces[flips] = faces[flips][:, ::-1]
    copies = faces[rng.integers(0, len(faces), 3)][:, ::-1]
    harmed = Mesh(
        body.vertices[order], np.concatenate([faces[1:], copies[(copies != faces[0, ::-1]).any(axis=1)]])
    )
    harmed = soup(harmed.reversed() if inverted else harmed)
    found = repaired(harmed)
    assert grave(found) == []
    assert measure(found.mesh).volume == pytest.approx(measure(body).volume, rel=1e-9)


@settings(max_examples=15, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(-0.1, 0.1), st.floats(-0.1, 0.1), st.floats(0.05, 0.15)), min_size=2, max_size=4
    )
)
def test_overlapping_boxes_measure_as_their_cells_do(shifts):
    """The volume of the union against the sum over the cells of the lattice through all their sides."""
    boxes = [box([0.2 + s[2] / 7, 0.2, 0.2 - s[2] / 9]).moved(s) for s in shifts]
    found = repaired(joined(boxes))
    assert grave(found) == []
    bounds = np.array([b.bounds for b in boxes])
    lines = [np.unique(bounds[:, :, axis]) for axis in range(3)]
    middles = np.stack(np.meshgrid(*((x[1:] + x[:-1]) / 2 for x in lines), indexing="ij"), axis=-1)
    sizes = np.prod(np.stack(np.meshgrid(*map(np.diff, lines), indexing="ij"), axis=-1), axis=-1)
    inside = ((middles[..., None, :] > bounds[:, 0]) & (middles[..., None, :] < bounds[:, 1])).all(axis=-1)
    assert measure(found.mesh).volume == pytest.approx(float(sizes[inside.any(axis=-1)].sum()), rel=1e-7)


def test_a_body_too_thin_for_the_tolerance_is_refused():
    with pytest.raises(UserError, match="nothing of the shape is so thick"):
        repaired(box([0.2, 0.2, 0.001]), tolerance=0.1)

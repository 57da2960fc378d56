"""Answers that stay beside a mesh."""

import gc
import weakref

from pourwright.geometry import Mesh, box, measure
from pourwright.geometry.kept import MOST, beside, kept, known, lay_beside

ASKED: list[float] = []


@kept
def longest(mesh: Mesh, times: float = 1.0) -> float:
    ASKED.append(times)
    return times * float((mesh.bounds[1] - mesh.bounds[0]).max())


def test_a_question_is_answered_once_for_each_mesh_and_each_argument():
    ASKED.clear()
    cube, slab = box([1.0, 1.0, 1.0]), box([3.0, 1.0, 1.0])
    assert [longest(cube), longest(cube), longest(slab), longest(cube, 2.0)] == [1.0, 1.0, 3.0, 2.0]
    assert ASKED == [1.0, 1.0, 2.0]
    assert known(longest, cube, 2.0)
    assert not known(longest, slab, 2.0)


def test_what_was_found_goes_with_its_mesh():
    cube = box([1.0, 1.0, 1.0])
    found = weakref.ref(measure(cube).centroid)
    assert found() is not None
    del cube
    gc.collect()
    assert found() is None


def test_answers_are_carried_to_an_equal_mesh():
    ASKED.clear()
    cube, same = box([1.0, 1.0, 1.0]), box([1.0, 1.0, 1.0])
    longest(cube, 4.0)
    lay_beside(same, beside(cube))
    assert longest(same, 4.0) == 4.0
    assert ASKED == [4.0]


def test_the_oldest_answers_go():
    cube = box([1.0, 1.0, 1.0])
    for times in range(MOST + 1):
        longest(cube, float(times))
    assert not known(longest, cube, 0.0)
    assert known(longest, cube, float(MOST))
    assert len(beside(cube)) == MOST

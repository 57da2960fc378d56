"""Files broken on purpose: the only outcomes are a mesh or one clear error. The benchmark fuzz has more."""

import pytest
from hypothesis import HealthCheck, Phase, given, seed, settings

from pourwright.foundation.errors import UserError
from pourwright.geometry import find_faults
from pourwright.geometry.files.readers import read_shape_file
from tests.geometry.mangling import SEEDS, broken

# STEP is read in processes of its own, which takes too long here
KINDS = tuple(kind for kind in SEEDS if kind != ".step")


def outcome(path, unit):
    """Read and judge; gives what is said about the file."""
    try:
        mesh = read_shape_file(path, unit).mesh
    except UserError as error:
        return [str(error)]
    return [fault.sentence("mm") for fault in find_faults(mesh)]


@pytest.mark.parametrize("kind", KINDS)
def test_sound_files_are_sound(tmp_path, kind):
    for number, content in enumerate(SEEDS[kind]):
        path = tmp_path / f"{number}{kind}"
        path.write_bytes(content)
        assert len(read_shape_file(path, None if kind in {".3mf", ".glb"} else "mm").mesh.faces) >= 4


@seed(20)
@settings(
    max_examples=400, deadline=None, database=None, phases=[Phase.generate],
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)  # fmt: skip
@given(broken(KINDS))
def test_broken_files_become_a_mesh_or_one_error(tmp_path, case):
    kind, content = case
    path = tmp_path / f"a{kind}"
    path.write_bytes(content)
    said = outcome(path, None if kind in {".3mf", ".glb"} else "mm")
    assert all(sentence and "\n" not in sentence and "memory" not in sentence for sentence in said)

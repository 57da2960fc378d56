"""The heat file: written whole, read by slice, refused when it is something else."""

import json

import h5py
import numpy as np
import pytest

from pourwright.foundation.errors import UserError
from pourwright.jobs import SnapshotFile
from pourwright.jobs.snapshots import SnapshotContent, snapshot_bytes

COUNT, SHAPE = 37, (7, 5, 9)
HALF = 2.0**-11
"""Rounding of a number in half precision, IEEE 754: 11 bits, so half a bit of the eleventh."""


def fields():
    chance = np.random.default_rng(3)
    warm = chance.uniform(15.0, 120.0, (COUNT, *SHAPE))
    cured = chance.uniform(0.0, 1.0, (COUNT, *SHAPE))
    for one in (warm, cured):
        one[:, 0], one[:12, :, :, 4:] = np.nan, np.nan
    return warm, cured


def content(**about):
    warm, cured = fields()
    edges = tuple(np.linspace(-0.1, 0.1, side + 1) for side in SHAPE)
    times = np.arange(COUNT) * 0.5
    pours = np.where(times < 6.0, 1, 2)
    told = {"title": "Box", "version": "0", "plan_sha256": "0" * 64, "invented": 1, **about}
    boxes = iter(zip(warm, cured, strict=True))
    return SnapshotContent(told, edges, times, pours, [0.0, 6.0], [0.0, 0.1], boxes)


@pytest.fixture
def path(tmp_path):
    target = tmp_path / "heat.h5"
    target.write_bytes(snapshot_bytes(content()))
    return target


def test_round_trip_within_half_precision(path):
    for name, given in zip(("temperature_degC", "cured"), fields(), strict=True):
        with SnapshotFile(path) as file:
            back = np.stack([file.box(moment, name) for moment in range(COUNT)])
        assert np.array_equal(np.isnan(back), np.isnan(given))
        known = ~np.isnan(given)
        assert np.all(np.abs(back - given)[known] <= HALF * given[known] + 1e-7)


def test_every_slice_is_the_slice_of_the_array(path):
    with SnapshotFile(path) as file:
        for name, given in zip(("temperature_degC", "cured"), fields(), strict=True):
            kept = given.astype(np.float16)
            at = {axis: file.centers_m[axis][index] for axis, index in zip("xyz", (3, 2, 6), strict=True)}
            pairs = [
                (file.plane(20, "x", at["x"], name), kept[20, 3]),
                (file.plane(20, "y", at["y"], name), kept[20, :, 2]),
                (file.plane(20, "z", at["z"], name), kept[20, :, :, 6]),
                (file.film("y", at["y"], name), kept[:, :, 2]),
                (file.history((at["x"], at["y"], at["z"]), name), kept[:, 3, 2, 6]),
            ]
            for read, expected in pairs:
                assert np.array_equal(read, expected, equal_nan=True)


def test_axes_times_and_pours_are_told(path):
    with SnapshotFile(path) as file:
        assert (file.about["title"], file.about["schema"]) == ("Box", "pourwright-heat-file/1.0")
        assert json.dumps(file.about, sort_keys=True).startswith('{"invented": 1, ')
        assert file.edges_m["z"].size == SHAPE[2] + 1
        assert file.pour_start_h.tolist() == [0.0, 6.0]
        assert [file.moment(time) for time in (-1.0, 0.0, 0.49, 0.5, 5.9, 1e9)] == [0, 0, 0, 1, 11, 36]
        assert file.pours_in[[11, 12]].tolist() == [1, 2]


def test_two_snapshots_of_one_time_the_later_holds(tmp_path):
    target, given = tmp_path / "heat.h5", content()
    given.time_h[12] = given.time_h[11]
    target.write_bytes(snapshot_bytes(given))
    with SnapshotFile(target) as file:
        assert file.moment(float(given.time_h[11])) == 12


def test_same_content_same_bytes():
    assert snapshot_bytes(content()) == snapshot_bytes(content())


def test_two_lines_read_it_without_us(path):
    with h5py.File(path) as file:
        assert file["temperature_degC"].attrs["units"] == "degC"
        assert [scale.label for scale in file["cured"].dims] == ["", "", "", ""]
        assert file["cured"].dims[0][0][5] == 2.5


def refusal(path):
    with pytest.raises(UserError) as caught:
        SnapshotFile(path)
    line = str(caught.value)
    assert "\n" not in line
    assert path.name in line
    assert "make the plan again" in line
    return line


def test_what_is_no_heat_file_is_refused_in_one_line(tmp_path, path):
    assert "there is no such file" in refusal(tmp_path / "none.h5")
    assert "there is no such file" in refusal(tmp_path)
    foreign = tmp_path / "plan.json"
    foreign.write_text("{}")
    assert "no HDF5 file" in refusal(foreign)
    foreign.write_bytes(path.read_bytes()[:3000])
    assert refusal(foreign)
    with h5py.File(foreign, "w") as file:
        file["temperature_degC"] = [1.0]
    assert "missing or broken" in refusal(foreign)


@pytest.mark.parametrize(
    ("schema", "said"),
    [
        ("pourwright-heat-file/2.0", "newer than this program"),
        ("pourwright-heat/1.0", "its schema is 'pourwright-heat/1.0'"),
    ],
)
def test_another_schema_is_refused(path, schema, said):
    with h5py.File(path, "r+") as file:
        file.attrs["schema"] = schema
    assert said in refusal(path)


def test_a_piece_that_got_lost_is_told_when_it_is_read(path):
    whole = path.read_bytes()
    with h5py.File(path) as file:
        piece = file["temperature_degC"].id.get_chunk_info(0)
    spoilt = bytearray(whole)
    spoilt[piece.byte_offset : piece.byte_offset + piece.size] = b"\x07" * piece.size
    path.write_bytes(bytes(spoilt))
    with SnapshotFile(path) as file, pytest.raises(UserError, match="missing or broken"):
        file.box(0)


def test_a_place_outside_is_told_with_what_is_allowed(path):
    with (
        SnapshotFile(path) as file,
        pytest.raises(UserError, match=r"x = 0\.3 m lies outside.*-0\.1 m to 0\.1 m"),
    ):
        file.history((0.3, 0.0, 0.0))

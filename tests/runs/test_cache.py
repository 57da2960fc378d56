"""Results that are kept: whole, trusted only if ours, and never in the way."""

import errno
import os
import pickle
import subprocess
import sys
from datetime import datetime
from fractions import Fraction
from pathlib import Path
from types import MappingProxyType
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from pourwright.foundation import files
from pourwright.foundation.sources import Kind, Source
from pourwright.pour.climate import Climate
from pourwright.runs import Cache, fingerprint
from pourwright.runs.cache import _MARK, _closed
from pourwright.runs.plain import read_plain

KEY, OTHER, THIRD = "a" * 64, "b" * 64, "c" * 64
ZONE = ZoneInfo("Europe/Rome")


@pytest.fixture
def cache(tmp_path: Path) -> Cache:
    return Cache(tmp_path / "results")


def entry(cache: Cache, key: str = KEY) -> Path:
    return cache.folder / key[:2] / key


def test_what_was_put_comes_back(cache: Cache) -> None:
    numbers = np.arange(6.0).reshape(2, 3)[:, ::-1]
    shop = Climate(datetime(2026, 10, 25, 2, 30, tzinfo=ZONE, fold=1), ZONE, (293.15,) * 24)
    source = Source("a", "B", seen=True)
    rest = (
        source,
        Kind.MEMORY,
        Fraction(1, 3),
        1 + 2j,
        {"a": {1}},
        MappingProxyType({"k": [None, b"x"]}),
        Path("a/b"),
    )
    assert cache.get(KEY) is None
    cache.put(KEY, (numbers, shop, rest, np.float64(0.1), np.array([(1, 2.0)], dtype="i4,f8")))
    found = cache.get(KEY)
    assert isinstance(found, tuple)
    assert np.array_equal(found[0], numbers)
    assert fingerprint(found) == fingerprint(
        (numbers, shop, rest, np.float64(0.1), np.array([(1, 2.0)], dtype="i4,f8"))
    )
    assert found[1].zone is ZONE
    assert not cache.trouble


def test_it_lies_where_this_users_caches_lie(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path))
    Cache().put(KEY, 1)
    assert [path.parent.parent for path in tmp_path.rglob(KEY)] == [tmp_path / "results"]


class Trap:
    """What a hostile entry does when it is opened."""

    def __init__(self, function: object, *arguments: object) -> None:
        self._asked = (function, arguments)

    def __reduce__(self) -> tuple[object, ...]:
        return self._asked


def traps(target: Path) -> list[object]:
    return [
        Trap(os.system, f"touch {target}"),
        Trap(eval, f"open({str(target)!r}, 'w')"),
        Trap(getattr, Path, "touch"),
        Trap(files.write_atomically, target, "x"),
        Trap(subprocess.Popen, ["touch", str(target)]),
        Trap(np.load, "x.npy", None, True),
        np.array([Trap(files.write_atomically, target, "x")], dtype=object),
    ]


@pytest.mark.parametrize("number", range(7))
def test_a_hostile_entry_is_a_miss(cache: Cache, tmp_path: Path, number: int) -> None:
    target = tmp_path / "touched"
    content = pickle.dumps(traps(target)[number])
    with pytest.raises(pickle.UnpicklingError):
        read_plain(content)
    cache.put(KEY, 1)
    put_raw(cache, content)
    assert cache.get(KEY) is None
    assert not target.exists()
    assert not entry(cache).exists()


def put_raw(cache: Cache, content: bytes) -> None:
    """Write an entry that is well-formed around any content."""
    import hashlib

    entry(cache).write_bytes(_MARK + hashlib.sha256(content).digest() + content)


@pytest.mark.parametrize(
    ("module", "name"),
    [
        ("pourwright.foundation.files", "os.system"),
        ("pourwright.foundation.files", "write_atomically"),
        ("pourwright.runs.cache", "Path"),
        ("pourwright.runs", "Cache"),
        ("pourwright.runs.cache", "Cache"),
        ("pourwrighter", "Source"),
        ("numpy", "load"),
    ],
)
def test_our_own_package_is_no_back_door(module: str, name: str) -> None:
    texts = b"".join(b"\x8c" + bytes([len(each)]) + each.encode() for each in (module, name))
    with pytest.raises(pickle.UnpicklingError, match="no plain value"):
        read_plain(b"\x80\x04" + texts + b"\x93.")


def test_a_class_of_plain_values_is_let_in() -> None:
    assert read_plain(b"\x80\x04\x8c\x1dpourwright.foundation.sources\x8c\x06Source\x93.") is Source


@pytest.mark.parametrize("cut", [0, 1, 25, 60, -1])
def test_a_damaged_entry_is_a_miss_and_is_removed(cache: Cache, cut: int) -> None:
    cache.put(KEY, (1.0, "two"))
    whole = entry(cache).read_bytes()
    entry(cache).write_bytes(whole[:cut])
    assert cache.get(KEY) is None
    assert not entry(cache).exists()


def test_one_changed_byte_is_noticed_wherever_it_is(cache: Cache) -> None:
    whole = bytearray(_closed((1.0, "two")))
    cache.put(KEY, 0)
    for place in range(len(whole)):
        spoiled = bytearray(whole)
        spoiled[place] ^= 1
        entry(cache).write_bytes(spoiled)
        assert cache.get(KEY) is None


def test_an_entry_of_a_class_that_is_gone_is_a_miss(cache: Cache) -> None:
    cache.put(KEY, Source("a", "B", seen=True))
    content = _closed(Source("a", "B", seen=True))[len(_MARK) + 32 :]
    put_raw(cache, content.replace(b"\x06Source", b"\x06Sauces"))
    assert cache.get(KEY) is None


def test_a_folder_in_an_entrys_place_is_a_miss(cache: Cache) -> None:
    entry(cache).mkdir(parents=True)
    assert cache.get(KEY) is None


@pytest.mark.parametrize("value", [None, print, lambda: 0, Path.open, object(), (1, {2: print})])
def test_what_could_not_be_read_back_is_refused(cache: Cache, value: object) -> None:
    with pytest.raises(TypeError):
        cache.put(KEY, value)
    assert cache.get(KEY) is None


@pytest.mark.parametrize("key", ["", "x" * 64, "../" + "a" * 61, "a" * 63, "A" * 64])
def test_only_fingerprints_are_keys(cache: Cache, key: str) -> None:
    with pytest.raises(ValueError, match="no key"):
        cache.get(key)


def test_the_longest_unused_goes_first(tmp_path: Path) -> None:
    size = len(_closed(np.zeros(1000)))
    cache = Cache(tmp_path, limit=3 * size + size // 2)
    for key in (KEY, OTHER, THIRD):
        cache.put(key, np.zeros(1000))
    for age, key in enumerate((OTHER, THIRD, KEY)):
        os.utime(entry(cache, key), (1e9 + age, 1e9 + age))
    assert cache.get(OTHER) is not None
    cache.put("d" * 64, np.zeros(1000))
    assert [cache.get(key) is not None for key in (KEY, OTHER, THIRD, "d" * 64)] == [True, True, False, True]


def test_what_a_killed_process_left_unfinished_goes_too(tmp_path: Path) -> None:
    cache = Cache(tmp_path, limit=10_000)
    left = tmp_path / "ab" / f".{KEY}.part"
    left.parent.mkdir()
    left.write_bytes(b"x" * 20_000)
    os.utime(left, (1e9, 1e9))
    cache.put(KEY, 1)
    assert not left.exists()
    assert cache.get(KEY) == 1


def test_what_is_larger_than_all_room_is_not_kept(tmp_path: Path) -> None:
    cache = Cache(tmp_path, limit=100)
    cache.put(KEY, np.zeros(1000))
    assert cache.get(KEY) is None
    assert not cache.trouble


def test_a_place_that_is_no_folder_only_disables_it(tmp_path: Path) -> None:
    (tmp_path / "results").write_text("in the way")
    cache = Cache(tmp_path / "results")
    cache.put(KEY, 1)
    cache.put(OTHER, 1)
    assert cache.get(KEY) is None
    assert str(cache.folder) in cache.trouble


def test_a_full_disk_only_disables_it(cache: Cache, monkeypatch: pytest.MonkeyPatch) -> None:
    cache.put(KEY, 1)

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr("pourwright.runs.cache.write_atomically", full)
    cache.put(OTHER, 1)
    assert cache.get(OTHER) is None
    assert cache.get(KEY) == 1
    assert os.strerror(errno.ENOSPC) in cache.trouble


_WRITER = """
import sys
import numpy as np
from pathlib import Path
from pourwright.runs import Cache
cache = Cache(Path(sys.argv[1]))
for turn in range(40):
    cache.put("a" * 64, np.full(20_000, float(sys.argv[2])))
    found = cache.get("a" * 64)
    assert found is not None and found.min() == found.max()
"""


def test_two_processes_write_the_same_key_at_once(tmp_path: Path) -> None:
    both = [subprocess.Popen([sys.executable, "-c", _WRITER, str(tmp_path), each]) for each in "12"]
    assert [each.wait() for each in both] == [0, 0]
    found = Cache(tmp_path).get(KEY)
    assert isinstance(found, np.ndarray)
    assert found.min() == found.max()
    assert [path.name for path in tmp_path.rglob("*") if path.is_file()] == [KEY]


def test_it_can_be_emptied(cache: Cache) -> None:
    cache.put(KEY, 1)
    cache.empty()
    assert cache.get(KEY) is None

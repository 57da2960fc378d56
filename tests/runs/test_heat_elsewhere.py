"""Heat runs by other processes and from the cache are those of this process, bit for bit."""

import functools
from pathlib import Path

from pourwright.app.running import load, open_cache, open_crew, trouble_of
from pourwright.pour.store import NoStore, in_turn
from pourwright.runs import Cache, Crew, fingerprint
from tests.runs import heat_chores


def test_a_heat_run_elsewhere_is_the_same_bit_for_bit() -> None:
    with Crew(2, warm=load) as crew:
        peak = functools.partial(heat_chores.peak, crew.share(heat_chores.site()))
        warmer = [0.0, 5.0, -3.0, 2.5]
        there = crew.map(peak, warmer)
    assert there == in_turn(peak, warmer)
    assert len(set(there)) == 4


def test_a_heat_run_is_kept_whole(tmp_path: Path) -> None:
    site, cache = heat_chores.site(), Cache(tmp_path)
    key, made = fingerprint(("rehearsed", site)), heat_chores.rehearsed(site)
    cache.put(key, made)
    assert cache.get(fingerprint(("rehearsed", heat_chores.site()))) == made


def test_the_doors_of_the_shop(tmp_path: Path) -> None:
    with open_crew(1) as crew:
        assert crew.map(abs, [-1, 2]) == [1, 2]
        assert crew.processes == 0
    assert isinstance(open_cache(no_cache=True), NoStore)
    kept = open_cache()
    assert isinstance(kept, Cache)
    assert trouble_of(kept) == trouble_of(NoStore()) == ""
    (tmp_path / "file").touch()
    spoiled = Cache(tmp_path / "file")
    spoiled.put("a" * 64, 1)
    assert "file" in trouble_of(spoiled)

"""Heat runs by other processes and from the cache are those of this process, bit for bit."""

import functools
import os
from pathlib import Path

import pytest

from pourwright.app.running import alone_at, as_map, load, open_cache, open_crew, trouble_of
from pourwright.foundation.errors import UserError
from pourwright.pour.store import NoStore, in_turn
from pourwright.runs import Cache, Crew, fingerprint
from tests.runs import chores, heat_chores
from tests.runs.test_crew import Notes


def test_a_heat_run_elsewhere_is_the_same_bit_for_bit() -> None:
    site, warmer = heat_chores.site(), [0.0, 5.0, -3.0, 2.5]
    # first here: where no kernels are compiled yet, two others need not do it at the same time
    here = in_turn(functools.partial(heat_chores.peak, site), warmer)
    with Crew(2, warm=load) as crew:
        there = crew.map(functools.partial(heat_chores.peak, crew.share(site)), warmer)
    assert there == here
    assert len(set(there)) == 4


def test_a_heat_run_is_kept_whole(tmp_path: Path) -> None:
    site, cache = heat_chores.site(), Cache(tmp_path)
    key, made = fingerprint(("rehearsed", site)), heat_chores.rehearsed(site)
    cache.put(key, made)
    assert cache.get(fingerprint(("rehearsed", heat_chores.site()))) == made


def test_the_doors_of_the_shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))
    with open_crew(1) as crew:
        assert as_map(crew)(chores.whose, [1, 2])[0][0] == os.getpid()
    assert isinstance(open_cache(no_cache=True), NoStore)
    kept = open_cache()
    assert isinstance(kept, Cache)
    assert trouble_of(kept) == trouble_of(NoStore()) == ""
    (tmp_path / "file").touch()
    spoiled = Cache(tmp_path / "file")
    spoiled.put("a" * 64, 1)
    assert "file" in trouble_of(spoiled)
    with alone_at(tmp_path), pytest.raises(UserError, match="planning goes on"), alone_at(tmp_path):
        pass


def test_progress_goes_through_the_plain_map() -> None:
    notes = Notes()
    with open_crew(2) as crew:
        assert as_map(crew, notes, "squaring")(chores.square, [1, 2, 3]) == [1, 4, 9]
    assert notes.told[-1] == ("squaring", 3, 3)


@pytest.mark.parametrize("processes", [0, -1, 257])
def test_a_number_of_processes_that_makes_no_sense_is_refused(processes: int) -> None:
    with pytest.raises(UserError, match=f"--processes {processes}; allowed: 1 to 256"):
        open_crew(processes)


def test_processes_and_cluster_exclude_each_other() -> None:
    with pytest.raises(UserError, match="exclude"):
        open_crew(2, "tcp://127.0.0.1:8786")
    with pytest.raises(UserError, match="no address"), open_crew(cluster="there"):
        pass

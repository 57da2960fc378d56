"""The same work by several processes as by one; and nothing left of it, however it ends."""

import functools
import os
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from pourwright.foundation.errors import Cancelled, UserError
from pourwright.runs import Crew, usable_cores
from tests.runs import chores
from tests.runs.watching import gone, ids_in, wait_until

pytestmark = pytest.mark.xdist_group("crew")
TEN = list(range(10))


@pytest.fixture(scope="module")
def crew() -> object:
    with Crew(2) as both:
        yield both


@pytest.fixture
def serial() -> Crew:
    return Crew(0)


class Notes:
    """Writes down what it is told; may say that it is enough."""

    def __init__(self, enough: Callable[[float], bool] = lambda _: False) -> None:
        self.told: list[tuple[str, float, float]] = []
        self._enough = enough

    def step(self, stage: str, done: float, total: float) -> None:
        self.told.append((stage, done, total))
        if self._enough(done):
            raise Cancelled


def test_results_are_in_order_and_the_same_as_in_one_process(crew: Crew, serial: Crew) -> None:
    wanted = [number * number for number in TEN]
    assert crew.map(chores.square, TEN) == serial.map(chores.square, TEN) == wanted


def test_the_work_is_done_elsewhere_by_quiet_single_threaded_processes(crew: Crew) -> None:
    seen = crew.map(chores.whose, TEN)
    workers = {one for one, *_ in seen}
    assert os.getpid() not in workers
    assert len(workers) == 2
    assert all(group == one and threads == "1" for one, group, threads, _ in seen)
    assert all(niceness >= 10 for *_, niceness in seen)


def test_the_crew_is_kept_from_one_map_to_the_next(crew: Crew) -> None:
    first, second = ({one for one, *_ in crew.map(chores.whose, TEN)} for _ in range(2))
    assert first == second


@pytest.mark.parametrize("items", [[], [3]])
def test_no_item_or_one_is_done_here(crew: Crew, items: list[int]) -> None:
    assert [one for one, *_ in crew.map(chores.whose, items)] == [os.getpid()] * len(items)


def test_without_processes_everything_is_done_here(serial: Crew) -> None:
    with serial:
        assert {one for one, *_ in serial.map(chores.whose, TEN[:3])} == {os.getpid()}


def test_it_is_as_large_as_there_are_usable_processors(monkeypatch: pytest.MonkeyPatch) -> None:
    assert usable_cores() == len(os.sched_getaffinity(0))
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 3, 5})
    assert Crew().processes == 3
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {3})
    assert Crew().processes == 0


def test_what_is_shared_travels_once_and_comes_back_as_itself(crew: Crew) -> None:
    ballast = crew.share(chores.Ballast(np.arange(50_000.0)))
    loads = [chores.Load(ballast, float(factor)) for factor in range(6)]
    results = crew.map(chores.weigh, loads)
    assert [weight for weight, *_ in results] == [factor * ballast.numbers.sum() for factor in range(6)]
    assert all(one is ballast for _, one, _ in results)
    assert len({there for *_, there in results}) <= 2
    packed = crew._wire.pack(loads[0])
    assert len(packed.content) < 1000
    again = crew.map(functools.partial(chores.bound, ballast), [1.0, 2.0])
    assert again == [ballast.numbers.sum(), 2 * ballast.numbers.sum()]


def test_one_shared_value_may_hold_another(crew: Crew) -> None:
    ballast = crew.share(chores.Ballast(np.arange(10.0)))
    pair = crew.share((ballast, "tag"))
    tokens = list(crew._wire.in_order(crew._wire.pack(pair).needs))
    assert tokens == [crew._wire.share(ballast), crew._wire.share(pair)]
    loads = [chores.Load(pair[0], 2.0), chores.Load(pair[0], 3.0)]
    assert [weight for weight, *_ in crew.map(chores.weigh, loads)] == [90.0, 135.0]


@pytest.mark.parametrize("many", ["crew", "serial"])
def test_the_first_item_that_fails_is_the_one_that_is_told(many: str, request: pytest.FixtureRequest) -> None:
    crew: Crew = request.getfixturevalue(many)
    with pytest.raises(UserError) as refused:
        crew.map(chores.refuse_odd, [0, 2, 4, 5, 6, 7, 9])
    assert str(refused.value) == "item: 5 is odd; allowed: even numbers; do: double it"
    assert refused.value.__notes__[0].startswith("at item 4 of 7")
    assert crew.map(chores.square, TEN[:3]) == [0, 1, 4]


def test_being_cancelled_comes_back_as_itself(crew: Crew) -> None:
    with pytest.raises(Cancelled):
        crew.map(chores.cancelled, TEN)


def test_an_error_comes_back_with_what_it_holds(crew: Crew) -> None:
    with pytest.raises(chores.OddError) as failed:
        crew.map(chores.fail_oddly, [0, 1])
    assert str(failed.value) == "number 0"
    assert failed.value.reason == {"because": 0}


def test_an_error_that_cannot_travel_is_told_in_words(crew: Crew) -> None:
    with pytest.raises(RuntimeError, match="OddError: number 0") as failed:
        crew.map(chores.fail_with_what_cannot_travel, [0, 1])
    assert "chores.py" in failed.value.__notes__[0]


@pytest.mark.parametrize("function", [lambda one: one, functools.partial(lambda one: one)])
def test_a_function_that_no_other_process_could_import_is_refused(crew: Crew, function: object) -> None:
    with pytest.raises(TypeError, match="top of a module"):
        crew.map(function, [1, 2])
    assert crew.map(chores.square, [1, 2]) == [1, 4]


def test_what_workers_print_does_not_spoil_the_line(crew: Crew) -> None:
    assert crew.map(chores.chatter, TEN) == TEN


@pytest.mark.parametrize("many", ["crew", "serial"])
def test_progress_is_told_within_items_too(many: str, request: pytest.FixtureRequest) -> None:
    notes = Notes()
    crew: Crew = request.getfixturevalue(many)
    assert crew.map(chores.in_quarters, [0, 1, 2], progress=notes, stage="quarters") == [0, 1, 2]
    done = [each for _, each, _ in notes.told]
    assert {(stage, total) for stage, _, total in notes.told} == {("quarters", 3)}
    assert done[0] == 0
    assert done[-1] == 3
    assert done == sorted(done)
    assert {each % 1 for each in done} >= {0.25, 0.5, 0.75}


@pytest.mark.parametrize("chore", [chores.die, chores.leave])
def test_a_process_that_dies_is_one_clear_error(chore: Callable[[int], int]) -> None:
    with Crew(2) as crew:
        with pytest.raises(UserError) as refused:
            crew.map(chore, TEN)
        assert "--processes 1" in refused.value.todo
        assert ("memory" if chore is chores.die else "status 7") in refused.value.what
        assert crew.map(chores.square, [1, 2]) == [1, 4]


def test_a_process_that_dies_between_two_maps_is_replaced() -> None:
    with Crew(2) as crew:
        crew.map(chores.square, TEN)
        crew._crew[0].kill()
        assert crew.map(chores.square, TEN) == [number * number for number in TEN]


def test_what_cannot_be_loaded_early_is_told() -> None:
    crew = Crew(2, warm=functools.partial(chores.refuse_odd, 1))
    with crew, pytest.raises(UserError, match="1 is odd"):
        crew.map(chores.square, TEN)


def test_cancelling_ends_every_process_at_once(tmp_path: Path) -> None:
    notes = Notes(enough=lambda _: len(ids_in(tmp_path)) == 4)
    with Crew(2) as crew:
        with pytest.raises(Cancelled):
            crew.map(functools.partial(chores.stuck, tmp_path), TEN, progress=notes)
        # two workers, and the two processes they had started
        wait_until(lambda: gone(ids_in(tmp_path)))
        assert crew.map(chores.square, [1, 2]) == [1, 4]


def test_closing_early_ends_what_nobody_waits_for(tmp_path: Path) -> None:
    with Crew(2) as crew:
        done = crew.map_as_done(functools.partial(chores.dawdle, tmp_path), TEN)
        assert sorted([next(done), next(done)]) == [(0, 0), (1, 1)]
        with pytest.raises(RuntimeError, match="one thing at a time"):
            crew.map(chores.square, TEN)
        workers = [one.process_id for one in crew._crew]
        wait_until(lambda: len(list(tmp_path.iterdir())) == 4)
        done.close()
        wait_until(lambda: gone(workers))
        assert crew.map(chores.square, [1, 2]) == [1, 4]


def test_the_end_of_the_block_is_the_end_of_the_crew() -> None:
    with Crew(2) as crew:
        crew.map(chores.square, TEN)
        workers = [one.process_id for one in crew._crew]
        assert not gone(workers)
    assert gone(workers)

"""What takes long is made once, and nobody who wants something else waits for it."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Event

import pytest

from pourwright.app.viewing.kept import Latest, kept_or_made


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path))


@pytest.mark.parametrize("door", ["kept", "latest"])
def test_two_that_want_the_same_have_it_made_once_and_others_do_not_wait(door: str) -> None:
    begun, go_on, made = Event(), Event(), []
    latest: Latest[str] = Latest(2)
    get = kept_or_made if door == "kept" else latest.get

    def slowly() -> str:
        made.append("slow")
        begun.set()
        assert go_on.wait(20)
        return "slow"

    with ThreadPoolExecutor(3) as hands:
        first = hands.submit(get, "a" * 64, slowly)
        assert begun.wait(20)
        second = hands.submit(get, "a" * 64, slowly)
        try:
            assert hands.submit(get, "b" * 64, lambda: "quick").result(20) == "quick"
            assert not first.done()
        finally:
            go_on.set()
        assert (first.result(20), second.result(20)) == ("slow", "slow")
    assert made == ["slow"]


def test_what_was_kept_is_not_made_again() -> None:
    assert kept_or_made("c" * 64, lambda: (1.5, b"bytes")) == (1.5, b"bytes")
    assert kept_or_made("c" * 64, lambda: (0.0, b"")) == (1.5, b"bytes")

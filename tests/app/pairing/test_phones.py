"""Pairing: a code once and for minutes, a token whose hash alone is kept, taken back at once."""

import stat
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from pourwright.app.pairing.network import network_address, own_names
from pourwright.app.pairing.phones import CODE_LIVES, PAIRED_FOR, WRONG, Phones, phones_of
from pourwright.app.pairing.picture import address_picture
from pourwright.foundation.errors import NotThereError, UserError

NINE = datetime(2026, 12, 1, 9, 0, tzinfo=UTC)


class Clock:
    def __init__(self) -> None:
        self.now = NINE

    def __call__(self) -> datetime:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def phones(tmp_path: Path, clock: Clock) -> Phones:
    return Phones(tmp_path / "phones" / "shop.json", clock)


def paired(phones: Phones) -> str:
    token = phones.pair(phones.new_code()[0], "Android")
    assert token is not None
    return token


def test_a_code_pairs_one_phone(phones: Phones) -> None:
    code, _ = phones.new_code()
    assert phones.is_live(code)
    token = phones.pair(code, "Android")
    assert token is not None
    assert phones.phone_of(token) == phones.phones()[0]
    assert phones.pair(code, "Android") is None
    assert not phones.is_live(code)


def test_a_code_runs_out_and_a_new_one_voids_it(phones: Phones, clock: Clock) -> None:
    first, until = phones.new_code()
    assert until == NINE + CODE_LIVES
    second, _ = phones.new_code()
    assert phones.pair(first, "x") is None
    clock.now += CODE_LIVES + timedelta(seconds=1)
    assert phones.pair(second, "x") is None
    assert phones.phones() == ()


def test_guessing_voids_the_code(phones: Phones) -> None:
    code, _ = phones.new_code()
    for guess in range(WRONG):
        assert not phones.is_live(str(guess))
    assert phones.pair(code, "x") is None


@pytest.mark.parametrize("token", ["", "x", "é" * 50])
def test_a_token_that_was_never_given_is_nobodys(phones: Phones, token: str) -> None:
    paired(phones)
    assert phones.phone_of(token) is None


def test_a_pairing_runs_out(phones: Phones, clock: Clock) -> None:
    token = paired(phones)
    clock.now += PAIRED_FOR - timedelta(seconds=1)
    assert phones.phone_of(token) is not None
    clock.now += timedelta(seconds=2)
    assert phones.phone_of(token) is None
    assert phones.phones() == ()


def test_a_pairing_taken_back_ends_at_once_and_the_others_stay(phones: Phones) -> None:
    lost, other = paired(phones), paired(phones)
    gone = phones.phone_of(lost)
    assert gone is not None
    phones.take_back(gone.id)
    assert phones.phone_of(lost) is None
    assert phones.phone_of(other) is not None
    with pytest.raises(NotThereError, match="no such phone"):
        phones.take_back(gone.id)


def test_the_next_server_knows_the_phone_and_no_file_knows_the_token(phones: Phones, tmp_path: Path) -> None:
    code, _ = phones.new_code()
    token = phones.pair(code, "Android")
    assert token is not None
    place = tmp_path / "phones" / "shop.json"
    text = place.read_text("utf8")
    assert token not in text
    assert code not in text
    assert stat.S_IMODE(place.stat().st_mode) == 0o600
    again = Phones(place, Clock())
    assert again.phone_of(token) is not None


@pytest.mark.parametrize("content", ["", "[", '{"id": 1}', '[{"id": 1}]', "[1]"])
def test_a_file_that_cannot_be_read_pairs_nobody(tmp_path: Path, content: str) -> None:
    (tmp_path / "shop.json").write_text(content)
    assert Phones(tmp_path / "shop.json").phones() == ()


def test_each_shop_has_its_own_phones_in_the_users_cache(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "cache"))
    (tmp_path / "one").mkdir()
    token = paired(phones_of(tmp_path / "one"))
    assert phones_of(tmp_path / "one").phone_of(token) is not None
    assert phones_of(tmp_path / "two").phone_of(token) is None
    assert list((tmp_path / "one").iterdir()) == []


def test_codes_and_tokens_cannot_be_guessed(phones: Phones) -> None:
    # 256 bits in 6 bits a letter
    found = {phones.new_code()[0] for _ in range(50)} | {paired(phones)}
    assert len(found) == 51
    assert min(map(len, found)) >= 43


def test_the_picture_says_the_address_and_nothing_else() -> None:
    picture = address_picture("http://192.168.1.20:8420/pair?code=abc")
    assert picture.startswith("data:image/svg+xml")
    assert "abc" not in picture


@pytest.mark.parametrize("address", ["0.0.0.0", "127.0.0.1", "224.0.0.1", "::1", "here", ""])
def test_an_address_that_is_everywhere_or_nowhere_is_refused(address: str) -> None:
    with pytest.raises(UserError, match="no address of this computer") as refused:
        network_address(address)
    assert refused.value.where == "--address"


def test_names_of_this_computer(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("socket.gethostname", lambda: "Bench-Laptop")
    assert own_names() == ("bench-laptop", "bench-laptop.local")
    assert network_address("192.168.1.20") == "192.168.1.20"

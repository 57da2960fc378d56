"""A certificate is made once for this computer's names, its key is nobody else's to read."""

import hashlib
import ssl
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from pourwright.app.pairing.certificate import LASTS, LEFT, certificate_in, fingerprint_of
from pourwright.foundation.errors import UserError

NAMES = ("192.168.1.20", "bench-laptop", "bench-laptop.local")
NOW = datetime(2026, 12, 1, tzinfo=UTC)


def test_it_names_this_computer_and_is_kept(tmp_path: Path) -> None:
    made = certificate_in(tmp_path / "own", NAMES, NOW)
    told = ssl._ssl._test_decode_cert(str(made.file))  # type: ignore[attr-defined]
    assert set(told["subjectAltName"]) == {
        ("IP Address", "192.168.1.20"),
        ("DNS", "bench-laptop"),
        ("DNS", "bench-laptop.local"),
    }
    assert told["subject"] == told["issuer"]
    again = certificate_in(tmp_path / "own", reversed(NAMES), NOW + timedelta(days=90))
    assert again == made


def test_the_fingerprint_is_that_of_the_certificate(tmp_path: Path) -> None:
    made = certificate_in(tmp_path / "own", NAMES, NOW)
    pairs = made.fingerprint.split(":")
    assert len(pairs) == 32
    der = ssl.PEM_cert_to_DER_cert(made.file.read_text("ascii"))
    assert bytes.fromhex("".join(pairs)) == hashlib.sha256(der).digest()
    assert fingerprint_of(made.file) == made.fingerprint


def test_the_key_is_for_its_owner_alone(tmp_path: Path) -> None:
    made = certificate_in(tmp_path / "own", NAMES, NOW)
    assert made.key.stat().st_mode & 0o777 == 0o600
    assert made.key.parent.stat().st_mode & 0o777 == 0o700
    # one that others could have read is no longer used
    made.key.chmod(0o644)
    assert certificate_in(tmp_path / "own", NAMES, NOW).fingerprint != made.fingerprint


@pytest.mark.parametrize(
    ("names", "later"),
    [(("192.168.1.21", *NAMES[1:]), timedelta()), (NAMES, LASTS - LEFT + timedelta(days=1))],
)
def test_another_address_or_an_end_that_is_near_makes_another(
    tmp_path: Path, names: tuple[str, ...], later: timedelta
) -> None:
    made = certificate_in(tmp_path / "own", NAMES, NOW)
    other = certificate_in(tmp_path / "own", names, NOW + later)
    assert other.fingerprint != made.fingerprint


def test_without_the_part_that_makes_it_one_sentence_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "cryptography.x509", None)
    with pytest.raises(UserError, match="not installed") as refused:
        certificate_in(tmp_path / "own", NAMES, NOW)
    assert "pourwright[https]" in str(refused.value)
    assert not (tmp_path / "own").exists()

"""A certificate that this computer makes for itself, by which phones reach it over https."""

from __future__ import annotations

import hashlib
import ipaddress
import ssl
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from importlib import import_module
from pathlib import Path
from typing import Any

from pourwright import cache_folder
from pourwright.foundation.errors import UserError
from pourwright.foundation.files import write_atomically, write_privately

LASTS = timedelta(days=397)
"""Phones take none that lasts longer."""
LEFT = timedelta(days=30)
"""One that ends sooner is made anew, before a pour and not in the midst of one."""
KEY_FILE, CERTIFICATE_FILE, NAMES_FILE = "key.pem", "certificate.pem", "names.txt"


@dataclass(frozen=True)
class Certificate:
    """A key and the certificate of it.

    Parameters
    ----------
    key, file : Path
        PEM; the key can be read by its owner alone.
    fingerprint : str
        sha256 of the certificate, as browsers show it: ``AB:CD:..``.
    """

    key: Path
    file: Path
    fingerprint: str


def certificate_of(shop: Path, names: Iterable[str]) -> Certificate:
    """Give the certificate of a shop, made where there is none for these names that holds long enough.

    Parameters
    ----------
    shop : Path
        The shop folder; the certificate is kept in the user's cache, never in the shop.
    names : iterable of str
        Host names and addresses of this computer in its network.

    Returns
    -------
    Certificate

    Raises
    ------
    UserError
        Where the part that makes certificates is not installed, or the folder cannot be written.
    """
    name = hashlib.sha256(str(shop.resolve()).encode()).hexdigest()[:16]
    return certificate_in(cache_folder() / "https" / name, names)


def certificate_in(folder: Path, names: Iterable[str], now: datetime | None = None) -> Certificate:
    """As `certificate_of`, in a folder; ``now`` in the place of the clock."""
    wanted, moment = sorted(set(names)), now or datetime.now(UTC)
    found = Certificate(folder / KEY_FILE, folder / CERTIFICATE_FILE, "")
    if not _still_good(found, folder, wanted, moment):
        try:
            _make(found, folder, wanted, moment)
        except OSError as error:
            what = f"the certificate cannot be kept: {error.strerror or error}"
            raise UserError(what, where=str(folder), todo="make room, or allow writing there") from error
    return Certificate(found.key, found.file, fingerprint_of(found.file))


def fingerprint_of(file: Path) -> str:
    """Write the sha256 of a certificate as browsers show it."""
    digest = hashlib.sha256(ssl.PEM_cert_to_DER_cert(file.read_text("ascii"))).hexdigest().upper()
    return ":".join(digest[place : place + 2] for place in range(0, len(digest), 2))


def _still_good(found: Certificate, folder: Path, names: list[str], now: datetime) -> bool:
    """Made for the same names, holds for a while, and its key was nobody else's to read."""
    with suppress(OSError, ValueError):
        until, *known = (folder / NAMES_FILE).read_text("utf8").splitlines()
        private = found.key.stat().st_mode & 0o077 == 0
        there = found.file.is_file() and private
        return there and known == names and datetime.fromisoformat(until) - now > LEFT
    return False


def _make(made: Certificate, folder: Path, names: list[str], now: datetime) -> None:
    parts = _library()
    key = parts["ec"].generate_private_key(parts["ec"].SECP256R1())
    until = now + LASTS
    signed = _signed(parts, key, names, now, until)
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    # the list of names last: without it the pair counts as none
    (folder / NAMES_FILE).unlink(missing_ok=True)
    coding, as_it_is = parts["serialization"], parts["serialization"].NoEncryption()
    write_privately(made.key, key.private_bytes(coding.Encoding.PEM, coding.PrivateFormat.PKCS8, as_it_is))
    write_atomically(made.file, signed.public_bytes(coding.Encoding.PEM))
    write_atomically(folder / NAMES_FILE, "\n".join([until.isoformat(), *names]) + "\n")


def _signed(parts: dict[str, Any], key: Any, names: list[str], now: datetime, until: datetime) -> Any:
    x509, hashes = parts["x509"], parts["hashes"]
    whose = x509.Name([x509.NameAttribute(parts["oid"].NameOID.COMMON_NAME, "pourwright, this workshop")])
    usage = x509.ExtendedKeyUsage([parts["oid"].ExtendedKeyUsageOID.SERVER_AUTH])
    builder = (
        x509.CertificateBuilder()
        .subject_name(whose)
        .issuer_name(whose)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        # a phone's clock may be a little behind
        .not_valid_before(now - timedelta(days=1))
        .not_valid_after(until)
        .add_extension(x509.SubjectAlternativeName([_named(x509, each) for each in names]), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(usage, critical=False)
    )
    return builder.sign(key, hashes.SHA256())


def _named(x509: Any, name: str) -> Any:
    try:
        return x509.IPAddress(ipaddress.ip_address(name))
    except ValueError:
        return x509.DNSName(name)


def _library() -> dict[str, Any]:
    """What makes certificates; it is an extra, for it weighs more than all else that `serve` needs."""
    try:
        return {
            "x509": import_module("cryptography.x509"),
            "oid": import_module("cryptography.x509.oid"),
            "hashes": import_module("cryptography.hazmat.primitives.hashes"),
            "serialization": import_module("cryptography.hazmat.primitives.serialization"),
            "ec": import_module("cryptography.hazmat.primitives.asymmetric.ec"),
        }
    except ImportError as error:
        raise UserError(
            "what makes certificates is not installed",
            where="--https",
            todo='install it: pip install "pourwright[https]"; or leave --https out',
        ) from error

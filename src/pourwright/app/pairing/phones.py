"""Codes that pair a phone once, and tokens by which it is known; only their hashes are kept."""

from __future__ import annotations

import hashlib
import hmac
import json
import secrets
from collections.abc import Callable
from contextlib import suppress
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta
from pathlib import Path
from threading import Lock

from pourwright import cache_folder
from pourwright.foundation.errors import NotThereError
from pourwright.foundation.files import write_atomically
from pourwright.records.moments import now, read, written

CODE_LIVES = timedelta(minutes=3)
PAIRED_FOR = timedelta(days=14)
WRONG = 5
"""So many wrong codes make the right one void."""
_LETTERS = 32


@dataclass(frozen=True, kw_only=True)
class Phone:
    """A device that was paired.

    Parameters
    ----------
    id : str
        By which it is taken back.
    name : str
        What it says that it is.
    made, until : str
        When it was paired, until when it is; UTC, ISO 8601.
    hash : str
        sha256 of its token.
    """

    id: str
    name: str
    made: str
    until: str
    hash: str


@dataclass
class _Code:
    hash: str
    until: datetime
    wrong: int = 0


class Phones:
    """The phones of one shop.

    Parameters
    ----------
    place : Path
        The file that keeps them.
    clock : callable
        Tells the time.
    """

    def __init__(self, place: Path, clock: Callable[[], datetime] = now) -> None:
        self._place = place
        self._clock = clock
        self._lock = Lock()
        self._code: _Code | None = None
        self._phones = _kept(place)

    def new_code(self) -> tuple[str, datetime]:
        """Make a code; the one before is void.

        Returns
        -------
        tuple of str and datetime
            The code, and until when it pairs one phone.
        """
        code, until = secrets.token_urlsafe(_LETTERS), self._clock() + CODE_LIVES
        with self._lock:
            self._code = _Code(_hash(code), until)
        return code, until

    def is_live(self, code: str) -> bool:
        """Tell whether a code pairs a phone now; a wrong one counts.

        Parameters
        ----------
        code : str
            As it came.

        Returns
        -------
        bool
        """
        with self._lock:
            return self._fits(code)

    def _fits(self, code: str) -> bool:
        live = self._code
        if live is None or self._clock() > live.until:
            return False
        if hmac.compare_digest(live.hash, _hash(code)):
            return True
        live.wrong += 1
        if live.wrong >= WRONG:
            self._code = None
        return False

    def pair(self, code: str, name: str) -> str | None:
        """Change a code for a token, once.

        Parameters
        ----------
        code : str
            As it came.
        name : str
            What the phone says that it is.

        Returns
        -------
        str or None
            The token, which is kept nowhere; None for a code that does not pair.
        """
        token, begun = secrets.token_urlsafe(_LETTERS), self._clock()
        with self._lock:
            if not self._fits(code):
                return None
            self._code = None
            phone = Phone(
                id=secrets.token_hex(6),
                name=name,
                made=written(begun),
                until=written(begun + PAIRED_FOR),
                hash=_hash(token),
            )
            self._keep([*self._live(), phone])
        return token

    def phone_of(self, token: str) -> Phone | None:
        """Find the phone that holds a token.

        Parameters
        ----------
        token : str
            As it came.

        Returns
        -------
        Phone or None
            None for one that was never given, has run out or was taken back.
        """
        found = _hash(token)
        return next((one for one in self._live() if hmac.compare_digest(one.hash, found)), None)

    def phones(self) -> tuple[Phone, ...]:
        """List the phones that are paired now.

        Returns
        -------
        tuple of Phone
        """
        return tuple(self._live())

    def take_back(self, phone_id: str) -> None:
        """End a pairing at once.

        Parameters
        ----------
        phone_id : str
            Of the phone.

        Raises
        ------
        NotThereError
            Where it is not paired.
        """
        with self._lock:
            left = [one for one in self._live() if one.id != phone_id]
            if len(left) == len(self._live()):
                raise NotThereError("no such phone is paired", where="phone", todo="look at the list again")
            self._keep(left)

    def _live(self) -> list[Phone]:
        moment = self._clock()
        return [one for one in self._phones if read(one.until) > moment]

    def _keep(self, phones: list[Phone]) -> None:
        self._place.parent.mkdir(parents=True, exist_ok=True)
        write_atomically(self._place, json.dumps([asdict(one) for one in phones]))
        with suppress(OSError):
            self._place.chmod(0o600)
        self._phones = phones


def phones_of(shop: Path) -> Phones:
    """Give the phones of a shop; they are kept in the user's cache, never in the shop.

    Parameters
    ----------
    shop : Path
        The shop folder.

    Returns
    -------
    Phones
    """
    return Phones(cache_folder() / "phones" / f"{_hash(str(shop.resolve()))[:16]}.json")


def _hash(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()


def _kept(place: Path) -> list[Phone]:
    # what cannot be read pairs nobody
    with suppress(OSError, ValueError, TypeError, KeyError):
        found = json.loads(place.read_text("utf8"))
        return [Phone(**one) for one in found if read(one["until"]).tzinfo is not None]
    return []

"""Where this computer is found in its network."""

from __future__ import annotations

import ipaddress
import socket

from pourwright.foundation.errors import UserError

_NOWHERE = ("192.0.2.1", 9)
"""Kept for documentation by RFC 5737; no packet is sent, the system only says by which address it would."""


def network_address(wanted: str | None = None) -> str:
    """Say by which address others in the network reach this computer.

    Parameters
    ----------
    wanted : str, optional
        One of its addresses, where it has several.

    Returns
    -------
    str
        IPv4.

    Raises
    ------
    UserError
        For what is no such address, and where there is no network.
    """
    if wanted is not None:
        return _checked(wanted)
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
            asking.connect(_NOWHERE)
            found: str = asking.getsockname()[0]
    except OSError as error:
        raise UserError(
            "this computer is in no network",
            where="--lan",
            todo="join the shop's network, or name this computer's address with --address",
        ) from error
    return found


def _checked(text: str) -> str:
    try:
        address = ipaddress.IPv4Address(text)
    except ValueError:
        address = ipaddress.IPv4Address(0)
    if address.is_unspecified or address.is_multicast or str(address) == "127.0.0.1":
        raise UserError(
            f"'{text}' is no address of this computer in its network",
            where="--address",
            allowed="one IPv4 address, as 192.168.1.20; not 0.0.0.0, which is every network at once",
            todo="look at the network settings of this computer",
        )
    return str(address)


def own_names() -> tuple[str, ...]:
    """List the names that others in the network may call this computer by.

    Returns
    -------
    tuple of str
        In small letters.
    """
    name = socket.gethostname().lower()
    return (name, name if name.endswith(".local") else f"{name}.local")

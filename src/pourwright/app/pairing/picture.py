"""An address as a picture that a phone reads."""

from __future__ import annotations

import segno


def address_picture(address: str) -> str:
    """Draw an address as a QR code (ISO/IEC 18004).

    Parameters
    ----------
    address : str
        What the phone opens.

    Returns
    -------
    str
        SVG as a ``data:`` address, black on white with its quiet zone.
    """
    return segno.make(address, error="m", micro=False).svg_data_uri(scale=6, border=4, light="#fff")

"""What plain http does not protect, said wherever it matters."""

from __future__ import annotations

from fastapi import Request

from pourwright.web.lan import is_phone

PLAIN = (
    "Over plain http whoever is in the same network can read and change what this page sends and shows, "
    "and take its pairing over: use it in a network of your own. Nor can such a page keep the screen awake: "
    "set the phone's screen to stay on."
)


WARNED = (
    "This address speaks https with a certificate that this computer made for itself, so every phone warns "
    "of it once. Look at the certificate in that warning: only if its SHA-256 fingerprint is the one above "
    "is nobody between."
)


def plain_words(request: Request) -> str:
    """Say what is not protected.

    Parameters
    ----------
    request : Request
        Whom a page answers.

    Returns
    -------
    str
        Nothing where the page stays on this computer, or goes over https.
    """
    return PLAIN if is_phone(request) and request.url.scheme == "http" else ""

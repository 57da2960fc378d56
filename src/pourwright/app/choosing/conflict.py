"""Two hands on one choice: nothing is written, and both are told."""

from __future__ import annotations

from typing import Any

from pourwright.foundation.errors import ConflictError


class Conflict(ConflictError):  # noqa: N818 - two hands on one choice are no error of either
    """The file does not say any more what was seen when a choice was made."""

    def __init__(
        self,
        what: str,
        *,
        where: str = "",
        allowed: str = "",
        todo: str = "",
        file: Any = None,
        seen: Any = None,
        wanted: Any = None,
    ) -> None:
        super().__init__(what, where=where, allowed=allowed, todo=todo or "keep yours, or take the file's")
        self.file, self.seen, self.wanted = file, seen, wanted

    @property
    def details(self) -> dict[str, Any]:
        """What the file says, what was seen, what was wanted."""
        return {"file": self.file, "seen": self.seen, "wanted": self.wanted}

"""Failures that have a place, which is told in the maker's unit further up."""

from __future__ import annotations

from pourwright.foundation.errors import UserError
from pourwright.geometry.files.formats import LENGTHS
from pourwright.geometry.mesh import Floats


class PlacedError(UserError):
    """Something wrong at a place of an outline or a body; `said` leaves the place out [m]."""

    said: str
    place: Floats

    @classmethod
    def at(cls, said: str, place: Floats, todo: str) -> PlacedError:
        """Make one; its own text has the place in mm."""
        error = cls("", todo=todo)
        error.said, error.place = said, place
        error.what = error.sentence("mm")
        return error

    def sentence(self, unit: str, names: str = "xyz") -> str:
        """Say it with its place.

        Parameters
        ----------
        unit : str
            Of length.
        names : str
            Of the axes, a letter each.

        Returns
        -------
        str

        Examples
        --------
        >>> import numpy as np
        >>> PlacedError.at("two lines cross", np.array([0.0254, 0.0]), "mend it").sentence("in")
        'two lines cross near x = 1, y = 0 in'
        """
        numbers = self.place / float(LENGTHS[unit]) + 0.0
        shown = ", ".join(f"{name} = {number:.4g}" for name, number in zip(names, numbers, strict=False))
        return f"{self.said} near {shown} {unit}"

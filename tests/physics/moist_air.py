"""A general library of moist air (psychrolib), in SI and as it is without numba: one number at a time."""

import sys
from unittest.mock import patch

# with numba there, each choice of units would have it compile every function anew
with patch.dict(sys.modules, {"numba": None}):
    import psychrolib

psychrolib.SetUnitSystem(psychrolib.SI)

__all__ = ["psychrolib"]

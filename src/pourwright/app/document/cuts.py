"""The two cuts that the pictures of the heat are drawn from."""

from __future__ import annotations

from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from pourwright.app.document.section import section_part
from pourwright.app.setup import Setup
from pourwright.foundation.notation import ZERO_CELSIUS
from pourwright.jobs import plan
from pourwright.pour.cuts import Cut
from pourwright.pour.snapshots import Recording

HOUR = 3600.0
SIDES: dict[str, Literal["x", "y"]] = {"x": "x", "y": "y"}


def heat_sections(setup: Setup, recording: Recording) -> list[plan.HeatSection]:
    """Write the cuts of a recording.

    Parameters
    ----------
    setup : Setup
        Piece and mold, for the outlines.
    recording : Recording
        Of the final run.

    Returns
    -------
    list of plan.HeatSection
        The hottest moment in degC to a hundredth, the end in % cured / 100 to a ten-thousandth.
    """
    hottest, last = recording.hottest, recording.last
    warm = _rows(hottest.values - ZERO_CELSIUS, 2)
    sections = [
        _section(setup, recording, hottest, "hottest", temperature_degC=warm),
        _section(setup, recording, last, "demold", cured=_rows(last.values, 4)),
    ]
    # a cell at a slanting rim may hold the piece beside the plane through its middle only
    return [section for section in sections if section.outlines.piece]


def _section(
    setup: Setup, recording: Recording, cut: Cut, moment: Literal["hottest", "demold"], **fields: Any
) -> plan.HeatSection:
    axis = SIDES[cut.axis]
    return plan.HeatSection(
        moment=moment,
        axis=axis,
        offset_m=cut.offset,
        pour=cut.filled,
        after_h=(cut.time - recording.starts[cut.filled - 1]) / HOUR,
        place_m=cut.place,
        across_m=[round(float(edge), 5) for edge in cut.across],
        up_m=[round(float(edge), 5) for edge in cut.up],
        outlines=section_part(setup, axis, cut.offset),
        **fields,
    )


def _rows(values: NDArray[np.float64], digits: int) -> list[list[float | None]]:
    return [[None if np.isnan(one) else round(float(one), digits) for one in row] for row in values]

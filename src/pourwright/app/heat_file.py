"""The heat file of a plan, from what was recorded of its final run."""

from __future__ import annotations

from hashlib import sha256

import numpy as np

from pourwright.foundation.files import canonical_json
from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.snapshots import SnapshotContent, snapshot_bytes
from pourwright.pour.snapshots import Recording

HOUR = 3600.0


def plan_bytes(plan: PlanDocument) -> bytes:
    """Write the plan document as ``plan.json`` holds it."""
    return canonical_json(plan.model_dump(mode="json", by_alias=True))


def heat_file(plan: PlanDocument, recording: Recording) -> bytes:
    """Write the snapshots of a plan's final run.

    Parameters
    ----------
    plan : PlanDocument
        The plan they belong to; its fingerprint goes into the file.
    recording : Recording
        Of the same run.

    Returns
    -------
    bytes
        As `pourwright.jobs.snapshots` describes.
    """
    first = recording.starts[0]
    return snapshot_bytes(
        SnapshotContent(
            about={
                "title": plan.job.title,
                "variant": plan.job.variant,
                "version": plan.version,
                "computed_for": plan.computed_for,
                "first_pour": plan.pours[0].start,
                "plan_sha256": sha256(plan_bytes(plan)).hexdigest(),
                "invented": int(plan.job.invented),
            },
            edges_m=recording.grid.edges,
            time_h=np.array([(shot.time - first) / HOUR for shot in recording.snapshots]),
            pours_in=np.array([shot.filled for shot in recording.snapshots]),
            pour_start_h=[(start - first) / HOUR for start in recording.starts],
            pour_level_m=recording.levels,
            boxes=(
                (recording.box(shot, "temperature"), recording.box(shot, "conversion"))
                for shot in recording.snapshots
            ),
        )
    )

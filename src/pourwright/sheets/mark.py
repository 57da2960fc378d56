"""The plan's own mark, by which paper and file find each other."""

import hashlib

from pourwright.foundation.files import canonical_json
from pourwright.jobs.plan import PlanDocument


def plan_mark(plan: PlanDocument) -> str:
    """Fingerprint of a plan, short enough to be read aloud.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    str
        The first 12 hexadecimal digits of the sha256 of its canonical JSON, leaving out the moment it
        was computed for: the same plan made again keeps its mark.
    """
    content = plan.model_dump(mode="json", by_alias=True, exclude={"computed_for"})
    return hashlib.sha256(canonical_json(content)).hexdigest()[:12]

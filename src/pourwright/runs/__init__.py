"""Processes, progress, cancelling, results kept, studies that resume, and clusters; it knows no trade word.

Nothing else in the house starts a process or speaks to a cluster.
"""

from pourwright.runs.apart import do_apart
from pourwright.runs.background import Background, Outcome
from pourwright.runs.cache import Cache, result_folder
from pourwright.runs.cluster import Cluster
from pourwright.runs.crew import Crew, usable_cores
from pourwright.runs.fingerprint import code_digest, fingerprint
from pourwright.runs.lock import lock_file, only_one
from pourwright.runs.many import Many
from pourwright.runs.study import run_study

__all__ = [
    "Background",
    "Cache",
    "Cluster",
    "Crew",
    "Many",
    "Outcome",
    "code_digest",
    "do_apart",
    "fingerprint",
    "lock_file",
    "only_one",
    "result_folder",
    "run_study",
    "usable_cores",
]

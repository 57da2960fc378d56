"""One process of the fuzzing: breaks files, reads and judges them, and says what came of each."""

import importlib
import resource
import sys
import time
import traceback
from pathlib import Path

from hypothesis import HealthCheck, Phase, given, seed, settings

from benchmarks.bench_fuzz import LONGEST, MEMORY, ROUND
from pourwright.foundation.errors import UserError
from pourwright.geometry import box, find_faults
from pourwright.geometry.files.readers import read_samples, read_shape_file
from pourwright.runs import do_apart

MANGLING = importlib.import_module("tests.geometry.mangling")
# starting a process for each STEP file takes most of a second, so few of many are such
KINDS = tuple(kind for kind in MANGLING.SEEDS if kind != ".step") * 8 + (".step",)


def outcome(path: Path) -> str:
    """Read and judge a file; says what it became."""
    unit = None if path.suffix in {".3mf", ".glb", ".step"} else "mm"
    try:
        mesh = read_shape_file(path, unit, do_apart).mesh
    except UserError as error:
        if "\n" in str(error) or "memory" in error.what:
            raise
        return "refused"
    return "a mesh with faults" if find_faults(mesh) else "a sound mesh"


def main(number: int, folder: Path, kept: Path) -> None:
    """Break ROUND files."""
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    # what is compiled on the way is no fault of the first file
    read_samples()
    find_faults(box([0.1, 0.1, 0.1]))

    @seed(number)
    @settings(
        max_examples=ROUND, database=None, deadline=None, phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @given(MANGLING.broken(KINDS))
    def one(case: tuple[str, bytes]) -> None:
        kind, content = case
        for old in folder.glob("case*"):
            old.unlink()
        path = folder / f"case{kind}"
        path.write_bytes(content)
        begin = time.monotonic()
        try:
            said = outcome(path)
        except BaseException as error:  # noqa: BLE001 - whatever it is, it is what is looked for
            last = traceback.extract_tb(error.__traceback__)[-1]
            where = f"{Path(last.filename).name}:{last.lineno}"
            said = f"FOUND {type(error).__name__} at {where} {str(error)[:80]}"
        if time.monotonic() - begin > LONGEST:
            said = f"FOUND slow, {said}"
        if said.startswith("FOUND"):
            (kept / f"{number}-{abs(hash(said)) % 10**6}{kind}").write_bytes(content)
        print(f"{kind} {said}", flush=True)

    one()


if __name__ == "__main__":
    main(int(sys.argv[1]), Path(sys.argv[2]), Path(sys.argv[3]))

"""Sheets for shop-like lists of parts: ours, the area bound, and the best of 20 runs of another packer.

Goal: proven best or within two sheets of the area bound, never more sheets than the other, 40 parts in 1 s.
Baseline: rectpack, its guillotine way, 20 runs over its ways of choosing, splitting and sorting; parts
and sheets are inflated by the kerf as ours are. Its free way, which no saw can follow, stands beside. It
turns all parts or none, so that every list here lets all or none turn. Where 20 parts that do not turn
stay unproven, OR-Tools tries for 10 s whether one sheet less could hold them even freely.
"""

import importlib
import itertools
import random
from time import perf_counter

from pourwright.geometry.nesting.asked import Part, Saw, Stock
from pourwright.geometry.nesting.sheets import nest

SAW = Saw(0.003, 0.005)
SHEET = Stock("sheet", 2.44, 1.22, 40)
RUNS = 20


def shop_list(seed: int, number: int, largest: float, *, may_turn: bool) -> list[Part]:
    """Return made-up panels in whole millimetres, many of them in pairs."""
    lots = random.Random(seed)  # noqa: S311 - nothing secret
    parts: list[Part] = []
    while (rest := number - sum(part.count for part in parts)) > 0:
        width, height = (lots.randint(80, round(1000 * largest)) / 1000 for _ in range(2))
        parts.append(Part(f"{len(parts)}", width, height, min(rest, lots.choice((1, 2, 2, 4))), may_turn))
    return parts


def others(parts: list[Part], ways: list[str], *, guillotine: bool) -> int:
    """Return the fewest sheets of 20 runs of the other packer."""
    rectpack = importlib.import_module("rectpack")
    sorts = [rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE, rectpack.SORT_PERI]
    fewest = SHEET.count
    for sort, way in list(itertools.product(sorts, ways))[:RUNS]:
        module = importlib.import_module("rectpack.guillotine" if guillotine else "rectpack.maxrects")
        packer = rectpack.newPacker(
            pack_algo=getattr(module, way), sort_algo=sort, rotation=parts[0].may_turn
        )
        grow = SAW.kerf - 2 * SAW.trim
        packer.add_bin(round(1000 * (SHEET.width + grow)), round(1000 * (SHEET.height + grow)), SHEET.count)
        for part in parts:
            sides = (round(1000 * (side + SAW.kerf)) for side in (part.width, part.height))
            size = tuple(sides)
            for _ in range(part.count):
                packer.add_rect(*size)
        packer.pack()
        if len(packer.rect_list()) == sum(part.count for part in parts):
            fewest = min(fewest, len(packer))
    return fewest


GUILLOTINE = [
    "GuillotineBssfSas",
    "GuillotineBafSas",
    "GuillotineBlsfLlas",
    "GuillotineBssfLas",
    "GuillotineBafMinas",
]
FREE = ["MaxRectsBl", "MaxRectsBssf", "MaxRectsBaf", "MaxRectsBlsf"]


def one_less(parts: list[Part], sheets: int) -> str:
    """Say what OR-Tools finds for one sheet less: sheets side by side, walls between, parts laid freely."""
    cp_model = importlib.import_module("ortools.sat.python.cp_model")
    model, across, up = cp_model.CpModel(), [], []
    grow = SAW.kerf - 2 * SAW.trim
    width, height = (round(1000 * (side + grow)) for side in (SHEET.width, SHEET.height))
    for at in range(1, sheets - 1):
        across.append(model.new_fixed_size_interval_var(at * (width + 1) - 1, 1, ""))
        up.append(model.new_fixed_size_interval_var(0, height, ""))
    for part in [each for each in parts for _ in range(each.count)]:
        w, h = (round(1000 * (side + SAW.kerf)) for side in (part.width, part.height))
        x = model.new_int_var(0, (sheets - 1) * (width + 1) - 1 - w, "")
        y = model.new_int_var(0, height - h, "")
        across.append(model.new_fixed_size_interval_var(x, w, ""))
        up.append(model.new_fixed_size_interval_var(y, h, ""))
    model.add_no_overlap_2d(across, up)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = 10.0
    solver.parameters.num_workers = 2
    return str(solver.status_name(solver.solve(model))).lower()


def main() -> None:
    """Print the table."""
    print("parts  largest  turn   bound  ours  proven  guillotine of 20  free of 16   time")
    worse = wide = 0
    lists = itertools.product((20, 40), (0.5, 0.8, 1.1), (False, True), range(2))
    for number, largest, may_turn, seed in lists:
        parts = shop_list(seed, number, largest, may_turn=may_turn)
        begun = perf_counter()
        found = nest(parts, [SHEET], SAW)
        taken = perf_counter() - begun
        rival, free = others(parts, GUILLOTINE, guillotine=True), others(parts, FREE, guillotine=False)
        worse += len(found.sheets) > rival
        wide += len(found.sheets) > found.bound + 2
        print(
            f"{number:5d} {largest:6.1f} m {may_turn!s:>6} {found.bound:6d} {len(found.sheets):5d}"
            f" {found.proven!s:>7} {rival:17d} {free:11d} {taken:6.2f} s"
        )
        if number == 20 and not may_turn and not found.proven:
            print(f"      one sheet less, freely laid: {one_less(parts, len(found.sheets))}")
    print(f"worse than the other: {worse}; more than two sheets above the area bound: {wide}")

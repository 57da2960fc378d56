"""Writes into coverage.md which test holds which published check: ``python tests/published/coverage.py``."""

import ast
import re
from pathlib import Path

TESTS = Path(__file__).parents[1]
TABLE = Path(__file__).with_name("coverage.md")
ROW = re.compile(r"^\| ([A-IT]\d\d) \| (.*?) \| (.*?) \|$")
CHECK = re.compile(r"\b[A-IT]\d\d\b")
ROOMS = ("convergence", "published", "solver")
LATER = "later: "
MISSING = LATER + "still to come with the corridor"


def constants(tree: ast.Module, lines: list[str]) -> dict[str, str]:
    """Text of every constant of a module, by name: lists of cases name their checks."""
    return {
        target.id: "\n".join(lines[node.lineno - 1 : node.end_lineno])
        for node in tree.body
        if isinstance(node, ast.Assign)
        for target in node.targets
        if isinstance(target, ast.Name)
    }


def checks_of(node: ast.FunctionDef, lines: list[str], known: dict[str, str]) -> set[str]:
    """Checks that a test names in its text, its cases or the constants it uses."""
    first = min([node.lineno, *(each.lineno for each in node.decorator_list)])
    text = "\n".join(lines[first - 1 : node.end_lineno])
    used = {each.id for each in ast.walk(node) if isinstance(each, ast.Name)} & set(known)
    # a comment just above a constant names its check too
    return set(CHECK.findall("\n".join([text, *(known[name] for name in used)])))


def found() -> dict[str, list[str]]:
    """Tests by the check they hold, in the order of their files."""
    holders: dict[str, list[str]] = {}
    for path in sorted(path for room in ROOMS for path in (TESTS / room).rglob("test_*.py")):
        lines = path.read_text("utf8").splitlines()
        tree = ast.parse("\n".join(lines))
        known = constants(tree, lines)
        for node in tree.body:
            if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
                for check in checks_of(node, lines, known):
                    holders.setdefault(check, []).append(f"`{path.relative_to(TESTS)}::{node.name}`")
    return holders


def renewed(text: str) -> str:
    """Return the table with its last column brought up to date."""
    holders = found()

    def renew(line: str) -> str:
        if not (row := ROW.match(line)):
            return line
        check, what, where = row.groups()
        kept = where if where.startswith(LATER) else MISSING
        return f"| {check} | {what} | {', '.join(holders.get(check, [])) or kept} |"

    return "\n".join(renew(line) for line in text.splitlines()) + "\n"


if __name__ == "__main__":
    TABLE.write_text(renewed(TABLE.read_text("utf8")), "utf8")

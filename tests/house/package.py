"""The package's sources as the house tests read them."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "server" / "lastbolt"
CORE = ("journal", "state", "checks", "report", "plan", "torque")


@cache
def modules() -> dict[Path, ast.Module]:
    return {path: ast.parse(path.read_text()) for path in sorted(PACKAGE.rglob("*.py"))}


def shown(path: Path) -> str:
    return str(path.relative_to(PACKAGE))


def functions() -> list[tuple[Path, ast.FunctionDef | ast.AsyncFunctionDef]]:
    return [
        (path, node)
        for path, tree in modules().items()
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    ]


def length(node: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    doc = node.body[0]
    has_doc = (
        isinstance(doc, ast.Expr) and isinstance(doc.value, ast.Constant) and isinstance(doc.value.value, str)
    )
    spared = (doc.end_lineno or 0) - doc.lineno + 1 if has_doc else 0
    return (node.end_lineno or 0) - node.lineno + 1 - spared

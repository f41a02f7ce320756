"""The import contracts hold, and each of these deliberate violations is caught by them."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from .package import PACKAGE, ROOT

VIOLATIONS = {
    "state asks the time": ("state/ledger.py", "import time"),
    "journal leans on state": ("journal/chain.py", "from lastbolt.state import Job"),
    "a check opens the store": ("checks/hole_empty.py", "import sqlite3"),
    "a check leans on another": ("checks/hole_empty.py", "from lastbolt.checks import count_short"),
    "a check looks at pixels": ("checks/hole_empty.py", "from lastbolt.vision import look"),
    "vision knows of jobs": ("vision/count.py", "from lastbolt.journal import AnyEntry"),
    "vision opens paths": ("vision/count.py", "import pathlib"),
    "labels know of jobs": ("labels/sheet.py", "from lastbolt.state import Job"),
    "torque knows of jobs": ("torque/quantity.py", "from lastbolt.journal import AnyEntry"),
    "report draws PDF": ("report/verdict.py", "import reportlab"),
    "a route reads pixels": ("web/jobs.py", "import cv2"),
    "a route names the store": ("web/jobs.py", "from lastbolt.store import database"),
    "an action speaks SQL": ("actions/verify.py", "import sqlite3"),
    "an action decodes by itself": ("actions/orphan.py", "from lastbolt.vision.look import look"),
    "the web starts processes": ("web/jobs.py", "import subprocess"),
    "readers open the store": ("readers/pool.py", "from lastbolt.store import database"),
    "a route works on PINs": ("web/jobs.py", "import argon2"),
    "an action makes secrets": ("actions/verify.py", "import secrets"),
    "a route makes certificates": ("web/jobs.py", "import cryptography"),
    "people know the store": ("people/sign_in.py", "from lastbolt.store import database"),
    "the store speaks HTTP": ("store/database.py", "import fastapi"),
    "the store calls actions": ("store/database.py", "from lastbolt.actions import verify"),
    "the command speaks SQL": ("cli/shell.py", "import sqlite3"),
    "an action holds keys": ("actions/audit.py", "import cryptography"),
    "paper opens paths": ("paper/page.py", "import pathlib"),
    "settings model": ("settings.py", "import pydantic"),
    "a stray room": ("helpers.py", ""),
}


def lint(folder: Path) -> subprocess.CompletedProcess[str]:
    program = "from importlinter.cli import lint_imports_command; lint_imports_command()"
    return subprocess.run(
        [sys.executable, "-c", program, "--no-cache"],
        cwd=folder,
        env={"PYTHONPATH": str(folder / "server"), "PATH": "/usr/bin:/bin"},
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    shutil.copytree(
        PACKAGE,
        tmp_path / "server" / "lastbolt",
        ignore=shutil.ignore_patterns("static", "__pycache__", "*.onnx"),
    )
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    return tmp_path


def test_the_house_keeps_its_contracts(checkout: Path):
    done = lint(checkout)

    assert done.returncode == 0, done.stdout[-2000:]


@pytest.mark.parametrize("what", VIOLATIONS)
def test_a_violation_is_caught(checkout: Path, what: str):
    file, line = VIOLATIONS[what]
    target = checkout / "server" / "lastbolt" / file
    text = target.read_text() if target.exists() else '"""Stray."""\n'
    future = "from __future__ import annotations\n"
    target.write_text(
        text.replace(future, f"{future}\n{line}\n", 1) if future in text else f"{text}\n{line}\n"
    )

    done = lint(checkout)

    assert done.returncode == 1, f"{what} was not caught: {done.stdout[-500:]}"

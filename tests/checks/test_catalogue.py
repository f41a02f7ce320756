"""The list of checks is whole: each file in it once, documented in five headings, named after itself, tested."""

from __future__ import annotations

import re
from pathlib import Path
from types import ModuleType

import pytest

from lastbolt import checks

FOLDER = Path(checks.__file__).parent
HEADINGS = ["What it finds:", "Why it matters:", "Example:", "How to clear it:", "Silent when:"]
FILES = sorted(path.stem for path in FOLDER.glob("*.py") if path.stem != "__init__")


def test_each_file_is_in_the_list_once() -> None:
    listed = [check.__name__.rsplit(".", 1)[-1] for check in checks.ALL]

    assert sorted(listed) == FILES
    assert len(set(listed)) == len(listed)


@pytest.mark.parametrize("check", checks.ALL, ids=checks.name_of)
def test_the_docstring_has_the_five_headings_in_order(check: ModuleType) -> None:
    text = check.__doc__ or ""

    assert re.findall(r"^[A-Z][a-z ]+:", text, flags=re.MULTILINE) == HEADINGS
    assert text.split("\n")[0].endswith(".")


@pytest.mark.parametrize("check", checks.ALL, ids=checks.name_of)
def test_it_says_from_which_level_on_it_runs_and_whether_while_working(check: ModuleType) -> None:
    assert check.LEVEL in (1, 2, 3)
    assert check.LIVE in (True, False)


@pytest.mark.parametrize("name", FILES)
def test_it_has_its_own_tests(name: str) -> None:
    text = (Path(__file__).parent / f"test_{name}.py").read_text(encoding="utf-8")

    assert f'CHECK = "{name.replace("_", "-")}"' in text
    assert "test_stays_silent_when" in text and "test_fires_when" in text


def test_what_guards_a_start_and_what_interrupts_are_checks() -> None:
    names = {checks.name_of(check) for check in checks.ALL}

    assert checks.START <= names
    assert checks.INTERRUPTING <= names
    assert len(checks.INTERRUPTING) == 7

"""Compute the verdict of an exported job anew, with the check set that came along; beside `check_bundle.py`.

`checks.zip` in the bundle is the source of all that makes a verdict of a journal, as it was on the day of the
export. It needs the Python packages pydantic and rfc8785, and no server, no data folder, no network. Run only
what you got from somebody you trust: it is a program.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

CHECKS = "checks.zip"
NEEDS = "pip install pydantic rfc8785"


class CannotComputeError(Exception):
    """The verdict could not be computed, and why."""


def verdict_anew(checks: Path, entries: list[dict[str, Any]]) -> dict[str, Any]:
    """Judge the entries of one job by itself with the check set of a zip; in the form of `verdict.json`.

    Raises:
        CannotComputeError: what is missing.
    """
    sys.path.insert(0, str(checks))
    try:
        from lastbolt.journal import entry_from
        from lastbolt.report.verdict import as_json, verdicts
    except ImportError as error:
        raise CannotComputeError(f"{error}; it needs: {NEEDS}") from error
    finally:
        sys.path.remove(str(checks))
    return as_json(verdicts([entry_from(entry) for entry in entries]))

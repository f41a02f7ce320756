"""A function test was not run, failed, or is out of date.

What it finds: a declared test that was not run, that failed, or after which something in its scope was
    touched.

Why it matters: the test proves only what has not been touched since.

Example: a hose was parted after the lift test.

How to clear it: run it again.

Silent when: what was touched lies outside its scope.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, stop
from ..said import said
from ..state.job import touched_since

LEVEL = 2
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each test that proves nothing now."""
    for test in case.job.tests.values():
        if test.run is None:
            form, later = "{test} was not run.", list[str]()
        elif not test.passed:
            form, later = "{test} failed.", list[str]()
        else:
            later = touched_since(case.job, test)
            if not later:
                continue
            form = "{test} is out of date: {things} was touched after it."
        yield stop(
            test.name,
            said(form, test=test.name, things=", ".join(later)),
            to_do="Run it (again), with hands, hair and people clear.",
            proof=evidence(
                test.run, *(case.job.touched[name] for name in later), photos=case.photos_of(test.name)
            ),
        )

"""A hold point was passed without the look.

What it finds: the guarded part went on, or the guarded test was run, before the named role had looked.

Why it matters: a hold point is put where a fault can be seen for the last time.

Example: the wheel is on before the brake look.

How to clear it: a late look that says how it could still be seen; or undo.

Silent when: a witness point only: then it is a note.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, note, stop
from ..said import said

LEVEL = 3
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each hold point that was passed."""
    for hold in case.job.holds.values():
        if hold.passed is None:
            continue
        build = note if hold.witness_only else stop
        yield build(
            hold.name,
            said("{before} was done before {hold} was looked at.", before=hold.before, hold=hold.name),
            to_do="Look now and say how it can still be seen, or take it off again.",
            proof=evidence(hold.passed, photos=case.photos_of(hold.name, hold.before)),
        )

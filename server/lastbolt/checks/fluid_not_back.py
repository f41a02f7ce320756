"""A fluid is not back, or its level was not looked at.

What it finds: filled less than nine tenths of what was drained (or of the capacity, if that is less), or
    another grade; no look at the level since the last fill.

Why it matters: an engine runs minutes without oil.

Example: 38 L out, 30 L in.

How to clear it: fill, check the level, bleed, look for leaks.

Silent when: a partial drain with known capacity; losses under a tenth.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence, stop
from ..said import said

LEVEL = 2
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each fluid that is short, of the wrong grade, or unchecked."""
    for fluid in case.job.fluids.values():
        proof = evidence(fluid.drained, fluid.filled, fluid.check_bad, photos=case.photos_of(fluid.name))
        if fluid.drained is not None and not fluid.is_back:
            yield stop(
                fluid.name,
                said(
                    "DO NOT START: {drained_l} L of {fluid} went out, {filled_l} L came in.",
                    drained_l=f"{fluid.drained_l:g}",
                    fluid=fluid.name,
                    filled_l=f"{fluid.filled_l:g}",
                ),
                to_do="Fill it, check the level, bleed it, look for leaks.",
                proof=proof,
                never=True,
            )
        elif fluid.wrong_grade is not None:
            yield stop(
                fluid.name,
                said("{fluid} was filled with another grade than asked.", fluid=fluid.name),
                to_do="Drain it and fill the grade of the manual.",
                proof=proof,
                never=True,
            )
        elif fluid.filled is not None and fluid.is_unchecked:
            unchecked = "The level of {fluid} was not looked at after the last fill."
            wrong = "The level of {fluid} was looked at and was not right."
            yield decide(
                fluid.name,
                said(wrong if fluid.check_bad else unchecked, fluid=fluid.name),
                to_do="Check level, bleeding and leaks.",
                proof=proof,
            )

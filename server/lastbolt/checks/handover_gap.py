"""Work changed hands without a handover, or an interruption was never closed.

What it finds: a new person works after a shift ended without accepting, or while the last holder has
    been silent for 2 hours; a call away after which nobody went back and looked over.

Why it matters: what the first one meant to say is what the second one does not know.

Example: Dev came back from the phone and did not look over what he had done.

How to clear it: accept late, with a walk along the trays; go back three steps and look again.

Silent when: the same person next day; two signed on together.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, decide, evidence
from ..said import said

LEVEL = 1
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each unclosed interruption and each newcomer without a handover."""
    for element, act in () if case.is_live else case.job.interrupted.items():
        found = decide(
            element,
            said(
                "{who} was called away from {element}, and nobody went back and looked it over.",
                who=act.by,
                element=element,
            ),
            to_do="Go back three steps, look again, and record it.",
            proof=evidence(act, photos=case.photos_of(element)),
        )
        yield replace(found, variant="interrupted")
    for person, act in case.job.gaps.items():
        found = decide(
            person,
            said("{person} began to work here without taking over.", person=person),
            to_do="Take over now, late: walk along the trays and ask the one before.",
            proof=evidence(act),
        )
        yield replace(found, variant="custody")

"""The picture shows another number than the record.

What it finds: a machine or scale count that differs from what was logged at that moment, and that no
    hand count has settled.

Why it matters: the picture is a second pair of eyes on the count.

Example: the picture shows 11, the record says 12.

How to clear it: count by hand, or take a new photo with the parts spread out; it never changes the
    ledger.

Silent when: a hand count settled it, or the interval of the reading holds the logged number.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence, note
from ..label_code import printed
from ..said import said

LEVEL = 1
LIVE = True


SURE = 0.8


def check(case: Case) -> Iterator[Finding]:
    """Name each container whose picture count was not settled."""
    for container in case.job.containers.values():
        if container.picture is None:
            continue
        act, seen, logged, confidence = container.picture
        build = decide if confidence >= SURE else note
        yield build(
            container.name,
            said(
                "The picture of {container} shows {seen}, the record says {logged}.",
                container=printed(container.name),
                seen=seen,
                logged=logged,
            ),
            to_do="Count by hand, or spread the parts out and take a new photo. A picture count is an estimate.",
            proof=evidence(act, photos=case.photos_of(container.name)),
        )

"""Two types that a hand mixes up lie in one container.

What it finds: two types of one kind in one container with nearly the same diameter and another pitch,
    another class, or a length that differs by up to 10 mm or a quarter.

Why it matters: too long a bolt has jammed and broken what turns behind it; the bag is where the mix-up
    begins.

Example: M10x30 with M10x40 in one bag.

How to clear it: a second bag, or number the holes on the photo; it stays as a note.

Silent when: kinds differ (a bolt with its own nut), or the lengths are far apart.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, note
from ..label_code import printed
from ..said import said

LEVEL = 1
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each container in which look-alikes lay together."""
    for container in case.job.containers.values():
        if container.look_alikes is None:
            continue
        act, first, second = container.look_alikes
        yield note(
            container.name,
            said(
                "{container} held look-alikes together: {first} and {second}.",
                container=printed(container.name),
                first=first,
                second=second,
            ),
            to_do="Use a second bag, or number the holes on the photo.",
            proof=evidence(act, photos=case.photos_of(container.name)),
        )

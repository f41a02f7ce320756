"""A photo or a tray hangs in the air.

What it finds: a container scanned and never used; a photo that nothing names.

Why it matters: shot now to be sorted later, and later never came.

Example: T12 was scanned and nothing is in it.

How to clear it: link it, reject it, or free the tray.

Silent when: photos of manuals; containers that held something, were counted or looked empty.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..label_code import printed
from ..said import said

LEVEL = 1
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each unused container and each unlinked photo."""
    for container in case.job.containers.values():
        idle = container.scanned is not None and not container.used and container.kind != "place"
        if idle and not container.photos and container.name not in case.job.labels:
            yield decide(
                container.name,
                said(
                    "{container} was scanned and nothing was ever put in it.",
                    container=printed(container.name),
                ),
                to_do="Say what it is for, or free it.",
                proof=evidence(container.scanned),
            )
    for photo in case.job.photos.values():
        if not photo.linked and not photo.rejected and photo.shape != "manual":
            yield decide(
                photo.name,
                "A photo has no place: nothing says what it shows.",
                to_do="Link it to what it shows, or reject it.",
                proof=evidence(photo.act, photos=[photo.name]),
            )

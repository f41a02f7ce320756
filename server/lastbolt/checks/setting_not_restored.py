"""A setting was moved and is not back.

What it finds: a value as found without a value as left, or one that differs by more than its tolerance
    with no page of the manual for the new value.

Why it matters: a relief screw turned in a turn and a half is another machine.

Example: relief screw 12.5 mm as found, 14.0 mm as left.

How to clear it: set it back; or give the page of the manual for the new value.

Silent when: it is within its tolerance.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..said import said

LEVEL = 2
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each setting that is not as found and has no page."""
    for setting in case.job.settings.values():
        if setting.found is None:
            continue
        act, before = setting.found
        if setting.left is None:
            form, left, last = (
                "{setting} was found at {before} and how it was left is not recorded.",
                "",
                None,
            )
        else:
            last, after = setting.left
            if setting.manual_page or not setting.differs(after, before):
                continue
            form, left = "{setting} was found at {before} and it was left at {after}.", f"{after:g}"
        yield decide(
            setting.name,
            said(
                form,
                setting=setting.name,
                before=f"{before:g}",
                after=left,
            ),
            to_do="Set it back, or give the page of the manual for the new value.",
            proof=evidence(act, last, photos=case.photos_of(setting.name)),
        )

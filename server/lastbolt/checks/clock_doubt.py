"""A phone's clock was off.

What it finds: a clock more than 120 s off, or a correction that turns the order of two entries about one
    thing.

Why it matters: a bolt that seems tightened before it was fitted.

Example: a phone two hours slow.

How to clear it: the lead says which order is right.

Silent when: summer time: the offset is stored with each entry. A minute off is only mentioned while
    working.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence, note
from ..state.on_evidence import DRIFT_SEEN_S

LEVEL = 1
LIVE = True


LIMIT_S = 120.0


def check(case: Case) -> Iterator[Finding]:
    """Name each device whose clock is in doubt."""
    for device in case.job.devices.values():
        if device.mark is None:
            continue
        said = f"The clock of {device.name} was off by {device.offset_s:+g} s"
        proof = evidence(device.mark)
        if device.order_flips:
            yield decide(
                device.name,
                f"{said}, and the order of two entries turns with it.",
                to_do="The lead says which order is right.",
                proof=proof,
            )
        elif abs(device.offset_s) > (DRIFT_SEEN_S if case.is_live else LIMIT_S):
            yield note(device.name, f"{said}.", to_do="Set the clock of the phone.", proof=proof)

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
from ..said import said
from ..state.clocks import turned_by
from ..state.on_evidence import DRIFT_SEEN_S

LEVEL = 1
LIVE = True

LIMIT_S = 120.0


def check(case: Case) -> Iterator[Finding]:
    """Name each device whose clock is in doubt."""
    for device in case.job.devices.values():
        if device.mark is None:
            continue
        off = {"device": device.name, "seconds": f"{device.offset_s:+g}"}
        turn = turned_by(case.job, device.name)
        proof = evidence(device.mark, turn.act if turn else None)
        if device.order_flips or turn:
            yield decide(
                device.name,
                said(
                    "The clock of {device} was off by {seconds} s, and the order of two entries turns with it.",
                    **off,
                ),
                to_do="The lead says which order is right.",
                proof=proof,
            )
        elif abs(device.offset_s) > (DRIFT_SEEN_S if case.is_live else LIMIT_S):
            yield note(
                device.name,
                said("The clock of {device} was off by {seconds} s.", **off),
                to_do="Set the clock of the phone.",
                proof=proof,
            )

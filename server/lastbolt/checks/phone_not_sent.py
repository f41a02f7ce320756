"""Entries of a phone are not in the record, being unsent, lost with it, or held for a lead's look.

What it finds: a device that reported unsent entries, whose numbers have a gap, that was cut off as lost, or of
which entries are held for a lead.

Why it matters: what it holds may be the removal nobody knows of.

Example: a lost phone with 7 entries unsent.

How to clear it: let it send; or the lead walks the list of what it touched, and then calls it lost; held entries
are let in or discarded by a lead.

Silent when: the phone never touched this job.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, stop
from ..state.elements import Device

LEVEL = 1
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each device that owes entries."""
    for device in case.job.devices.values():
        if device.held:
            yield _held(device)
        if not (device.unsent or device.gap or device.unknown):
            continue
        lost = ", and it is lost" if device.lost else ""
        owed = _owed(device)
        yield stop(
            device.name,
            f"{device.name}: {owed}{lost}.",
            to_do="Let it send; or walk what it touched, see each thing, and record that.",
            proof=evidence(device.report),
        )


def _owed(device: Device) -> str:
    if device.unsent:
        return f"{device.unsent} unsent"
    return f"a gap of {device.gap} in its numbering" if device.gap else "nobody can say what it still held"


def _held(device: Device) -> Finding:
    entries = "1 entry waits" if device.held == 1 else f"{device.held} entries wait"
    return stop(
        device.name,
        f"{device.name}: {entries} for a lead's look and are not in this verdict.",
        to_do="A lead reads each one among the held entries, and lets it in or discards it with a reason.",
        proof=evidence(device.report),
    )

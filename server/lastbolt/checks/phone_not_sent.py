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
from ..said import said
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
        form = "{device}: {owed}, and it is lost." if device.lost else "{device}: {owed}."
        yield stop(
            device.name,
            said(form, device=device.name, owed=_owed(device)),
            to_do="Let it send; or walk what it touched, see each thing, and record that.",
            proof=evidence(device.report),
        )


def _owed(device: Device) -> str:
    if device.unsent:
        return said("{n} unsent", n=device.unsent)
    if device.gap:
        return said("a gap of {n} in its numbering", n=device.gap)
    return said("nobody can say what it still held")


def _held(device: Device) -> Finding:
    one = "{device}: 1 entry waits for a lead's look and is not in this verdict."
    many = "{device}: {n} entries wait for a lead's look and are not in this verdict."
    return stop(
        device.name,
        said(one if device.held == 1 else many, device=device.name, n=device.held),
        to_do="A lead reads each one among the held entries, and lets it in or discards it with a reason.",
        proof=evidence(device.report),
    )

"""The handover sheet as plain sections of lines, in the order in which they are read aloud (practice 6.1)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from ..journal import AnyEntry
from ..journal.checking import JournalSealed
from ..journal.people import HandoverAccepted, HandoverOffered, SignedOn
from ..said import said
from ..state.elements import Device
from ..state.job import Job
from .handover_lines import Line, apart, danger, half_done, inside, open_mouths
from .handover_record import answers, findings_and_decisions, renewals, signatures, trays
from .verdict import Verdict


@dataclass(frozen=True, slots=True)
class Section:
    """One numbered section; `nothing` is what it says when it has no line."""

    title: str
    lines: tuple[Line, ...]
    nothing: str = said("Nothing recorded.")


@dataclass(frozen=True, slots=True)
class HandoverSheet:
    """Header, ten sections, footer; `giver` and `taker` are empty while nobody offered or accepted."""

    machine: str
    job: str
    title: str
    bay: str
    giver: str
    taker: str
    time: datetime | None
    sections: tuple[Section, ...]
    sealed: str
    unsent: tuple[str, ...]


def handover_sheet(job: Job, verdict: Verdict, entries: Iterable[AnyEntry]) -> HandoverSheet:
    """Write the sheet of a job from its state, its verdict as of now, and its effective entries in order."""
    own = list(entries)
    offer = next((e for e in reversed(own) if isinstance(e, HandoverOffered)), None)
    taken = next((e for e in reversed(own) if isinstance(e, HandoverAccepted)), None)
    if offer is not None and taken is not None and own.index(taken) < own.index(offer):
        taken = None
    debts = (
        Section(said("Danger now"), danger(job)),
        Section(said("Half done"), half_done(job, own)),
        Section(said("Open mouths"), open_mouths(job)),
        Section(said("Inside"), inside(job)),
        Section(said("Loosened or apart"), apart(job)),
        Section(said("Bags and trays"), trays(job), said("No bag or tray holds anything.")),
        Section(said("To renew, on order"), renewals(job)),
    )
    shown = {line.subject for section in debts for line in section.lines}
    bays = [e.bay for e in own if isinstance(e, SignedOn) and e.bay]
    return HandoverSheet(
        machine=job.machine,
        job=job.name,
        title=job.opened.title if job.opened else "",
        bay=bays[-1] if bays else "",
        giver=offer.by if offer else (taken.giver or "") if taken else "",
        taker=taken.by if taken else (offer.to or "") if offer else "",
        time=job.now,
        sections=(
            *debts,
            Section(
                said("Findings and decisions"),
                findings_and_decisions(job, verdict, shown),
                said("Nothing more."),
            ),
            Section(said("Said, not scanned"), answers(offer)),
            Section(said("Signatures"), signatures(job, offer, taken)),
        ),
        sealed=_sealed(own),
        unsent=_unsent(job),
    )


def _unsent(job: Job) -> tuple[str, ...]:
    owing = [device for device in job.devices.values() if device.unsent or device.lost or device.unknown]
    return tuple(
        said("{owed} and it is lost", owed=_owed(device)) if device.lost else _owed(device)
        for device in owing
    )


def _owed(device: Device) -> str:
    if device.unknown:
        return said("What {device} still held is not known", device=device.name)
    return said("{device} holds {n} entries not sent", device=device.name, n=device.unsent)


def _sealed(entries: list[AnyEntry]) -> str:
    seal = next((e for e in reversed(entries) if isinstance(e, JournalSealed)), None)
    return f"{seal.count} entries sealed up to {seal.head}" if seal else "not sealed"


def handover_text(sheet: HandoverSheet) -> str:
    """Write the sheet as plain text."""
    time = f", {sheet.time:%Y-%m-%d %H:%M %Z}" if sheet.time else ""
    bay = f", bay {sheet.bay}" if sheet.bay else ""
    lines = [f"Handover: {sheet.machine}, {sheet.job} {sheet.title}{bay}{time}"]
    lines.append(f"From {sheet.giver or '........'} to {sheet.taker or '........'}")
    for number, section in enumerate(sheet.sections, start=1):
        lines += ["", f"{number}. {section.title}"]
        lines += [_line_text(line) for line in section.lines] or [f"   {section.nothing}"]
    lines += ["", f"Record: {sheet.sealed}.", *(f"{owed}." for owed in sheet.unsent)]
    return "\n".join(lines)


def _line_text(line: Line) -> str:
    box = "[x] " if line.ticked else "[ ] " if line.ticked is not None else ""
    photos = f" (photos: {', '.join(line.photos)})" if line.photos else ""
    return f"   {box}{line.text}{photos}"

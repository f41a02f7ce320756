"""What is known of a job turned into what goes over the wire; pure."""

from __future__ import annotations

from collections.abc import Iterable

from ..actions.board import Listed
from ..actions.ports import KnownJob
from ..actions.verify import View
from ..finding import Finding, Severity, worst_first
from ..journal import Happened, Line, raw_from
from ..label_code import printed
from ..state import elements
from ..state.ledger import VIRTUAL
from . import gallery, wire
from .forms import forms_of
from .known import Known


def job(view: View, listed: KnownJob) -> wire.Job:
    """Give the head of a job: what it is, where it stands, how many findings of each severity."""
    state, verdict = view.job, view.verdict
    changed = state.released is not None and state.changed_after_release is not None
    return wire.Job(
        job=state.name,
        machine=state.machine,
        title=state.opened.title if state.opened else "",
        level=state.level,
        state="changed since its release" if changed else listed.state,
        counts=_counts(verdict.findings),
        not_checked=sorted(verdict.not_checked),
        entries=listed.entries,
        last=state.now,
        practice=state.is_practice,
    )


def listed(each: Listed) -> wire.Job:
    """Give the same from what the board keeps, without folding the job."""
    known, row = each.known, each.row
    return wire.Job(
        job=row.job,
        machine=row.machine,
        title=row.title,
        level=row.level,
        state="changed since its release" if row.changed else known.state,
        counts=wire.Counts(stop=row.stop, decide=row.decide, note=row.note),
        not_checked=list(row.not_checked),
        entries=known.entries,
        last=row.last,
        practice=row.practice,
        older=each.older,
    )


def findings(known: Known) -> wire.Findings:
    """Give the findings worst first, each with its evidence spelled out."""
    return wire.Findings(
        findings=[finding(known, each) for each in worst_first(known.findings)],
        not_checked=sorted(known.not_checked),
    )


def finding(known: Known, each: Finding) -> wire.Finding:
    """Give one finding with the entries and photos it rests on."""
    entries = [known.by_id[name] for name in each.evidence.entries if name in known.by_id]
    names = dict.fromkeys([*each.evidence.photos, *(photo for h in entries for photo in h.entry.photos)])
    return wire.Finding(
        check=each.check,
        severity=each.severity.value,
        waivable=each.waivable,
        subject=each.subject,
        sentence=each.sentence,
        to_do=each.to_do,
        forms=forms_of(each.sentence, each.to_do),
        key=each.key,
        entries=[_witness(h) for h in entries],
        photos=[known.photos[name] for name in names if name in known.photos],
    )


def containers(known: Known) -> list[wire.Container]:
    """Give the containers, those with something in them first, then by name."""
    found = [_container(known, each) for name, each in known.state.containers.items() if name not in VIRTUAL]
    return sorted(found, key=lambda c: (not c.contents, c.container))


def photos(known: Known) -> list[wire.Photo]:
    """Give the photos, newest first."""
    return gallery.newest_first(known.photos.values())


def line(each: Line) -> wire.Line:
    """Give one stored entry."""
    return wire.Line(position=each.position, received=each.received, hash=each.hash, entry=each.entry)


def _witness(happened: Happened) -> wire.Witness:
    entry = happened.entry
    return wire.Witness(
        entry=str(entry.id), kind=entry.kind, by=entry.by, at=happened.time, recorded=raw_from(entry)
    )


def _counts(found: Iterable[Finding]) -> wire.Counts:
    severities = [each.severity for each in found]
    return wire.Counts(
        stop=severities.count(Severity.STOP),
        decide=severities.count(Severity.DECIDE),
        note=severities.count(Severity.NOTE),
    )


def _container(known: Known, each: elements.Container) -> wire.Container:
    state = known.state
    lots = state.ledger.lots(each.name)
    names = [label for label, bound in state.labels.items() if each.name in bound]
    own = {*each.photos, *(p.photo for p in known.photos.values() if each.name in (p.container, p.element))}
    return wire.Container(
        container=each.name,
        kind=each.kind,
        label=next((printed(name) for name in names if name not in state.retired), None),
        place=each.place,
        contents=[
            wire.Pieces(n=n, set=lot.set, type=lot.type or None, new=lot.new)
            for lot, n in sorted(lots.items(), key=lambda item: (item[0].set or "", item[0].type))
        ],
        looked_empty=each.emptied.time if each.emptied else None,
        counted=known.picture_counts.get(each.name),
        photos=gallery.newest_first(known.photos[name] for name in own if name in known.photos),
    )


def recorded(
    lines: Iterable[Line], before: Known | None, after: Known | None, *, held: int = 0
) -> wire.Recorded:
    """Say what became of sent entries, and how they changed the list."""
    old = {each.key: each for each in before.findings} if before else {}
    new = {each.key: each for each in after.findings} if after else {}
    came_up = [each for each in worst_first(new.values()) if old.get(each.key) != each]
    return wire.Recorded(
        lines=[line(each) for each in lines],
        held=held,
        came_up=[finding(after, each) for each in came_up] if after else [],
        went_away=sorted(old.keys() - new.keys()),
    )

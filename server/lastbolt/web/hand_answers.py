"""What the phone at the machine asked for, turned into what goes over the wire; pure."""

from __future__ import annotations

from collections.abc import Iterable

from ..actions.in_hand import Resting
from ..actions.orphan import Orphan
from ..journal import Happened, raw_from
from ..journal.people import HandoverAccepted, HandoverOffered
from ..label_code import printed
from ..plan.next_step import NextSteps
from ..plan.step import Step
from ..report.handover import HandoverSheet
from ..report.start_guard import StartGuard
from ..state import Job
from . import answers, gallery, wire
from . import hand_wire as hand
from .forms import forms_of
from .known import Known

TWO_PHOTOS = 2


def next_steps(known: Known, steps: NextSteps) -> hand.NextSteps:
    """Give the next steps with their photos and the labels of the bags to fetch."""
    return hand.NextSteps(
        big=_step(known, steps.big) if steps.big else None,
        small=[_step(known, each) for each in steps.small],
        waiting=[_step(known, each) for each in steps.waiting],
        at=known.state.now,
    )


def start_guard(known: Known, guard: StartGuard) -> hand.StartGuard:
    """Give what stands against a start, each with its evidence as far as this job holds it."""
    return hand.StartGuard(
        headline=guard.headline,
        findings=[answers.finding(known, each) for each in guard.findings],
        not_checked=sorted(guard.not_checked),
        cautions=list(guard.cautions),
        forms=forms_of(guard.headline, *guard.cautions),
        at=guard.time,
    )


def take_over(known: Known, sheet: HandoverSheet, timeline: Iterable[Happened]) -> hand.TakeOver:
    """Give the handover sheet, and what the taker ticks off: trays, tags."""
    return hand.TakeOver(
        job=sheet.job,
        machine=sheet.machine,
        title=sheet.title,
        giver=sheet.giver,
        taker=sheet.taker,
        sections=[
            hand.SheetSection(
                title=section.title,
                lines=[
                    hand.SheetLine(
                        subject=line.subject,
                        text=line.text,
                        photos=_photos(known, line.photos),
                        ticked=line.ticked,
                        forms=forms_of(line.text),
                    )
                    for line in section.lines
                ],
                nothing=section.nothing,
            )
            for section in sheet.sections
        ],
        offered=_offered(timeline),
        tags=_tags(known.state),
        trays=_trays(known),
        unsent=list(sheet.unsent),
        at=sheet.time,
    )


def resting(known: Known, entry: Happened, found: Resting) -> hand.Resting:
    """Give what rests on an entry."""
    return hand.Resting(
        counts=found.counts,
        entry=witness(entry),
        later=[witness(each) for each in found.later],
        would_come=[answers.finding(known, each) for each in found.would_come],
        would_go=[answers.finding(known, each) for each in found.would_go],
    )


def orphan(found: Orphan) -> hand.Orphan:
    """Give one lone piece with the homes that it may have."""
    return hand.Orphan(
        kind=found.measured.kind,
        diameter_mm=found.measured.shank_mm,
        length_mm=found.measured.length_mm,
        head_mm=found.measured.head_mm,
        offers=[
            hand.Offer(job=o.job, set=o.set, type=o.type, share=o.share, reasons=list(o.reasons))
            for o in found.offers
        ],
    )


def witness(happened: Happened) -> wire.Witness:
    """Give one entry as who recorded what, when."""
    entry = happened.entry
    return wire.Witness(
        entry=str(entry.id), kind=entry.kind, by=entry.by, at=happened.time, recorded=raw_from(entry)
    )


def _step(known: Known, step: Step) -> hand.Step:
    fetch = [
        hand.Fetch(container=f.container, label=_label(known.state, f.container), place=f.place, n=f.n)
        for f in step.fetch
    ]
    own = [photo for photo in known.photos.values() if photo.element == step.element]
    names = [*known.state.photos_of.get(step.element, ()), *(photo.photo for photo in own)]
    return hand.Step(
        kind=step.kind,
        element=step.element,
        sentence=step.sentence,
        why=step.why,
        fetch=fetch,
        bring=list(step.bring),
        waits_for=step.waits_for,
        forms=forms_of(step.sentence, step.why, step.waits_for),
        photos=_photos(known, names)[:TWO_PHOTOS],
    )


def _photos(known: Known, names: Iterable[str]) -> list[wire.Photo]:
    kept = [known.photos[name] for name in dict.fromkeys(names) if name in known.photos]
    return gallery.newest_first(photo for photo in kept if photo.rejected is None)


def _label(state: Job, container: str) -> str | None:
    bound = [name for name, things in state.labels.items() if container in things]
    code = next((name for name in bound if name not in state.retired), None)
    return printed(code) if code else None


def _offered(timeline: Iterable[Happened]) -> hand.Offered | None:
    """Give the newest offer that nobody has accepted."""
    offer: Happened | None = None
    for each in timeline:
        if isinstance(each.entry, HandoverOffered):
            offer = each
        elif isinstance(each.entry, HandoverAccepted):
            offer = None
    if offer is None or not isinstance(said := offer.entry, HandoverOffered):
        return None
    return hand.Offered(
        by=said.by,
        at=offer.time,
        to=said.to,
        half_done=said.half_done,
        dangerous=said.dangerous,
        not_listed=said.not_listed,
        voice_note=said.voice_note,
    )


def _tags(state: Job) -> list[hand.Tag]:
    return [
        hand.Tag(isolation=point.name, holder=point.holder, proven=point.proven is not None)
        for point in state.isolations.values()
        if point.applied is not None
    ]


def _trays(known: Known) -> list[hand.TrayToSee]:
    """Give what a taker must see: what `handover-accepted` asks of him."""
    state = known.state
    return [
        hand.TrayToSee(container=name, label=_label(state, name), place=here.place, n=n)
        for name, here in sorted(state.containers.items())
        if (n := state.ledger.balance(name)) and here.kind != "place" and not name.startswith("hand of ")
    ]

"""Everything but the fastener sets of a phone's pocket, from the state of a job; pure."""

from __future__ import annotations

from collections.abc import Iterable

from ..label_code import printed, read
from ..plan.access import AccessMap
from ..plan.step import new_pieces_for, zone_of
from ..plan.unreachable import unreachable_after
from ..state import Job, elements
from ..state.ledger import VIRTUAL
from . import pocket_wire_things as wire
from . import wire as shared
from .pocket_sets import trace

FOR_PIECES = frozenset("TBS")
"""The kinds of labels that are on what pieces lie in; the others are on parts, openings, tools, people."""


def parts_of(job: Job, drawn: AccessMap) -> list[wire.PocketPart]:
    """Give every part, with what waits under those that are off."""
    return [_part(job, drawn, part) for part in job.parts.values()]


def _part(job: Job, drawn: AccessMap, part: elements.Part) -> wire.PocketPart:
    under = unreachable_after(job, part.name, drawn=drawn)
    return wire.PocketPart(
        part=part.name,
        on=part.on,
        off=None if part.on else trace(part.off_at),
        place=part.place,
        zone=zone_of(job, part.name),
        photo_wanted=bool(part.described and part.described.photo_wanted),
        sets=[g.name for g in job.sets.values() if g.described and g.described.part == part.name],
        bring=list(new_pieces_for(job, part.name)),
        owed=[*(thing.left for thing in under.shut if not thing.ready), *under.owed],
    )


def connections_of(job: Job) -> list[wire.PocketConnection]:
    """Give every connection."""
    return [
        wire.PocketConnection(
            connection=each.name,
            part=each.described.part if each.described else None,
            has_clamp=bool(each.described and each.described.has_clamp),
            photo_wanted=bool(each.described and each.described.photo_wanted),
            apart=trace(each.apart),
            unsure=each.unsure is not None,
            mouths=[o.name for o in job.openings.values() if o.open_since and o.taken_off_with == each.name],
        )
        for each in job.connections.values()
    ]


def openings_of(job: Job) -> list[wire.PocketOpening]:
    """Give every opening with the covers on it and what is in it."""
    return [
        wire.PocketOpening(
            opening=each.name,
            letter=each.letter,
            mouths=each.mouths,
            open=trace(each.open_since),
            covers=max(each.covers, 0),
            numbered=sorted(each.numbered),
            bare=each.is_bare,
            looked=trace(each.looked),
            taken_off_with=each.taken_off_with,
            clean_first=bool(each.described and each.described.clean_first),
            items=[f"{i.n} x {i.name}" for i in job.items.values() if i.opening == each.name and i.n > 0],
        )
        for each in job.openings.values()
    ]


def items_of(job: Job) -> list[wire.PocketItem]:
    """Give what was brought in and is not out."""
    return [
        wire.PocketItem(item=each.name, opening=each.opening, n=each.n, act=trace(each.act))
        for each in job.items.values()
        if each.n > 0
    ]


def isolations_of(job: Job) -> list[wire.PocketIsolation]:
    """Give every isolation point."""
    return [
        wire.PocketIsolation(
            isolation=each.name,
            applied=trace(each.applied),
            holder=each.holder,
            proven=trace(each.proven),
            removed=trace(each.removed),
            high_energy=each.high_energy,
            scope=list(each.described.scope) if each.described else [],
        )
        for each in job.isolations.values()
    ]


def fluids_of(job: Job) -> list[wire.PocketFluid]:
    """Give every fluid."""
    return [
        wire.PocketFluid(
            fluid=each.name,
            grade=each.described.grade if each.described else None,
            capacity_l=each.described.capacity_l if each.described else None,
            drained_l=each.drained_l,
            filled_l=each.filled_l,
            owed_l=each.owed_l,
            drained=trace(each.drained),
            is_back=each.is_back,
            checked=trace(each.checked),
            check_bad=each.check_bad is not None,
        )
        for each in job.fluids.values()
    ]


def settings_of(job: Job) -> list[wire.PocketSetting]:
    """Give every setting."""
    return [
        wire.PocketSetting(
            setting=each.name,
            unit=each.described.unit if each.described else None,
            tolerance=each.described.tolerance if each.described else 0.0,
            found=each.found[1] if each.found else None,
            left=each.left[1] if each.left else None,
        )
        for each in job.settings.values()
    ]


def renewals_of(job: Job) -> list[wire.PocketRenewal]:
    """Give every renewal."""
    return [
        wire.PocketRenewal(
            renewal=each.name,
            n=each.needed.n if each.needed else 0,
            seen_off=each.seen_off,
            fitted=each.fitted,
            under=each.needed.under if each.needed else None,
            set=each.needed.set if each.needed else None,
            see_old_off=bool(each.needed and each.needed.see_old_off),
            reuse_allowed=bool(each.needed and each.needed.reuse_allowed),
        )
        for each in job.renewals.values()
    ]


def wrenches_of(job: Job) -> list[wire.PocketWrench]:
    """Give every wrench of the record."""
    return [
        wire.PocketWrench(
            wrench=each.name,
            kind=each.described.wrench_kind if each.described else None,
            min_nm=each.described.min_nm if each.described else None,
            max_nm=each.described.max_nm if each.described else None,
            calibrated=each.good_since,
            due=each.due,
            is_suspect=each.suspect_since is not None,
            uses=each.uses,
        )
        for each in job.wrenches.values()
    ]


def containers_of(job: Job, pictures: dict[str, shared.PictureCount]) -> list[wire.PocketContainer]:
    """Give what pieces lie in or may lie in, those with something in them first, then by name."""
    found = [
        _container(job, each, pictures.get(name))
        for name, each in job.containers.items()
        if name not in VIRTUAL and (each.used or _is_for_pieces(_labels_on(job, name)))
    ]
    return sorted(found, key=lambda each: (not each.n, each.container))


def _container(
    job: Job, each: elements.Container, counted: shared.PictureCount | None
) -> wire.PocketContainer:
    labels = _labels_on(job, each.name)
    lots = job.ledger.lots(each.name)
    return wire.PocketContainer(
        container=each.name,
        kind=each.kind,
        labels=labels,
        shown=printed(labels[0]) if labels else None,
        place=each.place,
        shared=each.shared,
        contents=[
            shared.Pieces(n=n, set=lot.set, type=lot.type or None, new=lot.new)
            for lot, n in sorted(lots.items(), key=lambda item: (item[0].set or "", item[0].type))
        ],
        n=job.ledger.balance(each.name),
        looked_empty=each.emptied.time if each.emptied else None,
        counted=counted,
        unseen_at_handover=each.unseen_at_handover is not None,
        last=trace(each.last),
    )


def _labels_on(job: Job, name: str) -> list[str]:
    return [label for label, bound in job.labels.items() if name in bound and label not in job.retired]


def _is_for_pieces(labels: Iterable[str]) -> bool:
    letters = {label[:1] for label in labels if read(label)}
    return not letters or bool(letters & FOR_PIECES)


def losses_of(job: Job) -> list[wire.PocketLoss]:
    """Give what is missing still."""
    return [
        wire.PocketLoss(
            loss=each.name,
            what=each.what,
            n=each.n,
            set=each.set,
            last_seen=each.last_seen,
            opening=each.opening,
            written_off=each.written_off is not None,
        )
        for each in job.losses.values()
        if each.closed is None
    ]


def holds_of(job: Job) -> list[wire.PocketHold]:
    """Give every hold point."""
    return [
        wire.PocketHold(
            hold=each.name,
            before=each.before,
            role=each.role_wanted,
            witness_only=each.witness_only,
            text=each.text,
            released=trace(each.released),
        )
        for each in job.holds.values()
    ]


def tests_of(job: Job) -> list[wire.PocketTest]:
    """Give every function test."""
    return [
        wire.PocketTest(test=each.name, scope=list(each.scope), run=trace(each.run), passed=each.passed)
        for each in job.tests.values()
    ]


def kits_of(job: Job) -> list[wire.PocketKit]:
    """Give every kit as last counted."""
    return [
        wire.PocketKit(kit=name, complete=complete, missing=list(missing), at=act.time)
        for name, (act, complete, missing) in job.kits.items()
    ]

"""The lines of each section of a handover sheet, as plain sentences about one job."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from ..checks import fluid_not_back
from ..finding import Case
from ..journal import AnyEntry
from ..journal.people import WorkInterrupted
from ..plan.unreachable import set_left
from ..said import joined, said, standing
from ..state.fastener_set import Act, Hole, Reach
from ..state.job import Job

STEPS_BACK = "Go back three steps and look again."


@dataclass(frozen=True, slots=True)
class Line:
    """One line: what it is about, the sentence, photos to look at; `ticked` where there is a box to tick."""

    subject: str
    text: str
    photos: tuple[str, ...] = ()
    ticked: bool | None = None


def _when(act: Act | None) -> str:
    return said(" ({who}, {when})", who=act.by, when=f"{act.time:%Y-%m-%d %H:%M}") if act else ""


def photos_of(job: Job, name: str) -> tuple[str, ...]:
    """Name the last two photos of a thing."""
    return tuple(dict.fromkeys(job.photos_of.get(name, ())))[-2:]


def danger(job: Job) -> tuple[Line, ...]:
    """Give what can hurt now: energy, fluids, losses."""
    return (*_energy(job), *_fluids(job), *_losses(job))


def _energy(job: Job) -> Iterator[Line]:
    for point in job.isolations.values():
        named = {"point": point.name}
        if point.applied is not None:
            proven = said("proven dead") if point.proven else said("NOT proven dead")
            form = "{point} is off, tag of {holder}, {proven}{since}."
            text = said(form, **named, holder=point.holder, proven=proven, since=_when(point.applied))
            yield Line(point.name, text, photos_of(job, point.name))
        elif point.removed is not None:
            yield Line(point.name, said("{point} is LIVE again{since}.", **named, since=_when(point.removed)))
        elif point.described is not None:
            yield Line(point.name, said("{point} is LIVE: nobody cut it off.", **named))


def _fluids(job: Job) -> Iterator[Line]:
    """Give what the check of fluids says, at any level of the job: a drained engine is a danger in each."""
    for found in fluid_not_back.check(Case(job, at=job.now)):
        text = joined(" ", [found.sentence, standing(found.to_do)])
        yield Line(found.subject, text, photos_of(job, found.subject))


def _losses(job: Job) -> Iterator[Line]:
    for loss in job.losses.values():
        if loss.closed is None:
            text = said(
                "LOST: {n} x {what}{where}{given}{since}. Don't turn it.",
                n=loss.n,
                what=loss.what,
                where=said(", beside {opening}", opening=loss.opening) if loss.opening else "",
                given=said(", written off") if loss.written_off else "",
                since=_when(loss.act),
            )
            yield Line(loss.name, text, photos_of(job, loss.name))


def half_done(job: Job, entries: Iterable[AnyEntry]) -> tuple[Line, ...]:
    """Give what was left between fitted and finished, what was interrupted first."""
    calls = {e.element: e for e in entries if isinstance(e, WorkInterrupted)}
    lines = [_interrupted(job, name, act, call=calls.get(name)) for name, act in job.interrupted.items()]
    for group in job.sets.values():
        begun = [h for h in group.holes.values() if h.touched and h.reach >= Reach.PLACED]
        left = set_left(group)
        if left and begun and group.name not in job.interrupted:
            text = said("{left}{since}.", left=left, since=_when(_last_act(begun)))
            lines.append(Line(group.name, text, photos_of(job, group.name)))
    for name, act in job.steps_started.items():
        if name not in job.steps_done:
            text = said("Step begun and not done: {step}{since}.", step=name, since=_when(act))
            lines.append(Line(name, text))
    return tuple(lines)


def _last_act(holes: list[Hole]) -> Act | None:
    acts = [pull.act for h in holes for pull in h.pulls.values()] + [h.fitted for h in holes if h.fitted]
    return max(acts, default=None)


def _interrupted(job: Job, name: str, act: Act, *, call: WorkInterrupted | None) -> Line:
    left = set_left(job.sets[name]) if name in job.sets else ""
    text = said(
        "{element} was interrupted{level}{since}{why}.{state} {back}",
        element=name,
        level=said(" at {level}", level=call.level_reached) if call and call.level_reached else "",
        since=_when(act),
        why=said(": {reason}", reason=call.reason) if call and call.reason else "",
        state=said(" {left}.", left=left) if left else "",
        back=said(STEPS_BACK),
    )
    return Line(name, text, photos_of(job, name))


def open_mouths(job: Job) -> tuple[Line, ...]:
    """Give what stands open, with how many of its mouths are covered."""
    return tuple(
        Line(
            o.name,
            said(
                "{opening} (class {letter}): {covers} of {mouths} mouths covered{since}.",
                opening=o.name,
                letter=o.letter,
                covers=o.covers,
                mouths=o.mouths,
                since=_when(o.open_since),
            ),
            photos_of(job, o.name),
        )
        for o in job.openings.values()
        if o.open_since is not None
    )


def inside(job: Job) -> tuple[Line, ...]:
    """Give what was brought in and is still in, and kits that are short."""
    items = [
        Line(
            i.name,
            said(
                "{n} x {item} in {where}{since}.",
                n=i.n,
                item=i.name,
                where=i.opening or said("the machine"),
                since=_when(i.act),
            ),
        )
        for i in job.items.values()
        if i.n > 0
    ]
    kits = [
        Line(
            name,
            said(
                "Kit {kit} is short: {missing}{since}.",
                kit=name,
                missing=", ".join(missing) or said("pieces not named"),
                since=_when(act),
            ),
        )
        for name, (act, whole, missing) in job.kits.items()
        if not whole
    ]
    return (*items, *kits)


def apart(job: Job) -> tuple[Line, ...]:
    """Give what is off, out, apart or slack."""
    return (*_parts_off(job), *_connections_apart(job), *_sets_out(job))


def _parts_off(job: Job) -> Iterator[Line]:
    for part in job.parts.values():
        if not part.on:
            lies = said(", it lies: {place}", place=part.place)
            place = lies if part.place else said(", nobody said where it lies")
            text = said("{part} is off{place}{since}.", part=part.name, place=place, since=_when(part.off_at))
            yield Line(part.name, text, photos_of(job, part.name))


def _connections_apart(job: Job) -> Iterator[Line]:
    for here in job.connections.values():
        if here.apart is not None or here.unsure is not None:
            how = said("is apart") if here.apart else said("is together, not pulled or clamped")
            since = _when(here.apart or here.unsure)
            text = said("{connection} {how}{since}.", connection=here.name, how=how, since=since)
            yield Line(here.name, text, photos_of(job, here.name))


def _sets_out(job: Job) -> Iterator[Line]:
    for group in job.sets.values():
        counted = (
            ("{n} of {all} out", len(group.of_reach(Reach.EMPTY, Reach.PARKED))),
            ("{n} loosened in place", sum(1 for h in group.holes.values() if h.loose)),
            ("{n} captive points released", group.captive_open),
        )
        words = [said(form, n=n, all=group.n) for form, n in counted if n]
        if words:
            text = said("{set}: {what}.", set=group.name, what=joined(", ", words))
            yield Line(group.name, text, photos_of(job, group.name))

"""What to do next: one thing big, three small, with what to fetch and bring; never forced (practice 5.3)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import NamedTuple

from ..finding import Finding, Severity
from ..said import joined, said, standing, without_stop
from ..state.covering import is_hidden, is_ready, is_trusted, need_at
from ..state.job import Job
from .access import AccessMap, access_map
from .step import Step, open_steps
from .undo import undo_path
from .unreachable import unreachable_after

SMALL = 3
LAST = frozenset({"fill", "test", "restore"})
"""Fluids, energy and tests come after all that is put together (practice 2.4: power last)."""


@dataclass(frozen=True, slots=True)
class NextSteps:
    """One thing to do now, up to three others that could be done as well, and what waits and why."""

    big: Step | None = None
    small: tuple[Step, ...] = ()
    waiting: tuple[Step, ...] = ()


class _Rank(NamedTuple):
    """The order of practice 5.3; the smallest comes first."""

    phase: int
    not_needed_first: bool
    taken_apart_s: float
    other_zone: bool
    minutes: float
    name: str


def next_steps(job: Job, findings: Iterable[Finding] = (), *, due: Iterable[Finding] = ()) -> NextSteps:
    """Sort what is open by what should come next.

    First what `findings` (those that stand while people work) say must be mended, then what must be ready
    before the next part hides it, then the reverse of taking apart among what can be done now, then the same
    zone, then the shortest. `due` findings say what else a thing that is back still owes: locking, a second
    person. A hold point is called for when all else under its part is ready. What cannot be done yet is
    listed as waiting, with the reason.
    """
    mend = [_mending(job, f) for f in findings if f.severity is Severity.STOP]
    drawn = access_map(job)
    steps = [_held_up(job, drawn, step) for step in open_steps(job)]
    unfinished = {step.element for step in steps}
    steps += [_finishing(job, drawn, f) for f in due if f.subject not in unfinished]
    mended = {step.element for step in mend}
    ready = [step for step in steps if not step.waits_for and step.element not in mended]
    ready.sort(key=lambda step: _rank(job, step))
    first = [*dict.fromkeys(mend), *ready]
    waiting = tuple(step for step in steps if step.waits_for)
    return NextSteps(first[0] if first else None, tuple(first[1 : SMALL + 1]), waiting)


def _mending(job: Job, finding: Finding) -> Step:
    """Say what must be mended now, and by which way to get there when parts lie over it."""
    way = undo_path(job, finding.subject)
    why, minutes = (way.sentence, way.minutes) if way.parts else ("", None)
    return Step("mend", finding.subject, _whole(finding), why, minutes=minutes)


def _whole(finding: Finding) -> str:
    return joined(" ", (finding.sentence, standing(finding.to_do)))


def _finishing(job: Job, drawn: AccessMap, finding: Finding) -> Step:
    apart = job.touched.get(finding.subject)
    step = Step("finish", finding.subject, _whole(finding), taken_apart=apart and apart.time)
    return _held_up(job, drawn, step)


def _held_up(job: Job, drawn: AccessMap, step: Step) -> Step:
    """Say what must come before a step, if anything must."""
    if step.waits_for or step.kind in LAST:
        return step if step.waits_for else replace(step, waits_for=_before_the_end(job, step))
    if is_hidden(job, step.element) and step.kind != "put on":
        over = [e.part for e in job.access if e.element == step.element and is_trusted(e)]
        return replace(step, waits_for=said("{parts} lies over it", parts=", ".join(dict.fromkeys(over))))
    if step.part and step.part in job.parts and not job.parts[step.part].on:
        return replace(step, waits_for=said("{part} is not on yet", part=step.part))
    if step.kind == "call":
        hold = job.holds[step.element]
        return replace(step, waits_for=_before_part(job, drawn, hold.before, but=hold.name))
    if step.kind == "put on":
        return replace(step, waits_for=_before_part(job, drawn, step.element))
    return step


def _before_part(job: Job, drawn: AccessMap, part: str, *, but: str = "") -> str:
    """Say what a part waits for, but for one hold point."""
    under = unreachable_after(job, part, drawn=drawn)
    left = [thing.left for thing in under.shut if not thing.ready]
    owed = [without_stop(text) for text in under.owed if not (but and text.startswith(f"{but}:"))]
    return joined("; ", [*left, *owed]) if left or owed else ""


def _before_the_end(job: Job, step: Step) -> str:
    """Fluids wait for what leaks, energy for whatever is off or in, tests for energy and fluids."""
    apart = [c.name for c in job.connections.values() if c.apart is not None]
    off = [p.name for p in job.parts.values() if not p.on]
    bare = [o.name for o in job.openings.values() if o.open_since is not None]
    inside = [i.name for i in job.items.values() if i.n > 0]
    if step.kind == "fill":
        return _named("{things}: still apart or off", apart + off)
    drained = [f.name for f in job.fluids.values() if f.drained and not f.is_back]
    if step.kind == "restore":
        return _named("{things}: still apart, off, open or in", apart + off + bare + inside + drained)
    live = [i.name for i in job.isolations.values() if i.applied is not None]
    return _named(
        "{things}: still apart, off, open, in or cut off", apart + off + bare + inside + drained + live
    )


def _named(form: str, names: list[str]) -> str:
    shown = ", ".join(names[:3])
    more = said("{things} and {n} more", things=shown, n=len(names) - 3) if len(names) > 3 else shown
    return said(form, things=more) if names else ""


def _rank(job: Job, step: Step) -> _Rank:
    phase = 1 + ["fill", "restore", "test"].index(step.kind) if step.kind in LAST else 0
    apart = step.taken_apart.timestamp() if step.taken_apart else 0.0
    return _Rank(
        phase,
        not _is_needed_first(job, step.element),
        -apart,
        bool(step.zone) and step.zone != _zone_now(job),
        step.minutes or 0.0,
        step.element,
    )


def _is_needed_first(job: Job, element: str) -> bool:
    """Tell whether a part that is off would hide an element that is not ready for it."""
    return any(
        edge.element == element
        and is_trusted(edge)
        and edge.part in job.parts
        and not job.parts[edge.part].on
        and not is_ready(job, element, need_at(job.level, edge.need))
        for edge in job.access
    )


def _zone_now(job: Job) -> str | None:
    """Give the zone of what was touched last, as far as a zone was said."""
    for name, _ in sorted(job.touched.items(), key=lambda item: item[1].time, reverse=True):
        part = job.parts.get(name)
        if part and part.described and part.described.zone_name:
            return part.described.zone_name
    return None

"""The lines of each section of a handover sheet, as plain sentences about one job."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from ..checks import fluid_not_back
from ..finding import Case, Severity, are, pieces
from ..journal import AnyEntry
from ..journal.people import HandoverAccepted, HandoverOffered, WorkInterrupted
from ..label_code import printed
from ..plan.order_list import order_list
from ..plan.unreachable import set_left
from ..state.fastener_set import Act, Hole, Reach
from ..state.job import Job
from .questions import HANDOVER
from .text import severity_words
from .verdict import Verdict

OPEN_DEBTS = frozenset(
    {"hole-empty", "part-not-back-on", "tray-not-empty", "opening-left-open", "cover-left-on", "item-not-out"}
    | {"isolation-left-or-lifted-wrong", "fluid-not-back", "not-reconnected", "loosened-and-left"}
    | {"old-seal-or-consumable", "torque-missing", "lost-maybe-inside"}
)
"""Checks that on a job under way say no more than that something is still open."""
STEPS_BACK = "Go back three steps and look again."


@dataclass(frozen=True, slots=True)
class Line:
    """One line: what it is about, the sentence, photos to look at; `ticked` where there is a box to tick."""

    subject: str
    text: str
    photos: tuple[str, ...] = ()
    ticked: bool | None = None


def _when(act: Act | None) -> str:
    return f" ({act.by}, {act.time:%Y-%m-%d %H:%M})" if act else ""


def _photos(job: Job, name: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(job.photos_of.get(name, ())))[-2:]


def danger(job: Job) -> tuple[Line, ...]:
    """Give what can hurt now: energy, fluids, losses."""
    return (*_energy(job), *_fluids(job), *_losses(job))


def _energy(job: Job) -> Iterator[Line]:
    for point in job.isolations.values():
        if point.applied is not None:
            proven = "proven dead" if point.proven else "NOT proven dead"
            text = f"{point.name} is off, tag of {point.holder}, {proven}{_when(point.applied)}."
            yield Line(point.name, text, _photos(job, point.name))
        elif point.removed is not None:
            yield Line(point.name, f"{point.name} is LIVE again{_when(point.removed)}.")
        elif point.described is not None:
            yield Line(point.name, f"{point.name} is LIVE: nobody cut it off.")


def _fluids(job: Job) -> Iterator[Line]:
    """Give what the check of fluids says, at any level of the job: a drained engine is a danger in each."""
    for found in fluid_not_back.check(Case(job, at=job.now)):
        yield Line(found.subject, f"{found.sentence} {found.to_do}", _photos(job, found.subject))


def _losses(job: Job) -> Iterator[Line]:
    for loss in job.losses.values():
        if loss.closed is None:
            where = f", beside {loss.opening}" if loss.opening else ""
            given = ", written off" if loss.written_off else ""
            text = f"LOST: {loss.n} x {loss.what}{where}{given}{_when(loss.act)}. Don't turn it."
            yield Line(loss.name, text, _photos(job, loss.name))


def half_done(job: Job, entries: Iterable[AnyEntry]) -> tuple[Line, ...]:
    """Give what was left between fitted and finished, what was interrupted first."""
    calls = {e.element: e for e in entries if isinstance(e, WorkInterrupted)}
    lines = [_interrupted(job, name, act, call=calls.get(name)) for name, act in job.interrupted.items()]
    for group in job.sets.values():
        begun = [h for h in group.holes.values() if h.touched and h.reach >= Reach.PLACED]
        left = set_left(group)
        if left and begun and group.name not in job.interrupted:
            lines.append(Line(group.name, f"{left}{_when(_last_act(begun))}.", _photos(job, group.name)))
    for name, act in job.steps_started.items():
        if name not in job.steps_done:
            lines.append(Line(name, f"Step begun and not done: {name}{_when(act)}."))
    return tuple(lines)


def _last_act(holes: list[Hole]) -> Act | None:
    acts = [pull.act for h in holes for pull in h.pulls.values()] + [h.fitted for h in holes if h.fitted]
    return max(acts, default=None)


def _interrupted(job: Job, name: str, act: Act, *, call: WorkInterrupted | None) -> Line:
    level = f" at {call.level_reached}" if call and call.level_reached else ""
    why = f": {call.reason}" if call and call.reason else ""
    left = set_left(job.sets[name]) if name in job.sets else ""
    state = f" {left}." if left else ""
    return Line(
        name, f"{name} was interrupted{level}{_when(act)}{why}.{state} {STEPS_BACK}", _photos(job, name)
    )


def open_mouths(job: Job) -> tuple[Line, ...]:
    """Give what stands open, with how many of its mouths are covered."""
    return tuple(
        Line(
            o.name,
            f"{o.name} (class {o.letter}): {o.covers} of {o.mouths} mouths covered{_when(o.open_since)}.",
            _photos(job, o.name),
        )
        for o in job.openings.values()
        if o.open_since is not None
    )


def inside(job: Job) -> tuple[Line, ...]:
    """Give what was brought in and is still in, and kits that are short."""
    items = [
        Line(i.name, f"{i.n} x {i.name} in {i.opening or 'the machine'}{_when(i.act)}.")
        for i in job.items.values()
        if i.n > 0
    ]
    kits = [
        Line(name, f"Kit {name} is short: {', '.join(missing) or 'pieces not named'}{_when(act)}.")
        for name, (act, whole, missing) in job.kits.items()
        if not whole
    ]
    return (*items, *kits)


def apart(job: Job) -> tuple[Line, ...]:
    """Give what is off, out, apart or slack."""
    lines: list[Line] = []
    for part in job.parts.values():
        if not part.on:
            place = f", it lies: {part.place}" if part.place else ", nobody said where it lies"
            text = f"{part.name} is off{place}{_when(part.off_at)}."
            lines.append(Line(part.name, text, _photos(job, part.name)))
    for here in job.connections.values():
        if here.apart is not None or here.unsure is not None:
            how = "is apart" if here.apart else "is together, not pulled or clamped"
            text = f"{here.name} {how}{_when(here.apart or here.unsure)}."
            lines.append(Line(here.name, text, _photos(job, here.name)))
    for group in job.sets.values():
        out = len(group.of_reach(Reach.EMPTY, Reach.PARKED))
        loose = sum(1 for h in group.holes.values() if h.loose)
        words = [f"{out} of {group.n} out"] * bool(out) + [f"{loose} loosened in place"] * bool(loose)
        words += [f"{group.captive_open} captive points released"] * bool(group.captive_open)
        if words:
            lines.append(Line(group.name, f"{group.name}: {', '.join(words)}.", _photos(job, group.name)))
    return tuple(lines)


def trays(job: Job) -> tuple[Line, ...]:
    """Give every bag and tray that holds something, with a box for the tray walk."""
    lines = []
    for name, container in sorted(job.containers.items()):
        lots = job.ledger.lots(name)
        if lots and container.kind != "place":
            what = ", ".join(
                f"{n} x {lot.type or 'piece'} ({lot.set or 'no set'})" for lot, n in sorted(lots.items())
            )
            place = f", lies: {container.place}" if container.place else ""
            seen = container.scanned is not None and container.unseen_at_handover is None
            lines.append(Line(name, f"{printed(name)}: {what}{place}.", _photos(job, name), ticked=seen))
    return tuple(lines)


def renewals(job: Job) -> tuple[Line, ...]:
    """Give what must be new and is not there yet."""
    return tuple(Line(o.what, f"{o.n} x {o.what} for {o.element}: {o.why}.") for o in order_list(job))


def findings_and_decisions(job: Job, verdict: Verdict, shown: Collection[str]) -> tuple[Line, ...]:
    """Give the findings, worst first, then every decision with its reason and limit.

    A finding that only says again what a section before says (`shown`: the subjects there) is left out.
    """
    found = [
        Line(f.subject, f"{severity_words(f)}: {f.sentence}", f.evidence.photos)
        for f in verdict.findings
        if not (f.severity is Severity.STOP and f.check in OPEN_DEBTS and f.subject in shown)
    ]
    for (check, subject), (act, word) in job.decisions.items():
        limit = f", until {word.limit:%Y-%m-%d}" if word.limit else ""
        barrier = f", {word.barrier}" if word.barrier else ""
        reason = f": {word.reason}" if word.reason else ""
        said_of = f"{printed(subject)}, {check.replace('-', ' ')}, {word.decision}"
        found.append(Line(subject, f"Decided by {act.by}: {said_of}{limit}{barrier}{reason}."))
    return tuple(found)


def said(offer: HandoverOffered | None) -> tuple[Line, ...]:
    """Give the giver's three answers, or say that they were not given."""
    answers = {
        "half-done": offer.half_done if offer else None,
        "dangerous": offer.dangerous if offer else None,
        "not-listed": offer.not_listed if offer else None,
    }
    lines = [Line(about, f"{question} {answers[about] or 'NOT ANSWERED.'}") for about, question in HANDOVER]
    note = offer.voice_note if offer else None
    return (*lines, *([Line("voice note", f"Voice note: {note}")] if note else []))


def signatures(job: Job, offer: HandoverOffered | None, taken: HandoverAccepted | None) -> tuple[Line, ...]:
    """Give who handed over and who took over, which trays were seen and what is disputed."""
    given = Line(
        "given", f"Given: {offer.by}, {offer.at:%Y-%m-%d %H:%M %Z}." if offer else "Given: ................"
    )
    if taken is None:
        return given, Line("taken", "Taken, trays seen: ................")
    missing = sorted(printed(name) for name, c in job.containers.items() if c.unseen_at_handover is not None)
    seen = len(taken.containers)
    short = f", missing {', '.join(missing)}" if missing else ""
    text = (
        f"Taken: {taken.by}, {taken.at:%Y-%m-%d %H:%M %Z}, trays seen {seen} of {seen + len(missing)}{short}."
    )
    disputed = len(taken.disputed)
    lines = [given, Line("taken", text)]
    if disputed:
        names = ", ".join(printed(name) for name in taken.disputed)
        lines.append(Line("disputed", f"{pieces(disputed, 'point')} {are(disputed)} disputed: {names}."))
    return tuple(lines)

"""The lines of a handover sheet about bags, orders, findings, what was said, and who gave and took over."""

from __future__ import annotations

from collections.abc import Collection

from ..finding import Severity, are, pieces
from ..journal import AnyEntry
from ..journal.checking import FindingDecided
from ..journal.people import HandoverAccepted, HandoverOffered
from ..label_code import printed
from ..plan.order_list import order_list
from ..said import joined, said, standing
from ..state.fastener_set import Act
from ..state.job import Job
from ..state.ledger import Lot
from .handover_lines import Line, photos_of
from .questions import HANDOVER
from .text import severity_words
from .verdict import Verdict

OPEN_DEBTS = frozenset(
    {"hole-empty", "part-not-back-on", "tray-not-empty", "opening-left-open", "cover-left-on", "item-not-out"}
    | {"isolation-left-or-lifted-wrong", "fluid-not-back", "not-reconnected", "loosened-and-left"}
    | {"old-seal-or-consumable", "torque-missing", "lost-maybe-inside"}
)
"""Checks that on a job under way say no more than that something is still open."""


def trays(job: Job) -> tuple[Line, ...]:
    """Give every bag and tray that holds something, with a box for the tray walk."""
    lines = []
    for name, container in sorted(job.containers.items()):
        lots = job.ledger.lots(name)
        if lots and container.kind != "place":
            what = joined(", ", [_lot(n, lot) for lot, n in sorted(lots.items())])
            place = said(", lies: {place}", place=container.place) if container.place else ""
            seen = container.scanned is not None and container.unseen_at_handover is None
            text = said("{bag}: {what}{place}.", bag=printed(name), what=what, place=place)
            lines.append(Line(name, text, photos_of(job, name), ticked=seen))
    return tuple(lines)


def _lot(n: int, lot: Lot) -> str:
    return said("{n} x {type} ({set})", n=n, type=lot.type or said("piece"), set=lot.set or said("no set"))


def renewals(job: Job) -> tuple[Line, ...]:
    """Give what must be new and is not there yet."""
    form = "{n} x {what} for {element}: {why}."
    return tuple(
        Line(o.what, said(form, n=o.n, what=o.what, element=o.element, why=o.why)) for o in order_list(job)
    )


def findings_and_decisions(job: Job, verdict: Verdict, shown: Collection[str]) -> tuple[Line, ...]:
    """Give the findings, worst first, then every decision with its reason and limit.

    A finding that only says again what a section before says (`shown`: the subjects there) is left out.
    """
    found = [
        Line(
            f.subject,
            said("{grade}: {sentence}", grade=said(severity_words(f)), sentence=standing(f.sentence)),
            f.evidence.photos,
        )
        for f in verdict.findings
        if not (f.severity is Severity.STOP and f.check in OPEN_DEBTS and f.subject in shown)
    ]
    found += [_decided(check, subject, *decided) for (check, subject), decided in job.decisions.items()]
    return tuple(found)


def _decided(check: str, subject: str, act: Act, word: FindingDecided) -> Line:
    text = said(
        "Decided by {who}: {subject}, {check}, {word}{limit}{barrier}{reason}.",
        who=act.by,
        subject=printed(subject),
        check=said(check.replace("-", " ")),
        word=said(word.decision),
        limit=said(", until {day}", day=f"{word.limit:%Y-%m-%d}") if word.limit else "",
        barrier=said(", {barrier}", barrier=word.barrier) if word.barrier else "",
        reason=said(": {reason}", reason=word.reason) if word.reason else "",
    )
    return Line(subject, text)


def answers(offer: HandoverOffered | None) -> tuple[Line, ...]:
    """Give the giver's three answers, or say that they were not given."""
    given = {
        "half-done": offer.half_done if offer else None,
        "dangerous": offer.dangerous if offer else None,
        "not-listed": offer.not_listed if offer else None,
    }
    lines = [
        Line(about, joined(" ", [said(question), given[about] or said("NOT ANSWERED.")]))
        for about, question in HANDOVER
    ]
    note = offer.voice_note if offer else None
    return (*lines, *([Line("voice note", said("Voice note: {note}", note=note))] if note else []))


def signatures(job: Job, offer: HandoverOffered | None, taken: HandoverAccepted | None) -> tuple[Line, ...]:
    """Give who handed over and who took over, which trays were seen and what is disputed."""
    by = (
        said("Given: {who}, {when}.", who=offer.by, when=_moment(offer))
        if offer
        else said("Given: ................")
    )
    given = Line("given", by)
    if taken is None:
        return given, Line("taken", said("Taken, trays seen: ................"))
    missing = sorted(printed(name) for name, c in job.containers.items() if c.unseen_at_handover is not None)
    text = said(
        "Taken: {who}, {when}, trays seen {seen} of {all}{short}.",
        who=taken.by,
        when=_moment(taken),
        seen=len(taken.containers),
        all=len(taken.containers) + len(missing),
        short=said(", missing {bags}", bags=", ".join(missing)) if missing else "",
    )
    lines = [given, Line("taken", text)]
    if taken.disputed:
        disputed = len(taken.disputed)
        form = "{points} {are} disputed: {names}."
        names = ", ".join(printed(name) for name in taken.disputed)
        lines.append(
            Line(
                "disputed",
                said(form, points=pieces(disputed, "point"), are=are(disputed), names=names),
            )
        )
    return tuple(lines)


def _moment(entry: AnyEntry) -> str:
    return f"{entry.at:%Y-%m-%d %H:%M %Z}"

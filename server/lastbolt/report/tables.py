"""Findings, torques and renewals of a job as plain tables, for whoever reckons with them elsewhere."""

from __future__ import annotations

from collections.abc import Callable

from ..finding import worst_first
from ..journal.machine import RenewalFitted
from ..label_code import printed
from ..state.readiness import valid_pulls
from .auditor import value_words
from .release_groups import asked, seconds
from .release_source import Source
from .text import severity_words
from .torque_asked import source_words

Rows = list[list[str]]
"""The first row holds the heads."""


def findings(source: Source) -> Rows:
    """Give what stands on the list, then every decision."""
    rows = [["what", "check", "subject", "severity", "sentence", "to do", "by", "limit", "barrier", "second"]]
    for f in worst_first(source.verdict.findings):
        rows.append(
            ["finding", f.check, printed(f.subject), severity_words(f), f.sentence, f.to_do, "", "", "", ""]
        )
    for act, word in source.job.decisions.values():
        limit = word.limit.isoformat() if word.limit else ""
        said = [word.reason or "", "", act.by, limit, word.barrier or "", word.second or ""]
        rows.append(["decision", word.check, printed(word.subject), word.decision, *said])
    return rows


def torques(source: Source) -> Rows:
    """Give every stage that stands pulled, hole by hole; sets with a value and no pull have a row too."""
    heads = [
        "set",
        "hole",
        "stage",
        "pulled",
        "N·m",
        "wrench",
        "wrench due",
        "by",
        "at",
        "asked",
        "source",
        "looked",
    ]
    rows = [heads]
    for group in source.job.sets.values():
        if not group.has_value:
            continue
        page = source_words(group.spec) if group.spec else ""
        tail = [asked(group), page, seconds(source.job, group).strip("-")]
        pulls = valid_pulls(group)
        for hole, stage, pull in pulls:
            e, wrench = pull.entry, source.job.wrenches.get(pull.entry.wrench or "")
            due = wrench.due.isoformat() if wrench and wrench.due else ""
            nm = f"{e.value_nm:g}" if e.value_nm is not None else ""
            pulled = [value_words(e), nm, e.wrench or "", due, pull.act.by, pull.act.time.isoformat()]
            rows.append([group.name, str(hole.number), str(stage), *pulled, *tail])
        if not pulls:
            rows.append([group.name, "", "", "not pulled", "", "", "", "", "", *tail])
    return rows


def renewals(source: Source) -> Rows:
    """Give what had to be new: how many were needed, seen off and fitted, with part and lot numbers."""
    rows = [["renewal", "needed", "old seen off", "fitted", "part number", "lot", "by", "at"]]
    for renewal in source.job.renewals.values():
        fits = [
            h
            for h in source.happened
            if isinstance(h.entry, RenewalFitted) and h.entry.renewal == renewal.name
        ]
        needed = str(renewal.needed.n) if renewal.needed else ""
        start = [renewal.name, needed, str(renewal.seen_off)]
        for h in fits:
            e = h.entry
            assert isinstance(e, RenewalFitted)
            rows.append([*start, str(e.n), e.part_number or "", e.lot or "", e.by, h.time.isoformat()])
        if not fits:
            rows.append([*start, "0", "", "", "", ""])
    return rows


TABLES: dict[str, Callable[[Source], Rows]] = {
    "findings": findings,
    "torques": torques,
    "renewals": renewals,
}
"""What can be had as a table, by its name."""

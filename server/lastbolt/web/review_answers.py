"""What stands at the end of a review, from what is known of a job; pure."""

from __future__ import annotations

from collections.abc import Sequence

from ..actions.verify import View
from ..report.coverage import SetCoverage, coverage
from ..report.decisions import Weighed, weighed
from ..report.questions import NOT_LISTED
from ..report.text import LIMITS
from . import review_wire as wire


def review_end(view: View) -> wire.ReviewEnd:
    """Put together coverage, decisions, what was not checked and what to ask."""
    return wire.ReviewEnd(
        coverage=_coverage(coverage(view.job)),
        decisions=[_decision(each) for each in weighed(view.job, view.verdict)],
        not_checked=sorted(view.verdict.not_checked),
        question=NOT_LISTED,
        nothing_else_apart=view.job.nothing_else_apart,
        limits=list(LIMITS),
    )


def _decision(each: Weighed) -> wire.ReviewDecision:
    word = each.word
    return wire.ReviewDecision(
        check=word.check,
        subject=word.subject,
        decision=word.decision,
        reason=word.reason,
        limit=word.limit,
        barrier=word.barrier,
        second=word.second,
        to=word.to,
        by=word.by,
        at=each.at,
        lifts=each.lifts,
        own_work=each.on_own_work,
    )


def _coverage(sets: Sequence[SetCoverage]) -> wire.Coverage:
    wanted = [each for each in sets if each.second is not None]
    return wire.Coverage(
        sets=len(sets),
        with_all=sum(each.counted and each.photographed and each.placed for each in sets),
        torque_known=sum(each.torque_known for each in sets),
        second_wanted=len(wanted),
        second_had=sum(bool(each.second) for each in wanted),
        missing=[wire.SetCoverage(set=each.set, missing=list(each.missing)) for each in sets if each.missing],
    )

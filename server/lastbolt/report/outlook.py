"""What lies ahead of a job: time left, what to order, where to look, which values are old, what to ask."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ..journal import Happened
from ..plan.look_back import pulled_to
from ..plan.lost_and_found import offers_of
from ..plan.order_list import order_list
from ..plan.time_left import Ratio, Work, active_minutes, time_left
from ..plan.where_to_look import where_to_look
from ..state.job import Job
from .questions import questions

FIRST_LOOKS = 12
"""The lead looks at the photo pairs of the highest risk, 6 to 12, not at all of them (practice 5.5)."""


def outlook_text(
    job: Job,
    timeline: Sequence[Happened],
    others: Sequence[Job],
    ratios: Mapping[Work, Ratio] | None = None,
) -> str:
    """Write the outlook for the terminal; estimates and questions, no verdict.

    `ratios` are the shop's own of putting back to taking apart, else the starting ones (practice 8.3).
    """
    left = time_left(job, active_minutes(timeline), ratios)
    return "\n".join([f"Time left: {left.sentence}", *_lines(job, others)])


def _lines(job: Job, others: Sequence[Job]) -> Iterator[str]:
    yield from _section("To order", [_ordered(line.n, line.what, line.why) for line in order_list(job)])
    looks = where_to_look(job)[:FIRST_LOOKS]
    yield from _section("Where to look first", [f"{look.element}: {', '.join(look.why)}" for look in looks])
    found = offers_of([job, *others], job.name)
    yield from _section("May be one piece, ask before you believe it", [offer.sentence for offer in found])
    old = [group for group in job.sets.values() if group.superseded is not None]
    joints = [joint.sentence for group in old for joint in pulled_to([job, *others], group)]
    yield from _section("Pulled to a value of this job that is superseded", joints)
    yield from _section("To ask", [question.text for question in questions(job, "release")])


def _ordered(n: int, what: str, why: str) -> str:
    return f"{n} x {what} ({why})"


def _section(title: str, lines: Sequence[str]) -> Iterator[str]:
    yield f"{title}:" if lines else f"{title}: nothing."
    yield from (f"- {line}" for line in lines)

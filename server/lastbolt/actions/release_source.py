"""Load what a release record is made from: a job up to a line of its journal, with or without names."""

from __future__ import annotations

from collections.abc import Sequence

from .. import __version__
from ..journal import Line, effective, in_order
from ..report.release_source import Maker, Source
from ..report.verdict import judge
from ..state.fold import fold
from .check_set import check_set_hash
from .ports import Journal
from .verify import Bench, entries_of
from .without_names import without_names


def source_of(
    journal: Journal, bench: Bench, job: str, *, public_key: str = "", named: bool = True
) -> Source:
    """Give a job as it stands; without names, people are roles.

    Raises:
        NotFoundError: no entry names that job.
    """
    bench.state(job)
    return source_from(journal.lines(job), bench, public_key=public_key, named=named)


def source_from(lines: Sequence[Line], bench: Bench, *, public_key: str, named: bool = True) -> Source:
    """Make the source of a record from a job's lines."""
    told = list(lines)
    if not named:
        plain = without_names([line.entry for line in lines])
        told = [
            Line(line.job, line.position, line.received, line.prev, line.hash, raw)
            for line, raw in zip(lines, plain, strict=True)
        ]
    happened = in_order(entries_of(told))
    counting = effective(happened)
    name = lines[0].job
    state = fold(counting, name)
    verdict = judge(state, bench.related(name))
    return Source(state, verdict, lines, happened, counting, Maker(__version__, check_set_hash(), public_key))

"""The release record as plain records: the sixteen sections of practice 6.2, and the customer's."""

from __future__ import annotations

from .release_groups import group_tables
from .release_proof import clocks_and_custody, corrections, duties, limits, photos, pictures, proof
from .release_source import Source, moment
from .release_work import (
    checks_run,
    energy,
    mouths,
    people,
    result,
    scope,
    settings,
    statement,
    tests,
)
from .sheet import Block, Sheet

CUSTOMERS = frozenset({1, 2, 3, 4, 8, 10, 14})
MOST_FOR_CUSTOMER = 12


def release_record(source: Source, *, customer: bool = False) -> Sheet:
    """Write a job's release record from its journal up to a line: the same input gives the same record.

    For a customer it holds sections 1 to 4, 8, 10, 14 and photo pairs; the source must be without names.
    """
    blocks = [
        people(source),
        scope(source),
        statement(source),
        result(source),
        checks_run(source),
        Block(6, "Fastener groups", tables=group_tables(source), nothing="No group was touched."),
        mouths(source),
        energy(source),
        settings(source),
        tests(source),
        photos(source),
        corrections(source),
        clocks_and_custody(source),
        duties(source),
        limits(source),
        proof(source),
    ]
    if customer:
        chosen = tuple(pictures(source, source.hashes()))[:MOST_FOR_CUSTOMER]
        blocks = [block for block in blocks if block.number in CUSTOMERS]
        blocks.append(Block(11, "Photos", pictures=chosen, nothing="No pair of photos was taken."))
        blocks.append(limits(source))
        blocks.sort(key=lambda block: block.number)
    return Sheet(heading(source), _under(source, customer=customer), tuple(blocks))


def heading(source: Source) -> str:
    """Say how the job stands; never more than that nothing is on the list."""
    job, found = source.job, source.verdict.findings
    if job.released is None:
        return "Release record: NOT RELEASED"
    if job.changed_after_release is not None:
        return "Release record: NO LONGER STANDS, work was done after it"
    decided = len(job.decisions)
    not_run = len(source.verdict.not_checked)
    return f"Released with {len(found)} open, {decided} decisions, {not_run} checks not run"


def _under(source: Source, *, customer: bool) -> tuple[str, ...]:
    job = source.job
    title = job.opened.title if job.opened else ""
    said = (
        f"{job.machine}: {job.name} {title}".strip(),
        f"{len(source.lines)} entries up to {moment(job.now)}." if job.now else "",
        "Customer's version: names of people are left out." if customer else "",
    )
    return tuple(text for text in said if text)

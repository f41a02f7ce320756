"""Section 6 of a release record: each fastener group, what was asked, done, and how it is known."""

from __future__ import annotations

from collections.abc import Iterator

from ..journal.fasteners import FastenersFitted, FastenersMoved, FastenersRemoved
from ..state.fastener_set import FastenerSet, was_touched
from ..state.job import Job
from ..state.ledger import SCRAP, account_named
from ..state.readiness import final_pulls
from ..state.second_look import is_set_seen
from .release_source import Source, joined, moment
from .sheet import Table, table
from .torque_asked import source_words, stage_ends

GRADES = ("no record", "tapped", "photo or scan", "seen by a second person")
HEADS = (
    "Group",
    "Type",
    "Off, in, new, scrap",
    "Asked, source",
    "Pulled",
    "Locking",
    "Second person",
    "Known by",
)
WIDTHS = (16, 13, 9, 19, 19, 8, 9, 7)


def group_tables(source: Source) -> tuple[Table, ...]:
    """Give the table of the groups that were touched."""
    job = source.job
    counts = {name: tuple(_counted(source, name)) for name in job.sets}
    rows = [
        (
            f"{group.name}, {group.n}{', critical' if group.critical else ''}",
            _types(group),
            ", ".join(str(n) for n in counts[group.name]),
            asked(group),
            pulled(job, group),
            joined(f"{n} x {kind}" for _, kind, n, _ in group.locking),
            seconds(job, group),
            GRADES[grade(job, group)],
        )
        for group in job.sets.values()
        if was_touched(group) or group.captive_open
    ]
    return table(HEADS, rows, WIDTHS)


def _types(group: FastenerSet) -> str:
    described = group.described
    if described is None:
        return "not known"
    if described.types:
        kinds: dict[str, int] = {}
        for kind in described.types.values():
            kinds[str(kind)] = kinds.get(str(kind), 0) + 1
        return joined(f"{n} x {kind}".replace("/", " ") for kind, n in kinds.items())
    return str(described.type).replace("/", " ") if described.type else "not known"


def _counted(source: Source, name: str) -> Iterator[int]:
    """Give how many came off, went in, of those new, and were scrapped."""
    fitted = [e for e in source.of(FastenersFitted) if e.set == name]
    yield sum(_n(e.n, e.holes) for e in source.of(FastenersRemoved) if e.set == name)
    yield sum(_n(e.n, e.holes) for e in fitted)
    yield sum(_n(e.n, e.holes) for e in fitted if e.new)
    moved = (e for e in source.of(FastenersMoved) if e.set == name)
    yield sum(e.n for e in moved if account_named(e.to) == SCRAP)


def _n(n: int | None, holes: tuple[int, ...]) -> int:
    return n if n is not None else len(holes)


def asked(group: FastenerSet) -> str:
    """Say what is asked of a group and from which page."""
    spec = group.spec
    if spec is None:
        return "no value entered"
    if spec.hand_tight:
        return "hand tight by design"
    stages = joined((_stage(group, number) for number in range(1, group.stage_count + 1)), none="angle")
    newer = f"; superseded by {group.superseded.by_source}" if group.superseded else ""
    return f"{stages}; {source_words(spec)}{newer}"


def _stage(group: FastenerSet, number: int) -> str:
    low, high = stage_ends(group, number)
    ends = [end for end in (low, high) if end is not None]
    said = "-".join(f"{end:g}" for end in dict.fromkeys(ends))
    row = group.spec.stages[number - 1] if group.spec and number <= len(group.spec.stages) else None
    angle = (
        row.angle_deg if row else group.spec.angle_deg if group.spec and number == group.stage_count else None
    )
    return joined((f"{said} N·m" if said else "", f"{angle:g}°" if angle else ""), none="")


def pulled(job: Job, group: FastenerSet) -> str:
    """Say what stands pulled on the last stage: value, wrench, until when it is calibrated, by whom."""
    if not group.has_value:
        return "-"
    found: dict[str, list[int]] = {}
    for hole, pull in final_pulls(group):
        e = pull.entry
        value = e.as_written or (f"{e.value_nm:g} N·m" if e.value_nm is not None else "")
        angle = f"{e.angle_deg:g}°" if e.angle_deg is not None else ""
        wrench = job.wrenches.get(e.wrench or "")
        due = f" (due {wrench.due:%Y-%m-%d})" if wrench and wrench.due else ""
        by = f"{e.wrench}{due}" if e.wrench else "no wrench named"
        said = f"{joined((value, angle), none='no value')} with {by}, {pull.act.by}, {moment(pull.act.time)}"
        found.setdefault(said, []).append(hole.number)
    return joined((f"{said}: {len(holes)} of {group.n}" for said, holes in found.items()), none="not pulled")


def seconds(job: Job, group: FastenerSet) -> str:
    """Name who looked at it, and how."""
    looks = job.second_checks.get(group.name, [])
    return joined(f"{act.by} ({how.replace('-', ' ')}, {result})" for act, how, result in looks)


def grade(job: Job, group: FastenerSet) -> int:
    """Grade how it is known (practice 3.3): 0 none, 1 tapped, 2 photo or scan, 3 a second person."""
    if is_set_seen(job, group):
        return 3
    return 2 if job.photos_of.get(group.name) else int(was_touched(group))

"""Sections 1 to 5 and 7 to 10 of a release record: people, result, checks, mouths, energy, tests."""

from __future__ import annotations

from collections.abc import Iterator

from .. import checks
from ..journal.checking import ReleaseAsked, ReleaseSigned, TestRun
from ..journal.fasteners import LockingFitted
from ..journal.machine import (
    CompoundApplied,
    FluidFilled,
    IsolationApplied,
    IsolationProven,
    ItemBroughtIn,
    ItemTakenOut,
    RenewalFitted,
)
from ..journal.people import LicenceRecorded
from ..state.job import Job
from .applicable import not_applicable
from .decisions import weighed
from .release_source import Source, joined, moment, who_when
from .sheet import Block, Table, lines_of, table
from .text import severity_words

LEVELS = {1: "1, bags", 2: "2, clean machine", 3: "3, signed work"}


def people(source: Source) -> Block:
    """Section 1: machine, job, dates, people with roles and licences."""
    job, opened = source.job, source.job.opened
    first = job.first_work.time if job.first_work else None
    facts = [
        ("Machine", job.machine or "not named"),
        ("Job", job.name),
        ("Work", opened.title if opened else ""),
        ("Customer's reference", (opened.customer_reference if opened else None) or ""),
        ("Licensed work", joined(opened.licensed if opened else (), none="none named")),
        ("Hours or km", _meter(source)),
        ("Opened", moment(opened.at if opened else None)),
        ("Work from, last entry", f"{moment(first) or '-'}, {moment(job.now)}"),
    ]
    doing = sorted({h.entry.by for h in source.happened} | set(job.people))
    rows = [
        (name, joined(job.people.get(name, ()), none="no role recorded"), _licences(source, name))
        for name in doing
    ]
    return Block(
        1,
        "Machine, job and people",
        tables=(
            *table(("", ""), [f for f in facts if f[1]], (22, 78)),
            *table(("Who", "Roles", "Licences"), rows, (26, 26, 48)),
        ),
    )


def _meter(source: Source) -> str:
    """Say what the machine's meter showed when it came in and when release was asked for last."""
    opened = source.job.opened
    asked = [h.entry.meter for h in source.happened if isinstance(h.entry, ReleaseAsked) and h.entry.meter]
    read = [
        ("at the start", opened.meter if opened else None),
        ("at the release", asked[-1] if asked else None),
    ]
    return "; ".join(f"{said} {when}" for when, said in read if said) or "nobody wrote the meter down"


def _licences(source: Source, name: str) -> str:
    return joined(
        f"{e.licence}{f' no. {e.number}' if e.number else ''}{f' until {e.until}' if e.until else ''}"
        for e in source.of(LicenceRecorded)
        if e.person == name
    )


def scope(source: Source) -> Block:
    """Section 2: what was done, in words, and at which level it was recorded."""
    job, asked = source.job, source.last(ReleaseAsked)
    steps = joined(job.steps_done, none="")
    begun = joined((name for name in job.steps_started if name not in job.steps_done), none="")
    touched = sorted(job.touched)
    return Block(
        2,
        "Scope",
        lines_of(
            f"Level of recording: {LEVELS.get(job.level, str(job.level))}.",
            f"Asked to be released: {asked.scope}." if asked and asked.scope else "",
            f"Steps done: {steps}." if steps else "",
            f"Steps begun and not marked done: {begun}." if begun else "",
            f"Worked on ({len(touched)}): {', '.join(touched)}."
            if touched
            else "No work on the machine was recorded.",
        ),
    )


def statement(source: Source) -> Block:
    """Section 3: what was stated and signed, by whom, over which head."""
    signed, job = source.last(ReleaseSigned), source.job
    if signed is None or job.released is None:
        return Block(3, "Statement and signature", nothing="NOT RELEASED: nobody has signed.")
    second = signed.second or ""
    told = "The one who signed had hands on the work; one-person shop: a later look by the same person."
    return Block(
        3,
        "Statement and signature",
        lines_of(
            f"“{signed.statement}”" if signed.statement else "No statement was written.",
            f"Signed by {signed.by}, {moment(job.released.time)}.",
            f"Second name: {second}." if second else "",
            told if signed.one_person else "",
            f"Over the head {signed.head}." if signed.head else "",
            _answer(source),
        ),
    )


def _answer(source: Source) -> str:
    answer = source.job.nothing_else_apart
    said = {True: "no", False: "yes", None: "not answered"}[answer]
    return f"Anything apart, opened, drained or brought in that is not on the list? Answered: {said}."


def result(source: Source) -> Block:
    """Section 4: what stands open, and every decision and deferral in full."""
    found = source.verdict.findings
    open_ones = [f"{severity_words(f)}: {f.sentence} ({f.check})" for f in found]
    words = weighed(source.job, source.verdict)
    counts = {
        level: sum(1 for f in found if f.severity.value == level) for level in ("stop", "decide", "note")
    }
    said = f"On the list: {counts['stop']} that stop, {counts['decide']} that need a word, "
    said += f"{counts['note']} notes"
    deferred = sum(1 for each in words if each.lifts and each.word.decision == "defer")
    said += f". Decisions: {len(words)}, of them {deferred} deferred."
    return Block(4, "Result", lines_of(said, *open_ones, *(each.sentence for each in words)))


def checks_run(source: Source) -> Block:
    """Section 5: which checks ran, which had nothing to look at, which did not run at this level."""
    missed = set(source.verdict.not_checked)
    idle = not_applicable(source.job) - missed
    ran = [checks.name_of(c) for c in checks.ALL if checks.name_of(c) not in missed | idle]
    return Block(
        5,
        "Checks",
        lines_of(
            f"Run ({len(ran)}): {', '.join(ran)}.",
            f"Run, with nothing of that kind recorded ({len(idle)}): {joined(sorted(idle))}." if idle else "",
            f"NOT RUN at this level ({len(missed)}): {joined(sorted(missed))}."
            if missed
            else "None was left out at this level.",
        ),
    )


def mouths(source: Source) -> Block:
    """Section 7: openings, covers, what was brought in and taken out, kits."""
    job = source.job
    rows = [
        (
            f"{o.name}, class {o.letter}, {o.mouths}",
            f"{o.covers} on" if o.covers else "off" if o.cover_act or o.uncovered else "-",
            who_when(o.looked),
            "OPEN" if o.open_since else who_when(o.closed),
        )
        for o in job.openings.values()
        if o.open_since or o.closed or o.cover_act
    ]
    return Block(
        7,
        "Openings, covers, items and kits",
        tables=(
            *table(("Opening, class, mouths", "Covers", "Looked inside", "Shut"), rows, (28, 14, 29, 29)),
            *_items(source),
            *_kits(job),
        ),
    )


def _items(source: Source) -> tuple[Table, ...]:
    rows = []
    for (name, opening), item in source.job.items.items():
        into = sum(e.n for e in source.of(ItemBroughtIn) if (e.item, e.opening) == (name, opening))
        out = sum(e.n for e in source.of(ItemTakenOut) if (e.item, e.opening) == (name, opening))
        rows.append(
            (
                name,
                opening or "the machine",
                str(into),
                str(out),
                "in = out" if item.n == 0 else f"{item.n} IN",
            )
        )
    return table(("Item", "In", "Brought in", "Taken out", "Balance"), rows, (28, 28, 14, 14, 16))


def _kits(job: Job) -> tuple[Table, ...]:
    rows = [
        (name, "whole" if whole else f"SHORT: {joined(missing, none='pieces not named')}", who_when(act))
        for name, (act, whole, missing) in job.kits.items()
    ]
    return table(("Kit", "Last count", "Who, when"), rows, (30, 40, 30))


def energy(source: Source) -> Block:
    """Section 8: isolation, fluids, renewals and compounds with part and lot numbers."""
    job = source.job
    proven = {e.isolation: joined((e.how or "", e.value or ""), none="") for e in source.of(IsolationProven)}
    points = [
        (
            p.name,
            _cut_off(source, p.name),
            proven.get(p.name) or "-",
            "TAG STILL ON" if p.applied else who_when(p.removed),
        )
        for p in job.isolations.values()
        if p.applied or p.removed
    ]
    fluids = [
        (f.name, f"{f.drained_l:g} l", f"{f.filled_l:g} l", _fills(source, f.name), who_when(f.checked))
        for f in job.fluids.values()
        if f.drained or f.filled
    ]
    return Block(
        8,
        "Isolation, fluids, renewals",
        tables=(
            *table(("Isolation", "Cut off", "Proven", "Back"), points, (22, 28, 22, 28)),
            *table(("Fluid", "Out", "In", "Grade, lot", "Level looked at"), fluids, (24, 10, 10, 28, 28)),
            *table(
                ("Renewed or put on", "How many", "Part number, lot", "Who, when"),
                list(_new(source)),
                (34, 12, 26, 28),
            ),
        ),
    )


def _cut_off(source: Source, name: str) -> str:
    acts = [h for h in source.happened if isinstance(h.entry, IsolationApplied) and h.entry.isolation == name]
    return f"{acts[-1].entry.by}, {moment(acts[-1].time)}" if acts else "-"


def _fills(source: Source, fluid: str) -> str:
    fills = [e for e in source.of(FluidFilled) if e.fluid == fluid]
    return joined(
        dict.fromkeys(joined((e.grade or "", f"lot {e.lot}" if e.lot else ""), none="") for e in fills)
    )


def _new(source: Source) -> Iterator[tuple[str, str, str, str]]:
    for h in source.happened:
        e = h.entry
        when = f"{e.by}, {moment(h.time)}"
        if isinstance(e, RenewalFitted):
            numbers = joined((e.part_number or "", f"lot {e.lot}" if e.lot else ""))
            yield e.renewal, str(e.n), numbers, when
        elif isinstance(e, CompoundApplied):
            yield f"{e.product} on {e.element}", "-", "-", when
        elif isinstance(e, LockingFitted):
            yield f"{e.locking.replace('-', ' ')} on {e.set}", str(e.n), "-", when


def settings(source: Source) -> Block:
    """Section 9: settings as found and as left."""
    rows = []
    for s in source.job.settings.values():
        unit = f" {s.described.unit}" if s.described and s.described.unit else ""
        found = f"{s.found[1]:g}{unit} ({who_when(s.found[0])})" if s.found else "not recorded"
        left = f"{s.left[1]:g}{unit} ({who_when(s.left[0])})" if s.left else "not recorded"
        rows.append((s.name, found, left, s.manual_page or "-"))
    return Block(
        9,
        "Settings",
        tables=table(("Setting", "As found", "As left", "Maker's page"), rows, (24, 31, 31, 14)),
    )


def tests(source: Source) -> Block:
    """Section 10: function tests with their values."""
    rows = [
        (
            h.entry.test,
            "passed" if h.entry.passed else "FAILED",
            joined(f"{name} {value}" for name, value in h.entry.values.items()),
            f"{h.entry.by}, {moment(h.time)}",
        )
        for h in source.happened
        if isinstance(h.entry, TestRun)
    ]
    never = [t.name for t in source.job.tests.values() if t.run is None]
    said = f"Described and never run: {', '.join(never)}." if never else ""
    return Block(
        10, "Tests", lines_of(said), table(("Test", "Result", "Values", "Who, when"), rows, (28, 12, 32, 28))
    )

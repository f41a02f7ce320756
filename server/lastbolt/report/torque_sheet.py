"""The torque sheet of a job: for each set with a value what is asked, what was pulled, and what is open."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from ..journal import AnyEntry
from ..journal.specification import SpecEntered
from ..state.fastener_set import FastenerSet
from ..state.job import Job
from ..torque.assembly import ESTIMATE_MARK
from ..torque.sequence import SUGGESTION_MARK
from ..torque.specification import SOURCE_REMINDER, Specification, TorqueWindow, window_with_drag
from .torque_asked import doubts, exact_words, plausibility, source_words, specification_of
from .torque_pattern import Drawing, draw_set, pinned_pattern
from .torque_pulled import HoleRow, hole_rows
from .torque_wrenches import WrenchSuit, suiting_wrenches

CAUTIONS = (SOURCE_REMINDER, ESTIMATE_MARK, SUGGESTION_MARK)
"""What every torque sheet says, on screen and on paper."""


@dataclass(frozen=True, slots=True)
class StageAsked:
    """One stage: torque in N·m, drag added, and angle in degrees where entered; the best wrench first.

    `holes` is empty where the stage is for all.
    """

    stage: int
    low_nm: float | None
    high_nm: float | None
    angle_deg: float | None
    holes: tuple[int, ...]
    wrenches: tuple[WrenchSuit, ...]


@dataclass(frozen=True, slots=True)
class SetRow:
    """One fastener set with a value.

    `as_written` is the value as printed, `exact` the same in exact N·m. `plausibility` is always an estimate;
    where it is odd it stands among the `warnings` too. Nothing here is ever filled into the record.
    """

    set: str
    part: str
    kind: str
    as_written: str
    exact: str
    stages: tuple[StageAsked, ...]
    drag_nm: float
    condition: str
    source: str
    typed_by: str
    checked_by: tuple[str, ...]
    superseded_by: str
    plausibility: str
    warnings: tuple[str, ...]
    drawing: Drawing | None
    holes: tuple[HoleRow, ...]

    @property
    def open_holes(self) -> tuple[int, ...]:
        """Holes that still owe a stage."""
        return tuple(row.hole for row in self.holes if row.state == "open")

    @property
    def is_untouched(self) -> bool:
        """Whether no hole of the set was touched in this job."""
        return all(row.state == "untouched" for row in self.holes)


@dataclass(frozen=True, slots=True)
class TorqueSheet:
    """All sets of a job with a value, those with open holes first; wrenches are judged for the day `on`.

    `without_value` names the sets that were touched and have neither a value nor "hand tight by design".
    """

    job: str
    machine: str
    on: date | None
    rows: tuple[SetRow, ...]
    without_value: tuple[str, ...]
    cautions: tuple[str, ...] = CAUTIONS


def torque_sheet(job: Job, entries: Iterable[AnyEntry] = (), *, on: date | None = None) -> TorqueSheet:
    """Write the torque sheet of a folded job; its effective entries in order give the pins of its holes.

    Without a day the wrenches are judged as of the last entry.
    """
    own = list(entries)
    day = on or (job.now.date() if job.now else None)
    rows = [
        _row(job, group, group.spec, entries=own, day=day)
        for group in job.sets.values()
        if group.spec is not None and group.has_value
    ]
    missing = (
        group.name
        for group in job.sets.values()
        if group.spec is None and any(hole.touched for hole in group.holes.values())
    )
    return TorqueSheet(
        job=job.name,
        machine=job.machine,
        on=day,
        rows=tuple(sorted(rows, key=lambda row: (not row.open_holes, row.is_untouched))),
        without_value=tuple(sorted(missing)),
    )


def _row(
    job: Job, group: FastenerSet, spec: SpecEntered, *, entries: list[AnyEntry], day: date | None
) -> SetRow:
    specification = specification_of(group, spec)
    likely, is_odd = plausibility(group, specification)
    holes = hole_rows(group, specification, job.wrenches)
    pins = pinned_pattern(entries, group.name, max(specification.holes, default=0))
    described = group.described
    return SetRow(
        set=group.name,
        part=(described.part or "") if described else "",
        kind=str(described.type) if described and described.type else "",
        as_written=spec.as_written or "",
        exact=exact_words(spec),
        stages=_stages(job, group, specification, day=day),
        drag_nm=spec.prevailing_nm,
        condition=spec.condition or "",
        source=source_words(spec),
        typed_by=spec.by,
        checked_by=tuple(sorted(group.spec_checked_by)),
        superseded_by=specification.superseded_by,
        plausibility=likely,
        warnings=(*doubts(group, specification, spec), *([likely] if is_odd else [])),
        drawing=draw_set(holes, pins, order=spec.order, stage_count=group.stage_count),
        holes=holes,
    )


def _stages(
    job: Job, group: FastenerSet, specification: Specification, *, day: date | None
) -> tuple[StageAsked, ...]:
    known = {row.number: row for row in specification.stages}
    asked = []
    for number in range(1, group.stage_count + 1):
        row = known.get(number)
        window = (
            window_with_drag(row.window, specification.drag_newton_metres) if row and row.window else None
        )
        asked.append(
            StageAsked(
                stage=number,
                low_nm=window.low_newton_metres if window else None,
                high_nm=window.high_newton_metres if window else None,
                angle_deg=row.angle_degrees if row else None,
                holes=tuple(sorted(row.holes)) if row and row.holes else (),
                wrenches=_wrenches(job, window, day=day),
            )
        )
    return tuple(asked)


def _wrenches(job: Job, window: TorqueWindow | None, *, day: date | None) -> tuple[WrenchSuit, ...]:
    if window is None or day is None:
        return ()
    return suiting_wrenches(job.wrenches.values(), window, on=day)

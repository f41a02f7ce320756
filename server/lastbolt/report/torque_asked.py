"""What is asked of a fastener set: stages in N·m, where they come from, and what makes them doubtful."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from ..journal.fastener_type import FastenerType
from ..journal.specification import SpecEntered
from ..state.fastener_set import FastenerSet
from ..state.readiness import angle_wanted, range_nm
from ..torque.assembly import ESTIMATE_MARK
from ..torque.plausibility import Exemption, PlausibilityVerdict, judge_torque
from ..torque.printed import agrees
from ..torque.quantity import Quantity, WrittenTorque, parse_torque
from ..torque.specification import (
    GeneralTable,
    ManualSource,
    Origin,
    Specification,
    Stage,
    StageKind,
    TorqueWindow,
    find_mistakes,
)
from ..torque.specification_doubt import find_doubts
from ..torque.specification_plausibility import find_odd_stages
from ..torque.threads import MetricThread, coarse_thread
from ..units import Degrees, Millimetres, NewtonMetres

THREADED = frozenset({"bolt", "nut", "stud", "screw"})


def holes_of(group: FastenerSet) -> tuple[int, ...]:
    """Give the hole numbers of a set, those that were worked on though the set is said to be smaller too."""
    return tuple(sorted({*range(1, group.n + 1), *group.holes}))


def specification_of(group: FastenerSet, spec: SpecEntered) -> Specification:
    """Give a set's value as the torque room takes it; stages whose value nobody entered are left out.

    Where a newer source gave a value, the last stage asks that one; its text stays the one first printed.
    """
    return Specification(
        identity=spec.spec or spec.as_written or group.name,
        holes=holes_of(group),
        stages=tuple(_stages(group, spec)),
        origin=_origin(spec),
        drag_newton_metres=NewtonMetres(spec.prevailing_nm),
        circumstance=spec.condition or "",
        second_person=", ".join(sorted(group.spec_checked_by - {spec.by})),
        superseded_by=group.superseded.by_source if group.superseded else "",
    )


def _stages(group: FastenerSet, spec: SpecEntered) -> Iterator[Stage]:
    for number in range(1, group.stage_count + 1):
        row = spec.stages[number - 1] if number <= len(spec.stages) else None
        is_last = number == group.stage_count
        ends = stage_ends(group, number)
        angle = angle_wanted(group) if is_last else row.angle_deg if row else None
        window = window_of(*ends, text=(spec.as_written or "") if is_last else "")
        if window is None and angle is None:
            continue
        kind = (
            StageKind.TORQUE if angle is None else StageKind.TORQUE_THEN_ANGLE if window else StageKind.ANGLE
        )
        yield Stage(
            number=number,
            kind=kind,
            window=window,
            angle_degrees=None if angle is None else Degrees(angle),
            holes=frozenset(row.holes) if row and row.holes else None,
            order=spec.order if group.n and not (row and row.holes) else (),
        )


def stage_ends(group: FastenerSet, stage: int) -> tuple[float | None, float | None]:
    """Give the least and greatest torque of a stage in N·m, None where nobody entered that end."""
    if stage >= group.stage_count:
        return range_nm(group)
    rows = group.spec.stages if group.spec else ()
    return (rows[stage - 1].min_nm, rows[stage - 1].max_nm) if stage <= len(rows) else (None, None)


def window_of(low: float | None, high: float | None, *, text: str = "") -> TorqueWindow | None:
    """Give the window between two ends in N·m; with one end only, both are that one; None without any."""
    known = [end for end in (low, high) if end is not None]
    return TorqueWindow(NewtonMetres(known[0]), NewtonMetres(known[-1]), text) if known else None


def _origin(spec: SpecEntered) -> Origin:
    if spec.general_table:
        return GeneralTable(spec.source or "not named", spec.by)
    if not spec.source and not spec.page:
        return None
    return ManualSource(spec.source or "", spec.revision or "", spec.page or "", spec.by)


def source_words(spec: SpecEntered) -> str:
    """Say where a value comes from, "no source" where nobody said."""
    parts = [
        spec.source or "",
        f"edition {spec.revision}" if spec.revision else "",
        f"page {spec.page}" if spec.page else "",
    ]
    said = ", ".join(part for part in parts if part) or "no source"
    return f"no value from the maker, general table used: {said}" if spec.general_table else said


def exact_words(spec: SpecEntered) -> str:
    """Give the printed figure in exact N·m, else the N·m of the record; empty where there is no torque.

    >>> exact_words(SpecEntered.model_construct(as_written="35 lbf ft"))
    '47.453628191599014 N·m'
    """
    written = parse_torque(spec.as_written or "")
    if isinstance(written, WrittenTorque):
        ends = [written.main.low_newton_metres, written.main.high_newton_metres]
    else:
        ends = [Decimal(str(end)) for end in (spec.min_nm, spec.max_nm) if end is not None]
    said = list(dict.fromkeys(f"{end.normalize():f}" for end in ends))
    return f"{'–'.join(said)} N·m" if said else ""


def doubts(group: FastenerSet, specification: Specification, spec: SpecEntered) -> tuple[str, ...]:
    """Say what speaks against a value: source, units, figures, the N·m of the record beside the print."""
    found = [doubt.sentence for doubt in find_doubts(specification, is_critical=group.critical)]
    return (*found, *find_mistakes(specification), *_slips_of_the_record(spec))


def _slips_of_the_record(spec: SpecEntered) -> Iterator[str]:
    if not spec.as_written:
        return
    written = parse_torque(spec.as_written)
    if not isinstance(written, WrittenTorque):
        yield f"The printed text cannot be compared with the N·m of the record. {written.reason}"
        return
    last = spec.stages[-1] if spec.stages else None
    low = spec.min_nm if spec.min_nm is not None else last.min_nm if last else None
    high = spec.max_nm if spec.max_nm is not None else last.max_nm if last else None
    if (low is None and high is None) or agrees(written.main, low, high):
        return
    held = " to ".join(dict.fromkeys(f"{end:.4g}" for end in (low, high) if end is not None))
    yield (
        f"The record holds {held} N·m, but {spec.as_written} is {_in_short(written.main)}: "
        "look at the page and enter it again."
    )


def _in_short(printed: Quantity) -> str:
    ends = dict.fromkeys(
        f"{float(end):.4g}" for end in (printed.low_newton_metres, printed.high_newton_metres)
    )
    return f"{' to '.join(ends)} N·m"


def plausibility(group: FastenerSet, specification: Specification) -> tuple[str, bool]:
    """Say whether the torques can be right for the thread, and whether that warns; always an estimate."""
    threads = dict.fromkeys(_threads(group))
    if not threads:
        return "Not judged against a thread: none that can be judged is recorded for this set.", False
    soft = bool(group.described and group.described.gasketed)
    exemptions = frozenset({Exemption.SOFT_JOINT} if soft else ())
    odd = [
        f"Stage {found.stage.number}: {found.plausibility.sentence}"
        if group.stage_count > 1
        else found.plausibility.sentence
        for thread, name in threads
        for found in find_odd_stages(specification, thread, class_name=name, exemptions=exemptions)
    ]
    if odd:
        return " ".join(odd), True
    names = ", ".join(dict.fromkeys(f"{thread.name} {name}".strip() for thread, name in threads))
    return f"Nothing odd for {names}. {ESTIMATE_MARK}", False


def _threads(group: FastenerSet) -> Iterator[tuple[MetricThread, str]]:
    """Give each thread of a set that can be judged, with its property class."""
    described = group.described
    if described is None:
        return
    for kind in (described.type, *described.types.values()):
        thread = _thread_of(kind) if kind else None
        if kind and thread and _can_be_judged(thread):
            yield thread, kind.strength_class or ""


def _thread_of(kind: FastenerType) -> MetricThread | None:
    if kind.kind not in THREADED or kind.diameter_mm is None:
        return None
    if kind.pitch_mm is None:
        return coarse_thread(kind.diameter_mm)
    return MetricThread(Millimetres(kind.diameter_mm), Millimetres(kind.pitch_mm))


def _can_be_judged(thread: MetricThread) -> bool:
    return judge_torque(NewtonMetres(1.0), thread).verdict is not PlausibilityVerdict.NOT_JUDGED

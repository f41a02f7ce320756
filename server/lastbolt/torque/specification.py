"""A torque specification as a maker gives it: stages, holes, order, condition and where it comes from."""

from dataclasses import dataclass, replace
from enum import Enum

from lastbolt.torque.quantity import WrittenTorque
from lastbolt.units import Degrees, NewtonMetres

ASSUMED_TOLERANCE_PERCENT = 5.0
"""± taken when a manual prints one figure: printed conversions alone differ that much (common practice)."""

ANGLE_TOLERANCE = Degrees(5.0)
"""± taken for an angle when the manual prints none (practice of the trade, no source)."""

NO_DRAG = NewtonMetres(0.0)

SOURCE_REMINDER = (
    "The value comes from the maker's manual for this machine. Enter the manual, its edition and the page."
)


class StageKind(Enum):
    """What one stage asks for."""

    TORQUE = "torque"
    TORQUE_THEN_ANGLE = "torque, then angle"
    ANGLE = "angle"
    RECHECK = "recheck"


class Condition(Enum):
    """How the thread must be when it is tightened."""

    NOT_SAID = "not said"
    DRY = "dry"
    OILED = "oiled"
    THREAD_LOCKER = "thread-locker"


@dataclass(frozen=True)
class TorqueWindow:
    """Lowest and highest torque of a stage in N·m, with the text as printed."""

    low_newton_metres: NewtonMetres
    high_newton_metres: NewtonMetres
    text: str = ""
    is_tolerance_assumed: bool = False

    @property
    def middle_newton_metres(self) -> NewtonMetres:
        """Half way between low and high: what to set."""
        return NewtonMetres((self.low_newton_metres + self.high_newton_metres) / 2)


@dataclass(frozen=True)
class Stage:
    """One stage for all holes or some; several rows may share a number when hole subsets differ.

    `holes` None means the whole pattern, `order` empty means any order. RECHECK is the same torque pulled
    once more. Angles are degrees turned after the torque or after the stage before.
    """

    number: int
    kind: StageKind
    window: TorqueWindow | None = None
    angle_degrees: Degrees | None = None
    angle_tolerance_degrees: Degrees = ANGLE_TOLERANCE
    holes: frozenset[int] | None = None
    order: tuple[int, ...] = ()


@dataclass(frozen=True)
class ManualSource:
    """Where the maker says it, and who typed it in."""

    manual: str
    revision: str
    page: str
    typed_by: str


@dataclass(frozen=True)
class GeneralTable:
    """No value from the maker: a general table was used; this is always a decision for the lead."""

    table: str
    typed_by: str


Origin = ManualSource | GeneralTable | None


@dataclass(frozen=True)
class Specification:
    """All that is asked of one fastener set; `drag_newton_metres` is the measured prevailing torque.

    `second_person` names who compared it with the page, `superseded_by` the id of what replaced it.
    `circumstance` is free text such as "at ride height" or "engine cold".
    """

    identity: str
    holes: tuple[int, ...]
    stages: tuple[Stage, ...]
    origin: Origin = None
    condition: Condition = Condition.NOT_SAID
    drag_newton_metres: NewtonMetres = NO_DRAG
    circumstance: str = ""
    is_new_fastener_required: bool = False
    second_person: str = ""
    superseded_by: str = ""


def window_from_torque(written: WrittenTorque, tolerance_percent: float | None = None) -> TorqueWindow:
    """The window that a written torque asks for, N·m; a single figure gets ± the tolerance given or assumed.

    >>> from lastbolt.torque.quantity import parse_torque
    >>> window_from_torque(parse_torque("22–26 N·m")).high_newton_metres
    26.0
    >>> window_from_torque(parse_torque("40 Nm")).is_tolerance_assumed
    True
    """
    main = written.main
    low, high = float(main.low_newton_metres), float(main.high_newton_metres)
    if not main.is_single:
        return TorqueWindow(NewtonMetres(low), NewtonMetres(high), written.text)
    share = (ASSUMED_TOLERANCE_PERCENT if tolerance_percent is None else tolerance_percent) / 100
    ends = NewtonMetres(low * (1 - share)), NewtonMetres(high * (1 + share))
    return TorqueWindow(*ends, written.text, tolerance_percent is None)


def window_with_drag(window: TorqueWindow, drag_newton_metres: NewtonMetres) -> TorqueWindow:
    """The window to pull when a self-locking thread already drags: drag is added to both ends, N·m.

    Castle nuts start at the lower end and never pass the upper one to line up the hole: change the washer or
    nut instead. Source: AC 43.13-1B §7-40 c–g. Valid for drag measured during run-down, head or nut turned.

    >>> window_with_drag(TorqueWindow(50.0, 70.0), 7.0).high_newton_metres
    77.0
    """
    low = NewtonMetres(window.low_newton_metres + drag_newton_metres)
    high = NewtonMetres(window.high_newton_metres + drag_newton_metres)
    return replace(window, low_newton_metres=low, high_newton_metres=high)


def holes_of_stage(specification: Specification, stage: Stage) -> frozenset[int]:
    """The holes that a stage row is for."""
    return frozenset(specification.holes) if stage.holes is None else stage.holes


def stage_for_hole(specification: Specification, number: int, *, hole: int) -> Stage | None:
    """The row with this stage number that is for this hole, or None when it asks nothing of it."""
    for stage in specification.stages:
        if stage.number == number and hole in holes_of_stage(specification, stage):
            return stage
    return None


def stage_numbers(specification: Specification, hole: int) -> tuple[int, ...]:
    """The stages that one hole goes through, in rising order; the last one is its final stage."""
    return tuple(
        sorted({row.number for row in specification.stages if hole in holes_of_stage(specification, row)})
    )


def find_mistakes(specification: Specification) -> tuple[str, ...]:
    """What cannot be meant in the specification itself, one sentence each; empty when it is well formed."""
    known = frozenset(specification.holes)
    mistakes = [] if specification.stages else ["The specification has no stage: enter at least one."]
    seen: set[tuple[int, int]] = set()
    for stage in specification.stages:
        holes = holes_of_stage(specification, stage)
        where = f"Stage {stage.number}"
        if holes - known:
            mistakes.append(f"{where} names holes that the set does not have: {_list(holes - known)}.")
        if stage.order and (len(stage.order) != len(holes) or frozenset(stage.order) != holes):
            mistakes.append(f"{where} has an order that does not name each of its holes once.")
        if twice := {hole for hole in holes if (stage.number, hole) in seen}:
            mistakes.append(f"{where} stands twice for hole {_list(frozenset(twice))}.")
        seen |= {(stage.number, hole) for hole in holes}
        mistakes.extend(_value_mistakes(stage))
    return tuple(mistakes)


def _value_mistakes(stage: Stage) -> list[str]:
    mistakes = []
    if stage.kind is not StageKind.ANGLE and stage.window is None:
        mistakes.append(f"Stage {stage.number} ({stage.kind.value}) has no torque: enter it as printed.")
    if stage.kind in (StageKind.ANGLE, StageKind.TORQUE_THEN_ANGLE) and stage.angle_degrees is None:
        mistakes.append(f"Stage {stage.number} ({stage.kind.value}) has no angle: enter the degrees.")
    window = stage.window
    if window and not 0 < window.low_newton_metres <= window.high_newton_metres:
        mistakes.append(f"Stage {stage.number} has a range that does not run upwards from above zero.")
    return mistakes


def _list(holes: frozenset[int]) -> str:
    return ", ".join(str(hole) for hole in sorted(holes))

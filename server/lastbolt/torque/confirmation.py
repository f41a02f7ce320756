"""What was pulled, hole by hole or for a whole set, and whether it lies where the specification asks."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from lastbolt.torque.adapter import Adapter, torque_through_adapter
from lastbolt.torque.specification import (
    NO_DRAG,
    Specification,
    Stage,
    StageKind,
    TorqueWindow,
    stage_for_hole,
    stage_numbers,
    window_with_drag,
)
from lastbolt.torque.wrench import INDICATING_KINDS, Wrench, uncertainty_newton_metres
from lastbolt.units import Degrees, NewtonMetres

_NEARLY = 1e-6


class Method(Enum):
    """How a tightening was felt: a click says "reached", an indicating tool gives a value."""

    CLICK = "click"
    INDICATED = "indicated"
    ANGLE = "angle"
    FEEL = "by feel"
    HAND_TIGHT = "hand tight by design"


class ConfirmationVerdict(Enum):
    """Where a confirmation lies."""

    IN_RANGE = "in range"
    BELOW = "below the range"
    ABOVE = "above the range"
    ANGLE_OFF = "angle off"
    NO_VALUE = "no value"
    NOT_ASKED = "not asked for"


@dataclass(frozen=True)
class Confirmation:
    """One pull or one pass: holes in the order done, stage, and what the tool said.

    The value is what the wrench was set to (click) or showed (indicating), N·m, before any adapter.
    """

    holes: tuple[int, ...]
    stage: int
    method: Method
    value_newton_metres: NewtonMetres | None = None
    angle_degrees: Degrees | None = None
    wrench: Wrench | None = None
    adapter: Adapter | None = None


@dataclass(frozen=True)
class ConfirmationOutcome:
    """The verdict on one hole: torque at the fastener and its ± in N·m where known, and words for it.

    `said` is what may be claimed: "reached 24 N·m" for a click, "24.3 ± 0.97 N·m" for an indicating tool.
    `is_near_edge` tells that the wrench's ± reaches over an end of the window: a note, never a fault.
    """

    verdict: ConfirmationVerdict
    torque_newton_metres: NewtonMetres | None
    uncertainty_newton_metres: NewtonMetres | None
    is_near_edge: bool
    said: str
    sentence: str


def method_of_wrench(wrench: Wrench) -> Method:
    """The method that a wrench allows."""
    return Method.INDICATED if wrench.kind in INDICATING_KINDS else Method.CLICK


def torque_at_fastener(confirmation: Confirmation) -> NewtonMetres | None:
    """The torque at the fastener, N·m: the value as set or shown, put through the adapter if one was used."""
    value = confirmation.value_newton_metres
    if value is None or confirmation.adapter is None:
        return value
    return torque_through_adapter(value, confirmation.adapter)


def judge_confirmation(
    confirmation: Confirmation, stage: Stage, *, drag_newton_metres: NewtonMetres = NO_DRAG
) -> ConfirmationOutcome:
    """Judge one confirmation against one stage; the measured drag is added to the window.

    A torque in the window, ends included; an angle within the stage's tolerance (±5° when none is printed).
    A click is judged by what was set: no guess is made at the true torque.

    >>> from lastbolt.torque.specification import StageKind, TorqueWindow
    >>> stage = Stage(1, StageKind.TORQUE, TorqueWindow(89.3, 91.5))
    >>> judge_confirmation(Confirmation((1,), 1, Method.CLICK, 79.0), stage).verdict.value
    'below the range'
    """
    torque = torque_at_fastener(confirmation)
    wrench = confirmation.wrench
    spread = uncertainty_newton_metres(wrench, torque) if wrench and torque is not None else None
    window = window_with_drag(stage.window, drag_newton_metres) if stage.window else None
    verdict, sentence = _judge_values(confirmation, stage, window=window, torque=torque)
    is_near_edge = verdict is ConfirmationVerdict.IN_RANGE and _reaches_over(window, torque, spread=spread)
    said = _say(confirmation, torque, spread=spread)
    return ConfirmationOutcome(verdict, torque, spread, is_near_edge, said, sentence)


def judge_holes(confirmation: Confirmation, specification: Specification) -> dict[int, ConfirmationOutcome]:
    """Judge a confirmation for each of its holes against the row that the specification has for it.

    A hole of which the stage asks nothing gets "not asked for".
    """
    outcomes = {}
    for hole in confirmation.holes:
        stage = stage_for_hole(specification, confirmation.stage, hole=hole)
        if stage is None:
            words = f"Stage {confirmation.stage} asks nothing of hole {hole}: look whether another was meant."
            said = _say(confirmation, torque_at_fastener(confirmation), spread=None)
            outcomes[hole] = ConfirmationOutcome(
                ConfirmationVerdict.NOT_ASKED, None, None, False, said, words
            )
        else:
            outcomes[hole] = judge_confirmation(
                confirmation, stage, drag_newton_metres=specification.drag_newton_metres
            )
    return outcomes


def judge_set(
    specification: Specification, confirmations: Sequence[Confirmation]
) -> dict[int, ConfirmationOutcome | None]:
    """For each hole the outcome of the last confirmation of its final stage; None where there is none.

    Holes of which no stage asks anything are left out. Slackening ends what was confirmed before: pass only
    the confirmations since.
    """
    found: dict[int, ConfirmationOutcome | None] = {}
    for hole in specification.holes:
        numbers = stage_numbers(specification, hole)
        if not numbers:
            continue
        last = [one for one in confirmations if hole in one.holes and one.stage == numbers[-1]]
        found[hole] = judge_holes(last[-1], specification)[hole] if last else None
    return found


def _judge_values(
    confirmation: Confirmation, stage: Stage, *, window: TorqueWindow | None, torque: float | None
) -> tuple[ConfirmationVerdict, str]:
    if window and stage.kind is not StageKind.ANGLE:
        if torque is None:
            words = "No torque is recorded for this stage: tighten with a torque wrench and enter its value."
            return ConfirmationVerdict.NO_VALUE, words
        if torque < window.low_newton_metres * (1 - _NEARLY):
            words = f"{torque:.4g} N·m where {_span(window)} is asked: tighten it again."
            return ConfirmationVerdict.BELOW, words
        if torque > window.high_newton_metres * (1 + _NEARLY):
            words = f"{torque:.4g} N·m where {_span(window)} is asked: stretched? Renew it or ask the maker."
            return ConfirmationVerdict.ABOVE, words
    return _judge_angle(confirmation, stage)


def _judge_angle(confirmation: Confirmation, stage: Stage) -> tuple[ConfirmationVerdict, str]:
    wanted, turned = stage.angle_degrees, confirmation.angle_degrees
    if wanted is None or stage.kind in (StageKind.TORQUE, StageKind.RECHECK):
        return ConfirmationVerdict.IN_RANGE, ""
    if turned is None:
        words = f"The angle is missing ({wanted:g}° is asked): turn it and enter the degrees."
        return ConfirmationVerdict.NO_VALUE, words
    if abs(turned - wanted) > stage.angle_tolerance_degrees + _NEARLY:
        words = (
            f"Turned {turned:g}° where {wanted:g}° ± {stage.angle_tolerance_degrees:g}° is asked: "
            "do this joint again as the manual says, with a new fastener if it asks for one."
        )
        return ConfirmationVerdict.ANGLE_OFF, words
    return ConfirmationVerdict.IN_RANGE, ""


def _reaches_over(window: TorqueWindow | None, torque: float | None, *, spread: float | None) -> bool:
    if window is None or torque is None or spread is None:
        return False
    return torque - spread < window.low_newton_metres or torque + spread > window.high_newton_metres


def _span(window: TorqueWindow) -> str:
    assumed = " (one figure is printed, ±5 % assumed)" if window.is_tolerance_assumed else ""
    return f"{window.low_newton_metres:.4g}–{window.high_newton_metres:.4g} N·m{assumed}"


def _say(confirmation: Confirmation, torque: float | None, *, spread: float | None) -> str:
    """What may be claimed for a confirmation, in words."""
    turned = "" if confirmation.angle_degrees is None else f"{confirmation.angle_degrees:g}°"
    if torque is None:
        return ", ".join(filter(None, (confirmation.method.value, turned)))
    if confirmation.method is Method.INDICATED:
        pulled = f"{torque:.4g} N·m" if spread is None else f"{torque:.4g} ± {spread:.2g} N·m"
    elif confirmation.method is Method.CLICK:
        within = "" if spread is None else f" (wrench ± {spread:.2g} N·m)"
        pulled = f"reached {torque:.4g} N·m{within}"
    else:
        pulled = f"{torque:.4g} N·m, {confirmation.method.value}"
    return " + ".join(filter(None, (pulled, turned)))

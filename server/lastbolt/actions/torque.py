"""Read a torque as a person types it, and give the torque sheet of a stored job."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import get_args

from ..journal import effective, in_order
from ..journal.specification import Unit
from ..report.torque_sheet import TorqueSheet, torque_sheet
from ..said import said
from ..torque.agreement import find_disagreements
from ..torque.plausibility import judge_torque
from ..torque.quantity import WrittenTorque, parse_torque
from ..torque.specification import ASSUMED_TOLERANCE_PERCENT, TorqueWindow, window_from_torque
from ..torque.strength import class_names
from ..torque.threads import parse_thread
from ..torque.unreadable import Unreadable
from .verify import Bench, Journals, entries_of

LEAST_NM, MOST_NM = 0.1, 3000.0
"""What the journal takes as a torque, N·m."""


@dataclass(frozen=True, slots=True)
class ReadSpec:
    """A torque as typed: what was read, the fields that it gives a `spec-entered` entry, and warnings.

    A warning asks somebody to look again; it never changes a field.
    """

    written: WrittenTorque
    fields: dict[str, str | float]
    warnings: tuple[str, ...]


def spec_from_text(
    text: str, *, thread: str = "", class_name: str = "", tolerance_percent: float | None = None
) -> ReadSpec | Unreadable:
    """Read what a person typed, "35 lbf ft" or "10 N·m / 7 lbf·ft", or say in one sentence why not.

    The figure written first counts. One figure becomes a window of ± the tolerance; where none is given it is
    assumed, and a warning says so.

    >>> read = spec_from_text("20-25 Nm")
    >>> read.fields
    {'as_written': '20-25 Nm', 'unit': 'N·m', 'min_nm': 20.0, 'max_nm': 25.0}
    >>> spec_from_text("35").reason
    '"35" has no unit. Write a number and its unit, for example "47 N·m" or "35 lbf·ft".'
    """
    written = parse_torque(text.strip())
    if isinstance(written, Unreadable):
        return written
    window = window_from_torque(written, tolerance_percent)
    low, high = window.low_newton_metres, window.high_newton_metres
    if not LEAST_NM <= low <= high <= MOST_NM:
        return Unreadable(
            text,
            said(
                '"{text}" lies outside {least} to {most} N·m, which is what can be recorded: '
                "look at its unit.",
                text=text,
                least=f"{LEAST_NM:g}",
                most=f"{MOST_NM:g}",
            ),
        )
    unit = written.main.unit.value
    fields: dict[str, str | float] = {
        "as_written": written.text,
        "unit": unit if unit in get_args(Unit) else "N·m",
        "min_nm": float(low),
        "max_nm": float(high),
    }
    warnings = (
        *_warnings_of_text(written, window),
        *_warnings_of_thread(written, thread, class_name=class_name),
    )
    return ReadSpec(written, fields, warnings)


def _warnings_of_text(written: WrittenTorque, window: TorqueWindow) -> Iterator[str]:
    for disagreement in find_disagreements(written):
        yield disagreement.sentence
    if window.is_tolerance_assumed:
        yield (
            f"One figure is written: ±{ASSUMED_TOLERANCE_PERCENT:g} % is assumed (common practice, "
            "no source). If the page gives a tolerance, write that."
        )


def _warnings_of_thread(written: WrittenTorque, thread: str, *, class_name: str) -> Iterator[str]:
    if not thread.strip():
        return
    read = parse_thread(thread)
    if isinstance(read, Unreadable):
        yield f"The value was not compared with a thread. {read.reason}"
        return
    if class_name and class_name not in class_names():
        yield f"{class_name} is no property class known here: the value is judged by its thread alone."
    middle = window_from_torque(written).middle_newton_metres
    judged = judge_torque(middle, read.thread, class_name=class_name, unit=written.main.unit)
    if judged.sentence:
        yield judged.sentence


def torque_sheet_of(bench: Bench, journals: Journals, job: str, *, on: date | None = None) -> TorqueSheet:
    """Give the torque sheet of a stored job; the wrenches are judged for a day, else as of the last entry.

    Raises:
        NotFoundError: no entry names that job.
    """
    state = bench.state(job)
    happened = effective(in_order(entries_of(journals.lines(job))))
    return torque_sheet(state, (each.entry for each in happened), on=on)

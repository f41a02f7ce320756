"""ISO metric threads: which exist, their geometry, and the way they are written."""

import math
import re
from dataclasses import dataclass
from functools import cache

from lastbolt.errors import BadInputError
from lastbolt.said import said
from lastbolt.torque.datafile import read_table
from lastbolt.torque.unreadable import Unreadable
from lastbolt.units import Millimetres

_DESIGNATION = re.compile(
    r"M\s*(?P<diameter>[0-9]{1,2}(?:[.,][0-9])?)"
    r"(?:\s*[x×*]\s*(?P<second>[0-9]{1,4}(?:[.,][0-9]{1,3})?))?"
    r"(?:\s*[x×*]\s*(?P<third>[0-9]{1,4}(?:[.,][0-9]{1,2})?))?"
    r"(?:\s*[/ ].*)?",
    re.IGNORECASE,
)
_EXAMPLE = 'Write it like "M8", "M8×1" or "M8×1.25×30".'


@dataclass(frozen=True, order=True)
class MetricThread:
    """An ISO metric thread; all lengths in mm, areas in mm².

    Formulas: ISO 68-1 and ISO 724 basic profile, stress area ISO 898-1:2013 §9.1.6.1 (from memory; the
    stress areas M4 to M16 agree with openly published tables). Valid for the 60° metric profile.
    """

    diameter_mm: Millimetres
    pitch_mm: Millimetres

    @property
    def name(self) -> str:
        """The designation, the pitch only when it is not the coarse one."""
        plain = f"M{self.diameter_mm:g}"
        return plain if coarse_thread(self.diameter_mm) == self else f"{plain}×{self.pitch_mm:g}"

    @property
    def pitch_diameter_mm(self) -> Millimetres:
        """d2 = d − 0.649 519·P."""
        return Millimetres(self.diameter_mm - 0.649519 * self.pitch_mm)

    @property
    def nut_minor_diameter_mm(self) -> Millimetres:
        """d1 = d − 1.082 532·P."""
        return Millimetres(self.diameter_mm - 1.082532 * self.pitch_mm)

    @property
    def root_diameter_mm(self) -> Millimetres:
        """d3 = d − 1.226 869·P."""
        return Millimetres(self.diameter_mm - 1.226869 * self.pitch_mm)

    @property
    def stress_diameter_mm(self) -> Millimetres:
        """dS = (d2 + d3) / 2."""
        return Millimetres((self.pitch_diameter_mm + self.root_diameter_mm) / 2)

    @property
    def stress_area_mm2(self) -> float:
        """As = (π/4)·dS² = 0.7854·(d − 0.938 194·P)²."""
        return math.pi / 4 * self.stress_diameter_mm**2

    @property
    def nominal_stress_area_mm2(self) -> float:
        """The stress area to three figures, as the tables print it and take loads from it."""
        return float(f"{self.stress_area_mm2:.3g}")


@dataclass(frozen=True)
class ThreadDesignation:
    """A thread as written, with the length under the head where it stands there."""

    text: str
    thread: MetricThread
    length_mm: Millimetres | None


@cache
def metric_threads() -> tuple[MetricThread, ...]:
    """Every listed ISO metric thread, coarse ones first, by diameter (data file `threads.csv`)."""
    return tuple(
        MetricThread(Millimetres(float(row["diameter_mm"])), Millimetres(float(row["pitch_mm"])))
        for row in read_table("threads")
    )


@cache
def coarse_thread(diameter_mm: float) -> MetricThread | None:
    """The coarse thread of a diameter, or None when none is listed.

    >>> coarse_thread(8).pitch_mm
    1.25
    """
    return next((thread for thread in metric_threads() if thread.diameter_mm == diameter_mm), None)


def require_coarse_thread(diameter_mm: float) -> MetricThread:
    """The coarse thread of a diameter that must be listed; raises where it is not.

    >>> require_coarse_thread(6).pitch_mm
    1.0
    """
    thread = coarse_thread(diameter_mm)
    if thread is None:
        raise BadInputError(
            said(
                "M{diameter_mm} is not among the listed ISO metric threads: {example}",
                diameter_mm=f"{diameter_mm:g}",
                example=said(_EXAMPLE),
            )
        )
    return thread


def parse_thread(text: str) -> ThreadDesignation | Unreadable:
    """Read a designation: M8, M8×1 (pitch), M8×30 (coarse, 30 long) or M8×1.25×30; a tail after `/` is left.

    The second figure is a pitch when it is a listed one, a length when it is above 0.3·d.

    >>> parse_thread("M10x30").thread.pitch_mm, parse_thread("M10x1.25x30").length_mm
    (1.5, 30.0)
    """
    match = _DESIGNATION.fullmatch(text.strip())
    if match is None:
        return Unreadable(
            text, said('"{text}" is no metric thread. {example}', text=text, example=said(_EXAMPLE))
        )
    diameter = _number(match["diameter"])
    coarse = coarse_thread(diameter)
    if coarse is None:
        return Unreadable(
            text,
            said(
                "M{diameter} is not among the listed ISO metric threads. {example}",
                diameter=f"{diameter:g}",
                example=said(_EXAMPLE),
            ),
        )
    if match["second"] is None:
        return ThreadDesignation(text, coarse, None)
    second = _number(match["second"])
    length = Millimetres(_number(match["third"])) if match["third"] else None
    if length is None and second > 0.3 * diameter:
        return ThreadDesignation(text, coarse, Millimetres(second))
    thread = MetricThread(Millimetres(diameter), Millimetres(second))
    if thread not in metric_threads():
        return Unreadable(
            text,
            said(
                "M{diameter} with pitch {second} is not a listed ISO thread. {example}",
                diameter=f"{diameter:g}",
                second=f"{second:g}",
                example=said(_EXAMPLE),
            ),
        )
    return ThreadDesignation(text, thread, length)


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def unified_stress_area_mm2(diameter_mm: Millimetres, threads_per_inch: float) -> float:
    """Stress area of an inch thread in mm²: 0.7854·(D − 0.9743/n)² with D and 1/n in inches, × 645.16.

    Source: ASME B1.1, from memory. Valid for the unified 60° profile.
    """
    return 0.7854 * (diameter_mm / 25.4 - 0.9743 / threads_per_inch) ** 2 * 25.4**2

"""From torque to preload and back, short and long form: estimates only, never a specification."""

import math
from dataclasses import dataclass

from lastbolt.torque.datafile import read_table
from lastbolt.torque.threads import MetricThread
from lastbolt.units import Millimetres, NewtonMetres

ESTIMATE_MARK = "Estimate, not a specification: the maker's manual first."


@dataclass(frozen=True)
class BearingFace:
    """Where a head rubs, mm: outer diameter of the washer face dw and hole dh."""

    washer_face_mm: Millimetres
    hole_mm: Millimetres

    @property
    def friction_diameter_mm(self) -> Millimetres:
        """DKm = (dw + dh) / 2."""
        return Millimetres((self.washer_face_mm + self.hole_mm) / 2)


@dataclass(frozen=True)
class Friction:
    """Coefficients of friction in the thread and under the head, plain numbers (0.04 to 0.40 in practice)."""

    thread: float
    head: float


@dataclass(frozen=True)
class AssemblyEstimate:
    """What the long form gives: preload in N, torque in N·m, and the mark that goes with every estimate."""

    preload_n: float
    torque_newton_metres: NewtonMetres
    mark: str = ESTIMATE_MARK


@dataclass(frozen=True)
class TorqueShares:
    """Where a tightening torque goes, N·m: stretching (pitch), thread friction, head friction."""

    pitch: NewtonMetres
    thread: NewtonMetres
    head: NewtonMetres

    @property
    def total(self) -> NewtonMetres:
        """The torque at the head."""
        return NewtonMetres(self.pitch + self.thread + self.head)


def short_torque(nut_factor: float, diameter_mm: Millimetres, *, preload_n: float) -> NewtonMetres:
    """Torque by the short form T = K·d·F; d in mm, F in N, result in N·m.

    K runs from 0.1 (lubricated) to 0.3 (dry, plain), 0.2 when unknown; measured means run from 0.086 to 0.52,
    so K alone proves no joint. Source: NASA RP-1228, from memory; K examples read at help.solidworks.com.

    >>> round(short_torque(0.2, 8.0, preload_n=15900), 1)
    25.4
    """
    return NewtonMetres(nut_factor * diameter_mm / 1000 * preload_n)


def bearing_face(diameter_mm: float) -> BearingFace | None:
    """The plain hexagon head's face on a medium hole, or None when not listed (`bearing_faces.csv`)."""
    for row in read_table("bearing_faces"):
        if float(row["diameter_mm"]) == diameter_mm:
            return BearingFace(Millimetres(float(row["washer_face_mm"])), Millimetres(float(row["hole_mm"])))
    return None


def share_torque(
    preload_n: float, thread: MetricThread, *, friction: Friction, face: BearingFace
) -> TorqueShares:
    """Torque by the long form T = F·(0.16·P + 0.58·d2·µG + (DKm/2)·µK), split into its three parts, N·m.

    Source: VDI 2230 part 1 (Motosh), clause from memory; form read at genfast.com. The coefficients are the
    rounded ones (exact 1/2π and 1/(2·cos 30°) differ by up to 0.5 %). Valid for 60° threads and flat faces.
    """
    return TorqueShares(
        pitch=NewtonMetres(preload_n * 0.16 * thread.pitch_mm / 1000),
        thread=NewtonMetres(preload_n * 0.58 * thread.pitch_diameter_mm * friction.thread / 1000),
        head=NewtonMetres(preload_n * face.friction_diameter_mm / 2 * friction.head / 1000),
    )


def assembly_preload_n(
    thread: MetricThread, yield_mpa: float, *, thread_friction: float, utilisation: float = 0.9
) -> float:
    """Preload in N at which stretch and twist together use a part of yield (0.9 by custom).

    F = As·ν·Rp0.2 / √(1 + 3·[1.5·(d2/dS)·(P/(π·d2) + 1.155·µG)]²). Source: VDI 2230 part 1, from memory;
    agrees within 1.2 % with a read fine-thread table (mastik.pt p. 685). Valid for full-shank bolts.
    """
    pitch_diameter = thread.pitch_diameter_mm
    lead = thread.pitch_mm / (math.pi * pitch_diameter) + 1.155 * thread_friction
    twist = 1.5 * pitch_diameter / thread.stress_diameter_mm * lead
    return thread.stress_area_mm2 * utilisation * yield_mpa / math.sqrt(1 + 3 * twist**2)


def estimate_assembly(
    thread: MetricThread, yield_mpa: float, *, friction: float = 0.12, utilisation: float = 0.9
) -> AssemblyEstimate | None:
    """Preload and torque of a plain hexagon head, one friction everywhere; None when its face is not listed.

    >>> from lastbolt.torque.threads import coarse_thread
    >>> round(estimate_assembly(coarse_thread(8), 640).torque_newton_metres, 1)
    24.6
    """
    face = bearing_face(thread.diameter_mm)
    if face is None:
        return None
    preload = assembly_preload_n(thread, yield_mpa, thread_friction=friction, utilisation=utilisation)
    shares = share_torque(preload, thread, friction=Friction(friction, friction), face=face)
    return AssemblyEstimate(preload, shares.total)

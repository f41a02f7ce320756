"""How strong a bolt of a property class is: stresses in MPa, loads in N."""

from dataclasses import dataclass
from functools import cache

from lastbolt.torque.datafile import read_table
from lastbolt.torque.threads import MetricThread


@dataclass(frozen=True)
class PropertyClass:
    """Strengths of one class at one diameter, MPa: tensile Rm, yield Rp0.2 (or ReL), proof Sp."""

    name: str
    tensile_mpa: float
    yield_mpa: float
    proof_mpa: float
    source: str


def class_names() -> tuple[str, ...]:
    """The listed property classes, weakest first.

    >>> class_names()[-3:]
    ('9.8', '10.9', '12.9')
    """
    return tuple(dict.fromkeys(row["property_class"] for row in read_table("property_classes")))


@cache
def property_class(name: str, diameter_mm: float) -> PropertyClass | None:
    """The strengths of a class for a diameter, or None when the class is not listed.

    Source: ISO 898-1:2013 table 3 (data file `property_classes.csv`, which says what is from memory).
    Class 8.8 is stronger above 16 mm.

    >>> property_class("8.8", 16).yield_mpa, property_class("8.8", 20).yield_mpa
    (640.0, 660.0)
    """
    rows = [
        row
        for row in read_table("property_classes")
        if row["property_class"] == name and diameter_mm > float(row["above_diameter_mm"])
    ]
    if not rows:
        return None
    row = rows[-1]
    tensile, yielding, proof = (float(row[key]) for key in ("tensile_mpa", "yield_mpa", "proof_mpa"))
    return PropertyClass(name, tensile, yielding, proof, row["source"])


def proof_load_n(thread: MetricThread, strength: PropertyClass) -> float:
    """Proof load in N: nominal As·Sp. The printed table of ISO 898-1 differs from it by up to 0.5 %.

    >>> from lastbolt.torque.threads import coarse_thread
    >>> round(proof_load_n(coarse_thread(8), property_class("10.9", 8)), -2)
    30400.0
    """
    return thread.nominal_stress_area_mm2 * strength.proof_mpa


def printed_proof_load_n(name: str, diameter_mm: float) -> float | None:
    """The proof load in N that ISO 898-1 table 5 prints for a coarse thread, or None when not listed.

    >>> printed_proof_load_n("8.8", 6)
    11600.0
    """
    for row in read_table("proof_loads"):
        if row["property_class"] == name and float(row["diameter_mm"]) == diameter_mm:
            return float(row["proof_load_n"])
    return None


def tensile_load_n(thread: MetricThread, strength: PropertyClass) -> float:
    """Lowest load in N at which the bolt may break: nominal As·Rm."""
    return thread.nominal_stress_area_mm2 * strength.tensile_mpa

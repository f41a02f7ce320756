"""How strong a bolt of a property class is: stresses in MPa."""

from dataclasses import dataclass
from functools import cache

from lastbolt.torque.datafile import read_table


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

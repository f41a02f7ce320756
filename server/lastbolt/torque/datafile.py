"""The tables of numbers that travel with this room, each row with its source; never writes."""

import csv
from functools import cache
from importlib.resources import files
from types import MappingProxyType

Row = MappingProxyType[str, str]


@cache
def read_table(name: str) -> tuple[Row, ...]:
    """All rows of one data file, column name to text, in the order of the file.

    >>> read_table("property_classes")[0]["property_class"]
    '4.6'
    """
    text = files("lastbolt.torque").joinpath("data", f"{name}.csv").read_text(encoding="utf-8")
    return tuple(MappingProxyType(row) for row in csv.DictReader(text.splitlines()))

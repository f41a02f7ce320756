"""What happened: the entries, their canonical bytes, their hash chain and their order."""

from .chain import GENESIS, Break, Line, first_break, seal
from .codec import Raw, canonical, entry_from, raw_from, raws_from_lines
from .entries import ENTRY, AnyEntry, kinds
from .order import Happened, effective, in_order

__all__ = [
    "ENTRY",
    "GENESIS",
    "AnyEntry",
    "Break",
    "Happened",
    "Line",
    "Raw",
    "canonical",
    "effective",
    "entry_from",
    "first_break",
    "in_order",
    "kinds",
    "raw_from",
    "raws_from_lines",
    "seal",
]

"""The command `lastbolt`: options in, actions called, words out."""

from . import desk, entries, judging, moving, people, pictures, planning, printing, serving
from .shell import lastbolt, main

__all__ = [
    "desk",
    "entries",
    "judging",
    "lastbolt",
    "main",
    "moving",
    "people",
    "pictures",
    "planning",
    "printing",
    "serving",
]

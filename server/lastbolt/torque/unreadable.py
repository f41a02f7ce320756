"""What comes back instead of a value when a text cannot be read."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Unreadable:
    """A text that could not be read: `reason` is one sentence with a way out; it counts as false.

    >>> bool(Unreadable("abc", "Write a number and a unit."))
    False
    """

    text: str
    reason: str

    def __bool__(self) -> bool:
        return False

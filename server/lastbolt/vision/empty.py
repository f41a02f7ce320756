"""Is a cleared tray really empty? A part overlooked is the worst error here, so doubt is an answer."""

from typing import Literal

from lastbolt.vision.outcome import Look

Emptiness = Literal["yes", "no", "unsure"]

TRACE = 0.55
"""Mean strength from which an uncounted patch alone makes the answer unsure."""


def is_empty(look: Look) -> Emptiness:
    """Whether nothing loose lies in the picture: `no` when a part was counted, `unsure` on a strong trace."""
    if look.count.count > 0:
        return "no"
    if look.count.high > 0 or any(trace >= TRACE for trace in look.traces):
        return "unsure"
    if any("dark" in reason or "blurred" in reason for reason in look.unsure):
        return "unsure"
    return "yes"

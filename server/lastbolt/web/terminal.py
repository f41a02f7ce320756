"""A QR symbol for the terminal: two rows of modules a line, black on white whatever the colours are."""

from __future__ import annotations

from ..labels.symbol import qr_modules
from .reach import as_symbol_text

QUIET = 4
BLACK_ON_WHITE, BACK = "\x1b[30;107m", "\x1b[0m"
HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}


def drawn(address: str) -> str:
    """Draw an address with the quiet zone that readers need (ISO/IEC 18004: four modules)."""
    modules = qr_modules(as_symbol_text(address), "Q")
    width = len(modules) + 2 * QUIET
    blank = (False,) * width
    side = (False,) * QUIET
    rows = [*[blank] * QUIET, *(side + row + side for row in modules), *[blank] * QUIET]
    if len(rows) % 2:
        rows.append(blank)
    pairs = zip(rows[::2], rows[1::2], strict=True)
    lines = ("".join(HALVES[upper, lower] for upper, lower in zip(*pair, strict=True)) for pair in pairs)
    return "\n".join(f"{BLACK_ON_WHITE}{line}{BACK}" for line in lines)

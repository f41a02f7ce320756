"""Letters that the printed fonts know: others are written plainly, the rest as a question mark."""

from __future__ import annotations

import unicodedata
from xml.sax.saxutils import escape

PLAINLY = {
    "\u2212": "-", "\u2192": "->", "\u2190": "<-", "\u2264": "<=", "\u2265": ">=", "\u2260": "not equal to",
    "\u2009": " ", "\u202f": " ", "\u2011": "-", "\u03bc": "\u00b5", "\u0142": "l", "\u0141": "L",
    "\u0111": "d",
}  # fmt: skip
UNKNOWN = "?"


def printable(text: str) -> str:
    """Give a text in letters that every viewer's own Helvetica has (Windows-1252).

    >>> printable("M8×30 → hull, Dvořák"), printable("水")
    ('M8×30 -> hull, Dvorák', '?')
    """
    return "".join(_letter(letter) for letter in unicodedata.normalize("NFC", text))


def markup(text: str) -> str:
    """Give a text for a paragraph: printable, with nothing in it that could be read as markup."""
    return escape(printable(text))


def _letter(letter: str) -> str:
    if letter in "\n\t":
        return " "
    if unicodedata.category(letter)[0] == "C":
        return ""
    plain = PLAINLY.get(letter, letter)
    if _is_known(plain):
        return plain
    bare = "".join(c for c in unicodedata.normalize("NFKD", letter) if not unicodedata.combining(c))
    return bare if bare and _is_known(bare) else UNKNOWN


def _is_known(text: str) -> bool:
    try:
        text.encode("cp1252")
    except UnicodeEncodeError:
        return False
    return True

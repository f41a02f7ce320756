"""What of an entry can be found by words, and how words are written so that "M8×30" finds an M8x1.25x30."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from ..journal.entries import AnyEntry
from ..journal.evidence import PhotoCounted
from ..journal.fastener_type import FastenerType

SIZE = re.compile(
    r"\bM\s?(?P<d>\d+(?:[.,]\d+)?)(?P<rest>(?:\s?[x×*]\s?\d+(?:[.,]\d+)?){0,2})(?=$|[^\w.])", re.IGNORECASE
)
NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
STOP = frozenset(
    "a an and are at did do does for from had has have how i in is it no not of on or our that the there "
    "these they this to use used was we were what when where which who whose why with".split()
)
"""Words of a question that name nothing."""
ABOUT = (
    ("machine", "machine"),
    ("set", "set"),
    ("part", "part"),
    ("connection", "connection"),
    ("opening", "opening"),
    ("renewal", "renewal"),
    ("fluid", "fluid"),
    ("setting", "setting"),
    ("isolation", "isolation"),
    ("test", "test"),
    ("hold", "hold point"),
    ("wrench", "wrench"),
    ("container", "tray or bag"),
    ("element", "element"),
    ("item", "item"),
    ("kit", "kit"),
)
"""Fields that say what an entry is about, the first one counts, and what that is called."""
FREE = (
    "note", "reason", "title", "customer_reference", "half_done", "dangerous", "not_listed", "what", "where",
    "cause", "late_reason", "barrier", "scope", "statement", "how_seen", "text", "limit", "why", "how",
    "part_number", "lot", "grade", "product", "source", "label", "place", "tag", "reason_bad", "name", "lots",
)  # fmt: skip
"""Fields whose words a person wrote or named."""


class SearchText(NamedTuple):
    """What an entry is found by: what it is about, its name, and all words, sizes in every spelling."""

    about: str
    name: str
    said: str
    words: str


def search_text(entry: AnyEntry) -> SearchText | None:
    """Give what an entry can be found by; None for one that says nothing in words."""
    if isinstance(entry, PhotoCounted):
        return None
    about, name = _about(entry)
    said = list(dict.fromkeys(_said(entry)))
    kinds = list(_types(entry))
    if not name and not said:
        return None
    words = [name, *said, entry.step or "", *(str(kind) for kind in kinds), *(kind.kind for kind in kinds)]
    shown = "; ".join(part for part in (*said, *(str(kind) for kind in kinds)) if part != name)
    return SearchText(about, name, shown, normalised(" ".join(words)))


def _about(entry: AnyEntry) -> tuple[str, str]:
    if entry.kind in ("step-started", "step-done"):
        return "step", str(getattr(entry, "name", ""))
    if entry.kind == "job-opened":
        return "job", str(getattr(entry, "machine", ""))
    for field, called in ABOUT:
        value = getattr(entry, field, None)
        if isinstance(value, str) and value:
            return called, value
    return "note", ""


def _said(entry: AnyEntry) -> Iterator[str]:
    for field in FREE:
        value = getattr(entry, field, None)
        if isinstance(value, str) and value.strip():
            yield value.strip()


def _types(entry: AnyEntry) -> Iterator[FastenerType]:
    kind = getattr(entry, "type", None)
    if isinstance(kind, FastenerType):
        yield kind
    types = getattr(entry, "types", None)
    if isinstance(types, dict):
        yield from {str(each): each for each in types.values() if isinstance(each, FastenerType)}.values()


def normalised(text: str) -> str:
    """Write a text in small letters, each size in all its spellings, so that plain words can be compared.

    >>> normalised("M8×30 flange bolts")
    'm8 m8x30 flange bolts'
    >>> normalised("M8x1.25x30")
    'm8 m8x1p25 m8x30 m8x1p25x30'
    """
    return " ".join(SIZE.sub(lambda found: f" {' '.join(_spellings(found))} ", text).casefold().split())


def _spellings(found: re.Match[str]) -> list[str]:
    numbers = [_plain(found["d"]), *(_plain(n) for n in NUMBER.findall(found["rest"]))]
    if len(numbers) == 3:
        d, pitch, length = numbers
        return [f"m{d}", f"m{d}x{pitch}", f"m{d}x{length}", f"m{d}x{pitch}x{length}"]
    return [f"m{'x'.join(numbers[:n])}" for n in range(1, len(numbers) + 1)]


def _plain(number: str) -> str:
    """Write a number as one word: 1.25 as 1p25, 30.0 as 30."""
    return f"{float(number.replace(',', '.')):g}".replace(".", "p")


def query_words(asked: str) -> tuple[str, ...]:
    """Give the words to look for in a question; a size only in the spelling that was asked for.

    >>> query_words("where did we use the M8×30 flange bolts?")
    ('m8x30', 'flange', 'bolt')
    """
    plain = SIZE.sub(lambda found: f" {_spellings(found)[-1]} ", asked).casefold()
    words = [_singular(word) for word in re.findall(r"[\w]+", plain) if word not in STOP]
    return tuple(dict.fromkeys(words))[:12]


def _singular(word: str) -> str:
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word

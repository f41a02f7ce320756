"""What the command reads from files: photos from folders and camera cards, journals as lines of text."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TextIO

from ..errors import BadInputError
from ..vision.nominal import nominal
from ..vision.outcome import Look


def photo_files(paths: Iterable[Path]) -> Iterator[Path]:
    """Give files as they are named, and those of a folder by name, hidden ones left out."""
    for path in paths:
        if path.is_dir():
            yield from sorted(p for p in path.rglob("*") if p.is_file() and not p.name.startswith("."))
        else:
            yield path


def photo_bytes(path: Path, most: int) -> bytes:
    """Read a file, but hardly more of it than a photo may have.

    Raises:
        BadInputError: it cannot be read.
    """
    try:
        with path.open("rb") as file:
            return file.read(most + 1)
    except OSError as error:
        raise BadInputError(f"{path} cannot be read: {error.strerror}") from error


def text_lines(stream: TextIO) -> list[str]:
    """Read all lines of a text.

    Raises:
        BadInputError: it is no text in UTF-8, or cannot be read.
    """
    try:
        return list(stream)
    except (OSError, UnicodeDecodeError) as error:
        reason = getattr(error, "strerror", None) or "it is no text in UTF-8"
        raise BadInputError(f"{stream.name} cannot be read: {reason}; give a JSON Lines file") from error


def look_words(name: str, seen: Look) -> str:
    """Say in a few lines what a photo shows."""
    shown = ", ".join(code or mark.text for mark, code in zip(seen.labels, seen.codes, strict=True)) or "none"
    count = seen.count
    lines = [f"{name}: about {count.count} parts ({count.low} to {count.high}); labels: {shown}"]
    if sizes := _sizes_words(seen):
        lines.append(f"  sizes, an estimate: {sizes}")
    return "\n".join(lines + [f"  unsure: {doubt}" for doubt in seen.unsure])


def _sizes_words(seen: Look) -> str:
    """Name the bolts by thread and nearest preferred length, the most frequent first."""
    sizes = [(size.thread, size.length_mm) for size in map(nominal, seen.parts)]
    named = Counter(f"{thread} x {length}" for thread, length in sizes if thread and length)
    return ", ".join(f"{number} of {name} mm" for name, number in named.most_common())

"""The languages that papers speak: read from the page's own message files, so that no word is kept twice."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Literal

from ..errors import StoreError
from ..said import said

Language = Literal["en", "de"]
Words = Mapping[str, str]
PACKAGE = Path(__file__).resolve().parents[1]
FOLDERS = (PACKAGE.parents[1] / "mobile_web" / "src" / "words", PACKAGE / "paper" / "words")
"""The checkout's files where there is a checkout, then those inside the package."""
CHECK = "own.check."
"""The page's names of checks are messages with this beginning."""


@cache
def words_of(language: Language) -> Words:
    """Give the forms of a language by the English ones, the names of checks among them; none for English.

    Raises:
        StoreError: the files that came with the package are not there.
    """
    if language == "en":
        return {}
    own = _read(f"{language}/own.json")
    checks = {name: word for name, word in own.items() if name.startswith(CHECK)}
    named = {name.removeprefix(CHECK).replace("-", " "): word for name, word in checks.items()}
    return {**named, **_read(f"forms/{language}.json")}


def _read(name: str) -> dict[str, str]:
    found = next((folder / name for folder in FOLDERS if (folder / name).is_file()), None)
    if found is None:
        raise StoreError(said("the words of {name} are missing; install Lastbolt anew", name=name))
    words: dict[str, str] = json.loads(found.read_text("utf-8"))
    return words

"""The manual of the checks, made from their docstrings: there is no second list."""

from __future__ import annotations

import re
from dataclasses import asdict, dataclass
from types import ModuleType
from typing import Any

from .. import checks

HEADINGS = ("What it finds", "Why it matters", "Example", "How to clear it", "Silent when")
"""The five headings that every check's docstring has, in this order."""

LEVEL_WORDS = {1: "bags", 2: "clean machine", 3: "signed work"}


@dataclass(frozen=True, slots=True)
class CheckPage:
    """One check as the manual shows it; `level` is the least level of a job at which it runs."""

    name: str
    level: int
    title: str
    finds: str
    matters: str
    example: str
    clear: str
    silent: str
    live: bool
    interrupts: bool
    guards_start: bool


def manual() -> tuple[CheckPage, ...]:
    """Give a page for every check, in the order of the list of checks."""
    return tuple(page_of(check) for check in checks.ALL)


def page_of(check: ModuleType) -> CheckPage:
    """Read a check's docstring as a page."""
    title, said = sections(check.__doc__ or "")
    name = checks.name_of(check)
    finds, matters, example, clear, silent = (said[heading] for heading in HEADINGS)
    return CheckPage(
        name,
        check.LEVEL,
        title,
        finds,
        matters,
        example,
        clear,
        silent,
        live=check.LIVE,
        interrupts=name in checks.INTERRUPTING,
        guards_start=name in checks.START,
    )


def sections(docstring: str) -> tuple[str, dict[str, str]]:
    """Split a docstring into its first line and the text under each heading; a missing one is empty.

    >>> title, said = sections("A hole.\\n\\nExample: one\\n    of six.\\n\\nSilent when: never.")
    >>> title, said["Example"], said["Silent when"], said["Why it matters"]
    ('A hole.', 'one of six.', 'never.', '')
    """
    title, *rest = _paragraphs(docstring)
    said = dict.fromkeys(HEADINGS, "")
    for paragraph in rest:
        heading, _, text = paragraph.partition(":")
        if heading in said:
            said[heading] = text.strip()
    return title, said


def _paragraphs(docstring: str) -> list[str]:
    """Join each paragraph's lines; a word that was broken after its hyphen becomes whole again."""
    whole = re.sub(r"(?<=\w)-\n\s*(?=\w)", "-", docstring.strip())
    return [" ".join(block.split()) for block in whole.split("\n\n")]


def manual_json() -> list[dict[str, Any]]:
    """Give the manual as JSON: one object a check."""
    return [asdict(page) for page in manual()]


def manual_text() -> str:
    """Give the manual as Markdown, one section a check."""
    return "# The checks\n\n" + "\n\n".join(page_text(page) for page in manual()) + "\n"


def page_text(page: CheckPage) -> str:
    """Give one page as Markdown."""
    runs = [f"Runs from level {page.level} ({LEVEL_WORDS[page.level]})"]
    runs += ["while people work"] if page.live else []
    runs += ["may interrupt"] if page.interrupts else []
    runs += ["asked before something is turned or started"] if page.guards_start else []
    texts = (page.finds, page.matters, page.example, page.clear, page.silent)
    said = [f"**{heading}:** {text}" for heading, text in zip(HEADINGS, texts, strict=True)]
    return "\n\n".join([f"## {page.name}", page.title, "; ".join(runs) + ".", *said])

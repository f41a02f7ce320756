"""A verdict as plain text for a terminal: headline, findings worst first, and what a verdict is not."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from ..finding import Finding, Severity, pieces, worst_first
from ..label_code import printed
from .verdict import END, Verdict

WIDTH = 100
NOTHING = "Nothing on the list"
LIMITS = (
    "Nothing on the list means that the record is complete, not that the machine is fit to run.",
    "Only what was recorded can be checked: a thing taken off and put back without a record is not seen.",
    "Torque values come from the maker's manual; nothing here stands in for it, nor for wrench and eyes.",
)
"""What every verdict says of itself, on screen and on paper."""

SEVERITY_WORDS = {
    (Severity.STOP, False): "Stops release, no word can lift it",
    (Severity.STOP, True): "Stops release",
    (Severity.DECIDE, True): "Needs the lead's word",
    (Severity.DECIDE, False): "Needs the lead's word",
    (Severity.NOTE, True): "Note",
    (Severity.NOTE, False): "Note",
}


def severity_words(finding: Finding) -> str:
    """Say in words how much a finding stands in the way.

    >>> severity_words(Finding("hole-empty", Severity.STOP, "COVER", "1 hole is empty.", "Fit it."))
    'Stops release'
    """
    return SEVERITY_WORDS[finding.severity, finding.waivable]


def headline(verdict: Verdict) -> str:
    """Say in one sentence how a job stands.

    >>> headline(Verdict("job 1", "end", None, (), ()))
    'Nothing on the list.'
    >>> headline(Verdict("job 1", "end", None, (), ("torque-missing",)))
    'Nothing on the list, 1 check not run at this level.'
    """
    count = dict.fromkeys(Severity, 0)
    for finding in verdict.findings:
        count[finding.severity] += 1
    stops, words, notes = count[Severity.STOP], count[Severity.DECIDE], count[Severity.NOTE]
    said = [
        f"{pieces(stops, 'thing')} {'stops' if stops == 1 else 'stop'} release" if stops else "",
        f"{words} {'needs' if words == 1 else 'need'} the lead's word" if words else "",
        "" if stops or words else NOTHING,
        pieces(notes, "note") if notes else "",
        f"{pieces(len(verdict.not_checked), 'check')} not run at this level" if verdict.not_checked else "",
    ]
    return ", ".join(part for part in said if part) + "."


def verdict_text(verdict: Verdict) -> str:
    """Write a verdict for the terminal; ends without a newline."""
    blocks = [_heading(verdict), *(_finding_text(f) for f in worst_first(verdict.findings))]
    if verdict.not_checked:
        blocks.append(_wrapped("Not checked at this level: " + ", ".join(verdict.not_checked) + "."))
    blocks.append("\n".join(_wrapped(limit) for limit in LIMITS))
    return "\n\n".join(blocks)


def _heading(verdict: Verdict) -> str:
    asked = "at the end of the record" if verdict.at == END else "when release was asked for"
    time = f", {verdict.time:%Y-%m-%d %H:%M %Z}" if verdict.time else ""
    return f"{verdict.job}, {asked}{time}\n{_wrapped(headline(verdict))}"


def _finding_text(finding: Finding) -> str:
    lines = [f"{severity_words(finding)}: {printed(finding.subject)} ({finding.check})"]
    lines += [_wrapped(line, indent="  ") for line in _said(finding)]
    return "\n".join(lines)


def _said(finding: Finding) -> Iterator[str]:
    yield finding.sentence
    yield f"To do: {finding.to_do}"
    if finding.evidence.photos:
        yield "Photos: " + ", ".join(photo[:12] for photo in finding.evidence.photos)


def _wrapped(text: str, *, indent: str = "") -> str:
    return textwrap.fill(
        text,
        WIDTH,
        initial_indent=indent,
        subsequent_indent=indent,
        break_long_words=False,
        break_on_hyphens=False,
    )

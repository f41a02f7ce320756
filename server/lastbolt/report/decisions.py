"""The lead's words on findings, each weighed: does it lift its finding now, and whose work does it judge."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from ..finding import DEFERRAL
from ..journal.checking import FindingDecided
from ..label_code import printed
from ..state.job import Job
from .verdict import Verdict


@dataclass(frozen=True, slots=True)
class Weighed:
    """The newest word on one finding: `lifts` while nothing is on the list for it; whose work it was."""

    word: FindingDecided
    at: datetime
    lifts: bool
    doers: tuple[str, ...]

    @property
    def on_own_work(self) -> bool:
        """Tell whether the person who decided had hands on what was decided."""
        return self.word.by in self.doers

    @property
    def sentence(self) -> str:
        """Say it in one sentence."""
        word = self.word
        said = (
            f"{printed(word.subject)} ({word.check.replace('-', ' ')}): {WORDS[word.decision]} by {word.by}"
        )
        more = [
            f"until {word.limit:%Y-%m-%d}" if word.limit else "",
            f"barrier: {word.barrier}" if word.barrier else "",
            f"second name: {word.second}" if word.second else "",
        ]
        extra = "; ".join(part for part in more if part)
        return f"{said}{f', {extra}' if extra else ''}. {word.reason or 'No reason was written.'}"


WORDS = {"accept": "accepted", "clear": "cleared", "defer": "deferred", "rework": "sent back"}


def weighed(job: Job, verdict: Verdict) -> tuple[Weighed, ...]:
    """Give the words that count in a job, the newest first."""
    on_list = {(f.check, f.subject) for f in verdict.findings}
    expired = {
        (f.variant.removeprefix(DEFERRAL).strip(), f.subject)
        for f in verdict.findings
        if f.variant.startswith(DEFERRAL)
    }
    found = [
        Weighed(
            decided.entry,
            decided.act.time,
            decided.entry.decision != "rework" and key not in on_list and key not in expired,
            tuple(sorted(job.hands.get(decided.entry.subject, ()))),
        )
        for key, decided in job.decisions.items()
    ]
    return tuple(sorted(found, key=lambda each: each.at, reverse=True))

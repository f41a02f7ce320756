"""Bring a camera card's photos into a job one by one, and count what became of them."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from .from_files import photo_bytes
from .photograph import Hint, take
from .ports import Shop
from .require import require_job


@dataclass(slots=True)
class Intake:
    """One card on its way into a job: an answer for each photo, and the tally at the end."""

    shop: Shop
    job: str
    by: str | None = None
    hint: Hint | None = None
    tally: dict[str, int] = field(default_factory=lambda: {"kept": 0, "here already": 0, "refused": 0})
    answers: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Look whether the job is here before the first photo is read.

        Raises:
            NotFoundError: no entry names it.
        """
        require_job(self.shop.look_up, self.job)

    def take(self, path: Path) -> None:
        """Take one file in."""
        photo = photo_bytes(path, self.shop.limits.largest_photo)
        taken = take(self.shop, photo, job=self.job, by=self.by, hint=self.hint)
        self.tally[taken.outcome] += 1
        self.answers.append(f"{path}: {taken.sentence}")

    @property
    def refused(self) -> int:
        """Count the files that were refused."""
        return self.tally["refused"]

    @property
    def brought_in(self) -> int:
        """Count the photos that are in the job now."""
        return self.tally["kept"] + self.tally["here already"]

    def words(self) -> str:
        """Say what became of each photo, and count them in the last line."""
        return "\n".join([*self.answers, ", ".join(f"{n} {outcome}" for outcome, n in self.tally.items())])

"""What routes ask for: jobs, photos and labels, through the actions; never the store itself."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Annotated

from fastapi import Depends, Request

from ..actions.held_entries import note_held
from ..actions.originals import where_is
from ..actions.photograph import Hint, take_in_turn
from ..actions.ports import Bound, KnownJob
from ..actions.record import record
from ..actions.require import require_job
from ..actions.small_picture import Shown
from ..actions.torque import torque_sheet_of
from ..actions.verify import View, entries_of
from ..errors import NotFoundError
from ..journal import Line, Raw, effective, in_order
from ..label_code import LabelCode, Slip, printed, shown, typed
from ..report.torque_sheet import TorqueSheet
from ..said import said
from ..settings import Settings
from ..wiring import Wired
from ..wiring import wire as wired_from
from . import wire
from .forms import forms_of
from .known import Known, known_from
from .pocket_source import PocketSource


class Desk:
    """One shop's data, as the web asks for it."""

    def __init__(self, settings: Settings) -> None:
        self._wired = wired_from(settings, serving=True)

    @property
    def wired(self) -> Wired:
        """Give the shop's data opened, for rooms beside this one."""
        return self._wired

    def close(self) -> None:
        """Let the data folder go."""
        self._wired.close()

    def job(self, name: str) -> tuple[View, KnownJob]:
        """Give one job's verdict.

        Raises:
            NotFoundError: no entry names that job.
        """
        listed = require_job(self._wired.look_up, name)
        return self._wired.bench.view(name), listed

    def read(self, job: str) -> Known:
        """Give all that is known of a job.

        Raises:
            NotFoundError: no entry names that job.
        """
        view, _ = self.job(job)
        where = partial(where_is, self._wired.photos)
        return known_from(view, self._wired.journal.lines(job), where)

    def read_or_new(self, job: str) -> Known | None:
        """Give all that is known of a job, None for one that has no entry yet."""
        return self.read(job) if self._wired.look_up.job(job) else None

    def torque(self, job: str) -> TorqueSheet:
        """Give the torque sheet of a job, its wrenches judged for today.

        Raises:
            NotFoundError: no entry names that job.
        """
        wired = self._wired
        require_job(wired.look_up, job)
        return torque_sheet_of(wired.bench, wired.journal, job, on=wired.clock().date())

    def note_held(self, job: str, device: str) -> None:
        """Put down in a job how many entries of a device wait for a lead."""
        wired = self._wired
        note_held(wired.shop, job, device=device, n=wired.people.held.waiting_in(job, device))

    def pocket_source(self, job: str) -> PocketSource:
        """Give what the pocket of a job is made from.

        Raises:
            NotFoundError: no entry names that job.
        """
        wired, (view, listed) = self._wired, self.job(job)
        lines = wired.journal.lines(job)
        happened = tuple(effective(in_order(entries_of(lines))))
        near, others = wired.bench.related(job), wired.bench.open_beside(job)
        return PocketSource(view, listed, lines, happened, near, others, wired.clock().date())

    def record(self, job: str, entries: Sequence[Raw]) -> list[Line]:
        """Record entries of one job, all or none.

        Raises:
            BadInputError: an entry is unsound, or of another job.
            ConflictError: an id is taken by an entry with other content.
        """
        return list(record(self._wired.journal, self._wired.clock, entries, job=job))

    def take_photo(
        self, job: str, bring: Callable[[], bytes], *, file: str, by: str | None, device: str
    ) -> wire.PhotoOutcome:
        """Take one photo into a job, and say what became of it.

        Raises:
            NotFoundError: no entry names that job.
        """
        taken = take_in_turn(self._wired.shop, bring, job=job, by=by, hint=Hint(turn=device))
        return wire.PhotoOutcome(
            file=file,
            kept=taken.outcome != "refused",
            sentence=taken.sentence,
            forms=forms_of(taken.sentence),
            sha256=taken.sha256,
            container=taken.container,
            labels=list(taken.labels),
        )

    def original(self, sha256: str) -> bytes:
        """Give an original, byte for byte.

        Raises:
            NotFoundError: it is not here.
        """
        return self._wired.photos.original(sha256)

    def preview(self, sha256: str) -> Shown:
        """Give a photo's preview.

        Raises:
            NotFoundError: it is not here.
        """
        own = self._wired.photos.own_preview(sha256)
        found = own if own is not None else self._wired.photos.preview(sha256)
        if found is None:
            raise _no_picture(sha256)
        return Shown(found, lasting=own is not None)

    def small(self, sha256: str) -> Shown:
        """Give a photo's picture for a long list.

        Raises:
            NotFoundError: there is none, and nothing to make one of.
        """
        found = self._wired.small_pictures.of(sha256)
        if found is None:
            raise _no_picture(sha256)
        return found

    def label(self, text: str) -> wire.Label:
        """Say what a label is bound to, by its code as scanned or typed."""
        code = typed(text)
        rows = self._wired.look_up.label(text if isinstance(code, Slip) else code)
        living = next((row for row in rows if not row.retired), None)
        name = text[:60] if isinstance(code, Slip) else shown(code)
        sentence = _label_sentence(name, living, was_bound=bool(rows), slip=code)
        return wire.Label(
            code=living.label if living else text if isinstance(code, Slip) else code,
            job=living.job if living else None,
            container=living.container if living else None,
            sentence=sentence,
            forms=forms_of(sentence),
        )


def _no_picture(sha256: str) -> NotFoundError:
    return NotFoundError(
        said("There is no small picture of the photo {photo}; its original may be here.", photo=sha256[:12])
    )


def _label_sentence(name: str, living: Bound | None, *, was_bound: bool, slip: LabelCode | Slip) -> str:
    if living is not None:
        bears = {"label": name, "container": printed(living.container), "job": living.job}
        return said("{label} is on {container} of the job {job}.", **bears)
    if was_bound:
        return said("{label} was retired; it is bound to nothing any more.", label=name)
    if isinstance(slip, Slip):
        return slip.reason
    return said("{label} is bound to nothing here yet.", label=name)


def _desk(request: Request) -> Desk:
    desk: Desk = request.app.state.desk
    return desk


AtDesk = Annotated[Desk, Depends(_desk)]

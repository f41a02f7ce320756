"""Walk the sample job through the program as if it happened now: entries, photos, verdicts, day by day."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from ..finding import Severity
from ..journal import Raw, entry_from
from ..label_code import shown
from ..state.fastener_set import Reach
from ..state.job import Job
from ..vision.outcome import Look, Unusable
from .photograph import count_late, keep_original, take
from .ports import Shop
from .print_labels import Wish, print_labels
from .record import record
from .verify import Bench, View

SHEET = Wish(layout="a4-3x8", count=24)


@dataclass(frozen=True, slots=True)
class Story:
    """One job of the sample: its entries in order, and the photos that they name by SHA-256."""

    entries: Sequence[Raw]
    photos: Mapping[str, bytes]

    @property
    def job(self) -> str:
        """Name the job."""
        return str(self.entries[0]["job"])


def print_sheet(shop: Shop) -> tuple[bytes, str]:
    """Print one sheet of tray labels; give the PDF and what was printed, in words."""
    printed = print_labels(shop, SHEET)
    first, last = (shown(code) for code in (printed.codes[0], printed.codes[-1]))
    return printed.pdf, f"{len(printed.codes)} tray labels, {first} to {last}"


def take_odd(shop: Shop, opening: Sequence[Raw], photos: Mapping[str, bytes]) -> Iterator[str]:
    """Open a job for photos of all sorts and take them in; each gets its own answer."""
    record(shop.journal, shop.clock, opening)
    for name, photo in photos.items():
        yield f"    {name}: {take(shop, photo, job=str(opening[0]['job']), by='Ilse').sentence}"


def tell(shop: Shop, bench: Bench, story: Story, looks: dict[str, Look]) -> Iterator[str]:
    """Record a story day by day; give a line as each photo is read and one at each day's end.

    A photo that an earlier story showed too lies in `looks` by its SHA-256: it is counted from there.
    """
    for day, entries in groupby(story.entries, key=lambda raw: entry_from(raw).at.date()):
        todays = list(entries)
        record(shop.journal, shop.clock, todays, job=story.job)
        shown = [raw for raw in todays if raw["kind"] == "photo-added"]
        for raw in shown:
            sha256 = str(raw.get("sha256"))
            photo = story.photos.get(sha256)
            if photo is not None and shop.photos.state(sha256) != "here":
                yield f"    {_take(shop, raw, photo, looks)}"
            if sha256 in looks:
                count_late(shop, story.job, sha256, looks[sha256], entry_from(raw).at)
        yield _evening(day, bench.view(story.job), entries=len(todays), photos=len(shown))


def _take(shop: Shop, raw: Raw, original: bytes, looks: dict[str, Look]) -> str:
    """Keep a photo that an entry names, read it, and say what was read beside what the entry says."""
    reading = shop.reader.read(original, device=str(raw["device"]))
    if isinstance(reading, Unusable):
        return reading.reason
    sha256 = keep_original(shop, original, reading)
    if raw.get("container") is None:
        return f"photo {sha256[:8]}: {raw.get('element')}, {raw.get('shape')} the work; no tray, not counted"
    seen = looks[sha256] = reading.seen
    labels = ", ".join(sorted({mark.text for mark in seen.labels})) or "no label"
    agrees = {mark.text for mark in seen.labels} == set(raw.get("labels", ()))
    count = seen.count
    span = f"{count.count}" if count.low == count.high else f"{count.low} to {count.high}"
    said = (
        "as its entry says" if agrees else f"but its entry says {', '.join(raw.get('labels', ())) or 'none'}"
    )
    return f"photo {sha256[:8]}: reads {labels}, {said}; about {span} parts (an estimate)"


def _evening(day: date, view: View, *, entries: int, photos: int) -> str:
    job = view.job
    stops = sum(1 for finding in view.verdict.findings if finding.severity is Severity.STOP)
    return (
        f"  {day:%a %d %b}  {entries:3d} entries, {photos:2d} photos | {_out(job):3d} fasteners out, "
        f"{_off(job)} parts off, {_open(job)} openings open | {stops} things would stop a release"
    )


def _out(job: Job) -> int:
    return sum(len(group.of_reach(Reach.EMPTY, Reach.PARKED)) for group in job.sets.values())


def _off(job: Job) -> int:
    return sum(1 for part in job.parts.values() if not part.on)


def _open(job: Job) -> int:
    return sum(1 for opening in job.openings.values() if opening.open_since)

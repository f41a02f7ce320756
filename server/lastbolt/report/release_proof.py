"""Sections 11 to 16 of a release record: photos, corrections, custody, duties, limits, the proof."""

from __future__ import annotations

from collections.abc import Iterator

from ..journal.checking import ClockMarked, EntryReplaced, EntryVoided
from ..journal.evidence import PhotoAdded
from ..journal.order import Happened
from ..journal.people import DutySet, HandoverAccepted
from ..label_code import printed
from .custody import alone, spells
from .questions import photo_pairs
from .release_source import Source, joined, moment
from .sheet import Block, Picture, lines_of, table
from .text import LIMITS

CANNOT_KNOW = (
    "Only what was logged is known here. What was taken off and put back without a record is seen by no "
    "check; the photos from before and after and the question above are the only nets for it."
)
MOST_PICTURES = 24
HOW_TO_PROVE = (
    "To prove it later, offline: lastbolt audit JOB in the shop's data, or python check_bundle.py in the "
    "exported job. Both compute the chain of hashes anew up to the head below, compare this record, the "
    "journal and the photos with what was signed, and name the first that does not fit."
)


def photos(source: Source) -> Block:
    """Section 11: every photo with its hash; pairs and looks inside as small pictures."""
    hashes = source.hashes()
    rows = [
        (
            joined((e.shape, e.element or printed(e.container or ""))),
            moment(e.taken_at or h.time),
            e.sha256 or "its bytes never came",
        )
        for h in source.happened
        if isinstance(e := h.entry, PhotoAdded)
    ]
    return Block(
        11,
        "Photos",
        tables=table(("Shows", "Taken or entered", "SHA-256 of its bytes"), rows, (32, 18, 50)),
        pictures=tuple(pictures(source, hashes))[:MOST_PICTURES],
    )


def pictures(source: Source, hashes: dict[str, str]) -> Iterator[Picture]:
    """Give the pictures worth showing: pairs of before and after, looks inside, then what else was linked."""
    shown: set[str] = set()
    for picture in _worth_showing(source, hashes):
        if picture.sha256 not in shown:
            shown.add(picture.sha256)
            yield picture


def _worth_showing(source: Source, hashes: dict[str, str]) -> Iterator[Picture]:
    for pair in photo_pairs(source.job):
        for name, when in ((pair.before, "before"), (pair.after, "after")):
            if name and name in hashes:
                yield Picture(hashes[name], f"{pair.element}, {when}")
    for photo in source.job.photos.values():
        if photo.shape == "inside" and photo.name in hashes and not photo.rejected:
            yield Picture(hashes[photo.name], "inside")
    for name in source.job.sets:
        for photo_name in source.job.photos_of.get(name, ())[-1:]:
            if photo_name in hashes:
                yield Picture(hashes[photo_name], name)


def corrections(source: Source) -> Block:
    """Section 12: what was corrected, by whom, when and why."""
    by_id = {h.entry.id: h.entry for h in source.all_happened}
    rows = []
    for h in source.all_happened:
        e = h.entry
        if isinstance(e, EntryVoided | EntryReplaced):
            old = by_id.get(e.entry)
            about = f"{old.kind} by {old.by}" if old else f"entry {e.entry}"
            how = "voided" if isinstance(e, EntryVoided) else f"replaced: {joined(str(k) for k in e.fields)}"
            rows.append((about, how, f"{e.by}, {moment(h.time)}", e.reason))
    return Block(
        12,
        "Corrections",
        tables=table(("What", "How", "Who, when", "Why"), rows, (28, 22, 24, 26)),
        nothing="No entry was corrected.",
    )


def _written_late(h: Happened, by_memory: bool) -> str:
    how, when = (
        ("Written late", h.entry.happened_at) if by_memory else ("Sorted later from its photo", h.time)
    )
    return f"{how}: {h.entry.kind} by {h.entry.by}, happened {moment(when)}, written {moment(h.entry.at)}."


def clocks_and_custody(source: Source) -> Block:
    """Section 13: entries made late, clocks that were off, who had the machine, when nobody had."""
    by_memory = {act.id for act in source.job.late}
    late = [_written_late(h, str(h.entry.id) in by_memory) for h in source.happened if h.entry.mode == "late"]
    marks = [
        f"Clock of {e.marked_device}: {e.offset_s:+.0f} s against the server"
        f"{', order of entries changed' if e.order_flips else ''}."
        for e in source.of(ClockMarked)
    ]
    handed = [
        f"Handed over: {e.giver or '-'} to {e.by}, {moment(e.at)}." for e in source.of(HandoverAccepted)
    ]
    with_them = joined(
        (f"{s.person} {moment(s.since)} to {moment(s.until) or 'the end'}" for s in spells(source.happened)),
        none="",
    )
    nobody = joined(
        (f"{moment(gap.since)} to {moment(gap.until) or 'the end'}" for gap in alone(source.happened)),
        none="",
    )
    return Block(
        13,
        "Late entries, clocks, custody",
        lines_of(
            *late,
            *marks,
            f"Signed on: {with_them}." if with_them else "Nobody signed on.",
            f"Nobody was signed on: {nobody}." if nobody else "",
            *handed,
        ),
    )


def duties(source: Source) -> Block:
    """Section 14: what is owed after release."""
    done = {name for name, (_, _, _, is_done) in source.job.duties.items() if is_done}
    said = [
        f"{e.what}: {e.limit}{f', due {moment(e.due)}' if e.due else ''}; told to {e.told_to or 'NOBODY'}"
        f"{'; done' if e.duty in done else ''}."
        for e in source.of(DutySet)
    ]
    return Block(14, "After release", lines_of(*said), nothing="Nothing is owed after release.")


def limits(source: Source) -> Block:
    """Section 15: what such a record cannot know."""
    return Block(15, "Limits", lines_of(CANNOT_KNOW, *LIMITS))


def proof(source: Source) -> Block:
    """Section 16: what made it, and what it can be proven with."""
    maker = source.maker
    rows = [
        ("Made by", f"Lastbolt {maker.version}"),
        ("Check set, SHA-256", maker.check_set),
        ("Entries", str(len(source.lines))),
        ("Head of the chain", source.head),
        ("Public key (Ed25519)", maker.public_key or "none"),
    ]
    return Block(16, "Proof", lines_of(HOW_TO_PROVE), table(("", ""), rows, (24, 76)))

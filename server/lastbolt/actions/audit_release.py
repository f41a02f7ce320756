"""Look whether what was signed at a job's releases still fits: signatures, record, papers, head."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..errors import LastboltError
from ..journal import Line
from ..report.release_document import KeptRelease, Signed, sha256, signature_faults
from .ports import Journal
from .release_ports import Releases


@dataclass(frozen=True, slots=True)
class ReleaseAudit:
    """What was found: what does not fit, and what is to be known of the releases that do."""

    faults: tuple[str, ...]
    said: tuple[str, ...]


def audit_releases(
    journal: Journal, releases: Releases, is_signed: Signed, job: str, *, own_key: str | None = None
) -> ReleaseAudit:
    """Check every signed release of a job against its journal; without server and without network.

    `own_key` is the shop's public key: a release signed with another one is told as a fault, for whoever can
    change the records could sign them anew with a key of their own.
    """
    lines = list(journal.lines(job))
    kept = list(releases.of(job))
    faults = [fault for each in kept for fault in _faults(each, lines, releases, is_signed, own_key)]
    signed = {each.position for each in kept}
    said = [
        f"The release at place {each.position} was signed by {each.said.get('by')}, {each.said.get('at')}, "
        f"with the key {each.said.get('public_key')}."
        for each in kept
        if not signature_faults(each, is_signed)
    ]
    said += [
        f"The release at place {line.position} has no signature kept here; only its entry says so."
        + (
            " Its signing broke off; the shop that signed it finishes it at the next look at the job."
            if line.entry.get("sealed")
            else ""
        )
        for line in lines
        if line.entry.get("kind") == "release-signed" and line.position not in signed
    ]
    return ReleaseAudit(tuple(faults), tuple(said))


def _faults(
    kept: KeptRelease, lines: list[Line], releases: Releases, is_signed: Signed, own_key: str | None
) -> Iterator[str]:
    own = signature_faults(kept, is_signed)
    yield from own
    if own:
        return
    named = f"The release at place {kept.position}"
    said = kept.said
    line = lines[kept.position - 1] if kept.position <= len(lines) else None
    if line is None or line.hash != said.get("head"):
        yield f"{named}: the signed head is not that of entry {kept.position}; the journal is another."
    elif line.entry.get("kind") != "release-signed" or line.entry.get("by") != said.get("by"):
        yield f"{named}: entry {kept.position} is not the release that was signed."
    if said.get("position") != kept.position or said.get("job") != kept.job:
        yield f"{named}: what was signed is of another job or place."
    if own_key is not None and said.get("public_key") != own_key:
        yield (
            f"{named}: it was signed with another key than this shop's ({said.get('public_key')}); if "
            "another shop released it, compare that key with its paper record."
        )
    for name, expected in kept.files.items():
        try:
            fits = sha256(releases.paper(expected)) == expected
        except LastboltError:
            fits = False
        if not fits:
            yield f"{named}: {name} is missing or was changed after it was signed."

"""A plug, cap or tape is still on.

What it finds: more covers put on an opening than taken off, or a numbered cover not back.

Why it matters: a capped hose passes no oil; a covered probe reads nothing.

Example: 10 caps on, 9 off.

How to clear it: take it off, with a photo; or say that it was thrown away, with a photo.

Silent when: covers on and off balance. More off than on needs only a word.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, are, decide, evidence, pieces, stop
from ..said import said

LEVEL = 2
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each opening whose covers do not balance; while working, only once it is shut."""
    for opening in case.job.openings.values():
        left = len(opening.numbered)
        if (opening.covers == 0 and not left) or (
            case.is_live and (opening.open_since or not opening.closed)
        ):
            continue
        proof = evidence(opening.cover_act, photos=case.photos_of(opening.name))
        if opening.covers > 0 or left:
            which = ", ".join(sorted(opening.numbered))
            yield stop(
                opening.name,
                said(
                    "{covers} ({which}) {are} still on {opening}."
                    if opening.numbered
                    else "{covers} {are} still on {opening}.",
                    covers=pieces(max(opening.covers, left), "cover"),
                    which=which,
                    are=are(max(opening.covers, left)),
                    opening=opening.name,
                ),
                to_do="Take it off, with a photo.",
                proof=proof,
                never=True,
            )
        elif not case.is_live:
            yield decide(
                opening.name,
                said(
                    "{covers} more came off {opening} than went on.",
                    covers=pieces(-opening.covers, "cover"),
                    opening=opening.name,
                ),
                to_do="Count the covers; correct the record.",
                proof=proof,
            )

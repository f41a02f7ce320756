"""A part went on over something that was not ready.

What it finds: a part fitted while something under it had not reached the level it needs, with no way to
    it left open; only edges said at the machine or from a checked plan count. What a photo pair suggests is
    a note.

Why it matters: what is under a cover is what nobody looks at again.

Example: the shroud is on over a head with one bolt undone.

How to clear it: take the way in that costs least and finish it; or say, with a photo, that it was
    reached through an opening.

Silent when: one route stays open; the need is reached while a route is open; the order was only guessed.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, note, stop
from ..said import said
from ..state.covering import NEED_WORDS, is_ready, is_trusted, need_at

LEVEL = 2
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each buried element that is still not ready, or was finished without a way to it."""
    job = case.job
    for element, buried in job.buried.items():
        need = need_at(job.level, buried.edge.need)
        trusted = is_trusted(buried.edge)
        if (buried.reached or not trusted) and is_ready(job, element, need):
            continue
        build = stop if trusted else note
        yield build(
            element,
            said(
                "{part} went on over {element}, which was not {ready}.",
                part=buried.part,
                element=element,
                ready=said(NEED_WORDS[need]),
            ),
            to_do="Take the cheapest way back in and finish it, or show with a photo that it was reached.",
            proof=evidence(buried.act, photos=case.photos_of(element, buried.part)),
        )

"""Something brought in has not come out.

What it finds: a rag, lamp, peg or tool with more in than out; a tool kit counted short.

Why it matters: a rag in an intake, a peg in a timing wheel, a tool in a wing: the first turn finds it.

Example: a towel in the intake; 1 of 32 tools missing.

How to clear it: take it out, with a photo; count the kit whole.

Silent when: in and out balance.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, are, evidence, pieces, stop

LEVEL = 2
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each item still in, and each kit that is short."""
    for item in case.job.items.values():
        if item.n > 0:
            where = f" in {item.opening}" if item.opening else ""
            yield stop(
                item.name,
                f"{pieces(item.n, item.name)} {are(item.n)} still{where or ' in the machine'}.",
                to_do="Take it out, with a photo.",
                proof=evidence(item.act, photos=case.photos_of(item.name, item.opening or "")),
                never=True,
            )
    for kit, (act, whole, missing) in case.job.kits.items():
        if not whole:
            said = f": {', '.join(missing)}" if missing else ""
            yield stop(
                kit,
                f"{kit} was counted short{said}.",
                to_do="Find what is missing and count the kit again.",
                proof=evidence(act, photos=case.photos_of(kit)),
                never=True,
            )

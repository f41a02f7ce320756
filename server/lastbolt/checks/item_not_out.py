"""Something brought in has not come out.

What it finds: a rag, lamp, peg or tool with more in than out; a tool kit counted short.

Why it matters: a rag in an intake, a peg in a timing wheel, a tool in a wing: the first turn finds it.

Example: a towel in the intake; 1 of 32 tools missing.

How to clear it: take it out, with a photo; count the kit whole.

Silent when: in and out balance.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, are, evidence, items, stop
from ..said import said

LEVEL = 2
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each item still in, and each kit that is short."""
    for item in case.job.items.values():
        if item.n > 0:
            inside = "{items} {are} still in {opening}."
            anywhere = "{items} {are} still in the machine."
            yield stop(
                item.name,
                said(
                    inside if item.opening else anywhere,
                    items=items(item.n, item.name),
                    are=are(item.n),
                    opening=item.opening or "",
                ),
                to_do="Take it out, with a photo.",
                proof=evidence(item.act, photos=case.photos_of(item.name, item.opening or "")),
                never=True,
            )
    for kit, (act, whole, missing) in case.job.kits.items():
        if not whole:
            short = "{kit} was counted short: {missing}." if missing else "{kit} was counted short."
            yield stop(
                kit,
                said(short, kit=kit, missing=", ".join(missing)),
                to_do="Find what is missing and count the kit again.",
                proof=evidence(act, photos=case.photos_of(kit)),
                never=True,
            )

"""Something was bad when found, and nobody said what to do.

What it finds: a fastener found missing, loose, broken, stripped, wrong or corroded without a decision;
    one found loose also owes a cause.

Why it matters: what was bad before we came becomes our fault when it leaves; loose nuts replaced without
    asking why come loose again.

Example: the stud was broken before we came.

How to clear it: repair, replace or accept with a reason; the lead decides.

Silent when: the lead has decided it; new pieces are in all of the holes named (or as many in the set, where
    any of them fits any hole), and for a loose one its cause is written down.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence, numbers, stop
from ..journal.fasteners import FastenersFoundBad
from ..said import joined, said
from ..state.fastener_set import Act, FastenerSet

LEVEL = 1
LIVE = False

PIECES = frozenset({"broken", "wrong", "corroded", "missing"})
"""What is wrong with the piece and not with its hole: as many new pieces make it good, in whatever holes."""
UNDECIDED = "{set} was found {how} and nothing is decided."
NO_CAUSE = "{set} was found {how} and nothing is decided. Why it was loose is not written down."


def check(case: Case) -> Iterator[Finding]:
    """Name each set with undecided defects."""
    for group in case.job.sets.values():
        found = [(act, bad) for act, bad in group.found_bad if not _is_mended(group, act, bad)]
        if not found:
            continue
        how = joined(", ", [_words(bad) for _, bad in found])
        owed = any(bad.defect == "loose" and not bad.cause for _, bad in found)
        build = stop if group.critical else decide
        yield build(
            group.name,
            said(NO_CAUSE if owed else UNDECIDED, set=group.name, how=how),
            to_do="Repair, replace or accept, with the reason; for a loose one also its cause.",
            proof=evidence(*(act for act, _ in found), photos=case.photos_of(group.name)),
        )


def _words(bad: FastenersFoundBad) -> str:
    defect = said(str(bad.defect))
    return said("{defect} (hole {holes})", defect=defect, holes=numbers(bad.holes)) if bad.holes else defect


def _is_mended(group: FastenerSet, act: Act, bad: FastenersFoundBad) -> bool:
    """Tell whether work cured a defect: new pieces, for a loose one the cause too."""
    if not bad.holes or (bad.defect == "loose" and not bad.cause):
        return False
    new = [h.number for h in group.holes.values() if h.new and h.fitted and h.fitted.when > act.when]
    if set(bad.holes) <= set(new):
        return True
    is_piece = bad.defect in PIECES and not (group.described and group.described.types)
    return is_piece and len(new) >= len(_bad_pieces(group))


def _bad_pieces(group: FastenerSet) -> set[int]:
    return {number for _, bad in group.found_bad if bad.defect in PIECES for number in bad.holes}

"""Nobody but the doer has looked at a critical set.

What it finds: a set that wants a second person, worked on, with no good look after the last tightening
    by somebody who fitted or tightened none of it.

Why it matters: the eye that made the mistake does not see it.

Example: Eva checked Eva.

How to clear it: a second person looks. Alone in a shop, look again 30 minutes after the work or later, with
    a night or work on another job between, and try the torque again or take a photo from another angle; it
    is recorded as a look by the same person. Then the lead writes why it is enough. For licensed work it
    never is.

Silent when: the set was not touched.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence, stop
from ..said import joined, said
from ..state.fastener_set import Act, FastenerSet, was_touched
from ..state.later_look import LaterLook, last_done, own_looks, tried_how, was_elsewhere
from ..state.second_look import is_set_seen

LEVEL = 3
LIVE = False
SOMEBODY_ELSE = "Somebody who did none of it looks, and records it."
ENOUGH = (
    "Somebody who did none of it looks, and records it; in a shop of one the lead writes why this is enough."
)

TORQUE_OR_PHOTO = (
    "Somebody who did none of it looks, and records it; or {who} looks again and tries the torque again, or "
    "takes a photo from another angle."
)
PHOTO = (
    "Somebody who did none of it looks, and records it; or {who} looks again and takes a photo from another "
    "angle."
)


def check(case: Case) -> Iterator[Finding]:
    """Name each critical set without a second person's look."""
    again = {group.name: (group, done, look) for group, done, look in own_looks(case.job)}
    for group in case.job.sets.values():
        wanted = group.critical or bool(group.described and group.described.second_person)
        if not wanted or not was_touched(group) or not group.fitted_by:
            continue
        if is_set_seen(case.job, group):
            continue
        looks = case.job.second_checks.get(group.name, [])
        told, to_do, counts = (
            _again(case, *again[group.name]) if group.name in again else ("", SOMEBODY_ELSE, False)
        )
        build = stop if group.critical and not counts else decide
        missing = said(
            "{set} was tightened by {people} and no second person has looked since.",
            set=group.name,
            people=", ".join(sorted(group.fitted_by)),
        )
        yield build(
            group.name,
            joined(" ", [missing, told] if told else [missing]),
            to_do=to_do,
            proof=evidence(
                last_done(group), *(act for act, _, _ in looks), photos=case.photos_of(group.name)
            ),
        )


def _again(case: Case, group: FastenerSet, done: Act, look: Act) -> tuple[str, str, bool]:
    """Say what a look by the doer is worth, what is to be done, and whether the lead's word may stand for it."""
    elsewhere = was_elsewhere(case.others, look.by, done.time, look.time)
    later = LaterLook(done.time, look.time, elsewhere)
    who, when = look.by, f"{look.time:%Y-%m-%d %H:%M}"
    if not later.counts:
        told = said("{who} looked again too soon ({when}).", who=who, when=when)
        return told, _from_when(who, later), False
    tried = tried_how(case.job, group, done, look)
    if case.job.is_licensed:
        return said("{who} looked again later ({when}).", who=who, when=when), SOMEBODY_ELSE, False
    if tried == "torque":
        return said("{who} tried the torque again later ({when}).", who=who, when=when), ENOUGH, True
    if tried == "photo":
        told = said("{who} looked again later, with a photo from another angle ({when}).", who=who, when=when)
        return told, ENOUGH, True
    told = said("{who} looked again later ({when}), and did no more than look.", who=who, when=when)
    return told, said(TORQUE_OR_PHOTO if group.has_value else PHOTO, who=who), False


def _from_when(who: str, later: LaterLook) -> str:
    return said(
        "Somebody who did none of it looks, and records it; a later look by {who} counts from {rest} after "
        "work on another job, else from {night}.",
        who=who,
        rest=f"{later.from_rest:%Y-%m-%d %H:%M}",
        night=f"{later.from_night:%Y-%m-%d %H:%M}",
    )

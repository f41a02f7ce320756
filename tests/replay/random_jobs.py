"""Whole jobs made by chance and finished cleanly: nothing may be said of them, and one entry less must be named."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from random import Random
from typing import Any, NamedTuple

from tests.builders import Line, Told, e

Mark = tuple[str, str]


class Act(NamedTuple):
    """One entry, and what is said if it is never recorded: check and severity."""

    line: Line
    missed: Mark | None = None


class Element(NamedTuple):
    """A thing of the machine: what is said of it beforehand, how it comes apart, how it goes together."""

    name: str
    standing: list[Line]
    apart: list[Act]
    together: list[Act]


class CleanJob(NamedTuple):
    """A job as recorded, and for each restoring entry the check, element and severity that its loss raises."""

    told: Told
    missed: dict[str, tuple[str, str, str]]


def a_set(random: Random, name: str) -> Element:
    n = random.randint(1, 12)
    stages, critical, locked = random.randint(1, 3), random.random() < 0.4, random.random() < 0.3
    valued, in_two_bags = random.random() < 0.6, n > 1 and random.random() < 0.3
    standing = [
        e("set-described", set=name, n=n, type="M8x1.25x30", part=name, critical=critical, gasketed=random.random() < 0.3, locking="split-pin" if locked else None),
        e("part-described", part=name),
    ]  # fmt: skip
    if valued:
        standing.append(
            e("spec-entered", set=name, min_nm=20, max_nm=25, stage_count=stages, source="maker's manual")
        )
    first = random.randint(1, n - 1) if in_two_bags else n
    shares = [(f"{name} bag 1", first)] + ([(f"{name} bag 2", n - first)] if in_two_bags else [])
    apart = [Act(e("fasteners-removed", set=name, n=k, to=bag)) for bag, k in shares]
    apart.append(Act(e("part-removed", part=name)))
    together = [Act(e("part-fitted", part=name), ("part-not-back-on", "B"))]
    together += [
        Act(e("fasteners-fitted", set=name, n=k, source=bag), ("hole-empty", "B")) for bag, k in shares
    ]
    for stage in range(1, stages + 1) if valued else ():
        missed = ("torque-missing", "B") if stage == stages else ("stage-or-sequence", "B")
        value = 22 if stage == stages else 5 * stage
        together.append(Act(e("fasteners-tightened", set=name, stage=stage, value_nm=value), missed))
    if locked:
        together.append(
            Act(e("locking-fitted", set=name, n=n, locking="split-pin"), ("locking-missing", "B"))
        )
    if critical:
        together.append(Act(e("second-checked", by="Ida", elements=[name]), ("second-person-missing", "B")))
    return Element(name, standing, apart, together)


def a_single_use_set(random: Random, name: str) -> Element:
    n = random.randint(1, 4)
    bag = f"{name} bag"
    return Element(
        name,
        [e("set-described", set=name, n=n, type="M10x1.5x40", single_use=True)],
        [Act(e("fasteners-removed", set=name, n=n, to=bag))],
        [
            Act(e("fasteners-fitted", set=name, n=n, source="NEW"), ("hole-empty", "B")),
            Act(e("fasteners-moved", set=name, n=n, source=bag, to="SCRAP"), None),
        ],
    )


def a_connection(random: Random, name: str) -> Element:
    return Element(
        name,
        [e("connection-described", connection=name, has_clamp=random.random() < 0.5)],
        [Act(e("connection-parted", connection=name))],
        [Act(e("connection-made", connection=name), ("not-reconnected", "B"))],
    )


def an_opening(random: Random, name: str) -> Element:
    mouths, stuffed = random.randint(1, 4), random.random() < 0.3
    covers = [f"{name} cover {k}" for k in range(mouths)] if random.random() < 0.5 else None
    apart = [
        Act(e("opening-opened", opening=name)),
        Act(e("opening-covered", opening=name, n=None if covers else mouths, covers=covers)),
    ]
    together = [
        Act(
            e("opening-uncovered", opening=name, n=None if covers else mouths, covers=covers),
            ("cover-left-on", "B!"),
        ),
        Act(e("looked-inside", opening=name), ("not-looked-inside", "B")),
        Act(e("opening-closed", opening=name), ("opening-left-open", "B!")),
    ]
    if stuffed:
        apart.append(Act(e("item-brought-in", item="towel", opening=name)))
        together.insert(
            0, Act(e("item-taken-out", item="towel", opening=name), ("closed-over-an-item", "B!"))
        )
    return Element(name, [e("opening-described", opening=name, mouths=mouths)], apart, together)


def a_fluid(random: Random, name: str) -> Element:
    litres = random.randint(1, 40)
    return Element(
        name,
        [e("fluid-described", fluid=name, capacity_l=litres + random.randint(0, 3))],
        [Act(e("fluid-drained", fluid=name, litres=litres))],
        [
            Act(e("fluid-filled", fluid=name, litres=litres), ("fluid-not-back", "B!")),
            Act(e("fluid-checked", fluid=name), ("fluid-not-back", "L")),
        ],
    )


def a_setting(random: Random, name: str) -> Element:
    value = random.randint(1, 50)
    return Element(
        name,
        [e("setting-described", setting=name, tolerance=1)],
        [Act(e("setting-found", setting=name, value=value))],
        [
            Act(
                e("setting-set", setting=name, value=value + random.choice([-1, 0, 1])),
                ("setting-not-restored", "L"),
            )
        ],
    )


def a_renewal(random: Random, name: str) -> Element:
    n = random.randint(1, 3)
    return Element(
        name,
        [e("renewal-needed", renewal=name, n=n, see_old_off=True)],
        [Act(e("renewal-seen-off", renewal=name, n=n), ("old-seal-or-consumable", "L"))],
        [Act(e("renewal-fitted", renewal=name, n=n), ("old-seal-or-consumable", "B"))],
    )


def latches(random: Random, name: str) -> Element:
    points = random.randint(1, 6)
    return Element(
        name,
        [e("set-described", set=name, n=points, captive=True)],
        [Act(e("captive-released", set=name, points=points))],
        [Act(e("captive-shut", set=name, points=points), ("loosened-and-left", "B"))],
    )


def a_clamp(random: Random, name: str) -> Element:
    return Element(
        name,
        [e("set-described", set=name, n=random.randint(1, 3), loosened_only=True)],
        [Act(e("fasteners-loosened", set=name))],
        [Act(e("fasteners-retightened", set=name), ("loosened-and-left", "B"))],
    )


MAKERS: Sequence[Callable[[Random, str], Element]] = (
    a_set, a_set, a_single_use_set, a_connection, an_opening, a_fluid, a_setting, a_renewal, latches, a_clamp,
)  # fmt: skip


def behind_a_cover(random: Random, inner: list[Element]) -> Element:
    """Put elements behind a cover that must go on last, guarded by a hold point."""
    name = "COVER"
    standing = [line for element in inner for line in element.standing]
    standing += [e("access-said", part=name, element=x.name, need="placed") for x in inner]
    standing.append(e("hold-described", hold="LOOK UNDER IT", before=name))
    apart = [Act(e("part-removed", part=name)), *mixed(random, [element.apart for element in inner])]
    together = mixed(random, [element.together for element in inner])
    together.append(Act(e("hold-released", by="Lee", hold="LOOK UNDER IT"), ("hold-point-passed", "B")))
    together.append(Act(e("part-fitted", part=name), ("part-not-back-on", "B")))
    return Element(name, standing, apart, together)


def mixed(random: Random, sequences: list[list[Act]]) -> list[Act]:
    """Interleave by chance; each sequence keeps its own order."""
    turns = [number for number, sequence in enumerate(sequences) for _ in sequence]
    random.shuffle(turns)
    waiting = [iter(sequence) for sequence in sequences]
    return [next(waiting[number]) for number in turns]


def clean_job(random: Random, *, without: int | None = None) -> CleanJob:
    """Make a job by chance, record it whole; `without` leaves the k-th restoring entry out."""
    made = [random.choice(MAKERS)(random, f"E{k}") for k in range(random.randint(1, 6))]
    elements = made
    if random.random() < 0.4:
        inner = [x for x in made if x.name in ("E0", "E1")]
        elements = [behind_a_cover(random, inner), *(x for x in made if x not in inner)]
    isolated, tested, handed_over = (random.random() < 0.5 for _ in range(3))
    apart = mixed(random, [x.apart for x in elements])
    together = mixed(random, [x.together for x in elements])
    told = Told(level=3)
    missed: dict[str, tuple[str, str, str]] = {}
    phones = random.randint(1, 3)
    owed = [act for act in together if act.missed] + ([TEST] if tested else []) + ([LIFT] if isolated else [])
    left_out = owed[without % len(owed)] if without is not None else None

    def record(act: Act, by: str) -> None:
        kind, fields = act.line
        if act is left_out:
            missed["left out"] = (
                (act.missed[0], subject_of(fields), act.missed[1]) if act.missed else ("", "", "")
            )
            return
        told.say(kind, device=f"phone {random.randint(1, phones)}", **({"by": by} | fields))

    for line in [line for x in elements for line in x.standing] + (
        [e("test-described", test="RUN", scope=[x.name for x in made])] if tested else []
    ):
        told.say(line[0], after=0, **line[1])
    start = [Act(e("signed-on"))] + (
        [Act(e("isolation-applied", isolation="MAINS")), Act(e("isolation-proven", isolation="MAINS"))]
        if isolated
        else []
    )
    for act in [*start, *apart]:
        record(act, "Ana")
    by = "Ana"
    if handed_over:
        by = "Ben"
        told.say("signed-off", by="Ana", why="shift")
        told.say("signed-on", by="Ben", after=5)
        bags = sorted({line["to"] for line in told.raws if line["kind"] == "fasteners-removed"})
        told.say("handover-accepted", by="Ben", giver="Ana", containers=bags)
        if isolated:
            told.say("isolation-transferred", by="Ben", isolation="MAINS", to="Ben")
    for act in [*together, *([LIFT] if isolated else []), *([TEST] if tested else [])]:
        record(act, by)
    told.say("release-asked", by="Lee", nothing_else_apart=True)
    return CleanJob(told, missed)


LIFT = Act(e("isolation-removed", isolation="MAINS"), ("isolation-left-or-lifted-wrong", "B!"))
TEST = Act(e("test-run", test="RUN", passed=True), ("test-missing-or-stale", "B"))


def subject_of(fields: dict[str, Any]) -> str:
    """Name the element of an entry."""
    named = (
        "set",
        "part",
        "connection",
        "opening",
        "fluid",
        "setting",
        "renewal",
        "hold",
        "isolation",
        "test",
    )
    return str(next((fields[key] for key in named if key in fields), (fields.get("elements") or ["?"])[0]))

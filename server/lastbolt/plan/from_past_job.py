"""A finished job as the plan of the next machine of its type, and what differs on that one (practice 8.7)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ..journal import AnyEntry, raw_from
from ..journal.envelope import Envelope
from ..journal.fastener_type import FastenerType
from ..state.fastener_set import FastenerSet
from ..state.job import Job

SAID, SEEN_ONCE, SEEN_TWICE = 3, 1, 2
"""Strengths of an edge: said at the machine; in a plan after one job; in a plan after two."""
MORE_OUT = "more came out than the set has"
"""How the fold says that a set has more holes than was known."""
COMPARED = {
    "n": "how many",
    "type": "type",
    "types": "types hole by hole",
    "part": "what it holds",
    "single_use": "single-use",
    "locking": "locking",
    "mouths": "mouths",
    "part_number": "part number",
    "grade": "grade",
}
"""What is compared between plan and machine, with its words."""


@dataclass(frozen=True, slots=True)
class PlanElement:
    """One thing that a plan expects: the kind of entry that describes it, its name, the entry's fields."""

    kind: str
    name: str
    fields: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Plan:
    """What to expect of a machine: its elements, from which jobs, and what was touched in them.

    A plan holds no confirmation: nothing fitted, tightened, looked at or signed is in it, and its values are
    to be read again off the maker's page.
    """

    name: str
    version: str
    jobs: tuple[str, ...]
    elements: tuple[PlanElement, ...]
    touched: tuple[str, ...]

    def fields_of(self, kind: str, name: str) -> Mapping[str, Any]:
        """Give an element's fields; empty when the plan does not know it."""
        return next((e.fields for e in self.elements if (e.kind, e.name) == (kind, name)), {})

    @property
    def entries(self) -> tuple[dict[str, Any], ...]:
        """Give the plan as entries without their envelope, its adoption first: what a new job records."""
        adopted = {"kind": "plan-adopted", "plan": self.name, "version": self.version}
        return (
            adopted | {"elements": list(self.touched)},
            *({"kind": e.kind, **e.fields} for e in self.elements),
        )


@dataclass(frozen=True, slots=True)
class Difference:
    """Where this machine is not as the plan has it; to be kept as found."""

    element: str
    what: str
    planned: str
    found: str

    @property
    def sentence(self) -> str:
        """Say it in one sentence.

        >>> Difference("MANIFOLD BOLTS", "how many", "8", "9").sentence
        'MANIFOLD BOLTS, how many: 8 in the plan, 9 on this machine.'
        """
        return f"{self.element}, {self.what}: {self.planned} in the plan, {self.found} on this machine."


def plan_from(jobs: Sequence[Job], *, name: str, version: str = "1", checked: bool = False) -> Plan:
    """Make a plan from finished jobs on machines of one type, the newest last: its word counts.

    An edge of the access map is relied on (strength 2) when two of the jobs said it at the machine or the
    lead `checked` the plan; after one job it is only a hint.
    """
    found: dict[tuple[str, str], PlanElement] = {}
    for job in jobs:
        for element in (*_elements(job), *_specs(job)):
            found[element.kind, element.name] = element
    edges = _edges(jobs, checked=checked)
    touched = dict.fromkeys(name for job in jobs for name in sorted(_expected(job)))
    return Plan(name, version, tuple(job.name for job in jobs), (*found.values(), *edges), tuple(touched))


def _expected(job: Job) -> set[str]:
    return {name for name in job.touched if name in job.sets or name in job.parts or name in job.connections}


def _bare(entry: AnyEntry) -> dict[str, Any]:
    """Give an entry's own fields: no time, no author, no photos."""
    return {k: v for k, v in raw_from(entry).items() if k != "kind" and k not in Envelope.model_fields}


def _elements(job: Job) -> Iterator[PlanElement]:
    """Describe everything of a job: as somebody described it, else as it came up by doing."""
    for group in job.sets.values():
        yield PlanElement("set-described", group.name, set_fields(job, group))
    kinds: tuple[tuple[str, str, Mapping[str, Any]], ...] = (
        ("part-described", "part", job.parts),
        ("connection-described", "connection", job.connections),
        ("opening-described", "opening", job.openings),
        ("fluid-described", "fluid", job.fluids),
        ("isolation-described", "isolation", job.isolations),
        ("setting-described", "setting", job.settings),
    )
    for kind, field, things in kinds:
        for name, thing in things.items():
            known = _bare(thing.described) if thing.described else {field: name}
            mouths = {"mouths": thing.mouths} if kind == "opening-described" else {}
            yield PlanElement(kind, name, known | mouths)
    yield from _renewals(job)
    yield from _looks(job)


def _renewals(job: Job) -> Iterator[PlanElement]:
    for renewal in job.renewals.values():
        born = {"renewal": renewal.name, "n": max(renewal.fitted, 1)}
        known = _bare(renewal.needed) if renewal.needed else born
        yield PlanElement("renewal-needed", renewal.name, {k: v for k, v in known.items() if k != "lot"})


def _looks(job: Job) -> Iterator[PlanElement]:
    """Describe hold points and tests: what is to be looked at and run, not that it was."""
    for hold in job.holds.values():
        said = {"hold": hold.name, "before": hold.before, "witness_only": hold.witness_only}
        more = {"role_wanted": hold.role_wanted, "text": hold.text}
        if hold.before:
            yield PlanElement("hold-described", hold.name, said | {k: v for k, v in more.items() if v})
    for test in job.tests.values():
        yield PlanElement("test-described", test.name, {"test": test.name, "scope": list(test.scope)})


def set_fields(job: Job, group: FastenerSet) -> dict[str, Any]:
    """Describe a set with as many holes as it turned out to have, and the type seen if none was said."""
    known = _bare(group.described) if group.described else {"set": group.name}
    seen = Counter(
        lot.type for name in job.ledger.accounts for lot in job.ledger.lots(name) if lot.set == group.name
    )
    seen.update(str(hole.type) for hole in group.holes.values() if hole.type)
    seen.pop("", None)
    if "type" not in known and "types" not in known and seen:
        known["type"] = seen.most_common(1)[0][0]
    more = sum(odd.n for odd in job.oddities if odd.subject == group.name and odd.what.startswith(MORE_OUT))
    return known | {"n": max(len(group.holes) + more, 1)}


def _specs(job: Job) -> Iterator[PlanElement]:
    for group in job.sets.values():
        if group.spec is not None and group.superseded is None:
            yield PlanElement("spec-entered", group.name, _bare(group.spec))


def _edges(jobs: Sequence[Job], *, checked: bool) -> Iterator[PlanElement]:
    said: dict[tuple[str, str, str | None, bool], list[AnyEntry]] = {}
    for job in jobs:
        for edge in job.access:
            said.setdefault((edge.part, edge.element, edge.route, edge.shape_only), []).append(edge)
    for (part, element, _, _), edges in said.items():
        at_machine = sum(1 for edge in edges if getattr(edge, "strength", 0) == SAID)
        strongest = max(getattr(edge, "strength", 0) for edge in edges)
        relied_on = at_machine >= SEEN_TWICE or strongest == SEEN_TWICE or (checked and at_machine)
        strength = SEEN_TWICE if relied_on else min(strongest, SEEN_ONCE)
        yield PlanElement("access-said", f"{part} over {element}", _bare(edges[-1]) | {"strength": strength})


def differences(plan: Plan, job: Job) -> tuple[Difference, ...]:
    """Compare the machine as found with the plan: counts, types, what holds what, what is there at all.

    Only what was touched on this machine is compared; what the plan expects and nobody touched is for the
    check plan-step-never-touched.
    """
    found: list[Difference] = []
    known = {(e.kind, e.name) for e in plan.elements}
    for element in _elements(job):
        if element.name not in job.touched:
            continue
        if (element.kind, element.name) not in known:
            found.append(Difference(element.name, "is it there", "no", "yes"))
            continue
        planned = plan.fields_of(element.kind, element.name)
        found += [
            Difference(element.name, words, _said(planned.get(field)), _said(element.fields.get(field)))
            for field, words in COMPARED.items()
            if _said(planned.get(field)) != _said(element.fields.get(field))
        ]
    return tuple(found)


def _said(value: object) -> str:
    """Write a field's value in words; a type the short way."""
    if isinstance(value, Mapping) and value.keys() & {"diameter_mm", "part_number"}:
        return str(FastenerType.model_validate(value))
    if isinstance(value, Mapping):
        return ", ".join(f"{key}: {_said(value[key])}" for key in sorted(value, key=str))
    words = {None: "not said", True: "yes", False: "no"}
    return words[value] if value is None or isinstance(value, bool) else str(value)

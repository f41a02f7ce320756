"""What is true of one job now: every element, the ledger, people, decisions, and oddities not placed."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import NamedTuple

from ..journal.checking import FindingDecided
from ..journal.entries import AnyEntry
from ..journal.machine import AccessSaid
from ..journal.people import JobOpened
from .elements import (
    Buried,
    Connection,
    Container,
    Device,
    Fluid,
    FunctionTest,
    Hold,
    Isolation,
    Item,
    Opening,
    Part,
    Photo,
    Renewal,
    Setting,
    Wrench,
)
from .fastener_set import Act, FastenerSet
from .ledger import Ledger
from .strays import Find, Loss


class Oddity(NamedTuple):
    """An entry that contradicts what was logged before it: something went unrecorded."""

    subject: str
    what: str
    n: int
    act: Act


class Turned(NamedTuple):
    """Two devices whose entries about a thing change places when clocks are set right; the later entry."""

    subject: str
    one: str
    other: str
    act: Act


class Decided(NamedTuple):
    """The lead's word on a finding."""

    act: Act
    entry: FindingDecided


@dataclass(slots=True)
class Job:
    """The state of one job; built by the fold, read-only afterwards."""

    name: str
    opened: JobOpened | None = None
    level: int = 3
    now: datetime | None = None
    entries: int = 0
    late: list[Act] = field(default_factory=list)
    ledger: Ledger = field(default_factory=Ledger)
    sets: dict[str, FastenerSet] = field(default_factory=dict)
    parts: dict[str, Part] = field(default_factory=dict)
    connections: dict[str, Connection] = field(default_factory=dict)
    openings: dict[str, Opening] = field(default_factory=dict)
    items: dict[tuple[str, str | None], Item] = field(default_factory=dict)
    kits: dict[str, tuple[Act, bool, tuple[str, ...]]] = field(default_factory=dict)
    isolations: dict[str, Isolation] = field(default_factory=dict)
    fluids: dict[str, Fluid] = field(default_factory=dict)
    renewals: dict[str, Renewal] = field(default_factory=dict)
    settings: dict[str, Setting] = field(default_factory=dict)
    losses: dict[str, Loss] = field(default_factory=dict)
    finds: dict[str, Find] = field(default_factory=dict)
    containers: dict[str, Container] = field(default_factory=dict)
    wrenches: dict[str, Wrench] = field(default_factory=dict)
    holds: dict[str, Hold] = field(default_factory=dict)
    tests: dict[str, FunctionTest] = field(default_factory=dict)
    photos: dict[str, Photo] = field(default_factory=dict)
    devices: dict[str, Device] = field(default_factory=dict)
    labels: dict[str, dict[str, Act]] = field(default_factory=dict)
    retired: dict[str, Act] = field(default_factory=dict)
    access: list[AccessSaid] = field(default_factory=list)
    buried: dict[str, Buried] = field(default_factory=dict)
    touched: dict[str, Act] = field(default_factory=dict)
    hands: dict[str, set[str]] = field(default_factory=lambda: defaultdict(set))
    recorded: dict[str, Act] = field(default_factory=dict)
    latest_said: dict[str, tuple[datetime, str]] = field(default_factory=dict)
    curing: dict[str, tuple[Act, datetime]] = field(default_factory=dict)
    tested_wet: dict[str, tuple[Act, str]] = field(default_factory=dict)
    turned: list[Turned] = field(default_factory=list)
    named_photos: set[str] = field(default_factory=set)
    photos_of: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    oddities: list[Oddity] = field(default_factory=list)
    unplaced: list[AnyEntry] = field(default_factory=list)
    decisions: dict[tuple[str, str], Decided] = field(default_factory=dict)
    corrected: dict[str, Act] = field(default_factory=dict)
    signed_on: dict[str, Act] = field(default_factory=dict)
    workers: dict[str, Act] = field(default_factory=dict)
    at_work: dict[str, list[datetime]] = field(default_factory=lambda: defaultdict(list))
    shift_ended: Act | None = None
    alone_since: Act | None = None
    gaps: dict[str, Act] = field(default_factory=dict)
    offered: Act | None = None
    interrupted: dict[str, Act] = field(default_factory=dict)
    steps_done: dict[str, tuple[Act, tuple[str, ...]]] = field(default_factory=dict)
    steps_started: dict[str, Act] = field(default_factory=dict)
    people: dict[str, tuple[str, ...]] = field(default_factory=dict)
    licences: dict[str, dict[str, date]] = field(default_factory=lambda: defaultdict(dict))
    tried_again: set[str] = field(default_factory=set)
    second_checks: dict[str, list[tuple[Act, str, str]]] = field(default_factory=lambda: defaultdict(list))
    linked_jobs: set[str] = field(default_factory=set)
    plan_elements: set[str] = field(default_factory=set)
    duties: dict[str, tuple[Act, str | None, datetime | None, bool]] = field(default_factory=dict)
    machine_scans: list[tuple[Act, str]] = field(default_factory=list)
    released: Act | None = None
    ended: Act | None = None
    asked: list[Act] = field(default_factory=list)
    touched_after_release: dict[str, Act] = field(default_factory=dict)
    reopened: Act | None = None
    nothing_else_apart: bool | None = None
    first_work: Act | None = None

    @property
    def changed_after_release(self) -> Act | None:
        """Give the first work since the release was signed, if there was any."""
        return next(iter(self.touched_after_release.values()), None)

    def is_lead(self, person: str, role: str) -> bool:
        """Tell whether somebody is a lead, in the act or on record; of a stranger nothing is held."""
        roles = self.people.get(person)
        return role == "lead" or roles is None or "lead" in roles

    @property
    def machine(self) -> str:
        """Name the machine, empty when the job was never opened."""
        return self.opened.machine if self.opened else ""

    @property
    def is_licensed(self) -> bool:
        """Tell whether it is licensed work, never left to a later look at one's own (practice 5.10)."""
        return bool(self.opened and self.opened.licensed)

    @property
    def is_practice(self) -> bool:
        """Tell whether it is only for learning."""
        return self.opened is not None and self.opened.practice

    def set_named(self, name: str) -> FastenerSet:
        """Give a set, made on first mention: sets are born by doing."""
        group = self.sets.get(name)
        if group is None:
            group = self.sets[name] = FastenerSet(name)
        return group

    def container_named(self, name: str) -> Container:
        """Give a container, made on first mention."""
        if name not in self.containers:
            self.containers[name] = Container(name)
        return self.containers[name]


def touched_since(job: Job, test: FunctionTest) -> list[str]:
    """Name what was touched of a test's scope since it was run: it proves nothing of that any more."""
    run = test.run
    worked = [(name, job.touched[name]) for name in test.scope if name in job.touched]
    return [name for name, act in worked if run is None or act.when > run.when]

"""What a lead does about people and devices: add, change, cut off, let back; and the first lead of all."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from ..errors import BadInputError, ConflictError, NotAllowedError, NotFoundError
from ..journal import Raw
from ..roster import Deed, Device, LastEntry, Person
from ..said import said
from ..state.fold import SUBJECT_FIELDS
from ..state.ledger import VIRTUAL, account_named
from . import tokens
from .pins import Hashing, sound
from .ports import Clock, Rows, written
from .rights import ROLES
from .sign_in import Asking, Opened, SignIn
from .visit import folded

LONGEST_NAME = 60


@dataclass(frozen=True, slots=True)
class DeviceLine:
    """A device as the lead sees it: what it is, and the last that the journal has of it."""

    device: Device
    last: LastEntry | None
    held: int


class ShopPeople:
    """Changes people and devices; `by` is the lead who does it, or the server's own command line."""

    def __init__(self, rows: Rows, hashing: Hashing, clock: Clock, sign_in: SignIn) -> None:
        self._rows, self._hashing, self._clock, self._sign_in = rows, hashing, clock, sign_in

    def all(self) -> list[tuple[Person, int]]:
        """Give everybody, each with the number of failed tries from devices that are not known."""
        failed = self._rows.people.failed_tries()
        return [(person, failed.get(person.key, 0)) for person in self._rows.people.people()]

    def deeds(self) -> list[Deed]:
        """Give what was done to people and devices, the newest first."""
        return list(self._rows.people.deeds())

    def add(self, name: str, role: str, secret: str, *, by: str) -> Person:
        """Add a person.

        Raises:
            BadInputError: the name, role or PIN cannot be used.
            ConflictError: there is somebody of that name.
        """
        person = self._made(name, role, secret)
        self._rows.people.add(person, by=by)
        return person

    def set_role(self, name: str, role: str, *, by: str) -> None:
        """Raise or lower a person.

        Raises:
            NotAllowedError: the last lead would be gone.
        """
        person = self._here(name)
        _one_of_the_roles(role)
        if role != "lead":
            self._leave_a_lead(person)
        self._change(person, "role", role, act=f"made {role}", by=by)

    def set_secret(self, name: str, secret: str, *, by: str) -> None:
        """Give a person a new PIN: failed tries are cleared, and every device asks for the new one."""
        person, now = self._here(name), written(self._clock())
        self._change(person, "secret", self._hashing.hashed(sound(secret)), act="given a new PIN", by=by)
        self._rows.people.clear_tries(person=person.key)
        for device in self._rows.devices.all():
            self._rows.devices.sign_out(device.device, now, person=person.key)

    def clear_tries(self, name: str, *, by: str) -> None:
        """Forget a person's failed tries."""
        person = self._here(name)
        self._rows.people.clear_tries(person=person.key)
        self._note(by, "cleared of failed tries", person.name)

    def leave(self, name: str, *, by: str) -> None:
        """Let a person go: nobody signs in under that name again; what they recorded stands.

        Raises:
            NotAllowedError: the last lead would be gone.
        """
        person = self._here(name)
        self._leave_a_lead(person)
        self._change(person, "gone", written(self._clock()), act="left the shop", by=by)

    def devices(self) -> list[DeviceLine]:
        """Give the devices, the one seen last first."""
        held = [row.device for row in self._rows.held.waiting()]
        return [
            DeviceLine(each, self._rows.devices.last_entry(each.device), held.count(each.device))
            for each in self._rows.devices.all()
        ]

    def devices_of(self, name: str) -> list[str]:
        """Name the devices on which a person is signed in."""
        key = self._here(name).key
        return [
            each.device
            for each in self._rows.devices.all()
            if any(on.key == key and on.out_at is None for on in each.people)
        ]

    def last_seq(self, device: str) -> int:
        """Give the highest number that the journal has of a device, 0 for none."""
        last = self._rows.devices.last_entry(device)
        return last.seq if last else 0

    def entries_of(self, device: str) -> list[tuple[str, str]]:
        """Give the job and raw text of each entry of a device.

        Raises:
            NotFoundError: there is no such device.
        """
        return list(self._rows.devices.touched(self._device(device).device))

    def end_device(self, device: str, *, by: str, lost: bool = False) -> None:
        """Cut a device off; what it sends later is held until a lead has looked at it."""
        found, now = self._device(device), written(self._clock())
        self._rows.devices.put(replace(found, ended=now, ended_by=by, lost=lost))
        self._rows.devices.sign_out(found.device, now)
        self._note(by, "reported lost and cut off" if lost else "signed out from afar", found.device)

    def is_lost(self, device: str) -> bool:
        """Tell whether a device was reported lost and not found again.

        Raises:
            NotFoundError: there is no such device.
        """
        return self._device(device).lost

    def let_back(self, device: str, *, by: str) -> None:
        """Let a device that was reported lost sign in again."""
        found = self._device(device)
        self._rows.devices.put(replace(found, lost=False))
        self._note(by, "found again, may sign in", found.device)

    def first_code(self) -> str | None:
        """Make a new code for the first lead and give it; None where there is a lead already."""
        if self._rows.people.leads():
            return None
        code = tokens.new_code()
        self._rows.people.put_first_code(tokens.kept(code), written(self._clock()))
        return code

    def needs_first_lead(self) -> bool:
        """Tell whether nobody is a lead yet."""
        return not self._rows.people.leads()

    def first_lead(self, code: str, name: str, secret: str, asking: Asking) -> Opened:
        """Make the first lead, who has the code that the server printed, and let them in.

        Raises:
            NotAllowedError: the code is wrong or spent.
            WaitError: too many tries.
        """
        self._sign_in.count_code(asking)
        kept = tokens.kept(tokens.plain_code(code))
        if self._rows.people.leads() or kept != self._rows.people.first_code():
            raise NotAllowedError(
                "That code is not the one that the server printed, or it is spent. Starting the server again "
                "prints a new one while there is no lead."
            )
        person = self._made(name, "lead", secret)
        self._rows.people.add(person, by="the code that the server printed", code=kept)
        return self._sign_in.let_in(person.key, asking)

    def _made(self, name: str, role: str, secret: str) -> Person:
        plain = " ".join(name.split())
        if not 0 < len(plain) <= LONGEST_NAME or not plain.isprintable():
            raise BadInputError(said("a name has 1 to {n} letters", n=LONGEST_NAME))
        _one_of_the_roles(role)
        kept = self._hashing.hashed(sound(secret))
        return Person(folded(plain), plain, role, kept, written(self._clock()))

    def _here(self, name: str) -> Person:
        person = self._rows.people.person(folded(name))
        if person is None or person.gone:
            raise NotFoundError(
                said("there is nobody called {name} here; `lastbolt people list` names all", name=name)
            )
        return person

    def _device(self, device: str) -> Device:
        found = self._rows.devices.named(device)
        if found is None:
            raise NotFoundError(said("there is no device called {device}", device=device))
        return found

    def _leave_a_lead(self, person: Person) -> None:
        if person.role == "lead" and self._rows.people.leads() == 1:
            raise NotAllowedError(
                said("{name} is the only lead; make somebody else a lead first", name=person.name)
            )

    def _change(self, person: Person, field: str, value: str, *, act: str, by: str) -> None:
        if person.name == by and field == "role":
            raise ConflictError("nobody changes their own role; another lead does")
        deed = Deed(written(self._clock()), by, act, person.name)
        self._rows.people.change(person.key, field, value, deed)

    def _note(self, by: str, act: str, about: str) -> None:
        self._rows.people.write_deed(Deed(written(self._clock()), by, act, about))


@dataclass(frozen=True, slots=True)
class Touched:
    """One thing that a device's entries name, and what they said of it last."""

    job: str
    element: str
    kind: str
    by: str
    at: datetime


def touched_from(entries: Iterable[tuple[str, str]]) -> list[Touched]:
    """Collect the things that a device touched from its entries' raw texts, the newest word on each."""
    found: dict[tuple[str, str], Touched] = {}
    for job, text in entries:
        raw = json.loads(text)
        for element in _things(raw):
            found.pop((job, element), None)
            at = datetime.fromisoformat(raw["at"])
            found[job, element] = Touched(job, element, raw["kind"], raw["by"], at)
    return list(reversed(found.values()))


def _things(raw: Raw) -> list[str]:
    """Name the things on the machine or in the shop that a stored entry is about, its bags last."""
    fields = [*SUBJECT_FIELDS, "kit", "wrench"]
    if raw["kind"].startswith("fasteners-"):
        fields += ["to", "source"]
    named = [*raw.get("elements", ()), *(raw.get(field) for field in fields)]
    known = dict.fromkeys(str(name) for name in named if name)
    return [name for name in known if account_named(name) not in VIRTUAL]


def _one_of_the_roles(role: str) -> None:
    if role not in ROLES:
        raise BadInputError(said("a role is one of {roles}", roles=", ".join(ROLES)))

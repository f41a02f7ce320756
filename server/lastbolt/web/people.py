"""Routes for the lead: people, devices, and what is held."""

from __future__ import annotations

import json
from typing import Annotated
from uuid import UUID

from fastapi import APIRouter, Path

from ..actions.lost_device import DeviceOut, report_lost, report_walked
from ..actions.require import require_job
from ..actions.verify import Bench
from ..people.rights import Act
from ..people.shop_people import DeviceLine, touched_from
from . import session_wire as wire
from .desk import AtDesk, Desk
from .door import AtDoor

router = APIRouter(prefix="/api", tags=["people"])
Name = Annotated[str, Path(max_length=60)]
DeviceName = Annotated[str, Path(max_length=120)]


@router.get("/people", operation_id="listPeople")
def list_people(desk: AtDesk, visit: AtDoor) -> wire.People:
    """Give everybody, and what was done to people and devices."""
    visit.person(Act.SEE_PEOPLE)
    return _people(desk)


@router.post("/people", operation_id="addPerson")
def add_person(wish: wire.PersonWish, desk: AtDesk, visit: AtDoor) -> wire.People:
    """Add a person."""
    by = visit.person(Act.CHANGE_PEOPLE).name
    desk.wired.people.shop.add(wish.name, wish.role, wish.pin.get_secret_value(), by=by)
    return _people(desk)


@router.put("/people/{name}/role", operation_id="setRole")
def set_role(name: Name, wish: wire.RoleWish, desk: AtDesk, visit: AtDoor) -> wire.People:
    """Raise or lower a person."""
    desk.wired.people.shop.set_role(name, wish.role, by=visit.person(Act.CHANGE_PEOPLE).name)
    return _people(desk)


@router.put("/people/{name}/pin", operation_id="givePin")
def give_pin(name: Name, wish: wire.NewPinWish, desk: AtDesk, visit: AtDoor) -> wire.People:
    """Give a person a new PIN; failed tries are forgotten, and every device asks for the new one."""
    by = visit.person(Act.CHANGE_PEOPLE).name
    desk.wired.people.shop.set_secret(name, wish.pin.get_secret_value(), by=by)
    return _people(desk)


@router.delete("/people/{name}/tries", operation_id="clearTries")
def clear_tries(name: Name, desk: AtDesk, visit: AtDoor) -> wire.People:
    """Forget a person's failed tries."""
    desk.wired.people.shop.clear_tries(name, by=visit.person(Act.CHANGE_PEOPLE).name)
    return _people(desk)


@router.delete("/people/{name}", operation_id="letPersonGo")
def let_person_go(name: Name, desk: AtDesk, visit: AtDoor) -> wire.People:
    """Let a person go; what they recorded stands."""
    desk.wired.people.shop.leave(name, by=visit.person(Act.CHANGE_PEOPLE).name)
    return _people(desk)


@router.get("/devices", operation_id="listDevices")
def list_devices(desk: AtDesk, visit: AtDoor) -> list[wire.Device]:
    """Give the devices, the one seen last first, with the last that is known of each."""
    visit.person(Act.SEE_PEOPLE)
    return [_device(line, visit.device) for line in desk.wired.people.shop.devices()]


@router.get("/devices/{device}/touched", operation_id="listTouched")
def list_touched(device: DeviceName, desk: AtDesk, visit: AtDoor) -> list[wire.Touched]:
    """Give everything that a device's entries name, what is on a list now first (practice 5.8)."""
    visit.person(Act.SEE_PEOPLE)
    return _touched(desk, device)


def _touched(desk: Desk, device: str) -> list[wire.Touched]:
    bench, subjects = desk.wired.bench, dict[str, set[str]]()
    found = []
    for each in touched_from(desk.wired.people.shop.entries_of(device)):
        if each.job not in subjects:
            subjects[each.job] = _subjects(bench, each.job)
        on_the_list = each.element in subjects[each.job]
        found.append(
            wire.Touched(
                job=each.job,
                element=each.element,
                kind=each.kind,
                by=each.by,
                at=each.at,
                on_the_list=on_the_list,
            )
        )
    return sorted(found, key=lambda each: not each.on_the_list)


@router.post("/devices/{device}/end", operation_id="endDevice")
def end_device(device: DeviceName, wish: wire.EndWish, desk: AtDesk, visit: AtDoor) -> list[wire.Device]:
    """Cut a device off; what it sends later is held, and the jobs it touched say that it may owe entries."""
    by = visit.person(Act.END_DEVICE).name
    people = desk.wired.people.shop
    people.end_device(device, by=by, lost=wish.lost)
    if wish.lost:
        jobs = [job for job, _ in people.entries_of(device)]
        out = DeviceOut(device, people.last_seq(device))
        report_lost(desk.wired.shop, desk.wired.bench, jobs, out, by=by)
    return [_device(line, visit.device) for line in desk.wired.people.shop.devices()]


@router.post("/devices/{device}/walked", operation_id="walkedWhatItTouched")
def walked(device: DeviceName, wish: wire.WalkedWish, desk: AtDesk, visit: AtDoor) -> list[wire.Touched]:
    """Record in a job that a lead has looked at everything that a device touched there."""
    by = visit.person(Act.END_DEVICE).name
    people = desk.wired.people.shop
    require_job(desk.wired.look_up, wish.job)
    out = DeviceOut(device, people.last_seq(device), lost=people.is_lost(device))
    report_walked(desk.wired.shop, wish.job, out, by=by)
    return _touched(desk, device)


@router.post("/devices/{device}/back", operation_id="letDeviceBack")
def let_device_back(device: DeviceName, desk: AtDesk, visit: AtDoor) -> list[wire.Device]:
    """Let a device that was reported lost sign in again."""
    desk.wired.people.shop.let_back(device, by=visit.person(Act.END_DEVICE).name)
    return [_device(line, visit.device) for line in desk.wired.people.shop.devices()]


@router.get("/held", operation_id="listHeld")
def list_held(desk: AtDesk, visit: AtDoor) -> list[wire.Held]:
    """Give the entries that wait for a lead, in the order in which they came."""
    visit.person(Act.SETTLE_HELD)
    return _held(desk)


@router.post("/held/{entry}/in", operation_id="letHeldIn")
def let_held_in(entry: UUID, desk: AtDesk, visit: AtDoor) -> list[wire.Held]:
    """Put a held entry into the journal as it came."""
    by = visit.person(Act.SETTLE_HELD).name
    held = desk.wired.people.held
    row = held.let_in(entry, by=by, record=lambda job, raw: desk.record(job, [raw]))
    desk.note_held(row.job, row.device)
    return _held(desk)


@router.post("/held/{entry}/discard", operation_id="discardHeld")
def discard_held(entry: UUID, wish: wire.DiscardWish, desk: AtDesk, visit: AtDoor) -> list[wire.Held]:
    """Keep a held entry out of the journal, with the reason."""
    by = visit.person(Act.SETTLE_HELD).name
    row = desk.wired.people.held.discard(entry, by=by, reason=wish.reason)
    desk.note_held(row.job, row.device)
    return _held(desk)


def _people(desk: Desk) -> wire.People:
    shop = desk.wired.people.shop
    return wire.People(
        people=[
            wire.Person.model_validate(
                {"name": each.name, "role": each.role, "made": each.made, "gone": each.gone, "failed": failed}
            )
            for each, failed in shop.all()
        ],
        deeds=[
            wire.Deed.model_validate({"at": each.at, "by": each.by, "act": each.act, "about": each.about})
            for each in shop.deeds()
        ],
    )


def _device(line: DeviceLine, this: str) -> wire.Device:
    device, last = line.device, line.last
    return wire.Device.model_validate(
        {
            "device": device.device,
            "browser": device.browser,
            "people": [each.name for each in device.people if each.out_at is None],
            "made": device.made,
            "seen": device.seen,
            "last_seq": last.seq if last else None,
            "last_received": last.received if last else None,
            "ended": device.ended,
            "ended_by": device.ended_by,
            "lost": device.lost,
            "held": line.held,
            "this": device.device == this,
        }
    )


def _held(desk: Desk) -> list[wire.Held]:
    return [
        wire.Held.model_validate(
            {
                "id": each.id,
                "job": each.job,
                "device": each.device,
                "by": each.person,
                "why": each.why,
                "received": each.received,
                "entry": json.loads(each.raw),
            }
        )
        for each in desk.wired.people.held.waiting()
    ]


def _subjects(bench: Bench, job: str) -> set[str]:
    return {finding.subject for finding in bench.view(job).verdict.findings}

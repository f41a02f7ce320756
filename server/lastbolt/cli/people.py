"""The commands about people and devices; whoever may read the server's own disk is trusted."""

from __future__ import annotations

import sys

import click

from ..actions.lost_device import DeviceOut, report_lost
from ..errors import BadInputError
from ..people.rights import ROLES
from ..people.shop_people import ShopPeople
from ..settings import Settings
from .opening import opened
from .shell import lastbolt

BY = "the command line"
ROLE = click.Choice(ROLES)


@lastbolt.group()
def people() -> None:
    """Say who works here, with which role and PIN, and on which devices.

    Whoever can run this on the server's own machine and read its data folder is trusted; no PIN is asked.
    """


@people.command("list")
@click.pass_obj
def list_people(settings: Settings) -> None:
    """List everybody with their role."""
    for person, failed in _shop(settings).all():
        gone = f"\tleft {person.gone[:10]}" if person.gone else ""
        tries = f"\t{failed} wrong PINs from unknown devices" if failed else ""
        click.echo(f"{person.name}\t{person.role}{gone}{tries}")


@people.command()
@click.argument("name")
@click.option("--role", type=ROLE, default="tech", show_default=True)
@click.pass_obj
def add(settings: Settings, name: str, role: str) -> None:
    """Add a person; the PIN is asked for, or read from the input."""
    person = _shop(settings).add(name, role, _new_pin(), by=BY)
    click.echo(f"{person.name} is added as {person.role}.")


@people.command("role")
@click.argument("name")
@click.argument("role", type=ROLE)
@click.pass_obj
def set_role(settings: Settings, name: str, role: str) -> None:
    """Raise or lower a person."""
    _shop(settings).set_role(name, role, by=BY)
    click.echo(f"{name} is a {role} now.")


@people.command("pin")
@click.argument("name")
@click.pass_obj
def give_pin(settings: Settings, name: str) -> None:
    """Give a person a new PIN; wrong tries are forgotten, and every device asks for the new one."""
    _shop(settings).set_secret(name, _new_pin(), by=BY)
    click.echo(f"{name} has a new PIN.")


@people.command()
@click.argument("name")
@click.pass_obj
def clear(settings: Settings, name: str) -> None:
    """Forget a person's wrong PINs."""
    _shop(settings).clear_tries(name, by=BY)
    click.echo(f"The wrong PINs of {name} are forgotten.")


@people.command()
@click.argument("name")
@click.pass_obj
def leave(settings: Settings, name: str) -> None:
    """Let a person go; what they recorded stands, and the name is not given again."""
    _shop(settings).leave(name, by=BY)
    click.echo(f"{name} signs in no more.")


@people.command()
@click.pass_obj
def devices(settings: Settings) -> None:
    """List the devices, the one heard of last first."""
    for line in _shop(settings).devices():
        device = line.device
        who = ", ".join(each.name for each in device.people if each.out_at is None) or "nobody"
        state = "lost" if device.lost else "ended" if device.ended else who
        last = f"entry {line.last.seq}, came {line.last.received}" if line.last else "no entry"
        click.echo(f"{device.device}\t{state}\t{last}\tlast heard of {device.seen}")


@people.command("end")
@click.argument("device", required=False)
@click.option("--lost", is_flag=True, help="It is lost: it cannot sign in again until `back`.")
@click.option("--of", "name", help="End all devices that this person is signed in on.")
@click.pass_obj
def end_device(settings: Settings, device: str | None, *, lost: bool, name: str | None) -> None:
    """Cut a device off; what it sends later is held until a lead has looked at it."""
    wired = opened(settings)
    shop = wired.people.shop
    if (device is None) == (name is None):
        raise BadInputError("name one DEVICE (`lastbolt people devices` lists them), or a person with --of")
    found = [device] if device else shop.devices_of(name or "")
    for each in found:
        shop.end_device(each, by=BY, lost=lost)
        if lost:
            jobs = [job for job, _ in shop.entries_of(each)]
            report_lost(wired.shop, wired.bench, jobs, DeviceOut(each, shop.last_seq(each)), by=BY)
    click.echo(f"{len(found)} cut off: {', '.join(found) or 'none was signed in'}.")


@people.command()
@click.argument("device")
@click.pass_obj
def back(settings: Settings, device: str) -> None:
    """Let a device that was reported lost sign in again."""
    _shop(settings).let_back(device, by=BY)
    click.echo(f"{device} may sign in again.")


def _shop(settings: Settings) -> ShopPeople:
    return opened(settings).people.shop


def _new_pin() -> str:
    """Ask for a PIN where somebody sits at the keyboard, else read one line of the input."""
    if sys.stdin.isatty():
        return str(click.prompt("PIN or passphrase", hide_input=True, confirmation_prompt=True))
    return sys.stdin.readline().rstrip("\n")

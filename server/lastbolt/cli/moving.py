"""The commands that move jobs between shops, and records to a second disk and back."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import click

from ..actions.backup import back_up, copied_words, prove
from ..actions.exchange import export_job, import_job
from ..actions.release_members import release_members
from ..actions.require import require_job
from ..settings import Settings
from ..wiring import wire_restored
from .opening import opened
from .shell import EVERYTHING, SOME, lastbolt

PLACE = click.Path(path_type=Path)


@lastbolt.command("export")
@click.argument("job")
@click.argument("file", metavar="FILE.zip", type=PLACE)
@click.option("--customer", is_flag=True, help="Without names of people, and photos without their place.")
@click.pass_obj
def export(settings: Settings, job: str, file: Path, *, customer: bool) -> int:
    """Write a job into one zip: journal, photos, verdict, record, and scripts that prove it."""
    wired = opened(settings)
    require_job(wired.look_up, job)
    more = release_members(wired.shop, wired.bench, wired.releases, job, customer=customer)
    moved = export_job(wired.shop, job, file, customer=customer, more=more)
    click.echo(f"{moved.entries} entries and {moved.photos} photos of {moved.job} are in {file}.")
    if customer:
        click.echo("Names in notes that no entry names as a person stay: read verdict.txt before sending it.")
    else:
        click.echo(f"Head {moved.head}.")
    click.echo("\n".join(moved.sentences()), nl=bool(moved.left_out))
    return SOME if moved.left_out else EVERYTHING


@lastbolt.command("import")
@click.argument("file", metavar="FILE.zip", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.pass_obj
def import_(settings: Settings, file: Path) -> None:
    """Take in an exported job, its chain as it was sealed; all of it or nothing."""
    wired = opened(settings)
    moved = import_job(wired.shop, wired.sealed, file, releases=wired.releases)
    click.echo(
        f"{moved.entries} new entries and {moved.photos} new photos of {moved.job}. Head {moved.head}."
    )
    click.echo("\n".join(moved.sentences()), nl=bool(moved.left_out))


@lastbolt.command()
@click.argument("folder", metavar="DIR", type=PLACE)
@click.pass_obj
def backup(settings: Settings, folder: Path) -> int:
    """Copy all records and photos to a folder, also while a server runs; a second time only what is new."""
    wired = opened(settings)
    copied = back_up(wired.shop, wired.backups, folder)
    click.echo("\n".join(copied_words(copied)))
    return SOME if copied.damaged else EVERYTHING


@lastbolt.command()
@click.argument("folder", metavar="DIR", type=click.Path(exists=True, file_okay=False, path_type=Path))
@click.option("--into", required=True, type=PLACE, help="An empty or new folder for the shop's data.")
@click.pass_obj
def restore(settings: Settings, folder: Path, *, into: Path) -> int:
    """Put a backup into an empty folder and audit every job there."""
    wired, held = wire_restored(replace(settings, data=into.absolute()), folder)
    click.get_current_context().call_on_close(wired.close)
    proof = prove(wired.shop, held)
    click.echo("\n".join(proof.faults), nl=bool(proof.faults))
    click.echo(
        f"{proof.jobs} jobs, {proof.entries} entries and {held.photos} photos of the backup of {held.made} "
        f"are in {into}; {'see above' if proof.faults else 'the audit found all as it was recorded'}."
    )
    return SOME if proof.faults else EVERYTHING

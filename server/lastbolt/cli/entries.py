"""The commands about what is recorded."""

from __future__ import annotations

import json
from pathlib import Path

import click

from ..actions.audit import audit as audit_job
from ..actions.audit_release import audit_releases
from ..actions.record import fields_from, record, record_here
from ..errors import BadInputError
from ..journal import ENTRY, kinds, raws_from_lines
from ..keys.signing import is_signed
from ..settings import Settings
from .opening import opened
from .shell import EVERYTHING, SOME, lastbolt, lines_of


@lastbolt.command()
@click.argument("job")
@click.argument("what", metavar="FILE|-|KIND")
@click.argument("fields", nargs=-1, metavar="[FIELD=VALUE]...")
@click.option("--by", help="Who did it; needed with KIND.")
@click.pass_obj
def enter(settings: Settings, job: str, what: str, fields: tuple[str, ...], *, by: str | None) -> None:
    """Record entries in a job: from a JSON Lines file, or one of a KIND.

    \b
    lastbolt enter launch-7 entries.jsonl
    lastbolt enter launch-7 fasteners-removed set=COVER n=6 to=T0042E --by Ana
    """
    wired = opened(settings)
    if what in kinds():
        if not by:
            raise BadInputError("say who did it with --by NAME")
        line = record_here(wired.shop, job, what, by=by, fields=fields_from(fields))
        click.echo(f"Recorded as entry {line.position} of {job}.")
        return
    if fields or not (what == "-" or Path(what).exists()):
        raise BadInputError(f"{what!r} is no file and no kind of entry; `lastbolt schema` lists the kinds")
    lines = record(wired.journal, wired.clock, raws_from_lines(lines_of(what)), job=job)
    click.echo(
        f"{len(lines)} entries of {job} stand in the record, up to place {max(x.position for x in lines)}."
    )


@lastbolt.command()
@click.pass_obj
def jobs(settings: Settings) -> None:
    """List the jobs, the one last written to first."""
    for job in opened(settings).look_up.jobs():
        click.echo(
            f"{job.job}\t{job.state}\tlevel {job.level}\t{job.entries} entries\t{job.machine}: {job.title}"
        )


@lastbolt.command()
@click.argument("job")
@click.pass_obj
def audit(settings: Settings, job: str) -> int:
    """Look whether entries, photos and signed releases are as recorded; names the first that does not fit."""
    wired = opened(settings)
    found = audit_job(wired.shop, job)
    own_key = wired.signer.public if wired.releases.of(job) else None
    signed = audit_releases(wired.journal, wired.releases, is_signed, job, own_key=own_key)
    click.echo("\n".join((*found.sentences(), *signed.faults, *signed.said)))
    click.echo(wired.regular_backup.status().sentence)
    return EVERYTHING if found.is_whole and not signed.faults else SOME


@lastbolt.command()
@click.pass_obj
def rebuild(settings: Settings) -> None:
    """Throw the look-up tables away and compute them from the journal."""
    wired = opened(settings)
    wired.journal.rebuild()
    click.echo(f"The look-up tables of {len(wired.look_up.jobs())} jobs were computed anew.")


@lastbolt.command()
def schema() -> None:
    """Print the JSON Schema of every kind of entry."""
    click.echo(json.dumps(ENTRY.json_schema(), indent=2, ensure_ascii=False))

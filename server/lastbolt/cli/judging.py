"""The commands that say what is wrong and what to do."""

from __future__ import annotations

import json

import click

from ..actions import verify as verifying
from ..actions.in_hand import guard_of, next_of
from ..actions.originals import awaited_in
from ..actions.require import require_element
from ..plan.undo import undo_path
from ..report.manual import manual_json, manual_text
from ..report.start_guard import start_text
from ..report.text import verdict_text
from ..report.verdict import Verdict, as_json
from ..report.what_next import next_text
from ..settings import Settings
from .opening import opened
from .shell import EVERYTHING, SOME, lastbolt, lines_of


@lastbolt.command()
@click.argument("job")
@click.option("--json", "in_json", is_flag=True)
@click.pass_obj
def verify(settings: Settings, job: str, in_json: bool) -> int:
    """Say what stands in the way of a job's release: status 0 nothing, 1 something, 2 could not tell."""
    wired = opened(settings)
    status = _say([wired.bench.view(job).verdict], in_json)
    if not in_json:
        for each in awaited_in(wired.photos, (line.entry for line in wired.journal.lines(job))):
            click.echo(each.sentence())
    return status


@lastbolt.command()
@click.argument("file", metavar="FILE|-")
@click.option("--job", help="Whose verdict, where the file holds several jobs.")
@click.option("--json", "in_json", is_flag=True)
def replay(file: str, job: str | None, in_json: bool) -> int:
    """Judge a journal from a file: at each release request and at its end."""
    return _say(list(verifying.replay_lines(lines_of(file), job)), in_json)


@lastbolt.command()
@click.option("--json", "in_json", is_flag=True)
def checks(in_json: bool) -> None:
    """Print the manual of the checks: what each finds, why, and how to clear it."""
    click.echo(json.dumps(manual_json(), indent=2, ensure_ascii=False) if in_json else manual_text())


@lastbolt.command("next")
@click.argument("job")
@click.pass_obj
def next_(settings: Settings, job: str) -> None:
    """Say what to do next on a job: one thing, and three others that can be done too."""
    click.echo(next_text(next_of(opened(settings).bench, job)))


@lastbolt.command()
@click.argument("job")
@click.pass_obj
def start(settings: Settings, job: str) -> int:
    """Ask before turning or starting it: status 1 when something must be cleared first."""
    guard = guard_of(opened(settings).bench, job)
    click.echo(start_text(guard))
    return SOME if guard.findings else EVERYTHING


@lastbolt.command()
@click.argument("job")
@click.argument("element")
@click.pass_obj
def undo(settings: Settings, job: str, element: str) -> None:
    """Say what to take off, at the least cost, to get at something that is covered."""
    state = opened(settings).bench.state(job)
    require_element(state, element)
    path = undo_path(state, element)
    click.echo(path.sentence)
    for edge in path.in_the_way:
        click.echo(f"May also be in the way: {edge.part}.")


def _say(found: list[Verdict], in_json: bool) -> int:
    if in_json:
        click.echo(json.dumps(as_json(found), indent=2, ensure_ascii=False))
    else:
        click.echo("\n\n".join(verdict_text(verdict) for verdict in found))
    return verifying.exit_status(found[-1])

"""The commands that look ahead: the outlook of a job, and a plan made of past ones."""

from __future__ import annotations

import json

import click

from ..actions.past_jobs import compared, own_ratios, plan_of, troubles
from ..report.outlook import outlook_text
from ..settings import Settings
from .opening import opened
from .shell import lastbolt


@lastbolt.command()
@click.argument("job")
@click.pass_obj
def outlook(settings: Settings, job: str) -> None:
    """Say what lies ahead: time left, what to order, where to look first, old values, what to ask."""
    bench = opened(settings).bench
    state, others = bench.state(job), bench.others(job)
    click.echo(outlook_text(state, bench.timeline(job), others, own_ratios(bench, others)))


@lastbolt.command()
@click.argument("past", nargs=-1, required=True)
@click.option("--name", default="plan", show_default=True, help="What the plan is called.")
@click.option("--against", metavar="JOB", help="Compare this job, as found, with the plan.")
@click.pass_obj
def plan(settings: Settings, past: tuple[str, ...], name: str, against: str | None) -> None:
    """Make a plan of past jobs: its entries as JSON Lines, or what differs in another job.

    The entries bear no envelope yet; values must be read again off the maker's page.
    """
    bench = opened(settings).bench
    made = plan_of(bench, past, name=name)
    if against is None:
        for entry in made.entries:
            click.echo(json.dumps(entry, ensure_ascii=False))
    else:
        said = list(compared(bench, made, against))
        click.echo("\n".join(said) or f"{against} is as the plan has it.")
    for trouble in troubles(bench, past):
        click.echo(trouble, err=True)

"""The commands that read photos for a job."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from ..actions.from_files import photo_bytes, photo_files
from ..actions.intake import Intake
from ..actions.match_part import find_homes, home_words
from ..actions.photograph import Hint, look_over
from ..settings import Settings
from .opening import opened
from .shell import FILES, lastbolt, status_of


@lastbolt.command()
@click.argument("job")
@click.argument("photos", nargs=-1, required=True, type=FILES)
@click.option("--by", help="Who brings the photos in.")
@click.option("--container", help="The tray that they are of, when no label says so.")
@click.pass_obj
def intake(
    settings: Settings, job: str, photos: tuple[Path, ...], *, by: str | None, container: str | None
) -> int:
    """Bring photos, or folders of them, into a job; each gets its own answer."""
    card = Intake(opened(settings).shop, job, by, Hint(container=container))
    try:
        with click.progressbar(list(photo_files(photos)), label="Reading photos", file=sys.stderr) as paths:
            for path in paths:
                card.take(path)
    finally:
        click.echo(card.words())
    return status_of(card.brought_in, card.refused)


@lastbolt.command()
@click.argument("job")
@click.argument("photo", type=FILES)
@click.pass_obj
def match(settings: Settings, job: str, photo: Path) -> None:
    """Ask where a lone part goes: rank the sets of a job by how well they fit what the photo shows."""
    wired = opened(settings)
    seen = look_over(wired.shop, photo_bytes(photo, settings.largest_photo))
    homes = find_homes(wired.bench.state(job), seen)
    click.echo("\n".join(home_words(home) for home in homes) or "No part is seen in this photo.")

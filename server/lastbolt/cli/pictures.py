"""The commands that read photos."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from .. import label_code
from ..actions.from_files import look_words, photo_bytes, photo_files
from ..actions.intake import Intake
from ..actions.match_part import find_homes, home_words
from ..actions.photograph import Hint, look_over
from ..errors import BadInputError
from ..settings import LARGEST_PHOTO, Settings
from ..vision.look import look as look_at
from ..vision.outcome import Unusable
from ..vision.top_view import flattened
from .shell import FILES, lastbolt, opened, status_of


@lastbolt.command()
@click.argument("photos", nargs=-1, required=True, type=FILES)
@click.option("--json", "in_json", is_flag=True, help="One JSON object a line.")
@click.option(
    "--from-above",
    type=click.Path(file_okay=False, path_type=Path),
    help="Folder for each count mat as seen from above, at its true size in print.",
)
def look(photos: tuple[Path, ...], in_json: bool, from_above: Path | None) -> int:
    """Say what photos show: labels, loose parts, how many. Needs no server and no data."""
    read = refused = 0
    for path in photo_files(photos):
        photo = photo_bytes(path, LARGEST_PHOTO)
        seen = look_at(photo, label_code.code_in)
        if isinstance(seen, Unusable):
            refused += 1
            click.echo(f"lastbolt: {path}: {seen.reason}", err=True)
            continue
        read += 1
        words = json.dumps(seen.to_json_dict(str(path)), ensure_ascii=False) if in_json else ""
        click.echo(words or look_words(str(path), seen))
        if from_above:
            _write_from_above(photo, path, from_above)
    return status_of(read, refused)


def _write_from_above(photo: bytes, path: Path, folder: Path) -> None:
    """Write the photo's count mat beside the others, or say in a sentence why there is none."""
    flat = flattened(photo)
    if isinstance(flat, Unusable):
        click.echo(f"lastbolt: {path}: {flat.reason}", err=True)
        return
    try:
        folder.mkdir(parents=True, exist_ok=True)
        (folder / f"{path.stem}-from-above.png").write_bytes(flat)
    except OSError as error:
        raise BadInputError(f"{folder} cannot be written: {error.strerror}") from error


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

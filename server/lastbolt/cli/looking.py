"""The command that says what photos show; it needs no data folder and loads nothing else."""

from __future__ import annotations

import json
from pathlib import Path

import click

from .. import label_code
from ..actions.from_files import look_words, photo_bytes, photo_files
from ..errors import BadInputError
from ..settings import LARGEST_PHOTO
from ..vision.look import look as look_at
from ..vision.outcome import Unusable
from ..vision.top_view import flattened
from .shell import FILES, lastbolt, status_of


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

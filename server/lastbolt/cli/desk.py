"""The commands of the desk: the release record, the handover sheet on paper, and finding what was written."""

from __future__ import annotations

from pathlib import Path
from typing import cast

import click

from ..actions.in_hand import handover_of
from ..actions.paper_words import Language
from ..actions.papers import OnPaper
from ..actions.print_handover import handover_paper
from ..actions.print_record import record_paper, record_sheet
from ..actions.release_finish import Nobody
from ..paper.page import Paper
from ..report.handover import handover_text
from ..report.sheet import sheet_text
from ..settings import Settings
from .opening import opened
from .shell import LANGUAGE, lastbolt

PAPERS = click.Choice(["a4", "letter"])
FILE = click.Path(dir_okay=False, path_type=Path)


@lastbolt.command()
@click.argument("job")
@click.option("--paper", default="a4", show_default=True, type=PAPERS)
@click.option("--customer", is_flag=True, help="The short version, without names of people.")
@click.option("-o", "--out", type=FILE, help="PDF to write; without it the record is written as text.")
@click.pass_obj
def record(settings: Settings, job: str, *, paper: str, customer: bool, out: Path | None) -> None:
    """Write the release record: as text, or the paper that was signed."""
    room = opened(settings).release_room(Nobody())
    if out is None:
        click.echo(sheet_text(record_sheet(room, job, customer=customer)))
        return
    out.write_bytes(record_paper(room, job, cast(Paper, paper), customer=customer))
    click.echo(f"The release record of {job} is in {out}.", err=True)


@lastbolt.command()
@click.argument("job")
@click.option("--pdf", "out", type=FILE, help="PDF to write, on one page where that can be read.")
@click.option("--paper", default="a4", show_default=True, type=PAPERS)
@click.option("--language", default="en", show_default=True, type=LANGUAGE, help="Of the PDF.")
@click.pass_obj
def handover(settings: Settings, job: str, *, out: Path | None, paper: str, language: str) -> None:
    """Write the handover sheet: danger now, half done, open, inside, bags, what was said."""
    wired = opened(settings)
    if out is None:
        click.echo(handover_text(handover_of(wired.bench, job)))
        return
    asked = OnPaper(cast(Paper, paper), settings.address, cast(Language, language))
    sheet = handover_paper(wired.shop, wired.bench, job, asked)
    out.write_bytes(sheet)
    click.echo(f"The handover sheet of {job} is in {out}.", err=True)


@lastbolt.command()
@click.argument("words", nargs=-1, required=True)
@click.option("--most", default=20, show_default=True, type=click.IntRange(1, 200))
@click.pass_obj
def find(settings: Settings, words: tuple[str, ...], most: int) -> None:
    """Find what was written, in any job: lastbolt find where did we use the M8x30 flange bolts."""
    found = opened(settings).search.find(" ".join(words), limit=most)
    if not found.hits:
        click.echo("Nothing was found with these words.")
        return
    if not found.all_words:
        click.echo("Nothing has all of these words; these have some:")
    for hit in found.hits:
        said = f": {hit.said}" if hit.said else ""
        click.echo(f"{hit.job}\t{hit.at[:16]}\t{hit.by}\t{hit.about} {hit.name}{said}")

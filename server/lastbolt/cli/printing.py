"""The command that prints labels and count mats."""

from __future__ import annotations

from typing import Any, BinaryIO

import click

from .. import label_code
from ..actions.print_labels import Wish
from ..actions.print_labels import print_labels as print_sheet
from ..settings import Settings
from .opening import opened
from .shell import LANGUAGE, lastbolt


@lastbolt.command()
@click.option("--sheet", default="a4-3x8", show_default=True, help="Layout, by its name in label_templates.")
@click.option("--count", default=24, show_default=True, help="How many labels.")
@click.option("-o", "--out", required=True, type=click.File("wb", lazy=True), help="PDF to write.")
@click.option(
    "--kind", default="tray", show_default=True, type=click.Choice([k.name.lower() for k in label_code.Kind])
)
@click.option("--start-at", type=int, help="First free place on the first page, counted from 1.")
@click.option("--address", help="Server that a scan opens, like http://192.168.1.20:8000.")
@click.option("--scale", default=1.0, show_default=True, help="Puts right what the printer gets wrong.")
@click.option("--language", default="en", show_default=True, type=LANGUAGE, help="Of the printed words.")
@click.option("--job", help="Record in this job which labels were printed.")
@click.pass_obj
def labels(settings: Settings, /, *, out: BinaryIO, job: str | None, **asked: Any) -> None:
    """Print labels as PDF; no number is ever printed twice."""
    wish = Wish(
        layout=asked["sheet"],
        count=asked["count"],
        kind=label_code.Kind[asked["kind"].upper()],
        start=asked["start_at"],
        address=asked["address"] or settings.address,
        scale=asked["scale"],
        language=asked["language"],
    )
    printed = print_sheet(opened(settings).shop, wish, job=job)
    out.write(printed.pdf)
    click.echo(f"{printed.words()} in {out.name}. Print at 100 %, not fit to page.", err=True)

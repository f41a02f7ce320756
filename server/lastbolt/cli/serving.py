"""The commands that serve: the shop's data, and the sample."""

from __future__ import annotations

import sys
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from ..actions import demo as showing
from ..actions.sample import tell_all
from ..settings import Settings, read_settings
from ..wiring import wire
from .shell import lastbolt

CREW = (("Ilse", "lead", "7306"), ("Ana", "tech", "4071"), ("Nora", "reader", "5182"))
"""The sample's own people; their PINs are no secret, so the demo listens on this machine only."""


@lastbolt.command()
@click.option("--host", help="Address to listen at; else this machine's own alone, or with --lan all.")
@click.option("--port", default=8000, show_default=True, type=click.IntRange(0, 65535))
@click.option("--lan", is_flag=True, help="Serve the shop's network by HTTPS, with a certificate of our own.")
@click.option("--guide-port", default=8080, show_default=True, type=click.IntRange(0, 65535))
@click.pass_obj
def serve(settings: Settings, host: str | None, port: int, *, lan: bool, guide_port: int) -> None:
    """Serve the shop's data to the phones and the desk.

    Without --lan only this machine is served. With it phones are served by HTTPS; by plain http, at the
    guide's port, they get the certificate and how to put it on a phone, nothing else.
    """
    from ..web.app import create_app
    from ..web.run import Place, run

    app = create_app(settings)
    place = Place(host or ("0.0.0.0" if lan else "127.0.0.1"), port, guide_port if lan else None)
    run(app, place, _say_where)


def _say_where(app: Any, reach: Any) -> None:
    """Say at the start where the server is, how old the backup is, and how the first lead gets in."""
    from ..web.terminal import drawn

    click.echo(f"Serving at {reach.address} until Ctrl-C stops it.")
    if reach.is_read_along:
        click.echo("By plain http anybody on the network can read along, PINs too; --lan serves by HTTPS.")
    if reach.guide:
        click.echo(f"Phones that do not know it yet begin at {reach.guide}; the certificate's mark:")
        click.echo(reach.fingerprint)
        if sys.stdout.isatty():
            click.echo(drawn(reach.guide))
    click.echo(app.state.desk.wired.regular_backup.status().sentence)
    if code := app.state.desk.wired.people.shop.first_code():
        click.echo(f"Nobody is a lead here yet. The first one signs in with the code {code} (once).")


@lastbolt.command()
@click.option("--folder", default=".lastbolt-demo", show_default=True, type=click.Path(path_type=Path))
@click.option("--port", default=8000, show_default=True, type=click.IntRange(0, 65535))
@click.option("--serve/--no-serve", "serving", default=True, help="Serve it at the end.")
@click.pass_context
def demo(context: click.Context, folder: Path, port: int, serving: bool) -> None:
    """Walk the sample job from teardown to verdict, then serve it at one address."""
    settings = replace(read_settings(folder), samples=context.obj.samples)
    if not (folder / "told").exists():
        wired = wire(settings)
        pdf, printed = showing.print_sheet(wired.shop)
        (folder / "labels.pdf").write_bytes(pdf)
        click.echo(f"Printed {printed}: {folder / 'labels.pdf'}")
        for line in tell_all(wired.shop, wired.bench, settings.samples):
            click.echo(line)
        (folder / "told").touch()
        wired.close()
    click.echo(f"The sample lies in {folder}; delete that folder to begin anew.")
    click.echo(f"Sign in as {_crew(settings)}; invented people, for this machine only.")
    if serving:
        context.obj = settings
        context.invoke(serve, host="127.0.0.1", port=port, lan=False, guide_port=0)


def _crew(settings: Settings) -> str:
    """Put the sample's people into its shop where they are not yet, and say how each signs in."""
    with closing(wire(settings)) as wired:
        here = {person.name for person, _ in wired.people.shop.all()}
        for name, role, pin in CREW:
            if name not in here:
                wired.people.shop.add(name, role, pin, by="the demo")
    return ", ".join(f"{name} ({role}, PIN {pin})" for name, role, pin in CREW)

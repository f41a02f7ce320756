"""The command `lastbolt`: options in, actions called, words out; errors become one line and a status."""

from __future__ import annotations

import json
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any, BinaryIO, TextIO, cast

import click

from . import __version__, label_code
from .actions import demo as showing
from .actions import verify as verifying
from .actions.audit import audit as audit_job
from .actions.from_files import look_words, photo_bytes, photo_files, text_lines
from .actions.intake import Intake
from .actions.photograph import Hint
from .actions.print_labels import Wish
from .actions.print_labels import print_labels as print_sheet
from .actions.record import fields_from, record, record_here
from .actions.sample import tell_all
from .errors import BadInputError, LastboltError
from .journal import ENTRY, kinds, raws_from_lines
from .report.manual import manual_json, manual_text
from .report.text import verdict_text
from .report.verdict import Verdict, as_json
from .settings import LARGEST_PHOTO, Settings, read_settings
from .vision.look import look as look_at
from .vision.outcome import Unusable
from .wiring import Wired, wire

EVERYTHING, SOME, NOTHING = 0, 1, 2
"""Exit statuses: all in or nothing on the list; some refused or findings; nothing done or could not tell."""
FILES = click.Path(exists=True, path_type=Path)


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="lastbolt")
@click.option(
    "--data", type=click.Path(path_type=Path), help="Folder of the shop's data (else LASTBOLT_DATA)."
)
@click.pass_context
def lastbolt(context: click.Context, data: Path | None) -> None:
    """Keep the record while a machine comes apart, and say what is not back."""
    context.obj = read_settings(data)


def _open(settings: Settings) -> Wired:
    wired = wire(settings)
    click.get_current_context().call_on_close(wired.close)
    return wired


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
    )
    printed = print_sheet(_open(settings).shop, wish, job=job)
    out.write(printed.pdf)
    click.echo(f"{printed.words()} in {out.name}. Print at 100 %, not fit to page.", err=True)


@lastbolt.command()
@click.argument("photos", nargs=-1, required=True, type=FILES)
@click.option("--json", "in_json", is_flag=True, help="One JSON object a line.")
def look(photos: tuple[Path, ...], in_json: bool) -> int:
    """Say what photos show: labels, loose parts, how many. Needs no server and no data."""
    read = refused = 0
    for path in photo_files(photos):
        seen = look_at(photo_bytes(path, LARGEST_PHOTO), label_code.code_in)
        if isinstance(seen, Unusable):
            refused += 1
            click.echo(f"lastbolt: {path}: {seen.reason}", err=True)
            continue
        read += 1
        words = json.dumps(seen.to_json_dict(str(path)), ensure_ascii=False) if in_json else ""
        click.echo(words or look_words(str(path), seen))
    return _status(read, refused)


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
    card = Intake(_open(settings).shop, job, by, Hint(container=container))
    try:
        with click.progressbar(list(photo_files(photos)), label="Reading photos", file=sys.stderr) as paths:
            for path in paths:
                card.take(path)
    finally:
        click.echo(card.words())
    return _status(card.brought_in, card.refused)


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
    wired = _open(settings)
    if what in kinds():
        if not by:
            raise BadInputError("say who did it with --by NAME")
        line = record_here(wired.shop, job, what, by=by, fields=fields_from(fields))
        click.echo(f"Recorded as entry {line.position} of {job}.")
        return
    if fields or not (what == "-" or Path(what).exists()):
        raise BadInputError(f"{what!r} is no file and no kind of entry; `lastbolt schema` lists the kinds")
    lines = record(wired.journal, wired.clock, raws_from_lines(_lines(what)), job=job)
    click.echo(
        f"{len(lines)} entries of {job} stand in the record, up to place {max(x.position for x in lines)}."
    )


@lastbolt.command()
@click.pass_obj
def jobs(settings: Settings) -> None:
    """List the jobs, the one last written to first."""
    for job in _open(settings).look_up.jobs():
        click.echo(
            f"{job.job}\t{job.state}\tlevel {job.level}\t{job.entries} entries\t{job.machine}: {job.title}"
        )


@lastbolt.command()
@click.argument("job")
@click.option("--json", "in_json", is_flag=True)
@click.pass_obj
def verify(settings: Settings, job: str, in_json: bool) -> int:
    """Say what stands in the way of a job's release: status 0 nothing, 1 something, 2 could not tell."""
    verdict = _open(settings).bench.view(job).verdict
    return _say([verdict], in_json)


@lastbolt.command()
@click.argument("file", metavar="FILE|-")
@click.option("--job", help="Whose verdict, where the file holds several jobs.")
@click.option("--json", "in_json", is_flag=True)
def replay(file: str, job: str | None, in_json: bool) -> int:
    """Judge a journal from a file: at each release request and at its end."""
    return _say(list(verifying.replay_lines(_lines(file), job)), in_json)


@lastbolt.command()
@click.argument("job")
@click.pass_obj
def audit(settings: Settings, job: str) -> int:
    """Look whether a job's entries and photos are as recorded; names the first that does not fit."""
    found = audit_job(_open(settings).shop, job)
    click.echo("\n".join(found.sentences()))
    return EVERYTHING if found.is_whole else SOME


@lastbolt.command()
@click.pass_obj
def rebuild(settings: Settings) -> None:
    """Throw the look-up tables away and compute them from the journal."""
    wired = _open(settings)
    wired.journal.rebuild()
    click.echo(f"The look-up tables of {len(wired.look_up.jobs())} jobs were computed anew.")


@lastbolt.command()
def schema() -> None:
    """Print the JSON Schema of every kind of entry."""
    click.echo(json.dumps(ENTRY.json_schema(), indent=2, ensure_ascii=False))


@lastbolt.command()
@click.option("--json", "in_json", is_flag=True)
def checks(in_json: bool) -> None:
    """Print the manual of the checks: what each finds, why, and how to clear it."""
    click.echo(json.dumps(manual_json(), indent=2, ensure_ascii=False) if in_json else manual_text())


@lastbolt.command()
@click.option("--host", default="127.0.0.1", show_default=True)
@click.option("--port", default=8000, show_default=True, type=click.IntRange(0, 65535))
@click.pass_obj
def serve(settings: Settings, host: str, port: int) -> None:
    """Serve the shop's data to the phones and the desk."""
    import uvicorn

    from .web.app import create_app
    from .web.listening import listening_at

    app = create_app(settings)
    with listening_at(host, port) as listening:
        click.echo(f"Serving at http://{host}:{listening.getsockname()[1]}; stop with Ctrl-C.")
        uvicorn.Server(uvicorn.Config(app, log_level="warning")).run(sockets=[listening])


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
    if serving:
        context.obj = settings
        context.invoke(serve, host="127.0.0.1", port=port)


def _say(found: list[Verdict], in_json: bool) -> int:
    if in_json:
        click.echo(json.dumps(as_json(found), indent=2, ensure_ascii=False))
    else:
        click.echo("\n\n".join(verdict_text(verdict) for verdict in found))
    return verifying.exit_status(found[-1])


def _status(done: int, refused: int) -> int:
    return NOTHING if not done else SOME if refused else EVERYTHING


def _lines(file: str) -> list[str]:
    try:
        with click.open_file(file, encoding="utf-8") as stream:
            return text_lines(cast(TextIO, stream))
    except OSError as error:
        raise BadInputError(
            f"{file} is no file that can be read ({error.strerror}); - reads the input"
        ) from error


def main() -> None:
    """Run the command; what goes wrong is told in one line on stderr, with exit status 2."""
    try:
        status = lastbolt(standalone_mode=False)
    except click.ClickException as error:
        status = _trouble(error.format_message())
    except click.Abort:
        status = _trouble("stopped")
    except LastboltError as error:
        status = _trouble(str(error))
    except OSError as error:
        status = _trouble(f"{error.filename or 'a file'}: {error.strerror or error}")
    except Exception as error:  # noqa: BLE001 (the edge: a person gets a line, never a traceback)
        status = _trouble(
            f"something unforeseen, {type(error).__name__}: {error}; what was recorded still stands"
        )
    sys.exit(status if isinstance(status, int) else EVERYTHING)


def _trouble(sentence: str) -> int:
    click.echo(f"lastbolt: {' '.join(sentence.split())}", err=True)
    return NOTHING

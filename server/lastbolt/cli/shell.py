"""The command's shell: the group, and errors as one line with exit status 2."""

from __future__ import annotations

import sys
from importlib import import_module  # noqa: TID251 (the contracts see each module of this folder by itself)
from pathlib import Path
from typing import TextIO, cast

import click

from .. import __version__
from ..actions.from_files import text_lines
from ..errors import BadInputError, LastboltError
from ..settings import read_settings

EVERYTHING, SOME, NOTHING = 0, 1, 2
"""Exit statuses: all in or nothing on the list; some refused or findings; nothing done or could not tell."""
FILES = click.Path(exists=True, path_type=Path)

LANGUAGE = click.Choice(["en", "de"])
"""What papers may be written in."""


COMMANDS = {
    "desk": ("find", "handover", "record"),
    "entries": ("audit", "enter", "jobs", "rebuild", "schema"),
    "judging": ("checks", "next", "replay", "start", "undo", "verify"),
    "looking": ("look",),
    "moving": ("backup", "export", "import", "restore"),
    "people": ("people",),
    "pictures": ("intake", "match"),
    "planning": ("outlook", "plan"),
    "printing": ("labels",),
    "serving": ("demo", "serve"),
}
"""The module beside this one that each command lies in."""
MODULES = {command: module for module, commands in COMMANDS.items() for command in commands}


class LoadedWhenAsked(click.Group):
    """Commands that are imported when they are run: to look at a photo needs no journal and no paper."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Give the names of all commands, in order."""
        return sorted(MODULES)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Give one command, its module imported; None where there is none of that name."""
        if cmd_name in MODULES:
            import_module(f".{MODULES[cmd_name]}", __package__)
        return super().get_command(ctx, cmd_name)


@click.group(cls=LoadedWhenAsked, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="lastbolt")
@click.option(
    "--data", type=click.Path(path_type=Path), help="Folder of the shop's data (else LASTBOLT_DATA)."
)
@click.pass_context
def lastbolt(context: click.Context, data: Path | None) -> None:
    """Keep the record while a machine comes apart, and say what is not back."""
    context.obj = read_settings(data)


def status_of(done: int, refused: int) -> int:
    """Give 0 when all went in, 1 when some were refused, 2 when none did."""
    return NOTHING if not done else SOME if refused else EVERYTHING


def lines_of(file: str) -> list[str]:
    """Read the lines of a file of text, or of the input for `-`."""
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

"""Commands, settings and checks are told of in the README, and words that promise too much stand nowhere."""

from __future__ import annotations

import json
import re
import subprocess
import sys

import click
import pytest

from lastbolt import checks
from lastbolt.actions.verify import replay_lines
from lastbolt.cli import lastbolt
from lastbolt.cli.shell import COMMANDS, MODULES
from lastbolt.report.manual import manual
from lastbolt.report.text import verdict_text

from .package import PACKAGE, ROOT

README = (ROOT / "README.md").read_text()
PROMISES = re.compile(r"\b(safe|OK|okay|airworthy|verified)\b")


@pytest.mark.parametrize("command", sorted(MODULES))
def test_every_command_is_in_the_readme(command: str):
    assert f"`lastbolt {command}`" in README


def test_every_module_of_the_command_is_loaded_when_asked_and_has_the_commands_that_are_said():
    files = {path.stem for path in (PACKAGE / "cli").glob("*.py")} - {"__init__", "shell", "opening"}
    assert files == set(COMMANDS)
    context = click.Context(lastbolt)
    found = {name: lastbolt.get_command(context, name) for name in MODULES}

    assert set(lastbolt.commands) == set(MODULES)
    for name, command in found.items():
        runs = command.callback or next(iter(command.commands.values())).callback
        assert runs.__module__ == f"lastbolt.cli.{MODULES[name]}"


def test_looking_at_a_photo_loads_neither_journal_nor_paper():
    program = "import sys, lastbolt.cli.looking; print(*sys.modules)"
    loaded = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, check=True, text=True
    ).stdout

    assert "lastbolt.vision.look" in loaded.split()
    assert not {"pydantic", "reportlab", "fastapi", "lastbolt.wiring"} & set(loaded.split())


def test_every_setting_is_in_the_readme():
    read = set(re.findall(r"LASTBOLT_[A-Z_]+", (PACKAGE / "settings.py").read_text()))

    assert read - set(re.findall(r"LASTBOLT_[A-Z_]+", README)) == set()


def test_the_readme_opens_with_the_job_in_one_paragraph():
    first = README.split("\n\n")[1]

    assert "taken apart" in first or "takes it apart" in first
    assert len(first.split()) > 100


def test_the_manual_has_every_check_once():
    assert [page.name for page in manual()] == [checks.name_of(check) for check in checks.ALL]


def test_nothing_promises_more_than_it_knows():
    said = {page.name: vars_of(page) for page in manual()}
    for words in sorted((ROOT / "mobile_web" / "src" / "words").glob("*.json")):
        said[words.name] = json.dumps(json.loads(words.read_text()))

    assert {name: found for name, text in said.items() if (found := PROMISES.findall(text))} == {}


def vars_of(page: object) -> str:
    return " ".join(str(getattr(page, name)) for name in page.__dataclass_fields__)  # type: ignore[attr-defined]


def test_the_transcript_in_the_readme_is_what_the_command_says():
    found = re.search(r"\$ \.venv/bin/lastbolt replay (\S+) \| head -(\d+)\n(.*?)```", README, re.DOTALL)
    assert found
    lines = (ROOT / found[1]).read_text().splitlines()
    said = "\n\n".join(verdict_text(verdict) for verdict in replay_lines(lines)).splitlines()

    assert found[3].splitlines() == said[: int(found[2])]

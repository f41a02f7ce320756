from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from lastbolt.cli import main
from lastbolt.settings import settings_from
from lastbolt.wiring import Wired, wire


class StandingClock:
    """A clock that stands still until a test moves it."""

    def __init__(self) -> None:
        self.now = datetime(2026, 3, 9, 8, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now

    def move(self, **by: float) -> None:
        self.now += timedelta(**by)


@pytest.fixture
def clock() -> StandingClock:
    return StandingClock()


@pytest.fixture
def wired(tmp_path) -> Iterator[Wired]:
    """A shop with nothing in it yet, in a folder of its own."""
    wired = wire(settings_from({"LASTBOLT_DATA": str(tmp_path / "shop")}))
    yield wired
    wired.close()


@pytest.fixture
def shop(wired, clock):
    """What actions need, with a clock that stands still."""
    return replace(wired.shop, clock=clock)


@pytest.fixture
def run(tmp_path, monkeypatch, capsys):
    """Run the command as typed, in a shop of its own; give status, stdout and stderr."""
    monkeypatch.setenv("LASTBOLT_DATA", str(tmp_path / "shop"))

    def typed(*words):
        monkeypatch.setattr(sys, "argv", ["lastbolt", *map(str, words)])
        with pytest.raises(SystemExit) as ended:
            main()
        said = capsys.readouterr()
        return ended.value.code, said.out, said.err

    return typed


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with the browser's tests: they are the longest, and with a process a core nobody waits for them at the end."""
    items.sort(key=lambda item: item.get_closest_marker("browser") is None)

"""The data folder, opened for as long as a command runs."""

from __future__ import annotations

import click

from ..settings import Settings
from ..wiring import Wired, wire


def opened(settings: Settings) -> Wired:
    """Open the data folder for as long as the command runs."""
    wired = wire(settings)
    click.get_current_context().call_on_close(wired.close)
    return wired

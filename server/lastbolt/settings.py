"""Where the data lies and what the limits are, read once; the only reader of the environment."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from .errors import BadInputError
from .torque.torque_unit import TorqueUnit, read_unit

PACKAGE = Path(__file__).resolve().parent
LARGEST_PHOTO = 64 * 1024 * 1024
PREVIEW_EDGE_PX = 1280
PIN_COST = (2, 47104)
"""Rounds and KiB of memory that one try of a PIN costs (Argon2id); see `people/pins.py`."""
READER_MEMORY = 2048 * 1024 * 1024
READER_SECONDS = 30
BACKUP_HOURS = 24
NUMBERS = {
    "LASTBOLT_LARGEST_PHOTO_MB": (1, LARGEST_PHOTO // 2**20, 2048),
    "LASTBOLT_READERS": (1, max(1, min(4, (os.cpu_count() or 1) // 2)), 16),
    "LASTBOLT_READER_MEMORY_MB": (512, READER_MEMORY // 2**20, 65536),
    "LASTBOLT_READER_SECONDS": (1, READER_SECONDS, 600),
    "LASTBOLT_BACKUP_HOURS": (1, BACKUP_HOURS, 24 * 31),
}
"""Whole numbers that can be set: the least, what holds where nothing is set, the most."""
_ADDRESS = re.compile(r"https?://[0-9A-Za-z.-]+(?::[0-9]{1,5})?/?")


@dataclass(frozen=True, slots=True)
class Settings:
    """Everything that can be set; `address` is what printed labels lead to, None for labels without one."""

    data: Path
    address: str | None = None
    layouts: tuple[Path, ...] = ()
    samples: Path = PACKAGE.parent.parent / "samples"
    largest_photo: int = LARGEST_PHOTO
    preview_edge_px: int = PREVIEW_EDGE_PX
    pin_cost: tuple[int, int] = PIN_COST
    readers: int = 1
    reader_memory: int = READER_MEMORY
    reader_seconds: int = READER_SECONDS
    backup: Path | None = None
    backup_hours: int = BACKUP_HOURS
    one_person: bool = False
    torque_unit: TorqueUnit = TorqueUnit.NEWTON_METRE


def read_settings(data: Path | None = None) -> Settings:
    """Read the settings of this process; a given data folder counts more than the environment's.

    Raises:
        BadInputError: names every variable that is wrong.
    """
    found = settings_from(os.environ)
    return found if data is None else replace(found, data=data.expanduser().absolute())


def settings_from(variables: Mapping[str, str]) -> Settings:
    """Read settings from the variables whose names begin with LASTBOLT_; the README lists them.

    All may be missing. Data goes to `$XDG_DATA_HOME/lastbolt`, else to `~/.local/share/lastbolt`.

    Raises:
        BadInputError: names every variable that is wrong.
    """
    mistakes: list[str] = []
    address = variables.get("LASTBOLT_ADDRESS", "").strip() or None
    if address and not _ADDRESS.fullmatch(address):
        mistakes.append("LASTBOLT_ADDRESS must be scheme, host and port like http://192.168.1.20:8000")
    numbers = {name: _whole_number(variables, name, mistakes) for name in NUMBERS}
    own = _folder(variables.get("LASTBOLT_LAYOUTS", ""))
    if own and not own.is_dir():
        mistakes.append(f"LASTBOLT_LAYOUTS names no folder: {own}")
    alone = variables.get("LASTBOLT_ONE_PERSON", "").strip().casefold()
    if alone not in ("", "no", "yes"):
        mistakes.append("LASTBOLT_ONE_PERSON must be yes or no")
    torque_unit = read_unit(
        variables.get("LASTBOLT_TORQUE_UNIT", "").strip() or TorqueUnit.NEWTON_METRE.value
    )
    if torque_unit not in (TorqueUnit.NEWTON_METRE, TorqueUnit.POUND_FOOT):
        mistakes.append("LASTBOLT_TORQUE_UNIT must be N·m or lbf·ft")
    if mistakes:
        raise BadInputError("; ".join(mistakes))
    return Settings(
        data=_folder(variables.get("LASTBOLT_DATA", "")) or _home_for_data(variables),
        address=address,
        layouts=tuple(folder for folder in (own, *_built_in()) if folder),
        largest_photo=numbers["LASTBOLT_LARGEST_PHOTO_MB"] * 2**20,
        readers=numbers["LASTBOLT_READERS"],
        reader_memory=numbers["LASTBOLT_READER_MEMORY_MB"] * 2**20,
        reader_seconds=numbers["LASTBOLT_READER_SECONDS"],
        backup=_folder(variables.get("LASTBOLT_BACKUP", "")),
        backup_hours=numbers["LASTBOLT_BACKUP_HOURS"],
        one_person=alone == "yes",
        torque_unit=torque_unit or TorqueUnit.NEWTON_METRE,
    )


def _whole_number(variables: Mapping[str, str], name: str, mistakes: list[str]) -> int:
    least, usual, most = NUMBERS[name]
    text = variables.get(name, "").strip() or str(usual)
    if text.isascii() and text.isdecimal() and len(text) < 10 and least <= int(text) <= most:
        return int(text)
    mistakes.append(f"{name} must be a whole number from {least} to {most}")
    return usual


def _built_in() -> list[Path]:
    """Give the checkout's layouts where there is a checkout, then those inside the package."""
    folders = (PACKAGE.parent.parent / "label_templates", PACKAGE / "labels" / "builtin")
    return [folder for folder in folders if folder.is_dir()]


def _home_for_data(variables: Mapping[str, str]) -> Path:
    shared = _folder(variables.get("XDG_DATA_HOME", ""))
    return (shared or Path.home() / ".local" / "share") / "lastbolt"


def _folder(text: str) -> Path | None:
    return Path(text.strip()).expanduser().absolute() if text.strip() else None

"""Every dependency has a lowest version and, as installed, a licence that this project can live with."""

from __future__ import annotations

import re
import tomllib
from importlib import metadata

import pytest

from .package import ROOT

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
WANTED = PROJECT["dependencies"]
TOOLS = PROJECT["optional-dependencies"]["dev"]
KNOWN = re.compile(
    r"MIT|BSD|Apache|PSF|Python Software Foundation|MPL|HPND|ISC|LGPL|Zlib|Unlicense|EPL", re.I
)
NOT_SHIPPED_ONLY = re.compile(r"\bA?GPL", re.I)


def name_of(wanted: str) -> str:
    found = re.match(r"[A-Za-z0-9._-]+", wanted)
    assert found
    return found[0]


@pytest.mark.parametrize("wanted", [*WANTED, *TOOLS, *PROJECT["optional-dependencies"]["heic"]])
def test_a_dependency_has_a_lowest_version_and_comes_from_no_address(wanted):
    assert re.fullmatch(r"[A-Za-z0-9._-]+(\[[\w,-]+\])?>=\d[\w.]*(,<\d[\w.]*)?", wanted)


@pytest.mark.parametrize("wanted", WANTED)
def test_what_is_shipped_with_has_a_known_licence(wanted):
    told = metadata.metadata(name_of(wanted))
    classifiers = [each for each in told.get_all("Classifier", []) if each.startswith("License")]
    words = " ".join([told.get("License-Expression") or "", (told.get("License") or "")[:200], *classifiers])
    assert KNOWN.search(words), f"{wanted}: {words or 'no licence named'}"
    assert not NOT_SHIPPED_ONLY.search(words.replace("LGPL", "")), words


@pytest.mark.parametrize("wanted", WANTED)
def test_what_is_installed_is_what_is_wanted(wanted):
    floor = re.search(r">=([\d.]+)", wanted)
    assert floor
    have = [int(part) for part in re.findall(r"\d+", metadata.version(name_of(wanted)))][:3]
    assert have >= [int(part) for part in floor[1].split(".")]

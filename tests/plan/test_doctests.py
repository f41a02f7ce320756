"""The examples in the docstrings of the planning and the reporting room hold."""

from __future__ import annotations

import doctest
from importlib import import_module
from pkgutil import iter_modules

import pytest

import lastbolt.plan
import lastbolt.report

MODULES = [
    f"{room.__name__}.{m.name}"
    for room in (lastbolt.plan, lastbolt.report)
    for m in iter_modules(room.__path__)
]


@pytest.mark.parametrize("name", sorted(MODULES))
def test_examples_in_docstrings_hold(name: str) -> None:
    assert doctest.testmod(import_module(name)).failed == 0

"""The examples in the docstrings are true, in every module that has one."""

from __future__ import annotations

import doctest
from importlib import import_module

import pytest

from .package import PACKAGE, modules, shown

WITH_EXAMPLES = [path for path in modules() if ">>> " in path.read_text()]


@pytest.mark.parametrize("path", WITH_EXAMPLES, ids=shown)
def test_every_example_gives_what_it_says(path) -> None:
    name = ".".join(("lastbolt", *path.relative_to(PACKAGE).with_suffix("").parts))
    tried = doctest.testmod(import_module(name))

    assert tried.attempted > 0
    assert tried.failed == 0

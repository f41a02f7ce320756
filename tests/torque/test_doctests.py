import doctest
from importlib import import_module
from pkgutil import iter_modules

import pytest

import lastbolt.torque


@pytest.mark.parametrize("name", sorted(module.name for module in iter_modules(lastbolt.torque.__path__)))
def test_examples_in_docstrings_hold(name: str) -> None:
    assert doctest.testmod(import_module(f"lastbolt.torque.{name}")).failed == 0

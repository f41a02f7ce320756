"""The examples in the docstrings of this room are true."""

import doctest
from types import ModuleType

import pytest

from lastbolt import label_code
from lastbolt.labels import lettering, sheet, symbol


@pytest.mark.parametrize("module", [label_code, lettering, sheet, symbol], ids=lambda module: module.__name__)
def test_every_example_gives_what_it_says(module: ModuleType) -> None:
    result = doctest.testmod(module)
    assert result.attempted > 0
    assert result.failed == 0

import doctest

import pytest

from lastbolt.actions import print_labels, record
from lastbolt.store import projections, schema


@pytest.mark.parametrize(
    "module", [print_labels, record, projections, schema], ids=lambda module: module.__name__
)
def test_the_examples_in_the_docstrings_hold(module):
    tried = doctest.testmod(module)
    assert tried.attempted > 0 and tried.failed == 0

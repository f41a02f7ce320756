"""Check characters of labels against ISO 7064 MOD 37,36 vectors and a second implementation.

Vectors: the project's reference values, computed with python-stdnum 2.2 and with an implementation of its
own; both agree.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_36

from lastbolt.label_code import HIGHEST_NUMBER, Kind, check_character, make

LETTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@pytest.mark.parametrize(
    ("text", "character"),
    [("A12425GABC1234002", "M"), ("TRAY0001", "W"), ("BAG42", "X"), ("A999522", "S")],
)
def test_the_vectors_come_out(text: str, character: str) -> None:
    assert check_character(text) == character


@given(st.text(LETTERS, min_size=1, max_size=20))
def test_any_text_has_the_character_that_stdnum_computes(text: str) -> None:
    assert check_character(text) == mod_37_36.calc_check_digit(text)


@given(st.sampled_from(list(Kind)), st.integers(1, HIGHEST_NUMBER))
def test_stdnum_takes_our_codes(kind: Kind, number: int) -> None:
    assert mod_37_36.is_valid(make(kind, number))


@given(st.sampled_from(list(Kind)), st.integers(1, HIGHEST_NUMBER), st.data())
def test_stdnum_refuses_every_single_substitution(kind: Kind, number: int, data: st.DataObject) -> None:
    code = make(kind, number)
    place = data.draw(st.integers(0, len(code) - 1))
    wrong = data.draw(st.sampled_from(LETTERS.replace(code[place], "")))
    assert not mod_37_36.is_valid(code[:place] + wrong + code[place + 1 :])

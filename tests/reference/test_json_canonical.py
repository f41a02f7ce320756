"""Canonical bytes against RFC 8785 and the published test data of its author.

Source: RFC 8785 (section 3.2.2.2 strings, 3.2.3 sorting, Appendix B numbers) and the test data of
github.com/cyberphone/json-canonicalization at 19d51d7f (Apache-2.0), of which `arrays` and `structures` are
short enough to stand here; the lengths and hashes are those of its published output files.
"""

from __future__ import annotations

import hashlib
import json
import struct

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lastbolt.errors import BadInputError
from lastbolt.journal import canonical


def canonical_text(value: object) -> str:
    """Give the canonical text of any JSON value, by way of an object that holds it."""
    text = canonical({"v": value}).decode()
    return text.removeprefix('{"v":').removesuffix("}")


ARRAYS = '[56,{"d":true,"10":null,"1":[]}]'
STRUCTURES = (
    '{"1":{"f":{"f":"hi","F":5},"\\n":56.0},"10":{},"":"empty","a":{},"111":[{"e":"yes","E":"no"}],"A":{}}'
)


@pytest.mark.parametrize(
    ("given_text", "expected"),
    [
        (ARRAYS, '[56,{"1":[],"10":null,"d":true}]'),
        (
            STRUCTURES,
            '{"":"empty","1":{"\\n":56,"f":{"F":5,"f":"hi"}},"10":{},"111":[{"E":"no","e":"yes"}],"A":{},"a":{}}',
        ),
        (
            "[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001]",
            "[333333333.3333333,1e+30,4.5,0.002,1e-27]",
        ),
        (
            '["\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/"]',
            '["€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"]',
        ),
        ("[null,true,false]", "[null,true,false]"),
    ],
    ids=["arrays", "structures", "numbers", "strings", "literals"],
)
def test_the_published_examples(given_text, expected):
    assert canonical_text(json.loads(given_text)) == expected


@pytest.mark.parametrize(
    ("given_text", "length", "digest"),
    [
        (ARRAYS, 32, "099601b171cafed97c333f8878d68e7f8c8f795412adb34b2fdcf0e7c7beac42"),
        (STRUCTURES, 98, "605f65004ec2db7692522a0852c22f1c989e036d547e88963d1a3143cf3195d5"),
    ],
    ids=["arrays", "structures"],
)
def test_the_hashes_of_the_published_files(given_text, length, digest):
    text = canonical_text(json.loads(given_text)).encode()
    assert (len(text), hashlib.sha256(text).hexdigest()) == (length, digest)


@pytest.mark.parametrize(
    ("bits", "text"),
    [
        ("0000000000000000", "0"),
        ("8000000000000000", "0"),
        ("0000000000000001", "5e-324"),
        ("8000000000000001", "-5e-324"),
        ("7fefffffffffffff", "1.7976931348623157e+308"),
        ("ffefffffffffffff", "-1.7976931348623157e+308"),
        ("4430000000000000", "295147905179352830000"),
        ("44b52d02c7e14af6", "1e+23"),
        ("444b1ae4d6e2ef4f", "999999999999999900000"),
        ("444b1ae4d6e2ef50", "1e+21"),
        ("3eb0c6f7a0b5ed8c", "9.999999999999997e-7"),
        ("3eb0c6f7a0b5ed8d", "0.000001"),
        ("41b3de4355555555", "333333333.3333333"),
        ("becbf647612f3696", "-0.0000033333333333333333"),
        ("43143ff3c1cb0959", "1424953923781206.2"),
    ],
)
def test_the_doubles_of_appendix_b(bits, text):
    (number,) = struct.unpack(">d", bytes.fromhex(bits))
    assert canonical_text(number) == text


def test_keys_are_sorted_by_utf_16_units_and_not_by_code_points():
    """RFC 8785, 3.2.3: U+1F600 is written D83D DE00 and so comes before U+FB33."""
    keys = ["€", "\r", "\ufb33", "1", "😀", "\u0080", "ö"]
    text = canonical(dict.fromkeys(keys, 0)).decode()
    assert list(json.loads(text)) == ["\r", "1", "\u0080", "ö", "€", "😀", "\ufb33"]


def test_letters_are_not_normalised():
    """A with a ring written as two code points (U+0041 U+030A) stays two."""
    assert canonical_text("A\u030a") == '"A\u030a"'


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf"), 2**53 + 1])
def test_numbers_without_an_exact_form_are_refused(number):
    with pytest.raises(BadInputError, match="cannot be written down exactly"):
        canonical({"v": number})


SMALL = st.floats(-(2.0**53) + 1, 2.0**53 - 1)
"""Above 2^53 a double is written like a whole number, which then is too large to be one; see the store."""
JSON = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**53) + 1, 2**53 - 1) | SMALL
    | st.text(st.characters(exclude_categories=("Cs",))),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(st.characters(exclude_categories=("Cs",))), inner, max_size=4),
    max_leaves=12,
)  # fmt: skip


@settings(max_examples=50)
@given(value=JSON)
def test_canonical_text_means_the_same_and_is_its_own_canonical_text(value):
    text = canonical_text(value)
    assert json.loads(text) == value
    assert canonical_text(json.loads(text)) == text

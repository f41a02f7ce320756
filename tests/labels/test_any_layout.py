"""Layouts that nobody wrote: Hypothesis spoils those that come with the program, and invents texts.

What the reader takes is held against the schema that we publish by jsonschema-rs, which is not ours.
"""

import copy
import json
import tomllib

import jsonschema_rs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lastbolt.errors import TemplateError
from lastbolt.label_code import code_in
from lastbolt.labels.keys import layout_schema
from lastbolt.labels.layout import LabelTemplate
from lastbolt.labels.sheet import draw_mat, draw_sheet
from lastbolt.labels.template import parse_template

from .layouts import MATS, SHEETS, layout_text

CODE = code_in("T-0042-E")
SCHEMA = jsonschema_rs.validator_for(layout_schema())
SHIPPED = {name: tomllib.loads(layout_text(name)) for name in (*SHEETS, *MATS)}
VALUES = st.one_of(
    st.integers(-(10**18), 10**18),
    st.floats(),
    st.booleans(),
    st.text(max_size=70),
    st.sampled_from([0, 1, 2, 5.0, 25.0, 100.0, 210.0, 297.0, "H", "Q", "beside", "below"]),
    st.lists(st.integers(), max_size=3),
)


def places(layout):
    """Give every section and key of a layout."""
    return [(section, key) for section, keys in layout.items() if isinstance(keys, dict) for key in keys]


def nudge(draw, layout):
    """Change sizes by a few parts in a hundred, as somebody does who fits a sheet of their own."""
    sizes = [at for at in places(layout) if type(layout[at[0]][at[1]]) is float]
    for section, key in draw(st.lists(st.sampled_from(sizes), min_size=1, max_size=4)):
        layout[section][key] *= draw(st.floats(0.9, 1.1))


@st.composite
def spoilt(draw):
    """A layout of ours with some values changed, taken away or added."""
    layout = copy.deepcopy(SHIPPED[draw(st.sampled_from(sorted(SHIPPED)))])
    if draw(st.booleans()):
        nudge(draw, layout)
        return layout
    for section, key in draw(st.lists(st.sampled_from(places(layout)), min_size=1, max_size=4)):
        layout[section].pop(key, None)
        if draw(st.booleans()):
            layout[section][draw(st.sampled_from([key, key, key, f"{key}_mm"]))] = draw(VALUES)
    if draw(st.integers(0, 9)) == 0:
        layout[draw(st.sampled_from(["kind", "title", "extra"]))] = draw(VALUES)
    return layout


def toml(layout):
    """Write a layout; strings and lists look in TOML as they do in JSON, once no surrogate is left."""
    lines, sections = [], []
    for key, value in layout.items():
        if isinstance(value, dict):
            sections += [f"[{key}]", *(f"{name} = {written(each)}" for name, each in value.items())]
        else:
            lines.append(f"{key} = {written(value)}")
    return "\n".join([*lines, *sections, ""])


def written(value):
    if isinstance(value, float):
        return repr(value)
    return (
        json.dumps(value, ensure_ascii=True)
        if not isinstance(value, str)
        else json.dumps(value).replace("\x7f", "\\u007f")
    )


def parsed(text):
    """Give a template, or None once the refusal is one of sentences that a person can act on."""
    try:
        return parse_template(text)
    except TemplateError as refusal:
        assert refusal.mistakes
        assert all(0 < len(each) < 400 and each.isprintable() for each in refusal.mistakes)
        return None


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=300))
def test_any_text_is_a_layout_or_gets_sentences(text):
    parsed(text)


@settings(max_examples=600, deadline=None)
@given(spoilt())
def test_what_is_taken_fits_the_published_schema_and_can_be_printed(layout):
    text = toml(layout)
    template = parsed(text)
    if template is None:
        return
    SCHEMA.validate(tomllib.loads(text))
    pdf = draw_sheet(template, [CODE]) if isinstance(template, LabelTemplate) else draw_mat(template)
    assert pdf.startswith(b"%PDF-")


@pytest.mark.parametrize("name", sorted(SHIPPED))
def test_ours_fit_the_schema_too(name):
    SCHEMA.validate(SHIPPED[name])

"""The table of keys, the schema made from it and the reader agree."""

import pytest

from lastbolt.errors import TemplateError
from lastbolt.labels.keys import KINDS, SECTIONS, LayoutKind, Number, layout_schema, read_section, unknown
from lastbolt.labels.template import parse_template

from .layouts import layout_text


def test_the_schema_lists_every_kind_section_and_key() -> None:
    options = layout_schema()["oneOf"]
    assert isinstance(options, list)
    listed = {
        option["properties"]["kind"]["const"]: {
            name: set(section["properties"])
            for name, section in option["properties"].items()
            if name not in {"kind", "title"}
        }
        for option in options
    }
    assert listed == {kind: {name: set(keys) for name, keys in SECTIONS[kind].items()} for kind in KINDS}


@pytest.mark.parametrize("name", ["a4-3x8", "mat-a4"])
def test_what_the_schema_requires_the_reader_requires(name: str) -> None:
    text = layout_text(name)
    kind = "mat" if name.startswith("mat") else "sheet"
    for section, keys in SECTIONS[kind].items():
        for key, rule in keys.items():
            part = text.split(f"[{section}]")[1].split("[")[0]
            line = next((line for line in part.splitlines() if line.startswith(f"{key} = ")), None)
            if rule.default is None:
                assert line is not None
                with pytest.raises(TemplateError, match=f"{key} is missing"):
                    parse_template(text.replace(part, part.replace(line, "")))


@pytest.mark.parametrize("kind", KINDS)
def test_numbers_at_their_bounds_are_taken_and_beyond_are_not(kind: LayoutKind) -> None:
    for name, keys in SECTIONS[kind].items():
        for key, rule in keys.items():
            if isinstance(rule, Number):
                cast = int if rule.whole else float
                for value, fits in (
                    (rule.low, True),
                    (rule.high, True),
                    (rule.low - 1, False),
                    (rule.high + 1, False),
                ):
                    values, mistakes = read_section(name, {key: cast(value)}, keys)
                    assert (key in values) == fits
                    assert any(f"{key} must be" in mistake for mistake in mistakes) != fits


def test_an_unknown_key_is_answered_with_the_nearest_or_with_all() -> None:
    assert unknown("colums", ("columns", "rows")) == "colums is not known; did you mean columns?"
    assert unknown("zzz", ("columns", "rows")) == "zzz is not known; known here: columns, rows"

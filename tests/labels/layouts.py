"""The layouts that come with the program, read for the tests of this room."""

from pathlib import Path

from lastbolt.labels.layout import LabelTemplate, MatTemplate
from lastbolt.labels.template import parse_template

FOLDER = Path(__file__).parents[2] / "label_templates"
SHEETS = ("a4-2x5", "a4-3x8", "letter-3x7", "roll-57x40")
MATS = ("mat-a4", "mat-a5", "mat-letter")


def layout_text(name: str) -> str:
    return (FOLDER / f"{name}.toml").read_text(encoding="utf-8")


def label_layout(name: str) -> LabelTemplate:
    template = parse_template(layout_text(name))
    assert isinstance(template, LabelTemplate)
    return template


def mat_layout(name: str) -> MatTemplate:
    template = parse_template(layout_text(name))
    assert isinstance(template, MatTemplate)
    return template

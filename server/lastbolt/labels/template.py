"""A layout file's TOML text read into a template, with all its mistakes at once; never a path."""

from __future__ import annotations

import tomllib
from typing import Literal, cast

from ..errors import TemplateError
from .geometry import geometry_mistakes
from .keys import KINDS, SECTIONS, LayoutKind, Values, read_section, unknown
from .layout import (
    Box,
    Grid,
    LabelTemplate,
    MatTemplate,
    Paper,
    ScaleCheck,
    Symbol,
    Template,
    Words,
)

_LONGEST_TEXT = 64_000
_LONGEST_TITLE = 60


def parse_template(text: str) -> Template:
    """Read a layout; sizes are millimetres, counted from the top left of the page.

    Raises:
        TemplateError: `mistakes` names everything that is wrong, one sentence each; what does not fit
            together is looked at once every key by itself is right.
    """
    raw = _toml(text)
    kind, title, mistakes = _head(raw)
    if kind is None:
        raise TemplateError(mistakes)
    sections = SECTIONS[kind]
    mistakes += [
        unknown(key, ("kind", "title", *sections)) for key in raw if key not in {"kind", "title", *sections}
    ]
    read = {name: read_section(name, raw.get(name), keys) for name, keys in sections.items()}
    mistakes += [mistake for _, found in read.values() for mistake in found]
    if mistakes:
        raise TemplateError(mistakes)
    template = _template(kind, title, {name: values for name, (values, _) in read.items()})
    mistakes = geometry_mistakes(template)
    if mistakes:
        raise TemplateError(mistakes)
    return template


def _toml(text: str) -> dict[str, object]:
    if len(text) > _LONGEST_TEXT:
        raise TemplateError([f"a layout has at most {_LONGEST_TEXT} characters; this is something else"])
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        raise TemplateError([f"this is not TOML: {str(error)[:200]}"]) from error


def _head(raw: dict[str, object]) -> tuple[LayoutKind | None, str, list[str]]:
    mistakes = []
    kind = raw.get("kind")
    if kind not in KINDS:
        mistakes.append(f"kind must be {', '.join(KINDS[:-1])} or {KINDS[-1]}, not {kind!r:.40}")
    title = raw.get("title")
    if not isinstance(title, str) or not 1 <= len(title.strip()) <= _LONGEST_TITLE or not _printable(title):
        mistakes.append(f"title must be one line of 1 to {_LONGEST_TITLE} Latin letters, not {title!r:.40}")
        title = ""
    return next((known for known in KINDS if known == kind), None), title, mistakes


def _printable(title: str) -> bool:
    return title.isprintable() and all(ord(letter) < 256 for letter in title)


def _template(kind: LayoutKind, title: str, values: dict[str, Values]) -> Template:
    paper, check = _paper(values["paper"]), _check(values["check"])
    if kind == "mat":
        field = values["field"]
        box = Box(*(float(field[key]) for key in ("left_mm", "top_mm", "width_mm", "height_mm")))
        return MatTemplate(title, paper, box, float(field["marker_mm"]), check)
    return LabelTemplate(
        kind=kind,
        title=title,
        paper=paper,
        grid=_grid(values["grid"]),
        symbol=_symbol(values["symbol"]),
        words=_words(values["text"]),
        check=check,
    )


def _paper(values: Values) -> Paper:
    return Paper(float(values["width_mm"]), float(values["height_mm"]), float(values["margin_mm"]))


def _grid(values: Values) -> Grid:
    return Grid(
        columns=int(values["columns"]),
        rows=int(values["rows"]),
        left_mm=float(values["left_mm"]),
        top_mm=float(values["top_mm"]),
        pitch_x_mm=float(values["pitch_x_mm"]),
        pitch_y_mm=float(values["pitch_y_mm"]),
        label_width_mm=float(values["label_width_mm"]),
        label_height_mm=float(values["label_height_mm"]),
        start=int(values["start"]),
        turned=bool(values["turned"]),
        cut_marks=bool(values["cut_marks"]),
    )


def _symbol(values: Values) -> Symbol:
    return Symbol(float(values["edge_mm"]), cast(Literal["Q", "H"], values["level"]))


def _words(values: Values) -> Words:
    return Words(
        place=cast(Literal["beside", "below"], values["place"]),
        code_mm=float(values["code_mm"]),
        kind_mm=float(values["kind_mm"]),
        lines=int(values["lines"]),
        pad_mm=float(values["pad_mm"]),
        foot_mm=float(values["foot_mm"]),
    )


def _check(values: Values) -> ScaleCheck:
    return ScaleCheck(**{key: float(value) for key, value in values.items()})

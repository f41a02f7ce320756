"""Whether a layout can be printed: all on the paper, quiet zones blank, letters and modules large enough."""

from __future__ import annotations

from itertools import combinations

from . import lettering
from .layout import (
    SMALLEST_SIDE_MODULES,
    Box,
    LabelTemplate,
    MatTemplate,
    Template,
    check_boxes,
    label_parts,
    on_paper,
)
from .symbol import SMALLEST_MODULE_MM

_SLACK = 1e-6
_LONGEST_CODE = "W-0000-W"
_NARROWEST_TEXT_MM = 15.0
_WRITING_PITCH_MM = 5.0
_MARKER_REST_MM = 20.0


def geometry_mistakes(template: Template) -> list[str]:
    """Name everything that does not fit, one sentence each with its numbers."""
    if isinstance(template, MatTemplate):
        found = _mat_mistakes(template)
    else:
        found = _grid_mistakes(template) + _label_mistakes(template)
    return found + _check_mistakes(template)


def ink_boxes(template: Template) -> dict[str, Box]:
    """Give every place on the page that may be printed on."""
    boxes = check_boxes(template)
    if isinstance(template, MatTemplate):
        return boxes | {"field": template.field}
    parts = label_parts(template)
    for index in range(template.grid.cells):
        cell = template.grid.cell(index)
        for name, box in (("symbol", parts.symbol), ("text", _text_box(template))):
            boxes[f"{name} of label {index + 1}"] = on_paper(box, cell, turned=template.grid.turned)
    return boxes


def _text_box(template: LabelTemplate) -> Box:
    parts = label_parts(template)
    return Box(parts.kind.left, parts.kind.top, parts.kind.width, parts.writing.bottom - parts.kind.top)


def _grid_mistakes(template: LabelTemplate) -> list[str]:
    grid, paper = template.grid, template.paper
    found = []
    last = grid.cell(grid.cells - 1)
    if last.right > paper.width_mm + _SLACK:
        found.append(
            f"[grid] the labels end at {last.right:.1f} mm, right of the {paper.width_mm:g} mm wide paper"
        )
    if last.bottom > paper.height_mm + _SLACK:
        found.append(
            f"[grid] the labels end at {last.bottom:.1f} mm, below the {paper.height_mm:g} mm high paper"
        )
    if grid.columns > 1 and grid.pitch_x_mm < grid.label_width_mm - _SLACK:
        found.append("[grid] pitch_x_mm is less than label_width_mm: labels would overlap")
    if grid.rows > 1 and grid.pitch_y_mm < grid.label_height_mm - _SLACK:
        found.append("[grid] pitch_y_mm is less than label_height_mm: labels would overlap")
    if grid.start > grid.cells:
        found.append(f"[grid] start is {grid.start}, but the page has only {grid.cells} labels")
    if template.kind == "roll" and grid.cells != 1:
        found.append("[grid] a roll has one label a page: columns and rows must be 1")
    return found


def _label_mistakes(template: LabelTemplate) -> list[str]:
    symbol, words = template.symbol, template.words
    parts = label_parts(template)
    found = []
    module = symbol.edge_mm / SMALLEST_SIDE_MODULES
    if module < SMALLEST_MODULE_MM:
        found.append(
            f"[symbol] edge_mm {symbol.edge_mm:g} gives modules of {module:.2f} mm; "
            f"the least is {SMALLEST_MODULE_MM} mm"
        )
    width, height = template.grid.label_width_mm, template.grid.label_height_mm
    if template.grid.turned:
        width, height = height, width
    blank = symbol.edge_mm + 2 * symbol.quiet_mm
    if blank > width + _SLACK or blank > height + _SLACK:
        found.append(
            f"[symbol] with its quiet zone of 4 modules the symbol needs {blank:.1f} mm, "
            f"but a label is {width:g} x {height:g} mm"
        )
        return found
    if parts.code.width < _NARROWEST_TEXT_MM:
        found.append(
            f"[text] only {max(parts.code.width, 0):.1f} mm are left for the text; "
            f"it needs {_NARROWEST_TEXT_MM:g}"
        )
        return found
    fitted = lettering.fit(_LONGEST_CODE, parts.code.width, height_mm=words.code_mm)
    if fitted.height_mm < words.code_mm - _SLACK:
        found.append(
            f"[text] a code {words.code_mm:g} mm high does not fit into {parts.code.width:.1f} mm; "
            f"the most is {fitted.height_mm:.1f} mm"
        )
    need = words.lines * _WRITING_PITCH_MM
    if parts.writing.height < need - _SLACK:
        found.append(
            f"[text] {max(parts.writing.height, 0):.1f} mm are left to write in; "
            f"lines = {words.lines} needs {need:g} mm"
        )
    return found


def _mat_mistakes(template: MatTemplate) -> list[str]:
    paper, field = template.paper, template.field
    found = []
    if _outside(field, template):
        found.append(
            f"[field] at {field.left:g} to {field.right:g} mm across, {field.top:g} to {field.bottom:g} mm "
            f"down, the field does not lie inside the paper's margin of {paper.margin_mm:g} mm"
        )
    if min(field.width, field.height) < 2 * template.marker_mm + _MARKER_REST_MM:
        found.append(f"[field] between two markers at least {_MARKER_REST_MM:g} mm must stay plain")
    return found


def _check_mistakes(template: Template) -> list[str]:
    marks, clear = check_boxes(template), _kept_clear(template)
    rim = f"does not lie inside the paper's margin of {template.paper.margin_mm:g} mm"
    found = [f"[check] the {name} {rim}" for name, box in marks.items() if _outside(box, template)]
    if isinstance(template, LabelTemplate):
        printed = {name: box for name, box in ink_boxes(template).items() if name not in marks}
        outside = [name for name, box in printed.items() if _outside(box, template)]
        if outside:
            more = f" (and {len(outside) - 1} more)" if len(outside) > 1 else ""
            found.append(f"[grid] the {outside[0]}{more} {rim}")
    found += [
        f"[check] the {one} and the {other} overlap"
        for (one, a), (other, b) in combinations(marks.items(), 2)
        if _overlap(a, b)
    ]
    found += [
        f"[check] the {name} lies over the {next(other for other, b in clear.items() if _overlap(box, b))}"
        for name, box in marks.items()
        if any(_overlap(box, b) for b in clear.values())
    ]
    return found


def _kept_clear(template: Template) -> dict[str, Box]:
    if isinstance(template, MatTemplate):
        return {"field": template.field}
    quiet = template.symbol.quiet_mm
    clear = {}
    for name, box in ink_boxes(template).items():
        if name.startswith("symbol"):
            clear[name] = Box(
                box.left - quiet, box.top - quiet, box.width + 2 * quiet, box.height + 2 * quiet
            )
        elif name.startswith("text"):
            clear[name] = box
    return clear


def _outside(box: Box, template: Template) -> bool:
    paper, rim = template.paper, template.paper.margin_mm - _SLACK
    return (
        box.left < rim
        or box.top < rim
        or box.right > paper.width_mm - rim
        or box.bottom > paper.height_mm - rim
    )


def _overlap(one: Box, other: Box) -> bool:
    return (
        one.left < other.right - _SLACK
        and other.left < one.right - _SLACK
        and one.top < other.bottom - _SLACK
        and other.top < one.bottom - _SLACK
    )

"""A torque as somebody wrote it: the text is kept, the value is exact."""

import re
from dataclasses import dataclass
from decimal import Decimal

from lastbolt.said import said
from lastbolt.torque.torque_unit import EXACT, TorqueUnit, convert_torque, read_unit
from lastbolt.torque.unreadable import Unreadable

LONGEST_TEXT = 120
_NUMBER = r"[0-9]{1,9}(?:[.,][0-9]{1,9})?"
_PART = re.compile(
    rf"(?P<first>{_NUMBER})\s*"
    rf"(?:(?P<join>±|-|–|—|…|\.\.\.?|to\b)\s*(?P<second>{_NUMBER})\s*(?P<inner>%)?\s*)?"
    r"(?P<unit>[^0-9±%]+?)\s*"
    rf"(?:±\s*(?P<spread>{_NUMBER})\s*(?P<after>[^0-9]*))?"
)
_BETWEEN_UNITS = re.compile(r"\s*[/=;|()\[\]]\s*|,\s+")
_EXAMPLE = 'Write a number and its unit, for example "47 N·m" or "35 lbf·ft".'


@dataclass(frozen=True)
class Quantity:
    """One printed figure or range in one unit; `low == high` when a single figure stands there."""

    low: Decimal
    high: Decimal
    unit: TorqueUnit
    text: str

    @property
    def is_single(self) -> bool:
        """Whether one figure stands there, not a range."""
        return self.low == self.high

    @property
    def middle(self) -> Decimal:
        """Half way between low and high, in the unit as written."""
        return EXACT.divide(EXACT.add(self.low, self.high), Decimal(2))

    @property
    def low_newton_metres(self) -> Decimal:
        """The lower end in exact N·m."""
        return convert_torque(self.low, self.unit)

    @property
    def high_newton_metres(self) -> Decimal:
        """The upper end in exact N·m."""
        return convert_torque(self.high, self.unit)


@dataclass(frozen=True)
class WrittenTorque:
    """A torque as written, with one quantity for each unit that stands there, in that order."""

    text: str
    quantities: tuple[Quantity, ...]

    @property
    def main(self) -> Quantity:
        """The quantity that was written first: it counts."""
        return self.quantities[0]

    @property
    def newton_metres(self) -> Decimal:
        """The middle of the main quantity in exact N·m."""
        return convert_torque(self.main.middle, self.main.unit)


def parse_torque(text: str) -> WrittenTorque | Unreadable:
    """Read a torque with its unit, comma or point: a figure, a range or value ± spread, in one unit or more.

    No unit is ever guessed. A comma before exactly three digits is refused, as it may be a thousand.
    Units beside the first are separated by `/`, `=`, `;` or brackets.

    >>> parse_torque("10 N·m / 7 lbf·ft").newton_metres
    Decimal('10')
    >>> parse_torque("24 ± 2 Nm").main.high
    Decimal('26')
    >>> parse_torque("35").reason
    '"35" has no unit. Write a number and its unit, for example "47 N·m" or "35 lbf·ft".'
    """
    if len(text) > LONGEST_TEXT:
        return Unreadable(
            text[:LONGEST_TEXT],
            said("A torque of more than {n} characters. {example}", n=LONGEST_TEXT, example=said(_EXAMPLE)),
        )
    parts = [part for part in _BETWEEN_UNITS.split(text.replace("+/-", "±").strip()) if part]
    if not parts:
        return Unreadable(text, said("Nothing is written here. {example}", example=said(_EXAMPLE)))
    quantities: list[Quantity] = []
    for part in parts:
        quantity = _parse_part(part.strip())
        if isinstance(quantity, Unreadable):
            return quantity
        quantities.append(quantity)
    return WrittenTorque(text, tuple(quantities))


def _parse_part(part: str) -> Quantity | Unreadable:
    if re.fullmatch(_NUMBER, part):
        return Unreadable(part, said('"{part}" has no unit. {example}', part=part, example=said(_EXAMPLE)))
    match = _PART.fullmatch(part)
    if match is None or not match["unit"].strip():
        return Unreadable(
            part, said('"{part}" cannot be read as a torque. {example}', part=part, example=said(_EXAMPLE))
        )
    unit = read_unit(match["unit"])
    if unit is None:
        return Unreadable(
            part,
            said(
                '"{unit}" is no unit of torque known here. {example}',
                unit=match["unit"].strip(),
                example=said(_EXAMPLE),
            ),
        )
    if ambiguous := _may_be_a_thousand(match):
        return Unreadable(part, ambiguous)
    ends = _read_ends(match, unit)
    if ends is None:
        return Unreadable(
            part,
            said('The tolerance in "{part}" cannot be read. {example}', part=part, example=said(_EXAMPLE)),
        )
    if not 0 < ends[0] <= ends[1]:
        return Unreadable(
            part,
            said(
                '"{part}" is no range above zero, low end first. {example}', part=part, example=said(_EXAMPLE)
            ),
        )
    return Quantity(ends[0], ends[1], unit, part)


def _may_be_a_thousand(match: re.Match[str]) -> str | None:
    for number in (match["first"], match["second"], match["spread"]):
        if number and re.fullmatch(r"[1-9][0-9]{0,2},[0-9]{3}", number):
            decimal, whole = number.replace(",", "."), number.replace(",", "")
            way_out = said('Write "{decimal}" or "{whole}".', decimal=decimal, whole=whole)
            return said(
                '"{number}" may be a decimal or a thousand. {way_out}', number=number, way_out=way_out
            )
    return None


def _read_ends(match: re.Match[str], unit: TorqueUnit) -> tuple[Decimal, Decimal] | None:
    """Low and high of one part, or None when its tolerance makes no sense."""
    first = _decimal(match["first"])
    spread: Decimal | None = None
    low = high = first
    if match["second"]:
        second = _decimal(match["second"])
        if match["join"] == "±":
            spread = first * second / 100 if match["inner"] else second
        elif match["inner"]:
            return None
        else:
            high = second
    if match["spread"]:
        after = match["after"].strip()
        if spread is not None or high != first or (after not in ("", "%") and read_unit(after) is not unit):
            return None
        spread = first * _decimal(match["spread"]) / 100 if after == "%" else _decimal(match["spread"])
    return (low, high) if spread is None else (first - spread, first + spread)


def _decimal(text: str) -> Decimal:
    return Decimal(text.replace(",", "."))


def show_torque(written: WrittenTorque) -> str:
    """The text as written, with N·m to four digits behind it where no N·m stands there.

    >>> show_torque(parse_torque("35 lbf ft"))
    '35 lbf ft (47.45 N·m)'
    """
    if any(quantity.unit is TorqueUnit.NEWTON_METRE for quantity in written.quantities):
        return written.text
    main = written.main
    low, high = (f"{float(end):.4g}" for end in (main.low_newton_metres, main.high_newton_metres))
    return f"{written.text} ({low if main.is_single else f'{low}–{high}'} N·m)"

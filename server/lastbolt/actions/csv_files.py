"""A table of a job as CSV, with no cell that a spreadsheet takes for a formula; without names if asked."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

from ..errors import NotFoundError
from ..report.tables import TABLES
from ..said import said
from .ports import Shop
from .release_source import source_of
from .require import require_job
from .verify import Bench

FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
"""How a text begins that a spreadsheet may run (OWASP, CSV injection)."""
MARK = "\ufeff"
"""Says to spreadsheets that the file is UTF-8."""


def csv_file(shop: Shop, bench: Bench, job: str, what: str, *, customer: bool = False) -> bytes:
    """Give findings, torques or renewals of a job as CSV.

    Raises:
        NotFoundError: no entry names that job, or there is no such table.
    """
    require_job(shop.look_up, job)
    if what not in TABLES:
        raise NotFoundError(
            said("there is no table {what}; ask for {tables}", what=repr(what[:40]), tables=", ".join(TABLES))
        )
    source = source_of(shop.journal, bench, job, named=not customer)
    return csv_bytes(TABLES[what](source))


def csv_bytes(rows: Iterable[Iterable[str]]) -> bytes:
    """Write rows as CSV (RFC 4180) in UTF-8.

    >>> csv_bytes([["a", "=1+1"], ["b, c", "2"]]).decode().splitlines()
    ["\\ufeffa,'=1+1", '"b, c",2']
    """
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows([guarded(cell) for cell in row] for row in rows)
    return (MARK + out.getvalue()).encode()


def guarded(cell: str) -> str:
    """Put an apostrophe before what could be run as a formula; a plain number stays one.

    >>> guarded("@SUM(A1)"), guarded("-12.5"), guarded("-12+cmd")
    ("'@SUM(A1)", '-12.5', "'-12+cmd")
    """
    if not cell.startswith(FORMULA):
        return cell
    try:
        float(cell)
    except ValueError:
        return f"'{cell}"
    return cell

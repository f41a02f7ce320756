"""Print labels that were never printed before, or a count mat, in a layout of the shop."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..label_code import Kind, LabelCode, make, shown
from ..labels.layout import MatTemplate
from ..labels.sheet import draw_mat, draw_sheet, places
from ..labels.template import parse_template
from .paper_words import Language, words_of
from .ports import Shop
from .record import envelope, received_text
from .require import require_job


@dataclass(frozen=True, slots=True)
class Wish:
    """What to print: `start` is the first free place of the first page, None for the layout's own."""

    layout: str
    count: int = 1
    kind: Kind = Kind.TRAY
    start: int | None = None
    address: str | None = None
    scale: float = 1.0
    language: Language = "en"


@dataclass(frozen=True, slots=True)
class Printed:
    """A PDF and the codes on it; a mat has none."""

    pdf: bytes
    codes: tuple[LabelCode, ...]

    def words(self) -> str:
        """Say what was printed.

        >>> Printed(b"", (make("T", 1), make("T", 2))).words()
        '2 labels, T-0001-W to T-0002-U,'
        """
        if not self.codes:
            return "A count mat"
        return f"{len(self.codes)} labels, {shown(self.codes[0])} to {shown(self.codes[-1])},"


def print_labels(shop: Shop, wish: Wish, *, job: str | None = None, by: str | None = None) -> Printed:
    """Print labels under new numbers; with a job and a person it is recorded which.

    Raises:
        NotFoundError: no such layout or job.
        TemplateError: the layout has mistakes, all of them named.
        BadInputError: it does not fit: count, start, address or scale. No number was used up.
    """
    template = replace(parse_template(shop.layouts.text(wish.layout)), own=words_of(wish.language))
    if job is not None:
        require_job(shop.look_up, job)
    if isinstance(template, MatTemplate):
        return Printed(draw_mat(template, scale=wish.scale), ())
    places(template, wish.count, start=wish.start)
    draw_sheet(template, [make(wish.kind, 1)], address=wish.address, start=wish.start, scale=wish.scale)
    codes = tuple(make(wish.kind, number) for number in shop.counters.take(wish.kind.value, wish.count))
    pdf = draw_sheet(template, codes, address=wish.address, start=wish.start, scale=wish.scale)
    if job is not None:
        _record(shop, job, by or "label printer", codes=codes, layout=wish.layout)
    return Printed(pdf, codes)


def _record(shop: Shop, job: str, by: str, *, codes: tuple[LabelCode, ...], layout: str) -> None:
    now = shop.clock()
    raw = {
        **envelope(shop, job, by=by, at=now),
        "kind": "labels-printed",
        "codes": list(codes),
        "layout": layout,
    }
    shop.journal.append_own(job, [raw], received=received_text(now))

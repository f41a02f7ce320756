"""A page as plain records: numbered blocks of lines, tables and pictures, for paper and text."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from ..said import in_words, said


@dataclass(frozen=True, slots=True)
class Picture:
    """A small picture: the SHA-256 of its original, and what stands under it."""

    sha256: str
    caption: str


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of texts under heads; `widths` are shares of the page's width."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a block; `ticked` is None where there is no box to tick."""

    text: str
    ticked: bool | None = None


@dataclass(frozen=True, slots=True)
class Block:
    """One numbered section; `nothing` is what it says when there is nothing in it."""

    number: int
    title: str
    lines: tuple[Entry, ...] = ()
    tables: tuple[Table, ...] = ()
    pictures: tuple[Picture, ...] = ()
    nothing: str = said("Nothing recorded.")
    is_grave: bool = False

    @property
    def is_empty(self) -> bool:
        """Tell whether nothing stands in it."""
        return not self.lines and not self.pictures and not any(table.rows for table in self.tables)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A page: heading, what is said under it, blocks, and what stands at its foot."""

    heading: str
    under: tuple[str, ...]
    blocks: tuple[Block, ...]
    foot: tuple[str, ...] = ()


def spoken(sheet: Sheet, own: Mapping[str, str]) -> Sheet:
    """Say a sheet in another language, as far as its texts keep their forms; names stay as they are."""

    def say(texts: Iterable[str]) -> tuple[str, ...]:
        return tuple(in_words(text, own) for text in texts)

    blocks = tuple(
        replace(
            block,
            title=in_words(block.title, own),
            nothing=in_words(block.nothing, own),
            lines=tuple(replace(line, text=in_words(line.text, own)) for line in block.lines),
            tables=tuple(
                replace(table, heads=say(table.heads), rows=tuple(say(row) for row in table.rows))
                for table in block.tables
            ),
            pictures=tuple(replace(one, caption=in_words(one.caption, own)) for one in block.pictures),
        )
        for block in sheet.blocks
    )
    return Sheet(in_words(sheet.heading, own), say(sheet.under), blocks, say(sheet.foot))


def lines_of(*texts: str) -> tuple[Entry, ...]:
    """Make lines of texts, leaving out what is empty."""
    return tuple(Entry(text) for text in texts if text)


def sheet_json(sheet: Sheet) -> dict[str, Any]:
    """Give a sheet as JSON: what is hashed and signed when it is a release record."""
    return {
        "heading": sheet.heading,
        "under": list(sheet.under),
        "blocks": [_block_json(block) for block in sheet.blocks],
        "foot": list(sheet.foot),
    }


def _block_json(block: Block) -> dict[str, Any]:
    return {
        "number": block.number,
        "title": block.title,
        "lines": [
            line.text if line.ticked is None else {"text": line.text, "ticked": line.ticked}
            for line in block.lines
        ],
        "tables": [{"heads": list(t.heads), "rows": [list(row) for row in t.rows]} for t in block.tables],
        "pictures": [{"sha256": p.sha256, "caption": p.caption} for p in block.pictures],
        "nothing": block.nothing if block.is_empty else "",
    }


def sheet_text(sheet: Sheet) -> str:
    """Write a sheet as plain text."""
    return "\n".join(_text_lines(sheet))


def _text_lines(sheet: Sheet) -> Iterator[str]:
    yield sheet.heading
    yield from sheet.under
    for block in sheet.blocks:
        yield ""
        yield f"{block.number}. {block.title}"
        if block.is_empty:
            yield f"   {block.nothing}"
        for line in block.lines:
            box = "" if line.ticked is None else "[x] " if line.ticked else "[ ] "
            yield f"   {box}{line.text}"
        for table in block.tables:
            yield from _table_lines(table)
        for picture in block.pictures:
            yield f"   Photo {picture.sha256[:12]}: {picture.caption}"
    yield ""
    yield from sheet.foot


def _table_lines(table: Table) -> Iterator[str]:
    for row in table.rows:
        if not any(table.heads):
            yield f"   - {': '.join(row)}"
            continue
        named = (
            f"{head}: {cell}" if head else cell for head, cell in zip(table.heads, row, strict=True) if cell
        )
        yield f"   - {'; '.join(named)}"


def table(heads: Sequence[str], rows: Sequence[Sequence[str]], widths: Sequence[int]) -> tuple[Table, ...]:
    """Make a table, none where there is no row."""
    return (Table(tuple(heads), tuple(tuple(row) for row in rows), tuple(widths)),) if rows else ()

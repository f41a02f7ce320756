"""How sentences are made, as it goes over the wire: the page fills the form of its own language."""

from __future__ import annotations

from ..said import Said
from .wire import Form


def forms_of(*texts: str) -> list[Form]:
    """Give the forms of those texts that have parts."""
    return [_form(text) for text in texts if isinstance(text, Said) and text.parts]


def _form(text: Said) -> Form:
    parts = {name: _form(part) if isinstance(part, Said) else part for name, part in text.parts.items()}
    return Form(form=text.form, parts=parts)

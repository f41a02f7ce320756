"""No kind of entry is forgotten by the fold, and every error is one of ours."""

from __future__ import annotations

from typing import get_args

from lastbolt import errors
from lastbolt.journal.entries import AnyEntry, kinds
from lastbolt.state.fold import HANDLERS, KEPT_ONLY, WORK


def test_every_kind_of_entry_is_folded_or_kept_on_purpose():
    assert set(HANDLERS) | KEPT_ONLY == set(kinds())


def test_no_kind_is_both_folded_and_kept_only():
    assert set(HANDLERS) & KEPT_ONLY == set()


def test_hands_on_the_machine_are_known_kinds():
    assert set(kinds()) >= WORK


def test_every_kind_says_what_it_records():
    assert [model.__name__ for model in get_args(AnyEntry) if not (model.__doc__ or "").strip()] == []


def test_there_are_few_errors_and_all_are_ours():
    ours = [e for e in vars(errors).values() if isinstance(e, type) and issubclass(e, Exception)]

    assert len(ours) <= 11
    assert all(issubclass(e, errors.LastboltError) and e.__name__.endswith("Error") for e in ours)

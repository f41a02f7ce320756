"""The manual has a full page for every check and no word that promises too much."""

from __future__ import annotations

import json
import re

import pytest

from lastbolt import checks
from lastbolt.report.manual import HEADINGS, CheckPage, manual, manual_json, manual_text, sections

PAGES = manual()


def test_has_a_page_for_every_check_in_their_order():
    assert [page.name for page in PAGES] == [checks.name_of(check) for check in checks.ALL]


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_every_page_says_all_five_things(page: CheckPage):
    assert all([page.title, page.finds, page.matters, page.example, page.clear, page.silent])


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_no_page_promises_too_much(page: CheckPage):
    said = " ".join(str(value) for value in (page.title, page.finds, page.matters, page.clear, page.silent))

    assert re.findall(r"\b(safe|OK|airworthy|verified)\b", said, re.IGNORECASE) == []


def test_rejoins_a_word_broken_after_its_hyphen():
    _, said = sections("A.\n\nSilent when: then new-\n    for-old speaks - or\n    nobody.")

    assert said["Silent when"] == "then new-for-old speaks - or nobody."


def test_a_docstring_without_a_heading_gives_an_empty_text_and_not_a_neighbour_s():
    _, said = sections("A.\n\nExample: one.\n\nHow to clear it: look.")

    assert said == {
        "What it finds": "",
        "Why it matters": "",
        "Example": "one.",
        "How to clear it": "look.",
        "Silent when": "",
    }


def test_the_json_and_the_markdown_hold_the_same_pages():
    plain = json.loads(json.dumps(manual_json()))
    text = manual_text()

    assert [page["name"] for page in plain] == re.findall(r"^## (\S+)$", text, re.MULTILINE)
    assert all(page["finds"] in text and page["clear"] in text for page in plain)
    assert text.count("**What it finds:**") == len(checks.ALL) and len(HEADINGS) == 5


def test_says_which_checks_interrupt_and_which_guard_a_start():
    assert {page.name for page in PAGES if page.interrupts} == checks.INTERRUPTING
    assert {page.name for page in PAGES if page.guards_start} == checks.START

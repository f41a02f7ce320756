"""What the server says in forms, German says too, with the same parts; nothing is kept that nobody says."""

import ast
import json

import pytest
from tests.house.forms_in_sources import GAP, GERMAN, REFUSE, REFUSED_IN, SOURCES, forms_in_sources
from tests.replay.build_incidents import FOLDER, files
from tests.replay.more_scenario_journal import MORE_SCENARIOS
from tests.replay.more_scenario_journal import journal_of as more_journal_of
from tests.replay.scenario_journal import SCENARIOS, journal_of

from lastbolt import checks, errors
from lastbolt.finding import Finding
from lastbolt.journal import entry_from, in_order, raws_from_lines
from lastbolt.journal.order import effective
from lastbolt.plan.next_step import next_steps
from lastbolt.report.handover import handover_sheet
from lastbolt.report.verdict import live_findings, states, verdicts
from lastbolt.said import Said, from_json, joined, said, to_json, without_stop

KEPT = json.loads(GERMAN.read_text())


def test_each_form_is_said_in_german_and_no_other():
    assert sorted(forms_in_sources()) == sorted(KEPT)


@pytest.mark.parametrize("form", KEPT)
def test_german_uses_the_parts_of_the_form(form):
    assert set(GAP.findall(KEPT[form])) == set(GAP.findall(form))
    assert KEPT[form].endswith(".") == form.endswith(".") and KEPT[form].strip()


@pytest.mark.parametrize("path", REFUSED_IN, ids=lambda path: str(path.relative_to(SOURCES)))
def test_no_refusal_is_put_together_from_plain_text(path):
    """What is raised for a page is a standing sentence or a form: nothing else can be said in German."""
    calls = [
        node for node in ast.walk(ast.parse(path.read_text())) if isinstance(node, ast.Call) and node.args
    ]
    refusing = [call for call in calls if ast.unparse(call.func) in {*vars(errors), *REFUSE}]
    plain = [ast.unparse(call) for call in refusing if isinstance(call.args[-1], ast.JoinedStr | ast.BinOp)]
    assert plain == []


def unsaid(text: str) -> list[str]:
    """List what of a text German has no form for; a part that is no text of ours is a name.

    A sentence of ours that is no form where it is a part of another would stay English there.
    """
    if not isinstance(text, Said):
        return [] if text in KEPT else [text]
    own = [] if text.form in KEPT else [text.form]
    plain = [part for part in text.parts.values() if not isinstance(part, Said)]
    own += [part for part in plain if part in KEPT and part.endswith(".")]
    return own + [each for part in text.parts.values() if isinstance(part, Said) for each in unsaid(part)]


def of_finding(finding: Finding) -> list[str]:
    return [*unsaid(finding.sentence), *unsaid(finding.to_do)]


def all_journals() -> list[list[dict]]:
    told = [[*raws_from_lines((FOLDER / name).read_text().splitlines())] for name in files()]
    return [journal_of(s) for s in SCENARIOS] + [more_journal_of(s) for s in MORE_SCENARIOS] + told


def test_every_sentence_of_the_scenarios_and_reports_has_its_form():
    """A sentence that was put together from plain text would stay English on a German page."""
    missing, n = set(), 0
    for raws in all_journals():
        entries = [entry_from(raw) for raw in raws]
        job = str(raws[0]["job"])
        found = [f for verdict in verdicts(entries, job) for f in verdict.findings]
        found += [f for _, f in live_findings(entries, job)]
        n += len(found)
        missing |= {text for each in found for text in of_finding(each)}
        state = states(in_order(entries))[job]
        steps = next_steps(state)
        for step in filter(None, (steps.big, *steps.small, *steps.waiting)):
            missing |= {text for text in (step.sentence, step.waits_for) if text for text in unsaid(text)}
    print(f"{n} findings")
    assert n > 300 and missing == set()


def test_every_line_of_the_handover_sheets_has_its_form():
    named = {checks.name_of(check).replace("-", " ") for check in checks.ALL}
    missing, n = set(), 0
    for raws in all_journals():
        entries = [entry_from(raw) for raw in raws]
        job = str(raws[0]["job"])
        own = [h.entry for h in effective(in_order(entries)) if h.entry.job == job]
        for verdict in verdicts(entries, job):
            sheet = handover_sheet(states(in_order(entries))[job], verdict, own)
            told = [line.text for section in sheet.sections for line in section.lines]
            missing |= {text for each in (*told, *sheet.unsent) for text in unsaid(each)} - named
            n += len(told)
    print(f"{n} lines")
    assert n > 1000 and missing == set()


def test_a_form_keeps_what_fills_it_and_reads_as_text():
    held = said("{pieces} of {set}", pieces=said("{n} bolts", n=2), set="COVER {n}")
    assert held == "2 bolts of COVER {n}" and isinstance(held.parts["pieces"], Said)
    assert json.dumps({"said": held}) == '{"said": "2 bolts of COVER {n}"}'
    both = joined("; ", [held, "LID"])
    assert both == "2 bolts of COVER {n}; LID" and isinstance(both, Said) and both.form == "{first}; {then}"
    assert without_stop(said("{what} is lost.", what="pin.")) == "pin. is lost"
    assert said("a {gap} that nothing fills") == "a {gap} that nothing fills"


def test_a_form_goes_over_to_another_process_and_back():
    inner = said("it takes longer than {seconds} s", seconds=30)
    refused = said("The photo reader gave up on this picture: {why}; send the camera's own photo.", why=inner)
    back = from_json(to_json(refused))
    assert back == refused and isinstance(back, Said) and unsaid(back) == []
    assert isinstance(back.parts["why"], Said) and back.parts["why"].parts == {"seconds": "30"}
    assert from_json(to_json("The HEIC photo is damaged.")) == "The HEIC photo is damaged."


@pytest.mark.parametrize(
    "odd",
    [
        "",
        "3",
        "[]",
        '{"form": "x"}',
        '{"form": "x", "parts": {"form": "y"}}',
        '{"parts": {"a": [1]}}',
        "[" * 9999,
    ],
)
def test_what_is_no_written_form_is_refused(odd):
    with pytest.raises(ValueError, match=r".+"):
        from_json(odd)

"""The commands of the desk, as typed: record, handover on paper, find, and an audit that knows what was signed."""

import pytest

from tests.actions.releases import JOB, released, sample_shop


@pytest.fixture
def shop(tmp_path):
    """The sample job in the folder that `run` works in."""
    wired = sample_shop(tmp_path / "shop", photos=False)
    yield wired
    wired.close()


def test_the_record_is_written_as_text_and_says_how_it_stands(run, shop):
    status, out, err = run("record", JOB)
    assert (status, err) == (0, "")
    assert out.startswith("Release record: NOT RELEASED") and "16. Proof" in out
    status, out, _ = run("record", JOB, "--customer")
    assert status == 0 and "Ilse" not in out and "6. Fastener groups" not in out


def test_the_paper_that_was_signed_comes_out_as_it_was(run, shop, tmp_path):
    released(shop)
    kept = shop.releases.of(JOB)[0]
    for paper in ("a4", "letter"):
        status, _, err = run("record", JOB, "--paper", paper, "-o", tmp_path / "r.pdf")
        assert status == 0 and "r.pdf" in err
        assert (tmp_path / "r.pdf").read_bytes() == shop.releases.paper(kept.files[f"record-{paper}.pdf"])


def test_the_audit_says_who_signed_and_what_no_longer_fits(run, shop):
    released(shop)
    _, out, _ = run("audit", JOB)
    assert f"with the key {shop.signer.public}" in out
    assert "does not fit" not in out
    with shop.database.writing() as tables:
        tables.execute("DROP TRIGGER releases_never_change")
        tables.execute("UPDATE releases SET record = replace(record, 'Ilse', 'Olga')")
    again, out, _ = run("audit", JOB)
    assert again == 1 and "its record was changed after it was signed" in out


def test_the_handover_sheet_goes_on_paper(run, shop, tmp_path):
    status, out, err = run("handover", JOB, "--pdf", tmp_path / "h.pdf", "--paper", "letter")
    assert (status, out) == (0, "") and "h.pdf" in err
    assert (tmp_path / "h.pdf").read_bytes().startswith(b"%PDF")
    assert run("handover", JOB)[1].startswith("Handover: Wagtail")


def test_what_was_written_is_found(run, shop):
    status, out, _ = run("find", "where", "did", "we", "use", "the", "M8×35", "bolts")
    assert status == 0 and "inlet manifold bolts" in out
    assert "these have some" in run("find", "manifold", "zebra")[1]
    assert run("find", "zebra")[1] == "Nothing was found with these words.\n"


@pytest.mark.parametrize("words", [("record", "nowhere"), ("handover", "nowhere", "--pdf", "x.pdf")])
def test_an_unknown_job_is_one_line(run, words):
    status, out, err = run(*words)
    assert (status, out) == (2, "")
    assert "nowhere" in err and err.count("\n") == 1

from pathlib import Path

from tests.web.label_vectors import vectors, written

PAGE = Path(__file__).resolve().parents[2] / "mobile_web"


def test_the_pages_label_vectors_are_what_the_reader_here_says():
    kept = (PAGE / "src" / "scan" / "label_vectors.json").read_text()
    assert kept == written(), (
        "the reading of labels changed: python -m tests.web.label_vectors > mobile_web/src/scan/label_vectors.json, "
        "then make src/scan/label_code.ts follow"
    )


def test_the_vectors_hold_labels_of_ours_slips_foreign_labels_and_no_labels():
    answers = {(code is not None, checked) for _, code, checked in vectors()["read"]}
    assert answers == {(True, True), (True, False), (False, None)}

import pytest
from tests.builders import Told

from lastbolt.actions.print_labels import Wish, print_labels
from lastbolt.actions.record import record
from lastbolt.errors import BadInputError, NotFoundError, TemplateError
from lastbolt.label_code import Kind, number_of


def numbers(printed):
    return [number_of(code) for code in printed.codes]


def test_two_prints_never_repeat_a_number(shop):
    first = print_labels(shop, Wish("a4-3x8", count=3))
    second = print_labels(shop, Wish("a4-3x8", count=2))
    assert first.pdf.startswith(b"%PDF") and numbers(first) == [1, 2, 3]
    assert numbers(second) == [4, 5]
    assert print_labels(shop, Wish("a4-3x8", kind=Kind.BAG)).codes == ("B0001G",)


@pytest.mark.parametrize(
    "wish",
    [
        Wish("a4-3x8", count=0),
        Wish("a4-3x8", count=100_000),
        Wish("a4-3x8", start=99),
        Wish("a4-3x8", scale=3.0),
        Wish("a4-3x8", address="http://a-very-long-name." + "x" * 200),
    ],
)
def test_what_does_not_fit_is_told_and_uses_up_no_number(shop, wish):
    with pytest.raises(BadInputError):
        print_labels(shop, wish)
    assert numbers(print_labels(shop, Wish("a4-3x8"))) == [1]


def test_a_mat_has_no_codes(shop):
    printed = print_labels(shop, Wish("mat-a5"))
    assert printed.pdf.startswith(b"%PDF") and printed.codes == ()
    assert numbers(print_labels(shop, Wish("a4-3x8"))) == [1]


def test_an_unknown_layout_is_told(shop):
    with pytest.raises(NotFoundError, match="a4-3x8"):
        print_labels(shop, Wish("a3"))


def test_a_layout_with_mistakes_is_told(shop, wired, tmp_path):
    from dataclasses import replace

    from lastbolt.store.layout_files import LayoutFiles

    (tmp_path / "odd.toml").write_text('kind = "banner"')
    with pytest.raises(TemplateError, match="kind must be"):
        print_labels(replace(shop, layouts=LayoutFiles([tmp_path])), Wish("odd"))


def test_a_job_learns_which_labels_were_printed_for_it(shop, clock):
    record(shop.journal, clock, Told().raws)
    printed = print_labels(shop, Wish("a4-3x8", count=2), job="job 1", by="Ana")
    entry = shop.journal.lines("job 1")[-1].entry
    assert (entry["kind"], tuple(entry["codes"]), entry["by"]) == ("labels-printed", printed.codes, "Ana")


def test_an_unknown_job_is_told_before_anything_is_printed(shop):
    with pytest.raises(NotFoundError, match="nowhere"):
        print_labels(shop, Wish("a4-3x8"), job="nowhere")
    assert numbers(print_labels(shop, Wish("a4-3x8"))) == [1]

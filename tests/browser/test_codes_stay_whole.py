"""A label's code is never torn apart at a line's end, in whatever sentence and at whatever width it stands."""

import pytest
from playwright.sync_api import expect
from tests.browser.conftest import SIZES
from tests.web.shop import JOB
from tests.web.signing_in import sign_in_browser

pytestmark = [pytest.mark.browser, pytest.mark.long]
HAND = (
    "",
    "containers",
    "containers/T0042E",
    "entries",
    "next",
    "start",
    "take-over",
    "give-over",
    "find",
    "work",
)
DESK = ("review", "trays", "history", "handover-sheet")
CODES = r"""() => {
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const found = [];
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    for (const match of node.data.matchAll(/\b[A-Z]-[0-9]{4,6}-[0-9A-Z]\b/g)) {
      const range = document.createRange();
      range.setStart(node, match.index);
      range.setEnd(node, match.index + match[0].length);
      const lines = new Set([...range.getClientRects()].filter((each) => each.width).map((each) => Math.round(each.top)));
      if (lines.size) found.push([match[0], lines.size, node.parentElement.closest("p, h1, h2, h3, li, td, a, button")?.textContent]);
    }
  }
  return found;
}"""


@pytest.mark.parametrize("locale", ["en-GB", "de-DE"])
@pytest.mark.parametrize("size", SIZES)
def test_no_code_is_torn_at_any_width(browser, base_url, size, locale):
    with browser.new_context(locale=locale, viewport=SIZES[size], base_url=base_url) as context:
        sign_in_browser(context, base_url)
        page = context.new_page()
        seen, torn = 0, []
        for screen in HAND if size == "phone" else DESK:
            page.goto(f"/jobs/{JOB}/{screen}")
            expect(page.get_by_role("heading", level=1)).to_be_visible()
            expect(page.locator(".waiting")).to_have_count(0)
            widest = SIZES[size]["width"] + 60
            for width in range(widest - 120, widest, 6):
                page.set_viewport_size({"width": width, "height": SIZES[size]["height"]})
                codes = page.evaluate(CODES)
                seen += len(codes)
                torn += [(screen, width, *code) for code in codes if code[1] > 1]
        print(f"\n{seen} codes looked at")
        assert seen > 100 and torn == []

import { Fragment, h, type VNode } from "preact";
import { describe, expect, it } from "vitest";

import { keepCodesWhole } from "./whole_codes";

keepCodesWhole();

/** Write what would be shown: elements by name, text as it is; what shows nothing is a dot. */
function shape(child: unknown): string {
  if (Array.isArray(child)) return child.map(shape).join("");
  if (child === null || child === undefined || typeof child === "boolean") return ".";
  if (typeof child !== "object") return String(child);
  const { type, props } = child as VNode<{ children?: unknown }>;
  const inside = props.children === undefined ? "" : shape(props.children);
  return type === Fragment ? inside : `<${String(type)}>${inside}</>`;
}

describe("a label's code in a sentence", () => {
  it.each([
    ["a sentence", h("p", null, "Bag T-0042-E is full."), "<p><whole-codes>Bag <whole-code>T-0042-E</> is full.</></>"],
    ["two", h("p", null, "T-0042-E, B-0427-K"), "<p><whole-codes><whole-code>T-0042-E</>, <whole-code>B-0427-K</></></>"],
    ["text in pieces", h("p", null, "Bag ", "T-0042-E", ": ", 8), "<p><whole-codes>Bag <whole-code>T-0042-E</>: 8</>...</>"],
    [
      "beside an element",
      h("p", null, h("b", null, "✓"), " T-0042-E", false, h("i", null, "x")),
      "<p><b>✓</><whole-codes> <whole-code>T-0042-E</></>.<i>x</></>",
    ],
    ["in a list", h("p", null, ["a", "T-0042-E"]), "<p><whole-codes>a<whole-code>T-0042-E</></>.</>"],
    ["in no element", h(Fragment, null, "T-0042-E"), "<whole-codes><whole-code>T-0042-E</></>"],
    ["a choice of a list", h("option", null, "T-0042-E"), "<option>T-0042-E</>"],
    ["in a drawing", h("text", null, "T-0042-E"), "<text>T-0042-E</>"],
    ["none", h("p", null, "M8-1234", " bolts ", 12), "<p>M8-1234 bolts 12</>"],
    ["a longer word", h("p", null, "XT-0042-E1"), "<p>XT-0042-E1</>"],
  ])("%s", (_, vnode, wanted) => {
    expect(shape(vnode)).toBe(wanted);
  });
  it("leaves what a component is given as it is", () => {
    const Named = () => null;
    expect(h(Named, null, "T-0042-E").props).toEqual({ children: "T-0042-E" });
  });
});

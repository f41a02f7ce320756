import { describe, expect, it } from "vitest";

import type { AccessEdge, AccessGraph, AccessNode } from "../sync/desk";
import { layout } from "./layout";

const node = (name: string, holds: string | null = null, kind: AccessNode["kind"] = "part"): AccessNode => ({
  name, kind, state: "back", words: "", forms: [], hidden: false, holds,
}); // prettier-ignore
const over = (source: string, target: string, more: Partial<AccessEdge> = {}): AccessEdge => ({
  kind: "hides", source, target, route: null, need: "final", trusted: true, ...more,
}); // prettier-ignore
const drawn = (nodes: AccessNode[], edges: AccessEdge[]): AccessGraph => ({ nodes, edges, contradictions: [], forms: [] });
const SHELL = drawn(
  [node("shield"), node("manifold"), node("sensor"), node("lid"), node("shield screws", "shield", "set"), node("plug", null, "connection")],
  [over("shield", "manifold"), over("manifold", "sensor"), over("shield", "sensor")],
);

describe("the drawing of a machine", () => {
  it("puts a thing below everything that lies over it", () => {
    const { lines } = layout(SHELL);
    expect(lines).toHaveLength(3);
    for (const line of lines) expect(line.to.y).toBeGreaterThan(line.from.y + line.from.height);
  });
  it("draws what holds a part in the part's box, and each thing once", () => {
    const { boxes } = layout(SHELL);
    expect(boxes.map((box) => box.name).sort()).toEqual(["lid", "manifold", "plug", "sensor", "shield"]);
    expect(boxes.find((box) => box.name === "shield")?.holders.map((each) => each.name)).toEqual(["shield screws"]);
  });
  it("a part that goes on later is drawn over the one that must be on before", () => {
    const { boxes } = layout(drawn([node("hose"), node("clip")], [over("hose", "clip", { kind: "before" })]));
    const [hose, clip] = ["hose", "clip"].map((name) => boxes.find((box) => box.name === name)!);
    expect(clip!.y).toBeLessThan(hose!.y);
  });
  it("a line over a set leads to the box of the part that it holds", () => {
    const { lines } = layout(drawn([node("box"), node("pump"), node("pump bolts", "pump", "set")], [over("box", "pump bolts")]));
    expect(lines.map((line) => [line.from.name, line.to.name])).toEqual([["box", "pump"]]);
  });
  it("a map that runs in a circle is drawn all the same", () => {
    const { boxes, lines } = layout(drawn([node("a"), node("b")], [over("a", "b"), over("b", "a")]));
    expect([boxes.length, lines.length]).toEqual([2, 2]);
  });
  it("no two boxes overlap, however many there are", () => {
    const names = Array.from({ length: 60 }, (_, index) => `part ${index}`);
    const ties = names.slice(0, 40).flatMap((name, index) => (index ? [over(names[(index * 7) % index]!, name)] : []));
    const { boxes, width, height } = layout(drawn(names.map((name) => node(name)), ties));
    expect(boxes).toHaveLength(60);
    boxes.forEach((one, index) => {
      expect(one.x).toBeGreaterThanOrEqual(0);
      expect(one.x + one.width).toBeLessThanOrEqual(width);
      expect(one.y + one.height).toBeLessThanOrEqual(height);
      for (const other of boxes.slice(index + 1)) {
        const apart = one.x + one.width <= other.x || other.x + other.width <= one.x || one.y + one.height <= other.y || other.y + other.height <= one.y;
        expect(apart, `${one.name} and ${other.name}`).toBe(true);
      }
    });
  });
  it("what nothing lies over and lies over nothing comes last", () => {
    const { boxes, apartFrom } = layout(SHELL);
    expect(boxes.filter((box) => box.y > apartFrom!).map((box) => box.name).sort()).toEqual(["lid", "plug"]);
  });
});

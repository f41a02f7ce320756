import type { AccessEdge, AccessGraph, AccessNode } from "../sync/desk";

/** A box of the drawing: a part with what holds it, or a thing by itself; measures in pixels. */
export interface Box {
  readonly name: string;
  readonly node: AccessNode;
  readonly holders: readonly AccessNode[];
  readonly layer: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A line from what lies outside to what it lies over. */
export interface Line {
  readonly from: Box;
  readonly to: Box;
  readonly trusted: boolean;
  readonly said: readonly AccessEdge[];
}

export interface Drawing {
  readonly boxes: readonly Box[];
  readonly lines: readonly Line[];
  readonly width: number;
  readonly height: number;
  /** Where the boxes begin that nothing lies over and that lie over nothing; null when there are none. */
  readonly apartFrom: number | null;
}

export const BOX_WIDTH = 260;
export const HEAD_HEIGHT = 52;
export const ROW_HEIGHT = 26;
const GAP_X = 28;
const GAP_Y = 72;
const MARGIN = 12;
const APART_HEAD = 56;

type Pair = readonly [string, string];

/** Draw a machine: what lies outermost on top, each thing below what lies over it, the rest under it all. */
export function layout(graph: AccessGraph, across = 4): Drawing {
  const owner = ownersOf(graph);
  const pairs = new Map<string, { pair: Pair; said: AccessEdge[] }>();
  for (const edge of graph.edges) {
    const [outer, inner] = edge.kind === "hides" ? [edge.source, edge.target] : [edge.target, edge.source];
    const pair: Pair = [owner.get(outer) ?? outer, owner.get(inner) ?? inner];
    if (pair[0] === pair[1]) continue;
    const known = pairs.get(pair.join("\n")) ?? { pair, said: [] };
    known.said.push(edge);
    pairs.set(pair.join("\n"), known);
  }
  const tied = [...pairs.values()];
  const layers = ordered(layersOf(tied.map(({ pair }) => pair)), tied.map(({ pair }) => pair));
  const inLayers = new Set(layers.flat());
  const apart = [...new Set(graph.nodes.map((node) => owner.get(node.name) ?? node.name))].filter((name) => !inLayers.has(name));
  return placed(graph, owner, layers, apart, tied, across);
}

/** A set or connection that holds a part is drawn in the part's own box. */
function ownersOf(graph: AccessGraph): Map<string, string> {
  const names = new Set(graph.nodes.map((node) => node.name));
  return new Map(graph.nodes.map((node) => [node.name, node.holds && names.has(node.holds) ? node.holds : node.name]));
}

/** Put each name one layer below the deepest that lies over it; where the map runs in a circle the last tie is passed over. */
function layersOf(pairs: readonly Pair[]): string[][] {
  const names = [...new Set(pairs.flat())];
  const over = new Map(names.map((name) => [name, pairs.filter(([, inner]) => inner === name).map(([outer]) => outer)]));
  const depth = new Map<string, number>();
  const walking = new Set<string>();
  const depthOf = (name: string): number => {
    const known = depth.get(name);
    if (known !== undefined) return known;
    if (walking.has(name)) return -1;
    walking.add(name);
    const deepest = Math.max(-1, ...(over.get(name) ?? []).map(depthOf));
    walking.delete(name);
    depth.set(name, deepest + 1);
    return deepest + 1;
  };
  const layers: string[][] = [];
  for (const name of names) (layers[depthOf(name)] ??= []).push(name);
  return layers;
}

/** Order each layer by the middle of what its things are tied to, down and up again, so that few lines cross. */
function ordered(layers: readonly string[][], pairs: readonly Pair[]): string[][] {
  const now = layers.map((layer) => [...(layer ?? [])]);
  const place = new Map<string, number>();
  const note = () => now.forEach((layer) => layer.forEach((name, index) => place.set(name, index / Math.max(1, layer.length - 1 || 1))));
  note();
  for (const side of [0, 1, 0, 1] as const) {
    const turn = side === 0 ? now : [...now].reverse();
    for (const layer of turn) {
      const middle = new Map(
        layer.map((name) => {
          const tied = pairs.filter((pair) => pair[1 - side] === name).map((pair) => place.get(pair[side]) ?? 0);
          return [name, tied.length ? tied.reduce((sum, each) => sum + each, 0) / tied.length : (place.get(name) ?? 0)];
        }),
      );
      layer.sort((left, right) => middle.get(left)! - middle.get(right)!);
      note();
    }
  }
  return now;
}

function placed(
  graph: AccessGraph,
  owner: ReadonlyMap<string, string>,
  layers: readonly string[][],
  apart: readonly string[],
  tied: readonly { pair: Pair; said: readonly AccessEdge[] }[],
  across: number,
): Drawing {
  const nodes = new Map(graph.nodes.map((node) => [node.name, node]));
  const rows = [...layers, ...chunks(apart, across)];
  const widest = Math.max(1, ...rows.map((row) => row.length));
  const width = widest * (BOX_WIDTH + GAP_X) - GAP_X + 2 * MARGIN;
  const boxes: Box[] = [];
  let y = MARGIN;
  let apartFrom: number | null = null;
  rows.forEach((row, layer) => {
    if (layer === layers.length && apart.length) {
      apartFrom = y;
      y += APART_HEAD;
    }
    const left = (width - row.length * (BOX_WIDTH + GAP_X) + GAP_X) / 2;
    const own = row.map((name, index): Box => {
      const holders = graph.nodes.filter((node) => node.name !== name && owner.get(node.name) === name);
      const height = HEAD_HEIGHT + holders.length * ROW_HEIGHT + (holders.length ? 8 : 0);
      return { name, node: nodes.get(name) ?? unknown(name), holders, layer, x: left + index * (BOX_WIDTH + GAP_X), y, width: BOX_WIDTH, height };
    });
    boxes.push(...own);
    y += Math.max(...own.map((box) => box.height)) + (layer < layers.length ? GAP_Y : GAP_X);
  });
  const at = new Map(boxes.map((box) => [box.name, box]));
  const lines = tied.map(({ pair, said }): Line => ({ from: at.get(pair[0])!, to: at.get(pair[1])!, trusted: said.some((edge) => edge.trusted), said }));
  return { boxes, lines, width, height: y + MARGIN, apartFrom };
}

function unknown(name: string): AccessNode {
  return { name, kind: "other", state: "untouched", words: "", forms: [], hidden: false, holds: null };
}

function chunks(names: readonly string[], size: number): string[][] {
  return Array.from({ length: Math.ceil(names.length / size) }, (_, row) => names.slice(row * size, (row + 1) * size));
}
